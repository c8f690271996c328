//! One figure as the report tells it: in SI units and as people read it, both ways.

use serde::Serialize;

use crate::units::{Measure, Shown, System, show};

/// A figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Figure {
    /// Its value in SI units.
    pub value: f64,
    /// The SI unit's sign.
    pub unit: &'static str,
    /// As shown in the report's units.
    pub shown: Shown,
    /// As shown in the other units.
    pub other: Shown,
}

impl Figure {
    /// A figure of the given kind, its value in SI units.
    pub fn new(measure: Measure, value: f64, system: System) -> Self {
        Self {
            value,
            unit: measure.si_unit().symbol(),
            shown: show(measure, value, system),
            other: show(measure, value, system.other()),
        }
    }

    /// How large it is, whatever its sign, as shown.
    pub(super) fn step(&self) -> String {
        let text = &self.shown.text;
        let sign = |c| matches!(c, '-' | '\u{2212}' | '+');
        text.trim_start_matches(sign).to_owned()
    }

    /// Both ways in one line; once where both read the same.
    pub(super) fn both(&self) -> String {
        if self.shown.text == self.other.text {
            self.shown.text.clone()
        } else {
            format!("{} ({})", self.shown.text, self.other.text)
        }
    }
}
