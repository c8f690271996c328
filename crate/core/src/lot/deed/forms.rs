//! The forms in which deeds write courses: words, fractions, radii, curves one after another.
#![allow(clippy::unwrap_used)]

use super::super::record::Turn;
use super::tests::{checks, feet, lines, near};
use super::*;
use crate::lot::CourseShape;
use crate::units::constants::FOOT;

fn clean(text: &str) -> Reading {
    let reading = feet(text);
    assert_eq!(reading.findings, [], "{text}");
    reading
}

fn curve(reading: &Reading, at: usize) -> (f64, f64, Turn) {
    let CourseShape::Curve { radius, turn, .. } = reading.courses.get(at).unwrap().shape else {
        panic!("course {at} is straight");
    };
    (lines(reading).get(at).unwrap().0, radius / FOOT, turn)
}

#[test]
fn words_fractions_and_old_units() {
    for (text, bearing, distance) in [
        (
            "thence North eighty-nine degrees fifteen minutes thirty seconds East one hundred twenty and fifty hundredths feet to a pin",
            89.258_333_333,
            120.5,
        ),
        (
            "thence North Eighty-nine (89) degrees, Fifteen (15) minutes East, One Hundred Twenty (120.00) feet",
            89.25,
            120.0,
        ),
        ("thence South forty-five East four rods", 135.0, 66.0),
        ("thence due north one hundred and 50/100 feet", 0.0, 100.5),
        ("thence N 12 1/2 E 10 poles", 12.5, 165.0),
        ("thence S 45½° W 5 perches", 225.5, 82.5),
        ("N 10:30:00 E 100", 10.5, 100.0),
        (
            "thence a distance of 80.00 feet on a bearing of N 10° E",
            10.0,
            80.0,
        ),
        (
            "thence N 10 E 100.00 feet to a 1/2 inch iron rod found",
            10.0,
            100.0,
        ),
        (
            "thence N 10 E 100.00 feet to a 5/8\" rebar with cap",
            10.0,
            100.0,
        ),
        (
            "thence N 10 E, passing a pin at 15.00 feet, a total distance of 120.00 feet",
            10.0,
            120.0,
        ),
        ("thence along the right of way N 10 E 100 feet", 10.0, 100.0),
        (
            "thence on an azimuth of 123°30'00\" measured clockwise from north, 85.20 feet",
            123.5,
            85.2,
        ),
        ("thence N 45 E 120.5 US survey feet", 45.0, 120.500_241),
        (
            "thence along the north line of Elm Street, East 100.00 feet to a stone",
            90.0,
            100.0,
        ),
    ] {
        let reading = clean(text);
        assert_eq!(reading.courses.len(), 1, "{text}");
        let (b, d) = *lines(&reading).first().unwrap();
        assert!(near(b, bearing) && near(d, distance), "{text}: {b} {d}");
    }
    let south =
        feet("Azimuths are measured clockwise from true South. thence azimuth 10°, 100 feet");
    assert_eq!(checks(&south), ["deed-azimuth"]);
    let words = feet("thence North 10 degrees East one hundred twenty (125.00) feet");
    assert_eq!(checks(&words), ["deed-words"]);
}

#[test]
fn a_radius_tells_how_a_curve_sets_out() {
    // Center in the south, radius 50 ft, turning right by 40 degrees: the chord runs at 110.
    for text in [
        "thence along a non-tangent curve to the right whose centre bears S 0 E, having a radius of 50.00 feet, through a central angle of 40°",
        "thence along a curve to the right, the radius point of which bears due South, radius 50.00 feet, central angle 40°",
        "thence East 10 feet to the beginning of a non-tangent curve concave southerly, having a radius of 50.00 feet, a radial line to said point bears North 0° East; thence easterly along said curve through a central angle of 40°",
        "thence East 10 feet to a point on a curve to the right, from which the radius point bears S 0 E, radius 50.00 feet; thence along said curve, through a central angle of 40°, a distance of 34.91 feet",
        "thence along a curve concave to the south, radial bearing S 0 E, radius 50.00 feet, central angle 40°, to the right",
        "thence along a curve to the right, the tangent of which bears East, radius 50.00 feet, central angle 40°",
    ] {
        let reading = clean(text);
        let last = reading.courses.len() - 1;
        let (bearing, radius, turn) = curve(&reading, last);
        assert!(near(bearing, 110.0), "{text}: {bearing}");
        assert!(near(radius, 50.0) && turn == Turn::Right, "{text}");
    }
    let either = feet(
        "thence East 10 feet; thence along a curve to the right, radial line bears S 0 E, radius 50 feet, central angle 40°",
    );
    assert_eq!(checks(&either), ["deed-radial"]);
    assert!(near(curve(&either, 1).0, 110.0));
    let alone = feet(
        "thence along a curve to the right, radial line bears S 0 E, radius 50 feet, central angle 40°",
    );
    assert_eq!(checks(&alone), ["deed-curve"]);
    assert!(
        alone
            .findings
            .first()
            .unwrap()
            .remedy
            .contains("centre bears")
    );
}

#[test]
fn curves_follow_each_other() {
    let reading = clean(
        "Beginning at a pin; thence North 100.00 feet to the beginning of a tangent curve to the right, \
         having a radius of 25.00 feet; thence along said curve through a central angle of 90°00'00\", an \
         arc length of 39.27 feet to the beginning of a reverse curve having a radius of 30.00 feet; thence \
         along said reverse curve through a central angle of 60°00'00\" to a point of compound curvature \
         with a curve having a radius of 40.00 feet; thence along said curve through a central angle of \
         30°00'00\"; thence tangent to said curve 50.00 feet; thence along the tangent line to said curve \
         N 0 E 20 feet",
    );
    let (bearing, radius, turn) = curve(&reading, 1);
    assert!(near(bearing, 45.0) && near(radius, 25.0) && turn == Turn::Right);
    let (bearing, radius, turn) = curve(&reading, 2);
    assert!(near(bearing, 60.0) && near(radius, 30.0) && turn == Turn::Left);
    let (bearing, radius, turn) = curve(&reading, 3);
    assert!(near(bearing, 15.0) && near(radius, 40.0) && turn == Turn::Left);
    assert!(near(lines(&reading)[4].0, 0.0) && near(lines(&reading)[4].1, 50.0));
    // Every piece of a curve that was told early belongs to the curve.
    let of_curve = |p: &&Piece| p.understood == Understood::Course(2);
    assert!(reading.pieces.iter().filter(of_curve).count() >= 3);

    let first = feet("thence along a reverse curve, radius 30 feet, central angle 60°");
    assert_eq!(checks(&first), ["deed-curve"]);
    let same =
        feet("N 0 E 100\ncurve right tangent R=25 D=90°\nreverse curve to the right R=30 D=60°");
    assert_eq!(checks(&same), ["deed-curve"]);
    let off = feet("N 0 E 100\ncurve right tangent R=25 D=90°\ntangent to said curve N 80 E 50");
    assert_eq!(checks(&off), ["deed-tangency"]);
}

#[test]
fn any_two_figures_of_a_curve_are_enough() {
    // Radius 50, central angle 40°: arc 34.907, chord 34.202, tangent 18.199 ft.
    for figures in [
        "delta 40°00'00\", arc 34.907 feet",
        "delta 40°00'00\", tangent length 18.199 feet",
        "chord 34.202 feet, delta 40°00'00\"",
        "chord 34.202 feet, tangent length 18.199 feet",
        "arc 34.907 feet, radius 50.00 feet",
    ] {
        let reading = clean(&format!(
            "thence East 10 feet; thence along a tangent curve to the right, {figures}"
        ));
        let (bearing, radius, _) = curve(&reading, 1);
        assert!((bearing - 110.0).abs() < 0.05, "{figures}: {bearing}");
        assert!((radius - 50.0).abs() < 0.05, "{figures}: {radius}");
    }
}

#[test]
fn a_concave_side_says_which_way_a_curve_bends() {
    let reading = clean(
        "thence along a curve concave northwesterly, radius 50.00 feet, arc 35.20 feet, chord bearing N 45 E",
    );
    assert_eq!(curve(&reading, 0).2, Turn::Left);
    let against = feet(
        "thence along a curve to the right concave northwesterly, radius 50.00 feet, arc 35.20 feet, chord bearing N 45 E",
    );
    assert_eq!(checks(&against), ["deed-concave"]);
}

#[test]
fn sides_along_a_street_are_named() {
    let reading = feet(
        "thence along the northerly right of way line of Elm Street, N 89 E 100 feet; thence N 1 W 120 feet \
         to the south line of Oak Lane; thence with Oak Lane S 89 W 100 feet; thence S 1 E 120 feet",
    );
    let names: Vec<(usize, &str)> = reading
        .streets
        .iter()
        .map(|street| (street.course, street.name.as_str()))
        .collect();
    assert_eq!(names, [(0, "Elm Street"), (2, "Oak Lane")]);
    assert!(
        reading
            .pieces
            .iter()
            .any(|p| p.message == "runs along Elm Street")
    );
}

#[test]
fn a_word_that_is_no_unit_is_a_fault_of_its_course() {
    for (text, word) in [
        ("N 0 E 100\nWest 30 arpents", "arpents"),
        ("N 0 E 100\nWest 15 paces", "paces"),
        ("N 0 E 100\nWest 40 1/2 toises", "toises"),
        (
            "N 0 E 100 ft\ncurve left R=50 cuerdas L=35.2 CB=N 45 E",
            "cuerdas",
        ),
        ("thence North 10 feet;\nthence West 15 paces", "paces"),
    ] {
        let reading = feet(text);
        let finding = reading.findings.first().unwrap();
        assert_eq!(finding.code, "deed-course", "{text}");
        assert!(finding.is_fault() && finding.pointer == "line 2", "{text}");
        assert!(finding.message.contains(word), "{}", finding.message);
        assert!(
            finding.remedy.contains("feet, meters"),
            "{}",
            finding.remedy
        );
        assert_eq!(reading.courses.len(), 1, "{text}");
    }
    // Words that go on behind a distance are no units; nor is one behind a comma.
    for text in [
        "N 0 E 100 to an iron pin",
        "N 0 E 100, iron pin",
        "N 0 E 100 crossing Elm Street",
        "N 0 E 100 along the creek",
        "thence N 0 E 100 more or less to the creek",
    ] {
        let reading = feet(text);
        assert_eq!(reading.findings, [], "{text}");
        assert!(near(lines(&reading)[0].1, 100.0), "{text}");
    }
}

#[test]
fn varas_and_chains_with_links() {
    // 36 varas of 33 1/3 in are 100 ft.
    let reading = feet("thence West 36 varas;\nthence N 0 E seventy-two varas to a stone");
    assert!(near(lines(&reading)[0].1, 100.0) && near(lines(&reading)[1].1, 200.0));
    assert_eq!(checks(&reading), ["deed-vara"]);
    let finding = reading.findings.first().unwrap();
    assert!(!finding.is_fault() && finding.pointer == "line 1");
    assert!(finding.message.contains("33 1/3 in"), "{}", finding.message);
    for (text, distance) in [
        ("West 4 chs. 25 lks.", 280.5),
        ("West 4 ch 25 lks", 280.5),
        ("thence West 4 chains, 25 links to a stone", 280.5),
        ("thence West 4 chains and 25 links to a stone", 280.5),
        ("thence West 10 poles 5 links", 168.3),
        ("thence West 12 rds.", 198.0),
    ] {
        assert!(near(lines(&clean(text))[0].1, distance), "{text}");
    }
}

#[test]
fn numbers_without_a_unit_take_that_of_the_others_and_it_is_told() {
    let read_in = |text: &str, lengths: &[f64]| {
        let reading = feet(text);
        for ((_, length), expected) in lines(&reading).iter().zip(lengths) {
            assert!(near(length * FOOT, *expected), "{text}: {length} ft");
        }
        assert_eq!(reading.courses.len(), lengths.len(), "{text}");
        reading
    };
    let metres = read_in(
        "N 0 E 30 m\nEast 20\nS 0 E 30\nWest 20",
        &[30.0, 20.0, 30.0, 20.0],
    );
    assert_eq!(checks(&metres), ["deed-units"]);
    let finding = metres.findings.first().unwrap();
    assert_eq!(finding.pointer, "line 2");
    assert_eq!(
        finding.message,
        "Lengths of this text are in meters, but 3 have no unit: they were read in meters."
    );
    let chains = read_in("N 0 E 3 chains\nEast 2", &[60.3504, 40.2336]);
    assert_eq!(checks(&chains), ["deed-units"]);
    let two = read_in("N 0 E 30 m\nEast 20\nS 0 E 100'", &[30.0, 6.096, 30.48]);
    assert_eq!(checks(&two), ["deed-units"]);
    assert_eq!(
        two.findings.first().unwrap().message,
        "Lengths of this text are in meters and feet, but one has no unit: it was read in feet."
    );
    // In the units of the system, or where none is stated, there is nothing to tell.
    clean("N 0 E 100'\nEast 20\nS 0 E 100");
    clean("N 0 E 100\nEast 20");
}

#[test]
fn a_course_to_the_beginning_needs_no_distance() {
    for text in [
        "Beginning at a stone; thence N 0 E 100 feet; thence East 50 feet; thence S 0 E 100 feet; thence West to \
         the beginning.",
        "Beginning at a stone; thence N 0 E 100 feet; thence East 50 feet; thence S 0 E 100 feet; thence due West \
         along Elm Street to the point of beginning, containing 0.115 acres",
        "Beginning at a stone; thence N 0 E 100 feet; thence East 50 feet; thence S 0 E 100 feet; thence to the place \
         of beginning",
        "N 0 E 100\nEast 50\nS 0 E 100\nWest to the beginning",
        "N 0 E 100\nEast 50\nS 0 E 100\nto the point of beginning",
    ] {
        let reading = feet(text);
        assert_eq!(checks(&reading), ["deed-closing"], "{text}");
        let finding = reading.findings.first().unwrap();
        assert!(finding.message.contains("50.00 ft"), "{}", finding.message);
        assert!(!finding.is_fault());
        assert_eq!(reading.courses.len(), 4, "{text}");
        let (bearing, length) = lines(&reading)[3];
        assert!(near(bearing, 270.0) && near(length, 50.0), "{text}");
    }
    // Courses that close already need no more; one that bends, or follows a creek, is not straight.
    let closed = clean("N 0 E 100\nEast 50\nS 0 E 100\nWest 50\nto the point of beginning");
    assert_eq!(closed.courses.len(), 4);
    for text in [
        "thence N 0 E 100 feet; thence East 50 feet; thence along the creek to the point of beginning",
        "thence N 0 E 100 feet; thence East 50 feet; thence along a curve to the left to the point of beginning",
    ] {
        let reading = feet(text);
        assert_eq!(reading.courses.len(), 2, "{text}");
        assert!(reading.findings.iter().any(|f| f.is_fault()), "{text}");
    }
    // A bearing that leads elsewhere is told, one that leads away is a fault.
    let off =
        feet("thence N 0 E 100 feet; thence East 50 feet; thence S 20 W to the point of beginning");
    assert_eq!(checks(&off), ["deed-closing"]);
    assert!(
        off.findings
            .first()
            .unwrap()
            .message
            .contains("The beginning lies at S 26")
    );
    let away =
        feet("thence N 0 E 100 feet; thence East 50 feet; thence N 20 E to the point of beginning");
    assert_eq!(checks(&away), ["deed-course"]);
}
