//! Rings and chains with fewer corners, for searches that look at thousands of places.

use super::point::Point;
use super::region::Ring;

/// The ring without corners that lie within `within` meters of the straight edge that takes their place.
pub fn thinned(ring: &Ring, within: f64) -> Ring {
    let mut closed = ring.0.clone();
    closed.extend(ring.0.first());
    let mut kept = thinned_chain(&closed, within);
    kept.pop();
    Ring(kept)
}

/// The chain without corners that lie within `within` meters of the straight edge that takes their
/// place; its ends stay.
pub fn thinned_chain(chain: &[Point], within: f64) -> Vec<Point> {
    let mut kept: Vec<Point> = chain.first().copied().into_iter().collect();
    let mut rest = chain;
    while let [from, after @ ..] = rest {
        // As far on as one edge stands for all it passes.
        let reach = (1..after.len())
            .take_while(|last| {
                let passed = after.get(..*last).unwrap_or_default();
                let to = after.get(*last);
                to.is_some_and(|to| passed.iter().all(|p| apart(*p, *from, *to) <= within))
            })
            .count();
        kept.extend(after.get(reach));
        rest = after.get(reach..).unwrap_or_default();
    }
    kept
}

/// Distance of a point from a straight edge, meters.
fn apart(p: Point, from: Point, to: Point) -> f64 {
    let along = to - from;
    let share = ((p - from).dot(along) / along.dot(along)).clamp(0.0, 1.0);
    if share.is_nan() {
        return p.distance(from);
    }
    p.distance(from + along * share)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Vector;
    use crate::math::TURN;

    #[test]
    fn a_circle_keeps_the_corners_that_its_tolerance_asks_for() {
        let circle = |parts: u16| {
            let at = |i| Vector::at_angle(TURN * f64::from(i) / f64::from(parts)) * 5.0;
            Ring((0..parts).map(|i| Point::default() + at(i)).collect())
        };
        let fine = circle(360);
        let thin = thinned(&fine, 0.005);
        // A chord 5 mm off a circle of 5 m spans 2 acos(1 - 0.001) = 5.1 degrees: 71 of them.
        assert!((60..80).contains(&thin.0.len()), "{}", thin.0.len());
        for p in &fine.0 {
            let mut edges = thin.edges();
            assert!(edges.any(|(a, b)| apart(*p, a, b) <= 0.005 + 1e-12));
        }
    }

    #[test]
    fn corners_and_ends_stay() {
        let points = [(0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (2.0, 1.0), (2.0, 2.0)];
        let chain = points.map(|(x, y)| Point::new(x, y));
        let thin = thinned_chain(&chain, 1e-6);
        assert_eq!(thin, [chain[0], chain[2], chain[4]]);
        assert_eq!(thinned_chain(&chain[..1], 1.0), chain[..1]);
        assert_eq!(thinned_chain(&[], 1.0), []);
        let square = Ring(
            [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
                .map(|(x, y)| Point::new(x, y))
                .to_vec(),
        );
        assert_eq!(thinned(&square, 0.01), square);
    }
}
