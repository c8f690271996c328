//! The command as scripts use it: exit codes, output, and what it says of broken files.

use std::path::PathBuf;
use std::process::Output;

use serde_json::{Value, json};

use crate::run::batterboard;

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn demo_path(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("../../demo-sites")
        .join(name)
}

fn demo() -> Value {
    let text = std::fs::read_to_string(demo_path("level-suburban.json")).unwrap();
    serde_json::from_str(&text).unwrap()
}

/// The demo with an edit, checked from standard input.
fn check(edit: impl FnOnce(&mut Value)) -> Output {
    let mut site = demo();
    edit(&mut site);
    batterboard(&["check", "-"], &site.to_string())
}

/// The demo with an edit that must keep it from being opened: what is said must name the
/// place and the remedy.
fn refused(text: &str, expected: &[&str]) {
    let output = batterboard(&["check", "-"], text);
    let said = err(&output);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(out(&output).is_empty());
    for part in expected {
        assert!(said.contains(part), "\"{part}\" is not in: {said}");
    }
    assert!(
        said.lines().count() >= 3,
        "what, where and how to mend it: {said}"
    );
}

fn edited(edit: impl FnOnce(&mut Value)) -> String {
    let mut site = demo();
    edit(&mut site);
    site.to_string()
}

#[test]
fn every_demo_site_reports_the_same_bytes_twice() {
    for name in ["level-suburban", "sloping-hillside", "wedge-cul-de-sac"] {
        let path = demo_path(&format!("{name}.json"));
        let path = path.to_str().unwrap();
        let first = batterboard(&["report", path, "--json"], "");
        assert_eq!(first.status.code(), Some(0), "{}", err(&first));
        assert_eq!(
            first.stdout,
            batterboard(&["report", path, "--json"], "").stdout
        );
        let report: Value = serde_json::from_str(&out(&first)).unwrap();
        assert_eq!(report["format"], "batterboard-report");
        for figure in report["quantities"].as_array().unwrap() {
            assert!(figure["value"].is_number() && figure["unit"].is_string());
            assert!(figure["shown"]["text"].is_string() && figure["other"]["text"].is_string());
            assert!(
                !figure["formula"].as_str().unwrap().is_empty(),
                "{}",
                figure["key"]
            );
            assert!(
                !figure["source"].as_str().unwrap().is_empty(),
                "{}",
                figure["key"]
            );
        }
        assert!(!report["quantities"].as_array().unwrap().is_empty());
        let text = out(&batterboard(&["report", path], ""));
        for section in [
            "Cautions",
            "Lot",
            "Shell",
            "Clearances",
            "Quantities",
            "Working",
        ] {
            assert!(
                text.contains(&format!("\n{section}\n---")),
                "{section} in {text}"
            );
        }
        assert!(text.contains("utility-locating service"));
    }
}

#[test]
fn the_units_can_be_chosen() {
    let path = demo_path("level-suburban.json");
    let path = path.to_str().unwrap();
    let metres = batterboard(&["report", path, "--json", "--units", "metres"], "");
    let feet = batterboard(&["report", path, "--json", "--units", "feet"], "");
    let (metres, feet): (Value, Value) = (
        serde_json::from_str(&out(&metres)).unwrap(),
        serde_json::from_str(&out(&feet)).unwrap(),
    );
    assert_eq!(metres["lot"]["area"]["shown"], feet["lot"]["area"]["other"]);
    assert_eq!(metres["lot"]["area"]["value"], feet["lot"]["area"]["value"]);
}

#[test]
fn the_exit_code_says_whether_every_clearance_holds() {
    let rule = |feet: f64| {
        json!([{ "name": "Test rule", "from": "waters-edge", "to": { "lot-line": {} },
                 "distance": feet * 0.3048, "source": "test" }])
    };
    let holds = check(|site| site["rules"] = rule(0.5));
    assert_eq!(holds.status.code(), Some(0), "{}", err(&holds));
    assert!(out(&holds).contains("Every clearance holds"));
    let short = check(|site| site["rules"] = rule(500.0));
    assert_eq!(short.status.code(), Some(1));
    assert!(out(&short).contains("clearances fall short"));
    assert!(out(&short).contains("Rule: Test rule."));
    let none = check(|site| site["rules"] = json!([]));
    assert_eq!(none.status.code(), Some(3));
    assert!(out(&none).contains("no clearance rules are entered"));
    let bare = check(|site| {
        for course in site["lot"]["courses"].as_array_mut().unwrap() {
            course.as_object_mut().unwrap().remove("kind");
        }
    });
    assert_eq!(bare.status.code(), Some(3));
    assert!(out(&bare).contains("none of the 4 sides has a kind yet"));
}

/// Whatever the rules are, and where there are none.
#[test]
fn work_over_a_lot_line_fails_the_check() {
    let rules = [
        json!([]),
        json!([{ "name": "Water to house", "from": "waters-edge",
                 "to": { "feature": { "kind": "house" } }, "distance": 1, "source": "test" }]),
    ];
    for rules in rules {
        let over = check(|site| {
            site["rules"] = rules;
            site["placement"]["at"] = json!([0.5, 30.0]);
        });
        assert_eq!(over.status.code(), Some(1));
        let text = out(&over);
        let verdict = text.find("over the side line").unwrap();
        assert!(verdict < text.find("Clearances").unwrap(), "{text}");
    }
}

#[test]
fn a_broken_file_is_told_with_place_and_remedy() {
    let text = demo().to_string();
    refused(
        &text[..text.len() / 2],
        &["cut-off", "line 1 column", "open a copy"],
    );
    refused("", &["cut-off"]);
    refused("a plan of the yard", &["syntax", "line 1 column 1"]);
    refused(
        &text.replacen("\"distance\":", "\"distance\":NaN,\"was\":", 1),
        &["syntax", "NaN"],
    );
    let newer = edited(|site| site["version"] = json!(99));
    refused(&newer, &["/version", "version 99", "newer build"]);
    let other = edited(|site| site["format"] = json!("something-else"));
    refused(
        &other,
        &["/format", "something-else", "Open a batterboard site file"],
    );
    let two_points = edited(|site| site["lot"]["courses"].as_array_mut().unwrap().truncate(2));
    refused(&two_points, &["/lot/courses", "too few"]);
    let bow_tie = edited(|site| {
        site["features"][0]["shape"] = json!({ "area": [[0, 0], [5, 5], [5, 0], [0, 5]] });
    });
    refused(&bow_tie, &["/features/0/shape/area", "cross"]);
    let wrong_type = edited(|site| site["rules"][0]["distance"] = json!("ten feet"));
    refused(
        &wrong_type,
        &["/rules/0/distance", "expected a number", "schema"],
    );
    let far = edited(|site| site["placement"]["at"] = json!([1e300, 0]));
    refused(&far, &["/placement/at", "between"]);
    let unknown_shell =
        edited(|site| site["placement"]["shell"] = json!({ "catalogue": "None such" }));
    refused(&unknown_shell, &["/placement/shell/catalogue", "None such"]);
}

#[test]
fn a_shell_with_a_floor_above_its_rim_is_refused() {
    let text = edited(|site| {
        site["placement"]["shell"] = json!({ "own": {
            "name": "Upside down",
            "outline": [[-3, -2], [3, -2], [3, 2], [-3, 2]],
            "floor": [{ "kind": "deep", "outline": [[-3, -2], [3, -2], [3, 2], [-3, 2]],
                        "depths": [-1.5, -1.5, -1.5, -1.5] }],
            "coping_width": 0.3, "waterline": 0.1 } });
    });
    refused(&text, &["/placement/shell/own/floor/0"]);
}

#[test]
fn files_that_are_no_text_or_are_missing_are_told() {
    let missing = batterboard(&["report", "no-such-file.json"], "");
    assert_eq!(missing.status.code(), Some(2));
    assert!(err(&missing).contains("no-such-file.json"));
    let usage = batterboard(&["report"], "");
    assert_eq!(usage.status.code(), Some(2));
}

#[test]
fn unknown_members_are_noted_and_change_nothing() {
    let output = check(|site| site["weather"] = json!("fair"));
    assert_ne!(output.status.code(), Some(2), "{}", err(&output));
    assert!(out(&output).contains("\"weather\""));
}

#[test]
fn schemas_and_shells_are_printed() {
    let schema: Value = serde_json::from_str(&out(&batterboard(&["schema"], ""))).unwrap();
    assert_eq!(schema["$id"], "urn:batterboard-site:3");
    let shell: Value =
        serde_json::from_str(&out(&batterboard(&["schema", "--shell"], ""))).unwrap();
    assert_eq!(shell["$id"], "urn:batterboard-shell:2");
    let table = out(&batterboard(&["shells", "--units", "metres"], ""));
    assert!(table.lines().count() > 14 && table.contains(" m"));
}

fn hillside(args: &[&str]) -> Output {
    let text = std::fs::read_to_string(demo_path("sloping-hillside.json")).unwrap();
    batterboard(args, &text)
}

#[test]
fn a_takeoff_comes_as_text_as_json_and_as_a_list() {
    let text = out(&hillside(&["takeoff", "-"]));
    for part in ["Quantities", "Cost", "Total", "by the swell of the spoil"] {
        assert!(text.contains(part), "{part}");
    }
    let json: Value = serde_json::from_str(&out(&hillside(&["takeoff", "-", "--json"]))).unwrap();
    let total = json["cost"]["total"]["value"].as_f64().unwrap();
    let list = out(&hillside(&["takeoff", "-", "--csv"]));
    assert_eq!(list, out(&hillside(&["takeoff", "-", "--csv"])));
    let lines: Vec<&str> = list.split("\r\n").collect();
    assert!(lines[0].starts_with("Site,Group,Key,Item,Low,Expected,High,Unit,"));
    assert_eq!(
        lines.len(),
        json["quantities"].as_array().unwrap().len() + 3
    );
    assert!(lines[lines.len() - 2].contains(&format!(",{total},")));
    assert!(
        list.lines()
            .all(|line| line.ends_with('\r') || !line.contains('\r'))
    );
}

#[test]
fn placements_stand_side_by_side() {
    let text = out(&hillside(&["compare", "-"]));
    assert!(
        text.contains("Six inches lower") && text.contains("Bank cut"),
        "{text}"
    );
    let json: Value = serde_json::from_str(&out(&hillside(&["compare", "-", "--json"]))).unwrap();
    let rows = json["rows"].as_array().unwrap();
    let cut = rows.iter().find(|row| row["key"] == "bank-cut").unwrap();
    assert!(cut["differences"][1]["value"].as_f64().unwrap() > 0.0);
    let alone = out(&batterboard(&["compare", "-"], &demo().to_string()));
    assert!(alone.contains("No other placement is kept to compare"));
}

#[test]
fn balance_tells_even_earth_and_an_inch() {
    let text = out(&hillside(&["balance", "-"]));
    assert!(
        text.contains("All that is dug against all the fill"),
        "{text}"
    );
    assert!(
        text.contains("Deck and banks alone") && text.contains("Bank cut"),
        "{text}"
    );
    let json: Value = serde_json::from_str(&out(&hillside(&["balance", "-", "--json"]))).unwrap();
    let way = &json["balance"]["ways"][0];
    assert!(way["coping"].is_number() || way["coping"].is_null());
    assert_eq!(json["nudge"]["rows"][0]["key"], "bank-cut");
    let mut empty = demo();
    empty["placement"] = Value::Null;
    let nothing = batterboard(&["balance", "-"], &empty.to_string());
    assert_eq!(nothing.status.code(), Some(2));
    assert!(err(&nothing).contains("no shell is placed"));
}
