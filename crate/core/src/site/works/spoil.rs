//! What leaves the hole: kept on the lot, or hauled.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::Point;
use crate::units::constants::{CUBIC_YARD, FOOT, POUND};

/// The trucks that carry spoil away.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct HaulSettings {
    /// Volume of the box, cubic meters, loose.
    pub box_volume: f64,
    /// Legal payload, kilograms.
    pub payload: f64,
    /// Time from one load of a truck to its next: load, way, dump, way back, seconds.
    pub cycle: f64,
    /// Trucks that haul.
    pub trucks: f64,
}

impl Default for HaulSettings {
    /// A three-axle dump truck: a 10 cubic yard box and 27,000 lb of payload.
    fn default() -> Self {
        Self {
            box_volume: 10.0 * CUBIC_YARD,
            payload: 27_000.0 * POUND,
            cycle: 45.0 * 60.0,
            trucks: 1.0,
        }
    }
}

/// The spoil that stays on the lot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct SpoilSettings {
    /// Whether fill for the deck and the ground round it is taken from the spoil.
    pub reuse: bool,
    /// Share of the spoil stockpiled up on the lot before it is used or hauled.
    pub piled: f64,
    /// Run per unit of rise at which the pile comes to rest.
    pub repose: f64,
    /// Greatest height of the pile, meters.
    pub most_height: f64,
    /// Least distance of the pile from the edge of the dig, meters.
    pub back: f64,
    /// Middle of the pile, site frame; without it where it fits nearest to the dig.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Point>,
}

impl Default for SpoilSettings {
    fn default() -> Self {
        Self {
            reuse: true,
            piled: 1.0,
            repose: 1.5,
            most_height: 6.0 * FOOT,
            back: 2.0 * FOOT,
            at: None,
        }
    }
}
