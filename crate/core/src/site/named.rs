//! What messages call the things of a site: the name that somebody gave it, or else the project's words.

use super::{Benchmark, CheckedFeature, Feature};
use crate::finding::Message;
use crate::finding::said;
use crate::units::{Measure, System, show};

impl Feature {
    /// What the plan calls it, as a value of a message.
    pub fn named(&self) -> Message {
        match self.name.as_str() {
            "" => self.kind.words().into(),
            name => Message::kept(name),
        }
    }
}

impl CheckedFeature {
    /// What the plan calls it, as a value of a message; `records` are the features as the site has them.
    pub fn named(&self, records: &[Feature]) -> Message {
        let record = records.get(self.index);
        record.map_or_else(|| self.kind.words().into(), Feature::named)
    }
}

impl Benchmark {
    /// What the plan calls it, as a value of a message.
    pub fn named(&self) -> Message {
        match self.name.trim() {
            "" => "benchmark".into(),
            name => Message::kept(name),
        }
    }

    /// The mark with its elevation, as a value of a message.
    pub fn told(&self, system: System) -> Message {
        let elevation = show(Measure::Elevation, self.elevation, system).text;
        let mark = self.named();
        match self.assumed {
            true => said!(
                "{mark} {elevation} (assumed)",
                mark = mark,
                elevation = elevation
            ),
            false => said!("{mark} {elevation}", mark = mark, elevation = elevation),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_is_told_as_the_plan_words_it() {
        for (name, assumed) in [("", true), ("nail in the oak", false)] {
            let mark = Benchmark {
                name: name.to_owned(),
                elevation: 30.48,
                assumed,
                at: None,
            };
            assert_eq!(mark.told(System::Feet), mark.words(System::Feet).as_str());
        }
    }
}
