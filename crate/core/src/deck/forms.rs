//! The edges of a deck that want a form.

use super::drawn::{Drawn, Flight};
use crate::geom::{Edges, Point, Region, Ring};
use crate::shell::Shell;
use crate::units::constants::FOOT;

/// Distance from stake to stake along a form, meters: 3 ft, common practice, no source.
pub const STAKE_SPACING: f64 = 3.0 * FOOT;

/// How near an edge of the slab must lie to what it is poured against, meters.
const AGAINST: f64 = 0.003;

/// The edges of the slab but for those against the rim, the pad and steps, and every flight of
/// steps all round.
pub(super) fn edges(
    shell: &Shell,
    drawn: &Drawn,
    slab: &Region,
    steps: &[Flight],
) -> Vec<Vec<Point>> {
    let flights = || steps.iter().flat_map(|flight| flight.region.rings());
    let pads = drawn.pad.iter().flat_map(Region::rings);
    let held = Edges::of_rings(shell.rim.rings().chain(flights()).chain(pads));
    let mut forms: Vec<Vec<Point>> = slab.rings().flat_map(|ring| open(ring, &held)).collect();
    forms.extend(flights().map(|ring| {
        let mut closed = ring.0.clone();
        closed.extend(ring.0.first());
        closed
    }));
    forms
}

/// The parts of a ring that lie against none of these edges.
fn open(ring: &Ring, held: &Edges) -> Vec<Vec<Point>> {
    let mut parts: Vec<Vec<Point>> = Vec::new();
    let mut running = false;
    for (a, b) in ring.edges() {
        if held.within(a.midpoint(b), AGAINST) {
            running = false;
            continue;
        }
        match parts.last_mut().filter(|_| running) {
            Some(part) => part.push(b),
            None => parts.push(vec![a, b]),
        }
        running = true;
    }
    parts
}
