//! Spurs of a raw ring: which of its detours through an inner corner may be left out.
//!
//! Leaving a detour out winds once less about every point of the spur it goes round. That does
//! no harm where those points are covered twice anyway, once from the ring farther on and once
//! from the ring farther back; this walks both ways to see.

use super::corner::{Corner, Edge, SAME_PLACE};
use super::point::Point;

/// The way past inner corner `i` that leaves its spur out, if there is one: by the meeting point
/// of the tangent lines, or straight across.
pub(super) fn joined(corners: &[Corner], i: usize) -> Option<Vec<Point>> {
    let corner = corners.get(i).filter(|corner| corner.is_open())?;
    let (at, arrival, departure) = (corner.at, corner.arrival(), corner.departure());
    if let Some((mitre, _)) = corner.mitre()
        && is_covered_both_ways(&[at, arrival, mitre, departure], corners, i)
    {
        return Some(vec![mitre]);
    }
    is_covered_both_ways(&[at, arrival, departure], corners, i).then(|| vec![arrival, departure])
}

/// Whether all of the spur at inner corner `i` is covered from an edge or an outer corner
/// farther on, and from one farther back.
fn is_covered_both_ways(spur: &[Point], corners: &[Corner], i: usize) -> bool {
    let count = corners.len();
    let later = || corners.iter().cycle().skip(i).take(count);
    let onward = later().zip(later().skip(1)).map(|(from, to)| Leg {
        edge: from.outgoing,
        from: *from,
        to: *to,
        way: 1.0,
    });
    let earlier = || corners.iter().rev().cycle().skip(count - 1 - i).take(count);
    let back = earlier().zip(earlier().skip(1)).map(|(from, to)| Leg {
        edge: from.incoming,
        from: *from,
        to: *to,
        way: -1.0,
    });
    is_covered(spur, onward) && is_covered(spur, back)
}

/// An edge as it is walked away from a corner.
struct Leg {
    edge: Edge,
    /// The corner come from.
    from: Corner,
    /// The corner gone to.
    to: Corner,
    /// 1 when walked onward, -1 when walked back.
    way: f64,
}

impl Leg {
    /// How far the foot of `p` lies beyond a corner of this leg, in the sense of the walk, meters.
    fn beyond(&self, p: Point, corner: &Corner) -> f64 {
        self.way * self.edge.onward(p, corner.at)
    }

    /// Whether a point whose foot does not lie beyond this leg is inside the disc about its foot:
    /// that of the corner come from, when the foot is there.
    fn covers(&self, p: Point) -> bool {
        if self.beyond(p, &self.from) < 0.0 {
            p.distance(self.from.at) <= self.from.radius + SAME_PLACE
        } else {
            self.edge.normal.dot(p - self.to.at) <= self.to.radius + SAME_PLACE
        }
    }
}

/// Walks away from a corner until every point of the spur has had its foot on an edge or on an
/// outer corner between two, and was covered from there.
///
/// A point comes nearer to the discs while its foot lies ahead, as long as it stays to the right
/// of every edge passed, so its first foot is the place nearest to it on this stretch. The walk
/// gives up as soon as any part of the spur still ahead is not to the right.
fn is_covered(spur: &[Point], legs: impl Iterator<Item = Leg>) -> bool {
    let mut ahead = spur.to_vec();
    let (mut here, mut rest) = (Vec::new(), Vec::new());
    for leg in legs {
        let strays = |p: &Point| leg.edge.leftward(*p, leg.to.at) > SAME_PLACE;
        if leg.edge.run == 0.0 || ahead.iter().any(strays) {
            return false;
        }
        keep_above(&ahead, |p| SAME_PLACE - leg.beyond(p, &leg.to), &mut here);
        if !here.iter().all(|p| leg.covers(*p)) {
            return false;
        }
        keep_above(&ahead, |p| leg.beyond(p, &leg.to) - SAME_PLACE, &mut rest);
        core::mem::swap(&mut ahead, &mut rest);
        if ahead.is_empty() {
            return true;
        }
    }
    false
}

/// The part of a convex polygon where `height` is positive.
fn keep_above(polygon: &[Point], height: impl Fn(Point) -> f64, kept: &mut Vec<Point>) {
    kept.clear();
    let next = polygon.iter().cycle().skip(1);
    for (&p, &q) in polygon.iter().zip(next) {
        let (h, k) = (height(p), height(q));
        if h > 0.0 {
            kept.push(p);
        }
        if (h > 0.0) != (k > 0.0) {
            kept.push(p + (q - p) * (h / (h - k)));
        }
    }
}
