//! Runs worked out by hand, on a level lot.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::{Value, json};

use super::*;
use crate::math::{TURN, powf};
use crate::site::Site;
use crate::units::constants::{FOOT, GALLON, INCH};

/// A level lot of 30 x 40 m at elevation 0 with a plain shell of 8 x 4 m, 1.5 m deep, its length
/// to the east, its middle at (15, 20), its rim 0.1 m up; a pad 2 x 1 m whose near edge is 3 m
/// beyond the shell's deep end.
fn document() -> Value {
    let course = |kind: &str, quarters: f64, length: f64| {
        json!({ "kind": kind,
                "shape": { "line": { "bearing": quarters * TURN / 4.0, "distance": length } } })
    };
    let square = json!([[-4, -2], [4, -2], [4, 2], [-4, 2]]);
    let shell = json!({ "name": "Plain", "outline": square, "coping_width": 0.25,
        "waterline": 0.15,
        "floor": [{ "kind": "deep", "outline": square, "depths": [1.5, 1.5, 1.5, 1.5] }] });
    json!({
        "format": "batterboard-site", "version": 3, "name": "test",
        "lot": { "courses": [
            course("front", 1.0, 30.0), course("side", 0.0, 40.0),
            course("rear", 3.0, 30.0), course("side", 2.0, 40.0),
        ] },
        "placement": { "shell": { "own": shell }, "at": [15, 20],
                       "heading": TURN / 4.0, "coping_elevation": 0.1 },
        "equipment": { "at": [23, 20], "heading": TURN / 4.0, "length": 2, "width": 1 },
        "works": { "pipe": { "off_wall": 0.1, "encasement": 0.1, "strap_spacing": 1.2,
            "fittings": [
                { "kind": "return", "at": [-1, 2.3], "depth": 0.6 },
                { "kind": "skimmer", "at": [-4, 0.5], "depth": 0.3 },
                { "kind": "drain", "at": [2, 0], "depth": 0 },
            ] } },
    })
}

/// The plan with a hole that opens 1 m outside the shell all round.
fn plan(edit: impl FnOnce(&mut Value)) -> PipePlan {
    let mut document = document();
    edit(&mut document);
    let site: Site = serde_json::from_value(document).unwrap();
    let site = CheckedSite::check(site, None).unwrap();
    let (shell, placement) = site.placed_shell().unwrap();
    let around = Around::new(shell, &site.site().works);
    let pose = placement.pose();
    let hole = crate::geom::offset::offset_region(&shell.footprint, 1.0, 1e-4).posed(&pose);
    PipePlan::new(&site, shell, placement, &around, &hole)
}

fn told(plan: &PipePlan, check: &str) -> usize {
    plan.findings.iter().filter(|f| f.code == check).count()
}

fn near(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b}");
}

#[test]
fn a_return_goes_round_the_shell_by_the_shorter_way() {
    let plan = plan(|_| {});
    let names: Vec<&str> = plan.runs.iter().map(|run| run.label.as_str()).collect();
    assert_eq!(names, ["R1", "S1", "D1"]);
    let back = &plan.runs[0];
    // From (-1, 2) out 0.1 m, 5 m along, round the corner, 2 m down to the middle of the pad.
    near(back.around, 0.1 + 5.0 + TURN / 4.0 * 0.1 + 2.0, 2e-3);
    near(back.in_fill, 0.9, 2e-3);
    near(back.in_trench, 3.0 - 1.0, 2e-3);
    assert_eq!(back.under_floor, 0.0);
    // 7.257 m in parts of at most 1.2 m.
    assert_eq!(back.straps.len(), 7);
    // The pipe's middle lies 18 in less 0.1 m less half of 2.375 in below the ground.
    let below = 18.0 * INCH - 0.1 - 2.375 * INCH / 2.0;
    near(back.risers, (0.6 - (0.1 + below)).abs() + below, 1e-9);
    // Out of the wall and along, the corner, away from the wall; two at the climb, one at the pad.
    assert_eq!(back.bends, 6);
    near(back.length(), length(&back.path) + back.risers, 1e-6);
}

#[test]
fn a_drain_goes_straight_under_the_floor() {
    let plan = plan(|_| {});
    let drain = &plan.runs[2];
    assert_eq!(drain.around, 0.0);
    assert!(drain.straps.is_empty());
    near(drain.under_floor, 2.1, 0.01);
    near(drain.in_trench, 2.0, 2e-3);
}

#[test]
fn the_shells_own_drain_counts_once() {
    let own = |d: &mut Value, at: Value| d["placement"]["shell"]["own"]["drain"] = at;
    assert_eq!(plan(|d| own(d, json!([2.02, 0]))).runs.len(), 3);
    let two = plan(|d| own(d, json!([0, 0])));
    assert_eq!(two.runs.len(), 4);
    assert_eq!(two.runs[3].label, "D2");
    assert_eq!(two.runs[3].fitting, None);
}

#[test]
fn loss_counts_bends_as_pipe_and_speed_is_flow_over_area() {
    let plan = plan(|_| {});
    let run = &plan.runs[0];
    let equal = run.length() + f64::from(run.bends) * 5.0 * FOOT;
    let by_hand = 10.44 * equal * powf(50.0, 1.852) / (powf(150.0, 1.852) * powf(2.067, 4.8704));
    near(run.loss, by_hand, 1e-9);
    let area = core::f64::consts::PI / 4.0 * (2.067 * INCH) * (2.067 * INCH);
    near(run.speed, 50.0 * GALLON / 60.0 / area, 1e-9);
    assert_eq!(told(&plan, "fast-suction"), 0);
    let fast = super::tests::plan(|d| d["works"]["pipe"]["flow"] = json!(70.0 * GALLON / 60.0));
    assert_eq!(
        (told(&fast, "fast-suction"), told(&fast, "fast-return")),
        (1, 0)
    );
    let faster = super::tests::plan(|d| d["works"]["pipe"]["flow"] = json!(90.0 * GALLON / 60.0));
    assert_eq!(
        (told(&faster, "fast-suction"), told(&faster, "fast-return")),
        (1, 1)
    );
}

#[test]
fn a_drawn_trench_is_followed_whichever_way_it_was_drawn() {
    let trench = |points: Value| {
        plan(move |d| {
            d["features"] =
                json!([{ "id": "t", "kind": "pipe-trench", "shape": { "track": points } }]);
        })
    };
    let forth = trench(json!([[15, 23.2], [15, 26], [23, 26], [23, 20.6]]));
    let back = trench(json!([[23, 20.6], [23, 26], [15, 26], [15, 23.2]]));
    for plan in [&forth, &back] {
        // From the wall's line at y = 22.1 up to 26, 8 m along and 5.4 m down, 0.1 m to the pad.
        let run = &plan.runs[0];
        near(run.in_fill + run.in_trench, 3.9 + 8.0 + 5.5, 2e-3);
        near(run.in_fill, 0.9, 2e-3);
        assert_eq!(plan.trenches.len(), 1);
        near(plan.shared_length, run.in_trench, 1e-9);
        assert_eq!(told(plan, "trench-apart"), 0);
    }
    let short = trench(json!([[15, 27], [23, 27]]));
    assert_eq!(told(&short, "trench-apart"), 1);
}

#[test]
fn what_is_missing_is_said() {
    let none = plan(|d| d["works"]["pipe"]["fittings"] = json!([]));
    assert!(none.runs.is_empty() && none.trenches.is_empty());
    assert_eq!((told(&none, "no-fittings"), told(&none, "no-pad")), (1, 0));
    // The way to the pad is dug for nothing but a drawn trench.
    let no_pad = plan(|d| d["equipment"] = Value::Null);
    assert!(no_pad.runs.is_empty() && no_pad.trenches.is_empty());
    assert_eq!(told(&no_pad, "no-pad"), 1);
    let only = |kind: &str| {
        let kind = kind.to_owned();
        plan(move |d| {
            d["works"]["pipe"]["fittings"] = json!([{ "kind": kind, "at": [2, 0], "depth": 0.5 }]);
        })
    };
    let drain = only("drain");
    assert_eq!(
        (told(&drain, "lone-drain"), told(&drain, "no-return")),
        (1, 1)
    );
    let back = only("return");
    assert_eq!(
        (told(&back, "lone-drain"), told(&back, "no-suction")),
        (0, 1)
    );
    assert_eq!(told(&only("skimmer"), "lone-drain"), 0);
    assert_eq!(told(&plan(|_| {}), "lone-drain"), 0);
}

#[test]
fn what_stands_in_the_way_is_told() {
    let meets = |kind: &str, shape: Value| {
        let kind = kind.to_owned();
        plan(move |d| d["features"] = json!([{ "id": "x", "kind": kind, "shape": shape }]))
    };
    let block = json!({ "area": [[20.5, 19], [21, 19], [21, 22], [20.5, 22]] });
    assert_eq!(
        told(&meets("septic-tank", block.clone()), "trench-through"),
        1
    );
    assert_eq!(told(&meets("walk", block), "trench-through"), 0);
    let line = json!({ "track": [[21, 10], [21, 30]] });
    assert_eq!(told(&meets("buried-line", line), "trench-over-line"), 1);
    let deep = plan(|d| d["works"]["pipe"]["fittings"][0]["depth"] = json!(1.6));
    assert_eq!(told(&deep, "fitting-below-floor"), 1);
}

#[test]
fn the_dewatering_pipe_stands_beside_the_deepest_floor() {
    use crate::dig::DigShape;
    let site: Site = serde_json::from_value(document()).unwrap();
    let site = CheckedSite::check(site, None).unwrap();
    let (shell, _) = site.placed_shell().unwrap();
    let made = |works: &crate::site::ConstructionSettings| {
        let shape = DigShape::new(shell, &works.dig, 0.0);
        Dewatering::new(shell, works, &shape)
    };
    let mut works = crate::site::ConstructionSettings::clone(&site.site().works);
    let pipe = made(&works);
    near(pipe.length, 1.5 + 4.0 * INCH, 1e-6);
    near(pipe.at.x, 4.0 + 4.0 * INCH, 1e-3);
    near(pipe.at.y, 0.0, 1e-3);
    assert!(pipe.findings.is_empty());
    works.dewatering.sump_depth = 0.3;
    works.dewatering.above_rim = 0.1;
    near(made(&works).length, 1.5 + 4.0 * INCH + 0.4, 1e-6);
    let said = |at: [f64; 2]| {
        let mut works = works.clone();
        works.dewatering.at = Some(Point::from(at));
        made(&works)
            .findings
            .iter()
            .map(|f| f.code)
            .collect::<Vec<_>>()
    };
    assert_eq!(said([0.0, 0.0]), ["pipe-in-shell"]);
    assert_eq!(said([0.0, 2.1]), [""; 0]);
    assert_eq!(said([0.0, 3.0]), ["pipe-not-deepest"]);
    works.dewatering.diameter = 12.0 * INCH;
    assert_eq!(made(&works).findings[0].code, "pipe-wider-than-over-dig");
}
