//! Hatches and ticks for drawings. The only module that names the `lyon` crate.
//!
//! lyon's paths are single precision: figures go in and come out relative to a local origin,
//! and nothing here reaches a number in a report.

use super::point::Point;
use super::region::Region;

/// Parallel lines across a region: `spacing` metres apart, at `angle` radians counter-clockwise
/// from +x, each as its two ends.
pub fn hatch(region: &Region, angle: f64, spacing: f64) -> Vec<(Point, Point)> {
    let _ = (region, angle, spacing);
    unimplemented!()
}

/// A tick on a path: where, and the unit normal to its left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tick {
    /// Position, metres.
    pub at: Point,
    /// Unit direction to the left of travel.
    pub left: super::point::Vector,
}

/// Ticks every `spacing` metres along a closed ring (slope hachures, tie rods).
pub fn ticks_along(ring: &super::region::Ring, spacing: f64) -> Vec<Tick> {
    let _ = (ring, spacing);
    unimplemented!()
}

/// Triangles that fill a region, for shaded drawings: vertices and index triples.
pub fn triangles(region: &Region) -> (Vec<Point>, Vec<[u32; 3]>) {
    let _ = region;
    unimplemented!()
}
