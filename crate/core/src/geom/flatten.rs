//! Arcs into straight edges, with a named tolerance on a named side.

use super::path::{Outline, Segment, Track};
use super::point::Point;
use super::region::Ring;

/// On which side of the true arc the chords lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChordSide {
    /// Chords inside the arc's circle: vertices on the arc. An outward bulge loses area.
    Inscribed,
    /// Chords centred on the arc: area is kept, vertices lie off the arc by half the tolerance.
    /// End points of segments stay where they are.
    Centred,
}

/// The outline as a ring of straight edges, nowhere farther than `tolerance` metres from it.
pub fn flatten(outline: &Outline, tolerance: f64, side: ChordSide) -> Ring {
    let _ = (outline, tolerance, side);
    unimplemented!()
}

/// The open path as a chain of points (inscribed chords).
pub fn flatten_track(track: &Track, tolerance: f64) -> Vec<Point> {
    let _ = (track, tolerance);
    unimplemented!()
}

/// Points along one stretch, its start left out and its end put in (inscribed chords).
pub fn flatten_segment(segment: &Segment, tolerance: f64, out: &mut Vec<Point>) {
    let _ = (segment, tolerance, out);
    unimplemented!()
}
