//! The demo sites through the command line, byte for byte against what is recorded.
//!
//! Every site in `demo-sites/` is a case. Recorded are the report as text of each, its key figures to the last digit
//! (`<name>.figures.txt`), of one site the whole JSON, of all together the members their JSON has (`report.members.txt`),
//! and the schemas. With `BATTERBOARD_UPDATE=1` in the environment they are written anew instead; a changed report is a
//! changed answer, and the commit says why.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use batterboard_core::exchange;
use batterboard_core::lot::{Course, deed};
use batterboard_core::units::System;
use serde_json::Value;

use crate::{figures, members};

/// The site whose JSON is recorded whole: the one with the most members.
const IN_FULL: &str = "creek-side-deed";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-sites")
}

/// The demo sites by name, without the reports and the schema beside them.
fn sites() -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter_map(|file| file.strip_suffix(".json").map(str::to_owned))
        .filter(|name| !name.contains('.'))
        .collect();
    names.sort();
    assert!(names.len() >= 3, "{names:?}");
    names
}

/// Runs the command beside the sites, so that no path of this machine can reach its output.
fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_batterboard"))
        .args(arguments)
        .current_dir(folder())
        .output()
        .unwrap()
}

/// The standard output of a run that succeeded.
fn text_of(arguments: &[&str]) -> String {
    let output = run(arguments);
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{arguments:?}: {complaint}");
    String::from_utf8(output.stdout).unwrap()
}

/// Compares a text with the recorded one, or records it.
fn compare(file: &str, text: &str) {
    let path = folder().join(file);
    if std::env::var_os("BATTERBOARD_UPDATE").is_some_and(|v| v == "1") {
        fs::write(&path, text).unwrap();
        return;
    }
    let remedy = "run again with BATTERBOARD_UPDATE=1, read the difference, and commit it";
    let recorded =
        fs::read_to_string(&path).unwrap_or_else(|_| panic!("{file} is not recorded: {remedy}"));
    let differs = recorded
        .lines()
        .zip(text.lines())
        .enumerate()
        .find(|(_, (before, now))| before != now);
    if let Some((i, (before, now))) = differs {
        panic!("{file} line {}:\n- {before}\n+ {now}\n{remedy}", i + 1);
    }
    assert!(recorded == text, "{file} has another length: {remedy}");
}

#[test]
fn reports_are_the_recorded_ones() {
    let mut all_members = BTreeSet::new();
    for name in sites() {
        let site = format!("{name}.json");
        compare(&format!("{name}.report.txt"), &text_of(&["report", &site]));
        let json = text_of(&["report", &site, "--json"]);
        let report: Value = serde_json::from_str(&json).unwrap();
        compare(&format!("{name}.figures.txt"), &figures::text_of(&report));
        members::add(&report, &mut all_members);
        if name == IN_FULL {
            compare(&format!("{name}.report.json"), &json);
        }
    }
    let listed: Vec<String> = all_members.into_iter().collect();
    compare("report.members.txt", &(listed.join("\n") + "\n"));
}

#[test]
fn the_published_schemas_are_those_of_this_build() {
    compare("site.schema.json", &text_of(&["schema"]));
    compare("shell.schema.json", &text_of(&["schema", "--shell"]));
}

#[test]
fn sites_open_without_a_fault_and_are_saved_as_they_stand() {
    for name in sites() {
        let file = format!("{name}.json");
        let open = || {
            let text = fs::read_to_string(folder().join(&file)).unwrap();
            exchange::open(&text).unwrap_or_else(|faults| panic!("{name}: {faults:#?}"))
        };
        let opened = open();
        compare(&file, &exchange::save(opened.site.site(), &opened.unknown));
        // Read again, since an update may just have written the newest version.
        let opened = open();
        assert!(opened.findings.is_empty(), "{name}: {:#?}", opened.findings);
    }
}

#[test]
fn check_fails_where_a_clearance_falls_short() {
    for (name, code) in [
        ("level-suburban", 0),
        ("sloping-hillside", 0),
        ("wedge-cul-de-sac", 1),
        ("creek-side-deed", 0),
    ] {
        let output = run(&["check", &format!("{name}.json")]);
        let said = String::from_utf8_lossy(&output.stdout);
        assert_eq!(output.status.code(), Some(code), "{name}: {said}");
    }
}

#[test]
fn a_site_with_a_deed_has_the_courses_of_its_text() {
    let mut with_deed = 0;
    for name in sites() {
        let text = fs::read_to_string(folder().join(format!("{name}.json"))).unwrap();
        let opened = exchange::open(&text).unwrap();
        let lot = &opened.site.site().lot;
        let Some(deed) = &lot.deed else { continue };
        with_deed += 1;
        let reading = deed::read(deed, System::Feet);
        assert!(
            reading.findings.is_empty(),
            "{name}: {:?}",
            reading.findings
        );
        let shapes = |courses: &[Course]| courses.iter().map(|c| c.shape).collect::<Vec<_>>();
        assert_eq!(shapes(&reading.courses), shapes(&lot.courses), "{name}");
        assert!((reading.stated_area.unwrap() - lot.stated_area.unwrap()).abs() < 1e-9);
    }
    assert!(with_deed > 0);
}
