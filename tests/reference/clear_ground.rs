//! Clear ground whose area can be worked out with a pencil.

use batterboard_core::clear_ground::{Bounds, Cause, Cure, nothing_left_words};
use batterboard_core::clearance::WorkFigures;
use batterboard_core::exchange::open;
use batterboard_core::geom::{Point, Pose, Region, Ring};
use batterboard_core::math::{self, TURN};
use batterboard_core::site::{CheckedSite, Placement, ShellChoice};
use batterboard_core::units::constants::FOOT;
use serde_json::{Value, json};

/// An upright lot `width` by `depth` feet, its south-west corner at the origin.
fn lot(width: f64, depth: f64, features: &Value, rules: &Value) -> CheckedSite {
    let course = |kind: &str, quarters: f64, feet: f64| {
        json!({ "kind": kind, "shape": { "line": {
            "bearing": quarters * TURN / 4.0, "distance": feet * FOOT } } })
    };
    let document = json!({ "format": "batterboard-site", "version": 3, "name": "pencil",
        "lot": { "courses": [
            course("front", 1.0, width), course("side", 0.0, depth),
            course("rear", 3.0, width), course("side", 2.0, depth),
        ] },
        "works": { "collar": { "width": 0.0 }, "deck": { "width": 0.0 } },
        "features": features, "rules": rules });
    open(&document.to_string()).unwrap().site
}

/// A plain rectangle of water, its middle at the shell frame's origin, feet.
fn work(length: f64, width: f64) -> WorkFigures {
    let (x, y) = (length / 2.0 * FOOT, width / 2.0 * FOOT);
    let ring = [(-x, -y), (x, -y), (x, y), (-x, y)];
    let water = Region::from_ring(Ring(ring.map(|(x, y)| Point::new(x, y)).to_vec()));
    let pose = Pose::new(Point::default(), 0.0, false);
    WorkFigures {
        waters_edge: water.posed(&pose),
        ..WorkFigures::default()
    }
}

fn area(site: &CheckedSite, work: &WorkFigures, degrees: f64) -> f64 {
    let bounds = Bounds::of(site, work, &Pose::new(Point::default(), 0.0, false)).unwrap();
    bounds.region(degrees * TURN / 360.0, false).area() / (FOOT * FOOT)
}

/// A rectangle c by d turned by t in one of A by B leaves (A - w)(B - k), w = c|cos t| + d|sin t| and
/// k = c|sin t| + d|cos t|: 30 by 14 in 100 by 60 (plane geometry; worked out independently).
#[test]
fn a_turned_rectangle_in_a_rectangle() {
    let site = lot(100.0, 60.0, &json!([]), &json!([]));
    let work = work(30.0, 14.0);
    // Length along the lot's 100 ft is a heading of 90 degrees.
    for (turned, expected) in [
        (0.0, 3220.0),
        (30.0, 2203.3006),
        (45.0, 1989.9683),
        (90.0, 2580.0),
    ] {
        let found = area(&site, &work, 90.0 + turned);
        assert!((found - expected).abs() < 1e-3, "{turned}: {found}");
    }
    let narrow = lot(100.0, 13.0, &json!([]), &json!([]));
    assert_eq!(area(&narrow, &work, 90.0), 0.0);
}

/// Adding a rectangle of 10 by 4 to one of 30 by 14, turned by 30 degrees (mixed area, worked out
/// independently): what a shell of the first kind may not cover of places round a pad of the second.
#[test]
fn a_pad_takes_the_sum_of_two_rectangles() {
    // 10 by 4 ft, its length at a bearing of 60 degrees, in the middle of the lot.
    let corner = |along: f64, across: f64| {
        let axis = batterboard_core::geom::Vector::along_bearing(60.0 * TURN / 360.0);
        let at = Point::new(100.0 * FOOT, 80.0 * FOOT)
            + axis * (along * FOOT)
            + axis.left() * (across * FOOT);
        [at.x, at.y]
    };
    let pad = [
        corner(-5.0, -2.0),
        corner(5.0, -2.0),
        corner(5.0, 2.0),
        corner(-5.0, 2.0),
    ];
    let features = json!([{ "id": "p", "kind": "equipment", "shape": { "area": pad } }]);
    let rules = json!([{ "name": "r", "from": "waters-edge", "distance": 0.0, "source": "test",
        "to": { "feature": { "kind": "equipment" } } }]);
    let site = lot(200.0, 160.0, &features, &rules);
    let found = 170.0 * 146.0 - area(&site, &work(30.0, 14.0), 90.0);
    assert!((found - 863.1666).abs() < 1e-3, "{found}");
}

/// Setbacks take so much off each side; a post leaves out the rectangle widened with round corners.
#[test]
fn setbacks_and_a_post() {
    let rule = |to: Value, feet: f64| json!({ "name": "r", "from": "waters-edge", "to": to, "distance": feet * FOOT, "source": "test" });
    let rules = json!([
        rule(json!({ "lot-line": { "kind": "front" } }), 25.0),
        rule(json!({ "lot-line": { "kind": "side" } }), 10.0),
        rule(json!({ "lot-line": { "kind": "rear" } }), 5.0),
    ]);
    let site = lot(200.0, 160.0, &json!([]), &rules);
    let shell = work(30.0, 14.0);
    // 200 - 2*10 - 30 by 160 - 25 - 5 - 14.
    let found = area(&site, &shell, 90.0);
    assert!((found - 150.0 * 116.0).abs() < 1e-3, "{found}");

    let post = json!([{ "id": "w", "kind": "well", "shape":
        { "disc": { "at": [100.0 * FOOT, 80.0 * FOOT], "radius": 0.5 * FOOT } } }]);
    let rules = json!([rule(json!({ "feature": { "kind": "well" } }), 20.0)]);
    let site = lot(200.0, 160.0, &post, &rules);
    // All places less the rectangle widened by 20.5 ft: A + P r + pi r^2 (Steiner).
    let r: f64 = 20.5;
    let expected = 170.0 * 146.0 - (30.0 * 14.0 + 88.0 * r + std::f64::consts::PI * r * r);
    let found = area(&site, &shell, 90.0);
    // The chords of the widened corners and of the post lie inside: at most 1 mm each, round them.
    let slack = 2.0 * 0.001 / FOOT * (88.0 + 2.0 * std::f64::consts::PI * r);
    assert!(
        (0.0..slack).contains(&(found - expected)),
        "{found} {expected}"
    );
}

/// Where the middle of 30 by 14 ft of water along the lot's width would stand 3 ft from a side that asks for 10,
/// the least move is 7 ft straight away from it, and the rule would have to ask for 7 ft less.
#[test]
fn the_least_move_is_what_is_short() {
    let rule = |name: &str, kind: &str, feet: f64| {
        json!({ "name": name, "from": "waters-edge", "to": { "lot-line": { "kind": kind } },
            "distance": feet * FOOT, "source": "test" })
    };
    let rules = json!([
        rule("side", "side", 10.0),
        rule("front", "front", 5.0),
        rule("rear", "rear", 5.0)
    ]);
    let site = lot(200.0, 160.0, &json!([]), &rules);
    let shell = work(30.0, 14.0);
    let placement = |east: f64, north: f64| Placement {
        shell: ShellChoice::Catalogue(String::new()).into(),
        at: Point::new(east * FOOT, north * FOOT),
        heading: TURN / 4.0,
        mirrored: false,
        coping_elevation: 0.0,
    };
    let bounds = Bounds::of(&site, &shell, &Pose::new(Point::default(), 0.0, false)).unwrap();
    assert_eq!(bounds.cures(&placement(100.0, 80.0)), Default::default());

    // The east end of the water at 197 ft.
    let cures = bounds.cures(&placement(182.0, 80.0));
    assert_eq!(cures.short.len(), 1);
    assert!((cures.short[0].room + 7.0 * FOOT).abs() < 1e-6);
    let moved = cures.cures.iter().find_map(|it| match it {
        Cure::Move { to } => Some(*to),
        _ => None,
    });
    let moved = moved.unwrap();
    assert!(
        moved.distance(Point::new(175.0 * FOOT, 80.0 * FOOT)) < 1e-4,
        "{moved:?}"
    );
    // Turned up the lot, half its width and the distance fit into the 18 ft to the line: less than a quarter turn.
    let turned = cures.cures.iter().find_map(|it| match it {
        Cure::Turn { heading } => Some(*heading),
        _ => None,
    });
    let by = (turned.unwrap() - TURN / 4.0).abs();
    // 15 cos t + 7 sin t <= 8 ft at the corner: t = 86.1 degrees and on.
    let limit = math::acos(8.0 / math::hypot(15.0, 7.0)) + math::atan(7.0 / 15.0);
    assert!((by - limit).abs() < 0.1 * TURN / 360.0, "{by} {limit}");
    let less = cures
        .cures
        .iter()
        .any(|it| matches!(it, Cure::LesserRule { rule: 0, by } if (by - 7.0 * FOOT).abs() < 1e-6));
    assert!(less, "{:?}", cures.cures);
}

/// 80 ft from the front and 70 ft from the rear leave 10 ft of 160 for 14 ft of water: these two and no other rule.
#[test]
fn two_rules_that_leave_nothing_are_named() {
    let rule = |name: &str, kind: &str, feet: f64| {
        json!({ "name": name, "from": "waters-edge", "to": { "lot-line": { "kind": kind } },
            "distance": feet * FOOT, "source": "test" })
    };
    let rules = json!([
        rule("front", "front", 80.0),
        rule("side", "side", 10.0),
        rule("rear", "rear", 70.0)
    ]);
    let site = lot(200.0, 160.0, &json!([]), &rules);
    let bounds = Bounds::of(
        &site,
        &work(30.0, 14.0),
        &Pose::new(Point::default(), 0.0, false),
    )
    .unwrap();
    let named = bounds.what_leaves_nothing(TURN / 4.0, false);
    let rules: Vec<usize> = named
        .iter()
        .filter_map(|it| match it {
            Cause::Rule(rule, _) => Some(*rule),
            _ => None,
        })
        .collect();
    assert_eq!(rules, [0, 2], "{named:?}");
    let words = nothing_left_words(&site, &named);
    assert!(
        words.contains("front") && words.contains("rear") && !words.contains("side ("),
        "{words}"
    );
}
