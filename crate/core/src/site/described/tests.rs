//! One line makes a lot and a house, or says what it lacks and where.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::site::CheckedSite;

fn read(line: &str) -> Described {
    read_description(line, System::Feet).unwrap()
}

fn refused(line: &str) -> (String, String) {
    let fault = read_description(line, System::Feet).unwrap_err();
    let span = line
        .chars()
        .skip(fault.span.start)
        .take(fault.span.len())
        .collect();
    (fault.message, span)
}

/// The house's west, south, east and north edges, feet.
fn house(described: &Described) -> [f64; 4] {
    let ShapeRecord::Area(path) = &described.site.features[0].shape else {
        panic!("a house is an area");
    };
    let corners = path.vertices();
    let (low, high) = (corners[0].at, corners[2].at);
    [low.x, low.y, high.x, high.y].map(|it| (it / FOOT * 1e6).round() / 1e6)
}

#[test]
fn a_lot_and_a_house_come_of_one_line() {
    let it = read("Lot 100 by 140, house 50 by 34 set back 35");
    assert_eq!(house(&it), [25.0, 35.0, 75.0, 69.0]);
    let checked = CheckedSite::check(it.site, None).unwrap();
    let area = checked.lot().region.area();
    assert!((area - 100.0 * 140.0 * FOOT * FOOT).abs() < 1e-6, "{area}");
}

#[test]
fn what_is_left_out_is_taken_as_usual_and_said() {
    let it = read("lot 100 by 140, house set back 35");
    assert_eq!(house(&it), [25.0, 35.0, 75.0, 69.0]);
    assert!(
        it.words.contains("34.00 ft (taken as usual)"),
        "{}",
        it.words
    );
    assert!(read("lot 100 by 140").site.features.is_empty());
    // A usual house leaves room beside it on a narrow lot.
    assert_eq!(house(&read("lot 40 by 120; house"))[0], 5.0);
}

#[test]
fn units_and_signs_are_those_of_every_field() {
    let it = read("lot 30 m x 42.5m, house 48'6\" by 30 ft set back 20'");
    assert_eq!(house(&it)[1], 20.0);
    assert_eq!(house(&it)[2] - house(&it)[0], 48.5);
    let thousands = read("lot 1,000 by 1,200.5, house 50 by 30");
    assert!(thousands.words.contains("1,000"), "{}", thousands.words);
}

#[test]
fn a_corner_lot_has_its_second_street_in_the_east() {
    let it = read("corner lot 90 by 110");
    let kinds: Vec<LineKind> = it.site.lot.courses.iter().map(|c| c.kind).collect();
    assert_eq!(
        kinds,
        [
            LineKind::Front,
            LineKind::StreetSide,
            LineKind::Rear,
            LineKind::Side
        ]
    );
}

#[test]
fn what_is_not_understood_is_named_with_its_place() {
    assert_eq!(refused("house 40 by 30").0, "No lot is described.");
    assert_eq!(refused("lot 100 by 140, barn 30 by 20").1, "barn 30 by 20");
    assert_eq!(refused("lot 100 by 140, lot 90 by 120").1, "lot 90 by 120");
    assert_eq!(refused("lot 100, house").1, "100");
    assert_eq!(refused("lot 100 by 14 furlongs").1, "furlongs");
    assert!(
        refused("lot 50 by 100, house 60 by 30")
            .0
            .contains("does not fit")
    );
    assert!(
        refused("lot 50 by 60, house 40 by 30 set back 35")
            .0
            .contains("does not fit")
    );
    assert!(refused("").0.contains("No lot"));
}
