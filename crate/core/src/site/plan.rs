//! What the user keeps beside the plan: rates, the line of the section, other placements.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::placement::Placement;
use crate::geom::Point;
use crate::units::RateUnit;

/// What one unit of a quantity costs, in the currency of the site.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Rate {
    /// The stable name of the quantity (`base-stone`).
    pub key: String,
    /// Money for one unit of it.
    pub rate: f64,
    /// The unit, as the rate was typed; without it the SI unit (a meter, square meter, cubic meter,
    /// kilogram, piece).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub per: Option<RateUnit>,
}

impl Rate {
    /// Money for one SI unit of the quantity.
    pub fn per_si(&self) -> f64 {
        self.per
            .map_or(self.rate, |per| per.unit().from_si(self.rate))
    }
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
