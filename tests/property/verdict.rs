//! The verdict against sampling: points over the hole and along the rim, looked up in lot, house,
//! easement and septic field by the crossing number, without any of the core's distances.

use batterboard_core::analysis::{Analysis, Cache, Detail, Scenario, Standing, Verdict, run};
use batterboard_core::geom::{Region, Ring};
use batterboard_core::math::{TURN, atan2, hypot};
use batterboard_core::shell::catalogue;
use batterboard_core::site::{CheckedSite, Site};
use proptest::prelude::*;
use serde_json::{Value, json};

/// A reach that sampling must find and the verdict must tell, meters: samples lie this far apart.
const SPACING: f64 = 0.2;

/// A place is inside or outside for certain where it is so far from every edge, meters: more than
/// the chord error of flattened arcs.
const CERTAIN: f64 = 0.01;

type Corners = Vec<[f64; 2]>;

/// A lot with a notch, counter-clockwise.
fn lot() -> Corners {
    vec![
        [0.0, 0.0],
        [40.0, 0.0],
        [40.0, 30.0],
        [26.0, 30.0],
        [26.0, 50.0],
        [0.0, 50.0],
    ]
}

/// The things on it: house, easement, septic field.
fn things() -> [(&'static str, Corners); 3] {
    [
        (
            "house",
            vec![
                [8.0, 4.0],
                [22.0, 4.0],
                [22.0, 12.0],
                [15.0, 12.0],
                [15.0, 15.0],
                [8.0, 15.0],
            ],
        ),
        (
            "easement",
            vec![[0.0, 46.0], [26.0, 46.0], [26.0, 50.0], [0.0, 50.0]],
        ),
        (
            "septic-field",
            vec![[29.0, 8.0], [37.0, 10.0], [36.0, 20.0], [28.0, 18.0]],
        ),
    ]
}

/// Whether a point lies in a ring: an odd number of edges crosses the ray to its east.
fn holds(ring: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    let edges = ring.iter().zip(ring.iter().cycle().skip(1));
    let crossings = edges.filter(|(a, b)| {
        (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
    });
    crossings.count() % 2 == 1
}

/// Distance of a point from the edges of a ring, meters.
fn from_edges(ring: &[[f64; 2]], [x, y]: [f64; 2]) -> f64 {
    let edges = ring.iter().zip(ring.iter().cycle().skip(1));
    let apart = edges.map(|(a, b)| {
        let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
        let square = dx * dx + dy * dy;
        let share = (((x - a[0]) * dx + (y - a[1]) * dy) / square).clamp(0.0, 1.0);
        hypot(x - a[0] - share * dx, y - a[1] - share * dy)
    });
    apart.fold(f64::INFINITY, f64::min)
}

/// Points along the boundary of a region and over its inside.
fn samples(region: &Region) -> Corners {
    let rings: Vec<Corners> = region
        .rings()
        .map(|Ring(points)| points.iter().map(|p| [p.x, p.y]).collect())
        .collect();
    let mut found = Vec::new();
    for ring in &rings {
        for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
            let steps = (hypot(b[0] - a[0], b[1] - a[1]) / SPACING).ceil().max(1.0);
            for i in 0..steps as usize {
                let share = i as f64 / steps;
                found.push([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
            }
        }
    }
    let all: Corners = rings.concat();
    let low = |k: usize| all.iter().map(|p| p[k]).fold(f64::INFINITY, f64::min);
    let high = |k: usize| all.iter().map(|p| p[k]).fold(f64::NEG_INFINITY, f64::max);
    let mut y = low(1);
    while y <= high(1) {
        let mut x = low(0);
        while x <= high(0) {
            let inside = rings.iter().filter(|ring| holds(ring, [x, y])).count();
            if inside % 2 == 1 {
                found.push([x, y]);
            }
            x += SPACING;
        }
        y += SPACING;
    }
    found
}

/// What the sampled points reach for certain: over a lot line, or into a thing by its kind.
fn reached(points: &[[f64; 2]]) -> Vec<&'static str> {
    let lot = lot();
    let over = |p: &[f64; 2]| !holds(&lot, *p) && from_edges(&lot, *p) > CERTAIN;
    let mut found = Vec::new();
    if points.iter().any(over) {
        found.push("line");
    }
    for (kind, ring) in things() {
        let into = |p: &[f64; 2]| holds(&ring, *p) && from_edges(&ring, *p) > CERTAIN;
        if points.iter().any(into) {
            found.push(kind);
        }
    }
    found
}

/// Whether no sampled point comes near to any line or thing.
fn clear(points: &[[f64; 2]]) -> bool {
    let lot = lot();
    let near = 2.0 * SPACING;
    points.iter().all(|p| {
        let things = things();
        let mut things = things.iter();
        holds(&lot, *p)
            && from_edges(&lot, *p) > near
            && things.all(|(_, ring)| !holds(ring, *p) && from_edges(ring, *p) > near)
    })
}

fn document(shell: &str, at: [f64; 2], heading: f64, slope: f64, rules: &Value) -> Value {
    let corners = lot();
    let course = |(a, b): (&[f64; 2], &[f64; 2])| {
        let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
        let bearing = atan2(dx, dy).rem_euclid(TURN);
        json!({ "kind": "side", "shape": { "line": { "bearing": bearing, "distance": hypot(dx, dy) } } })
    };
    let courses: Vec<Value> = corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(course)
        .collect();
    let features: Vec<Value> = things()
        .iter()
        .map(|(kind, area)| {
            json!({ "id": kind, "kind": kind, "shape": { "area": area },
                    "facts": { "footing_depth": null } })
        })
        .collect();
    json!({
        "format": "batterboard-site", "version": 3, "name": "test",
        "lot": { "courses": courses }, "features": features, "rules": rules,
        "placement": { "shell": { "catalogue": shell }, "at": at, "heading": heading,
                       "coping_elevation": 0.0 },
        "works": { "dig": { "side_slope": slope }, "deck": { "width": 0 },
                   "collar": { "width": 0.1 }, "spoil": { "piled": 0 } },
    })
}

fn checked(document: Value) -> CheckedSite {
    let site: Site = serde_json::from_value(document).unwrap();
    CheckedSite::check(site, None).unwrap()
}

fn analyzed(site: &CheckedSite) -> Analysis {
    run(&Scenario::of(site), Detail::Complete, &mut Cache::default())
}

/// No rules; one confirmed rule that always holds; the example of a rule to the house.
fn rules() -> impl Strategy<Value = Value> {
    let rule = |to: Value, source: &str| json!([{ "name": "rule", "from": "waters-edge", "to": to, "distance": 0, "source": source }]);
    prop_oneof![
        Just(json!([])),
        Just(rule(
            json!({ "feature": { "kind": "well" } }),
            "Zoning code 12"
        )),
        Just(rule(json!({ "lot-line": {} }), "Zoning code 12")),
        Just(rule(
            json!({ "feature": { "kind": "house" } }),
            "Example only"
        )),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    /// Wherever hole or shell reach, the verdict tells it; where they stay well clear, it does not
    /// make one up; and it holds only where a rule that somebody confirmed was measured.
    #[test]
    fn what_is_reached_is_a_conflict(
        shell in 0..catalogue::all().len(),
        x in -6.0..46.0_f64, y in -6.0..56.0_f64, heading in 0.0..TURN,
        slope in prop_oneof![Just(0.0), Just(1.0), 0.3..1.5_f64],
        rules in rules(),
    ) {
        let name = &catalogue::all()[shell].name;
        let site = checked(document(name, [x, y], heading, slope, &rules));
        let analysis = analyzed(&site);
        let verdict = Verdict::of(&site, &analysis);
        let mut points = samples(&analysis.work.dig);
        points.extend(samples(&analysis.work.waters_edge));
        let reached = reached(&points);
        if !reached.is_empty() {
            prop_assert_eq!(verdict.standing(), Standing::Conflict, "{:?}", reached);
        }
        let told = |code: &str| analysis.faults().any(|f| f.code == code);
        for (kind, code) in [
            ("line", "dig-beyond"), ("house", "dig-under-structure"),
            ("easement", "dig-beyond"), ("septic-field", "dig-through-system"),
        ] {
            if reached.contains(&kind) {
                prop_assert!(told(code), "{} {}", kind, code);
            }
        }
        if clear(&points) {
            let made_up = analysis.faults().find(|f| f.code.starts_with("dig-") || f.code.starts_with("shell-"));
            prop_assert!(made_up.is_none(), "{:?}", made_up);
        }
        if verdict.standing() == Standing::Holds {
            prop_assert!(rules[0]["source"] == "Zoning code 12" && !analysis.clearances.is_empty());
        }
    }
}
