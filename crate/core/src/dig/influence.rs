//! How deep one edge of the bottom makes the hole at a point: a closed form.
//!
//! Along an edge the depth grows by `g` per meter. Seen from a point `x` along and `h` beside
//! the edge, the place `t` on it that governs stands `x + h g m / sqrt(1 - g^2 m^2)` along (`m`
//! the side slope), but no nearer than the far rim of the disc of the reach, and on the edge.
//! A floor steeper than the side slope (`g m >= 1`) is governed by its deep end.

use super::bottom::Bottom;
use crate::geom::{Point, Vector};

/// Rounding allowed for when a point stands exactly one reach away, meters.
const ROUNDING: f64 = 1e-9;

/// How the ground is kept free round a point of the bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cone {
    /// Kept free at the point's own depth, meters.
    pub reach: f64,
    /// Run per unit of rise beyond that.
    pub slope: f64,
    /// Rise per unit of run: infinite for upright sides.
    steepness: f64,
}

impl Cone {
    pub fn new(reach: f64, slope: f64) -> Self {
        Self {
            reach,
            slope,
            steepness: 1.0 / slope,
        }
    }

    /// How far above its apex the cone stands at a distance, meters; infinite beyond an
    /// upright side.
    pub fn rise(&self, distance: f64) -> f64 {
        let beyond = distance - self.reach;
        if beyond > ROUNDING {
            beyond * self.steepness
        } else {
            0.0
        }
    }
}

/// An edge of the bottom, walked downhill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Edge {
    from: Point,
    along: Vector,
    length: f64,
    /// Depth at `from`, meters.
    depth: f64,
    /// Growth of depth per meter, never negative.
    growth: f64,
    /// How far ahead of a point's foot its governing place stands, per meter beside the edge.
    lead: f64,
    /// The reach where the edge slopes: a governing place stands at least on its disc's rim.
    disc: f64,
    cone: Cone,
}

impl Edge {
    /// The edge between two points with their depths; `None` when it has no length.
    pub fn new(a: (Point, f64), b: (Point, f64), cone: Cone) -> Option<Self> {
        let (from, to) = if a.1 <= b.1 { (a, b) } else { (b, a) };
        let along = (to.0 - from.0).unit()?;
        let length = from.0.distance(to.0);
        let growth = (to.1 - from.1) / length;
        let steep = growth * cone.slope;
        let edge = Self {
            from: from.0,
            along,
            length,
            depth: from.1,
            growth,
            lead: steep / (1.0 - steep * steep).max(0.0).sqrt(),
            disc: if growth > 0.0 { cone.reach } else { 0.0 },
            cone,
        };
        // An edge steeper than the sides is governed by its deep end alone.
        Some(if steep < 1.0 { edge } else { edge.deep_end(to) })
    }

    /// The edge of no length at a point.
    fn deep_end(self, (from, depth): (Point, f64)) -> Self {
        Self {
            from,
            depth,
            length: 0.0,
            growth: 0.0,
            lead: 0.0,
            disc: 0.0,
            ..self
        }
    }

    /// How deep this edge makes the hole at a point, meters below the rim.
    #[inline]
    pub fn depth(&self, p: Point) -> f64 {
        let to = p - self.from;
        let (x, h) = (to.dot(self.along), self.along.cross(to).abs());
        let rim = (self.disc * self.disc - h * h).max(0.0).sqrt();
        let t = (x + rim.max(h * self.lead)).max(0.0).min(self.length);
        let distance = ((x - t) * (x - t) + h * h).sqrt();
        self.depth + self.growth * t - self.cone.rise(distance)
    }
}

/// Depth of the hole at a point of the shell frame, from every piece and every edge: slow, and
/// right by itself. Minus infinity where no upright hole is.
pub(super) fn depth_at(bottom: &Bottom, p: Point) -> f64 {
    let cone = Cone::new(bottom.reach, bottom.slope);
    let mut deepest = f64::NEG_INFINITY;
    for piece in &bottom.pieces {
        let (shift, plane) = piece.shifted(bottom.reach);
        if piece.region.contains(p + -shift) {
            deepest = deepest.max(plane.depth(p));
        }
        for ring in piece.region.rings() {
            let with_depth = |q: Point| (q, piece.plane.depth(q));
            let edges = ring.edges();
            let edges = edges.filter_map(|(a, b)| Edge::new(with_depth(a), with_depth(b), cone));
            deepest = edges.map(|e| e.depth(p)).fold(deepest, f64::max);
        }
    }
    deepest
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The closed form against the best of many places along the edge.
    #[test]
    fn no_place_on_an_edge_governs_more_than_the_closed_form_says() {
        let ends = (Point::new(1.0, -2.0), Point::new(4.0, 2.0));
        for (reach, slope) in [(0.0, 1.5), (0.3, 1.0), (0.5, 0.0), (0.2, 4.0)] {
            let cone = Cone::new(reach, slope);
            for (da, db) in [(1.0, 1.0), (1.0, 1.8), (2.5, 0.5), (0.2, 5.2)] {
                let edge = Edge::new((ends.0, da), (ends.1, db), cone).unwrap();
                for k in 0..400 {
                    let p = Point::new(
                        f64::from(k % 20) * 0.45 - 2.0,
                        f64::from(k / 20) * 0.4 - 4.0,
                    );
                    let best = (0..=4000)
                        .map(|i| f64::from(i) / 4000.0)
                        .map(|s| {
                            let q = ends.0 + (ends.1 - ends.0) * s;
                            da + (db - da) * s - cone.rise(p.distance(q))
                        })
                        .fold(f64::NEG_INFINITY, f64::max);
                    let closed = edge.depth(p);
                    assert!(closed >= best - 1e-9, "{closed} < {best} at {p:?}");
                    assert!(closed <= best + 2e-3 || slope == 0.0, "{closed} > {best}");
                }
            }
        }
    }
}
