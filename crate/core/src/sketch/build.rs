//! The next point by length and angle, and rectangles.

use crate::geom::{Point, Vector, Vertex};
use crate::math::{TURN, wrap_turn};

/// How the direction of the next edge is told. Angles in radians.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Way {
    /// Clockwise from north.
    Bearing(f64),
    /// Turned to the right of the last edge's direction.
    Right(f64),
    /// Turned to the left of the last edge's direction.
    Left(f64),
    /// By the angle inside the figure, which lies to the left of the edges.
    InsideLeft(f64),
    /// By the angle inside the figure, which lies to the right of the edges.
    InsideRight(f64),
}

impl Way {
    /// The bearing of the next edge, radians clockwise from north, when the last one ran along
    /// `last`.
    pub fn bearing(self, last: f64) -> f64 {
        wrap_turn(match self {
            Self::Bearing(bearing) => bearing,
            Self::Right(angle) => last + angle,
            Self::Left(angle) => last - angle,
            Self::InsideLeft(angle) => last - (TURN / 2.0 - angle),
            Self::InsideRight(angle) => last + (TURN / 2.0 - angle),
        })
    }
}

/// The point at a distance (meters) along a bearing (radians clockwise from north).
pub fn ahead(from: Point, length: f64, bearing: f64) -> Point {
    from + Vector::along_bearing(bearing) * length
}

/// The rectangle with two opposite corners and sides along and across a bearing (radians
/// clockwise from north). It begins at `from` and goes along the bearing first.
pub fn rectangle(from: Point, opposite: Point, bearing: f64) -> [Vertex; 4] {
    let along = Vector::along_bearing(bearing);
    let across = opposite - from;
    let end = from + along * across.dot(along);
    rectangle_on(from, end, opposite)
}

/// The rectangle on the edge between two corners, as wide as a third point lies beside it.
pub fn rectangle_on(from: Point, to: Point, beside: Point) -> [Vertex; 4] {
    let across = (to - from).unit().unwrap_or_default().left();
    let width = across * (beside - from).dot(across);
    [from, to, to + width, from + width].map(|at| Vertex { at, bulge: 0.0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_four_ways_to_tell_a_square_corner_agree() {
        let quarter = TURN / 4.0;
        // Walking east; the figure lies to the left, and so does the next edge.
        for way in [
            Way::Bearing(0.0),
            Way::Left(quarter),
            Way::Right(3.0 * quarter),
            Way::InsideLeft(quarter),
            Way::InsideRight(3.0 * quarter),
        ] {
            let bearing = way.bearing(quarter);
            assert!(bearing < 1e-12 || TURN - bearing < 1e-12, "{way:?}");
        }
        let p = ahead(Point::new(1.0, 2.0), 5.0, quarter);
        assert!(p.distance(Point::new(6.0, 2.0)) < 1e-12);
    }

    #[test]
    fn a_rectangle_has_its_two_corners_and_right_angles() {
        let (a, b) = (Point::new(1.0, 1.0), Point::new(8.0, 4.0));
        for bearing in [0.0, 0.7, 2.0, 5.5] {
            let [p, q, r, s] = rectangle(a, b, bearing).map(|v| v.at);
            assert!(p.distance(a) < 1e-12 && r.distance(b) < 1e-9);
            assert!((q - p).dot(r - q).abs() < 1e-9);
            assert!(((s - p) - (r - q)).length() < 1e-9);
            assert!((q - p).cross(Vector::along_bearing(bearing)).abs() < 1e-9);
        }
    }
}
