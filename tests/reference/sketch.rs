//! Arcs by three points and angles of walls against worked examples.

use batterboard_core::geom::{Point, Segment};
use batterboard_core::sketch::{arc, walk};
use batterboard_core::units::System;
use batterboard_core::units::constants::FOOT;

fn circle(a: Point, through: Point, b: Point) -> (Point, f64, f64) {
    let vertex = arc::arc_through(a, through, b).unwrap();
    match Segment::between(vertex, b) {
        Segment::Arc {
            centre,
            radius,
            sweep,
            ..
        } => (centre, radius, sweep),
        Segment::Line { .. } => panic!("an arc"),
    }
}

/// A school book's circle: through (4, 1) and (6, 5) with its center on 4x + y = 16 it is
/// x2 + y2 - 6x - 8y + 15 = 0, so center (3, 4) and radius root 10 (from memory); (0, 3) lies
/// on it too.
#[test]
fn a_circle_of_the_school_book() {
    let (centre, radius, _) = circle(
        Point::new(4.0, 1.0),
        Point::new(6.0, 5.0),
        Point::new(0.0, 3.0),
    );
    assert!(centre.distance(Point::new(3.0, 4.0)) < 1e-12);
    assert!((radius * radius - 10.0).abs() < 1e-12);
}

/// Simple curve of FM 5-233, Construction Surveying: R 381.97 ft, delta 45 degrees, long chord
/// 292.35, middle ordinate 29.08 (data from memory, agreed with independent arithmetic). The
/// arc through both ends and the middle has the radius, to what two decimals of the middle
/// ordinate leave: 0.06 ft.
#[test]
fn a_curve_by_its_chord_and_middle_ordinate() {
    let (chord, middle) = (292.35, 29.08);
    let (_, radius, sweep) = circle(
        Point::new(0.0, 0.0),
        Point::new(chord / 2.0, middle),
        Point::new(chord, 0.0),
    );
    assert!((radius - 381.97).abs() < 0.06, "{radius}");
    // Bending to the right of the chord's left: clockwise.
    assert!((sweep.to_degrees() + 45.0).abs() < 0.01, "{sweep}");
}

/// Corner return of a curb: R 25 ft, 90 degrees: arc 39.270, chord 35.355 (independent
/// arithmetic). A wall walked along it ends a chord away.
#[test]
fn a_quarter_circle_walked() {
    let read = walk::read(
        "arc right radius 25' angle 90, f 10'",
        Point::default(),
        0.0,
        System::Feet,
    );
    let corners = &read.sketch.vertices;
    let chord = corners[0].at.distance(corners[1].at) / FOOT;
    assert!((chord - 35.355).abs() < 5e-4, "{chord}");
    let length = read.sketch.edge(0).unwrap().length() / FOOT;
    assert!((length - 39.270).abs() < 5e-4, "{length}");
    // Facing east after the turn.
    let end = corners[2].at;
    assert!((end.x / FOOT - 35.0).abs() < 1e-9 && (end.y / FOOT - 25.0).abs() < 1e-9);
}
