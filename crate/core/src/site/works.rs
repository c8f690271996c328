//! The work round the shell: over-dig, base, collar, deck, ties, stone, haul.
//!
//! Every default is common practice with no published source unless its line names one, and
//! every one may be edited.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::soil::{SoilClass, SpoilMaterial};
use crate::units::constants::{CUBIC_YARD, FOOT, INCH, POUND, SHORT_TON};

/// All settings of the work.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct Works {
    /// The hole.
    pub dig: DigSettings,
    /// The stone under and beside the shell.
    pub stone: StoneSettings,
    /// The concrete collar.
    pub collar: CollarSettings,
    /// The deck.
    pub deck: DeckSettings,
    /// The rods between coping and deck.
    pub ties: TieSettings,
    /// The dewatering pipe.
    pub dewatering: DewateringSettings,
    /// The trucks.
    pub haul: HaulSettings,
    /// Allowances for waste.
    pub waste: WasteSettings,
}

/// The hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct DigSettings {
    /// Width dug beyond the wall at the bottom, metres.
    pub over_dig: f64,
    /// Thickness of the stone base under the floor, measured vertically, metres.
    pub base_thickness: f64,
    /// Soil class; sets the side slope.
    pub soil: SoilClass,
    /// Side slope (horizontal run per unit of rise) in place of the soil class's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side_slope: Option<f64>,
    /// What the spoil is; sets swell and weight.
    pub material: SpoilMaterial,
    /// Loose volume per bank volume, in place of the material's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub swell: Option<f64>,
    /// Weight of a bank cubic metre, kilograms, in place of the material's own (wet soil).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub density: Option<f64>,
}

impl DigSettings {
    /// The side slope in force, horizontal run per unit of rise.
    pub fn slope(&self) -> f64 {
        self.side_slope.unwrap_or_else(|| self.soil.side_slope())
    }

    /// The swell in force, loose volume per bank volume.
    pub fn loose_per_bank(&self) -> f64 {
        self.swell.unwrap_or_else(|| self.material.loose_per_bank())
    }

    /// The weight in force, kilograms per bank cubic metre.
    pub fn bank_density(&self) -> f64 {
        self.density.unwrap_or_else(|| self.material.bank_density())
    }
}

impl Default for DigSettings {
    fn default() -> Self {
        Self {
            over_dig: 8.0 * INCH,
            base_thickness: 4.0 * INCH,
            soil: SoilClass::default(),
            side_slope: None,
            material: SpoilMaterial::default(),
            swell: None,
            density: None,
        }
    }
}

/// The clean angular stone of base and backfill.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct StoneSettings {
    /// Weight of a loose cubic metre, kilograms. 1.35 short tons per loose cubic yard.
    pub density: f64,
}

impl Default for StoneSettings {
    fn default() -> Self {
        Self {
            density: 1.35 * SHORT_TON / CUBIC_YARD,
        }
    }
}

/// The concrete collar round the rim.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct CollarSettings {
    /// Width outside the rim, metres.
    pub width: f64,
    /// Depth of the concrete, metres.
    pub depth: f64,
    /// Depth of its top below the rim (the deck passes over it), metres.
    pub top_below_rim: f64,
}

impl CollarSettings {
    /// Depth of the collar's underside below the rim, metres.
    pub fn underside(&self) -> f64 {
        self.top_below_rim + self.depth
    }
}

impl Default for CollarSettings {
    fn default() -> Self {
        Self {
            width: 12.0 * INCH,
            depth: 12.0 * INCH,
            top_below_rim: 4.0 * INCH,
        }
    }
}

/// The deck: a band of even width round the rim.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct DeckSettings {
    /// Width outside the rim, metres; 0 for no deck.
    pub width: f64,
    /// Thickness of the slab, metres.
    pub thickness: f64,
    /// Thickness of the stone bed under it, metres.
    pub bed: f64,
    /// Drop per metre of run, away from the rim.
    pub fall: f64,
}

impl Default for DeckSettings {
    fn default() -> Self {
        Self {
            width: 4.0 * FOOT,
            thickness: 4.0 * INCH,
            bed: 4.0 * INCH,
            fall: 0.25 / 12.0,
        }
    }
}

/// The rods between coping and deck.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct TieSettings {
    /// Greatest distance from tie to tie along the rim, metres.
    pub spacing: f64,
    /// Length of one rod, metres.
    pub length: f64,
}

impl Default for TieSettings {
    fn default() -> Self {
        Self {
            spacing: 24.0 * INCH,
            length: 24.0 * INCH,
        }
    }
}

/// The pipe that stands beside the deep end, down to the underside of the base.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct DewateringSettings {
    /// Nominal diameter, metres.
    pub diameter: f64,
    /// How far it stands above the rim, metres.
    pub above_rim: f64,
}

impl Default for DewateringSettings {
    fn default() -> Self {
        Self {
            diameter: 8.0 * INCH,
            above_rim: 0.0,
        }
    }
}

/// The trucks that carry spoil away.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct HaulSettings {
    /// Volume of the box, cubic metres, loose.
    pub box_volume: f64,
    /// Legal payload, kilograms.
    pub payload: f64,
}

impl Default for HaulSettings {
    /// A three-axle dump truck: a 10 cubic yard box and 27,000 lb of payload.
    fn default() -> Self {
        Self {
            box_volume: 10.0 * CUBIC_YARD,
            payload: 27_000.0 * POUND,
        }
    }
}

/// What is bought beyond the measured amount, as fractions.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default)]
pub struct WasteSettings {
    /// Stone: loss and compaction into the bottom.
    pub stone: f64,
    /// Concrete.
    pub concrete: f64,
}

impl Default for WasteSettings {
    fn default() -> Self {
        Self {
            stone: 0.10,
            concrete: 0.05,
        }
    }
}
