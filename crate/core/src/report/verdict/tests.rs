//! The verdict, state by state: nothing but a lot, rules, kinds and measurements that are all
//! there makes it hold.

use serde_json::{Value, json};

use crate::analysis::tests::{analyzed, checked, document, feature};
use crate::analysis::{Detail, Standing, Verdict};
use crate::finding::{Entry, Severity, sort_by_severity};
use crate::report::VerdictFigures;
use crate::site::Site;
use crate::site::starter::blank_lot;
use crate::units::System;

/// Rules to every side of the lot, all of them confirmed, with room to spare.
fn confirmed() -> Value {
    let rule = |kind: &str| {
        json!({ "name": format!("To {kind}"), "from": "waters-edge", "distance": 3,
                "to": { "lot-line": { "kind": kind } }, "source": "Zoning code 12.3" })
    };
    json!([rule("front"), rule("side"), rule("rear")])
}

/// The verdict on the plain site with something changed.
fn judged(edit: impl FnOnce(&mut Value)) -> VerdictFigures {
    let mut document = document();
    document["rules"] = confirmed();
    edit(&mut document);
    let site = checked(&document, None);
    let analysis = analyzed(&site, Detail::Complete);
    VerdictFigures::of(&Verdict::of(&site, &analysis), System::Feet)
}

fn all_text(verdict: &VerdictFigures) -> String {
    let notes = verdict.notes.iter().map(|note| note.text.as_str());
    std::iter::once(verdict.text.as_str())
        .chain(notes)
        .collect::<Vec<_>>()
        .join(" ")
}

fn without_kinds(document: &mut Value, sides: usize) {
    let courses = document["lot"]["courses"].as_array_mut().unwrap();
    for course in courses.iter_mut().take(sides) {
        course.as_object_mut().unwrap().remove("kind");
    }
}

/// One row: what is changed, what follows, a part of the words, where it is mended.
type Row = (fn(&mut Value), Standing, &'static str, Option<Entry>);

#[test]
fn every_state_has_its_own_verdict() {
    let rows: &[Row] = &[
        (|_| {}, Standing::Holds, "Every clearance holds with", None),
        (
            |d| d["placement"] = Value::Null,
            Standing::NotPlaced,
            "No shell is placed yet",
            Some(Entry::Shell),
        ),
        (
            |d| d["rules"] = json!([]),
            Standing::Unchecked,
            "no clearance rules are entered",
            Some(Entry::Rules),
        ),
        (
            |d| without_kinds(d, 4),
            Standing::Unchecked,
            "none of the 4 sides has a kind yet",
            Some(Entry::LineKinds),
        ),
        (
            |d| without_kinds(d, 1),
            Standing::Unchecked,
            "one of 4 sides has no kind yet",
            Some(Entry::LineKinds),
        ),
        (
            |d| {
                for rule in d["rules"].as_array_mut().unwrap() {
                    rule["to"] = json!({ "feature": { "kind": "well" } });
                }
            },
            Standing::Unchecked,
            "none of the 3 rules finds anything to measure to",
            Some(Entry::Rules),
        ),
        (
            |d| {
                let tank = json!({ "disc": { "at": [5, 5], "radius": 1 } });
                d["features"] = feature("septic-tank", &tank, None);
                d["rules"] = json!([{ "name": "Tank", "from": "rim", "distance": 1,
                    "to": { "feature": { "kind": "septic-tank" } }, "source": "Health code 4" }]);
            },
            Standing::Unchecked,
            "no rule measures the shell, deck or dig to them",
            Some(Entry::Rules),
        ),
        (
            |d| {
                d["rules"].as_array_mut().unwrap().remove(0);
            },
            Standing::Reserved,
            "No rule measures to: front line (south).",
            None,
        ),
        (
            |d| {
                for rule in d["rules"].as_array_mut().unwrap() {
                    rule["source"] = json!("Example only; the zoning code governs.");
                }
            },
            Standing::Reserved,
            "by example rules not yet confirmed for this lot",
            Some(Entry::Rules),
        ),
        (
            |d| d["rules"][1]["source"] = json!(""),
            Standing::Reserved,
            "partly by example rules not yet confirmed for this lot",
            Some(Entry::Rules),
        ),
        (
            |d| {
                let pad = json!({ "name": "Pad", "from": "equipment", "distance": 1,
                    "to": { "lot-line": {} }, "source": "Zoning code 12.4" });
                d["rules"].as_array_mut().unwrap().push(pad);
            },
            Standing::Reserved,
            "One rule waits for the equipment pad.",
            None,
        ),
        (
            |d| {
                let wall = json!({ "area": [[5, 22.5], [25, 22.5], [25, 27.5], [5, 27.5]] });
                d["works"] = json!({ "dig": { "side_slope": 0.2 } });
                d["features"] = feature("house", &wall, None);
            },
            Standing::Reserved,
            "But 2 cautions stand against this placement.",
            None,
        ),
        (
            |d| {
                d["lot"]["closing_ratio"] = json!(1e6);
                d["lot"]["courses"][1]["shape"]["line"]["distance"] = json!(40.01);
            },
            Standing::Reserved,
            "The lot does not close within",
            None,
        ),
        (
            |d| d["rules"][2]["distance"] = json!(30),
            Standing::Short,
            "One clearance falls short at rear line (north) by",
            None,
        ),
        (
            |d| {
                d["rules"][2]["distance"] = json!(30);
                d["rules"][2]["source"] = json!("example only, invented");
            },
            Standing::Short,
            "by example rules not yet confirmed for this lot",
            Some(Entry::Rules),
        ),
        // A conflict leads, whatever else there is.
        (
            |d| d["placement"]["at"] = json!([15, 42]),
            Standing::Conflict,
            "The shell's rim reaches",
            None,
        ),
        (
            |d| {
                d["placement"]["at"] = json!([15, 42]);
                d["rules"] = json!([]);
            },
            Standing::Conflict,
            "over the rear line",
            None,
        ),
        (
            |d| {
                d["placement"]["at"] = json!([15, 42]);
                without_kinds(d, 4);
            },
            Standing::Conflict,
            "The shell's rim reaches",
            None,
        ),
    ];
    for (row, (edit, standing, words, entry)) in rows.iter().enumerate() {
        let verdict = judged(edit);
        assert_eq!(verdict.standing, *standing, "row {row}: {verdict:?}");
        assert!(all_text(&verdict).contains(words), "row {row}: {verdict:?}");
        assert_eq!(verdict.entry, *entry, "row {row}: {verdict:?}");
    }
}

/// A new job is a rectangle that nobody entered.
#[test]
fn the_lot_of_a_new_job_is_no_lot() {
    let placed = |edit: &dyn Fn(&mut Site)| {
        let mut document = serde_json::to_value(blank_lot()).unwrap();
        document["placement"] = json!({ "shell": { "catalogue": "Pignut" }, "at": [15, 20],
            "heading": 0, "coping_elevation": 0.1 });
        let mut site: Site = serde_json::from_value(document).unwrap();
        edit(&mut site);
        let site = crate::site::CheckedSite::check(site, None).unwrap();
        let analysis = analyzed(&site, Detail::Complete);
        VerdictFigures::of(&Verdict::of(&site, &analysis), System::Feet)
    };
    let new = placed(&|_| {});
    assert_eq!(
        (new.standing, new.entry),
        (Standing::Unchecked, Some(Entry::Lot))
    );
    assert!(new.text.contains("blank rectangle"), "{new:?}");
    let named = placed(&|site| site.name = "12 Oak Lane".into());
    assert_eq!(named.standing, Standing::Reserved);
}

/// What stands or lies in the way of shell and hole, kind by kind.
#[test]
fn what_the_work_meets_is_a_conflict_or_a_reserve() {
    let area = json!({ "area": [[13, 18], [17, 18], [17, 22], [13, 22]] });
    let track = json!({ "track": [[10, 20], [20, 20]] });
    let strip = json!({ "area": [[0, 19], [30, 19], [30, 21], [0, 21]] });
    let conflict = [
        ("house", &area),
        ("outbuilding", &area),
        ("wall", &track),
        ("easement", &strip),
        ("septic-tank", &area),
        ("septic-field", &area),
        ("well", &area),
        ("buried-line", &track),
        ("equipment", &area),
        ("watercourse", &strip),
        ("tree", &area),
    ];
    for (kind, shape) in conflict {
        let verdict = judged(|d| d["features"] = feature(kind, shape, None));
        assert_eq!(verdict.standing, Standing::Conflict, "{kind}: {verdict:?}");
    }
    for (kind, shape) in [
        ("fence", &track),
        ("driveway", &area),
        ("walk", &area),
        ("overhead-line", &track),
        ("other", &area),
    ] {
        let verdict = judged(|d| d["features"] = feature(kind, shape, None));
        assert_eq!(verdict.standing, Standing::Reserved, "{kind}: {verdict:?}");
    }
    // The crown of a tree overhangs, its trunk stands clear; the fill is on its roots.
    let crown = json!({ "disc": { "at": [15, 27], "radius": 5 } });
    let verdict = judged(|d| d["features"] = feature("tree", &crown, None));
    assert_eq!(verdict.standing, Standing::Reserved, "{verdict:?}");
    assert!(verdict.text.contains("one caution stands"), "{verdict:?}");
}

/// A deck that runs up to the house is as it should be; one over a septic field is not.
#[test]
fn a_deck_meets_the_house_and_keeps_off_the_field() {
    // The shell's rim ends at y = 21.82, the hole near 23, the deck of 3 m at 24.82.
    let made = |kind: &str| {
        let area = json!({ "area": [[10, 24.5], [20, 24.5], [20, 30], [10, 30]] });
        judged(|d| {
            d["works"] = json!({ "deck": { "width": 3.0 }, "dig": { "side_slope": 0.2 } });
            d["features"] = feature(kind, &area, Some(3.0));
        })
    };
    assert_ne!(made("house").standing, Standing::Conflict);
    let field = made("septic-field");
    assert_eq!(field.standing, Standing::Conflict);
    assert!(
        field.text.contains("deck covers part of septic field"),
        "{field:?}"
    );
}

/// A pipe may cross an easement with consent; it may not run under a house or over the line.
#[test]
fn pipe_is_judged_by_what_it_crosses() {
    let piped = |features: Value, pad: [f64; 2]| {
        judged(|d| {
            d["equipment"] = json!({ "at": pad, "heading": 0, "length": 2, "width": 1 });
            d["features"] = features;
            d["works"] = json!({ "pipe": {
                "fittings": [{ "kind": "return", "at": [3.0, 0.0], "depth": 0.4 }] } });
        })
    };
    let strip = json!({ "area": [[0, 11], [30, 11], [30, 12], [0, 12]] });
    let clear = piped(json!([]), [5.0, 8.0]);
    assert_eq!(clear.standing, Standing::Holds, "{clear:?}");
    let easement = piped(feature("easement", &strip, None), [5.0, 8.0]);
    assert_eq!(easement.standing, Standing::Reserved, "{easement:?}");
    assert!(easement.text.contains("one caution stands"), "{easement:?}");
    let house = piped(feature("house", &strip, None), [5.0, 8.0]);
    assert_eq!(house.standing, Standing::Conflict, "{house:?}");
    let out = json!({ "track": [[12, 20], [-2, 14], [5, 8]] });
    let over = piped(feature("pipe-trench", &out, None), [5.0, 8.0]);
    assert_eq!(over.standing, Standing::Conflict, "{over:?}");
    assert!(over.text.contains("trench for pipe reaches"), "{over:?}");
}

#[test]
fn spoil_stays_on_the_lot_and_off_the_septic_field() {
    let piled = |at: [f64; 2]| {
        judged(|d| {
            d["works"] = json!({ "spoil": { "at": at, "piled": 0.2 } });
            let field = json!({ "area": [[20, 2], [28, 2], [28, 10], [20, 10]] });
            d["features"] = feature("septic-field", &field, None);
        })
    };
    assert_eq!(
        piled([6.0, 7.0]).standing,
        Standing::Holds,
        "{:?}",
        piled([6.0, 7.0])
    );
    assert_eq!(piled([1.0, 7.0]).standing, Standing::Conflict);
    assert_eq!(piled([24.0, 6.0]).standing, Standing::Conflict);
}

/// Gravest first; this placement before the site, every job last.
#[test]
fn findings_come_in_the_order_people_read_them() {
    let mut document = document();
    document["placement"]["at"] = json!([15, 42]);
    let site = checked(&document, None);
    let analysis = analyzed(&site, Detail::Complete);
    let sorted = sort_by_severity(&analysis.findings);
    assert_eq!(sorted[0].code, "shell-beyond");
    let place = |code: &str| sorted.iter().position(|f| f.code == code).unwrap();
    assert!(place("dig-beyond") < place("groundwater-unknown"));
    assert!(place("groundwater-unknown") < place("planning-aid"));
    assert!(place("groundwater-unknown") < place("soil-class"));
    let keys: Vec<_> = sorted
        .iter()
        .map(|f| (std::cmp::Reverse(f.severity), f.scope))
        .collect();
    assert!(keys.is_sorted());
    assert!(sorted.iter().any(|f| f.severity == Severity::Fault));
}

/// What nobody has measured is said to be a worst case before anything else is said.
#[test]
fn a_worst_case_says_so_first() {
    let site = checked(&document(), None);
    let analysis = analyzed(&site, Detail::Complete);
    for finding in &analysis.findings {
        if finding.code.starts_with("shell-floats") {
            assert!(
                finding
                    .message
                    .starts_with("If groundwater stood at the rim"),
                "{finding:?}"
            );
            assert_eq!(finding.entry, Some(Entry::Groundwater));
        }
    }
    assert!(
        analysis
            .findings
            .iter()
            .any(|f| f.code == "shell-floats-empty")
    );
}
