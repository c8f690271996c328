//! What a placement brings: where the work reaches too far, and cautions that speak in time.

use serde_json::{Value, json};

use super::{Analysis, Detail, analyzed, checked, document, feature, named};

fn analysis(edit: impl FnOnce(&mut Value)) -> Analysis {
    let mut document = document();
    edit(&mut document);
    analyzed(&checked(&document, None), Detail::Complete)
}

#[test]
fn every_plan_carries_its_cautions() {
    let placed = analysis(|_| {});
    for check in [
        "locate-utilities",
        "planning-aid",
        "local-authority",
        "empty-shell",
        "open-water",
    ] {
        assert_eq!(named(&placed, check).len(), 1, "{check}");
    }
    let bare = analysis(|d| d["placement"] = Value::Null);
    for check in ["locate-utilities", "planning-aid", "local-authority"] {
        assert_eq!(named(&bare, check).len(), 1, "{check}");
    }
    assert!(bare.dig.is_none() && bare.clearances.is_empty());
}

#[test]
fn work_over_a_lot_line_is_told_part_by_part() {
    let inside = analysis(|_| {});
    for check in [
        "shell-beyond",
        "dig-beyond",
        "deck-beyond",
        "equipment-beyond",
    ] {
        assert!(named(&inside, check).is_empty(), "{check}");
    }
    // 1.52 m of half width, 0.3 of coping, 1.2 of deck: only deck and dig reach over at 38.
    let near = analysis(|d| d["placement"]["at"] = json!([15, 37.5]));
    assert!(named(&near, "shell-beyond").is_empty());
    assert_eq!(named(&near, "deck-beyond").len(), 1);
    let dig = named(&near, "dig-beyond");
    assert!((dig[0].at.unwrap()[1] - 40.0).abs() < 1e-6 && dig[0].message.contains("rear line"));
    let over = analysis(|d| d["placement"]["at"] = json!([15, 39.5]));
    assert_eq!(named(&over, "shell-beyond").len(), 1);
    assert_eq!(over.shortfalls(), 1);
    let pad = analysis(|d| {
        d["equipment"] = json!({ "at": [0.2, 5], "heading": 0, "length": 2, "width": 1 });
    });
    assert_eq!(named(&pad, "equipment-beyond").len(), 1);
}

#[test]
fn what_lies_in_the_way_of_the_dig_is_told() {
    let strip = |y: f64| json!({ "area": [[0, y], [30, y], [30, y + 1.0], [0, y + 1.0]] });
    let easement = |y: f64| analysis(|d| d["features"] = feature("easement", &strip(y), None));
    assert_eq!(named(&easement(20.0), "shell-beyond").len(), 1);
    assert!(named(&easement(30.0), "dig-beyond").is_empty());
    let line = |y: f64| {
        let track = json!({ "track": [[0, y], [30, y]] });
        analysis(|d| d["features"] = feature("buried-line", &track, None))
    };
    let told = line(20.0);
    assert_eq!(named(&told, "dig-through-line")[0].pointer, "/features/0");
    assert!(named(&line(30.0), "dig-through-line").is_empty());
    let tank = json!({ "disc": { "at": [15, 20], "radius": 1 } });
    let told = analysis(|d| d["features"] = feature("septic-tank", &tank, None));
    assert_eq!(named(&told, "dig-through-system").len(), 1);
}

#[test]
fn rules_are_looked_at_too() {
    let none = analysis(|d| d["rules"] = json!([]));
    assert_eq!(named(&none, "no-rules").len(), 1);
    let odd = analysis(|d| {
        d["rules"][0]["source"] = json!(" ");
        d["rules"][0]["to"] = json!({ "feature": { "kind": "well" } });
    });
    assert_eq!(named(&odd, "rule-source")[0].pointer, "/rules/0/source");
    assert!(
        named(&odd, "rule-without-target")[0]
            .message
            .contains("Rear")
    );
    let waiting = analysis(|d| d["rules"][0]["from"] = json!("equipment"));
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
        analysis(|d| {
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
        let analysis = analysis(|d| {
            d["features"] = json!([
                { "id": "a", "kind": other, "name": "Shed row", "shape": shape },
                { "id": "b", "kind": kind, "shape": drawn },
            ]);
        });
        let found = named(&analysis, "deck-over-structure");
        assert!(found.len() < 2);
        let told = found.first().map(|f| {
            assert_eq!(f.pointer, "/features/1");
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
