//! Collar, deck, steps and their bed along a line.

use super::chain::sampled;
use super::placed::Placed;
use crate::deck::DeckPlan;
use crate::geom::boolean::{difference, positive_winding};
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Region, Ring};
use crate::site::{CollarSettings, DeckSettings};

/// The collar that reaches over a region of the shell's frame, beyond the rim.
pub(super) fn collar(placed: &Placed<'_>, over: &Region, settings: &CollarSettings) -> Region {
    let whole = placed.slab(over, settings.top_below_rim, settings.depth);
    difference(&whole, &placed.column(&placed.shell.rim))
}

/// The deck along a line, falling away from the rim, section frame.
#[derive(Default)]
pub(super) struct Deck {
    pub slab: Region,
    /// The slab under the treads of steps.
    pub steps: Region,
    /// The bed of both.
    pub bed: Region,
}

impl Deck {
    pub fn of(placed: &Placed<'_>, plan: &DeckPlan, settings: &DeckSettings) -> Self {
        let rim = Figure::Area(&placed.shell.rim);
        let at = |station: f64| {
            let away = nearest(rim, Figure::Chain(&[placed.cut.at(station)]));
            placed.coping - settings.fall * away.map_or(0.0, |n| n.distance.max(0.0))
        };
        // Between two depths below its top.
        let layer = |over: &Region, upper: f64, lower: f64| -> Vec<Ring> {
            let stretches = placed.cut.inside(over).into_iter();
            let ring = |stretch| {
                let top = sampled(stretch, &[], &at);
                let below = top.iter().map(|p| Point::new(p.x, p.y - lower));
                let above = top.iter().rev().map(|p| Point::new(p.x, p.y - upper));
                Ring(below.chain(above).collect())
            };
            stretches.map(ring).collect()
        };
        let slab = |over| layer(over, 0.0, settings.thickness);
        let bed = |over| layer(over, settings.thickness, settings.thickness + settings.bed);
        let flights = || plan.steps.iter().map(|flight| &flight.region);
        let beds = core::iter::once(&plan.bed).chain(flights());
        Self {
            slab: positive_winding(&slab(&plan.slab)),
            steps: positive_winding(&flights().flat_map(slab).collect::<Vec<_>>()),
            bed: positive_winding(&beds.flat_map(bed).collect::<Vec<_>>()),
        }
    }
}
