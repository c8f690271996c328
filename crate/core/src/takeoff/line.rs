//! A quantity and the arithmetic behind it.

use serde::Serialize;

use super::on::On;
use super::range::Range;
use crate::finding::Caveat;
use crate::units::Measure;

/// One quantity with the arithmetic behind it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// A stable kebab-case name, for scripts and tests (`bank-cut`, `base-stone`).
    pub key: &'static str,
    /// The group it is listed in.
    pub group: Group,
    /// What the ledger calls it.
    pub label: &'static str,
    /// The value in SI units (m, m2, m3, kg, count), waste and rounding included.
    pub value: f64,
    /// What kind of figure it is; sets the unit it is shown in.
    pub measure: Measure,
    /// The geometry it was measured on.
    pub on: On,
    /// What is paid for by it, where it is bought or paid at all. Lines of one name are measures
    /// of the same thing (a volume and its weight): one of them may carry a rate.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pays_for: Option<&'static str>,
    /// How far it may be out, where that is known (see `analysis::sensitivity`).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<Range>,
    /// The arithmetic.
    pub working: Working,
    /// Why it is weaker than it looks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caveats: Vec<Caveat>,
}

/// The groups of the takeoff, in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Group {
    /// What leaves the hole.
    Dig,
    /// The ground round the deck.
    Grading,
    /// How spoil is hauled.
    Haul,
    /// Base, backfill, bed and fabric.
    Stone,
    /// Collar, deck and pad.
    Concrete,
    /// Ties, reinforcing rods, joints and forms.
    RodsAndForms,
    /// Pipe, straps and trenches, and the pipe that lowers groundwater.
    Pipe,
    /// What the shell holds, and what lifts it.
    Water,
}

impl Group {
    /// Every group, in order.
    pub const ALL: [Self; 8] = [
        Self::Dig,
        Self::Grading,
        Self::Haul,
        Self::Stone,
        Self::Concrete,
        Self::RodsAndForms,
        Self::Pipe,
        Self::Water,
    ];

    /// What lists call it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Dig => "Dig",
            Self::Grading => "Grading",
            Self::Haul => "Haul",
            Self::Stone => "Stone",
            Self::Concrete => "Concrete",
            Self::RodsAndForms => "Rods and forms",
            Self::Pipe => "Pipe",
            Self::Water => "Water",
        }
    }
}

/// How a figure came about.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Working {
    /// The formula in words and signs (`area x thickness`); where it is arithmetic, its words
    /// are the names of the inputs, so that their numbers can be put in.
    pub formula: &'static str,
    /// What went into it.
    pub inputs: Vec<Input>,
    /// The fraction added for waste, if any.
    pub waste: Option<f64>,
    /// How it was rounded, empty when it was not.
    pub rounding: &'static str,
    /// Where the formula comes from, or "common practice".
    pub source: &'static str,
    /// What it takes for granted, each in a sentence.
    pub assumptions: Vec<&'static str>,
}

/// One number that went into a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Input {
    /// What it is.
    pub name: &'static str,
    /// Its value in SI units.
    pub value: f64,
    /// What kind of figure it is.
    pub measure: Measure,
    /// Where it comes from, when it is a constant or a setting; empty when it was measured.
    pub source: &'static str,
}

/// What the user set, or left at the default of the trade.
pub(super) const SETTING: &str = "setting; default is common practice";

/// Geometry needs no authority.
pub(super) const GEOMETRY: &str = "geometry of the shell and its settings";

/// Pieces are bought whole.
pub(super) const WHOLE_UP: &str = "up to the next whole number";

impl Line {
    /// A line without inputs yet.
    pub(super) fn new(
        key: &'static str,
        group: Group,
        label: &'static str,
        (value, measure): (f64, Measure),
        formula: &'static str,
        source: &'static str,
    ) -> Self {
        Self {
            key,
            group,
            label,
            value,
            measure,
            on: On::Nothing,
            pays_for: None,
            range: None,
            working: Working {
                formula,
                source,
                ..Working::default()
            },
            caveats: Vec::new(),
        }
    }

    /// Measured on this geometry.
    pub(super) fn on(mut self, on: On) -> Self {
        self.on = on;
        self
    }

    /// Bought or paid: a measure of the thing of this name.
    pub(super) fn paying_for(mut self, thing: &'static str) -> Self {
        self.pays_for = Some(thing);
        self
    }

    /// With an input that was measured or worked out.
    pub(super) fn with(mut self, name: &'static str, value: f64, measure: Measure) -> Self {
        self.working.inputs.push(Input {
            name,
            value,
            measure,
            source: "",
        });
        self
    }

    /// With an input that somebody set or published.
    pub(super) fn given(
        mut self,
        name: &'static str,
        value: f64,
        measure: Measure,
        source: &'static str,
    ) -> Self {
        self.working.inputs.push(Input {
            name,
            value,
            measure,
            source,
        });
        self
    }

    /// With the fraction added for waste, an input named `waste`.
    pub(super) fn wasting(mut self, fraction: f64) -> Self {
        self.working.waste = Some(fraction);
        self.given("waste", fraction, Measure::Fraction, SETTING)
    }

    /// Rounded as said.
    pub(super) fn rounded(mut self, how: &'static str) -> Self {
        self.working.rounding = how;
        self
    }

    /// With what it takes for granted, where that applies.
    pub(super) fn assuming(mut self, applies: bool, what: &'static str) -> Self {
        if applies {
            self.working.assumptions.push(what);
        }
        self
    }
}

/// Whole pieces that hold an amount. A billionth of a piece too much is rounding noise of
/// the sum, not a piece. Nothing is a plain zero: which of the two zeros `max` gives differs
/// between machines.
pub(super) fn whole_up(pieces: f64) -> f64 {
    (pieces - 1e-9).ceil().max(0.0) + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_round_up_but_not_for_noise() {
        assert_eq!(whole_up(10.000_000_000_001), 10.0);
        assert_eq!(whole_up(10.001), 11.0);
        assert_eq!(whole_up(0.0), 0.0);
        assert!(whole_up(0.0).is_sign_positive() && whole_up(-0.5).is_sign_positive());
    }
}
