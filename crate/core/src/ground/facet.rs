//! One triangle of the ground.

use crate::geom::{Point, Vector};
use crate::math::hypot;

/// A triangle of the surface; its elevation is planar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Facet {
    /// Its corners in plan, counter-clockwise, site meters.
    pub corners: [Point; 3],
    /// Elevation at each corner, meters.
    pub elevations: [f64; 3],
    /// Whether it lies between surveyed spots; otherwise its elevation is carried over from
    /// the nearest edge of the surveyed area.
    pub known: bool,
}

impl Facet {
    /// Area in plan, m2.
    pub fn plan_area(&self) -> f64 {
        let [a, b, c] = self.corners;
        (b - a).cross(c - a) / 2.0
    }

    /// Area of the sloping surface itself, m2.
    pub fn surface_area(&self) -> f64 {
        let [a, b, c] = self.corners;
        let (u, v) = (b - a, c - a);
        let [za, zb, zc] = self.elevations;
        let (du, dv) = (zb - za, zc - za);
        let across = hypot(u.y * dv - du * v.y, du * v.x - u.x * dv);
        hypot(across, u.cross(v)) / 2.0
    }

    /// Rise per meter toward east and north; `None` for a triangle of no area.
    pub fn gradient(&self) -> Option<Vector> {
        gradient(&self.corners, &self.elevations)
    }

    /// Elevation of its plane at a point, never beyond its own corners', meters.
    pub fn elevation(&self, at: Point) -> f64 {
        let [a, ..] = self.corners;
        let [za, zb, zc] = self.elevations;
        let rise = self.gradient().map_or(0.0, |g| g.dot(at - a));
        (za + rise).clamp(za.min(zb).min(zc), za.max(zb).max(zc))
    }

    /// How far inside the triangle a point is: the least of its three shares (barycentric
    /// coordinates), negative outside.
    pub(super) fn share(&self, p: Point) -> f64 {
        let [a, b, c] = self.corners;
        let whole = (b - a).cross(c - a);
        let parts = [(a, b), (b, c), (c, a)].map(|(u, v)| (v - u).cross(p - u) / whole);
        parts.into_iter().fold(f64::INFINITY, f64::min)
    }
}

/// The gradient of the plane through three corners; `None` when they enclose no area.
pub(crate) fn gradient(corners: &[Point; 3], heights: &[f64; 3]) -> Option<Vector> {
    let [a, b, c] = *corners;
    let [za, zb, zc] = *heights;
    let (u, v) = (b - a, c - a);
    let twice = u.cross(v);
    let (du, dv) = (zb - za, zc - za);
    let g = Vector::new(du * v.y - dv * u.y, dv * u.x - du * v.x) * (1.0 / twice);
    (g.x.is_finite() && g.y.is_finite()).then_some(g)
}
