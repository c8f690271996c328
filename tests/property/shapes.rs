//! Random figures that several properties start from.

use batterboard_core::geom::{Point, Vector};
use batterboard_core::math::TURN;

/// Corners round a middle: a simple figure, convex or not, counter-clockwise. Each spoke is
/// its share of the full turn and its length, meters.
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

/// A rectangle `2 x` by `2 y` about the origin, its corners cut off by `cut` along each side, or
/// square where that would be less than a centimetre.
pub fn cut_rectangle(x: f64, y: f64, cut: f64) -> Vec<Point> {
    let square = cut < 0.01;
    let cut = if square { 0.0 } else { cut };
    let corners = [
        [-x + cut, -y],
        [x - cut, -y],
        [x, -y + cut],
        [x, y - cut],
        [x - cut, y],
        [-x + cut, y],
        [-x, y - cut],
        [-x, -y + cut],
    ];
    let points = corners.map(|[x, y]| Point::new(x, y));
    points
        .into_iter()
        .step_by(if square { 2 } else { 1 })
        .collect()
}
