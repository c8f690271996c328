//! The pieces of a bottom as a mesh: which edge of one is an edge of another.

use super::piece::Piece;
use crate::geom::{Point, Ring, Vector};
use crate::order::put_in_order;

/// Corners nearer than this are one, and edges nearer than this to a corner pass it, meters: the
/// overlay that cut the pieces moves corners by less.
pub(super) const SAME_PLACE: f64 = 1e-6;

/// A fall that turns from an edge by less than this runs along it, not across it.
const ALONG: f64 = 1e-6;

/// A piece and what is told of it.
#[derive(Debug, Clone, Copy)]
pub(super) struct TaggedFace<'a> {
    pub piece: &'a Piece,
    /// The layer of soil it lies in.
    pub layer: usize,
    /// Whether it lies below the bench: at equal depth what stands round it there holds what
    /// stands round one above.
    pub below: bool,
    /// Whether it falls more gently than the side rises.
    pub gentle: bool,
}

/// Corners, faces and edges of some pieces.
#[derive(Debug, Clone)]
pub(super) struct Mesh {
    pub corners: Vec<Corner>,
    /// One for each piece, in their order.
    pub faces: Vec<Face>,
    /// In the order of their places in plan: twins are found by bisection.
    edges: Vec<Edge>,
}

/// A corner at a depth; pieces that step where they meet have several at one place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Corner {
    pub at: Point,
    pub depth: f64,
    below: bool,
    /// The same for all corners that stand at one place in plan.
    plan: usize,
}

#[derive(Debug, Clone)]
pub(super) struct Face {
    /// Pairs of corners; the face lies to the left.
    pub edges: Vec<(usize, usize)>,
    /// Downhill, of unit length; zero on a level face.
    pub down: Vector,
    pub layer: usize,
    pub gentle: bool,
}

/// An edge of a face.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Edge {
    plan: (usize, usize),
    pub face: usize,
    pub ends: (usize, usize),
}

impl Mesh {
    pub fn of(pieces: &[TaggedFace<'_>]) -> Self {
        let mut plan: Vec<Point> = Vec::new();
        for p in pieces.iter().flat_map(|told| told.piece.corners()) {
            if !plan.iter().any(|q| q.distance(p.0) < SAME_PLACE) {
                plan.push(p.0);
            }
        }
        let mut mesh = Self {
            corners: Vec::new(),
            faces: Vec::new(),
            edges: Vec::new(),
        };
        for (face, told) in pieces.iter().enumerate() {
            let mut edges = Vec::new();
            for (a, b) in told.piece.region.rings().flat_map(Ring::edges) {
                let passed = passed(&plan, a, b);
                for (from, to) in passed.iter().zip(passed.iter().skip(1)) {
                    let ends = (mesh.corner(told, *from), mesh.corner(told, *to));
                    let plan = (from.0, to.0);
                    mesh.edges.push(Edge { plan, face, ends });
                    edges.push(ends);
                }
            }
            mesh.faces.push(Face {
                edges,
                down: told.piece.plane.gradient.unit().unwrap_or_default(),
                layer: told.layer,
                gentle: told.gentle,
            });
        }
        put_in_order(&mut mesh.edges, Ord::cmp);
        mesh
    }

    /// The place of a piece's corner among the corners, put there if it is new.
    fn corner(&mut self, told: &TaggedFace<'_>, (plan, at): (usize, Point)) -> usize {
        let (depth, below) = (told.piece.plane.depth(at), told.below);
        let same =
            |c: &Corner| c.plan == plan && c.below == below && (c.depth - depth).abs() < SAME_PLACE;
        self.corners.iter().position(same).unwrap_or_else(|| {
            self.corners.push(Corner {
                at,
                depth,
                below,
                plan,
            });
            self.corners.len() - 1
        })
    }

    /// Edges of gentle faces.
    pub fn gentle_edges(&self) -> impl Iterator<Item = &Edge> {
        self.edges.iter().filter(|edge| self.is_gentle(edge))
    }

    fn is_gentle(&self, edge: &Edge) -> bool {
        self.faces.get(edge.face).is_some_and(|face| face.gentle)
    }

    /// Edges that run the other way at the same place in plan.
    fn beyond(&self, edge: (usize, usize)) -> impl Iterator<Item = &Edge> {
        let plan = |i: usize| self.corners.get(i).map_or(usize::MAX, |c| c.plan);
        let key = (plan(edge.1), plan(edge.0));
        let at = self.edges.partition_point(|e| e.plan < key);
        let others = self.edges.iter().skip(at);
        others.take_while(move |e| e.plan == key)
    }

    /// The gentle face that shares an edge, at the same depth.
    pub fn twin(&self, edge: (usize, usize)) -> Option<usize> {
        let same = |e: &&Edge| e.ends == (edge.1, edge.0) && self.is_gentle(e);
        self.beyond(edge).find(same).map(|e| e.face)
    }

    /// Whether a gentle face beyond an edge is at least as deep there, and not its twin.
    pub fn is_covered(&self, edge: (usize, usize)) -> bool {
        // Two that hold each other would be twins, or are equal and both above the bench: see
        // `twin`.
        let mut beyond = self.beyond(edge).filter(|e| self.is_gentle(e));
        beyond.any(|e| self.holds(e, edge))
    }

    /// Whether what stands round `other`, which runs the other way, holds what stands round an
    /// edge.
    fn holds(&self, other: &Edge, edge: (usize, usize)) -> bool {
        let end = |a: usize, b: usize| match (self.corners.get(a), self.corners.get(b)) {
            (Some(a), Some(b)) => (b.below || !a.below) && b.depth > a.depth - SAME_PLACE,
            _ => false,
        };
        end(edge.0, other.ends.1) && end(edge.1, other.ends.0)
    }

    /// Whether every edge across which a face falls is held by a piece beyond it.
    pub fn is_held(&self, face: &Face) -> bool {
        face.edges.iter().all(|edge| {
            let held = |other: &Edge| {
                let beyond = self.faces.get(other.face);
                // In a valley between two steep ones each would leave it to the other.
                let goes_on = |f: &Face| f.gentle || !self.falls_across(f, other.ends);
                beyond.is_some_and(goes_on) && self.holds(other, *edge)
            };
            !self.falls_across(face, *edge) || self.beyond(*edge).any(held)
        })
    }

    /// Whether a face falls out across one of its edges.
    fn falls_across(&self, face: &Face, (from, to): (usize, usize)) -> bool {
        let ends = self.corners.get(from).zip(self.corners.get(to));
        let along = ends.and_then(|(from, to)| (to.at - from.at).unit());
        along.is_some_and(|along| face.down.cross(along) > ALONG)
    }
}

/// The places that an edge passes, both ends among them, in order.
fn passed(plan: &[Point], a: Point, b: Point) -> Vec<(usize, Point)> {
    let Some(along) = (b - a).unit() else {
        return Vec::new();
    };
    let length = a.distance(b);
    let mut found: Vec<(f64, usize, Point)> = Vec::new();
    for (index, p) in plan.iter().enumerate() {
        let t = along.dot(*p - a);
        let on_it = t > -SAME_PLACE && t < length + SAME_PLACE;
        if on_it && along.cross(*p - a).abs() < SAME_PLACE {
            found.push((t, index, *p));
        }
    }
    put_in_order(&mut found, |a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, index, p)| (index, p)).collect()
}
