//! What has to come to the hole, and how it is lifted in: machines, the shell on its way, the crane.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::constants::{FOOT, INCH, POUND};

/// How wide, long and high a machine is, and how it turns.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct MachineSize {
    /// Its width over everything, meters.
    pub width: f64,
    /// Wheelbase, meters; of a machine that turns on the spot its whole length.
    pub wheelbase: f64,
    /// Radius on which the middle of its front axle turns, meters; 0 of a machine that turns on the
    /// spot.
    pub turning_radius: f64,
    /// Its height as it travels, meters.
    pub height: f64,
}

/// What has to come from the street to the hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct AccessSettings {
    /// Room kept on either side of whatever passes, meters.
    pub side_room: f64,
    /// Room kept above it, meters.
    pub room_above: f64,
    /// The excavator.
    pub excavator: MachineSize,
    /// The truck.
    pub truck: MachineSize,
    /// The skid loader.
    pub skid_loader: MachineSize,
    /// Height of the underside of the shell above the ground while it is carried, meters.
    pub carried_at: f64,
    /// Room that the shell on edge needs beside its depth, for hands and dollies, meters.
    pub handling: f64,
    /// Length of one panel of a fence, meters.
    pub panel: f64,
}

impl Default for AccessSettings {
    /// Common practice with no source: a 5-ton excavator, a three-axle dump truck, a small skid
    /// loader.
    fn default() -> Self {
        Self {
            side_room: 6.0 * INCH,
            room_above: 1.0 * FOOT,
            excavator: MachineSize {
                width: 6.5 * FOOT,
                wheelbase: 9.0 * FOOT,
                turning_radius: 0.0,
                height: 8.5 * FOOT,
            },
            truck: MachineSize {
                width: 8.5 * FOOT,
                wheelbase: 20.0 * FOOT,
                turning_radius: 42.0 * FOOT,
                height: 11.0 * FOOT,
            },
            skid_loader: MachineSize {
                width: 5.5 * FOOT,
                wheelbase: 10.0 * FOOT,
                turning_radius: 0.0,
                height: 6.75 * FOOT,
            },
            carried_at: 3.0 * FOOT,
            handling: 2.0 * FOOT,
            panel: 8.0 * FOOT,
        }
    }
}

/// The crane that sets the shell.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct CraneSettings {
    /// Distance of its outriggers along it, middle to middle, meters.
    pub outrigger_length: f64,
    /// Distance of its outriggers across it, middle to middle, meters.
    pub outrigger_width: f64,
    /// Side of the square pad under an outrigger, meters.
    pub pad: f64,
    /// Weight of the crane itself, kilograms.
    pub weight: f64,
    /// Weight of slings, spreader and hook block, kilograms.
    pub rigging: f64,
    /// Weight of the shell where the shell itself does not tell one, kilograms.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shell_weight: Option<f64>,
    /// The greatest share of crane and load that one outrigger carries.
    pub share: f64,
    /// Height of the underside of the shell above the ground while it is swung, meters.
    pub lift_height: f64,
    /// Height of the boom's tip above the shell's rim, meters.
    pub tip_above: f64,
    /// How far the shell may swing to any side, meters.
    pub swing: f64,
    /// Room kept between the shell and what it passes over, meters.
    pub room_below: f64,
}

impl Default for CraneSettings {
    /// Common practice with no source: a 40-ton truck crane.
    fn default() -> Self {
        Self {
            outrigger_length: 22.0 * FOOT,
            outrigger_width: 22.0 * FOOT,
            pad: 4.0 * FOOT,
            weight: 66_000.0 * POUND,
            rigging: 800.0 * POUND,
            shell_weight: None,
            share: 0.75,
            lift_height: 10.0 * FOOT,
            tip_above: 25.0 * FOOT,
            swing: 3.0 * FOOT,
            room_below: 3.0 * FOOT,
        }
    }
}
