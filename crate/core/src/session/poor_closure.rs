//! A lot that closes worse than was asked says so wherever one of its figures appears.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::finding::Caveat;
use crate::lot::{CourseShape, LotRecord};
use crate::report::Report;
use crate::shell::catalogue;
use crate::site::{Feature, FeatureKind, ShapeRecord, ShellChoice};

/// A shell on a blank lot of which one side is 0.1 m too long.
fn session(asked: f64) -> Session {
    let mut session = Session::new().unwrap();
    let name = catalogue::all()[0].name.clone();
    let mut lot = LotRecord::clone(&session.site().site().lot);
    lot.closing_ratio = asked;
    let CourseShape::Line { distance, .. } = &mut lot.courses[1].shape else {
        panic!("the blank lot is straight");
    };
    *distance += 0.1;
    let easement = Feature::of(
        "rear",
        FeatureKind::Easement,
        ShapeRecord::Along {
            course: 2,
            width: 2.0,
        },
    );
    let edits = vec![
        Command::SetFeatures(vec![easement]),
        Command::SetLot(lot),
        Command::ChooseShell(ShellChoice::Catalogue(name)),
    ];
    session
        .apply(Command::Together {
            label: "set up".into(),
            commands: edits,
        })
        .unwrap();
    session
}

#[test]
fn poor_closure_is_told_beside_every_figure_of_the_lot() {
    let session = session(5000.0);
    let sentence = "The lot does not close within 1:5,000.";
    let ledger = Ledger::of(&session, Listed::default());
    assert!(
        ledger.verdict.text.ends_with(sentence),
        "{}",
        ledger.verdict.text
    );
    let words = Caveat::PoorClosure.words();
    let (lot_lines, others): (Vec<_>, Vec<_>) = clearance_rows(&session)
        .into_iter()
        .partition(|row| row.target.contains("line") || row.target == "easement");
    assert!(lot_lines.len() >= 4 && lot_lines.iter().all(|row| row.caveats == [words]));
    assert!(others.iter().all(|row| row.caveats.is_empty()));
    assert!(lot_lines.iter().any(|row| row.target == "easement"));

    let site = session.site();
    let report = Report::new(site, session.analysis(), site.site().display);
    let text = report.to_text();
    let marked = format!("[{words}]");
    let lot_part = text.split("\nLot\n").nth(1).unwrap();
    let has = |begin: &str| {
        let line = lot_part
            .lines()
            .find(|line| line.trim_start().starts_with(begin));
        line.unwrap_or_else(|| panic!("{begin}: {text}"))
            .contains(&marked)
    };
    for figure in ["Area", "Perimeter", "front line", "side line", "rear line"] {
        assert!(has(figure), "{figure}: {text}");
    }
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(sentence) && flat.contains("Asked to close within 1:5,000"));
    let json: serde_json::Value = serde_json::from_str(&report.to_json()).unwrap();
    assert_eq!(json["lot"]["caveats"][0], "poor-closure");
    let sides = json["lot"]["sides"].as_array().unwrap();
    assert!(
        sides
            .iter()
            .all(|side| side["caveats"][0] == "poor-closure")
    );
    let check = report.to_check_text();
    let flat = check.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(check.contains(&marked) && flat.contains(sentence));
}

#[test]
fn a_lot_that_closes_well_enough_says_nothing() {
    let session = session(1000.0);
    let ledger = Ledger::of(&session, Listed::default());
    assert!(!ledger.verdict.text.contains("close"));
    assert!(
        clearance_rows(&session)
            .iter()
            .all(|row| row.caveats.is_empty())
    );
    let site = session.site();
    let report = Report::new(site, session.analysis(), site.site().display);
    assert!(!report.to_text().contains(Caveat::PoorClosure.words()));
    assert!(!report.to_json().contains("poor-closure"));
}
