//! Every figure that the work rests on: its value, its unit, where it comes from and how it was checked.
//!
//! Values are read from the code itself, never written here a second time. A public constant of the core that is missing
//! here is a fault of `cargo xtask tidy`; a setting without a source fails a test, and so does a check that names a test
//! which is not there.

mod choices;
mod law;
mod nature;
mod settings;
mod trade;

use core::fmt::Write as _;

use serde::Serialize;

use crate::report::Figure;
use crate::units::{Measure, System};

/// Where a figure comes from.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "FigureSource")
)]
#[serde(rename_all = "kebab-case", tag = "kind", content = "text")]
pub enum Source {
    /// It is so by definition; where that stands.
    Defined(String),
    /// It was read there.
    Read(String),
    /// It was recalled of there and not read: to be looked up before anyone relies on it.
    FromMemory(String),
    /// Common practice of the trade, with no source.
    CommonPractice,
    /// An example to be replaced by what holds on the lot.
    Example(String),
    /// This project's own choice, and why.
    OurChoice(String),
}

impl Source {
    fn read(of: &str) -> Self {
        Self::Read(of.to_owned())
    }

    fn choice(why: &str) -> Self {
        Self::OurChoice(why.to_owned())
    }

    /// In a few words.
    pub fn words(&self) -> String {
        match self {
            Self::Defined(of) => format!("by definition: {of}"),
            Self::Read(of) => of.clone(),
            Self::FromMemory(of) => format!("{of}, from memory: look it up"),
            Self::CommonPractice => "common practice, no source".to_owned(),
            Self::Example(of) => of.clone(),
            Self::OurChoice(why) => format!("our choice: {why}"),
        }
    }
}

/// How a figure was checked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Check {
    /// By a test of `tests/reference`, named `module::function`.
    Reference(&'static str),
    /// By a comparison with another library, a file of `tests/peers`.
    Peer(&'static str),
    /// There is nothing outside this project to check it by.
    Nothing,
}

impl Check {
    fn words(self) -> String {
        match self {
            Self::Reference(name) => {
                let words = name.replace("::", ": ").replace('_', " ");
                format!("tests/reference, {words}")
            }
            Self::Peer(file) => format!("tests/peers/{file}"),
            Self::Nothing => "not checked outside".to_owned(),
        }
    }
}

/// What a figure belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// Units, and what nature and geodesy fix.
    Nature,
    /// The excavation and crane standards.
    Law,
    /// Soil, pipe, concrete and stakes as the trade reckons with them.
    Trade,
    /// What a new site starts with. Every one can be changed.
    Settings,
    /// Rules that a new site offers as examples.
    Rules,
    /// How finely the program works, and where it draws a line.
    Choices,
}

impl Group {
    /// Its heading.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Law => "Safety standards",
            Self::Trade => "Soil, pipe, concrete, stakes",
            Self::Settings => "What a new site starts with",
            Self::Rules => "Example rules",
            Self::Nature => "Units and nature",
            Self::Choices => "Our own limits",
        }
    }
}

/// A figure with its source.
#[derive(Debug, Clone, PartialEq)]
pub struct Sourced {
    /// What it belongs to.
    pub group: Group,
    /// What it is.
    pub name: String,
    /// Where it stands in a site file, if it does.
    pub place: Option<String>,
    /// What kind of figure it is.
    pub measure: Measure,
    /// Its value, SI units; none where a new site leaves it open.
    pub value: Option<f64>,
    /// Where it comes from.
    pub source: Source,
    /// How it was checked.
    pub check: Check,
}

/// Every figure, group by group.
pub fn all() -> Vec<Sourced> {
    [
        law::figures(),
        trade::figures(),
        settings::figures(),
        trade::rules(),
        nature::figures(),
        choices::figures(),
    ]
    .concat()
}

/// A figure as it is told.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct SourcedFigure {
    /// The heading that it stands under.
    pub group: &'static str,
    /// What it is.
    pub name: String,
    /// Where it stands in a site file, if it does.
    pub place: Option<String>,
    /// Its value; none where a new site leaves it open.
    pub figure: Option<Figure>,
    /// Where it comes from, in words.
    pub source: String,
    /// The same by kind.
    #[cfg_attr(feature = "typescript", tsify(type = "FigureSource"))]
    pub from: Source,
    /// How it was checked, in words.
    pub checked: String,
}

/// Every figure as it is told, in these units.
pub fn figures(system: System) -> Vec<SourcedFigure> {
    let all = all().into_iter();
    all.map(|it| SourcedFigure {
        group: it.group.words(),
        figure: it.value.map(|value| told(it.measure, value, system)),
        source: it.source.words(),
        checked: it.check.words(),
        name: it.name,
        place: it.place,
        from: it.source,
    })
    .collect()
}

/// A figure as people read it; a plain number with every digit that it has, as other figures follow from it.
fn told(measure: Measure, value: f64, system: System) -> Figure {
    let mut figure = Figure::new(measure, value, system);
    if measure == Measure::Ratio {
        let digits = format!("{value:.12}");
        let digits = digits.trim_end_matches('0').trim_end_matches('.');
        for shown in [&mut figure.shown, &mut figure.other] {
            digits.clone_into(&mut shown.text);
        }
    }
    figure
}

/// Every figure as text, in these units.
pub fn text(system: System) -> String {
    let mut text = String::from(
        "Every figure that the work rests on, where it comes from and how it was checked.\n\
         What is from memory is to be looked up, and local codes come before all of it.\n",
    );
    let mut group = "";
    for it in figures(system) {
        if it.group != group {
            group = it.group;
            let _ = write!(text, "\n{group}\n");
        }
        let shown = it
            .figure
            .map_or("left open".to_owned(), |it| it.shown.text.clone());
        let _ = write!(
            text,
            "  {}: {shown}\n      {}; {}\n",
            it.name, it.source, it.checked
        );
    }
    text
}

/// One figure.
fn figure(
    group: Group,
    (name, measure, value): (impl Into<String>, Measure, f64),
    source: Source,
    check: Check,
) -> Sourced {
    Sourced {
        group,
        name: name.into(),
        place: None,
        measure,
        value: Some(value),
        source,
        check,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_has_a_name_of_its_own_a_value_and_words_for_its_source() {
        let all = all();
        assert!(all.len() > 150, "{}", all.len());
        for (number, it) in all.iter().enumerate() {
            assert!(it.value.is_none_or(f64::is_finite), "{}", it.name);
            assert!(it.source.words().len() > 8, "{}", it.name);
            let again = all
                .iter()
                .skip(number + 1)
                .find(|other| other.name == it.name);
            assert!(
                again.is_none_or(|other| other.place != it.place),
                "{} stands there twice",
                it.name
            );
        }
    }

    #[test]
    fn plain_numbers_have_all_their_digits() {
        let text = text(System::Feet);
        for line in [
            "Meters in a foot: 0.3048\n",
            "Cubic meters in a gallon: 0.003785411784\n",
            "Power of flow in the friction formula: 1.852\n",
            "Loose volume for one of bank, clay: 1.43\n",
            "A full turn in radians: 6.28318530718\n",
        ] {
            assert!(text.contains(line), "{line}");
        }
    }

    #[test]
    fn what_is_from_memory_says_so() {
        let all = figures(System::Feet);
        let recalled = all
            .iter()
            .filter(|it| matches!(it.from, Source::FromMemory(_)));
        assert!(recalled.clone().count() > 3);
        for it in recalled {
            assert!(it.source.contains("from memory"), "{}", it.name);
        }
        assert!(text(System::Feet).contains("from memory: look it up"));
    }
}
