//! Straight edges that many single points are measured to.

use super::extent::{BLOCK, Extent};
use super::point::{Point, Vector};
use super::region::{Region, Ring};
use crate::math::lesser;

/// A point this near to an edge lies on it, meters.
const ON_IT: f64 = 1e-9;

/// The edges of some rings or chains, ready for the distance of one point after another.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Edges {
    edges: Vec<Edge>,
    /// The box round each block of them: most blocks are known to lie too far away by it.
    extents: Vec<Extent>,
}

/// A straight edge from a point along a vector.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Edge {
    pub from: Point,
    pub along: Vector,
    /// One over the squared length; 0 for an edge of no length: so a vertex alone is an edge.
    pub per_square: f64,
}

/// The place on some edges that lies nearest to a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Foot {
    /// Distance of the point from it, meters.
    pub distance: f64,
    /// The place.
    pub at: Point,
    /// Which edge it lies on, in the order they were given.
    pub edge: usize,
    /// How far along that edge, 0 to 1.
    pub along: f64,
    /// The way from the point to the place, a unit vector; from a point on the edge itself, square
    /// to the edge.
    pub way: Vector,
}

impl Edges {
    /// The edges of every ring of a region.
    pub fn of_region(region: &Region) -> Self {
        Self::of_rings(region.rings())
    }

    /// The edges of some rings.
    pub fn of_rings<'a>(rings: impl IntoIterator<Item = &'a Ring>) -> Self {
        let edges = rings.into_iter().flat_map(Ring::edges);
        Self::of(edges.map(|(a, b)| Edge::new(a, b)).collect())
    }

    /// The edges of a chain; of a chain of one point that point.
    pub fn of_chain(chain: &[Point]) -> Self {
        Self::of(chained(chain))
    }

    fn of(edges: Vec<Edge>) -> Self {
        Self {
            extents: extents(&edges),
            edges,
        }
    }

    /// The same and those of another.
    pub fn extend(&mut self, other: Self) {
        self.edges.extend(other.edges);
        self.extents = extents(&self.edges);
    }

    /// Those of them that may be nearest to a point within `radius` of `middle`, meters.
    pub fn around(&self, middle: Point, radius: f64) -> Self {
        let reach = self.distance(middle) + 2.0 * radius;
        let near = |edge: &&Edge| edge.offer(middle).0 <= reach * reach;
        Self::of(self.edges.iter().filter(near).copied().collect())
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.edges.is_empty()
    }

    /// Distance from a point to the nearest edge, meters; infinite where there is none.
    pub fn distance(&self, p: Point) -> f64 {
        let measured = |block: &[Edge], least: f64| {
            let squares = block.iter().map(|edge| edge.offer(p).0);
            squares.fold(least, lesser)
        };
        let mut least = self
            .likely(p)
            .map_or(f64::INFINITY, |block| measured(block, f64::INFINITY));
        for (block, extent) in self.edges.chunks(BLOCK).zip(&self.extents) {
            if extent.may_be_nearer(p, least) {
                least = measured(block, least);
            }
        }
        least.sqrt()
    }

    /// Whether a point lies nearer to an edge than `limit`, meters.
    pub fn within(&self, p: Point, limit: f64) -> bool {
        let square = limit * limit;
        let mut blocks = self.edges.chunks(BLOCK).zip(&self.extents);
        blocks.any(|(block, extent)| {
            extent.may_be_nearer(p, square) && block.iter().any(|edge| edge.offer(p).0 < square)
        })
    }

    /// The block with the nearest box: a search that begins there leaves out most of the others.
    fn likely(&self, p: Point) -> Option<&[Edge]> {
        let (mut near, mut likely) = (f64::INFINITY, None);
        for (block, extent) in self.edges.chunks(BLOCK).zip(&self.extents) {
            let square = extent.square_to(p);
            if square < near {
                (near, likely) = (square, Some(block));
            }
        }
        likely
    }

    /// The place of the edges nearest to a point; the first of equals.
    pub fn nearest(&self, p: Point) -> Option<Foot> {
        let (mut least, mut best) = (f64::INFINITY, None);
        // No farther than this, though an equal may stand before it.
        if let Some(block) = self.likely(p) {
            let squares = block.iter().map(|edge| edge.offer(p).0);
            least = squares.fold(least, lesser);
        }
        let blocks = self.edges.chunks(BLOCK).zip(&self.extents);
        for (number, (block, extent)) in blocks.enumerate() {
            if !extent.may_be_nearer(p, least) {
                continue;
            }
            for (i, edge) in block.iter().enumerate() {
                let (square, along) = edge.offer(p);
                if square < least || (best.is_none() && square <= least) {
                    (least, best) = (square, Some((square, along, number * BLOCK + i)));
                }
            }
        }
        let (square, along, edge) = best?;
        let on = self.edges.get(edge)?;
        let (at, distance) = (on.from + on.along * along, square.sqrt());
        let way = if distance > ON_IT {
            (at - p) * (1.0 / distance)
        } else {
            on.along.left().unit().unwrap_or_default()
        };
        Some(Foot {
            distance,
            at,
            edge,
            along,
            way,
        })
    }
}

/// The edges of a chain; of a chain of one point that point.
pub(super) fn chained(chain: &[Point]) -> Vec<Edge> {
    match chain {
        [alone] => vec![Edge::new(*alone, *alone)],
        _ => {
            let pairs = chain.iter().zip(chain.iter().skip(1));
            pairs.map(|(a, b)| Edge::new(*a, *b)).collect()
        }
    }
}

/// The box round each block of edges.
pub(super) fn extents(edges: &[Edge]) -> Vec<Extent> {
    let ends = |edge: &Edge| [edge.from, edge.from + edge.along];
    let round = |block: &[Edge]| Extent::round(block.iter().flat_map(ends));
    edges.chunks(BLOCK).map(round).collect()
}

impl Edge {
    pub fn new(from: Point, to: Point) -> Self {
        let along = to - from;
        let square = along.dot(along);
        Self {
            from,
            along,
            per_square: if square > 0.0 { 1.0 / square } else { 0.0 },
        }
    }

    /// Squared distance to a point, and how far along the edge its foot lies.
    fn offer(&self, p: Point) -> (f64, f64) {
        let to = p - self.from;
        let along = to.dot(self.along) * self.per_square;
        let along = if along > 0.0 { along } else { 0.0 };
        let along = if along < 1.0 { along } else { 1.0 };
        let off = to - self.along * along;
        (off.dot(off), along)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Ring;

    #[test]
    fn a_point_finds_its_foot() {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)].map(|(x, y)| Point::new(x, y));
        let edges = Edges::of_region(&Region::from_ring(Ring(corners.to_vec())));
        let foot = edges.nearest(Point::new(1.0, -2.0)).unwrap();
        assert_eq!((foot.edge, foot.along, foot.distance), (0, 0.25, 2.0));
        assert_eq!(foot.at, Point::new(1.0, 0.0));
        assert_eq!(foot.way, Vector::new(0.0, 1.0));
        let on_it = edges.nearest(Point::new(4.0, 1.0)).unwrap();
        assert_eq!((on_it.distance, on_it.way.x.abs()), (0.0, 1.0));
        assert_eq!(edges.distance(Point::new(7.0, 7.0)), 5.0);
    }

    #[test]
    fn the_edges_round_a_place_measure_as_all_do() {
        let at = |k: i32| {
            let turn = f64::from(k) * 0.1;
            Point::new(5.0 * crate::math::cos(turn), 3.0 * crate::math::sin(turn))
        };
        let all = Edges::of_chain(&(0..63).map(at).collect::<Vec<_>>());
        let middle = Point::new(6.0, 1.0);
        let some = all.around(middle, 0.5);
        assert!(some.edges.len() < all.edges.len() / 2);
        for k in 0..63 {
            let p = middle + (at(k) - Point::default()) * 0.1;
            assert_eq!(all.distance(p), some.distance(p));
        }
    }

    /// Blocks of edges are left out by their boxes; the rest measures as every edge by itself does.
    #[test]
    fn many_edges_measure_as_each_alone() {
        let at = |k: i32| {
            let (turn, out) = (f64::from(k) * 0.05, 4.0 + f64::from(k % 7) / 3.0);
            Point::new(out * crate::math::cos(turn), out * crate::math::sin(turn))
        };
        let chain: Vec<Point> = (0..125).map(at).collect();
        let all = Edges::of_chain(&chain);
        for k in 0..200 {
            let p = Point::new(f64::from(k % 20) - 9.3, f64::from(k / 20) * 1.7 - 8.1);
            let alone: Vec<f64> = chain
                .windows(2)
                .map(|edge| Edges::of_chain(edge).distance(p))
                .collect();
            let least = alone.iter().copied().fold(f64::INFINITY, f64::min);
            let foot = all.nearest(p).unwrap();
            assert_eq!((all.distance(p), foot.distance), (least, least));
            assert_eq!(alone[foot.edge], least);
            let squares: Vec<f64> = all.edges.iter().map(|edge| edge.offer(p).0).collect();
            let nearest = squares.iter().copied().fold(f64::INFINITY, f64::min);
            let first = squares.iter().position(|square| *square == nearest);
            assert_eq!(first, Some(foot.edge));
            assert!(all.within(p, least + 1e-9) && !all.within(p, least - 1e-9));
        }
    }

    #[test]
    fn nothing_is_infinitely_far_and_a_point_is_an_edge() {
        assert_eq!(Edges::default().distance(Point::default()), f64::INFINITY);
        assert!(Edges::default().nearest(Point::default()).is_none());
        let alone = Edges::of_chain(&[Point::new(3.0, 4.0)]);
        assert_eq!(alone.distance(Point::default()), 5.0);
    }
}
