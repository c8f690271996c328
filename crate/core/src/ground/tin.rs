//! Spots joined into triangles, with edges that have to be there. The only module that names
//! the `spade` crate.
//!
//! One kind of triangulation serves both: without forced edges a constrained Delaunay
//! triangulation is the Delaunay triangulation, and the crate's code is there once.

use spade::handles::FixedVertexHandle;
use spade::{ConstrainedDelaunayTriangulation, HasPosition, Point2, Triangulation};

use crate::geom::Point;

/// A triangulation of points, by their indices.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Triangles {
    /// The triangles, each counter-clockwise.
    pub faces: Vec<[usize; 3]>,
    /// The edge of the surveyed area, counter-clockwise: the convex hull, drawn in to the
    /// points that lie within `sliver` meters of its edges.
    pub edge: Vec<usize>,
    /// The forced edges that were left out because they cross one taken before.
    pub left_out: Vec<[usize; 2]>,
}

/// A point that remembers its index: bulk loading reorders.
#[derive(Debug, Clone, Copy)]
struct Tagged {
    at: Point2<f64>,
    index: usize,
}

impl HasPosition for Tagged {
    type Scalar = f64;
    fn position(&self) -> Point2<f64> {
        self.at
    }
}

/// Coordinates nearer to zero than this count as zero: spade refuses numbers below 2^-142.
const NEARLY_ZERO: f64 = 1e-30;

/// The Delaunay triangulation of distinct points, in which every pair of `forced` is joined by
/// an edge (or by a row of edges, through points that lie exactly between the two).
///
/// Forced edges may meet at their ends alone; one that crosses an earlier one is left out and
/// told, never forced. A triangle on the hull that is less than `sliver` meters high is left
/// out: spots along a straight line are never quite straight, and between them and the hull
/// lies no ground. Empty when there are fewer than three points or all lie on one line, or
/// when a coordinate is not finite (validation has seen to that before).
pub(super) fn triangulate(points: &[Point], forced: &[[usize; 2]], sliver: f64) -> Triangles {
    let snap = |c: f64| if c.abs() < NEARLY_ZERO { 0.0 } else { c };
    let tagged = points
        .iter()
        .enumerate()
        .map(|(index, p)| Tagged {
            at: Point2::new(snap(p.x), snap(p.y)),
            index,
        })
        .collect();
    let Ok(mut tin) = ConstrainedDelaunayTriangulation::<Tagged>::bulk_load(tagged) else {
        return Triangles::default();
    };
    let refused = force(&mut tin, points.len(), forced);
    if tin.num_inner_faces() == 0 {
        return Triangles::default();
    }
    // Spade walks the hull clockwise along its outside; turned round, its inside comes first.
    let mut open: Vec<Edge<'_>> = tin.convex_hull().map(|e| e.rev()).collect();
    let mut on_edge = vec![false; points.len()];
    for edge in &open {
        mark(&mut on_edge, edge.from().data().index);
    }
    let mut left_out = vec![false; tin.num_all_faces()];
    let mut edge = Vec::with_capacity(open.len());
    // The stack ends with the next edge to walk: the last of the clockwise hull.
    while let Some(next) = open.pop() {
        let apex = next.opposite_vertex().map(|v| *v.data());
        let apex = apex.filter(|apex| {
            !next.is_constraint_edge() && !on_edge.get(apex.index).copied().unwrap_or(true)
        });
        match apex.filter(|apex| is_sliver(next, apex.at, sliver)) {
            Some(apex) => {
                mark(&mut on_edge, apex.index);
                mark(&mut left_out, next.face().index());
                open.extend([next.next().rev(), next.prev().rev()]);
            }
            None => edge.push(next.from().data().index),
        }
    }
    let faces = tin
        .inner_faces()
        .filter(|face| !left_out.get(face.index()).copied().unwrap_or(false))
        .map(|face| face.vertices().map(|v| v.data().index))
        .collect();
    Triangles {
        faces,
        edge,
        left_out: refused,
    }
}

/// Forces every edge into the triangulation that crosses none forced before; gives the others.
fn force(
    tin: &mut ConstrainedDelaunayTriangulation<Tagged>,
    count: usize,
    forced: &[[usize; 2]],
) -> Vec<[usize; 2]> {
    if forced.is_empty() {
        return Vec::new();
    }
    let mut handles: Vec<Option<FixedVertexHandle>> = vec![None; count];
    for vertex in tin.vertices() {
        if let Some(handle) = handles.get_mut(vertex.data().index) {
            *handle = Some(vertex.fix());
        }
    }
    let handle = |i: usize| handles.get(i).copied().flatten();
    let mut refused = Vec::new();
    for &[a, b] in forced {
        match (handle(a), handle(b)) {
            // Nothing comes back, and nothing is changed, where it would cross another.
            (Some(from), Some(to))
                if from != to && !tin.try_add_constraint(from, to).is_empty() => {}
            _ => refused.push([a, b]),
        }
    }
    refused
}

/// An edge of the boundary, walked counter-clockwise, with the triangle to its left.
type Edge<'a> = spade::handles::DirectedEdgeHandle<'a, Tagged, (), spade::CdtEdge<()>, ()>;

fn mark(marks: &mut [bool], index: usize) {
    if let Some(mark) = marks.get_mut(index) {
        *mark = true;
    }
}

/// Whether the triangle on this edge is lower than `sliver` and its apex stands between the ends.
fn is_sliver(edge: Edge<'_>, apex: Point2<f64>, sliver: f64) -> bool {
    let point = |p: Point2<f64>| Point::new(p.x, p.y);
    let (from, to) = (point(edge.from().position()), point(edge.to().position()));
    let (along, up) = (to - from, point(apex) - from);
    let foot = along.dot(up);
    along.cross(up) < sliver * along.length() && foot > 0.0 && foot < along.dot(along)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Ring;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    fn area(points: &[Point], ring: &[usize]) -> f64 {
        Ring(ring.iter().map(|&i| points[i]).collect()).signed_area()
    }

    #[test]
    fn a_square_with_a_middle_gives_four_triangles_round_one_hull() {
        let points = points(&[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0), (1.0, 1.0)]);
        let tin = triangulate(&points, &[], 0.001);
        assert_eq!(tin.faces.len(), 4);
        assert!(tin.faces.iter().all(|f| area(&points, f) > 0.0));
        assert!(tin.faces.iter().all(|f| f.contains(&4)));
        assert_eq!(tin.edge.len(), 4);
        assert!((area(&points, &tin.edge) - 4.0).abs() < 1e-12);
    }

    #[test]
    fn spots_along_a_line_that_is_not_quite_straight_stay_on_the_edge() {
        let points = points(&[
            (0.0, 0.0),
            (3.0, 0.0004),
            (5.0, 0.0001),
            (9.0, 0.0),
            (9.0, 6.0),
            (4.0, 7.0),
        ]);
        let tin = triangulate(&points, &[], 0.001);
        assert_eq!(tin.edge.len(), 6);
        let faces: f64 = tin.faces.iter().map(|f| area(&points, f)).sum();
        assert!((area(&points, &tin.edge) - faces).abs() < 1e-12);
        assert_eq!(triangulate(&points, &[], 1e-9).edge.len(), 4);
    }

    #[test]
    fn a_line_and_a_pair_give_nothing() {
        let line: Vec<Point> = (0..9).map(|i| Point::new(f64::from(i), 1.0)).collect();
        assert!(triangulate(&line, &[], 0.001).faces.is_empty());
        assert!(triangulate(&line[..2], &[], 0.001).faces.is_empty());
        assert!(triangulate(&[], &[], 0.001).faces.is_empty());
    }

    #[test]
    fn a_coordinate_next_to_nothing_is_taken_as_zero() {
        let points = points(&[(1e-200, 0.0), (2.0, -1e-60), (0.0, 2.0)]);
        assert_eq!(triangulate(&points, &[], 0.001).faces.len(), 1);
    }

    #[test]
    fn a_forced_edge_is_there_and_one_that_crosses_it_is_not() {
        // A flat kite: without force its short diagonal is the edge.
        let points = points(&[(0.0, 0.0), (5.0, -1.0), (10.0, 0.0), (5.0, 1.0)]);
        let has =
            |tin: &Triangles, a, b| tin.faces.iter().any(|f| f.contains(&a) && f.contains(&b));
        let free = triangulate(&points, &[], 0.001);
        assert!(has(&free, 1, 3) && !has(&free, 0, 2));
        let forced = triangulate(&points, &[[0, 2], [1, 3]], 0.001);
        assert!(has(&forced, 0, 2) && !has(&forced, 1, 3));
        assert_eq!(forced.left_out, [[1, 3]]);
        let sum: f64 = forced.faces.iter().map(|f| area(&points, f)).sum();
        assert!((sum - 10.0).abs() < 1e-12);
    }
}
