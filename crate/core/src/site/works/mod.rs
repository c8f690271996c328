//! The work round the shell: over-dig, base, collar, deck, ties, stone, haul.
//!
//! Every default is common practice with no published source unless its line names one, and
//! every one may be edited.

mod access;
mod dig;
mod pipe;
mod spoil;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use access::{AccessSettings, CraneSettings, MachineSize};
pub use dig::{BaseZone, Bench, DigSettings, HoleSide, SideSettings, SoilLayer};
pub use pipe::{DewateringSettings, Fitting, FittingKind, PIPE_SOURCE, PipeSettings, PipeSize};
pub use spoil::{HaulSettings, SpoilSettings};

use crate::units::constants::{CUBIC_YARD, FOOT, INCH, SHORT_TON};

/// All settings of the work.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct ConstructionSettings {
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
    /// The equipment pad.
    pub pad: PadSettings,
    /// The pipe between shell and equipment.
    pub pipe: PipeSettings,
    /// The ground round the deck.
    pub grading: GradingSettings,
    /// The spoil that stays a while.
    pub spoil: SpoilSettings,
    /// Elevation to which groundwater stands at its highest, meters; unknown without it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub groundwater: Option<f64>,
    /// Uncertainty of the figures.
    pub doubt: DoubtSettings,
    /// What has to come from the street to the hole.
    pub access: AccessSettings,
    /// The crane.
    pub crane: CraneSettings,
}

/// The clean angular stone of base and backfill.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct StoneSettings {
    /// Weight of a loose cubic meter, kilograms. 1.35 short tons per loose cubic yard.
    pub density: f64,
    /// Share of its volume that is air or water.
    pub voids: f64,
    /// Thickness of one lift of backfill, meters.
    pub lift: f64,
    /// Whether fabric parts the stone from the soil.
    pub fabric: bool,
}

impl Default for StoneSettings {
    fn default() -> Self {
        Self {
            density: 1.35 * SHORT_TON / CUBIC_YARD,
            voids: 0.40,
            lift: 12.0 * INCH,
            fabric: true,
        }
    }
}

/// The concrete collar round the rim.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct CollarSettings {
    /// Width outside the rim, meters.
    pub width: f64,
    /// Depth of the concrete, meters.
    pub depth: f64,
    /// Depth of its top below the rim (the deck passes over it), meters.
    pub top_below_rim: f64,
    /// Reinforcing rods that run round it.
    pub bars: f64,
}

impl CollarSettings {
    /// Depth of the collar's underside below the rim, meters.
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
            bars: 2.0,
        }
    }
}

/// The deck: a band of even width round the rim.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct DeckSettings {
    /// Width outside the rim, meters; 0 for no deck.
    pub width: f64,
    /// Thickness of the slab, meters.
    pub thickness: f64,
    /// Thickness of the stone bed under it, meters.
    pub bed: f64,
    /// Drop per meter of run, away from the rim.
    pub fall: f64,
    /// Greatest distance between control joints, meters.
    pub joint_spacing: f64,
    /// Distance between reinforcing rods, both ways, meters; 0 for none.
    pub rod_spacing: f64,
}

impl Default for DeckSettings {
    fn default() -> Self {
        Self {
            width: 4.0 * FOOT,
            thickness: 4.0 * INCH,
            bed: 4.0 * INCH,
            fall: 0.25 / 12.0,
            joint_spacing: 8.0 * FOOT,
            rod_spacing: 18.0 * INCH,
        }
    }
}

/// The rods between coping and deck.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct TieSettings {
    /// Greatest distance from tie to tie along the rim, meters.
    pub spacing: f64,
    /// Length of one rod, meters.
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

/// What is bought beyond the measured amount, as fractions.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct WasteSettings {
    /// Stone: loss and compaction into the bottom.
    pub stone: f64,
    /// Concrete.
    pub concrete: f64,
    /// Pipe: offcuts.
    pub pipe: f64,
    /// Fabric: laps and offcuts.
    pub fabric: f64,
    /// Rods: laps and offcuts.
    pub rods: f64,
}

impl Default for WasteSettings {
    fn default() -> Self {
        Self {
            stone: 0.10,
            concrete: 0.05,
            pipe: 0.10,
            fabric: 0.15,
            rods: 0.10,
        }
    }
}

/// The slab that pump, filter and heater stand on.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct PadSettings {
    /// Thickness of the slab, meters.
    pub thickness: f64,
    /// Thickness of the stone bed under it, meters.
    pub bed: f64,
}

impl Default for PadSettings {
    fn default() -> Self {
        Self {
            thickness: 4.0 * INCH,
            bed: 4.0 * INCH,
        }
    }
}

/// The ground round the deck, once it is finished.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct GradingSettings {
    /// Run per unit of rise of the banks from the deck's edge to the ground.
    pub bank_slope: f64,
    /// Height of fill above the ground from which it is a wall that somebody has to design,
    /// meters: arbitrary, the local authority has its own.
    pub retained_limit: f64,
}

impl Default for GradingSettings {
    fn default() -> Self {
        Self {
            bank_slope: 3.0,
            retained_limit: 2.0 * FOOT,
        }
    }
}

/// How far figures may be out: what the low and the high of a quantity come from.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct DoubtSettings {
    /// How far the swell may be out, as a share of what it adds (0.2: 20 of every 100 parts).
    pub swell: f64,
    /// How far the over-dig may be out, either way, meters.
    pub over_dig: f64,
    /// How far the ground may lie above or below the spots, meters.
    pub ground: f64,
}

impl Default for DoubtSettings {
    fn default() -> Self {
        Self {
            swell: 0.2,
            over_dig: 2.0 * INCH,
            ground: 0.1 * FOOT,
        }
    }
}

#[cfg(test)]
mod tests;
