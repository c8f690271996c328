//! A quantity and the arithmetic behind it.

use serde::Serialize;

use super::expression::{Expression, input};
use super::measured_on::MeasuredOn;
use super::range::Range;
use crate::finding::Caveat;
use crate::units::Measure;

/// One quantity with the arithmetic behind it.
#[derive(Debug, Clone, PartialEq)]
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
    pub on: MeasuredOn,
    /// What is paid for by it, where it is bought or paid at all. Lines of one name are measures
    /// of the same thing (a volume and its weight): one of them may carry a rate.
    pub pays_for: Option<&'static str>,
    /// How far it may be out, where that is known (see `analysis::sensitivity`).
    pub range: Option<Range>,
    /// The arithmetic.
    pub working: Working,
    /// Why it is weaker than it looks.
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
    /// The shell, what it holds, and what lifts it.
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
            Self::RodsAndForms => "Rebar and forms",
            Self::Pipe => "Pipe",
            Self::Water => "Shell and water",
        }
    }

    /// The line that says most of it, where a list shows one figure for a group.
    pub const fn chief(self) -> &'static str {
        match self {
            Self::Dig => "cut",
            Self::Grading => "fill",
            Self::Haul => "loads",
            Self::Stone => "stone",
            Self::Concrete => "concrete",
            Self::RodsAndForms => "ties",
            Self::Pipe => "pipe",
            Self::Water => "water-volume",
        }
    }
}

/// How a figure came about.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// What it was worked out by: the value of the line is the value of this.
    pub expression: Expression,
    /// How pieces that were counted came to be whole, where the expression does not tell.
    counted: &'static str,
    /// Where the formula comes from, or "common practice".
    pub source: &'static str,
    /// What it takes for granted, each in a sentence.
    pub assumptions: Vec<&'static str>,
}

impl Working {
    /// How it was rounded, empty when it was not.
    pub fn rounding(&self) -> &'static str {
        match self.counted {
            "" if self.expression.is_whole_up() => WHOLE_UP,
            counted => counted,
        }
    }
}

/// Geometry needs no authority.
pub(super) const GEOMETRY: &str = "geometry of the shell and its settings";

/// Pieces are bought whole.
pub(super) const WHOLE_UP: &str = "up to the next whole number";

impl Line {
    /// A line that an expression gives.
    pub(super) fn new(
        key: &'static str,
        group: Group,
        label: &'static str,
        measure: Measure,
        expression: Expression,
        source: &'static str,
    ) -> Self {
        Self {
            key,
            group,
            label,
            value: expression.value(),
            measure,
            on: MeasuredOn::Nothing,
            pays_for: None,
            range: None,
            working: Working {
                expression,
                counted: "",
                source,
                assumptions: Vec::new(),
            },
            caveats: Vec::new(),
        }
    }

    /// Its value as an input of another line.
    pub(super) const fn named(&self, name: &'static str) -> Expression {
        input(name, self.value, self.measure)
    }

    /// Measured on this geometry.
    pub(super) fn on(mut self, on: MeasuredOn) -> Self {
        self.on = on;
        self
    }

    /// Bought or paid: a measure of the thing of this name.
    pub(super) fn paying_for(mut self, thing: &'static str) -> Self {
        self.pays_for = Some(thing);
        self
    }

    /// Pieces that were counted, and how they came to be whole.
    pub(super) fn counted(mut self, how: &'static str) -> Self {
        self.working.counted = how;
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
