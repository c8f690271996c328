//! What a placement brings: kept parts that change nothing, and cautions that speak in time.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::{Value, json};

use super::*;
use crate::math::TURN;
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

fn results(edit: impl FnOnce(&mut Value)) -> Results {
    let mut document = document();
    edit(&mut document);
    let site = checked(&document, None);
    let mut results = Results::compute(&site, &mut Cache::default());
    results.findings.extend(results.remarks(&site));
    results
}

fn named<'a>(results: &'a Results, check: &str) -> Vec<&'a Finding> {
    let findings = results.findings.iter();
    findings.filter(|f| f.check == check).collect()
}

fn feature(kind: &str, shape: &Value, depth: Option<f64>) -> Value {
    json!([{ "id": "it", "kind": kind, "shape": shape, "facts": { "footing_depth": depth } }])
}

#[test]
fn a_cache_changes_nothing() {
    let mut document = document();
    let spots: Vec<Value> = (0..25)
        .map(|i| {
            json!([
                f64::from(i % 5) * 10.0 - 5.0,
                f64::from(i / 5) * 12.0 - 4.0,
                f64::from(i) * 0.15
            ])
        })
        .collect();
    document["ground"] = json!({ "spots": { "spots": spots } });
    let mut cache = Cache::default();
    let mut site = checked(&document, None);
    // Up the slope and down again, so that several headrooms come by twice.
    for step in [0.0, 6.0, 12.0, 6.0, 0.0, -6.0] {
        let mut next = Site::clone(site.site());
        next.placement.as_mut().unwrap().at.y = 20.0 + step;
        site = CheckedSite::check(next, Some(&site)).unwrap();
        let kept = Results::compute(&site, &mut cache);
        let fresh = Results::compute(&site, &mut Cache::default());
        assert_eq!(kept.clearances, fresh.clearances);
        assert_eq!(kept.dig, fresh.dig);
        assert_eq!(kept.findings, fresh.findings);
        assert_eq!(kept.rings, fresh.rings);
    }
}

#[test]
fn every_plan_carries_its_cautions() {
    let placed = results(|_| {});
    for check in [
        "locate-utilities",
        "planning-aid",
        "local-authority",
        "empty-shell",
        "open-water",
    ] {
        assert_eq!(named(&placed, check).len(), 1, "{check}");
    }
    let bare = results(|d| d["placement"] = Value::Null);
    for check in ["locate-utilities", "planning-aid", "local-authority"] {
        assert_eq!(named(&bare, check).len(), 1, "{check}");
    }
    assert!(bare.dig.is_none() && bare.clearances.is_empty());
}

#[test]
fn work_over_a_lot_line_is_told_part_by_part() {
    let inside = results(|_| {});
    for check in [
        "shell-beyond",
        "dig-beyond",
        "deck-beyond",
        "equipment-beyond",
    ] {
        assert!(named(&inside, check).is_empty(), "{check}");
    }
    // 1.52 m of half width, 0.3 of coping, 1.2 of deck: only deck and dig reach over at 38.
    let near = results(|d| d["placement"]["at"] = json!([15, 37.5]));
    assert!(named(&near, "shell-beyond").is_empty());
    assert_eq!(named(&near, "deck-beyond").len(), 1);
    let dig = named(&near, "dig-beyond");
    assert!((dig[0].at.unwrap()[1] - 40.0).abs() < 1e-6 && dig[0].message.contains("rear line"));
    let over = results(|d| d["placement"]["at"] = json!([15, 39.5]));
    assert_eq!(named(&over, "shell-beyond").len(), 1);
    assert_eq!(over.shortfalls(), 1);
    let pad = results(|d| {
        d["equipment"] = json!({ "at": [0.2, 5], "heading": 0, "length": 2, "width": 1 });
    });
    assert_eq!(named(&pad, "equipment-beyond").len(), 1);
}

#[test]
fn what_lies_in_the_way_of_the_dig_is_told() {
    let strip = |y: f64| json!({ "area": [[0, y], [30, y], [30, y + 1.0], [0, y + 1.0]] });
    let easement = |y: f64| results(|d| d["features"] = feature("easement", &strip(y), None));
    assert_eq!(named(&easement(20.0), "shell-beyond").len(), 1);
    assert!(named(&easement(30.0), "dig-beyond").is_empty());
    let line = |y: f64| {
        let track = json!({ "track": [[0, y], [30, y]] });
        results(|d| d["features"] = feature("buried-line", &track, None))
    };
    let told = line(20.0);
    assert_eq!(named(&told, "dig-through-line")[0].place, "/features/0");
    assert!(named(&line(30.0), "dig-through-line").is_empty());
    let tank = json!({ "disc": { "at": [15, 20], "radius": 1 } });
    let told = results(|d| d["features"] = feature("septic-tank", &tank, None));
    assert_eq!(named(&told, "dig-through-system").len(), 1);
}

#[test]
fn rules_are_looked_at_too() {
    let none = results(|d| d["rules"] = json!([]));
    assert_eq!(named(&none, "no-rules").len(), 1);
    let odd = results(|d| {
        d["rules"][0]["source"] = json!(" ");
        d["rules"][0]["to"] = json!({ "feature": { "kind": "well" } });
    });
    assert_eq!(named(&odd, "rule-source")[0].place, "/rules/0/source");
    assert!(
        named(&odd, "rule-without-target")[0]
            .message
            .contains("Rear")
    );
    let waiting = results(|d| d["rules"][0]["from"] = json!("equipment"));
    assert!(
        named(&waiting, "rule-without-work")[0]
            .message
            .contains("Rear")
    );
}

/// The shell's ring of deck ends 1.2 m outside the rim, at y = 23.02; the drawn one at y = 38.
#[test]
fn a_drawn_deck_is_measured_and_told_where_it_reaches_over() {
    let drawn = |y: f64| {
        let shape = json!({ "area": [[14, 23], [16, 23], [16, y], [14, y]] });
        results(|d| {
            d["features"] = feature("deck", &shape, None);
            d["rules"][0]["from"] = json!("deck-edge");
        })
    };
    let near = drawn(38.0);
    assert!((near.clearances[0].distance - 2.0).abs() < 1e-9);
    assert!(named(&near, "deck-beyond").is_empty());
    let over = drawn(41.0);
    assert!(over.clearances[0].room < 0.0);
    assert_eq!(named(&over, "deck-beyond").len(), 1);
}

/// A house of 10 m by 5 m; decks drawn 2 m over its wall, along it and beside it.
#[test]
fn what_is_drawn_over_a_structure_is_told() {
    let block = |x: f64, y: f64, w: f64, h: f64| json!({ "area": [[x, y], [x + w, y], [x + w, y + h], [x, y + h]] });
    let told = |kind: &str, drawn: Value, other: &str, shape: Value| {
        let results = results(|d| {
            d["features"] = json!([
                { "id": "a", "kind": other, "name": "Shed row", "shape": shape },
                { "id": "b", "kind": kind, "shape": drawn },
            ]);
        });
        let found = named(&results, "deck-over-structure");
        assert!(found.len() < 2);
        let told = found.first().map(|f| {
            assert_eq!(f.place, "/features/1");
            f.message.clone()
        });
        told.unwrap_or_default()
    };
    let house = || block(5.0, 30.0, 10.0, 5.0);
    // 3 m by 2 m of it: 64.6 sq ft.
    let over = told("deck", block(6.0, 26.0, 3.0, 6.0), "house", house());
    assert!(
        over.contains("Shed row") && over.contains("64.6 sq ft"),
        "{over}"
    );
    for kind in ["deck-opening", "deck-steps"] {
        assert_ne!(
            told(kind, block(6.0, 31.0, 1.0, 1.0), "outbuilding", house()),
            ""
        );
    }
    assert_eq!(
        told("deck", block(6.0, 26.0, 3.0, 4.0), "house", house()),
        ""
    );
    assert_eq!(
        told("deck", block(16.0, 30.0, 3.0, 4.0), "house", house()),
        ""
    );
    // What does not stand there, and what is no deck.
    assert_eq!(
        told("deck", block(6.0, 26.0, 3.0, 6.0), "walk", house()),
        ""
    );
    assert_eq!(
        told("spoil-space", block(6.0, 26.0, 3.0, 6.0), "house", house()),
        ""
    );
    // A wall told by its line is crossed over 3 m.
    let line = json!({ "track": [[2, 28], [20, 28]] });
    let wall = told("deck", block(6.0, 26.0, 3.0, 6.0), "wall", line);
    assert!(wall.contains("9'-10"), "{wall}");
}
