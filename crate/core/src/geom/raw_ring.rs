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

use super::corner::{SAME_PLACE, corners_of};
use super::flatten::{arc_step, step_count, turned};
use super::point::{Point, Vector};
use super::region::Ring;
use super::spur::joined;
use crate::math::{TURN, cos, sin};

/// A mitre longer than this many times the distance is cut off square (a corner sharper than
/// 29 degrees): common drafting practice, no source.
const MITRE_LIMIT: f64 = 4.0;

/// The raw ring to the right of a closed list of vertices and radii (all >= 0, meters), arcs
/// round corners being chords within `tolerance` meters inside them.
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

/// Points of an arc about `centre` from `centre + spoke` through `sweep` radians, both ends
/// left out: chords within `tolerance` meters inside it.
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
