//! A site with photographs: listed by where they were taken, with nothing of what they show on any way out.

use std::fs;

use serde_json::{Value, json};

use crate::run::told;

/// 7 by 3 pixels, written by Pillow 13.0.0 without notes.
const JPEG: &str = "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAKBueIx4ZKCMgoy0qqC+8P//8Nzc8P//////////////////////////////////////////////////////////2wBDAaq0tPDS8P//////////////////////////////////////////////////////////////////////////////wAARCAADAAcDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAQP/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCQAo//2Q==";

#[test]
fn they_are_listed_and_what_they_show_is_printed_nowhere() {
    let path = std::env::temp_dir().join(format!("batterboard-{}-yard.json", std::process::id()));
    let demo = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../demo-sites/sloping-hillside.json"
    );
    let mut site: Value = serde_json::from_str(&fs::read_to_string(demo).unwrap()).unwrap();
    let one = |id: &str, bearing: f64| {
        json!({
            "id": id, "at": [10.0, 12.0], "bearing": bearing, "when": "2026-11-30 09:40", "stage": "dug",
            "note": "The bank at the shed", "width": 7, "height": 3, "data": JPEG,
        })
    };
    site["photographs"] = json!([one("a", 0.8), one("b", 3.1)]);
    fs::write(&path, site.to_string()).unwrap();
    let file = &path;
    let path = file.to_str().unwrap();
    let ways: [&[&str]; 9] = [
        &["report", path],
        &["report", path, "--json"],
        &["takeoff", path, "--csv"],
        &["takeoff", path, "--json"],
        &["stakes", path],
        &["balance", path, "--json"],
        &["export", path, "--as", "landxml"],
        &["export", path, "--as", "points"],
        &["way-in", path],
    ];
    for way in ways {
        let text = told(way).unwrap();
        assert!(!text.contains(&JPEG[200..260]), "{way:?}");
        assert_eq!(
            text.contains("The bank at the shed"),
            way[0] == "report",
            "{way:?}"
        );
    }
    let report = told(&["report", path]).unwrap();
    assert!(report.contains("looking northeast") && report.contains("looking south"));
    let report: Value = serde_json::from_str(&told(&["report", path, "--json"]).unwrap()).unwrap();
    let listed = report["photographs"].as_array().unwrap();
    assert_eq!(listed.len(), 2);
    assert_eq!(
        (&listed[0]["number"], &listed[0]["toward"]),
        (&json!(1), &json!("northeast"))
    );
    assert!(listed.iter().all(|it| it.get("data").is_none()));
    fs::remove_file(file).unwrap();
}
