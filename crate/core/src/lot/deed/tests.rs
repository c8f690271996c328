//! Whole deeds: what is read, what is marked, what is told.
#![allow(clippy::unwrap_used)]

use super::super::record::{CourseShape, Turn};
use super::*;
use crate::units::constants::{ACRE, DEGREE, FOOT};

pub(super) fn feet(text: &str) -> Reading {
    let reading = read(text, System::Feet);
    let mut at = 0;
    for piece in &reading.pieces {
        assert!(
            piece.from == at && piece.to > at,
            "{text}: {:?}",
            reading.pieces
        );
        at = piece.to;
    }
    assert_eq!(at, text.chars().count(), "{text}");
    reading
}

pub(super) fn lines(reading: &Reading) -> Vec<(f64, f64)> {
    let shape = |c: &Course| match c.shape {
        CourseShape::Line { bearing, distance } => (bearing / DEGREE, distance / FOOT),
        CourseShape::Curve {
            chord_bearing,
            chord,
            ..
        } => (chord_bearing / DEGREE, chord / FOOT),
    };
    reading.courses.iter().map(shape).collect()
}

pub(super) fn checks(reading: &Reading) -> Vec<&'static str> {
    reading.findings.iter().map(|f| f.code).collect()
}

pub(super) fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

#[test]
fn one_course_a_line_in_every_usual_form() {
    let angle = 89.0 + 15.0 / 60.0 + 30.0 / 3600.0;
    for (text, bearing, distance) in [
        ("N 89°15'30\" E 120.00'", angle, 120.0),
        ("N89-15-30E 120.00", angle, 120.0),
        ("N 89-15-30 E, 120.00 ft", angle, 120.0),
        (
            "North 89 degrees 15 minutes 30 seconds East 120.00 feet",
            angle,
            120.0,
        ),
        ("1) N 89°15'30\" E a distance of 120.00'", angle, 120.0),
        ("L3: N 89°15'30\" E 120.00'", angle, 120.0),
        ("S12.25W 100", 192.25, 100.0),
        ("North 89 degrees 15' East 4 rods", 89.25, 66.0),
        ("due north 2.5 chains", 0.0, 165.0),
        ("West 3 chains 10 links", 270.0, 204.6),
        ("123.5 85.2", 123.5, 85.2),
        ("123°30' 30.48 m", 123.5, 100.0),
        ("azimuth 123.5, 85.2 ft", 123.5, 85.2),
        ("150 gon 30.48 m", 135.0, 100.0),
        ("120-30-00 12'-6\"", 120.5, 12.5),
        ("S 45 E 100.00' (30.48 m)", 135.0, 100.0),
    ] {
        let reading = feet(text);
        let (b, d) = *lines(&reading)
            .first()
            .unwrap_or_else(|| panic!("{text}: {reading:?}"));
        assert!(near(b, bearing) && near(d, distance), "{text}: {b} {d}");
        assert!(
            reading.findings.is_empty(),
            "{text}: {:?}",
            reading.findings
        );
    }
    let metric = read("100 gon 30.48", System::Metres);
    assert!(near(lines(&metric).first().unwrap().1, 100.0));
}

const PROSE: &str = "BEGINNING at an iron pin at the corner of Lot 12; thence North 89 degrees \
    15 minutes 30 seconds East 120.00 feet to a point; thence along a curve to the left having a \
    radius of 50.00 feet, an arc length of 35.20 feet, chord bearing N 45-10 E, chord 34.5 feet; \
    thence along the north line of said Lot 12, N 10°00'00\" W, a distance of 80.00 feet; thence \
    due West 100 feet to the point of beginning, containing 0.32 acres, more or less.";

#[test]
fn prose_is_read_piece_by_piece() {
    let reading = feet(PROSE);
    assert_eq!(reading.findings, []);
    let lines = lines(&reading);
    assert_eq!(lines.len(), 4);
    assert!(near(lines[0].0, 89.258_333_333) && near(lines[0].1, 120.0));
    assert!(near(lines[1].0, 45.0 + 10.0 / 60.0) && near(lines[1].1, 34.5));
    assert!(near(lines[2].0, 350.0) && near(lines[2].1, 80.0));
    assert!(near(lines[3].0, 270.0) && near(lines[3].1, 100.0));
    let CourseShape::Curve { radius, turn, .. } = reading.courses[1].shape else {
        panic!("no curve");
    };
    assert!(near(radius / FOOT, 50.0) && turn == Turn::Left);
    assert!(near(reading.stated_area.unwrap() / ACRE, 0.32));
    let of = |wanted: Understood| -> Vec<String> {
        let all = reading.pieces.iter().filter(|p| p.understood == wanted);
        let cut = |p: &Piece| PROSE.chars().skip(p.from).take(p.to - p.from).collect();
        all.map(cut).collect()
    };
    assert_eq!(
        of(Understood::Beginning),
        ["BEGINNING", "point of beginning"]
    );
    assert_eq!(
        of(Understood::Course(1)),
        ["left", "50.00 feet", "35.20 feet", "N 45-10 E", "34.5 feet"]
    );
    assert!(
        of(Understood::Unread)
            .iter()
            .any(|t| t.starts_with("iron pin"))
    );
}

#[test]
fn curves_in_plat_letters_and_by_tangency() {
    let reading =
        feet("N 0 E 100\ncurve right R=25.00' Δ=90°00'00\" tangent\nEast 75\nS 0 E 125\nWest 100");
    assert!(reading.findings.is_empty(), "{:?}", reading.findings);
    let (bearing, chord) = lines(&reading)[1];
    assert!(near(bearing, 45.0) && near(chord, 35.355_339_059));
    let summary = Summary::of(&reading.record(&LotRecord::default()));
    assert!(summary.closure.unwrap().length < 1e-9);
    // The corner that a return of 25 ft cuts off: 134.13 square feet, computed independently.
    let cut = 125.0 * 100.0 - summary.area.unwrap() / (FOOT * FOOT);
    assert!((cut - 134.13).abs() < 0.005, "{cut}");
    for text in [
        "curve to the left, R 50.00 L=35.20 CB=N45-10E C=34.48",
        "thence with a 50.00 foot radius curve to the left, an arc distance of 35.20 feet, the chord of which bears North 45 degrees 10 minutes East 34.48 feet",
        "thence along a non-tangent curve to the left with a central angle of 40°20'09\" and a radius of 50.00', chord bearing N 45°10' E",
    ] {
        let reading = feet(text);
        assert_eq!(reading.findings, [], "{text}");
        let (bearing, chord) = *lines(&reading).first().unwrap();
        assert!(
            near(bearing, 45.0 + 10.0 / 60.0) && (chord - 34.48).abs() < 0.01,
            "{text}"
        );
    }
}

#[test]
fn a_curve_told_at_the_end_of_the_course_before_it_is_taken() {
    let reading = feet(
        "Beginning at a pin; thence North 100.00 feet to the beginning of a tangent curve to the right \
         having a radius of 25.00 feet; thence along said curve through a central angle of 90°00'00\", \
         an arc distance of 39.27 feet; thence East 75.00 feet",
    );
    assert!(reading.findings.is_empty(), "{:?}", reading.findings);
    assert_eq!(reading.courses.len(), 3);
    assert!(near(lines(&reading)[1].0, 45.0));
    let alone = feet(
        "thence North 45 degrees East 34.50 feet along a curve of radius 50.00 feet; thence East 10 feet",
    );
    assert_eq!(checks(&alone), ["deed-curve"]);
}

#[test]
fn a_tie_from_a_commencement_is_no_side() {
    let reading = feet(
        "COMMENCING at the quarter corner; thence North 500.00 feet to the POINT OF BEGINNING; thence East \
         100.00 feet; thence North 50.00 feet; thence West 100.00 feet; thence South 50.00 feet to the \
         POINT OF BEGINNING.",
    );
    assert_eq!(reading.courses.len(), 4);
    assert!(reading.findings.is_empty(), "{:?}", reading.findings);
}

#[test]
fn what_cannot_be_taken_is_told_with_its_line() {
    for (text, check, line) in [
        ("N 0 E 100\nN 91 E 100", "deed-course", "line 2"),
        ("N 45 E", "deed-course", "line 1"),
        ("along the creek 100 feet", "deed-course", "line 1"),
        ("N 10° 100 feet", "deed-course", "line 1"),
        ("N 10 E 100\n\nN 20 E 50 S 30 W 40", "deed-course", "line 3"),
        ("N 10 E 100 200", "deed-course", "line 1"),
        ("curve R=50 L=35.2 CB=N 45 E", "deed-curve", "line 1"),
        ("curve left R=50 CB=N 45 E", "deed-curve", "line 1"),
        ("curve left R=50 L=35.2", "deed-curve", "line 1"),
        ("curve left R=10 C=35.2 CB=N 45 E", "deed-curve", "line 1"),
        (
            "curve left and right R=50 L=35.2 CB=N 45 E",
            "deed-course",
            "line 1",
        ),
        (
            "thence along the creek to a stone; thence N 10 E 100 feet",
            "deed-course",
            "line 1",
        ),
        (
            "thence N 10 E 100 feet to point of beginning; thence N 10 W 5 feet",
            "deed-second-parcel",
            "line 1",
        ),
    ] {
        let reading = feet(text);
        let finding = reading.findings.first().unwrap_or_else(|| panic!("{text}"));
        assert_eq!(
            (finding.code, finding.pointer.as_str()),
            (check, line),
            "{text}: {finding:?}"
        );
        assert!(finding.is_fault() && !finding.remedy.is_empty());
        let marked = |p: &Piece| p.understood == Understood::Unread && !p.remedy.is_empty();
        assert!(reading.pieces.iter().any(marked), "{text}");
    }
}

#[test]
fn figures_that_contradict_each_other_are_named() {
    let reading = feet("curve left R=50.00' L=45.00' Δ=45° CB=N 45 E");
    assert_eq!(checks(&reading), ["deed-curve-figures"]);
    let message = &reading.findings.first().unwrap().message;
    assert!(
        message.contains("45.00 ft") && message.contains("39.27 ft"),
        "{message}"
    );
    assert_eq!(reading.courses.len(), 1);
    let reading = feet("N 0 E 100\ntangent curve to the right R=25 L=39.27 CB=N 44 E");
    assert_eq!(checks(&reading), ["deed-tangency"]);
    let reading = feet("thence N 10 E 100 feet, 12 Lot");
    assert_eq!(checks(&reading), ["deed-unused"]);
    let reading = feet("0.5 acres\n0.6 acres");
    assert_eq!(checks(&reading), ["deed-areas"]);
    let reading = feet("Beginning at a pin N 10 E 20 feet from a stone; thence N 10 E 100 feet");
    assert_eq!(checks(&reading), ["deed-caption"]);
}

#[test]
fn a_text_that_is_too_long_is_refused_whole() {
    let reading = feet(&"N 10 E 5\n".repeat(LONGEST / 4));
    assert_eq!(checks(&reading), ["deed-length"]);
    assert_eq!(feet("").pieces, []);
    assert_eq!(feet(" \n ").courses, []);
}
