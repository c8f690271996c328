//! Distance between two sets of stretches, arcs exact.
//!
//! The nearest points of two stretches lie at an end of one of them, where they cross, or where a
//! line through an arc's center leaves square. Each such place is probed by stepping from it to the
//! nearest point of the first stretch and from there to the second. Nothing is flattened: what is
//! found is right to rounding.

use super::distance::Nearest;
use super::meet::{crossings, nearest_on, reach};
use super::path::Segment;
use super::point::Point;

/// The nearest points of two sets of stretches (site meters) and their distance, never negative: 0
/// where they meet. A stretch from a point to itself is that point. None where either is empty.
pub fn nearest(from: &[Segment], to: &[Segment]) -> Option<Nearest> {
    let boxed = |all: &[Segment]| -> Vec<_> { all.iter().map(|s| (*s, reach(s))).collect() };
    let (from, to) = (boxed(from), boxed(to));
    let mut best: Option<Nearest> = None;
    for (a, a_box) in &from {
        for (b, b_box) in &to {
            if best.is_some_and(|best| boxes_apart(a_box, b_box) >= best.distance) {
                continue;
            }
            for place in probed(a, b) {
                let from = nearest_on(a, place);
                let to = nearest_on(b, from);
                let distance = from.distance(to);
                if best.is_none_or(|best| distance < best.distance) {
                    best = Some(Nearest { distance, from, to });
                }
            }
        }
    }
    best
}

fn probed(a: &Segment, b: &Segment) -> impl Iterator<Item = Point> {
    let ends = [a.from(), a.to(), b.from(), b.to()];
    ends.into_iter()
        .chain(crossings(a, b).into_iter().flatten())
}

/// Distance between two upright boxes, meters; 0 where they meet.
fn boxes_apart(a: &(Point, Point), b: &(Point, Point)) -> f64 {
    let gap = |low: f64, high: f64| (low - high).max(0.0);
    let x = gap(b.0.x, a.1.x).max(gap(a.0.x, b.1.x));
    let y = gap(b.0.y, a.1.y).max(gap(a.0.y, b.1.y));
    crate::math::hypot(x, y)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Vertex;

    fn line(a: [f64; 2], b: [f64; 2]) -> Segment {
        Segment::between(Vertex::line(a[0], a[1]), Point::from(b))
    }

    /// The lower half of the circle of radius 5 about the origin.
    fn bowl() -> Segment {
        Segment::between(Vertex::arc(-5.0, 0.0, 1.0), Point::new(5.0, 0.0))
    }

    fn apart(a: &[Segment], b: &[Segment]) -> f64 {
        let there = nearest(a, b).unwrap();
        let back = nearest(b, a).unwrap();
        assert!((there.distance - back.distance).abs() < 1e-12);
        assert!((there.from.distance(there.to) - there.distance).abs() < 1e-15);
        there.distance
    }

    #[test]
    fn arcs_are_not_flattened() {
        // Square to a line below: 9 m from the center.
        let below = line([-20.0, -9.0], [20.0, -9.0]);
        assert!((apart(&[bowl()], &[below]) - 4.0).abs() < 1e-12);
        // A line within the bowl and above its rim: to the ends.
        assert!((apart(&[bowl()], &[line([-1.0, 1.0], [1.0, 1.0])]) - 17f64.sqrt()).abs() < 1e-12);
        // A point; 0.6 and 0.8 of the radius away.
        let point = line([6.0, -8.0], [6.0, -8.0]);
        let there = nearest(&[bowl()], &[point]).unwrap();
        assert!((there.distance - 5.0).abs() < 1e-12);
        assert!(there.from.distance(Point::new(3.0, -4.0)) < 1e-12);
        // A circle within the bowl's, off its middle: radii 5 and 1, centers 3 apart.
        let ring =
            [1.0, -1.0].map(|x| Segment::between(Vertex::arc(x, -3.0, 1.0), Point::new(-x, -3.0)));
        assert!((apart(&[bowl()], &ring) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn what_crosses_is_nowhere_apart() {
        assert!(apart(&[bowl()], &[line([0.0, 0.0], [0.0, -9.0])]) < 1e-12);
        assert!(nearest(&[], &[bowl()]).is_none());
    }
}
