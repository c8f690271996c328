//! How often rings wind about the points of a straight line: the line through an area that nobody has
//! to unite first.
//!
//! Walking along the line, the number of times that rings wind about its points changes by one at every
//! edge that crosses it, up where the edge runs to the left, down where it runs to the right. What
//! [`super::boolean::positive_winding`] keeps is what lies where that number is above zero, so the stretches of
//! the line inside are told by its crossings alone, in the time that sorting them takes.

use super::point::{Point, Vector};
use super::region::Ring;

/// Stretches and gaps shorter than this are rounding, meters: what overlays call a sliver.
const SLIVER: f64 = 1e-6;

/// Where the line through a point along a unit vector lies inside what rings wind about a positive number of
/// times: stretches from and to, meters from that point, in order.
pub fn stretches(from: Point, along: Vector, rings: &[Ring]) -> Vec<(f64, f64)> {
    let mut crossings: Vec<(f64, i32)> = Vec::new();
    for (a, b) in rings.iter().flat_map(Ring::edges) {
        let (u, v) = (along.cross(a - from), along.cross(b - from));
        if (u > 0.0) != (v > 0.0) {
            let on = a + (b - a) * (u / (u - v));
            let turn = if v > 0.0 { -1 } else { 1 };
            crossings.push(((on - from).dot(along), turn));
        }
    }
    crossings.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut winding = 0;
    let mut found: Vec<(f64, f64)> = Vec::new();
    for (station, turn) in crossings {
        let was = winding;
        winding += turn;
        if was <= 0 && winding > 0 {
            found.push((station, station));
        } else if was > 0
            && winding <= 0
            && let Some(last) = found.last_mut()
        {
            last.1 = station;
        }
    }
    joined(found)
}

/// Stretches of several sets together, without slivers.
pub fn joined(mut stretches: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found: Vec<(f64, f64)> = Vec::with_capacity(stretches.len());
    for (from, to) in stretches {
        match found.last_mut() {
            Some(last) if from - last.1 < SLIVER => last.1 = last.1.max(to),
            _ => found.push((from, to)),
        }
    }
    found.retain(|(from, to)| to - from >= SLIVER);
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::boolean::positive_winding;

    fn square(x: f64, y: f64, side: f64) -> Ring {
        let corners = [(x, y), (x + side, y), (x + side, y + side), (x, y + side)];
        Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec())
    }

    /// Squares that overlap, one that touches, one that is cut out and one inside out: along every line the same
    /// stretches as of the area united first.
    #[test]
    fn a_line_finds_what_the_overlay_finds() {
        let rings = [
            square(0.0, 0.0, 4.0),
            square(2.0, 1.0, 4.0),
            square(6.0, 1.0, 1.0),
            square(1.0, 1.5, 0.5).reversed(),
            square(10.0, 0.0, 2.0).reversed(),
        ];
        let united = positive_winding(&rings);
        let along = Vector::new(0.8, 0.6);
        for k in 0..80 {
            let from = Point::new(0.131 * f64::from(k) - 3.0, -2.0);
            let found = stretches(from, along, &rings);
            let mut exact: Vec<f64> = Vec::new();
            for (a, b) in united.rings().flat_map(Ring::edges) {
                let (u, v) = (along.cross(a - from), along.cross(b - from));
                if (u > 0.0) != (v > 0.0) {
                    exact.push(((a + (b - a) * (u / (u - v))) - from).dot(along));
                }
            }
            exact.sort_by(f64::total_cmp);
            let found: Vec<f64> = found.into_iter().flat_map(|(a, b)| [a, b]).collect();
            assert_eq!(found.len(), exact.len(), "{k}: {found:?} {exact:?}");
            for (a, b) in found.iter().zip(&exact) {
                assert!((a - b).abs() < 1e-6, "{k}: {found:?} {exact:?}");
            }
        }
    }
}
