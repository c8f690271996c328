//! The soil: how steep its sides may stand and how it swells.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Soil class of the excavation standard, as a competent person on the site finds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SoilClass {
    /// Stable rock.
    StableRock,
    /// Type A.
    A,
    /// Type B.
    B,
    /// Type C, and every soil that nobody has classified.
    #[default]
    C,
}

impl SoilClass {
    /// Steepest side, horizontal run per unit of rise: 29 CFR 1926 Subpart P Appendix B,
    /// Table B-1 (excavations up to 20 ft deep).
    pub fn side_slope(self) -> f64 {
        match self {
            Self::StableRock => 0.0,
            Self::A => 0.75,
            Self::B => 1.0,
            Self::C => 1.5,
        }
    }
}

/// What the spoil is, for swell and weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum SpoilMaterial {
    /// Sand or gravel.
    Sand,
    /// Loam, common earth.
    #[default]
    CommonEarth,
    /// Clay.
    Clay,
    /// Blasted rock.
    Rock,
}
