//! The corners of a closed list of vertices and radii, and the tangents on both sides of each.

use super::point::{Point, Vector};
use crate::math::{asin, wrap_half_turn};

/// Points nearer than this are one, meters: the order of the overlay's own grid.
pub(super) const SAME_PLACE: f64 = 1e-7;

/// An edge and the common tangent, to its right, of the discs at its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    /// Unit direction of travel.
    pub(super) along: Vector,
    /// Unit normal of the tangent line, pointing away from the edge.
    pub(super) normal: Vector,
    /// By how much the normal leans forward of the edge's own right normal, radians.
    pub(super) lean: f64,
    /// Length of the tangent line between the two discs, meters.
    pub(super) run: f64,
}

impl Edge {
    fn between((from, r): (Point, f64), (to, s): (Point, f64)) -> Self {
        let span = to - from;
        let length = span.length();
        let along = span * (1.0 / length);
        // Where one disc holds the other, the larger one is all there is: the tangent shrinks
        // to the point of that disc farthest along the edge.
        let forward = ((r - s) / length).clamp(-1.0, 1.0);
        let aside = (1.0 - forward * forward).sqrt();
        Self {
            along,
            normal: along * forward - along.left() * aside,
            lean: if forward == 0.0 { 0.0 } else { asin(forward) },
            run: length * aside,
        }
    }

    /// How far `p` lies to the left of the line of this edge through `on`, meters.
    pub(super) fn leftward(&self, p: Point, on: Point) -> f64 {
        self.along.cross(p - on)
    }

    /// How far `p` lies along the tangent line beyond `from`, meters.
    pub(super) fn onward(&self, p: Point, from: Point) -> f64 {
        self.normal.left().dot(p - from)
    }
}

/// A vertex with the edges on both sides of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Corner {
    pub(super) at: Point,
    pub(super) radius: f64,
    pub(super) incoming: Edge,
    pub(super) outgoing: Edge,
}

/// The corners of a closed list of distinct vertices.
pub(super) fn corners_of(vertices: &[(Point, f64)]) -> Vec<Corner> {
    let next = vertices.iter().cycle().skip(1);
    let edges = vertices.iter().zip(next);
    let outgoing: Vec<Edge> = edges.map(|(a, b)| Edge::between(*a, *b)).collect();
    let mut incoming = outgoing.clone();
    incoming.rotate_right(usize::from(!vertices.is_empty()));
    let edges = incoming.into_iter().zip(outgoing);
    vertices
        .iter()
        .zip(edges)
        .map(|(&(at, radius), (incoming, outgoing))| Corner {
            at,
            radius,
            incoming,
            outgoing,
        })
        .collect()
}

impl Corner {
    /// From the incoming to the outgoing normal, radians: positive round an outer corner
    /// (up to a full turn), negative at an inner one. Turning straight back is an outer corner.
    pub(super) fn sweep(&self) -> f64 {
        let (u, v) = (self.incoming.along, self.outgoing.along);
        let turn = wrap_half_turn(Vector::new(u.dot(v), u.cross(v)).angle());
        turn + self.outgoing.lean - self.incoming.lean
    }

    /// End of the incoming tangent line.
    pub(super) fn arrival(&self) -> Point {
        self.at + self.incoming.normal * self.radius
    }

    /// Start of the outgoing tangent line.
    pub(super) fn departure(&self) -> Point {
        self.at + self.outgoing.normal * self.radius
    }

    /// The detour through the corner itself.
    pub(super) fn through(&self) -> Vec<Point> {
        vec![self.arrival(), self.at, self.departure()]
    }

    /// Where the two tangent lines meet, and how far from their ends that is, meters; `None`
    /// when they run side by side in opposite directions.
    pub(super) fn mitre(&self) -> Option<(Point, f64)> {
        let (m, n) = (self.incoming.normal, self.outgoing.normal);
        let share = 1.0 + m.dot(n);
        (share > 1e-9).then(|| {
            let point = self.at + (m + n) * (self.radius / share);
            (point, self.radius * m.cross(n).abs() / share)
        })
    }

    /// Where the way past an inner corner may be cut short: at the meeting point of the tangent
    /// lines, if it cuts no more than half off either. Then no edge's quadrilateral folds over,
    /// and both cover all of the piece cut off.
    pub(super) fn short_cut(&self) -> Option<Point> {
        let shorter = self.incoming.run.min(self.outgoing.run);
        let (point, cut) = self.mitre()?;
        (2.0 * cut <= shorter && self.is_open()).then_some(point)
    }

    /// Whether the wedge between the tangents of an inner corner lies to the right of both edges.
    pub(super) fn is_open(&self) -> bool {
        self.outgoing.leftward(self.arrival(), self.at) <= 0.0
            && self.incoming.leftward(self.departure(), self.at) <= 0.0
    }
}
