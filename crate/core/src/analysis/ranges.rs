//! Low and high of every quantity, as they go from where they were worked out to where they are shown.

use serde::{Deserialize, Serialize};

use crate::takeoff::Range;

/// Low and high of every quantity that has them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Ranges {
    /// One entry for each, in the order of the takeoff.
    pub lines: Vec<LineRange>,
}

/// Low and high of one quantity.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct LineRange {
    /// The quantity's stable name.
    pub key: String,
    /// Its low and high.
    #[cfg_attr(feature = "typescript", tsify(type = "QuantityRange"))]
    pub range: Range,
}

impl Ranges {
    /// That of a quantity.
    pub fn of(&self, key: &str) -> Option<&Range> {
        let line = self.lines.iter().find(|line| line.key == key);
        line.map(|line| &line.range)
    }
}
