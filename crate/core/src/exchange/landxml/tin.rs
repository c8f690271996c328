//! A surface's triangles: which of their edges a fresh triangulation of the points would lay otherwise,
//! and so have to come in as breaklines.

use std::collections::BTreeMap;

use crate::geom::{Point, Ring, Vector};
use crate::math::TURN;

/// Two angles across an edge whose sum exceeds half a turn by no more than this may turn either way,
/// radians: four points on one circle, to rounding.
const ON_ONE_CIRCLE: f64 = 1e-6;

/// Chains of the edges, by the indices of their points, that no Delaunay triangulation of the points
/// has or that are marked as lying on a breakline: `marks` tells for each face the sum of 1, 2 and 4
/// for its sides in order.
pub(super) fn kept_edges(points: &[Point], faces: &[[usize; 3]], marks: &[u8]) -> Vec<Vec<usize>> {
    let mut edges: BTreeMap<[usize; 2], (Vec<usize>, bool)> = BTreeMap::new();
    for (k, face) in faces.iter().enumerate() {
        let [a, b, c] = *face;
        let mark = marks.get(k).copied().unwrap_or(0);
        for ((from, to), apex, bit) in [((a, b), c, 1), ((b, c), a, 2), ((c, a), b, 4)] {
            let edge = edges.entry([from.min(to), from.max(to)]).or_default();
            edge.0.push(apex);
            edge.1 |= mark & bit != 0;
        }
    }
    let at = |i: usize| points.get(i).copied().unwrap_or_default();
    let kept = edges.into_iter().filter(|([from, to], (apexes, marked))| {
        let turned = match apexes.as_slice() {
            [one, other] => {
                let angle = |apex: &usize| angle(at(*from) - at(*apex), at(*to) - at(*apex));
                angle(one) + angle(other) > TURN / 2.0 + ON_ONE_CIRCLE
            }
            _ => false,
        };
        *marked || turned
    });
    chains(kept.map(|(edge, _)| edge).collect())
}

/// The share of the area between the outermost points of some faces that no face covers: there the ground
/// was not told, and a fresh triangulation would fill it.
pub(super) fn uncovered(points: &[Point], faces: &[[usize; 3]]) -> f64 {
    let corners = |face: &[usize; 3]| face.map(|i| points.get(i).copied().unwrap_or_default());
    let covered: f64 = faces
        .iter()
        .map(corners)
        .map(|[a, b, c]| (b - a).cross(c - a).abs() / 2.0)
        .sum();
    let hull = Ring(hull(faces.iter().flat_map(corners).collect())).signed_area();
    if hull > 0.0 {
        (1.0 - covered / hull).max(0.0)
    } else {
        0.0
    }
}

/// The convex hull, counter-clockwise (Andrew 1979: the lower and the upper chain by x).
fn hull(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    let chain = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = *chain.as_slice()
                && (b - a).cross(p - a) <= 0.0
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut around = chain(&mut points.iter().copied());
    around.extend(chain(&mut points.iter().rev().copied()));
    around
}

/// The angle between two vectors, radians.
fn angle(u: Vector, v: Vector) -> f64 {
    crate::math::atan2(u.cross(v).abs(), u.dot(v))
}

/// Edges joined end to end, so that a line along many triangles is one.
fn chains(edges: Vec<[usize; 2]>) -> Vec<Vec<usize>> {
    let mut from: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (k, [a, b]) in edges.iter().enumerate() {
        from.entry(*a).or_default().push(k);
        from.entry(*b).or_default().push(k);
    }
    let mut used = vec![false; edges.len()];
    let mut chains = Vec::new();
    // Lines are walked from their ends; what is left are rings.
    let ends: Vec<usize> = from
        .iter()
        .filter(|(_, at)| at.len() != 2)
        .map(|(point, _)| *point)
        .collect();
    let starts: Vec<usize> = ends.into_iter().chain(from.keys().copied()).collect();
    for start in starts {
        while let Some(chain) = walk(start, &edges, &from, &mut used) {
            chains.push(chain);
        }
    }
    chains
}

/// One line from a point along edges not yet walked; none where there are none.
fn walk(
    start: usize,
    edges: &[[usize; 2]],
    from: &BTreeMap<usize, Vec<usize>>,
    used: &mut [bool],
) -> Option<Vec<usize>> {
    let mut chain = vec![start];
    let mut at = start;
    loop {
        let here = from.get(&at)?;
        let open = here
            .iter()
            .find(|k| !used.get(**k).copied().unwrap_or(true));
        let next = open.and_then(|k| {
            let [a, b] = *edges.get(*k)?;
            *used.get_mut(*k)? = true;
            Some(if a == at { b } else { a })
        });
        let Some(next) = next else { break };
        chain.push(next);
        at = next;
        if from.get(&at).is_none_or(|here| here.len() != 2) {
            break;
        }
    }
    (chain.len() > 1).then_some(chain)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_diagonal_that_no_fresh_triangulation_lays_is_kept() {
        // A kite, long east to west: the short diagonal is Delaunay's.
        let kite = points(&[(0.0, 0.0), (5.0, -1.0), (10.0, 0.0), (5.0, 1.0)]);
        assert!(kept_edges(&kite, &[[0, 1, 3], [1, 2, 3]], &[0, 0]).is_empty());
        let long = kept_edges(&kite, &[[0, 1, 2], [0, 2, 3]], &[0, 0]);
        assert_eq!(long, [vec![0, 2]]);
    }

    #[test]
    fn either_diagonal_of_a_square_will_do_unless_marked() {
        let square = points(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
        let faces = [[0, 1, 2], [0, 2, 3]];
        assert!(kept_edges(&square, &faces, &[0, 0]).is_empty());
        assert_eq!(kept_edges(&square, &faces, &[4, 0]), [vec![0, 2]]);
    }

    #[test]
    fn what_lies_in_a_notch_is_not_covered() {
        let square = points(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (2.0, 2.0)]);
        let whole = [[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]];
        assert!(uncovered(&square, &whole).abs() < 1e-12);
        assert!((uncovered(&square, &whole[..3]) - 0.25).abs() < 1e-12);
        assert!(uncovered(&square, &[]).abs() < 1e-12);
        assert_eq!(hull(square[..2].to_vec()).len(), 2);
    }

    #[test]
    fn edges_in_a_row_make_one_line_and_a_ring_closes() {
        assert_eq!(chains(vec![[1, 2], [0, 1], [2, 3]]), [vec![0, 1, 2, 3]]);
        assert_eq!(chains(vec![[0, 1], [1, 2], [0, 2]]), [vec![0, 1, 2, 0]]);
        let star = chains(vec![[0, 1], [0, 2], [0, 3]]);
        assert_eq!(star.len(), 3);
        assert!(chains(Vec::new()).is_empty());
    }
}
