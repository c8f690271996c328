//! Stakes along a closed line: where it turns, where straights end, and evenly along what bends.

use crate::geom::{Point, Ring, Segment, nearest_on};
use crate::units::constants::DEGREE;

/// An edge at least so long is a straight, meters: a chord of an arc flattened within 5 mm is that
/// long from a radius of 25 m on.
const STRAIGHT: f64 = 1.0;

/// A turn by more than this is a corner: an arc of 5 cm flattened within 1 mm turns by less.
const CORNER: f64 = 30.0 * DEGREE;

/// A vertex this near to the straight between its neighbors is none, meters.
const ON_IT: f64 = 2e-4;

/// The most stakes from one corner or end of a straight to the next (arbitrary).
const MOST: usize = 200;

/// Stakes along a ring, beginning where `key` is greatest, and how far a string from one to the
/// next lies off the ring at most, meters: not more than `chord`, while `MOST` is not reached.
pub(super) fn along(ring: &Ring, chord: f64, key: impl Fn(Point) -> f64) -> (Vec<Point>, f64) {
    let ring = turned(plain(&ring.0), key);
    let count = ring.len();
    if count < 3 {
        return (ring, 0.0);
    }
    let at = |i: usize| ring.get(i % count).copied().unwrap_or_default();
    let is_kept = |i: usize| {
        let (into, out) = (at(i) - at(i + count - 1), at(i + 1) - at(i));
        let turn = crate::math::atan2(into.cross(out), into.dot(out));
        into.length() >= STRAIGHT || out.length() >= STRAIGHT || turn.abs() > CORNER
    };
    let mut kept: Vec<usize> = (0..count).filter(|i| is_kept(*i)).collect();
    if kept.is_empty() {
        kept.push(0);
    }
    let mut stakes = Vec::new();
    let mut worst = 0.0_f64;
    let ends = kept.iter().skip(1).copied();
    let ends = ends.chain(kept.first().map(|first| first + count));
    for (from, to) in kept.iter().copied().zip(ends) {
        let chain: Vec<Point> = (from..=to).map(at).collect();
        // A closed one of a single chain needs three stakes to enclose anything.
        let least = if kept.len() == 1 { 3 } else { 1 };
        let (parts, off) = divided(&chain, least, chord);
        worst = worst.max(off);
        stakes.extend(parts);
    }
    (stakes, worst)
}

/// The ring without vertices that lie on a straight.
fn plain(ring: &[Point]) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::with_capacity(ring.len());
    for (i, p) in ring.iter().enumerate() {
        let next = ring.get(i + 1).or(ring.first()).copied().unwrap_or(*p);
        let before = kept.last().or(ring.last()).copied().unwrap_or(*p);
        if before.distance(*p) > ON_IT && off(before, next, *p) > ON_IT {
            kept.push(*p);
        }
    }
    kept
}

/// The ring beginning with the vertex of the greatest key.
fn turned(mut ring: Vec<Point>, key: impl Fn(Point) -> f64) -> Vec<Point> {
    let greatest = ring
        .iter()
        .enumerate()
        .max_by(|(i, p), (j, q)| key(**p).total_cmp(&key(**q)).then(j.cmp(i)));
    let first = greatest.map_or(0, |(i, _)| i);
    ring.rotate_left(first);
    ring
}

/// Points evenly along a chain, its last one left out: at least `least` stretches, and so many that
/// strings lie within `chord`; and how far off they are.
fn divided(chain: &[Point], least: usize, chord: f64) -> (Vec<Point>, f64) {
    let pairs = || chain.iter().copied().zip(chain.iter().skip(1).copied());
    let whole: f64 = pairs().map(|(a, b)| a.distance(b)).sum();
    for parts in least..=MOST {
        let step = whole / parts as f64;
        let mut stakes: Vec<Point> = chain.first().copied().into_iter().collect();
        // The places, each with how many stakes stand before it.
        let mut strung: Vec<(Point, usize)> = Vec::new();
        let mut walked = 0.0;
        for (a, b) in pairs() {
            let length = a.distance(b);
            strung.push((a, stakes.len() - 1));
            while stakes.len() < parts && step * (stakes.len() as f64) <= walked + length {
                let share = (step * stakes.len() as f64 - walked) / length;
                stakes.push(a + (b - a) * share);
            }
            walked += length;
        }
        let end = chain.last().copied().unwrap_or_default();
        let string = |i: usize| {
            let from = stakes.get(i).copied().unwrap_or(end);
            (from, stakes.get(i + 1).copied().unwrap_or(end))
        };
        let offs = strung.iter().map(|(p, i)| {
            let (a, b) = string(*i);
            off(a, b, *p)
        });
        let worst = offs.fold(0.0, f64::max);
        if worst <= chord || parts == MOST {
            return (stakes, worst);
        }
    }
    (Vec::new(), 0.0)
}

/// Distance of a point from a straight, meters; from its end where it has no length.
fn off(from: Point, to: Point, p: Point) -> f64 {
    p.distance(nearest_on(&Segment::Line { from, to }, p))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing)]
    use super::*;
    use crate::geom::flatten::{ChordSide, flatten};
    use crate::geom::{Outline, Vertex};

    /// 8 m by 4 m with corners of 1 m.
    fn rounded() -> Ring {
        let bulge = crate::math::tan(core::f64::consts::PI / 8.0);
        let corners = [
            Vertex::line(-3.0, -2.0),
            Vertex::arc(3.0, -2.0, bulge),
            Vertex::line(4.0, -1.0),
            Vertex::arc(4.0, 1.0, bulge),
            Vertex::line(3.0, 2.0),
            Vertex::arc(-3.0, 2.0, bulge),
            Vertex::line(-4.0, 1.0),
            Vertex::arc(-4.0, -1.0, bulge),
        ];
        let outline = Outline::check(corners.to_vec()).unwrap();
        flatten(&outline, 0.001, ChordSide::Inscribed)
    }

    #[test]
    fn straights_keep_their_ends_and_arcs_are_divided_evenly() {
        let (stakes, worst) = along(&rounded(), 0.05, |p| p.x);
        // A quarter circle of 1 m in three: 1 - cos 15 degrees is 3.4 cm; in two it is 7.6 cm.
        assert_eq!(stakes.len(), 8 + 4 * 2);
        assert!((worst - 0.034_07).abs() < 1e-3, "{worst}");
        for end in [(4.0, -1.0), (4.0, 1.0), (3.0, 2.0), (-3.0, -2.0)] {
            let end = Point::new(end.0, end.1);
            assert!(stakes.iter().any(|p| p.distance(end) < 1e-9), "{end:?}");
        }
        assert!((stakes[0].x - 4.0).abs() < 1e-9);
    }

    #[test]
    fn a_circle_has_no_corner_and_a_square_nothing_else() {
        let circle = (0..360).map(|i| Point::new(0.0, 0.0) + turn(f64::from(i)) * 2.0);
        let (stakes, worst) = along(&Ring(circle.collect()), 0.05, |p| p.y);
        // 2 (1 - cos (pi / n)) is 4.9 cm with 15 stakes or more.
        assert_eq!(stakes.len(), 15);
        assert!(worst <= 0.05 && stakes[0].distance(Point::new(0.0, 2.0)) < 1e-9);
        let square = [(0.0, 0.0), (0.5, 0.0), (0.5, 0.5), (0.0, 0.5)];
        let square = Ring(square.map(|(x, y)| Point::new(x, y)).to_vec());
        assert_eq!(along(&square, 0.05, |p| p.x).0.len(), 4);
        assert!(along(&Ring::default(), 0.05, |p| p.x).0.is_empty());
    }

    fn turn(degrees: f64) -> crate::geom::Vector {
        crate::geom::Vector::at_angle(degrees * DEGREE)
    }
}
