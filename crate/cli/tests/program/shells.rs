//! `shells`, and what the command says of itself.

use batterboard_core::exchange::open_shell;
use batterboard_core::shell::catalogue;
use serde_json::Value;

use crate::run::{said, told};

#[test]
fn one_shell_comes_as_a_shell_file() {
    for record in catalogue::all() {
        let text = told(&["shells", &record.name.to_uppercase(), "--json"]).unwrap();
        let (read, findings) = open_shell(&text).unwrap();
        assert_eq!((&read, findings.len()), (record, 0));
        let text = told(&["shells", &record.name]).unwrap();
        assert!(text.contains("Deepest, below the rim"), "{text}");
    }
    let all: Value = serde_json::from_str(&told(&["shells", "--json"]).unwrap()).unwrap();
    assert_eq!(all.as_array().unwrap().len(), catalogue::all().len());
}

#[test]
fn a_name_that_is_nearly_right_is_answered_with_the_one_that_is() {
    let name = &catalogue::all()[0].name;
    let typed: String = name.chars().skip(1).collect();
    let demo = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../demo-sites/level-suburban.json"
    );
    for (command, arguments) in [
        ("shells", vec![typed.as_str()]),
        ("fit", vec![demo, "--shell", typed.as_str()]),
    ] {
        let (code, _, why) = said(command, &arguments);
        assert_eq!(code, Some(2));
        assert!(why.contains(&format!("did you mean \"{name}\"?")), "{why}");
    }
}

#[test]
fn the_help_tells_the_exit_codes_and_the_manual_every_command() {
    let help = told(&["--help"]).unwrap();
    for part in ["Exit codes:", "  0  done", "  3  check"] {
        assert!(help.contains(part), "{part}: {help}");
    }
    let manual = told(&["manual"]).unwrap();
    for part in [
        ".TH batterboard",
        "batterboard clear\\-ground",
        "batterboard deed",
        "Exit codes",
    ] {
        assert!(manual.contains(part), "{part}: {manual}");
    }
    let script = told(&["completions", "bash"]).unwrap();
    assert!(
        script.contains("clear-ground") && script.contains("--heading"),
        "{script}"
    );
}

#[test]
fn every_figure_is_told_with_its_source() {
    let text = told(&["sources"]).unwrap();
    for part in [
        "Spoil and machines stand back from the edge: 2.00 ft",
        "29 CFR 1926.651(j)(2)",
        "common practice, no source",
        "from memory: look it up",
        "tests/reference, safety: a pile stands back from the edge",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    let all: Value =
        serde_json::from_str(&told(&["sources", "--json", "--units", "metres"]).unwrap()).unwrap();
    let over_dig = all
        .as_array()
        .unwrap()
        .iter()
        .find(|it| it["place"] == "/works/dig/over_dig")
        .unwrap();
    assert_eq!(over_dig["figure"]["shown"]["text"], "0.203 m");
    assert_eq!(over_dig["from"]["kind"], "common-practice");
}
