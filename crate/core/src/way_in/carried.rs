//! How wide and high a shell is on its way.

use crate::geom::Point;
use crate::math::{greater, lesser};
use crate::shell::Shell;

/// A shell as it is carried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    /// Least width of its rim over all the ways it may be turned, meters.
    pub least_width: f64,
    /// The greatest distance between two points of its rim, meters.
    pub longest: f64,
    /// Its outer depth from the rim, meters.
    pub depth: f64,
}

impl Carried {
    /// Of a shell.
    pub fn of(shell: &Shell) -> Self {
        let rim: Vec<Point> = shell.rim.rings().flat_map(|it| it.0.clone()).collect();
        let hull = hull(&rim);
        let pairs = hull
            .iter()
            .flat_map(|a| hull.iter().map(|b| a.distance(*b)));
        Self {
            least_width: least_width(&rim),
            longest: pairs.fold(0.0, greater),
            depth: shell.deepest() + shell.record.wall_thickness,
        }
    }
}

/// Least width of some points over all directions, meters: that between two parallel lines of which one
/// lies along an edge of their convex hull (M. E. Houle and G. T. Toussaint, Computing the width of a
/// set, IEEE PAMI 10, 1988; from memory).
pub fn least_width(points: &[Point]) -> f64 {
    let hull = hull(points);
    let closing = hull.last().copied().zip(hull.first().copied());
    let edges = hull.array_windows().map(|[a, b]| (*a, *b)).chain(closing);
    let widths = edges.filter_map(|(a, b)| {
        let way = (b - a).unit()?;
        let far = hull.iter().map(|p| way.cross(*p - a));
        Some(far.fold(0.0, greater))
    });
    let least = widths.fold(f64::INFINITY, lesser);
    if least.is_finite() { least } else { 0.0 }
}

/// The convex hull, counter-clockwise (A. M. Andrew's monotone chain, 1979; from memory).
fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    sorted.dedup();
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = chain.as_slice() {
                if (*b - *a).cross(p - *b) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut sorted.iter().copied());
    hull.extend(half(&mut sorted.iter().rev().copied()));
    hull
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_width_of_a_turned_rectangle_is_its_short_side() {
        // 4 by 3 standing on a corner: its sides run along (4, 3) and (-3, 4), fifths.
        let corners = [[0.0, 0.0], [3.2, 2.4], [1.4, 4.8], [-1.8, 2.4]].map(Point::from);
        assert!((least_width(&corners) - 3.0).abs() < 1e-12);
        // A triangle of sides 3, 4, 5: the height over the longest side, 12 / 5.
        let triangle = [[0.0, 0.0], [3.0, 0.0], [0.0, 4.0]].map(Point::from);
        assert!((least_width(&triangle) - 2.4).abs() < 1e-12);
        assert_eq!(least_width(&[]), 0.0);
    }
}
