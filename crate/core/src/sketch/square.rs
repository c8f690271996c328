//! Square-up: nearly square corners made exactly square.
//!
//! # Rule
//! 1. The two directions: the length-weighted mean of the straight edges' directions, all
//!    turned into one quarter (the mean of unit vectors at four times their angles); taken
//!    again from the edges that lie near the first mean alone.
//! 2. A straight edge within the tolerance of either direction is made exact. Arcs and other
//!    edges are kept, but for their ends.
//! 3. Least movement: in the frame of the two directions an exact edge only asks that its ends
//!    have one coordinate in common. Corners linked so form groups, and the sum of squared
//!    movements is least where each group takes the mean of its corners' coordinates.

use super::Sketch;
use crate::finding::Finding;
use crate::geom::{Point, Segment, Vector};
use crate::math::{TURN, atan2, cos, sin, wrap_half_turn};

/// How far from square an edge may be to be made square, radians (8 degrees; our choice: more
/// is a slant that somebody meant).
pub const TOLERANCE: f64 = TURN * 8.0 / 360.0;

/// A path made square.
#[derive(Debug, Clone, PartialEq)]
pub struct Squared {
    /// The path.
    pub sketch: Sketch,
    /// One of the two directions, radians clockwise from north, in a quarter turn.
    pub bearing: f64,
    /// How many edges are exact now.
    pub edges: usize,
    /// How far the corner that moved most has moved, meters.
    pub greatest_move: f64,
}

/// Makes the nearly square corners of a path square.
///
/// # Errors
/// Fewer than two edges near two directions square to each other.
pub fn square_up(sketch: &Sketch, tolerance: f64) -> Result<Squared, Finding> {
    let first = mean_direction(sketch, TURN);
    let turn = first
        .and_then(|about| mean_direction_about(sketch, about, tolerance).map(|fine| about + fine));
    let Some(turn) = turn else {
        return Err(nothing_square());
    };
    // The frame: u along the direction, v to its left.
    let u = Vector::at_angle(turn);
    let v = u.left();
    let kinds: Vec<Option<bool>> = (0..sketch.edges())
        .map(|i| along_u(sketch.edge(i), turn, tolerance))
        .collect();
    let edges = kinds.iter().flatten().count();
    if edges < 2 {
        return Err(nothing_square());
    }
    let count = sketch.vertices.len();
    let in_frame = |axis: Vector| -> Vec<f64> {
        sketch
            .vertices
            .iter()
            .map(|vertex| Vector::new(vertex.at.x, vertex.at.y).dot(axis))
            .collect()
    };
    // Ends of an edge along u share v, and the other way round.
    let us = grouped(in_frame(u), &kinds, false, count);
    let vs = grouped(in_frame(v), &kinds, true, count);
    let mut squared = sketch.clone();
    let mut greatest_move: f64 = 0.0;
    for ((vertex, a), b) in squared.vertices.iter_mut().zip(us).zip(vs) {
        let to = Point::default() + u * a + v * b;
        greatest_move = greatest_move.max(vertex.at.distance(to));
        vertex.at = to;
    }
    Ok(Squared {
        sketch: squared,
        bearing: crate::math::wrap_turn(TURN / 4.0 - turn) % (TURN / 4.0),
        edges,
        greatest_move,
    })
}

fn nothing_square() -> Finding {
    Finding::fault(
        "nothing-square",
        "No two edges are nearly square to each other, so nothing was squared.",
        "Move the corners nearer to square first, or type the angles.",
    )
}

/// The mean direction of the straight edges in one quarter, radians counter-clockwise from +x;
/// `None` where they cancel out.
fn mean_direction(sketch: &Sketch, tolerance: f64) -> Option<f64> {
    mean_direction_about(sketch, 0.0, tolerance)
}

/// The same as an angle from `about`, of the edges within `tolerance` of it.
fn mean_direction_about(sketch: &Sketch, about: f64, tolerance: f64) -> Option<f64> {
    let mut sum = Vector::default();
    let mut total = 0.0;
    for edge in (0..sketch.edges()).filter_map(|i| sketch.edge(i)) {
        if let Segment::Line { from, to } = edge {
            let along: Vector = to - from;
            let off = off_square(along.angle() - about);
            if off.abs() <= tolerance {
                sum = sum + Vector::new(cos(4.0 * off), sin(4.0 * off)) * along.length();
                total += along.length();
            }
        }
    }
    (sum.length() > 1e-6 * total).then(|| atan2(sum.y, sum.x) / 4.0)
}

/// How far an angle is from the nearest quarter turn, within an eighth of a turn.
fn off_square(angle: f64) -> f64 {
    wrap_half_turn(4.0 * angle) / 4.0
}

/// Whether an edge runs along u (true) or v (false); `None` when it is kept as it is.
fn along_u(edge: Option<Segment>, turn: f64, tolerance: f64) -> Option<bool> {
    let Some(Segment::Line { from, to }) = edge else {
        return None;
    };
    let angle = (to - from).angle() - turn;
    (off_square(angle).abs() <= tolerance).then(|| cos(angle).abs() > sin(angle).abs())
}

/// Coordinates with each group of linked corners at its mean.
fn grouped(values: Vec<f64>, kinds: &[Option<bool>], links: bool, count: usize) -> Vec<f64> {
    let mut group: Vec<usize> = (0..count).collect();
    for (edge, _) in kinds
        .iter()
        .enumerate()
        .filter(|(_, kind)| **kind == Some(links))
    {
        let ends = (group.get(edge), group.get((edge + 1) % count.max(1)));
        if let (Some(&a), Some(&b)) = ends {
            for it in group.iter_mut().filter(|it| **it == b) {
                *it = a;
            }
        }
    }
    group
        .iter()
        .map(|own| {
            let members = || group.iter().zip(&values).filter(|(g, _)| *g == own);
            // A lone corner keeps its own coordinate to the last digit.
            let (sum, number) = members().fold((0.0, 0.0), |(s, n), (_, v)| (s + v, n + 1.0));
            sum / number
        })
        .collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::geom::Vertex;

    fn sketch(corners: &[[f64; 2]]) -> Sketch {
        let vertices = corners.iter().map(|c| Vertex::line(c[0], c[1])).collect();
        Sketch::new(vertices, true)
    }

    #[test]
    fn a_leaning_rectangle_becomes_one() {
        let leaning = sketch(&[[0.0, 0.0], [10.0, 0.1], [10.1, 6.0], [-0.1, 6.1]]);
        let squared = square_up(&leaning, TOLERANCE).unwrap();
        assert_eq!(squared.edges, 4);
        let p: Vec<Point> = squared.sketch.vertices.iter().map(|v| v.at).collect();
        for i in 0..4 {
            let (a, b, c) = (p[i], p[(i + 1) % 4], p[(i + 2) % 4]);
            assert!((b - a).dot(c - b).abs() < 1e-9);
        }
        assert!(squared.greatest_move < 0.15 && squared.greatest_move > 0.01);
        // Done twice, nothing moves.
        let again = square_up(&squared.sketch, TOLERANCE).unwrap();
        assert!(again.greatest_move < 1e-9);
    }

    #[test]
    fn a_slant_and_an_arc_are_kept() {
        let mut cut = sketch(&[[0.0, 0.0], [10.0, 0.2], [10.0, 5.0], [7.0, 8.0], [0.0, 8.0]]);
        cut.vertices[4].bulge = -0.1;
        let squared = square_up(&cut, TOLERANCE).unwrap();
        assert_eq!(squared.edges, 3);
        assert_eq!(squared.sketch.vertices[4].bulge, -0.1);
        let slant = squared.sketch.vertices[3].at - squared.sketch.vertices[2].at;
        assert!((slant.angle() - TURN * 3.0 / 8.0).abs() < 0.05);
    }

    #[test]
    fn a_triangle_has_nothing_to_square() {
        let triangle = sketch(&[[0.0, 0.0], [10.0, 0.0], [5.0, 8.66]]);
        assert_eq!(
            square_up(&triangle, TOLERANCE).unwrap_err().code,
            "nothing-square"
        );
    }
}
