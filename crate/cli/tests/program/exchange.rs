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
fn a_lot_comes_onto_a_site_that_has_none() {
    let demo = std::fs::read_to_string(tree("demo-sites/level-suburban.json")).unwrap();
    let mut site: Value = serde_json::from_str(&demo).unwrap();
    for member in ["placement", "features", "stakeout"] {
        site.as_object_mut().unwrap().remove(member);
    }
    site["name"] = json!("Begun without a lot");
    for lot in [json!({ "start": [0.0, 0.0], "courses": [] }), Value::Null] {
        site["lot"] = lot;
        if site["lot"].is_null() {
            site.as_object_mut().unwrap().remove("lot");
        }
        let bare = Scratch::new("bare.json", &site.to_string());
        let brought = batterboard(
            &["import", &parcels(), "--lot", "1", "--onto", bare.path()],
            "",
        );
        assert!(brought.status.success(), "{}", err(&brought));
        let after: Value = serde_json::from_str(&out(&brought)).unwrap();
        assert_eq!(after["lot"]["courses"].as_array().unwrap().len(), 5);
        assert_eq!(after["name"], "Begun without a lot");
        // Without a lot in it there is still none, and the one that was lent is not left there.
        let spots = "Point,Northing,Easting,Elevation,Description\n1,10,10,100,ground\n2,10,90,100,ground\n3,90,50,101,ground\n";
        let none = batterboard(&["import", "-", "--onto", bare.path()], spots);
        assert_eq!(none.status.code(), Some(2));
        assert!(err(&none).contains("--as WHICH=lot"), "{}", err(&none));
    }
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

fn demo(name: &str) -> String {
    tree(&format!("demo-sites/{name}.json"))
}

#[test]
fn landxml_goes_out_and_comes_in_again_with_its_curves_and_breaklines() {
    let path = demo("creek-side-deed");
    let before: Value = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
    let text = out(&batterboard(&["export", &path, "--as", "landxml"], ""));
    for part in [
        "linearUnit=\"foot\"",
        "<Curve rot=",
        "<CgPoint name=\"H1\" desc=\"shell stake\" code=\"hole\" role=\"to stake out\">",
        "<CgPoints name=\"Stakes, offset\"",
        "<PlanFeature name=\"dig bottom\"",
        "<Surface name=\"Existing ground\"",
        "<Surface name=\"Dig\"",
    ] {
        assert!(text.contains(part), "{part}");
    }
    let output = batterboard(&["import", "-"], &text);
    let after: Value = serde_json::from_str(&out(&output)).unwrap();
    let said = err(&output);
    for part in [
        "5 courses, 2 of them curves",
        "2 breaklines come in",
        "5 corners of the lot get their marks",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    let count = |site: &Value, place: &str| site.pointer(place).unwrap().as_array().unwrap().len();
    for place in [
        "/features",
        "/lot/courses",
        "/ground/spots/spots",
        "/ground/spots/breaklines",
    ] {
        assert_eq!(count(&before, place), count(&after, place), "{place}");
    }
    let kinds = |site: &Value| -> Vec<String> {
        let features = site["features"].as_array().unwrap().iter();
        features.map(|it| it["kind"].to_string()).collect()
    };
    assert_eq!(kinds(&before), kinds(&after));
    assert!(after["lot"]["stated_area"].is_number());
}

#[test]
fn landxml_is_written_in_parts_and_in_the_unit_that_is_asked_for() {
    let path = demo("level-suburban");
    let some = |more: &[&str]| {
        let mut arguments = vec!["export", &path, "--as", "landxml"];
        arguments.extend(more);
        batterboard(&arguments, "")
    };
    let lot = out(&some(&["--only", "lot", "--frame", "metres"]));
    assert!(lot.contains("linearUnit=\"meter\"") && lot.contains("<Parcel "));
    assert!(!lot.contains("<Surface") && !lot.contains("H1") && !lot.contains("PlanFeature"));
    let dig = out(&some(&["--only", "dig", "--frame", "survey-feet"]));
    assert!(dig.contains("linearUnit=\"USSurveyFoot\"") && dig.contains("<Surface name=\"Dig\""));
    assert!(dig.contains("\"D1\"") && !dig.contains("\"R1\"") && !dig.contains("<Parcel "));
    let shell = out(&some(&["--only", "shell"]));
    assert!(shell.contains("\"R1\"") && shell.contains("\"C1\"") && !shell.contains("\"H1\""));
    let degrees = some(&["--frame", "degrees"]);
    assert_eq!(degrees.status.code(), Some(2));
    assert!(
        err(&degrees).contains("feet or meters"),
        "{}",
        err(&degrees)
    );
}

#[test]
fn landxml_that_cannot_be_used_is_refused_with_its_place() {
    for (text, parts) in [
        ("<gpx/>", vec!["not-landxml", "<gpx>"]),
        ("<LandXML>", vec!["xml", "no sound XML"]),
        (
            "<!DOCTYPE a [<!ENTITY b \"c\">]><LandXML/>",
            vec!["document-type"],
        ),
        (
            "<LandXML>\n<CgPoints><CgPoint name=\"7\">1 two</CgPoint></CgPoints></LandXML>",
            vec!["number at CgPoint \"7\", line 2", "\"two\" is not a number"],
        ),
    ] {
        let output = batterboard(&["import", "-"], text);
        assert_eq!(output.status.code(), Some(2));
        assert!(out_is_empty(&output));
        for part in parts {
            assert!(err(&output).contains(part), "{part}: {}", err(&output));
        }
    }
}

#[test]
fn an_instrument_gets_every_stake_by_name_and_code() {
    let path = demo("level-suburban");
    let list = out(&batterboard(&["export", &path, "--as", "points"], ""));
    let rows: Vec<&str> = list.lines().collect();
    let stakes: Value =
        serde_json::from_str(&out(&batterboard(&["stakes", &path, "--json"], ""))).unwrap();
    for member in ["stakes", "offsets"] {
        for stake in stakes[member].as_array().unwrap() {
            let name = format!("{},", stake["name"].as_str().unwrap());
            let row = rows.iter().find(|row| row.starts_with(&name)).unwrap();
            assert!(row.contains("shell stake"), "{row}");
            let at = |k: usize| row.split(',').nth(k).unwrap().parse::<f64>().unwrap() * 0.3048;
            let place = &stake["at"];
            assert!((at(1) - place[1].as_f64().unwrap()).abs() < 1e-4, "{row}");
            assert!((at(2) - place[0].as_f64().unwrap()).abs() < 1e-4, "{row}");
        }
    }
    for code in ["hole", "dig bottom", "dig top", "rim", "collar", "offset"] {
        let code = format!("\"{code}, shell stake");
        assert!(rows.iter().any(|row| row.contains(&code)), "{code}");
    }
    // What stands on the lot goes by its own name, and reads back as what it is.
    let named = |name: &str| rows.iter().filter(|row| row.contains(name)).count();
    assert_eq!(named("gas service, buried line"), 2);
    assert!(!list.contains("shell edge"));
    let back = batterboard(&["import", "-"], &list);
    let back: Value = serde_json::from_str(&out(&back)).unwrap();
    let gas = back["features"]
        .as_array()
        .unwrap()
        .iter()
        .find(|it| it["name"] == "gas service")
        .unwrap();
    assert_eq!(gas["kind"], "buried-line");
    assert!(
        back["ground"].get("spots").is_none(),
        "no stake is a spot of the ground"
    );
    // The parts that are asked for, and no others.
    let only = |part: &str| {
        out(&batterboard(
            &["export", &path, "--as", "points", "--only", part],
            "",
        ))
    };
    assert!(only("shell").contains("\nR1,") && !only("shell").contains("\nH1,"));
    assert!(
        only("dig").contains("\nH1,")
            && only("dig").contains("\nO1,")
            && !only("dig").contains("\nR1,")
    );
}

#[test]
fn a_map_of_a_site_without_an_origin_is_written_from_one_that_is_told() {
    let path = demo("level-suburban");
    let map = |origin: &str| {
        batterboard(
            &["export", &path, "--as", "geojson", "--origin", origin],
            "",
        )
    };
    let text = out(&map("-84.3071,36.4512"));
    let document: Value = serde_json::from_str(&text).unwrap();
    let features = document["features"].as_array().unwrap();
    let corner = &features[0]["geometry"]["coordinates"][0][0];
    assert!(
        (corner[0].as_f64().unwrap() + 84.3071).abs() < 0.01,
        "{corner}"
    );
    let of = |part: &str, code: &str| {
        let is_it =
            |it: &&Value| it["properties"]["part"] == part && it["properties"]["code"] == code;
        features.iter().filter(is_it).count()
    };
    assert_eq!(of("stake", "hole"), 4);
    for code in ["dig bottom", "dig top", "rim", "collar"] {
        assert_eq!(of("line", code), 1, "{code}");
        assert!(of("stake", code) > 3, "{code}");
    }
    let stake = features
        .iter()
        .find(|it| it["properties"]["name"] == "R1")
        .unwrap();
    let height = stake["geometry"]["coordinates"][2].as_f64().unwrap();
    let site: Value = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
    let coping = site["placement"]["coping_elevation"].as_f64().unwrap();
    assert!((height - coping).abs() < 1e-4);
    let listed = out(&batterboard(&["import", "-", "--list"], &text));
    assert!(
        !listed.contains(" spot"),
        "no stake is a spot of the ground"
    );
    for odd in ["36.4512", "a,b", "-84,91", "nan,1"] {
        let output = map(odd);
        assert_eq!(output.status.code(), Some(2), "{odd}");
        assert!(err(&output).contains("LON,LAT"), "{}", err(&output));
    }
}
