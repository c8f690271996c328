//! What the user keeps beside the plan: rates, the line of the section, other placements.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::placement::Placement;
use crate::geom::Point;

/// What one unit of a quantity costs. No currency: the user knows theirs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Rate {
    /// The stable name of the quantity (`base-stone`).
    pub key: String,
    /// Money for one SI unit of it (a meter, square meter, cubic meter, kilogram, piece).
    pub rate: f64,
}

/// Where the section is cut.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct SectionLine {
    /// Its left end as the section is looked at, site meters.
    pub from: Point,
    /// Its right end.
    pub to: Point,
}

/// A shell and a place kept to be compared.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Alternative {
    /// What it is called.
    pub name: String,
    /// The shell and where it would stand.
    pub placement: Placement,
}
