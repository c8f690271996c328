//! The rods between coping and deck, set evenly along the rim.

use crate::geom::parallel::offset_measure;
use crate::geom::{Point, Region, Ring, Vector};
use crate::shell::Shell;

/// How far outside the rim a tie looks for the deck it goes into, meters.
const INTO: f64 = 0.05;

/// The most ties of one shell: more stand for a spacing nobody meant.
const MOST: f64 = 20_000.0;

/// A rod between coping and deck.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tie {
    /// Where it leaves the rim, shell frame.
    pub at: Point,
    /// The unit vector square to the rim, outward.
    pub out: Vector,
}

/// Ties at most `spacing` meters apart round the whole rim, evenly set; none where no slab lies
/// outside it.
pub(super) fn set(shell: &Shell, spacing: f64, slab: &Region) -> Vec<Tie> {
    let Some(rim) = shell.rim.polygons.first().map(|p| &p.outer) else {
        return Vec::new();
    };
    let around = offset_measure(&shell.outline, shell.record.coping_width).length;
    // A billionth of a tie too much is rounding noise, not a tie.
    let count = (around / spacing - 1e-9).ceil().clamp(0.0, MOST);
    let ties = places(rim, count as u32).into_iter();
    ties.filter(|tie| slab.contains(tie.at + tie.out * INTO))
        .collect()
}

/// So many places evenly round a counter-clockwise ring, the first half a step from its start.
fn places(ring: &Ring, count: u32) -> Vec<Tie> {
    let step = ring.perimeter() / f64::from(count);
    let mut places = Vec::with_capacity(count as usize);
    let mut station = 0.0;
    for (a, b) in ring.edges() {
        let Some(along) = (b - a).unit() else {
            continue;
        };
        let end = station + a.distance(b);
        loop {
            let next = (places.len() as f64 + 0.5) * step;
            if places.len() as f64 >= f64::from(count) || next > end {
                break;
            }
            places.push(Tie {
                at: a + along * (next - station),
                out: -along.left(),
            });
        }
        station = end;
    }
    places
}
