//! Several sites in one call: each in its order, what cannot be read among them, and the gravest of all exit codes.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;

use crate::run::said;

const DEMOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-sites");

/// A folder of this test's own.
fn folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn demo(name: &str) -> String {
    fs::read_to_string(format!("{DEMOS}/{name}.json")).unwrap()
}

#[test]
fn a_folder_is_answered_in_order_with_what_is_broken_in_its_place() {
    let folder = folder("batch in order");
    for at in 0..12 {
        let text = match at {
            5 => r#"{"format": "batterboard-site", "version": "none"}"#.to_owned(),
            _ => demo("level-suburban"),
        };
        fs::write(folder.join(format!("{at:02}.json")), text).unwrap();
    }
    // No site, and so passed over.
    fs::write(folder.join("list.json"), "[1, 2]").unwrap();
    let (code, text, _) = said("report", &[folder.to_str().unwrap(), "--json"]);
    assert_eq!(code, Some(2));
    let lines: Vec<Value> = text
        .lines()
        .map(|it| serde_json::from_str(it).unwrap())
        .collect();
    assert_eq!(lines.len(), 12);
    let (_, alone, _) = said(
        "report",
        &[&format!("{DEMOS}/level-suburban.json"), "--json"],
    );
    let alone: Value = serde_json::from_str(&alone).unwrap();
    for (at, line) in lines.iter().enumerate() {
        assert!(
            line["file"]
                .as_str()
                .unwrap()
                .ends_with(&format!("{at:02}.json"))
        );
        if at == 5 {
            assert!(
                line["error"].as_str().unwrap().contains("was not opened"),
                "{line}"
            );
        } else {
            assert_eq!(line["quantities"], alone["quantities"]);
            assert_eq!(line["verdict"], alone["verdict"]);
        }
    }
}

#[test]
fn a_check_of_several_ends_with_the_gravest() {
    let folder = folder("batch of checks");
    let [fine, unplaced, broken] = ["a.json", "b.json", "c.json"].map(|it| folder.join(it));
    fs::write(&fine, demo("level-suburban")).unwrap();
    let mut bare: Value = serde_json::from_str(&demo("level-suburban")).unwrap();
    bare.as_object_mut().unwrap().remove("placement");
    fs::write(&unplaced, bare.to_string()).unwrap();
    fs::write(&broken, "nothing").unwrap();
    let name = |it: &PathBuf| it.to_str().unwrap().to_owned();
    let alone = |it: &PathBuf| said("check", &[&name(it)]).0.unwrap();
    assert_eq!((alone(&unplaced), alone(&broken)), (3, 2));
    let (code, text, _) = said("check", &[&name(&fine), &name(&unplaced)]);
    let gravest = if alone(&fine) == 1 { 1 } else { 3 };
    assert_eq!(code, Some(gravest));
    let of_fine = said("check", &[&name(&fine)]).1;
    assert!(
        text.contains(&format!("{}: {of_fine}", name(&fine))),
        "{text}"
    );
    let (code, text, _) = said("check", &[&name(&fine), &name(&broken)]);
    assert_eq!(code, Some(2));
    assert!(text.contains("c.json was not opened"), "{text}");
}

#[test]
fn a_list_for_a_spreadsheet_is_of_one_site() {
    let site = format!("{DEMOS}/level-suburban.json");
    let (code, text, why) = said("takeoff", &[&site, &site, "--csv"]);
    assert_eq!((code, text.as_str()), (Some(2), ""));
    assert!(why.contains("use --json"), "{why}");
    let (code, text, _) = said("takeoff", &[&site, &site, "--json"]);
    assert_eq!((code, text.lines().count()), (Some(0), 2));
}
