//! Where a shell fits, from the command line.

use serde_json::Value;

use crate::run::{batterboard, told as run};

const DEMOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-sites");

fn demo(name: &str) -> String {
    format!("{DEMOS}/{name}.json")
}

#[test]
fn shells_that_fit_are_listed_best_first() {
    let site = demo("wedge-cul-de-sac");
    let list = run(&["fit", &site, "--json", "--step", "30"]).unwrap();
    let list: Value = serde_json::from_str(&list).unwrap();
    let list = list.as_array().unwrap();
    assert!(!list.is_empty());
    let rooms: Vec<f64> = list.iter().map(|it| it["room"].as_f64().unwrap()).collect();
    assert!(rooms.windows(2).all(|it| it[0] >= it[1]), "{rooms:?}");
    // Each as a site file's placement has it: it can be put there.
    let mut document: Value =
        serde_json::from_str(&std::fs::read_to_string(&site).unwrap()).unwrap();
    for member in ["shell", "at", "heading", "mirrored", "coping_elevation"] {
        document["placement"][member] = list[0][member].clone();
    }
    let output = batterboard(&["check", "-"], &document.to_string());
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(!told.contains("falls short"), "{told}");
    let text = run(&["fit", &site, "--step", "45", "--units", "metres"]).unwrap();
    assert!(
        text.contains("  1. ") && text.contains("utility-locating service"),
        "{text}"
    );
    let name = list[0]["name"].as_str().unwrap();
    let one = run(&[
        "fit",
        &site,
        "--json",
        "--step",
        "45",
        "--shell",
        &name.to_uppercase(),
    ])
    .unwrap();
    let one: Value = serde_json::from_str(&one).unwrap();
    assert!(one.as_array().unwrap().iter().all(|it| it["name"] == name));
    let error = run(&["fit", &site, "--shell", "nobody"]).unwrap_err();
    assert!(error.contains("unknown-shell"), "{error}");
}

#[test]
fn the_most_sun_is_asked_for_by_its_day() {
    let site = demo("creek-side-deed");
    let ask = [
        "fit",
        &site,
        "--best-for",
        "most-sun",
        "--step",
        "45",
        "--day",
    ];
    let list = run(&[&ask[..], &["2026-09-22", "--json"]].concat()).unwrap();
    let list: Value = serde_json::from_str(&list).unwrap();
    let sun = |it: &Value| it["sun"].as_f64().unwrap() / 3600.0;
    let hours: Vec<f64> = list.as_array().unwrap().iter().map(sun).collect();
    assert!(!hours.is_empty() && hours.windows(2).all(|it| it[0] >= it[1]));
    assert!(hours[0] > 8.0 && hours[0] < 12.5, "{hours:?}");
    let text = run(&[&ask[..], &["2026-09-22"]].concat()).unwrap();
    assert!(text.contains("sun on the water "), "{text}");
    assert!(run(&[&ask[..], &["2026-09-31"]].concat()).is_err());
    let nowhere = demo("level-suburban");
    let error = run(&["fit", &nowhere, "--best-for", "most-sun"]).unwrap_err();
    assert!(error.contains("sun-no-place"), "{error}");
}

#[test]
fn a_folder_of_sites_is_answered_line_by_line() {
    let lines = run(&["clear-ground", DEMOS, "--heading", "30"]).unwrap();
    let lines: Vec<Value> = lines
        .lines()
        .map(|it| serde_json::from_str(it).unwrap())
        .collect();
    assert_eq!(lines.len(), 4);
    assert!(lines.iter().all(|it| it["area"].is_number()));
    let order: Vec<&str> = lines
        .iter()
        .map(|it| it["file"].as_str().unwrap())
        .collect();
    assert!(order.is_sorted());
    // Level ground has the same dig everywhere; that of the others moves with the place.
    for line in &lines {
        let edge = &line["edge"];
        let exact = edge["words"].as_str().unwrap().contains("is exact");
        assert_eq!(
            exact,
            line["file"].as_str().unwrap().contains("level"),
            "{line}"
        );
        assert_eq!(edge["holds"], edge["short"].as_array().unwrap().is_empty());
    }
    assert!(lines.iter().any(|it| it["edge"]["holds"] == false));
}

#[test]
fn clear_ground_is_told_and_mapped() {
    let site = demo("level-suburban");
    let told = run(&["clear-ground", &site, "--heading", "-30"]).unwrap();
    assert!(told.contains("330") && told.contains("most room"), "{told}");
    assert!(told.contains("the edge of clear ground is exact"), "{told}");
    let map = run(&[
        "clear-ground",
        &site,
        "--heading",
        "0",
        "--as",
        "geojson",
        "--origin",
        "-84.3071,36.4512",
    ])
    .unwrap();
    let map: Value = serde_json::from_str(&map).unwrap();
    assert_eq!(map["features"][0]["properties"]["role"], "clear-ground");
    let ring = &map["features"][0]["geometry"]["coordinates"][0];
    assert!(
        (ring[0][0]
            .as_f64()
            .unwrap_or(ring[0][0][0].as_f64().unwrap_or(0.0))
            + 84.3)
            .abs()
            < 0.1
    );
}
