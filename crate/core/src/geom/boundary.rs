//! The straight edges of a figure, made ready for measuring.

use super::edges::{Edge, chained, extents};
use super::extent::{BLOCK, Extent};
use super::point::Point;
use super::region::Ring;

/// The edges of some rings or of a chain, and the boxes round them.
pub(super) struct Boundary {
    vertices: Vec<Point>,
    edges: Vec<Edge>,
    /// The first vertex of each ring, or of the chain.
    starts: Vec<Point>,
    /// The box round each block of edges.
    extents: Vec<Extent>,
    extent: Extent,
}

impl Edge {
    /// The point of this edge nearest to `p`.
    fn nearest_to(&self, p: Point) -> Point {
        let fraction = (p - self.from).dot(self.along) * self.per_square;
        self.from + self.along * fraction.clamp(0.0, 1.0)
    }

    /// How far along this edge (0 to 1) it crosses or touches another that is not parallel.
    fn crossing(&self, other: &Self) -> Option<f64> {
        let between = other.from - self.from;
        let turn = self.along.cross(other.along);
        let here = between.cross(other.along) / turn;
        let there = between.cross(self.along) / turn;
        let on = (0.0..=1.0).contains(&here) && (0.0..=1.0).contains(&there);
        on.then_some(here)
    }
}

impl Boundary {
    pub(super) fn of_rings<'a>(rings: impl Iterator<Item = &'a Ring>) -> Self {
        let mut edges = Vec::new();
        let mut starts = Vec::new();
        for ring in rings {
            starts.extend(ring.0.first());
            edges.extend(ring.edges().map(|(a, b)| Edge::new(a, b)));
        }
        let vertices = edges.iter().map(|edge| edge.from).collect();
        Self::new(vertices, edges, starts)
    }

    pub(super) fn of_chain(points: &[Point]) -> Self {
        let starts = points.first().copied().into_iter().collect();
        Self::new(points.to_vec(), chained(points), starts)
    }

    fn new(vertices: Vec<Point>, edges: Vec<Edge>, starts: Vec<Point>) -> Self {
        Self {
            extents: extents(&edges),
            extent: Extent::round(vertices.iter().copied()),
            vertices,
            edges,
            starts,
        }
    }

    /// Whether the first vertex of any ring satisfies `test`.
    pub(super) fn any_start(&self, test: impl Fn(Point) -> bool) -> bool {
        self.starts.iter().copied().any(test)
    }

    /// Whether the first vertex of every ring satisfies `test`.
    pub(super) fn all_starts(&self, test: impl Fn(Point) -> bool) -> bool {
        self.starts.iter().copied().all(test)
    }

    /// Whether the boxes round the two boundaries overlap or touch.
    pub(super) fn box_meets(&self, other: &Self) -> bool {
        self.extent.meets(&other.extent)
    }

    /// Distance between the boxes round the two boundaries, meters: they are no nearer.
    pub(super) fn boxes_apart(&self, other: &Self) -> f64 {
        self.extent.square(&other.extent).sqrt()
    }

    /// The point of this boundary nearest to `p`; `None` when it has no finite edge.
    pub(super) fn nearest_to(&self, p: Point) -> Option<Point> {
        let mut best = Best::default();
        best.offer(p, self);
        best.pair.map(|(_, on)| on)
    }

    /// The nearest points of two boundaries, crossings aside: one of them is a vertex.
    pub(super) fn nearest(&self, other: &Self) -> Option<(Point, Point)> {
        let mut best = Best::default();
        best.offer_vertices(self, other);
        let least = best.square;
        best.offer_vertices(other, self);
        let (vertex, on) = best.pair?;
        Some(if best.square < least {
            (on, vertex)
        } else {
            (vertex, on)
        })
    }

    /// A point where the two boundaries cross or touch, if they do. Only edges that reach into
    /// the other's box can: of a lot round a shell that is none.
    pub(super) fn first_crossing(&self, other: &Self) -> Option<Point> {
        let within = |edges: &[Edge], extent: &Extent| -> Vec<Edge> {
            let reaching = edges.iter().filter(|edge| edge.extent().meets(extent));
            reaching.copied().collect()
        };
        let rivals = within(&other.edges, &self.extent);
        if rivals.is_empty() {
            return None;
        }
        within(&self.edges, &other.extent).iter().find_map(|edge| {
            let here = rivals.iter().find_map(|rival| edge.crossing(rival))?;
            Some(edge.from + edge.along * here)
        })
    }

    /// Vertices, and the middles of the stretches between vertices and crossings with another
    /// boundary.
    pub(super) fn places(&self, other: &Self) -> Vec<Point> {
        let mut places = self.vertices.clone();
        let mut cuts = Vec::new();
        for edge in &self.edges {
            cuts.clear();
            cuts.push(0.0);
            cuts.extend(other.edges.iter().filter_map(|rival| edge.crossing(rival)));
            cuts.push(1.0);
            cuts.sort_by(f64::total_cmp);
            let middles = cuts.iter().zip(cuts.iter().skip(1));
            places.extend(middles.map(|(a, b)| edge.from + edge.along * ((a + b) / 2.0)));
        }
        places
    }
}

impl Edge {
    fn extent(&self) -> Extent {
        Extent::round([self.from, self.from + self.along].into_iter())
    }
}

/// The nearest pair found so far: a vertex and a point of an edge.
struct Best {
    /// Squared distance, m2.
    square: f64,
    pair: Option<(Point, Point)>,
}

impl Default for Best {
    fn default() -> Self {
        Self {
            square: f64::INFINITY,
            pair: None,
        }
    }
}

impl Best {
    /// Tries one point against a boundary.
    fn offer(&mut self, p: Point, to: &Boundary) {
        for (edges, extent) in to.edges.chunks(BLOCK).zip(&to.extents) {
            if !extent.may_be_nearer(p, self.square) {
                continue;
            }
            for edge in edges {
                let on = edge.nearest_to(p);
                let gap = p - on;
                let square = gap.dot(gap);
                if square < self.square {
                    self.square = square;
                    self.pair = Some((p, on));
                }
            }
        }
    }

    /// Tries every vertex of one boundary against every edge of the other, but for vertices
    /// that lie farther from the box round the other than the best pair found.
    fn offer_vertices(&mut self, from: &Boundary, to: &Boundary) {
        for &p in &from.vertices {
            if to.extent.may_be_nearer(p, self.square) {
                self.offer(p, to);
            }
        }
    }
}
