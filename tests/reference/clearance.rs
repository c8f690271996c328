//! Clearances whose distances can be worked out with a pencil, on figures of the size and in
//! the pattern of town codes.
//!
//! The patterns (10 ft from side and rear lines, 4 ft from the house, 15 ft from a septic
//! tank, 18 ft from the water's edge and 15 ft from equipment, 50 ft from any line) are those
//! of published town codes, taken here as arithmetic alone; no code is quoted.

use batterboard_core::clearance::{Clearance, Subject, WorkFigures, measure};
use batterboard_core::exchange::open;
use batterboard_core::geom::offset::offset_region;
use batterboard_core::geom::{DRAWING_TOLERANCE, Point, Region, Ring};
use batterboard_core::site::CheckedSite;
use batterboard_core::units::constants::{FOOT, INCH};
use serde_json::{Value, json};

/// A lot of 100 by 140 ft with its south-west corner at the origin, front to the south.
fn site(features: &Value, rules: &Value, equipment: Option<Value>) -> CheckedSite {
    let quarter = std::f64::consts::FRAC_PI_2;
    let course = |kind: &str, quarters: f64, feet: f64| {
        json!({ "kind": kind,
                "shape": { "line": { "bearing": quarters * quarter, "distance": feet * FOOT } } })
    };
    let mut document = json!({
        "format": "batterboard-site", "version": 3, "name": "pencil",
        "lot": { "courses": [
            course("front", 1.0, 100.0), course("side", 0.0, 140.0),
            course("rear", 3.0, 100.0), course("side", 2.0, 140.0),
        ] },
        "features": features, "rules": rules,
    });
    if let Some(pad) = equipment {
        document["equipment"] = pad;
    }
    open(&document.to_string()).unwrap().site
}

/// An upright rectangle between two corners, feet.
fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Region {
    let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)];
    let corners = corners.map(|(x, y)| Point::new(x * FOOT, y * FOOT));
    Region::from_ring(Ring(corners.to_vec()))
}

/// A 30 x 14 ft water's edge with a 1 ft coping and a 4 ft deck, its south-west corner at
/// (40, 100) ft: 26 ft off the rear line, 30 ft off the east line, 40 ft off the west line.
fn work(site: &CheckedSite) -> WorkFigures {
    WorkFigures {
        waters_edge: rectangle(40.0, 100.0, 70.0, 114.0),
        rim: FOOT,
        deck_edge: 5.0 * FOOT,
        drawn_decks: Region::default(),
        equipment: site.equipment(),
        dig: rectangle(35.0, 95.0, 75.0, 119.0),
        ..WorkFigures::default()
    }
}

fn rule(from: &str, to: Value, feet: f64) -> Value {
    json!({ "name": "r", "from": from, "to": to, "distance": feet * FOOT, "source": "pencil" })
}

fn assert_feet(clearance: &Clearance, distance: f64, room: f64) {
    let near = |a: f64, feet: f64| (a - feet * FOOT).abs() < 1e-9;
    assert!(
        near(clearance.distance, distance) && near(clearance.room, room),
        "{distance} ft, room {room} ft: {clearance:?}"
    );
}

#[test]
fn lot_lines_by_kind_from_every_part_of_the_work() {
    let line = |kind: &str| json!({ "lot-line": { "kind": kind } });
    let rules = json!([
        rule("waters-edge", line("rear"), 18.0),
        rule("rim", line("rear"), 18.0),
        rule("deck-edge", line("rear"), 18.0),
        rule("dig", line("rear"), 18.0),
        rule("waters-edge", line("side"), 10.0),
        rule("waters-edge", json!({ "lot-line": {} }), 50.0),
    ]);
    let site = site(&json!([]), &rules, None);
    let mut all = measure(&site, &work(&site));
    all.sort_by_key(|c| (c.rule, c.subject));
    assert_feet(&all[0], 26.0, 8.0);
    assert_feet(&all[1], 25.0, 7.0);
    assert_feet(&all[2], 21.0, 3.0);
    assert_feet(&all[3], 21.0, 3.0);
    // Two side lines: 30 ft to the east, 40 ft to the west.
    assert_feet(&all[4], 30.0, 20.0);
    assert_feet(&all[5], 40.0, 30.0);
    // Any line at all, 50 ft: front 100, east 30, rear 26, west 40.
    let any: Vec<f64> = all[6..]
        .iter()
        .map(|c| (c.distance / FOOT).round())
        .collect();
    assert_eq!(any, [100.0, 30.0, 26.0, 40.0]);
    assert_eq!(all[6..].iter().filter(|c| c.falls_short()).count(), 3);
}

#[test]
fn features_across_a_gap_and_across_a_corner() {
    let tank = json!({ "disc": { "at": [76.0 * FOOT, 92.0 * FOOT], "radius": 2.5 * FOOT } });
    let house = json!({ "area": [
        [30.0 * FOOT, 60.0 * FOOT], [80.0 * FOOT, 60.0 * FOOT],
        [80.0 * FOOT, 94.0 * FOOT], [30.0 * FOOT, 94.0 * FOOT]] });
    let features = json!([
        { "id": "tank", "kind": "septic-tank", "shape": tank },
        { "id": "house", "kind": "house", "shape": house },
    ]);
    let to = |kind: &str| json!({ "feature": { "kind": kind } });
    let rules = json!([
        rule("waters-edge", to("septic-tank"), 15.0),
        rule("waters-edge", to("house"), 4.0),
        rule("deck-edge", to("house"), 0.0),
        rule("dig", to("house"), 1.0),
    ]);
    let site = site(&features, &rules, None);
    let mut all = measure(&site, &work(&site));
    all.sort_by_key(|c| c.rule);
    // The corner (70, 100) to the center (76, 92) is a 6-8-10 triangle; less the radius 7.5.
    let tank = &all[0];
    assert!(
        (tank.distance - 7.5 * FOOT).abs() < DRAWING_TOLERANCE,
        "{tank:?}"
    );
    assert!((tank.room + 7.5 * FOOT).abs() < DRAWING_TOLERANCE);
    assert!(
        tank.from_point
            .distance(Point::new(70.0 * FOOT, 100.0 * FOOT))
            < 1e-9
    );
    // Three fifths of the radius east, four fifths south, seen from the tank.
    let edge = Point::new((76.0 - 1.5) * FOOT, (92.0 + 2.0) * FOOT);
    assert!(tank.to_point.distance(edge) < 0.05);
    assert_feet(&all[1], 6.0, 2.0);
    assert_feet(&all[2], 1.0, 1.0);
    // The dig's edge stands at 95 ft, the house ends at 94.
    assert_feet(&all[3], 1.0, 0.0);
    assert!(!all[3].falls_short(), "exactly kept is kept");
}

#[test]
fn equipment_is_measured_for_itself() {
    // A pad of 8 x 4 ft, its length to the east, 15.5 ft of clear land to the east line.
    let pad = json!({ "at": [(100.0 - 15.5 - 4.0) * FOOT, 50.0 * FOOT], "heading": std::f64::consts::FRAC_PI_2,
                      "length": 8.0 * FOOT, "width": 4.0 * FOOT });
    let rules = json!([rule(
        "equipment",
        json!({ "lot-line": { "kind": "side" } }),
        15.0
    )]);
    let placed = site(&json!([]), &rules, Some(pad));
    let all = measure(&placed, &work(&placed));
    assert_feet(&all[0], 15.5, 0.5);
    let without = site(&json!([]), &rules, None);
    assert!(measure(&without, &work(&without)).is_empty());
}

#[test]
fn work_over_a_line_has_negative_room() {
    let rules = json!([rule("rim", json!({ "lot-line": { "kind": "rear" } }), 10.0)]);
    let site = site(&json!([]), &rules, None);
    let over = WorkFigures {
        waters_edge: rectangle(40.0, 128.0, 70.0, 142.0),
        rim: FOOT,
        ..WorkFigures::default()
    };
    // The water's edge is 2 ft over the line, the rim 3 ft: 13 ft short of 10.
    let all = measure(&site, &over);
    assert_feet(&all[0], -3.0, -13.0);
    assert_eq!(all[0].subject, Subject::Side(2));
    assert!((all[0].from_point.y - 143.0 * FOOT).abs() < 1e-9);
}

/// The band within 3 ft of a 30 x 14 ft water's edge: 3 P + 9 pi = 292.27 sq ft (worked out
/// independently), and the ring 21 in outside it: P + 2 pi 1.75 ft = 99.0 ft.
#[test]
fn bands_of_even_width_have_round_corners() {
    let water = rectangle(0.0, 0.0, 30.0, 14.0);
    let band = offset_region(&water, 3.0 * FOOT, DRAWING_TOLERANCE).area() - water.area();
    assert!((band / (FOOT * FOOT) - 292.27).abs() < 0.05, "{band}");
    let ring = offset_region(&water, 21.0 * INCH, DRAWING_TOLERANCE).perimeter();
    // Printed to a tenth; chords within 1 mm of their arcs take 2 mm off the length.
    assert!((ring / FOOT - 99.0).abs() < 0.05, "{ring}");
}
