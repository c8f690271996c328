//! Convex bodies on one shared fan of edge normals.
//!
//! What stands round a point of the bottom is a sum of bodies: the over-dig, one for each layer
//! of soil between the point and the level, a bench. Each is made of four quarter ellipses, and
//! each is taken as a polygon whose edges have the normals of one fan. Such polygons are added
//! (Minkowski) and scaled by adding and scaling their vertices, one by one.
//!
//! # Accuracy
//! Every edge touches its ellipse, so a body is too large, never too small: a circle by 0.005 % of
//! its area, an ellipse four times as long as wide by 0.03 %. Of a dig's contour, of which
//! the corners are the smaller part, less than 0.01 %. Walls across an axis are exact.

use super::sides::BySide;
use crate::geom::Vector;
use crate::math::TURN;

/// Normals of the fan: a multiple of four, so that the axes are among them.
pub(super) const NORMALS: usize = 256;

/// The fan: unit vectors counter-clockwise from +x.
#[derive(Debug, Clone)]
pub(super) struct Fan(Vec<Vector>);

/// A convex polygon with the fan's normals: its vertex `j` lies between the edges of normals `j`
/// and `j + 1`.
#[derive(Debug, Clone)]
pub(super) struct Body(Vec<Vector>);

impl Fan {
    pub fn new() -> Self {
        let quarter = NORMALS / 4;
        let normal = |i: usize| {
            // The axes exactly: a wall across one has no other side's slope in it.
            let within = Vector::at_angle(TURN * (i % quarter) as f64 / NORMALS as f64);
            (0..i / quarter).fold(within, |v, _| v.left())
        };
        Self((0..NORMALS).map(normal).collect())
    }

    /// The normal of an index, counted round and round.
    pub fn normal(&self, index: usize) -> Vector {
        self.0.get(index % NORMALS).copied().unwrap_or_default()
    }

    /// The body with these half axes.
    pub fn body(&self, half_axes: BySide) -> Body {
        let step = TURN / NORMALS as f64;
        let sine = crate::math::sin(step);
        let vertex = |i: usize| {
            let (m, n) = (self.normal(i), self.normal(i + 1));
            // The axes go by one side alone, whichever quarter asks.
            let (h, k) = (half_axes.towards(m), half_axes.towards(n));
            Vector::new(h * n.y - k * m.y, k * m.x - h * n.x) * (1.0 / sine)
        };
        Body((0..NORMALS).map(vertex).collect())
    }
}

impl Body {
    /// The point: no extent at all.
    #[cfg(test)]
    pub fn point() -> Self {
        Self(vec![Vector::default(); NORMALS])
    }

    /// A vertex, its index counted round and round.
    pub fn vertex(&self, index: usize) -> Vector {
        self.0.get(index % NORMALS).copied().unwrap_or_default()
    }

    /// Adds another body, scaled.
    pub fn add(&mut self, other: &Self, scale: f64) {
        for (v, w) in self.0.iter_mut().zip(&other.0) {
            *v = *v + *w * scale;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{Point, Ring};

    fn area(body: &Body) -> f64 {
        let ring = body.0.iter().map(|v| Point::default() + *v);
        Ring(ring.collect()).signed_area()
    }

    #[test]
    fn bodies_hold_their_quarter_ellipses_and_little_more() {
        let fan = Fan::new();
        for (axes, within) in [
            ([1.0, 1.0, 1.0, 1.0], 6e-5),
            ([2.0, 1.0, 1.0, 1.5], 1e-4),
            ([4.0, 1.0, 1.0, 1.0], 3.5e-4),
            ([1.0, 0.0, 2.0, 0.75], 2e-4),
        ] {
            let sides = BySide::from_values(axes);
            let [a, b, c, d] = axes;
            let exact = TURN / 8.0 * (a * b + b * c + c * d + d * a);
            let found = area(&fan.body(sides));
            let off = found / exact - 1.0;
            assert!((0.0..within).contains(&off), "{axes:?}: {off:e}");
        }
    }

    #[test]
    fn a_sum_is_the_body_of_the_sum_where_the_shapes_are_alike() {
        let fan = Fan::new();
        let mut sum = fan.body(BySide::all(0.2));
        sum.add(&fan.body(BySide::all(1.0)), 1.5);
        let whole = fan.body(BySide::all(1.7));
        for j in 0..NORMALS {
            assert!((sum.vertex(j) + -whole.vertex(j)).length() < 1e-12);
        }
        assert_eq!(area(&Body::point()), 0.0);
        // One side upright: nothing of the body beyond it.
        let half = fan.body(BySide::from_values([1.0, 1.0, 0.0, 1.0]));
        assert!((0..NORMALS).all(|j| half.vertex(j).x > -1e-12));
    }
}
