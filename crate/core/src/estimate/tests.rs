//! What an estimate brings: kept parts that change nothing, and cautions that speak in time.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::{Value, json};

use super::*;
use crate::math::TURN;
use crate::results;
use crate::site::Site;
use crate::takeoff::Doubt;

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

fn rated(rates: &[(&str, f64)]) -> Estimate {
    let rates: Vec<Value> = (rates.iter())
        .map(|(key, rate)| json!({ "key": key, "rate": rate }))
        .collect();
    estimate(|d| d["rates"] = json!(rates))
}

#[test]
fn lines_that_are_paid_are_priced_and_summed() {
    assert_eq!(estimate(|_| {}).cost, None);
    let priced = rated(&[("loads", 180.0), ("bank-cut", 21.5), ("water-volume", 3.0)]);
    let value = |key| priced.value(key).unwrap();
    let cost = priced.cost.as_ref().unwrap();
    let keys: Vec<&str> = cost.lines.iter().map(|l| l.key).collect();
    assert_eq!(keys, ["bank-cut", "loads", "water-volume"], "in order");
    assert_eq!(cost.lines[1].cost, 180.0 * value("loads"));
    let dig = (value("bank-cut") * 21.5 * 100.0).round() / 100.0;
    assert!((cost.lines[0].cost - dig).abs() < 0.006);
    let sum: f64 = cost.lines.iter().map(|l| l.cost).sum();
    assert!((cost.total - sum).abs() < 1e-9);
    assert_eq!(cost.groups.len(), 3);
    assert!(cost.range[0] < cost.total && cost.total < cost.range[1]);
}

#[test]
fn nothing_is_paid_twice() {
    let twice = rated(&[("base-stone", 0.05), ("base-stone-volume", 60.0)]);
    assert_eq!(twice.cost.as_ref().unwrap().lines.len(), 1);
    assert_eq!(named(&twice, "priced-twice").len(), 1);
    assert_eq!(named(&twice, "priced-twice")[0].place, "/rates/1");
    let sum = rated(&[("stone", 0.05), ("bank-cut", 10.0)]);
    assert_eq!(named(&sum, "rate-not-counted").len(), 1);
    assert_eq!(sum.cost.as_ref().unwrap().lines.len(), 1);
    let unknown = rated(&[("moonlight", 5.0)]);
    assert_eq!(named(&unknown, "rate-unused").len(), 1);
    assert_eq!(unknown.cost, None);
}

/// On level ground the hole's sides and the opening tell how much a wider over-dig and higher
/// ground take, to the first order.
#[test]
fn each_doubt_is_carried_through_the_arithmetic() {
    let placed = estimate(|d| {
        d["works"] = json!({ "dig": { "side_slope": 0.0, "swell": 1.5 },
                             "doubt": { "swell": 0.2, "over_dig": 0.05, "ground": 0.03 } });
    });
    let line = |key: &str| placed.takeoff.iter().find(|l| l.key == key).unwrap();
    let cause = |key: &str, doubt: Doubt| {
        let causes = &line(key).range.as_ref().unwrap().causes;
        *causes.iter().find(|c| c.doubt == doubt).unwrap()
    };
    let cut = line("bank-cut").value;
    let swell = cause("spoil-loose", Doubt::Swell);
    let all = line("cut").value;
    assert!((swell.less - all * 1.4).abs() < 1e-9 && (swell.more - all * 1.6).abs() < 1e-9);
    let ground = cause("bank-cut", Doubt::Ground);
    let by_area = line("dig-top-area").value * 0.03;
    assert!((ground.more - cut - by_area).abs() < 1e-6 * cut);
    assert!((cut - ground.less - by_area).abs() < 1e-6 * cut);
    assert!(line("bank-cut").range.as_ref().unwrap().causes.len() == 2);
    assert!(line("water-volume").range.is_none());
    let all = line("spoil-loose").range.as_ref().unwrap();
    assert_eq!(all.causes.len(), 3);
    assert!(all.low < swell.less && all.high > swell.more);
    let sure =
        estimate(|d| d["works"] = json!({ "doubt": { "swell": 0, "over_dig": 0, "ground": 0 } }));
    assert!(sure.takeoff.iter().all(|l| l.range.is_none()));
}

#[test]
fn another_place_and_one_that_cannot_be_stand_beside_the_present() {
    let mut document = document();
    let placed = document["placement"].clone();
    let mut lower = placed.clone();
    lower["coping_elevation"] = json!(-0.2);
    let mut unknown = placed;
    unknown["shell"] = json!({ "catalogue": "No such shell" });
    document["alternatives"] = json!([{ "name": "Lower", "placement": lower },
                                      { "name": "None", "placement": unknown }]);
    let compared = compare::compare(&checked(&document, None));
    let names: Vec<&str> = compared.columns.iter().map(|c| c.name.as_str()).collect();
    assert_eq!(names, ["Present", "Lower", "None"]);
    let row = |key: &str| compared.rows.iter().find(|r| r.key == key).unwrap();
    assert!(row("bank-cut").difference(1).unwrap() > 1.0);
    assert_eq!(row("water-volume").difference(1), Some(0.0));
    assert_eq!(row("bank-cut").difference(2), None);
    assert!(
        compared.columns[2]
            .faults
            .iter()
            .any(|f| f.check == "unknown-shell")
    );
}
