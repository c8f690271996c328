//! Maps and lists through the command: what comes in, what goes out, and what is said of faults.

use std::path::PathBuf;
use std::process::Output;

use batterboard_core::math;
use serde_json::{Value, json};

use crate::run::batterboard;

fn out(output: &Output) -> String {
    assert_eq!(output.status.code(), Some(0), "{}", err(output));
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn tree(path: &str) -> String {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..");
    root.join(path).to_str().unwrap().to_owned()
}

fn parcels() -> String {
    tree("tests/reference/data/invented_parcels.geojson")
}

fn points() -> String {
    tree("tests/reference/data/invented_points.csv")
}

/// A file of one test, gone with it.
struct Scratch(PathBuf);

impl Scratch {
    fn new(name: &str, text: &str) -> Self {
        let path = std::env::temp_dir().join(format!("batterboard-{}-{name}", std::process::id()));
        std::fs::write(&path, text).unwrap();
        Self(path)
    }

    fn path(&self) -> &str {
        self.0.to_str().unwrap()
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}

fn corners(site: &Value) -> Vec<[f64; 2]> {
    let start = &site["lot"]["start"];
    let (mut x, mut y) = (start[0].as_f64().unwrap(), start[1].as_f64().unwrap());
    let mut corners = Vec::new();
    for course in site["lot"]["courses"].as_array().unwrap() {
        corners.push([x, y]);
        let line = &course["shape"]["line"];
        let (bearing, distance) = (
            line["bearing"].as_f64().unwrap(),
            line["distance"].as_f64().unwrap(),
        );
        x += distance * math::sin(bearing);
        y += distance * math::cos(bearing);
    }
    corners
}

fn apart(a: &Value, b: &Value) -> f64 {
    let (a, b) = (corners(a), corners(b));
    assert_eq!(a.len(), b.len());
    let far = |p: &[f64; 2]| {
        let distances = b.iter().map(|q| math::hypot(p[0] - q[0], p[1] - q[1]));
        distances.fold(f64::INFINITY, f64::min)
    };
    a.iter().map(far).fold(0.0, f64::max)
}

#[test]
fn a_map_is_listed_before_anything_is_brought_in() {
    let output = batterboard(&["import", &parcels(), "--list"], "");
    let list = out(&output);
    assert!(
        list.contains("House at 17") && list.contains("easement, areas"),
        "{list}"
    );
    assert!(err(&output).contains("which-lot"), "{}", err(&output));
    let json = out(&batterboard(
        &["import", &parcels(), "--list", "--json", "--lot", "1"],
        "",
    ));
    let json: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(json["items"][0]["proposed"], "lot");
    assert_eq!(json["items"][7]["proposed"], "leave-out");
    assert_eq!(json["settings"]["frame"], "degrees");
    assert!(json["origin"]["latitude"].is_number());
}

#[test]
fn a_map_comes_onto_a_site_and_out_again() {
    let first = batterboard(&["import", &parcels(), "--lot", "1"], "");
    let text = out(&first);
    assert!(err(&first).contains("The lot is replaced by one of 5 courses."));
    assert!(err(&first).contains("map-is-no-survey"));
    let site: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(site["lot"]["basis"]["north"], "true");
    let kept = Scratch::new("map.json", &text);
    // It opens; without a shell there is nothing to judge.
    assert_eq!(
        batterboard(&["check", kept.path()], "").status.code(),
        Some(3)
    );

    let map = out(&batterboard(
        &["export", kept.path(), "--as", "geojson"],
        "",
    ));
    let document: Value = serde_json::from_str(&map).unwrap();
    assert!(document.get("crs").is_none());
    let roles: Vec<&str> = document["features"]
        .as_array()
        .unwrap()
        .iter()
        .filter_map(|f| f["properties"]["role"].as_str())
        .collect();
    assert_eq!(roles.iter().filter(|r| **r == "spot").count(), 6);
    assert!(roles.contains(&"lot") && roles.contains(&"feature"));
    let ring = &document["features"][0]["geometry"]["coordinates"][0];
    assert_eq!(ring[0], ring[ring.as_array().unwrap().len() - 1]);

    let again = batterboard(
        &["import", "-", "--onto", kept.path(), "--replace-spots"],
        &map,
    );
    let again: Value = serde_json::from_str(&out(&again)).unwrap();
    assert!(apart(&site, &again) < 0.001, "{}", apart(&site, &again));
    assert_eq!(
        again["features"].as_array().unwrap().len(),
        site["features"].as_array().unwrap().len()
    );
    assert_eq!(again["origin"], site["origin"]);
}

#[test]
fn a_survey_comes_onto_a_site_and_its_coordinates_out_again() {
    let text = out(&batterboard(&["import", &points()], ""));
    let site: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(site["grid"]["unit"], "survey-feet");
    assert_eq!(site["lot"]["courses"][2]["monument"]["kind"], "concrete");
    let kept = Scratch::new("survey.json", &text);
    let list = out(&batterboard(
        &["export", kept.path(), "--as", "points", "--only", "lot"],
        "",
    ));
    let lines: Vec<&str> = list.lines().collect();
    assert_eq!(
        lines[0],
        "point,northing (US survey ft),easting (US survey ft),elevation (US survey ft),description"
    );
    assert!(
        lines[1].starts_with("1,645012.4800,1754321.2500,,"),
        "{}",
        lines[1]
    );
    let east = out(&batterboard(
        &[
            "export",
            kept.path(),
            "--as",
            "points",
            "--only",
            "lot",
            "--order",
            "east-first",
            "--frame",
            "metres",
        ],
        "",
    ));
    assert!(
        east.lines()
            .next()
            .unwrap()
            .starts_with("point,easting (m),northing (m)")
    );
    let again = out(&batterboard(&["import", "-", "--onto", kept.path()], &east));
    let again: Value = serde_json::from_str(&again).unwrap();
    assert!(apart(&site, &again) < 0.001);
}

#[test]
fn every_thing_can_be_told_what_it_is() {
    let list = "5000,2000,10,A1\n5030,2000,10,A1\n5030,2040,11,A1\n5000,2040,12,B\n";
    let run = |more: &[&str]| {
        let mut arguments = vec!["import", "-", "--frame", "feet"];
        arguments.extend(more);
        batterboard(&arguments, list)
    };
    let site: Value = serde_json::from_str(&out(&run(&["--as", "all=corner"]))).unwrap();
    assert_eq!(site["lot"]["courses"].as_array().unwrap().len(), 4);
    let site: Value =
        serde_json::from_str(&out(&run(&["--as", "a=house", "--as", "4=benchmark"]))).unwrap();
    assert_eq!(site["features"][0]["kind"], "house");
    let refused = |more: &[&str], words: &str| {
        let output = run(more);
        assert_eq!(output.status.code(), Some(2));
        assert!(
            out_is_empty(&output) && err(&output).contains(words),
            "{}",
            err(&output)
        );
    };
    refused(&["--as", "a=castle"], "castle");
    refused(&["--as", "a"], "WHICH=ROLE");
    refused(&["--as", "zz=house"], "--list");
    refused(&["--lot", "9"], "there is no number 9");
    refused(&["--as", "all=leave-out"], "nothing-chosen");
    refused(
        &[
            "--as",
            "all=fence",
            "--as",
            "4=benchmark",
            "--as",
            "1=benchmark",
        ],
        "two-benchmarks",
    );
}

fn out_is_empty(output: &Output) -> bool {
    output.stdout.is_empty()
}

#[test]
fn what_cannot_be_used_is_told_with_its_place_and_remedy() {
    let refused = |arguments: &[&str], text: &str, parts: &[&str]| {
        let output = batterboard(arguments, text);
        let said = err(&output);
        assert_eq!(output.status.code(), Some(2), "{said}");
        assert!(out_is_empty(&output));
        for part in parts {
            assert!(said.contains(part), "\"{part}\" is not in: {said}");
        }
    };
    refused(
        &["import", "-"],
        "",
        &["nothing-found", "a point to a line"],
    );
    refused(
        &["import", "-"],
        "{\"type\":",
        &["cut-off", "line 1 column"],
    );
    refused(
        &["import", "-"],
        "1,x,y\n2,z\n",
        &["line 1", "nothing-found"],
    );
    let bow = json!({ "type": "Polygon", "coordinates":
        [[[10.0, 50.0], [10.0002, 50.0002], [10.0002, 50.0], [10.0, 50.0002], [10.0, 50.0]]] });
    refused(
        &["import", "-", "--as", "1=house"],
        &bow.to_string(),
        &["path-crosses-itself", "does not cross"],
    );
    let other = json!({ "type": "Point", "coordinates": [10.0, 50.0],
        "crs": { "properties": { "name": "EPSG:4269" } } });
    refused(
        &["import", "-"],
        &other.to_string(),
        &["other-crs at /crs", "WGS 84"],
    );
    let site = tree("demo-sites/level-suburban.json");
    refused(
        &["export", &site, "--as", "geojson"],
        "",
        &["no-origin at /origin"],
    );
    refused(&["import", "no-such-file"], "", &["cannot open"]);
}
