//! Quantities, their low and high, cost, and the cautions that belong to them.

use serde_json::{Value, json};

use super::super::compare;
use super::{Analysis, Detail, analyzed, checked, document, feature, named};
use crate::finding::Caveat;
use crate::takeoff::Doubt;
use crate::units::constants::{CUBIC_FOOT, FOOT, INCH};
use crate::units::{Measure, System, show};

fn analysis(edit: impl FnOnce(&mut Value)) -> Analysis {
    let mut document = document();
    edit(&mut document);
    analyzed(&checked(&document, None), Detail::Ranges)
}

#[test]
fn a_dig_carries_its_cautions_and_no_shell_has_none() {
    let placed = analysis(|_| {});
    for check in ["spoil-back", "protective-system"] {
        assert_eq!(named(&placed, check).len(), 1, "{check}");
    }
    let bare = analysis(|d| d["placement"] = Value::Null);
    assert!(bare.takeoff.is_empty() && named(&bare, "spoil-back").is_empty());
}

/// The deepest point of the hole is the floor's depth and the base below the rim: with 5 ft
/// of shell, 4 in of base and a rim 0.1 m above the ground, 1.5256 m below it. From the edge
/// of that bottom the line rises 1 in 1 1/2 for at most 2.29 m.
#[test]
fn a_footing_is_screened_by_its_depth() {
    let wall = |y: f64, depth: Option<f64>| {
        let shape = json!({ "area": [[5, y], [25, y], [25, y + 0.3], [5, y + 0.3]] });
        analysis(|d| d["features"] = feature("house", &shape, depth))
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
            .contains("not entered")
    );
}

fn rated(rates: &[(&str, f64)]) -> Analysis {
    let rates: Vec<Value> = (rates.iter())
        .map(|(key, rate)| json!({ "key": key, "rate": rate }))
        .collect();
    analysis(|d| d["rates"] = json!(rates))
}

#[test]
fn lines_that_are_paid_are_priced_and_summed() {
    assert_eq!(analysis(|_| {}).cost, None);
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

/// A rate is kept for the unit it was typed for: a cubic yard is 0.764554857984 m3.
#[test]
fn a_rate_is_for_the_unit_it_was_typed_for() {
    let typed = |key: &str, rate: f64, per: &str| {
        analysis(|d| d["rates"] = json!([{ "key": key, "rate": rate, "per": per }]))
    };
    let yards = typed("bank-cut", 14.0, "cubic-yard");
    let cost = yards.cost.as_ref().unwrap();
    let expected = 14.0 * yards.value("bank-cut").unwrap() / 0.764_554_857_984;
    assert!((cost.total - expected).abs() < 0.006);
    assert_eq!(yards.uncounted, []);
    // One of another kind of unit counts for nothing, and that is told.
    let tons = typed("bank-cut", 14.0, "short-ton");
    assert_eq!(tons.cost, None);
    assert_eq!(named(&tons, "rate-unit")[0].pointer, "/rates/0");
    assert_eq!(tons.uncounted[0].key, "bank-cut");
}

/// Why a rate does not count is told for its line.
#[test]
fn a_rate_that_does_not_count_says_why() {
    let twice = rated(&[
        ("base-stone", 0.05),
        ("base-stone-volume", 60.0),
        ("stone", 1.0),
    ]);
    let why: Vec<(&str, usize)> = (twice.uncounted.iter())
        .map(|it| (it.key, it.index))
        .collect();
    assert_eq!(why, [("base-stone-volume", 1), ("stone", 2)]);
    assert!(
        twice.uncounted[0]
            .why
            .contains("\"Base stone\" pays for the same thing")
    );
    assert!(twice.uncounted[1].why.contains("this is a sum"));
}

#[test]
fn nothing_is_paid_twice() {
    let twice = rated(&[("base-stone", 0.05), ("base-stone-volume", 60.0)]);
    assert_eq!(twice.cost.as_ref().unwrap().lines.len(), 1);
    assert_eq!(named(&twice, "priced-twice").len(), 1);
    assert_eq!(named(&twice, "priced-twice")[0].pointer, "/rates/1");
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
    let placed = analysis(|d| {
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
        analysis(|d| d["works"] = json!({ "doubt": { "swell": 0, "over_dig": 0, "ground": 0 } }));
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
            .any(|f| f.code == "unknown-shell")
    );
}

/// A shell of 20 x 10 ft with square corners and a level floor, its rim at the ground: with
/// 4 in of base the hole is 6 ft deep.
fn level_shell() -> Value {
    let (x, y) = (10.0 * FOOT, 5.0 * FOOT);
    let outline = json!([[-x, -y], [x, -y], [x, y], [-x, y]]);
    let depth = 6.0 * FOOT - 4.0 * INCH;
    json!({ "own": { "name": "Level", "outline": outline, "coping_width": 0.2, "waterline": 0.1,
                     "floor": [{ "kind": "deep", "outline": outline, "depths": [depth, depth, depth, depth] }] } })
}

/// The level shell at the middle of the lot, and a house whose footing goes 2 ft deep so many feet
/// beyond the toe of the dig.
fn beside_house(beyond: f64) -> Analysis {
    analysis(|d| {
        d["placement"]["shell"] = level_shell();
        d["placement"]["coping_elevation"] = json!(0.0);
        let y = 20.0 + 5.0 * FOOT + 8.0 * INCH + beyond * FOOT;
        let shape = json!({ "area": [[5, y], [25, y], [25, y + 5.0], [5, y + 5.0]] });
        d["features"] = feature("house", &shape, Some(2.0 * FOOT));
    })
}

/// Plain geometry, computed independently: the bottom 6 ft below grade, the footing 2 ft below
/// it. The line rising at 1 1/2 : 1 from the toe reaches the footing's level at 6 ft, that at 1:1 at
/// 4 ft.
#[test]
fn a_footing_is_told_by_line_and_distance() {
    let said = |beyond: f64| {
        let analysis = beside_house(beyond);
        let found = named(&analysis, "dig-near-footing");
        found.first().map(|f| f.message.clone()).unwrap_or_default()
    };
    assert_eq!(said(6.05), "");
    for (beyond, line) in [
        (5.95, "rises 1 1/2 : 1"),
        (4.05, "rises 1 1/2 : 1"),
        (3.95, "rises 1:1"),
    ] {
        let message = said(beyond);
        assert!(message.contains(line), "{beyond}: {message}");
        let by = "where 4'-0\" is needed at 1:1 and 6'-0\" at 1 1/2 : 1";
        assert!(message.contains(by), "{beyond}: {message}");
        let toe = show(Measure::Length, beyond * FOOT, System::Feet).text;
        assert!(
            message.contains(&format!(", {toe} from the toe,")),
            "{message}"
        );
    }
    let lines = beside_house(3.0).influence;
    assert_eq!(lines.len(), 2);
    // Each is the foot of the sides, widened by its own run: straight sides 4 and 6 ft farther out.
    let reach = |k: usize| lines[k].region.bounds().unwrap().1.y - 20.0 - 5.0 * FOOT - 8.0 * INCH;
    assert!((reach(0) - 4.0 * FOOT).abs() < 1e-3 && (reach(1) - 6.0 * FOOT).abs() < 1e-3);
}

fn works(works: &Value) -> Analysis {
    analysis(|d| {
        d["placement"]["shell"] = level_shell();
        d["placement"]["coping_elevation"] = json!(0.0);
        d["works"] = works.clone();
    })
}

#[test]
fn soil_speaks_of_what_its_slopes_rest_on() {
    let says = |dig: Value, check: &str| {
        let analysis = works(&json!({ "dig": dig }));
        named(&analysis, check).first().map(|f| f.message.clone())
    };
    let class = |soil: &str| says(json!({ "soil": soil }), "soil-class").unwrap();
    assert!(class("a").contains("Type A") && class("a").contains("3/4:1"));
    assert!(class("b").contains("1:1") && class("c").contains("1 1/2:1"));
    assert!(class("stable-rock").contains("vertical"));
    // 1/2:1 is listed for Type A alone, for 24 hours, up to 12 ft.
    let short = |dig: Value| says(dig, "short-term");
    assert_eq!(short(json!({ "soil": "a" })), None);
    let a = short(json!({ "soil": "a", "short_term": true })).unwrap();
    assert!(a.contains("1/2:1") && a.contains("24 hours"), "{a}");
    let c = short(json!({ "soil": "c", "short_term": true })).unwrap();
    assert!(c.contains("Type A only"), "{c}");
    let layer = json!([{ "down_to": 0.5, "soil": "c" }]);
    assert!(says(json!({ "layers": layer }), "layered-soil").is_some());
    assert!(says(json!({ "upright_below": 1.2 }), "upright-foot").is_some());
    let bench = |soil: &str| {
        let dig = json!({ "soil": soil, "bench": { "depth": 0.8, "width": 0.6 } });
        says(dig, "benched-sides").unwrap()
    };
    assert!(bench("c").contains("Type C") && !bench("b").contains("Type C"));
    let side =
        json!({ "soil": "c", "sides": [{ "side": "left", "slope": 0.5, "note": "shored" }] });
    let steep = says(side, "steep-side").unwrap();
    assert!(
        steep.contains("left") && steep.contains("shored"),
        "{steep}"
    );
    let flat = json!({ "soil": "c", "sides": [{ "side": "left", "slope": 2.0 }] });
    assert_eq!(says(flat, "steep-side"), None);
}

#[test]
fn groundwater_speaks_of_the_shell_and_of_the_hole() {
    let at = |level: Value| works(&json!({ "groundwater": level }));
    let has = |analysis: &Analysis, check: &str| !named(analysis, check).is_empty();
    let unknown = at(Value::Null);
    assert!(has(&unknown, "groundwater-unknown") && has(&unknown, "shell-floats-empty"));
    assert!(!has(&unknown, "groundwater-in-dig"));
    let worst = unknown
        .takeoff
        .iter()
        .find(|l| l.key == "uplift-empty")
        .unwrap();
    assert_eq!(worst.caveats, [Caveat::UnknownGroundwater]);
    assert!(
        worst
            .working
            .assumptions
            .iter()
            .any(|a| a.contains("worst case"))
    );

    // 20 x 10 ft, groundwater 2 ft above the floor: it lifts as much as 2 ft of water weigh.
    let floor = -(6.0 * FOOT - 4.0 * INCH);
    let known = at(json!(floor + 2.0 * FOOT));
    assert!(!has(&known, "groundwater-unknown") && has(&known, "groundwater-in-dig"));
    let lift = 200.0 * 2.0 * CUBIC_FOOT * 1000.0;
    assert!((known.value("uplift-empty").unwrap() - lift).abs() < 1e-6 * lift);
    assert!((known.value("least-water").unwrap() - 2.0 * FOOT).abs() < 1e-6);
    assert_eq!(known.value("uplift-full"), Some(0.0));
    assert_eq!(known.value("draw-down-shell"), Some(floor));
    let told = &named(&known, "shell-floats-empty")[0].remedy;
    assert!(
        told.contains("2'-0\"") && told.contains("professionals"),
        "{told}"
    );
    assert!(!has(&known, "wet-soil"), "planned for Type C");
    let dry = works(&json!({ "groundwater": floor + 2.0 * FOOT, "dig": { "soil": "b" } }));
    assert!(has(&dry, "wet-soil"));

    let low = at(json!(-5.0));
    for check in [
        "shell-floats-empty",
        "groundwater-in-dig",
        "groundwater-unknown",
    ] {
        assert!(!has(&low, check), "{check}");
    }
    assert_eq!(low.value("uplift-empty"), Some(0.0));
    assert!(has(&at(json!(0.4)), "groundwater-above-rim"));
    assert!(has(&at(json!(0.0)), "shell-floats-full"));
}

/// No finding of an analysis reads as a permission.
#[test]
fn no_finding_reads_as_a_permission() {
    let mut heard = Vec::new();
    let digs = [
        json!({}),
        json!({ "soil": "stable-rock" }),
        json!({ "soil": "a", "short_term": true, "side_slope": 0.2 }),
        json!({ "soil": "b", "short_term": true, "upright_below": 1.0,
                "bench": { "depth": 0.5, "width": 0.5 } }),
        json!({ "soil": "c", "layers": [{ "down_to": 0.6, "soil": "b" }],
                "sides": [{ "side": "ahead", "slope": 0 }],
                "bench": { "depth": 0.5, "width": 0.5 } }),
    ];
    for dig in &digs {
        for (water, coping) in [(Value::Null, 0.1), (json!(-1.0), -0.4), (json!(0.5), 0.3)] {
            let mut document = document();
            let shape = json!({ "area": [[5, 22.5], [25, 22.5], [25, 27.5], [5, 27.5]] });
            document["features"] = feature("house", &shape, None);
            document["placement"]["coping_elevation"] = json!(coping);
            document["works"] = json!({ "dig": dig, "groundwater": water,
                                        "deck": { "thickness": 0.3, "width": 0.2 } });
            let rates = ["stone", "none", "base-stone", "base-stone-volume"];
            document["rates"] = rates.map(|key| json!({ "key": key, "rate": 1 })).into();
            let site = checked(&document, None);
            // Findings are the same with and without ranges.
            heard.extend(analyzed(&site, Detail::Complete).findings);
            // It says that there may be more rules than those listed.
            heard.retain(|f| f.code != "local-authority");
        }
    }
    for check in [
        "dig-near-footing",
        "short-term",
        "benched-sides",
        "wet-soil",
        "priced-twice",
    ] {
        assert!(heard.iter().any(|f| f.code == check), "{check}");
    }
    for finding in &heard {
        let text = format!("{} {}", finding.message, finding.remedy).to_lowercase();
        let words = [
            "safe",
            "allowed",
            "permitted",
            "may be",
            "you may",
            "is fine",
            "no need",
        ];
        for word in words {
            assert!(!text.contains(word), "{word}: {text}");
        }
    }
}

/// A pad of 2 m by 1 m lies flush on level ground, 0.2 m of slab and bed: 0.4 m3. A sump 0.5 m
/// deep and 0.6 m square stands in the over-dig: at least its own 0.18 m3. A trench 0.3 m wide
/// and 0.45 m deep takes 0.135 m3 from every meter.
#[test]
fn small_digs_join_the_cut() {
    let analysis = analysis(|d| {
        d["equipment"] = json!({ "at": [5, 8], "heading": 0, "length": 2, "width": 1 });
        d["works"] = json!({
            "pad": { "thickness": 0.1, "bed": 0.1 },
            "dewatering": { "sump_depth": 0.5, "sump_width": 0.6 },
            "pipe": { "trench_width": 0.3, "trench_depth": 0.45,
                      "fittings": [{ "kind": "return", "at": [3.0, 0.0], "depth": 0.4 }] },
        });
    });
    let value = |key: &str| analysis.value(key).unwrap();
    assert!((value("pad-cut") - 0.4).abs() < 1e-9);
    assert!(value("sump-cut") >= 0.18 - 1e-9);
    let trenches = analysis.small.trenches.as_ref().unwrap();
    assert!(trenches.length > 5.0);
    assert!((value("trench-cut") - trenches.area * 0.45).abs() < 1e-6);
    let parts = [
        "bank-cut",
        "grading-cut",
        "pad-cut",
        "sump-cut",
        "trench-cut",
    ];
    let sum: f64 = parts.iter().filter_map(|key| analysis.value(key)).sum();
    assert!((value("cut") - sum).abs() < 1e-9);
}

/// In a trench 0.3 m wide and 0.45 m deep, stone 0.1 m below and above pipe of 2.375 in stands
/// 0.2603 m high: 0.1897 m of it is filled again, 0.0569 m3 of every meter. A second trench, drawn
/// apart, holds no pipe and is filled whole. Every bank yard dug is used again or hauled.
#[test]
fn trenches_are_filled_again_above_their_stone() {
    let made = |drawn: Value, encasement: f64, reuse: bool| {
        analysis(|d| {
            d["equipment"] = json!({ "at": [5, 8], "heading": 0, "length": 2, "width": 1 });
            d["features"] = drawn.clone();
            d["works"] = json!({
                "spoil": { "reuse": reuse },
                "pipe": { "trench_width": 0.3, "trench_depth": 0.45, "encasement": encasement,
                          "fittings": [{ "kind": "return", "at": [3.0, 0.0], "depth": 0.4 }] },
            });
        })
    };
    let none = json!([]);
    let plain = made(none.clone(), 0.1, true);
    let value = |it: &Analysis, key: &str| it.value(key).unwrap();
    let (length, area) = (
        plain.pipes.shared_length,
        plain.small.trenches.as_ref().unwrap().area,
    );
    let by_hand = area * 0.45 - 0.3 * (0.2 + 2.375 * INCH) * length;
    assert!((value(&plain, "trench-fill") - by_hand).abs() < 1e-9);
    // The strip's square ends make it a little longer than the trench.
    assert!((by_hand / length - 0.056_9).abs() < 0.004, "{by_hand}");

    let apart = json!([{ "id": "t", "kind": "pipe-trench", "shape": { "track": [[24, 2], [28, 2]] } },
                       { "id": "u", "kind": "pipe-trench", "shape": { "track": [[24, 4], [28, 4]] } }]);
    let drawn = made(apart, 0.1, true);
    let dug = value(&drawn, "trench-cut");
    let stone = 0.3 * (0.2 + 2.375 * INCH) * drawn.pipes.shared_length;
    assert!((value(&drawn, "trench-fill") - (dug - stone)).abs() < 1e-9);

    // Stone up to the top leaves nothing but the strip's ends.
    let full = made(none.clone(), 0.3, true);
    assert!(value(&full, "trench-fill") < 0.3 * 0.45 * 0.5);

    for it in [&plain, &drawn, &full, &made(none, 0.1, false)] {
        let grading = it.grading.as_ref().unwrap();
        let fill = grading.fill() + value(it, "trench-fill");
        assert!((value(it, "fill") - fill).abs() < 1e-9);
        let bank = value(it, "fill-bank");
        let taken = value(it, "fill-from-spoil");
        assert!((value(it, "cut") - taken - value(it, "haul-bank")).abs() < 1e-9);
        // What the spoil does not give is brought in: loose again by the swell.
        let brought = it.value("fill-import").unwrap_or(0.0);
        let swell = value(it, "haul-loose") / value(it, "haul-bank").max(1e-9);
        assert!(brought == 0.0 || (brought / swell - (bank - taken)).abs() < 1e-6);
    }
    let without = analysis(|_| {});
    assert_eq!(without.value("trench-fill"), None);
}
