//! Facts speak where their number is.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::sync::Arc;

use super::*;
use crate::analysis::{Analysis, Cache, Detail, Scenario, run};
use crate::geom::Point;
use crate::site::book::{BookEntry, Day, Machine, TakenEntry};
use crate::site::{
    FeaturePart, MeasuredFrom, MeasuredTo, Opening, Placement, Rule, ShellChoice, Utility, starter,
};

/// A blank lot, 30.48 m by 42.67 m, with a shell of 20 x 10 ft lying north and south at its
/// middle and one feature.
fn analysis(kind: FeatureKind, shape: &str, edit: impl FnOnce(&mut Feature)) -> Analysis {
    with_machines(kind, shape, edit, &[])
}

/// The same of a job that took machines of these widths.
fn with_machines(
    kind: FeatureKind,
    shape: &str,
    edit: impl FnOnce(&mut Feature),
    widths: &[f64],
) -> Analysis {
    let mut feature = Feature::of("it", kind, serde_json::from_str(shape).unwrap());
    edit(&mut feature);
    let mut site = starter::blank_lot();
    site.features = Arc::new(vec![feature]);
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue("Pignut".to_owned())),
        at: Point::new(15.0, 20.0),
        heading: 0.0,
        mirrored: false,
        coping_elevation: 0.1,
    });
    let part = |part| MeasuredTo::Part { part };
    let rule = |name: &str, from, to| Rule {
        slant: false,
        only: crate::site::RuleConditions::default(),
        name: name.to_owned(),
        from,
        to,
        distance: 1.0,
        source: "test".to_owned(),
    };
    site.rules = Arc::new(vec![
        rule("trunk", MeasuredFrom::Dig, part(FeaturePart::TreeTrunk)),
        rule(
            "ring",
            MeasuredFrom::WatersEdge,
            part(FeaturePart::TreeProtection),
        ),
        rule("door", MeasuredFrom::WatersEdge, part(FeaturePart::Door)),
        rule("gate", MeasuredFrom::WatersEdge, part(FeaturePart::Gate)),
        rule(
            "kind",
            MeasuredFrom::WatersEdge,
            MeasuredTo::Feature { kind },
        ),
    ]);
    let taken = |width: &f64| TakenEntry {
        book: "Ours".to_owned(),
        edition: 1,
        on: Day::new(2026, 3, 31).unwrap(),
        entry: BookEntry::new(
            width.to_string(),
            format!("Machine {width}"),
            "",
            BookContent::Machine(Machine {
                width: *width,
                height: 2.5,
                weight: 5000.0,
            }),
        ),
    };
    site.taken = widths.iter().map(taken).collect();
    let site = CheckedSite::check(site, None).unwrap();
    run(
        &Scenario::of(&site),
        Detail::Complete,
        &mut Cache::default(),
    )
}

fn told<'a>(analysis: &'a Analysis, check: &str) -> Option<&'a Finding> {
    analysis.findings.iter().find(|f| f.code == check)
}

fn distance(analysis: &Analysis, rule: &str) -> f64 {
    analysis
        .clearances
        .iter()
        .find(|c| c.name == rule)
        .unwrap()
        .distance
}

const HOUSE: &str = r#"{"area": [[5, 2], [25, 2], [25, 8], [5, 8]]}"#;

#[test]
fn a_coping_above_the_floor_is_noted() {
    let with_floor = |floor| {
        analysis(FeatureKind::House, HOUSE, |f| {
            f.facts.finished_floor = floor
        })
    };
    let low = with_floor(Some(-0.5));
    let note = told(&low, "coping-above-floor").unwrap();
    assert_eq!(note.pointer, "/features/0");
    assert!(note.message.contains("1'-11 5/8\""), "{}", note.message);
    assert!(told(&with_floor(Some(0.1)), "coping-above-floor").is_none());
    assert!(told(&with_floor(None), "coping-above-floor").is_none());
}

#[test]
fn a_wire_overhead_always_speaks_and_a_near_one_of_the_crane() {
    let wire = |x: f64, class| {
        let shape = format!(r#"{{"track": [[{x}, 0], [{x}, 40]]}}"#);
        analysis(FeatureKind::OverheadLine, &shape, |f| {
            f.facts.line_class = class;
            f.facts.height = Some(5.0);
        })
    };
    // Half the width and the coping (10 in) put the rim 1.778 m east of the middle.
    let rim = 1.524 + 0.254;
    let edge = 15.0 + rim + CRANE_NEAR_LINE;
    let near = wire(edge - 0.01, Some(LineClass::UpTo15Kv));
    assert!(
        told(&near, "overhead-line")
            .unwrap()
            .message
            .contains("three-dimensional")
    );
    assert!(
        told(&near, "overhead-line")
            .unwrap()
            .message
            .contains("above the rim")
    );
    assert!(told(&near, "crane-near-line").is_some());
    let far = wire(edge + 0.01, Some(LineClass::UpTo15Kv));
    assert!(told(&far, "overhead-line").is_some());
    assert!(told(&far, "crane-near-line").is_none());
    assert!(told(&wire(16.0, None), "crane-near-line").is_some());
    assert!(
        told(
            &wire(16.0, Some(LineClass::Communication)),
            "crane-near-line"
        )
        .is_none()
    );
    let service = wire(25.0, Some(LineClass::Service));
    let message = &told(&service, "overhead-line").unwrap().message;
    assert!(
        message.contains("22'-6\"") && message.contains("not the edition"),
        "{message}"
    );
}

#[test]
fn a_line_nobody_marked_is_cautioned_of() {
    let line = |known_from, utility| {
        analysis(
            FeatureKind::BuriedLine,
            r#"{"track": [[2, 0], [2, 40]]}"#,
            |f| {
                f.facts.known_from = known_from;
                f.facts.utility = utility;
                f.facts.depth = Some(0.9);
            },
        )
    };
    for from in [None, Some(KnownFrom::Drawing), Some(KnownFrom::Memory)] {
        let drawn = line(from, Some(Utility::Gas));
        let caution = told(&drawn, "line-not-marked").unwrap();
        assert!(caution.message.contains("Positions on paper are not marks"));
        assert!(caution.remedy.contains("utility-locating service"));
        assert!(told(&drawn, "private-lines").is_none());
    }
    let marked = line(Some(KnownFrom::Marked), Some(Utility::Reclaimed));
    assert!(told(&marked, "line-not-marked").is_none());
    assert!(
        told(&marked, "private-lines")
            .unwrap()
            .message
            .contains("common practice")
    );
}

#[test]
fn a_hidden_thing_is_measured_as_ever_and_told_of() {
    let wire = |hidden| {
        analysis(
            FeatureKind::OverheadLine,
            r#"{"track": [[12, 0], [12, 40]]}"#,
            |f| {
                f.hidden = hidden;
            },
        )
    };
    let (seen, hidden) = (wire(false), wire(true));
    assert_eq!(seen.clearances, hidden.clearances);
    assert!(!hidden.clearances.is_empty());
    assert!(told(&hidden, "crane-near-line").is_some());
    assert!(
        told(&hidden, "hidden-on-plan")
            .unwrap()
            .message
            .contains("overhead line")
    );
    assert!(told(&seen, "hidden-on-plan").is_none());
}

#[test]
fn the_narrowest_gate_is_set_against_the_shell() {
    let fence = |widths: &[f64]| {
        analysis(
            FeatureKind::Fence,
            r#"{"track": [[0, 35], [30, 35]]}"#,
            |f| {
                f.facts.openings = widths
                    .iter()
                    .zip([5.0, 15.0])
                    .map(|(width, x)| Opening {
                        at: Point::new(x, 35.0),
                        width: *width,
                        name: String::new(),
                        window: false,
                    })
                    .collect();
            },
        )
    };
    let narrow = fence(&[1.0668, 4.0]);
    let note = told(&narrow, "gate-narrower-than-shell").unwrap();
    assert!(
        note.message.contains("3'-6\"") && note.message.contains("11'-8\""),
        "{note:?}"
    );
    assert!(told(&fence(&[4.0, 5.0]), "gate-narrower-than-shell").is_none());
    // A clearance to each gate: the nearer one spans 13 to 17 m east, straight north.
    let gates = narrow.clearances.iter().filter(|c| c.name == "gate");
    assert_eq!(gates.count(), 2);
    assert!((distance(&narrow, "gate") - (35.0 - 20.0 - 3.048)).abs() < 1e-9);
}

#[test]
fn a_machine_that_a_gate_does_not_let_through_is_told() {
    let gate = |f: &mut Feature| {
        f.facts.openings = vec![Opening {
            at: Point::new(5.0, 35.0),
            width: 1.5,
            name: "side gate".to_owned(),
            window: false,
        }];
    };
    let track = r#"{"track": [[0, 35], [30, 35]]}"#;
    let analysis = with_machines(FeatureKind::Fence, track, gate, &[1.4, 1.8]);
    let code = "gate-narrower-than-machine";
    let notes = analysis.findings.iter().filter(|f| f.code == code);
    let notes: Vec<_> = notes.map(|f| f.message.as_str()).collect();
    assert_eq!(
        notes,
        ["The narrowest gate (side gate) is 4'-11 1/16\" wide; Machine 1.8 is 5'-10 7/8\" wide."]
    );
}

#[test]
fn a_tree_is_measured_by_trunk_and_by_ring() {
    let tree = analysis(
        FeatureKind::Tree,
        r#"{"disc": {"at": [24, 20], "radius": 4}}"#,
        |f| {
            f.facts.trunk = Some(0.5);
            f.facts.protection = Some(6.0);
        },
    );
    let crown = distance(&tree, "kind");
    assert!((crown - (9.0 - 1.524 - 4.0)).abs() < 2e-3, "{crown}");
    assert!((distance(&tree, "ring") - (crown - 2.0)).abs() < 2e-3);
    let dig = distance(&tree, "trunk");
    assert!(dig > crown - 4.0 && dig < crown + 4.0 - 0.25, "{dig}");
}

#[test]
fn a_door_is_measured_where_it_is() {
    let house = analysis(FeatureKind::House, HOUSE, |f| {
        f.facts.openings = vec![Opening {
            at: Point::new(6.0, 8.0),
            width: 1.0,
            name: "kitchen".to_owned(),
            window: false,
        }];
    });
    let door = house.clearances.iter().find(|c| c.name == "door").unwrap();
    assert_eq!(door.target, "kitchen");
    let (across, up) = (15.0 - 1.524 - 6.5, 20.0 - 3.048 - 8.0f64);
    // The shell's corners are round: farther than its box, not as far as the wall beside it.
    assert!(door.distance >= (across * across + up * up).sqrt() - 1e-9);
    assert!(distance(&house, "kind") < door.distance);
}
