//! What leaves the hole: kept on the lot, or hauled.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::slot::{Slot, Slots, by_slots};
use crate::geom::Point;
use crate::units::constants::{CUBIC_YARD, FOOT, POUND};

/// The trucks that carry spoil away.
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct HaulSettings {
    /// Volume of the box, cubic metres, loose.
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
#[derive(Debug, Clone, Copy, PartialEq, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct SpoilSettings {
    /// Whether fill for the deck and the ground round it is taken from the spoil.
    pub reuse: bool,
    /// Share of the spoil that is piled up on the lot before it is used or hauled.
    pub piled: f64,
    /// Run per unit of rise at which the pile comes to rest.
    pub repose: f64,
    /// Greatest height of the pile, metres.
    pub most_height: f64,
    /// Least distance of the pile from the edge of the dig, metres.
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

by_slots! { HaulSettings SpoilSettings }

impl Slots for HaulSettings {
    fn slots(&mut self) -> Vec<(&'static str, Slot<'_>)> {
        vec![
            ("box_volume", Slot::Figure(&mut self.box_volume)),
            ("payload", Slot::Figure(&mut self.payload)),
            ("cycle", Slot::Figure(&mut self.cycle)),
            ("trucks", Slot::Figure(&mut self.trucks)),
        ]
    }
}

impl Slots for SpoilSettings {
    fn slots(&mut self) -> Vec<(&'static str, Slot<'_>)> {
        vec![
            ("reuse", Slot::Flag(&mut self.reuse)),
            ("piled", Slot::Figure(&mut self.piled)),
            ("repose", Slot::Figure(&mut self.repose)),
            ("most_height", Slot::Figure(&mut self.most_height)),
            ("back", Slot::Figure(&mut self.back)),
            ("at", Slot::Place(&mut self.at)),
        ]
    }
}
