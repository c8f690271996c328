//! Random figures that several properties start from.

use batterboard_core::geom::{Point, Vector};
use batterboard_core::math::TURN;

/// Corners round a middle: a simple figure, convex or not, counter-clockwise. Each spoke is
/// its share of the full turn and its length, metres.
pub fn star(middle: Point, spokes: &[(f64, f64)]) -> Vec<Point> {
    let total: f64 = spokes.iter().map(|s| s.0).sum();
    let mut angle = 0.0;
    spokes
        .iter()
        .map(|(share, radius)| {
            angle += share / total * TURN;
            middle + Vector::at_angle(angle) * *radius
        })
        .collect()
}
