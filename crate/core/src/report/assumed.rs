//! What stays assumed, in words and figures: the list that goes with every result.

use serde::Serialize;

use super::Figure;
use super::table::{heading, hung};
use crate::analysis::{Analysis, Assumption, Leeway, Way, assumptions};
use crate::finding::{Message, said};
use crate::site::CheckedSite;
use crate::units::{Measure, System};

/// Something that is taken for granted.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct AssumedFigures {
    /// What, in a sentence.
    #[cfg_attr(feature = "typescript", tsify(type = "string"))]
    pub what: Message,
    /// How far wrong it may be before a rule falls short, in a sentence.
    #[cfg_attr(feature = "typescript", tsify(type = "string | null"))]
    pub leeway: Option<Message>,
    /// The same as a figure: a length, or the slope at which the rule falls short.
    pub by: Option<Figure>,
    /// What would settle it, in a sentence.
    pub settled_by: &'static str,
}

impl AssumedFigures {
    /// Everything that stays assumed on a site.
    pub fn all(site: &CheckedSite, analysis: &Analysis, system: System) -> Vec<Self> {
        let all = assumptions(site, analysis).into_iter();
        all.map(|it| Self::of(it, analysis, system)).collect()
    }

    /// What there is to say of it, sentence by sentence.
    pub fn sentences(&self) -> impl Iterator<Item = Message> {
        let settled = Message::from(self.settled_by);
        let told = core::iter::once(self.what.clone()).chain(self.leeway.clone());
        told.chain([settled])
    }

    fn of(it: Assumption, analysis: &Analysis, system: System) -> Self {
        let figure = |leeway: &Leeway| {
            let measure = match leeway.way {
                Way::Nearer | Way::Higher => Measure::Length,
                Way::Flatter => Measure::Slope,
            };
            Figure::new(measure, leeway.by, system)
        };
        Self {
            leeway: it
                .leeway
                .and_then(|leeway| words(&leeway, analysis, figure(&leeway).shown.text)),
            by: it.leeway.as_ref().map(figure),
            what: it.what,
            settled_by: it.settled_by,
        }
    }
}

fn words(leeway: &Leeway, analysis: &Analysis, by: String) -> Option<Message> {
    let clearance = analysis.clearances.get(leeway.clearance)?;
    let (rule, target) = (clearance.name.clone(), clearance.target.clone());
    Some(if leeway.by <= 0.0 {
        said!(
            "\"{rule}\" ({target}) is not kept as it is.",
            rule = rule,
            target = target
        )
    } else {
        match leeway.way {
            Way::Nearer => said!(
                "It may lie {by} nearer before \"{rule}\" ({target}) is no longer kept.",
                by = by,
                rule = rule,
                target = target,
            ),
            Way::Higher => said!(
                "The ground may stand {by} higher before \"{rule}\" ({target}) is no longer kept.",
                by = by,
                rule = rule,
                target = target,
            ),
            Way::Flatter => said!(
                "The sides may be as flat as {by} before \"{rule}\" ({target}) is no longer kept.",
                by = by,
                rule = rule,
                target = target,
            ),
        }
    })
}

/// The list as text.
pub(super) fn text(all: &[AssumedFigures], out: &mut String) {
    if all.is_empty() {
        return;
    }
    heading("What stays assumed", out);
    for it in all {
        let sentences: Vec<String> = it.sentences().map(|it| it.to_string()).collect();
        hung("  - ", &sentences.join(" "), out);
    }
}
