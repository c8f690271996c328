//! Every sum of a point of one ring and a point of another, as rings that wind about it.
//!
//! # Method
//! The convolution of two rings (Guibas, Ramshaw and Stolfi, 1983): each edge of one is carried to
//! every corner of the other whose turn takes in its direction, backward where the corner turns
//! right. The pieces close up, and wind about a sum as often as the first ring and the second one,
//! reflected and moved there, have parts in common (simple rings counter-clockwise). Nothing is
//! cut and no ring is taken apart: the fill rule of one overlay does the rest.
//!
//! Pieces are joined by the numbers of their corners, so that no rounding can open a ring. Where
//! two edges run in one direction, those of the first ring count as the later ones.
//!
//! The edges whose directions a corner's turn takes in follow one another in the order of directions:
//! where that run begins and how long it is tells of every edge whether it is carried there, and the
//! piece's own number. So joining takes one step for each piece.

use super::point::{Point, Vector};
use super::region::{Ring, bounds};

/// A turn by this much more than half a turn still is one to the left: the end of a chain that is
/// walked there and back. In quarter turns.
const HALF_TURN_SLACK: f64 = 1e-9;

/// A ring made ready to be convolved with one after another.
#[derive(Debug, Clone, Default)]
pub struct Tracing {
    points: Vec<Point>,
    /// The direction of the edge that leaves each corner, quarter turns (not evenly spread).
    directions: Vec<f64>,
    /// The edges by their directions, each with its own.
    sorted: Vec<(f64, usize)>,
    /// The place of each edge in that order.
    ranks: Vec<usize>,
    /// The least upright rectangle around it.
    extent: Option<[Point; 2]>,
}

/// The edges of the other ring that are carried to a corner.
#[derive(Debug, Clone, Copy, Default)]
struct Carried {
    /// The place of the first one in the order of directions.
    first: usize,
    count: usize,
    /// The number of the first one's piece.
    piece: usize,
    /// Whether the corner turns left: they are walked forward.
    left: bool,
}

/// A corner of the convolution: one of the first ring's and one of the second's.
type Pair = (usize, usize);

impl Tracing {
    /// A ring of straight edges. A chain counts as walked there and back, a point as itself; corners
    /// that fall together count once.
    pub fn of_ring(points: &[Point]) -> Self {
        let mut points = points.to_vec();
        points.dedup();
        while points.len() > 1 && points.first() == points.last() {
            points.pop();
        }
        let after = points.iter().cycle().skip(1);
        let directions: Vec<f64> = points
            .iter()
            .zip(after)
            .map(|(from, to)| direction(*to - *from))
            .collect();
        let mut sorted: Vec<(f64, usize)> = directions.iter().copied().zip(0..).collect();
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut ranks = vec![0; sorted.len()];
        for (place, (_, edge)) in sorted.iter().enumerate() {
            if let Some(rank) = ranks.get_mut(*edge) {
                *rank = place;
            }
        }
        Self {
            extent: bounds(points.iter().copied()).map(|(low, high)| [low, high]),
            points,
            directions,
            sorted,
            ranks,
        }
    }

    /// A chain of straight edges, walked there and back.
    pub fn of_chain(chain: &[Point]) -> Self {
        Self::of_ring(&Ring::there_and_back(chain).0)
    }

    /// The same ring reflected in the origin.
    #[must_use]
    pub fn reflected(ring: &[Point]) -> Self {
        let points: Vec<Point> = ring.iter().map(|p| Point::new(-p.x, -p.y)).collect();
        Self::of_ring(&points)
    }

    /// The least upright rectangle around it, its low corner and its high one; `None` of an empty ring.
    pub fn extent(&self) -> Option<[Point; 2]> {
        self.extent
    }

    fn next(&self, corner: usize) -> usize {
        let next = corner + 1;
        if next < self.points.len() { next } else { 0 }
    }

    fn previous(&self, corner: usize) -> usize {
        let of_first = self.points.len().saturating_sub(1);
        corner.checked_sub(1).unwrap_or(of_first)
    }

    /// The edges of another ring that are carried to each corner: whose directions lie in its turn, the one it begins with
    /// among them or the one it ends with. Pieces are numbered on from `pieces`.
    fn carries(&self, other: &Self, with_end: bool, pieces: &mut usize) -> Vec<Carried> {
        let edges = other.sorted.len();
        let below = |limit: f64| {
            let sorted = &other.sorted;
            sorted.partition_point(|(key, _)| *key < limit || (with_end && *key <= limit))
        };
        // Where each direction would stand in that order: a corner's turn ends where the next one's begins.
        let places = self
            .directions
            .iter()
            .map(|direction| (*direction, below(*direction)));
        let places: Vec<(f64, usize)> = places.collect();
        let before = places.last().into_iter().chain(&places);
        let carried = before.zip(&places).map(|(from, to)| {
            let turn = to.0 - from.0;
            let turn = if turn < 0.0 { turn + 4.0 } else { turn };
            if turn == 0.0 {
                return Carried::default();
            }
            let left = turn <= 2.0 + HALF_TURN_SLACK;
            let ((low, first), (high, end)) = if left { (*from, *to) } else { (*to, *from) };
            let count = if low <= high {
                end - first
            } else {
                edges - first + end
            };
            let piece = *pieces;
            *pieces += count;
            Carried {
                first,
                count,
                piece,
                left,
            }
        });
        carried.collect()
    }

    /// Which of the edges carried to a corner of another ring leaves a corner of this one, by its piece's number, and
    /// the corner it ends at.
    fn leaving(&self, corner: usize, carried: &Carried) -> Option<(usize, usize)> {
        let (edge, to) = if carried.left {
            (corner, self.next(corner))
        } else {
            let before = self.previous(corner);
            (before, before)
        };
        let rank = *self.ranks.get(edge)?;
        let along = rank.checked_sub(carried.first);
        let along = along.unwrap_or(rank + self.ranks.len() - carried.first);
        (along < carried.count).then_some((carried.piece + along, to))
    }

    /// The corner that one of the edges carried to a corner of another ring leaves.
    fn left_by(&self, along: usize, carried: &Carried) -> Option<usize> {
        let place = carried.first + along;
        let wrapped = place.checked_sub(self.sorted.len()).unwrap_or(place);
        let (_, edge) = *self.sorted.get(wrapped)?;
        Some(if carried.left { edge } else { self.next(edge) })
    }
}

/// Where a vector points, quarter turns in 0 to 4: as the angle grows so does this, and opposite
/// directions are 2 apart.
fn direction(v: Vector) -> f64 {
    let share = v.y.abs() / (v.x.abs() + v.y.abs());
    match (v.x >= 0.0, v.y >= 0.0) {
        (true, true) => share,
        (false, true) => 2.0 - share,
        (false, false) => 2.0 + share,
        // Just below the first direction a difference may round to a whole turn.
        (true, false) => (4.0 - share) % 4.0,
    }
}

/// The rings whose winding number counts the parts that `a` has in common with `b` reflected and
/// moved; empty where either is empty. A ring of one point moves the other.
pub fn convolution(a: &Tracing, b: &Tracing) -> Vec<Ring> {
    match (a.points.as_slice(), b.points.as_slice()) {
        ([], _) | (_, []) => return Vec::new(),
        ([point], ring) | (ring, [point]) => {
            let by = Vector::new(point.x, point.y);
            return vec![Ring(ring.iter().map(|p| *p + by).collect())];
        }
        _ => {}
    }
    let mut pieces = 0;
    let at_b = b.carries(a, false, &mut pieces);
    let at_a = a.carries(b, true, &mut pieces);
    let mut walked = vec![false; pieces];
    let mut rings = Vec::new();
    let mut walk = |from: Pair| {
        let ring = joined([a, b], [&at_a, &at_b], from, &mut walked);
        if ring.0.len() > 2 {
            rings.push(ring);
        }
    };
    for (corner, carried) in at_b.iter().enumerate() {
        let edges = (0..carried.count).filter_map(|along| a.left_by(along, carried));
        edges.for_each(|from| walk((from, corner)));
    }
    for (corner, carried) in at_a.iter().enumerate() {
        let edges = (0..carried.count).filter_map(|along| b.left_by(along, carried));
        edges.for_each(|from| walk((corner, from)));
    }
    rings
}

/// The pieces that were not walked before, one after the other from one corner until it comes round: as many leave each
/// corner as reach it.
fn joined(
    [a, b]: [&Tracing; 2],
    [at_a, at_b]: [&[Carried]; 2],
    from: Pair,
    walked: &mut [bool],
) -> Ring {
    let mut ring = Ring::default();
    let (mut i, mut j) = from;
    loop {
        let mut is_new = |piece: usize| {
            let walked = walked.get_mut(piece);
            walked.is_some_and(|it| !std::mem::replace(it, true))
        };
        let along_a = at_b.get(j).and_then(|carried| a.leaving(i, carried));
        let along_b = || at_a.get(i).and_then(|carried| b.leaving(j, carried));
        let next = match along_a.filter(|(piece, _)| is_new(*piece)) {
            Some((_, to)) => (to, j),
            None => match along_b().filter(|(piece, _)| is_new(*piece)) {
                Some((_, to)) => (i, to),
                None => return ring,
            },
        };
        if let (Some(p), Some(q)) = (a.points.get(i), b.points.get(j)) {
            ring.0.push(Point::new(p.x + q.x, p.y + q.y));
        }
        (i, j) = next;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::boolean::positive_winding;

    fn points(pairs: &[(f64, f64)]) -> Vec<Point> {
        pairs.iter().map(|(x, y)| Point::new(*x, *y)).collect()
    }

    fn sum_area(a: &Tracing, b: &Tracing) -> f64 {
        positive_winding(&convolution(a, b)).area()
    }

    #[test]
    fn two_rectangles_add_their_sides() {
        let a = Tracing::of_ring(&points(&[(0.0, 0.0), (3.0, 0.0), (3.0, 2.0), (0.0, 2.0)]));
        let b = Tracing::of_ring(&points(&[(0.0, 0.0), (1.0, 0.0), (1.0, 4.0), (0.0, 4.0)]));
        assert!((sum_area(&a, &b) - 4.0 * 6.0).abs() < 1e-6);
        assert!((sum_area(&b, &a) - 24.0).abs() < 1e-6);
    }

    #[test]
    fn a_chain_and_a_point_sweep_a_ring() {
        let ring = Tracing::of_ring(&points(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)]));
        let chain = Tracing::of_chain(&points(&[(0.0, 0.0), (0.0, 5.0)]));
        assert!((sum_area(&chain, &ring) - 2.0 * 6.0).abs() < 1e-6);
        let bent = Tracing::of_chain(&points(&[(0.0, 0.0), (0.0, 5.0), (7.0, 5.0)]));
        assert!((sum_area(&bent, &ring) - (2.0 * 6.0 + 7.0)).abs() < 1e-6);
        let point = Tracing::of_chain(&points(&[(9.0, 9.0)]));
        assert!((sum_area(&point, &ring) - 2.0).abs() < 1e-6);
        assert_eq!(
            convolution(&Tracing::default(), &ring),
            Vec::<Ring>::default()
        );
    }

    #[test]
    fn a_ring_walked_clockwise_leaves_the_places_that_fit_inside() {
        // An L-shaped room and a square of 1 by 1: what fits is an L, each arm 1 narrower and the
        // inner corner where it was.
        let room = points(&[
            (0.0, 0.0),
            (6.0, 0.0),
            (6.0, 2.0),
            (2.0, 2.0),
            (2.0, 5.0),
            (0.0, 5.0),
        ]);
        let clockwise: Vec<Point> = room.iter().rev().copied().collect();
        let block = points(&[(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]);
        let rings = convolution(&Tracing::of_ring(&clockwise), &Tracing::reflected(&block));
        let inside: Vec<Ring> = rings.iter().map(Ring::reversed).collect();
        // 5 by 1 along the foot, 1 by 3 up the other arm.
        let fits = positive_winding(&inside);
        assert!((fits.area() - (5.0 + 3.0)).abs() < 1e-5, "{}", fits.area());
    }
}
