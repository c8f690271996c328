//! The bottom as faces that meet: only where it ends, or steps, does it have an edge to widen.
//!
//! Two pieces that meet at the same depth widen as one: what stands round the edge they share
//! stands round the one's inside, or the other's. (Where one steps down to another, the deeper
//! one's edge is widened and the shallower one's is not: what stands round it is held by the
//! other.) So pieces are gathered into groups across such
//! edges, and a group is widened along its outer edge alone, each corner at its own depth. (A
//! floor that falls more gently than the side rises is reached from its edge wherever it is
//! reached from its inside; steeper pieces are left out, see [`super::swept`].)

use super::bottom::Piece;
use crate::geom::{Point, Ring, Vector};
use crate::math::atan2;
use crate::order;

/// Corners nearer than this are one, and edges nearer than this to a corner pass it, metres: the
/// overlay that cut the pieces moves corners by less.
const SAME_PLACE: f64 = 1e-6;

/// A corner of a ring to be widened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Corner {
    pub at: Point,
    /// Depth of the bottom there, metres.
    pub depth: f64,
    /// The layer of soil of the edge that begins here.
    pub layer: usize,
    /// Whether that edge is widened; not where a deeper piece lies beyond it.
    pub widened: bool,
}

/// Pieces that meet at the same depth.
#[derive(Debug, Clone)]
pub(super) struct Group {
    corners: Vec<(Point, f64)>,
    faces: Vec<Face>,
    /// Edges that no other face shares.
    outer: Vec<Outer>,
    /// The places of its pieces in the list they were given in.
    pub members: Vec<usize>,
    least: f64,
    greatest: f64,
    /// Its outer edge, as long as all of it is asked for; `None` when it has a hole.
    whole: Option<Vec<Vec<Corner>>>,
}

/// An edge between two corners, its face's layer, and whether it is widened.
#[derive(Debug, Clone, Copy)]
struct Outer {
    from: usize,
    to: usize,
    layer: usize,
    widened: bool,
}

/// A corner while faces are gathered.
#[derive(Debug, Clone, Copy)]
struct Place {
    at: Point,
    depth: f64,
    mark: bool,
    /// The same for all corners that stand at one place in plan.
    plan: usize,
}

#[derive(Debug, Clone)]
struct Face {
    edges: Vec<(usize, usize)>,
    /// Downhill, of unit length; zero on a level face.
    down: Vector,
    layer: usize,
    member: usize,
}

/// An end of an edge: a corner (twice the same), or a place between two.
type End = (usize, usize);

/// A directed edge with its ends' places and depths.
#[derive(Debug, Clone, Copy)]
struct Edge {
    from: (End, Point, f64),
    to: (End, Point, f64),
    layer: usize,
    widened: bool,
}

/// Gathers pieces, each with its layer and a mark: only pieces of the same mark are one group,
/// and at equal depth a marked one's bodies hold those of one that is not.
pub(super) fn groups(pieces: &[(&Piece, usize, bool)]) -> Vec<Group> {
    let mut plan: Vec<Point> = Vec::new();
    for p in pieces.iter().flat_map(|(piece, ..)| piece.corners()) {
        if !plan.iter().any(|q| q.distance(p.0) < SAME_PLACE) {
            plan.push(p.0);
        }
    }
    let mut corners: Vec<Place> = Vec::new();
    let mut faces: Vec<Face> = Vec::new();
    for (member, (piece, layer, mark)) in pieces.iter().enumerate() {
        let mut index = |plan_index: usize, at: Point| {
            let depth = piece.plane.depth(at);
            let same = |c: &Place| {
                c.plan == plan_index && c.mark == *mark && (c.depth - depth).abs() < SAME_PLACE
            };
            corners.iter().position(same).unwrap_or_else(|| {
                corners.push(Place {
                    at,
                    depth,
                    mark: *mark,
                    plan: plan_index,
                });
                corners.len() - 1
            })
        };
        let mut edges = Vec::new();
        for (a, b) in piece.region.rings().flat_map(Ring::edges) {
            let passed = passed(&plan, a, b);
            let next = passed.iter().skip(1);
            for ((i, p), (j, q)) in passed.iter().zip(next) {
                edges.push((index(*i, *p), index(*j, *q)));
            }
        }
        faces.push(Face {
            edges,
            down: piece.plane.gradient.unit().unwrap_or_default(),
            layer: *layer,
            member,
        });
    }
    gather(&corners, faces)
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
    order::sort_by(&mut found, |a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, index, p)| (index, p)).collect()
}

/// Faces that share edges, gathered.
fn gather(corners: &[Place], faces: Vec<Face>) -> Vec<Group> {
    // Every directed edge with its face, by its ends in plan: its twins are found by bisection.
    let plan = |i: usize| corners.get(i).map_or(usize::MAX, |c| c.plan);
    let mut all: Vec<(usize, usize, usize, (usize, usize))> = Vec::new();
    for (face, f) in faces.iter().enumerate() {
        let edges = f.edges.iter();
        all.extend(edges.map(|edge| (plan(edge.0), plan(edge.1), face, *edge)));
    }
    order::sort_by(&mut all, Ord::cmp);
    let beyond = |edge: (usize, usize)| {
        let key = (plan(edge.1), plan(edge.0));
        let at = all.partition_point(|e| (e.0, e.1) < key);
        let others = all.iter().skip(at);
        others.take_while(move |e| (e.0, e.1) == key)
    };
    let twin = |edge: (usize, usize)| {
        let same = |e: &&(usize, usize, usize, (usize, usize))| e.3 == (edge.1, edge.0);
        beyond(edge).find(same).map(|e| e.2)
    };
    let covered = |(from, to): (usize, usize)| {
        let held = |a: usize, b: usize| match (corners.get(a), corners.get(b)) {
            (Some(a), Some(b)) if a.mark == b.mark => b.depth > a.depth - SAME_PLACE,
            (Some(a), Some(b)) => b.mark && b.depth > a.depth - SAME_PLACE,
            _ => false,
        };
        // Two that hold each other would be twins, or are equal and neither marked: see `twin`.
        beyond((from, to)).any(|e| held(from, e.3.1) && held(to, e.3.0))
    };
    let mut group_of: Vec<usize> = (0..faces.len()).collect();
    for (_, _, face, edge) in &all {
        if let Some(other) = twin(*edge)
            && let (Some(&a), Some(&b)) = (group_of.get(*face), group_of.get(other))
        {
            for group in group_of.iter_mut().filter(|group| **group == a.max(b)) {
                *group = a.min(b);
            }
        }
    }
    let places: Vec<(Point, f64)> = corners.iter().map(|c| (c.at, c.depth)).collect();
    let mut groups = Vec::new();
    for name in 0..faces.len() {
        let mut group = Group {
            corners: places.clone(),
            faces: Vec::new(),
            outer: Vec::new(),
            members: Vec::new(),
            least: f64::INFINITY,
            greatest: f64::NEG_INFINITY,
            whole: None,
        };
        let within = faces.iter().zip(&group_of).filter(|(_, g)| **g == name);
        for (face, _) in within {
            group.members.push(face.member);
            for edge in &face.edges {
                if twin(*edge).is_none() {
                    group.outer.push(Outer {
                        from: edge.0,
                        to: edge.1,
                        layer: face.layer,
                        widened: !covered(*edge),
                    });
                }
                let depth = places.get(edge.0).map_or(0.0, |(_, d)| *d);
                group.least = group.least.min(depth);
                group.greatest = group.greatest.max(depth);
            }
            group.faces.push(face.clone());
        }
        if !group.faces.is_empty() {
            group.whole = group.traced(f64::NEG_INFINITY);
            groups.push(group);
        }
    }
    groups
}

impl Group {
    /// The outer edge of the part that lies at least `depth` below the rim, as counter-clockwise
    /// rings; `None` when the part has holes.
    pub fn edge(&self, depth: f64) -> Option<Vec<Vec<Corner>>> {
        if depth > self.greatest {
            Some(Vec::new())
        } else if depth <= self.least {
            self.whole.clone()
        } else {
            self.traced(depth)
        }
    }

    fn traced(&self, depth: f64) -> Option<Vec<Vec<Corner>>> {
        let mut edges = Vec::new();
        for outer in &self.outer {
            edges.extend(self.deep_part(outer, depth));
        }
        for face in &self.faces {
            self.level_lines(face, depth, &mut edges);
        }
        chained(edges)
    }

    /// The part of an edge that lies deep enough.
    fn deep_part(&self, outer: &Outer, depth: f64) -> Option<Edge> {
        let (from, to) = (outer.from, outer.to);
        let (&(a, da), &(b, db)) = (self.corners.get(from)?, self.corners.get(to)?);
        let ends = match (da >= depth, db >= depth) {
            (false, false) => return None,
            (true, true) => (((from, from), a, da), ((to, to), b, db)),
            (true, false) => (((from, from), a, da), self.crossing(from, to, depth)?),
            (false, true) => (self.crossing(from, to, depth)?, ((to, to), b, db)),
        };
        Some(Edge {
            from: ends.0,
            to: ends.1,
            layer: outer.layer,
            widened: outer.widened,
        })
    }

    /// Where an edge passes a depth: the same to the last bit whichever way it is walked.
    fn crossing(&self, from: usize, to: usize, depth: f64) -> Option<(End, Point, f64)> {
        let (low, high) = (from.min(to), from.max(to));
        let (&(a, da), &(b, db)) = (self.corners.get(low)?, self.corners.get(high)?);
        let at = a + (b - a) * ((depth - da) / (db - da));
        Some(((low, high), at, depth))
    }

    /// Where a face passes a depth: edges with the deeper part to their left.
    fn level_lines(&self, face: &Face, depth: f64, edges: &mut Vec<Edge>) {
        let deep = |i: usize| self.corners.get(i).is_some_and(|(_, d)| *d >= depth);
        let crossed = face.edges.iter().filter(|(i, j)| deep(*i) != deep(*j));
        let mut ends: Vec<(End, Point, f64)> = crossed
            .filter_map(|(i, j)| self.crossing(*i, *j, depth))
            .collect();
        let along = -face.down.left();
        let place = |end: &(End, Point, f64)| along.dot(end.1 - Point::default());
        order::sort_by(&mut ends, |a, b| place(a).total_cmp(&place(b)));
        let pairs = ends.chunks_exact(2);
        edges.extend(pairs.filter_map(|pair| match pair {
            [from, to] => Some(Edge {
                from: *from,
                to: *to,
                layer: face.layer,
                widened: true,
            }),
            _ => None,
        }));
    }
}

/// Edges joined into rings; `None` when one of them runs clockwise.
fn chained(mut edges: Vec<Edge>) -> Option<Vec<Vec<Corner>>> {
    order::sort_by(&mut edges, |a, b| a.from.0.cmp(&b.from.0));
    let mut used = vec![false; edges.len()];
    let mut rings = Vec::new();
    for start in 0..edges.len() {
        let mut ring = Vec::new();
        let mut index = start;
        while let (Some(edge), Some(done @ false)) = (edges.get(index), used.get_mut(index)) {
            *done = true;
            ring.push(Corner {
                at: edge.from.1,
                depth: edge.from.2,
                layer: edge.layer,
                widened: edge.widened,
            });
            let first = edges.partition_point(|e| e.from.0 < edge.to.0);
            let onward = edges.iter().zip(&used).enumerate().skip(first);
            let onward = onward.take_while(|(_, (e, _))| e.from.0 == edge.to.0);
            // Where several go on, the sharpest turn to the left keeps rings from crossing.
            let arriving = edge.to.1 - edge.from.1;
            let turn = |e: &Edge| {
                let leaving = e.to.1 - e.from.1;
                atan2(arriving.cross(leaving), arriving.dot(leaving))
            };
            let free = onward
                .filter(|(_, (_, used))| !**used)
                .map(|(i, (e, _))| (i, e));
            let Some((next, _)) = free.max_by(|a, b| turn(a.1).total_cmp(&turn(b.1))) else {
                break;
            };
            index = next;
        }
        if ring.len() >= 3 {
            let plan = Ring(ring.iter().map(|corner| corner.at).collect());
            if plan.signed_area() <= 0.0 {
                return None;
            }
            rings.push(ring);
        }
    }
    Some(rings)
}
