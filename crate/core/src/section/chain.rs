//! Chains of elevations along a line, and regions of them.

use crate::geom::{Point, Region, Ring};

/// Chains are sampled until they bend by less than this between samples, meters.
pub(super) const BEND: f64 = 0.001;

/// The farthest apart samples start out, meters.
const SAMPLE: f64 = 0.5;

/// How near to a break the two sides of it are looked at, meters.
pub(super) const BESIDE: f64 = 1e-6;

/// Breaks in order, those that are one but for rounding once.
pub(super) fn breaks(mut stations: Vec<f64>) -> Vec<f64> {
    stations.sort_by(f64::total_cmp);
    stations.dedup_by(|b, a| *b - *a < 4.0 * BESIDE);
    stations
}

/// A chain of elevations over a stretch, both sides of every break, bending by less than
/// `BEND` between points.
pub(super) fn sampled(
    (from, to): (f64, f64),
    breaks: &[f64],
    at: &dyn Fn(f64) -> f64,
) -> Vec<Point> {
    let mut stops = vec![from];
    stops.extend(
        breaks
            .iter()
            .copied()
            .filter(|s| *s > from + 2.0 * BESIDE && *s < to - 2.0 * BESIDE),
    );
    stops.push(to);
    let mut chain = Vec::new();
    for (&a, &b) in stops.iter().zip(stops.iter().skip(1)) {
        let (a, b) = (a + BESIDE, b - BESIDE);
        let count = ((b - a) / SAMPLE).ceil().max(1.0);
        let mut last = Point::new(a, at(a));
        chain.push(last);
        for k in 1..=count as u32 {
            let s = a + (b - a) * f64::from(k) / count;
            let next = Point::new(s, at(s));
            refine(last, next, at, &mut chain);
            chain.push(next);
            last = next;
        }
    }
    chain
}

/// Adds points between two until a straight stretch is near enough, looked at in three places.
fn refine(a: Point, b: Point, at: &dyn Fn(f64) -> f64, chain: &mut Vec<Point>) {
    if b.x - a.x < BEND {
        return;
    }
    let off = |share: f64| {
        let s = a.x + (b.x - a.x) * share;
        (at(s) - (a.y + (b.y - a.y) * share)).abs()
    };
    if off(0.5) > BEND || off(0.23) > BEND || off(0.81) > BEND {
        let s = (a.x + b.x) / 2.0;
        let middle = Point::new(s, at(s));
        refine(a, middle, at, chain);
        chain.push(middle);
        refine(middle, b, at, chain);
    }
}

/// Elevation of a chain at a station; `None` beyond its ends.
pub(super) fn height_on(chain: &[Point], s: f64) -> Option<f64> {
    let mut stretches = chain.iter().zip(chain.iter().skip(1));
    let (a, b) = stretches.find(|(a, b)| a.x <= s && s <= b.x)?;
    Some(if b.x > a.x {
        a.y + (b.y - a.y) * (s - a.x) / (b.x - a.x)
    } else {
        a.y
    })
}

/// Everything between a chain and a level below it.
pub(super) fn down_to(level: f64, chain: &[Point]) -> Region {
    let mut points = chain.to_vec();
    if let (Some(first), Some(last)) = (chain.first(), chain.last()) {
        points.push(Point::new(last.x, level));
        points.push(Point::new(first.x, level));
    }
    region(points)
}

/// A region inside one ring, whichever way it runs.
pub(super) fn region(points: Vec<Point>) -> Region {
    let ring = Ring(points);
    Region::from_ring(if ring.signed_area() < 0.0 {
        ring.reversed()
    } else {
        ring
    })
}
