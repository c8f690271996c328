//! The band inside an area along one side of it: an easement along a lot line.

use super::boolean::intersection;
use super::flatten::{flatten_segment, turned};
use super::path::{Segment, Vertex, bulge_of_angle};
use super::point::{Point, Vector};
use super::region::{Polygon, Region, Ring, bounds};
use crate::math::{TURN, cos, sin};

/// The most a curved side and what it is run on by may turn, as a part of a full turn: the two
/// ends must not meet.
const MOST_ROUND: f64 = 0.98;

/// The land within `width` meters of a side, on its inner side: the band that a plat means by
/// "the rear ten feet". `area` lies to the left of `side`, which is part of its boundary.
///
/// The side is run on beyond both ends, straight or round its own circle, so that the band
/// fills a blunt corner up to the next side; by no more than `width`, so that it does not
/// wander across the area where the boundary turns outward. Of what this cuts out of the area
/// only the piece that touches the side counts.
///
/// # Tolerance
/// The edges of a curved band are inscribed chords within `tolerance` meters of their arcs.
pub fn along_side(area: &Region, side: &Segment, width: f64, tolerance: f64) -> Region {
    let band = match *side {
        Segment::Line { from, to } => straight_band(from, to, width, reach_of(area)),
        Segment::Arc { .. } => round_band(side, width, tolerance),
    };
    let Some(band) = band else {
        return Region::default();
    };
    let middle = side.point_at(0.5);
    let pieces = intersection(area, &Region::from_ring(band)).polygons;
    let nearest = pieces.into_iter().min_by(|a, b| {
        let off = |p: &Polygon| distance_to_edge(&p.outer, middle);
        off(a).total_cmp(&off(b))
    });
    Region {
        polygons: nearest.into_iter().collect(),
    }
}

/// Farther than the area is wide, meters: a wider band is no wider band.
fn reach_of(area: &Region) -> f64 {
    let bounds = bounds(area.rings().flat_map(|ring| &ring.0).copied());
    bounds.map_or(0.0, |(low, high)| low.distance(high) + 1.0)
}

fn straight_band(from: Point, to: Point, width: f64, reach: f64) -> Option<Ring> {
    let along = (to - from).unit()?;
    let width = width.min(reach);
    let (on, inward) = (along * width, along.left() * width);
    let (start, end) = (from - on, to + on);
    // The side's own ends stay corners, so that the cut meets the area's corners exactly.
    Some(Ring(vec![
        start,
        from,
        to,
        end,
        end + inward,
        start + inward,
    ]))
}

fn round_band(side: &Segment, width: f64, tolerance: f64) -> Option<Ring> {
    let Segment::Arc {
        from,
        to,
        centre,
        radius,
        sweep,
        ..
    } = *side
    else {
        return None;
    };
    let most = (MOST_ROUND * TURN - sweep.abs()).max(0.0) / 2.0;
    let on = (width / radius).min(most) * sweep.signum();
    let spun = |spoke: Vector, by: f64| turned(spoke, cos(by), sin(by));
    let (first, last) = (spun(from - centre, -on), spun(to - centre, on));
    let outer = [(first, on), (from - centre, sweep), (to - centre, on)];
    let mut ring = vec![centre + first];
    for (spoke, turn) in outer {
        arc(centre, spoke, turn, tolerance, &mut ring);
    }
    // Back again on the left, where the area lies: nearer the center of an arc that turns left.
    let inner = radius - width * sweep.signum();
    if inner > tolerance {
        let scaled = |spoke: Vector| spoke * (inner / radius);
        ring.push(centre + scaled(last));
        for (spoke, turn) in [(last, on), (to - centre, sweep), (from - centre, on)] {
            arc(centre, scaled(spoke), -turn, tolerance, &mut ring);
        }
    } else {
        ring.push(centre);
    }
    Some(Ring(ring))
}

/// Points of an arc about `centre` from `centre + spoke` through `sweep` radians, its start
/// left out (inscribed chords, as the area's own boundary has them).
fn arc(centre: Point, spoke: Vector, sweep: f64, tolerance: f64, out: &mut Vec<Point>) {
    let to = centre + turned(spoke, cos(sweep), sin(sweep));
    let start = centre + spoke;
    let from = Vertex::arc(start.x, start.y, bulge_of_angle(sweep));
    flatten_segment(&Segment::between(from, to), tolerance, out);
}

/// How far a point is from the edge of a ring, meters.
fn distance_to_edge(ring: &Ring, p: Point) -> f64 {
    let off = |(a, b): (Point, Point)| {
        let along = b - a;
        let share = ((p - a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        p.distance(a + along * share)
    };
    ring.edges().map(off).fold(f64::INFINITY, f64::min)
}
