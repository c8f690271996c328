//! Units: metres, kilograms and radians inside, everything else only here.

pub mod constants;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The units a user reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum System {
    /// Feet, inches, cubic yards, gallons, short tons.
    #[default]
    Feet,
    /// Metres, cubic metres, litres, tonnes.
    Metres,
}

/// What kind of figure a number is; sets the unit it travels in and those it is shown in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Measure {
    /// A length read on a tape: feet and inches, or metres.
    Length,
    /// An elevation or a length off a plat: decimal feet, or metres.
    Elevation,
    /// A plan area: square feet, or square metres.
    Area,
    /// Earth, stone or concrete: cubic yards, or cubic metres.
    EarthVolume,
    /// Water: gallons, or litres.
    WaterVolume,
    /// Bulk goods: short tons, or tonnes.
    Mass,
    /// Things and people: pounds, or kilograms.
    Weight,
    /// Bulk density: short tons per cubic yard, or tonnes per cubic metre.
    Density,
    /// Pieces.
    Count,
    /// A plain number.
    Ratio,
    /// A fraction shown in percent.
    Fraction,
    /// Horizontal run per unit of rise, H:V.
    Slope,
    /// A bearing, shown in degrees.
    Bearing,
}
