//! Worked traverses and curves, read as deed text.

use batterboard_core::geom::Outline;
use batterboard_core::lot::curve::Elements;
use batterboard_core::lot::deed::{self, Reading, Summary};
use batterboard_core::lot::{Balance, CourseShape, Lot, LotRecord, Traverse};
use batterboard_core::math::{atan2, hypot};
use batterboard_core::units::System;
use batterboard_core::units::constants::{ACRE, DEGREE, FOOT, SQUARE_FOOT};

use super::close;

fn read(text: &str) -> Reading {
    let reading = deed::read(text, System::Feet);
    assert_eq!(reading.findings, [], "{text}");
    reading
}

/// Five courses: read in a surveying course's traverse page (Purdue ASM 215), written here as
/// prose. Read there: misclosure -0.71 and +0.53, corners after the compass rule to the
/// hundredth, 1/2771 (from a misclosure rounded up to 0.89: only a band can be asked).
/// Computed independently: -0.7043, +0.5332, 0.8833 ft, 1:2,792; 272,611.2 square feet and
/// 6.2583 acres balanced.
#[test]
fn five_courses_close_and_balance_as_printed() {
    let reading = read(
        "Beginning at a stone; thence N 26°10' E 285.10 feet; thence S 75°25' E 610.45 feet; thence \
         S15-30W, 720.48 feet; thence North 1 degree 42 minutes West a distance of 203.00 feet; \
         thence N53-06W 647.02 feet to the place of beginning",
    );
    let mut record = reading.record(&LotRecord::default());
    let closure = Summary::of(&record).closure.unwrap();
    close("northing", closure.northing / FOOT, -0.71, 0.006);
    close("easting", closure.easting / FOOT, 0.53, 0.005);
    close("northing, computed", closure.northing / FOOT, -0.7043, 5e-5);
    close("easting, computed", closure.easting / FOOT, 0.5332, 5e-5);
    close("misclosure, computed", closure.length / FOOT, 0.8833, 5e-5);
    close("traversed", closure.traversed / FOOT, 2466.05, 1e-9);
    assert!((2750.0..2800.0).contains(&closure.ratio.unwrap()));
    close("ratio, computed", closure.ratio.unwrap(), 2792.0, 0.5);

    record.balance = Some(Balance::CompassRule);
    let (lot, findings) = Lot::check(&record).unwrap();
    let checks: Vec<_> = findings.iter().map(|f| f.code).collect();
    assert_eq!(checks, ["lot-closure", "lot-balanced"]);
    assert_eq!(lot.closure, closure);
    let printed = [
        (10_000.0, 10_000.0),
        (10_125.66, 10_255.96),
        (10_716.31, 10_102.44),
        (10_523.62, 9_408.37),
        (10_517.55, 9_611.34),
    ];
    let mut corners: Vec<(f64, f64)> = lot
        .sides
        .iter()
        .map(|s| s.segment.to())
        .map(|p| (p.x / FOOT + 10_000.0, p.y / FOOT + 10_000.0))
        .collect();
    for (east, north) in printed {
        let off = |c: &(f64, f64)| hypot(c.0 - east, c.1 - north);
        corners.sort_by(|a, b| off(a).total_cmp(&off(b)));
        // The printed shares are rounded to the hundredth before they are added.
        close("corner, printed", off(&corners[0]), 0.0, 0.012);
    }
    close("area, sq ft", lot.area / SQUARE_FOOT, 272_611.2, 0.1);
    close("area, ac", lot.area / ACRE, 6.2583, 5e-5);
}

/// Read in a naval training manual on surveying (NAVEDTRA 14070, chapter 7): adjusted
/// latitudes and departures of four courses. Computed independently from its corners: area
/// 323,953.70 square feet, 7.437 acres. The courses are written with decimals of a second, so
/// that rounding costs nothing of that.
#[test]
fn four_adjusted_courses_enclose_the_computed_area() {
    let courses = [
        (255.96, 125.66),
        (-153.53, 590.65),
        (-694.07, -192.69),
        (591.64, -523.62),
    ];
    let lines: Vec<String> = courses
        .iter()
        .map(|(north, east): &(f64, f64)| {
            let angle = atan2(east.abs(), north.abs()) / DEGREE;
            let (degrees, minutes) = (angle.floor(), (angle.fract() * 60.0).floor());
            let seconds = (angle - degrees - minutes / 60.0) * 3600.0;
            format!(
                "{} {degrees}°{minutes}'{seconds:.5}\" {} {:.6}'",
                if *north > 0.0 { "N" } else { "S" },
                if *east > 0.0 { "E" } else { "W" },
                hypot(*north, *east)
            )
        })
        .collect();
    let reading = read(&(lines.join("\n") + "\ncontaining 7.437 acres"));
    let summary = Summary::of(&reading.record(&LotRecord::default()));
    close(
        "area, sq ft",
        summary.area.unwrap() / SQUARE_FOOT,
        323_953.70,
        0.005,
    );
    close("area, ac", summary.area.unwrap() / ACRE, 7.437, 5e-4);
    close(
        "misclosure",
        summary.closure.unwrap().length / FOOT,
        0.0,
        1e-4,
    );
    close("stated", summary.comparison.unwrap().difference, 0.0, 1e-4);
    assert_eq!(summary.findings, []);
}

/// A recorded description with two curves: read in a county's public abstract, with its
/// 0.853 acre. Computed independently: misclosure 0.0065 ft in 1,008.12 (1:154,700), arcs
/// 438.133 ft (14°16'52") and 437.740 ft, area 0.664 to 0.670 acre whichever way they bend.
#[test]
fn a_recorded_lot_of_two_curves() {
    let reading = read(
        "thence along a curve to the left, chord N28-00-55W 437.00 feet, radius 1757.79 feet; thence \
         S70-15-00W 68.56 feet; thence along a curve to the right, chord S28-21-37E 436.52 feet, radius \
         1691.79 feet; thence N71-00-00E 66.04 feet to beginning, 0.853 AC",
    );
    let summary = Summary::of(&reading.record(&LotRecord::default()));
    let closure = summary.closure.unwrap();
    close("traversed", closure.traversed / FOOT, 1008.12, 1e-9);
    close("misclosure", closure.length / FOOT, 0.0065, 5e-5);
    close("ratio", closure.ratio.unwrap(), 154_700.0, 600.0);
    assert!((0.6635..0.6705).contains(&(summary.area.unwrap() / ACRE)));
    close(
        "stated",
        summary.comparison.unwrap().stated / ACRE,
        0.853,
        1e-9,
    );
    let checks: Vec<_> = summary.findings.iter().map(|f| f.code).collect();
    assert_eq!(checks, ["lot-area"]);
    for (index, arc) in [(0, 438.133), (2, 437.740)] {
        close("arc", curve_of(&reading, index).arc / FOOT, arc, 5e-4);
    }
}

fn curve_of(reading: &Reading, index: usize) -> Elements {
    let CourseShape::Curve {
        chord,
        radius,
        long_way,
        ..
    } = reading.courses[index].shape
    else {
        panic!("course {index} is straight");
    };
    Elements::from_chord(chord, radius, long_way).unwrap()
}

/// Curves by their radius and central angle, tangent to a course before them. Sources: a
/// curve calculator's examples page (read; R 1800, 43°25'46": arc 1364.38, tangent 716.84); an
/// open textbook on transportation (read; R 1200, 90°: arc and tangent computed
/// independently); a corner return of 25 ft (computed independently); FM 5-233, January 1985
/// (from memory; R 381.97, 45°: arc 300.00, tangent 158.22, chord 292.35).
#[test]
fn curves_of_the_tables() {
    for (radius, delta, arc, tangent, chord) in [
        ("1800.00", "43°25'46\"", 1364.38, 716.84, 1331.948),
        ("1200.00", "90°", 1884.96, 1200.00, 1697.056),
        ("25.00", "90°00'00\"", 39.270, 25.000, 35.355),
        ("381.9719", "45°", 300.00, 158.22, 292.35),
    ] {
        let given = [
            format!("radius {radius} feet, central angle {delta}"),
            format!("radius {radius} feet, arc length {arc} feet"),
            format!("central angle {delta}, tangent length {tangent} feet"),
        ];
        for figures in given {
            let text = format!(
                "thence North 10 feet; thence along a tangent curve to the right, {figures}; thence \
                 East 10 feet"
            );
            let reading = read(&text);
            let curve = curve_of(&reading, 1);
            close(&figures, curve.arc / FOOT, arc, 0.012);
            close(&figures, curve.tangent.unwrap() / FOOT, tangent, 0.012);
            close(&figures, curve.chord / FOOT, chord, 0.012);
        }
    }
    // A homework page (read) whose printed arc is wrong: R 420 m, 71°39', tangent 303.19 right,
    // arc 630.266 against 525.22 computed independently. It is told, with both figures.
    let reading = deed::read(
        "North 10 m\ntangent curve right R=420.00 m, delta 71°39', T=303.19 m, L=630.266 m",
        System::Metres,
    );
    let finding = reading.findings.first().unwrap();
    assert_eq!(finding.code, "deed-curve-figures");
    assert!(finding.message.contains("630.27 m"), "{}", finding.message);
    assert!(finding.message.contains("525.22 m"), "{}", finding.message);
    assert!(!finding.message.contains("tangent is stated"));
}

/// The corners as a traverse makes them are those of the lot: nothing is balanced unasked.
#[test]
fn nothing_is_balanced_unasked() {
    let reading = read("N 0 E 100\nEast 100.10\nS 0 E 100\nWest 100");
    let record = reading.record(&LotRecord::default());
    let (lot, _) = Lot::check(&record).unwrap();
    let plain = Outline::check(Traverse::of(&record).vertices).unwrap();
    close("area", lot.area, plain.area(), 1e-12);
}

/// The demo site from a deed: its text is read to the very courses that its file holds, and the
/// street that it names gives the kinds that stand there.
#[test]
fn the_demo_deed_is_read_to_its_own_courses() {
    let file = include_str!("../../demo-sites/creek-side-deed.json");
    let site: serde_json::Value = serde_json::from_str(file).unwrap();
    let record: LotRecord = serde_json::from_value(site["lot"].clone()).unwrap();
    let reading = read(record.deed.as_deref().unwrap());
    assert!(reading.runs_as(&record), "{:#?}", reading.courses);
    let kinds: Vec<_> = record.courses.iter().map(|course| course.kind).collect();
    assert_eq!(reading.kinds(&LotRecord::default()), Some(kinds));
    close(
        "stated, ac",
        reading.stated_area.unwrap() / ACRE,
        0.377,
        1e-9,
    );
}
