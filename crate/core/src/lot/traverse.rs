//! Walking the courses: corners, misclosure, and the compass rule.

use serde::Serialize;

use super::record::LotRecord;
use crate::geom::{Point, Vector, Vertex};

/// A misclosure below this counts as none, meters: it is rounding of the arithmetic.
const EXACT: f64 = 1e-6;

/// How well the courses come back to their start.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Closure {
    /// Sum of the courses' northings (latitudes), meters: how far north of the start they end.
    pub northing: f64,
    /// Sum of the courses' eastings (departures), meters: how far east of the start they end.
    pub easting: f64,
    /// The misclosure: distance from start to end, meters.
    pub length: f64,
    /// Bearing of the misclosure from start to end, radians clockwise from north.
    pub bearing: f64,
    /// Sum of the legs of the traverse, meters, curves by their chords: no length of the boundary.
    pub traversed: f64,
    /// Legs over misclosure, the x of 1:x; `None` when the courses close exactly.
    pub ratio: Option<f64>,
}

/// The courses of a lot, walked from its start.
#[derive(Debug, Clone, PartialEq)]
pub struct Traverse {
    /// Where each course starts, with the bulge of its curve (site meters).
    pub vertices: Vec<Vertex>,
    /// Where the last course ends.
    pub end: Point,
    /// How well it closes.
    pub closure: Closure,
    lengths: Vec<f64>,
}

impl Traverse {
    /// Walks the courses of a record. Figures that are not finite give corners that are not.
    pub fn of(record: &LotRecord) -> Self {
        let mut at = record.start;
        let mut vertices = Vec::with_capacity(record.courses.len());
        let mut lengths = Vec::with_capacity(record.courses.len());
        // The misclosure is summed on its own: a start far from the origin costs it no digits.
        let mut sum = Vector::default();
        for course in &record.courses {
            vertices.push(Vertex {
                at,
                bulge: course.shape.bulge(),
            });
            lengths.push(course.shape.chord_length());
            sum = sum + course.shape.chord_vector();
            at = record.start + sum;
        }
        let traversed = lengths.iter().sum();
        let length = sum.length();
        let closure = Closure {
            northing: sum.y,
            easting: sum.x,
            length,
            bearing: sum.bearing(),
            traversed,
            ratio: (length >= EXACT).then(|| traversed / length),
        };
        Self {
            vertices,
            end: at,
            closure,
            lengths,
        }
    }

    /// The corners after the compass rule: each course takes a share of the misclosure in
    /// proportion to its length (curves by their chords), the start stays.
    pub fn balanced(&self) -> Vec<Vertex> {
        let misclosure = Vector::new(self.closure.easting, self.closure.northing);
        let mut walked = 0.0;
        self.vertices
            .iter()
            .zip(&self.lengths)
            .map(|(vertex, length)| {
                let share = if self.closure.traversed > 0.0 {
                    walked / self.closure.traversed
                } else {
                    0.0
                };
                walked += length;
                Vertex {
                    at: vertex.at - misclosure * share,
                    bulge: vertex.bulge,
                }
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::super::record::{Course, CourseShape, LineKind};
    use super::*;
    use crate::math::TURN;

    fn line(bearing: f64, distance: f64) -> Course {
        Course {
            kind: LineKind::Side,
            ..Course::of(CourseShape::Line { bearing, distance })
        }
    }

    #[test]
    fn a_square_that_is_short_on_one_side_misses_by_that_much() {
        let quarter = TURN / 4.0;
        let record = LotRecord {
            courses: vec![
                line(0.0, 10.0),
                line(quarter, 10.0),
                line(2.0 * quarter, 9.0),
                line(3.0 * quarter, 10.0),
            ],
            ..LotRecord::default()
        };
        let traverse = Traverse::of(&record);
        let closure = traverse.closure;
        assert!((closure.northing - 1.0).abs() < 1e-12 && closure.easting.abs() < 1e-12);
        assert!((closure.ratio.unwrap() - 39.0).abs() < 1e-9);
        // Each corner moves south by its share of the walk so far.
        let balanced = traverse.balanced();
        let moved = 10.0 - balanced.get(1).unwrap().at.y;
        assert!((moved - 10.0 / 39.0).abs() < 1e-12);
        assert_eq!(balanced.first().unwrap().at, record.start);
    }

    #[test]
    fn an_exact_figure_has_no_ratio() {
        let corners = [
            Vertex::line(1000.1, 2000.2),
            Vertex::line(1033.3, 2000.7),
            Vertex::arc(1020.0, 2041.9, 0.2),
        ];
        let traverse = Traverse::of(&LotRecord::from_outline(&corners, &[]));
        assert_eq!(traverse.closure.ratio, None);
        assert!(traverse.closure.length < 1e-11);
    }
}
