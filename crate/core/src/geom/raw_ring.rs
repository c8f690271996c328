//! The raw ring: a closed list of vertices and radii, walked round at each one's radius.
//!
//! The raw ring runs along the common tangent, on the right, of the discs at the ends of every
//! edge, round each outer corner on an arc, and through each inner corner by way of the corner
//! itself. Seen as a chain it is the ring plus one quadrilateral for each edge plus one sector
//! for each outer corner, all counter-clockwise. So it winds about a point as often as the ring
//! and those pieces cover it: a positive number of times exactly where the widened ring is.
//!
//! # Short cuts
//! The detour through an inner corner costs crossings, and is taken only where it must be. A
//! point in the wedge between the two tangents there is covered from the edges on both sides:
//! that is twice, and once is enough.
//! - Where both tangent lines are long enough, the way is cut short at their meeting point.
//! - On a counter-clockwise ring (which no point has all round it on its right) it may be cut
//!   short there all the same, or the ends of the tangent lines joined straight across, when
//!   every point of the *spur* so cut off is covered from a place farther on and from a place
//!   farther back: see [`super::spur`].
//!
//! Whatever is cut off then lies between two covering places with nothing else cut off between
//! them, and so every point of the widened ring stays covered at least once.

use super::flatten::{arc_step, step_count, turned};
use super::point::{Point, Vector};
use super::region::Ring;
use super::spur::joined;
use crate::math::{TURN, asin, cos, sin, wrap_half_turn};

/// Points nearer than this are one, metres: the order of the overlay's own grid.
pub(super) const SAME_PLACE: f64 = 1e-7;

/// A mitre longer than this many times the distance is cut off square (a corner sharper than
/// 29 degrees): common drafting practice, no source.
const MITRE_LIMIT: f64 = 4.0;

/// The raw ring to the right of a closed list of vertices and radii (all >= 0, metres), arcs
/// round corners being chords within `tolerance` metres inside them.
pub(super) fn raw_ring(vertices: &[(Point, f64)], tolerance: f64) -> Ring {
    let vertices = distinct(vertices);
    if let [(centre, radius)] = vertices.as_slice() {
        let spoke = Vector::new(*radius, 0.0);
        let mut circle = vec![*centre + spoke];
        arc(*centre, spoke, TURN, tolerance, &mut circle);
        return Ring(circle);
    }
    let corners = corners_of(&vertices);
    let middle = Ring(vertices.iter().map(|(p, _)| *p).collect());
    let may_join = middle.signed_area() > 0.0;
    let mut out = Vec::with_capacity(3 * corners.len());
    for (i, corner) in corners.iter().enumerate() {
        let sweep = corner.sweep();
        if sweep >= 0.0 {
            out.push(corner.arrival());
            let spoke = corner.incoming.normal * corner.radius;
            arc(corner.at, spoke, sweep, tolerance, &mut out);
            out.push(corner.departure());
        } else if let Some(point) = corner.short_cut() {
            out.push(point);
        } else {
            let joined = if may_join { joined(&corners, i) } else { None };
            out.extend(joined.unwrap_or_else(|| corner.through()));
        }
    }
    out.dedup_by(|a, b| a.distance(*b) < SAME_PLACE);
    Ring(out)
}

/// The raw ring whose outer corners are sharp.
pub(super) fn mitred_ring(vertices: &[(Point, f64)]) -> Ring {
    let mut out = Vec::new();
    for corner in corners_of(&distinct(vertices)) {
        let outer = corner.sweep() >= 0.0;
        let short = |mitre: &Point| mitre.distance(corner.at) <= MITRE_LIMIT * corner.radius;
        let sharp = if outer {
            corner.mitre().map(|(mitre, _)| mitre).filter(short)
        } else {
            corner.short_cut()
        };
        match sharp {
            Some(point) => out.push(point),
            None if outer => out.extend([corner.arrival(), corner.departure()]),
            None => out.extend(corner.through()),
        }
    }
    Ring(out)
}

/// Vertices without repeats (the larger radius of two at one place is kept).
fn distinct(vertices: &[(Point, f64)]) -> Vec<(Point, f64)> {
    let mut kept: Vec<(Point, f64)> = Vec::with_capacity(vertices.len());
    for &(p, r) in vertices {
        match kept.last_mut() {
            Some((q, s)) if q.distance(p) < SAME_PLACE => *s = s.max(r),
            _ => kept.push((p, r)),
        }
    }
    if let [(first, s), .., (last, r)] = kept.as_mut_slice()
        && first.distance(*last) < SAME_PLACE
    {
        *s = s.max(*r);
        kept.pop();
    }
    kept
}

/// An edge and the common tangent, to its right, of the discs at its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    /// Unit direction of travel.
    pub(super) along: Vector,
    /// Unit normal of the tangent line, pointing away from the edge.
    pub(super) normal: Vector,
    /// By how much the normal leans forward of the edge's own right normal, radians.
    pub(super) lean: f64,
    /// Length of the tangent line between the two discs, metres.
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

    /// How far `p` lies to the left of the line of this edge through `on`, metres.
    pub(super) fn leftward(&self, p: Point, on: Point) -> f64 {
        self.along.cross(p - on)
    }

    /// How far `p` lies along the tangent line beyond `from`, metres.
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
fn corners_of(vertices: &[(Point, f64)]) -> Vec<Corner> {
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
    fn sweep(&self) -> f64 {
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
    fn through(&self) -> Vec<Point> {
        vec![self.arrival(), self.at, self.departure()]
    }

    /// Where the two tangent lines meet, and how far from their ends that is, metres; `None`
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
    fn short_cut(&self) -> Option<Point> {
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

/// Points of an arc about `centre` from `centre + spoke` through `sweep` radians, both ends
/// left out: chords within `tolerance` metres inside it.
fn arc(centre: Point, spoke: Vector, sweep: f64, tolerance: f64, out: &mut Vec<Point>) {
    let steps = step_count(sweep, arc_step(spoke.length(), tolerance));
    if steps < 2 {
        return;
    }
    let step = sweep / f64::from(steps);
    let (cos, sin) = (cos(step), sin(step));
    let mut spoke = spoke;
    for _ in 1..steps {
        spoke = turned(spoke, cos, sin);
        out.push(centre + spoke);
    }
}
