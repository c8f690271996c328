//! A path changed corner by corner and edge by edge.

use super::arc;
use crate::finding::Finding;
use crate::geom::{Outline, Point, Segment, Track, Vector, Vertex, nearest_on};

/// Two neighbors that turn by less than this (sine of the angle, about 3 degrees) are taken
/// as one line: a corner between them cannot slide along it (our choice).
const NO_TURN: f64 = 0.05;

/// A path not yet validated.
///
/// # Rules
/// - A corner that moves keeps the bulge of both its edges: an arc keeps its central angle and
///   grows with its chord.
/// - A straight edge that moves stays parallel to itself; straight neighbors are lengthened
///   or shortened along their own lines, arcs keep their bulge, and a neighbor in the same
///   line as the edge is carried along at its near end.
/// - A corner added lies on its edge; an arc is cut exactly.
/// - A corner taken out leaves a straight edge, or one arc where both edges were arcs: the same
///   circle if they shared one, otherwise the arc through the corner taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct Sketch {
    /// The corners, site meters, each with the bulge of the edge that leaves it.
    pub vertices: Vec<Vertex>,
    /// Whether an edge runs from the last vertex to the first.
    pub closed: bool,
}

impl Sketch {
    /// A path from its vertices.
    pub fn new(vertices: Vec<Vertex>, closed: bool) -> Self {
        Self { vertices, closed }
    }

    /// How many edges it has.
    pub fn edges(&self) -> usize {
        let open = usize::from(!self.closed);
        self.vertices.len().saturating_sub(open)
    }

    /// The edge that leaves a vertex.
    pub fn edge(&self, index: usize) -> Option<Segment> {
        let to = self.vertices.get(self.next(index)?)?;
        Some(Segment::between(*self.vertices.get(index)?, to.at))
    }

    fn next(&self, index: usize) -> Option<usize> {
        let last = index + 1 >= self.vertices.len();
        match (last, self.closed) {
            (false, _) => Some(index + 1),
            (true, true) => Some(0),
            (true, false) => None,
        }
    }

    fn previous(&self, index: usize) -> Option<usize> {
        match index.checked_sub(1) {
            None if self.closed => self.vertices.len().checked_sub(1),
            before => before,
        }
    }

    /// Every fault of the path; empty when it may be used.
    pub fn check(&self) -> Vec<Finding> {
        let faults = if self.closed {
            Outline::check(self.vertices.clone()).err()
        } else {
            Track::check(self.vertices.clone()).err()
        };
        faults.unwrap_or_default()
    }

    /// The area it encloses, arcs exact, m2; `None` of what validation refuses or of an open path.
    pub fn area(&self) -> Option<f64> {
        let outline = Outline::check(self.vertices.clone()).ok()?;
        self.closed.then(|| outline.area())
    }

    /// The path with a corner more on an edge, at the point of the edge nearest to `near`.
    /// The new corner comes behind the edge's first one.
    #[must_use]
    pub fn with_corner(&self, edge: usize, near: Point) -> Self {
        let mut changed = self.clone();
        if let (Some(segment), Some(from)) = (self.edge(edge), changed.vertices.get_mut(edge)) {
            let at = nearest_on(&segment, near);
            let (before, after) = arc::split(from.bulge, arc::fraction_at(&segment, at));
            from.bulge = before;
            changed
                .vertices
                .insert(edge + 1, Vertex { at, bulge: after });
        }
        changed
    }

    /// The path without a corner.
    #[must_use]
    pub fn without_corner(&self, index: usize) -> Self {
        let mut changed = self.clone();
        if index >= self.vertices.len() {
            return changed;
        }
        if let (Some(before), Some(next)) = (self.previous(index), self.next(index)) {
            let bulge = self.bulge_without(before, index, next);
            if let Some(vertex) = changed.vertices.get_mut(before) {
                vertex.bulge = bulge;
            }
        }
        changed.vertices.remove(index);
        changed
    }

    /// The bulge of the edge that takes the place of the two at a corner.
    fn bulge_without(&self, before: usize, index: usize, next: usize) -> f64 {
        let vertex = |index: usize| self.vertices.get(index).copied();
        let (Some(first), Some(second), Some(to)) = (vertex(before), vertex(index), vertex(next))
        else {
            return 0.0;
        };
        if before == next {
            return 0.0;
        }
        let through = || {
            let arcs = first.bulge != 0.0 && second.bulge != 0.0;
            arcs.then(|| arc::bulge_through(first.at, second.at, to.at))?
        };
        arc::joined(first, second, to.at)
            .or_else(through)
            .unwrap_or(0.0)
    }

    /// The path with a corner moved.
    #[must_use]
    pub fn with_corner_at(&self, index: usize, to: Point) -> Self {
        let mut changed = self.clone();
        if let Some(vertex) = changed.vertices.get_mut(index) {
            vertex.at = to;
        }
        changed
    }

    /// The path with an edge moved so that it passes through a point: a straight edge stays
    /// parallel to itself, an arc is bent anew between its ends.
    #[must_use]
    pub fn with_edge_through(&self, edge: usize, through: Point) -> Self {
        let Some(Segment::Line { from, to }) = self.edge(edge) else {
            return self.bent(edge, through);
        };
        let mut changed = self.clone();
        let (Some(along), Some(next)) = ((to - from).unit(), self.next(edge)) else {
            return changed;
        };
        let across = along.left();
        let shift = across * (through - from).dot(across);
        let before = self.previous(edge).and_then(|i| self.edge(i));
        let after = self.edge(next);
        for (index, corner, neighbour) in [(edge, from, before), (next, to, after)] {
            if let Some(vertex) = changed.vertices.get_mut(index) {
                vertex.at = slid(corner, shift, along, neighbour);
            }
        }
        changed
    }

    /// The path with an edge made the arc through a point between its ends, or straight where
    /// the point lies on the line between them.
    #[must_use]
    pub fn bent(&self, edge: usize, through: Point) -> Self {
        let bulge = self
            .edge(edge)
            .and_then(|s| arc::bulge_through(s.from(), through, s.to()));
        match bulge {
            Some(bulge) => self.with_bulge(edge, bulge),
            None => self.clone(),
        }
    }

    /// The path with the bulge of an edge set; 0 makes it straight.
    #[must_use]
    pub fn with_bulge(&self, edge: usize, bulge: f64) -> Self {
        let mut changed = self.clone();
        if let Some(vertex) = changed.vertices.get_mut(edge) {
            vertex.bulge = bulge;
        }
        changed
    }

    /// The whole path moved.
    #[must_use]
    pub fn moved(&self, by: Vector) -> Self {
        let mut changed = self.clone();
        for vertex in &mut changed.vertices {
            vertex.at = vertex.at + by;
        }
        changed
    }
}

/// Where an end of an edge comes to lie when the edge is shifted: on the line of its straight
/// neighbor.
fn slid(corner: Point, shift: Vector, along: Vector, neighbour: Option<Segment>) -> Point {
    let straight = match neighbour {
        Some(Segment::Line { from, to }) => (to - from).unit(),
        _ => None,
    };
    let carried = corner + shift;
    match straight {
        Some(way) if along.cross(way).abs() > NO_TURN => {
            // corner + way t = carried + along s
            carried + along * (shift.cross(way) / way.cross(along))
        }
        _ => carried,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;

    fn lines(corners: &[[f64; 2]]) -> Vec<Vertex> {
        corners.iter().map(|c| Vertex::line(c[0], c[1])).collect()
    }

    fn house() -> Sketch {
        Sketch::new(
            lines(&[[0.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]]),
            true,
        )
    }

    fn at(sketch: &Sketch, index: usize) -> [f64; 2] {
        sketch.vertices[index].at.into()
    }

    #[test]
    fn an_edge_slides_along_its_neighbours() {
        let wider = house().with_edge_through(1, Point::new(12.0, 3.0));
        assert_eq!((at(&wider, 1), at(&wider, 2)), ([12.0, 0.0], [12.0, 8.0]));
        // A slanting neighbor is lengthened along its own line.
        let slanting = Sketch::new(
            lines(&[[0.0, 0.0], [10.0, 0.0], [8.0, 4.0], [0.0, 4.0]]),
            true,
        );
        let taller = slanting.with_edge_through(2, Point::new(3.0, 6.0));
        assert_eq!((at(&taller, 2), at(&taller, 3)), ([7.0, 6.0], [0.0, 6.0]));
        // The first edge of an open path has no neighbor at its start.
        let open = Sketch::new(lines(&[[0.0, 0.0], [5.0, 0.0], [5.0, 5.0]]), false);
        let moved = open.with_edge_through(0, Point::new(2.0, -1.0));
        assert_eq!((at(&moved, 0), at(&moved, 1)), ([0.0, -1.0], [5.0, -1.0]));
    }

    #[test]
    fn a_neighbour_in_the_same_line_is_carried_along() {
        let split = house().with_corner(0, Point::new(4.0, 0.0));
        let moved = split.with_edge_through(0, Point::new(1.0, -2.0));
        assert_eq!((at(&moved, 0), at(&moved, 1)), ([0.0, -2.0], [4.0, -2.0]));
        assert_eq!(at(&moved, 2), [10.0, 0.0]);
    }

    #[test]
    fn a_corner_comes_and_goes() {
        let more = house().with_corner(3, Point::new(-1.0, 3.0));
        assert_eq!((more.vertices.len(), at(&more, 4)), (5, [0.0, 3.0]));
        assert_eq!(more.without_corner(4), house());
        let less = house().without_corner(0);
        assert_eq!((less.vertices.len(), at(&less, 0)), (3, [10.0, 0.0]));
        let open = Sketch::new(lines(&[[0.0, 0.0], [5.0, 0.0], [5.0, 5.0]]), false);
        assert_eq!(open.without_corner(2).vertices.len(), 2);
        assert_eq!(at(&open.without_corner(0), 0), [5.0, 0.0]);
    }

    #[test]
    fn an_arc_is_cut_and_joined_exactly() {
        let mut bay = house();
        bay.vertices[1].bulge = 0.5;
        let cut = bay.with_corner(1, Point::new(20.0, 2.0));
        let (whole, one, other) = (bay.edge(1), cut.edge(1), cut.edge(2));
        let radius = |s: Option<Segment>| match s {
            Some(Segment::Arc { radius, .. }) => radius,
            _ => 0.0,
        };
        assert!((radius(whole) - radius(one)).abs() < 1e-9);
        assert!((radius(whole) - radius(other)).abs() < 1e-9);
        let back = cut.without_corner(2);
        assert!((back.vertices[1].bulge - 0.5).abs() < 1e-9);
        // Arcs of two circles become the one through the corner taken out.
        let mut waves = house();
        waves.vertices[0].bulge = 0.2;
        waves.vertices[1].bulge = 0.4;
        let joined = waves.without_corner(1);
        let near = nearest_on(&joined.edge(0).unwrap(), Point::new(10.0, 0.0));
        assert!(near.distance(Point::new(10.0, 0.0)) < 1e-9);
    }

    #[test]
    fn an_edge_bends_through_a_point_and_straightens() {
        let bay = house().bent(1, Point::new(12.0, 4.0));
        let top = bay.edge(1).unwrap().point_at(0.5);
        assert!(top.distance(Point::new(12.0, 4.0)) < 1e-9);
        let deeper = bay.with_edge_through(1, Point::new(13.0, 4.0));
        let top = deeper.edge(1).unwrap().point_at(0.5);
        assert!(top.distance(Point::new(13.0, 4.0)) < 1e-9);
        assert_eq!(bay.bent(1, Point::new(10.0, 4.0)), house());
        assert_eq!(bay.with_bulge(1, 0.0), house());
        assert!(
            bay.check().is_empty()
                && !house()
                    .without_corner(0)
                    .without_corner(0)
                    .check()
                    .is_empty()
        );
    }
}
