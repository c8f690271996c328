//! The grid of joints in a slab that was drawn: along its longest side and across it.

use super::{CORNER, LONGEST_PANEL, SHORTEST_PANEL};
use crate::geom::{Point, Polygon, Ring, Vector};
use crate::math::cos;

/// The most joints each way.
const MOST: f64 = 500.0;

/// Adds the joints of one polygon, each from side to side of the rectangle round it.
pub(super) fn lay(polygon: &Polygon, spacing: f64, joints: &mut Vec<Vec<Point>>) {
    let Some(along) = longest_side(&polygon.outer) else {
        return;
    };
    let across = along.left();
    let (on, aside) = (
        extent(&polygon.outer, along),
        extent(&polygon.outer, across),
    );
    let corners: Vec<f64> = reentrant(&polygon.outer).map(|p| place(p, along)).collect();
    let (mut long, mut wide) = (spacing, spacing);
    // The panel of the plain division, made squarer where it is too long for its width.
    let panel = |(low, high): (f64, f64), most: f64| {
        let parts = ((high - low) / most - 1e-9).ceil().clamp(1.0, MOST);
        (high - low) / parts
    };
    let (u, v) = (panel(on, long), panel(aside, wide));
    long = long.min((LONGEST_PANEL * v).max(SHORTEST_PANEL));
    wide = wide.min((LONGEST_PANEL * u).max(SHORTEST_PANEL));
    let at = |u: f64, v: f64| Point::default() + along * u + across * v;
    for u in between(on, long, corners) {
        joints.push(vec![at(u, aside.0), at(u, aside.1)]);
    }
    for v in between(aside, wide, Vec::new()) {
        joints.push(vec![at(on.0, v), at(on.1, v)]);
    }
}

/// Places between two ends: the fixed ones, and evenly between them at most `most` apart.
fn between((low, high): (f64, f64), most: f64, mut fixed: Vec<f64>) -> Vec<f64> {
    let apart = SHORTEST_PANEL / 2.0;
    fixed.retain(|p| *p > low + apart && *p < high - apart);
    fixed.sort_by(f64::total_cmp);
    fixed.dedup_by(|b, a| *b - *a < apart);
    let mut places = fixed.clone();
    fixed.push(high);
    let mut from = low;
    for end in fixed {
        let parts = ((end - from) / most - 1e-9).ceil().clamp(1.0, MOST);
        places.extend((1..parts as u32).map(|k| from + (end - from) * f64::from(k) / parts));
        from = end;
    }
    places
}

fn place(p: Point, along: Vector) -> f64 {
    along.dot(Vector::new(p.x, p.y))
}

fn extent(ring: &Ring, along: Vector) -> (f64, f64) {
    let places = ring.0.iter().map(|p| place(*p, along));
    places.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
        (low.min(at), high.max(at))
    })
}

/// The direction of the longest straight side. (What is left of an arc is short.)
fn longest_side(ring: &Ring) -> Option<Vector> {
    let longest = ring.edges().max_by(|a, b| {
        let long = |(p, q): &(Point, Point)| p.distance(*q);
        long(a).total_cmp(&long(b))
    })?;
    (longest.1 - longest.0).unit()
}

/// The corners that point into the slab.
fn reentrant(ring: &Ring) -> impl Iterator<Item = Point> + '_ {
    let next = ring.edges().skip(1).chain(ring.edges().take(1));
    ring.edges().zip(next).filter_map(|((a, b), (_, c))| {
        let (here, ahead) = ((b - a).unit()?, (c - b).unit()?);
        (here.cross(ahead) < 0.0 && here.dot(ahead) < cos(CORNER)).then_some(b)
    })
}
