//! Closed figures: their courses come back, and every way round gives the same lot.

use batterboard_core::geom::{Point, Vertex};
use batterboard_core::lot::kinds::{Streets, propose};
use batterboard_core::lot::{
    Balance, Course, CourseShape, LineKind, Lot, LotRecord, Traverse, Turn,
};
use batterboard_core::math::{TURN, asin, cos, sin};
use proptest::prelude::*;

use crate::shapes;

/// Corners round a middle, at growing angles: a simple figure, counter-clockwise.
fn star() -> impl Strategy<Value = Vec<Point>> {
    let middle = (-500.0..500.0_f64, -500.0..500.0_f64);
    let spokes = prop::collection::vec((0.2..1.0_f64, 10.0..60.0_f64), 3..9);
    (middle, spokes).prop_map(|((x, y), spokes)| shapes::star(Point::new(x, y), &spokes))
}

/// Whether the corners enclose an area worth the name (two spokes may lie almost opposite).
fn encloses(corners: &[Point]) -> bool {
    shoelace(corners) > 50.0 && Lot::check(&record(corners)).is_ok()
}

fn record(corners: &[Point]) -> LotRecord {
    let vertices: Vec<Vertex> = corners.iter().map(|p| Vertex::line(p.x, p.y)).collect();
    LotRecord::from_outline(&vertices, &[])
}

fn shoelace(corners: &[Point]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    let first = corners[0];
    corners
        .iter()
        .zip(next)
        .map(|(a, b)| (*a - first).cross(*b - first))
        .sum::<f64>()
        / 2.0
}

/// The record walked from its end to its start.
fn turned_round(record: &LotRecord) -> LotRecord {
    let courses = record.courses.iter().rev().map(|course| Course {
        shape: match course.shape {
            CourseShape::Line { bearing, distance } => CourseShape::Line {
                bearing: bearing + TURN / 2.0,
                distance,
            },
            CourseShape::Curve {
                chord_bearing,
                chord,
                radius,
                turn,
                long_way,
            } => CourseShape::Curve {
                chord_bearing: chord_bearing + TURN / 2.0,
                chord,
                radius,
                turn: match turn {
                    Turn::Left => Turn::Right,
                    Turn::Right => Turn::Left,
                },
                long_way,
            },
        },
        ..course.clone()
    });
    LotRecord {
        courses: courses.collect(),
        ..record.clone()
    }
}

proptest! {
    #[test]
    fn courses_of_a_closed_figure_come_back(corners in star()) {
        let traverse = Traverse::of(&record(&corners));
        prop_assert!(traverse.closure.length < 1e-9);
        prop_assert_eq!(traverse.closure.ratio, None);
        for (vertex, corner) in traverse.vertices.iter().zip(&corners) {
            prop_assert!(vertex.at.distance(*corner) < 1e-9);
        }
        // Nothing to balance: the compass rule moves nothing.
        for (vertex, corner) in traverse.balanced().iter().zip(&corners) {
            prop_assert!(vertex.at.distance(*corner) < 1e-9);
        }
    }

    #[test]
    fn the_area_is_the_shoelace_whichever_way_round(corners in star()) {
        prop_assume!(encloses(&corners));
        let record = record(&corners);
        let area = shoelace(&corners);
        let (lot, findings) = Lot::check(&record).unwrap();
        prop_assert!(findings.is_empty());
        prop_assert!((lot.area - area).abs() < 1e-6);
        let (back, _) = Lot::check(&turned_round(&record)).unwrap();
        prop_assert!((back.area - area).abs() < 1e-6);
        prop_assert_eq!(back.sides.len(), lot.sides.len());
    }

    #[test]
    fn every_side_keeps_its_course(corners in star(), shift in 0_usize..9) {
        prop_assume!(encloses(&corners));
        let mut record = record(&corners);
        let count = record.courses.len();
        let chosen = shift % count;
        record.courses[chosen].kind = LineKind::Front;
        let (a, b) = (corners[chosen], corners[(chosen + 1) % count]);
        for record in [record.clone(), turned_round(&record)] {
            let (lot, _) = Lot::check(&record).unwrap();
            let fronts: Vec<_> = lot.sides.iter().filter(|s| s.kind == LineKind::Front).collect();
            prop_assert_eq!(fronts.len(), 1);
            // Counter-clockwise round the lot, so in the corners' own order.
            prop_assert!(fronts[0].segment.from().distance(a) < 1e-6);
            prop_assert!(fronts[0].segment.to().distance(b) < 1e-6);
        }
    }

    #[test]
    fn arcs_survive_the_way_through_courses(
        corners in star(), bulges in prop::collection::vec(-0.3..0.3_f64, 9),
    ) {
        let vertices: Vec<Vertex> = corners
            .iter()
            .zip(&bulges)
            .map(|(p, bulge)| Vertex::arc(p.x, p.y, *bulge))
            .collect();
        let record = LotRecord::from_outline(&vertices, &[]);
        let walked = Traverse::of(&record).vertices;
        for (walked, drawn) in walked.iter().zip(&vertices) {
            prop_assert!(walked.at.distance(drawn.at) < 1e-9);
            prop_assert!((walked.bulge - drawn.bulge).abs() < 1e-9);
        }
        // Area by chords plus circular segments of R^2 (t - sin t) / 2, R and t from the course.
        if let Ok((lot, _)) = Lot::check(&record) {
            let caps: f64 = record.courses.iter().map(|course| match course.shape {
                CourseShape::Line { .. } => 0.0,
                CourseShape::Curve { chord, radius, turn, .. } => {
                    let t = 2.0 * asin(chord / (2.0 * radius));
                    let cap = radius * radius * (t - sin(t)) / 2.0;
                    if turn == Turn::Left { cap } else { -cap }
                }
            }).sum();
            prop_assert!((lot.area - (shoelace(&corners) + caps).abs()).abs() < 1e-5);
        }
    }

    #[test]
    fn figures_of_any_kind_never_break_the_door(
        numbers in prop::collection::vec(any::<f64>(), 12), curved in any::<bool>(),
        closing_ratio in any::<f64>(), stated in any::<f64>(),
    ) {
        let courses = numbers.chunks(3).map(|n| Course {
            kind: LineKind::Side,
            ..Course::of(if curved {
                CourseShape::Curve {
                    chord_bearing: n[0],
                    chord: n[1],
                    radius: n[2],
                    turn: Turn::Left,
                    long_way: n[2] > 0.0,
                }
            } else {
                CourseShape::Line { bearing: n[0], distance: n[1] }
            })
        });
        let record = LotRecord {
            start: Point::new(numbers[0], numbers[1]),
            courses: courses.collect(),
            stated_area: Some(stated),
            closing_ratio,
            balance: curved.then_some(Balance::CompassRule),
            ..LotRecord::default()
        };
        if let Err(faults) = Lot::check(&record) {
            prop_assert!(!faults.is_empty());
            prop_assert!(faults.iter().all(|f| f.is_fault() && !f.pointer.is_empty()));
        }
    }
}

proptest! {
    /// A lot with four sides, turned any way, told from any corner in either direction: the
    /// side across from the street is its rear, the two between are sides.
    #[test]
    fn kinds_of_a_plain_lot_do_not_depend_on_how_it_is_told(
        (width, depth) in (10.0..60.0_f64, 10.0..80.0_f64),
        lean in -0.4..0.4_f64,
        turned in 0.0..TURN,
        begin in 0usize..4,
        clockwise in any::<bool>(),
        front in 0usize..4,
    ) {
        let shear = lean * depth.min(width);
        let corners = [(0.0, 0.0), (width, 0.0), (width + shear, depth), (shear, depth)];
        let (s, c) = (sin(turned), cos(turned));
        let mut corners: Vec<Point> = corners
            .iter()
            .map(|(x, y)| Point::new(x * c - y * s, x * s + y * c))
            .collect();
        corners.rotate_left(begin);
        if clockwise {
            corners.reverse();
        }
        let (lot, _) = Lot::check(&record(&corners)).unwrap();
        let kinds = propose(&lot, &Streets::default().fronting(front));
        let across = (front + 2) % 4;
        for (course, kind) in kinds.iter().enumerate() {
            let expected = match course {
                it if it == front => LineKind::Front,
                it if it == across => LineKind::Rear,
                _ => LineKind::Side,
            };
            prop_assert_eq!(*kind, expected, "{} of {:?}", course, &corners);
        }
        // Any figure at all gets a kind for every course, and the side told stays told.
        prop_assert_eq!(kinds.len(), 4);
    }

    #[test]
    fn every_side_of_any_lot_gets_a_kind(corners in star(), front in 0usize..9) {
        prop_assume!(encloses(&corners));
        let front = front % corners.len();
        let (lot, _) = Lot::check(&record(&corners)).unwrap();
        let kinds = propose(&lot, &Streets::default().fronting(front));
        prop_assert_eq!(kinds[front], LineKind::Front);
        prop_assert!(kinds.iter().all(|kind| *kind != LineKind::Unspecified));
        // A side is found at its own middle.
        let side = lot.sides.iter().find(|side| side.course == front).unwrap();
        prop_assert_eq!(lot.side_at(side.segment.point_at(0.5), 0.01), Some(front));
    }
}
