//! `way-in`: text and JSON of one site, lines of a folder.

use serde_json::Value;

use crate::run;

const DEMOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-sites");

fn said(arguments: &[&str]) -> (Option<i32>, String, String) {
    run::said("way-in", arguments)
}

#[test]
fn the_way_of_a_site_comes_as_text_and_as_json() {
    let site = format!("{DEMOS}/creek-side-deed.json");
    let (code, text, _) = said(&[&site]);
    assert_eq!(code, Some(0));
    for part in [
        "Way in",
        "To the dig",
        "Excavator",
        "Shell on edge",
        "No crane is placed",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let (_, json, _) = said(&[&site, "--json"]);
    let json: Value = serde_json::from_str(&json).unwrap();
    let width = json["to_dig"]["width"]["value"].as_f64().unwrap();
    assert!(width > 1.0, "{width}");
    assert_eq!(json["to_dig"]["width"]["unit"], "m");
    assert_eq!(json["passages"].as_array().unwrap().len(), 5);
    let (_, metric, _) = said(&[&site, "--units", "metres"]);
    assert!(metric.contains(" m ("), "{metric}");
}

#[test]
fn a_folder_comes_as_one_line_of_json_each() {
    let (code, lines, _) = said(&[DEMOS, "--json"]);
    assert_eq!(code, Some(0));
    let all: Vec<Value> = lines
        .lines()
        .map(|it| serde_json::from_str(it).unwrap())
        .collect();
    assert_eq!(all.len(), 4);
    let files: Vec<&str> = all.iter().map(|it| it["file"].as_str().unwrap()).collect();
    assert!(files.is_sorted());
    assert!(all.iter().all(|it| it["to_dig"].is_object()));
    // Of these two the fence has no gate.
    for (file, line) in files.iter().zip(&all) {
        let closed = file.contains("level-suburban") || file.contains("wedge");
        assert_eq!(line["to_dig"]["closed"], closed, "{file}");
        // Every demo has a fence worth taking a panel out of.
        assert!(!line["removals"].as_array().unwrap().is_empty(), "{file}");
    }
}

#[test]
fn what_cannot_be_read_is_said_and_the_rest_is_printed() {
    let site = format!("{DEMOS}/creek-side-deed.json");
    let missing = format!("{DEMOS}/missing.json");
    let (code, lines, _) = said(&[&site, &missing, "--json"]);
    assert_eq!(code, Some(2));
    let lines: Vec<Value> = lines
        .lines()
        .map(|it| serde_json::from_str(it).unwrap())
        .collect();
    assert!(lines[0]["to_dig"].is_object());
    assert!(lines[1]["error"].as_str().unwrap().contains("missing.json"));
    let (code, out, said) = said(&[&missing]);
    assert_eq!((code, out.as_str()), (Some(2), ""));
    assert!(said.contains("missing.json"));
}
