//! The soil: how steep its sides may stand and how it swells.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::constants::{CUBIC_YARD, POUND};

/// Soil class of the excavation standard, as a competent person on the site finds it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
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

    /// The class in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::StableRock => "stable rock",
            Self::A => "Type A",
            Self::B => "Type B",
            Self::C => "Type C",
        }
    }
}

/// Who says how steep a side may stand.
pub const SIDE_SLOPE_SOURCE: &str = "29 CFR 1926 Subpart P Appendix B, Table B-1, for digs up to 20 ft deep; a competent person \
     on the site decides";

/// What the spoil is, for swell and weight.
///
/// Swell and shrink are both told per *bank* volume (in place, before digging). A shrink must
/// never be applied to a loose volume, and a loose volume goes back to bank by division: the
/// published tables of all six factors are rounded to two digits and do not come back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
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

impl SpoilMaterial {
    /// Loose volume per bank volume; see [`Self::swell_source`].
    pub fn loose_per_bank(self) -> f64 {
        match self {
            Self::Sand => 1.11,
            Self::CommonEarth => 1.25,
            Self::Clay => 1.43,
            Self::Rock => 1.50,
        }
    }

    /// Compacted volume per bank volume; see [`Self::swell_source`].
    pub fn compacted_per_bank(self) -> f64 {
        match self {
            Self::Sand => 0.95,
            Self::CommonEarth | Self::Clay => 0.90,
            Self::Rock => 1.30,
        }
    }

    /// Where swell and shrink come from. Only the row of sand was read; the rest of the table
    /// was recalled, and says so wherever it is shown.
    pub fn swell_source(self) -> &'static str {
        match self {
            Self::Sand => {
                "Navy training manual, table of volume changes: 100 yd3 of sand in place yield \
                 111 loose and 95 compacted"
            }
            Self::CommonEarth | Self::Clay | Self::Rock => {
                "US Army FM 5-434 table, from memory; check before relying on it"
            }
        }
    }

    /// Weight of a bank cubic meter, kilograms; see [`Self::density_source`]. The denser row
    /// is taken where the table has several, so that trucks are not overloaded.
    pub fn bank_density(self) -> f64 {
        let pounds_per_cubic_yard = match self {
            Self::Sand => 3_086.0,
            Self::CommonEarth => 3_374.0,
            Self::Clay => 2_942.0,
            Self::Rock => 4_375.0,
        };
        pounds_per_cubic_yard * POUND / CUBIC_YARD
    }

    /// Where the weight comes from, and which row of its table it is.
    pub fn density_source(self) -> &'static str {
        match self {
            Self::Sand => "weights of materials, doi 10.1201/b12981-45: sand, wet",
            Self::CommonEarth => "weights of materials, doi 10.1201/b12981-45: earth, dense",
            Self::Clay => "weights of materials, doi 10.1201/b12981-45: clay, compacted",
            Self::Rock => "weights of materials, doi 10.1201/b12981-45: limestone, solid",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loose_to_bank_and_back_returns_the_bank_value() {
        for material in [
            SpoilMaterial::Sand,
            SpoilMaterial::CommonEarth,
            SpoilMaterial::Clay,
            SpoilMaterial::Rock,
        ] {
            let loose = 143.7 * material.loose_per_bank();
            assert!((loose / material.loose_per_bank() - 143.7).abs() < 1e-12);
            assert!(material.loose_per_bank() > 1.0);
            assert!(material.bank_density() > 1000.0 && material.bank_density() < 3000.0);
        }
    }
}
