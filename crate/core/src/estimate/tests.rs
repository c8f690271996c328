//! What an estimate brings: kept parts that change nothing, and cautions that speak in time.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::{Value, json};

use super::*;
use crate::math::TURN;
use crate::results;
use crate::site::Site;

/// A level lot of 30 x 40 m with a shell of 20 x 10 ft lying east and west at its middle.
fn document() -> Value {
    let course = |kind: &str, quarters: f64, length: f64| {
        json!({ "kind": kind,
                "shape": { "line": { "bearing": quarters * TURN / 4.0, "distance": length } } })
    };
    json!({
        "format": "batterboard-site", "version": 3, "name": "test",
        "lot": { "courses": [
            course("front", 1.0, 30.0), course("side", 0.0, 40.0),
            course("rear", 3.0, 30.0), course("side", 2.0, 40.0),
        ] },
        "placement": { "shell": { "catalogue": "Pignut" }, "at": [15, 20],
                       "heading": TURN / 4.0, "coping_elevation": 0.1 },
        "rules": [{ "name": "Rear", "from": "rim", "to": { "lot-line": { "kind": "rear" } },
                    "distance": 3, "source": "test" }],
    })
}

fn checked(document: &Value, previous: Option<&CheckedSite>) -> CheckedSite {
    let site: Site = serde_json::from_value(document.clone()).unwrap();
    CheckedSite::check(site, previous).unwrap()
}

fn estimated(site: &CheckedSite, cache: &mut Cache) -> Estimate {
    let results = Results::compute(site, &mut results::Cache::default());
    Estimate::of(site, &results, cache)
}

fn estimate(edit: impl FnOnce(&mut Value)) -> Estimate {
    let mut document = document();
    edit(&mut document);
    estimated(&checked(&document, None), &mut Cache::default())
}

fn named<'a>(estimate: &'a Estimate, check: &str) -> Vec<&'a Finding> {
    let findings = estimate.findings.iter();
    findings.filter(|f| f.check == check).collect()
}

fn feature(kind: &str, shape: &Value, depth: Option<f64>) -> Value {
    json!([{ "id": "it", "kind": kind, "shape": shape, "facts": { "footing_depth": depth } }])
}

#[test]
fn a_cache_changes_nothing() {
    let mut cache = Cache::default();
    let mut site = checked(&document(), None);
    for step in [0.0, 6.0, 12.0, 6.0, 0.0, -6.0] {
        let mut next = Site::clone(site.site());
        next.placement.as_mut().unwrap().at.y = 20.0 + step;
        site = CheckedSite::check(next, Some(&site)).unwrap();
        assert_eq!(
            estimated(&site, &mut cache),
            estimated(&site, &mut Cache::default())
        );
    }
}

#[test]
fn a_dig_carries_its_cautions_and_no_shell_has_none() {
    let placed = estimate(|_| {});
    for check in ["spoil-back", "protective-system"] {
        assert_eq!(named(&placed, check).len(), 1, "{check}");
    }
    assert_eq!(
        estimate(|d| d["placement"] = Value::Null),
        Estimate::default()
    );
}

/// The deepest point of the hole is the floor's depth and the base below the rim: with 5 ft
/// of shell, 4 in of base and a rim 0.1 m above the ground, 1.5256 m below it. From the edge
/// of that bottom the line rises 1 in 1 1/2 for at most 2.29 m.
#[test]
fn a_footing_is_screened_by_its_depth() {
    let wall = |y: f64, depth: Option<f64>| {
        let shape = json!({ "area": [[5, y], [25, y], [25, y + 0.3], [5, y + 0.3]] });
        estimate(|d| d["features"] = feature("house", &shape, depth))
    };
    let flagged = |y, depth| !named(&wall(y, depth), "dig-near-footing").is_empty();
    // Half the width, the over-dig and the wall put the bottom's edge near y = 21.75.
    assert!(flagged(22.5, None));
    assert!(!flagged(24.5, None), "beyond the line");
    assert!(
        !flagged(22.5, Some(1.6)),
        "the footing goes deeper than the hole"
    );
    assert!(flagged(22.0, Some(0.6)));
    let unknown = wall(22.5, None);
    assert!(
        named(&unknown, "dig-near-footing")[0]
            .message
            .contains("not known")
    );
}
