//! The bottom as faces that meet: only where it ends, or steps, does it have an edge to widen.
//!
//! Two pieces that meet at the same depth widen as one: what stands round the edge they share
//! stands round the one's inside, or the other's. (Where one steps down to another, the deeper
//! one's edge is widened and the shallower one's is not: what stands round it is held by the
//! other.) So pieces are gathered into groups across such
//! edges, and a group is widened along its outer edge alone, each corner at its own depth: a
//! floor that falls more gently than the side rises is reached from its edge wherever it is
//! reached from its inside.
//!
//! A floor steeper than that is not in a group. Down its fall what stands
//! round a place grows faster than the place moves on, so all of it is held by what stands round
//! the floor's lower edge; and where that edge belongs to another piece as well, which holds it
//! in turn, nothing of the steep one is left to widen.

use super::mesh::{Face, Mesh, SAME_PLACE, TaggedFace};
use crate::geom::{Point, Ring, Vector};
use crate::math::atan2;
use crate::order::{put_in_order, put_in_order_by};

/// A corner of a ring to be widened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Corner {
    pub at: Point,
    /// Depth of the bottom there, meters.
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

/// The pieces of a bottom by how they are widened.
#[derive(Debug, Clone, Default)]
pub(super) struct Skin {
    /// The gentle ones, gathered where they meet.
    pub groups: Vec<Group>,
    /// The places, in the list they were given in, of the steep ones whose lower edge is held by
    /// no other piece.
    pub steep: Vec<usize>,
}

impl Skin {
    /// Gathers pieces: those below the bench and those above it apart.
    pub fn of(pieces: &[TaggedFace<'_>]) -> Self {
        let mesh = Mesh::of(pieces);
        let open = |face: &Face| !face.gentle && !mesh.is_held(face);
        let steep = (0..).zip(&mesh.faces).filter(|(_, face)| open(face));
        Self {
            steep: steep.map(|(index, _)| index).collect(),
            groups: groups(&mesh),
        }
    }
}

/// Gentle faces that share edges, gathered.
fn groups(mesh: &Mesh) -> Vec<Group> {
    let mut group_of: Vec<usize> = (0..mesh.faces.len()).collect();
    for edge in mesh.gentle_edges() {
        if let Some(other) = mesh.twin(edge.ends)
            && let (Some(&a), Some(&b)) = (group_of.get(edge.face), group_of.get(other))
        {
            for group in group_of.iter_mut().filter(|group| **group == a.max(b)) {
                *group = a.min(b);
            }
        }
    }
    let places: Vec<(Point, f64)> = mesh.corners.iter().map(|c| (c.at, c.depth)).collect();
    let mut groups = Vec::new();
    for name in 0..mesh.faces.len() {
        let mut group = Group {
            corners: places.clone(),
            faces: Vec::new(),
            outer: Vec::new(),
            members: Vec::new(),
            least: f64::INFINITY,
            greatest: f64::NEG_INFINITY,
            whole: None,
        };
        let faces = mesh.faces.iter().zip(&group_of).enumerate();
        for (member, (face, _)) in faces.filter(|(_, (face, g))| face.gentle && **g == name) {
            group.members.push(member);
            for edge in &face.edges {
                if mesh.twin(*edge).is_none() {
                    group.outer.push(Outer {
                        from: edge.0,
                        to: edge.1,
                        layer: face.layer,
                        widened: !mesh.is_covered(*edge),
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

/// An edge of a face of a group.
#[derive(Debug, Clone, Copy)]
pub(super) struct FaceEdge {
    pub from: Corner,
    pub to: Corner,
    /// Downhill on the face, to its left.
    pub down: Vector,
    /// What lies to its right.
    pub beyond: Beyond,
}

/// What lies beyond an edge of a face.
#[derive(Debug, Clone, Copy)]
pub(super) enum Beyond {
    /// A face of the same group, with its way downhill.
    Face(Vector),
    /// The side of the hole, or a deeper face of another group.
    Outside { widened: bool },
}

impl Group {
    /// Its outer edge, all of it; `None` when it has a hole.
    pub fn outline(&self) -> Option<&[Vec<Corner>]> {
        self.whole.as_deref()
    }

    /// The edges of all its faces.
    pub fn face_edges(&self) -> Vec<FaceEdge> {
        let each = |face: &'_ Face| {
            let (down, layer) = (face.down, face.layer);
            let edges = face.edges.iter();
            let edges = edges.map(move |edge| (*edge, down, layer));
            edges.collect::<Vec<_>>()
        };
        let mut inner: Vec<((usize, usize), Vector)> = Vec::new();
        for ((from, to), down, _) in self.faces.iter().flat_map(each) {
            inner.push(((to, from), down));
        }
        put_in_order_by(&mut inner, |(ends, _)| *ends);
        let found = self.faces.iter().flat_map(each);
        let found = found.filter_map(|(ends, down, layer)| {
            let outer = self.outer.iter().find(|o| (o.from, o.to) == ends);
            let beyond = match outer {
                Some(outer) => Beyond::Outside {
                    widened: outer.widened,
                },
                None => {
                    let at = inner.binary_search_by(|e| e.0.cmp(&ends)).ok()?;
                    Beyond::Face(inner.get(at)?.1)
                }
            };
            let corner = |i: usize| {
                self.corners.get(i).map(|(at, depth)| Corner {
                    at: *at,
                    depth: *depth,
                    layer,
                    widened: true,
                })
            };
            Some(FaceEdge {
                from: corner(ends.0)?,
                to: corner(ends.1)?,
                down,
                beyond,
            })
        });
        found.collect()
    }

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
        put_in_order(&mut ends, |a, b| place(a).total_cmp(&place(b)));
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
    put_in_order_by(&mut edges, |edge| edge.from.0);
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
        straighten(&mut ring);
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

/// Takes out corners where neither the edge's course nor its fall turns: those of faces beyond
/// it. (OffsetMeasure, they would leave seams.)
fn straighten(ring: &mut Vec<Corner>) {
    let count = ring.len();
    let turns = |(i, corner): (usize, &Corner)| {
        let (Some(before), Some(after)) =
            (ring.get((i + count - 1) % count), ring.get((i + 1) % count))
        else {
            return true;
        };
        let (to, whole) = (corner.at - before.at, after.at - before.at);
        let Some(along) = whole.unit() else {
            return true;
        };
        let share = to.dot(along) / whole.length();
        let depth = before.depth + share * (after.depth - before.depth);
        let same_edge = before.layer == corner.layer && before.widened == corner.widened;
        !same_edge
            || !(0.0..=1.0).contains(&share)
            || along.cross(to).abs() > SAME_PLACE
            || (depth - corner.depth).abs() > SAME_PLACE
    };
    let kept: Vec<bool> = ring.iter().enumerate().map(turns).collect();
    let mut kept = kept.into_iter();
    ring.retain(|_| kept.next().unwrap_or(true));
}
