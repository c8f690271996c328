//! `stakes`: the layout as text, as JSON and as a list, from the points of the file or others.

use serde_json::Value;

use crate::run::batterboard;

fn hillside(arguments: &[&str]) -> (Option<i32>, String, String) {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../demo-sites/sloping-hillside.json"
    );
    let site = std::fs::read_to_string(path).unwrap();
    let all: Vec<&str> = ["stakes", "-"].iter().chain(arguments).copied().collect();
    let output = batterboard(&all, &site);
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (
        output.status.code(),
        text(output.stdout),
        text(output.stderr),
    )
}

#[test]
fn stakes_come_as_text_as_json_and_as_a_list() {
    let (code, text, _) = hillside(&[]);
    assert_eq!(code, Some(0));
    for part in [
        "utility-locating service",
        "shed corner 2 (southeast)",
        "Check diagonals",
        "Height of instrument",
        "As dug: the bottom",
        "As set: the rim",
        "Readings as typed",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let (_, json, _) = hillside(&["--json"]);
    let json: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(json["base"]["proposed"], false);
    let count = |member: &str| json[member].as_array().unwrap().len();
    let (_, list, _) = hillside(&["--csv"]);
    let lines: Vec<&str> = list.split("\r\n").collect();
    assert!(lines[0].starts_with("Site,Stake,What,x,y,Unit,\"Tape A from\""));
    assert_eq!(lines.len(), count("stakes") + count("offsets") + 2);
    let (_, metric, _) = hillside(&["--csv", "--units", "metres"]);
    let (feet, metres) = (x_of(&list), x_of(&metric));
    assert!(
        (feet * 0.3048 - metres).abs() < 1e-4,
        "{feet} ft is not {metres} m"
    );
}

/// The x of the first stake.
fn x_of(list: &str) -> f64 {
    let line = list.split("\r\n").nth(1).unwrap();
    let after = line.split("hole\",").nth(1).unwrap();
    after.split(',').next().unwrap().parse().unwrap()
}

#[test]
fn other_fixed_points_are_chosen_by_their_names() {
    let pair = [
        "--from",
        "Shed corner 3 (northeast)",
        "--and",
        "retaining wall point 1 (west)",
    ];
    let (code, json, _) = hillside(&[&pair[..], &["--json"]].concat());
    let json: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(code, Some(0));
    assert_eq!(
        json["base"]["points"][0]["name"],
        "shed corner 3 (northeast)"
    );
    let (code, out, said) =
        hillside(&["--from", "the moon", "--and", "house corner 1 (southwest)"]);
    assert_eq!((code, out.as_str()), (Some(2), ""));
    assert!(
        said.contains("the moon") && said.contains("house corner 1 (southwest)"),
        "{said}"
    );
    let (code, _, said) = hillside(&[
        "--from",
        "house corner 1 (southwest)",
        "--and",
        "house corner 1 (southwest)",
    ]);
    assert_eq!(code, Some(2));
    assert!(said.contains("same fixed point"), "{said}");
    assert_eq!(
        hillside(&["--from", "house corner 1 (southwest)"]).0,
        Some(2)
    );
}
