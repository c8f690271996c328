//! Outlines widened: over-dig, collar and deck by one distance, side slopes by a distance
//! that varies from vertex to vertex.

use super::point::Point;
use super::region::{Region, Ring};

/// The region widened by `distance` metres (narrowed when negative), corners rounded by arcs
/// whose chords stay within `tolerance` metres inside the true arc.
pub fn widen(region: &Region, distance: f64, tolerance: f64) -> Region {
    let _ = (region, distance, tolerance);
    unimplemented!()
}

/// The counter-clockwise ring widened by `radius` metres at each vertex, the radius varying
/// linearly along each edge: the union of discs centred along it. All radii are >= 0.
pub fn widen_tapered(ring: &[(Point, f64)], tolerance: f64) -> Region {
    let _ = (ring, tolerance);
    unimplemented!()
}

/// The union of several tapered rings in one pass (what the dig's contours need).
pub fn widen_tapered_union(rings: &[Vec<(Point, f64)>], tolerance: f64) -> Region {
    let _ = (rings, tolerance);
    unimplemented!()
}

/// The convex-free mitred corner version for rectangular pits: corners kept sharp.
pub fn widen_mitred(ring: &Ring, distance: f64) -> Region {
    let _ = (ring, distance);
    unimplemented!()
}
