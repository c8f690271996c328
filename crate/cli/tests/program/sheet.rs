//! Sheets from the command line.

use std::fs;
use std::path::PathBuf;

use crate::run::told as run;

const DEMOS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo-sites");

/// An empty folder of this test alone.
fn folder(name: &str) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).unwrap();
    path
}

#[test]
fn a_sheet_is_written_and_its_site_read_back_from_it() {
    let folder = folder("sheet-one");
    let (site, plan) = (
        format!("{DEMOS}/level-suburban.json"),
        folder.join("plan.pdf"),
    );
    let plan = plan.to_str().unwrap();
    let told = run(&[
        "sheet", &site, "--kind", "permit", "--paper", "arch-d", "--scale", "10", "-o", plan,
    ])
    .unwrap();
    assert!(told.contains("plan.pdf"));
    assert_eq!(run(&["report", plan]), run(&["report", &site]));
    let svg = folder.join("plan.svg");
    run(&[
        "sheet",
        &site,
        "--kind",
        "dig",
        "--lang",
        "es",
        "--day",
        "2026-11-29",
        "-o",
        svg.to_str().unwrap(),
    ])
    .unwrap();
    let text = fs::read_to_string(&svg).unwrap();
    assert!(text.contains("Hoja de excavación") && text.contains("2026-11-29"));
    assert!(folder.join("plan-2.svg").exists(), "one file to a page");
}

#[test]
fn a_folder_of_sites_gets_a_sheet_each_and_what_is_no_site_is_told() {
    let folder = folder("sheet-many");
    let told = run(&[
        "sheet",
        DEMOS,
        "--kind",
        "home",
        "-o",
        folder.to_str().unwrap(),
    ])
    .unwrap();
    for name in [
        "creek-side-deed",
        "level-suburban",
        "sloping-hillside",
        "wedge-cul-de-sac",
    ] {
        assert!(folder.join(format!("{name}.home.pdf")).exists(), "{told}");
    }
    assert!(told.contains("site.schema.json"), "{told}");
}

#[test]
fn what_cannot_be_written_is_said_with_what_can() {
    let folder = folder("sheet-not");
    let site = format!("{DEMOS}/level-suburban.json");
    let out = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    for (arguments, words) in [
        (
            vec!["--kind", "permit", "-o", "x.docx"],
            "none of .pdf, .svg and .png",
        ),
        (
            vec!["--kind", "permit", "--lang", "es", "-o", "x.pdf"],
            "English only",
        ),
        (
            vec!["--kind", "record", "-o", "x.pdf"],
            "Nothing was read back",
        ),
        (
            vec!["--kind", "permit", "--scale", "big", "-o", "x.pdf"],
            "is no scale",
        ),
        (vec!["--kind", "deed", "-o", "x.pdf"], "permit"),
    ] {
        let mut all = vec!["sheet", &site];
        let path = out(arguments.last().unwrap());
        all.extend(&arguments[..arguments.len() - 1]);
        all.push(&path);
        let told = run(&all).unwrap_err();
        assert!(told.contains(words), "{arguments:?}: {told}");
    }
    let told = run(&[
        "sheet",
        &site,
        "--kind",
        "permit",
        "--paper",
        "letter",
        "--scale",
        "4",
        "-o",
        &out("y.pdf"),
    ])
    .unwrap();
    assert!(told.contains("outside this sheet"), "{told}");
}
