//! Tapes follow their things, go with them, wait for the work, and say what they rest on.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Vector};
use crate::session::Command;
use crate::session::tests::with_shell;
use crate::site::{EquipmentPad, Facts, Tape};

fn house(x: f64) -> Feature {
    let corners = [(x, 2.0), (x + 6.0, 2.0), (x + 6.0, 8.0), (x, 8.0)];
    let path = corners.map(|(x, y)| VertexRecord::Line([x, y])).to_vec();
    Feature::of(
        "house",
        FeatureKind::House,
        ShapeRecord::Area(PathRecord(path)),
    )
}

fn line(known_from: Option<KnownFrom>) -> Feature {
    let path = vec![
        VertexRecord::Line([25.0, 1.0]),
        VertexRecord::Line([25.0, 40.0]),
    ];
    let shape = ShapeRecord::Track(PathRecord(path));
    Feature {
        facts: Facts {
            known_from,
            ..Facts::default()
        },
        ..Feature::of("line", FeatureKind::BuriedLine, shape)
    }
}

fn tape(from: TapeEnd, to: TapeEnd) -> Tape {
    Tape { from, to }
}

fn named(id: &str) -> TapeEnd {
    TapeEnd::Feature(id.to_owned())
}

const WATER: TapeEnd = TapeEnd::Work(MeasuredFrom::WatersEdge);
const PAD: TapeEnd = TapeEnd::Work(MeasuredFrom::Equipment);

/// A shell, a house and a buried line, with these tapes.
fn taped(tapes: Vec<Tape>) -> Session {
    let mut session = with_shell();
    let features = vec![house(3.0), line(None)];
    session.apply(Command::SetFeatures(features)).unwrap();
    session.apply(Command::SetTapes(tapes)).unwrap();
    session
}

fn reading(session: &Session, index: usize) -> Option<f64> {
    session.analysis().tapes[index].map(|it| it.distance)
}

fn says(session: &Session, index: usize) -> String {
    rows(session.site(), session.analysis())[index]
        .says
        .join(" ")
}

#[test]
fn a_tape_follows_the_things_it_is_held_to() {
    let spot = TapeEnd::At(Point::new(12.0, 5.0));
    let mut session = taped(vec![
        tape(named("house"), spot),
        tape(named("house"), named("line")),
        tape(WATER, named("line")),
    ]);
    assert_eq!(reading(&session, 0), Some(3.0));
    assert_eq!(reading(&session, 1), Some(16.0));
    let features = vec![house(5.0), line(None)];
    session.apply(Command::SetFeatures(features)).unwrap();
    assert_eq!(
        (reading(&session, 0), reading(&session, 1)),
        (Some(1.0), Some(14.0))
    );
    // With the shell, in every frame of a drag.
    let before = reading(&session, 2).unwrap();
    let at = session.site().site().placement.as_ref().unwrap().at;
    session.grab(at, 0.1, 50.0).unwrap();
    session.drag_to(at + Vector::new(-1.5, 0.0), false);
    assert!((reading(&session, 2).unwrap() - before - 1.5).abs() < 1e-9);
    session.cancel();
    assert_eq!(reading(&session, 2), Some(before));
    // One step of the history each.
    session.apply(Command::SetTapes(Vec::new())).unwrap();
    assert!(session.analysis().tapes.is_empty());
    assert!(session.undo() && session.analysis().tapes.len() == 3);
    assert_eq!(session.steps().redo, ["change the tapes"]);
}

#[test]
fn a_tape_goes_with_its_feature_and_waits_for_the_work() {
    let pad = EquipmentPad {
        at: Point::new(20.0, 30.0),
        heading: 0.0,
        length: 2.0,
        width: 1.0,
    };
    let mut session = taped(vec![tape(named("house"), WATER), tape(named("line"), PAD)]);
    assert_eq!(reading(&session, 1), None);
    assert!(says(&session, 1).contains("waits"));
    session.apply(Command::SetEquipment(Some(pad))).unwrap();
    assert!((reading(&session, 1).unwrap() - 4.5).abs() < 1e-9);
    session.apply(Command::RemoveShell).unwrap();
    assert_eq!(reading(&session, 0), None);
    assert!(session.undo() && reading(&session, 0).is_some());
    // The feature is removed: the tape went with it, and comes back with it.
    session
        .apply(Command::SetFeatures(vec![line(None)]))
        .unwrap();
    let kept = &session.site().site().tapes;
    assert_eq!(kept, &[tape(named("line"), PAD)]);
    assert!(session.undo() && session.analysis().tapes.len() == 2);
}

#[test]
fn a_tape_that_says_nothing_is_refused() {
    let mut session = taped(Vec::new());
    let at = TapeEnd::At(Point::new(1e9, 0.0));
    for (tape, code, pointer) in [
        (tape(WATER, WATER), "tape-ends", "/tapes/0"),
        (tape(WATER, at), "out-of-range", "/tapes/0/to/at"),
    ] {
        let faults = session.apply(Command::SetTapes(vec![tape])).unwrap_err();
        assert_eq!(
            (faults[0].code, faults[0].pointer.as_str()),
            (code, pointer)
        );
    }
    // In a file an end that is nowhere is a fault; an edit would have dropped the tape.
    let mut site = crate::site::Site::clone(session.site().site());
    site.tapes = vec![tape(named("barn"), TapeEnd::Side(9))];
    let faults = CheckedSite::check(site, None).unwrap_err();
    assert_eq!(faults.len(), 2, "{faults:?}");
    assert!(faults.iter().all(|fault| fault.code == "tape-end"));
}

#[test]
fn what_is_exact_and_what_is_a_guess_is_said() {
    let dig = TapeEnd::Work(MeasuredFrom::Dig);
    let mut session = taped(vec![
        tape(named("line"), dig),
        tape(named("house"), TapeEnd::Side(0)),
        tape(TapeEnd::At(Point::new(4.0, 3.0)), named("house")),
        tape(WATER, TapeEnd::Work(MeasuredFrom::Rim)),
    ]);
    assert!(says(&session, 0).contains("nobody has entered how its place is known"));
    assert!(says(&session, 0).contains("moves with the ground"));
    assert!(says(&session, 1).contains("no survey") && says(&session, 1).contains("as drawn"));
    assert!(says(&session, 2).starts_with("The point lies inside the house."));
    assert_eq!(reading(&session, 2), Some(1.0));
    // From inside, a rim is as far as it is wide.
    let rim = session.analysis().work.rim;
    assert!((reading(&session, 3).unwrap() - rim).abs() < 1e-3);
    for (known_from, words) in [
        (KnownFrom::Marked, "as marked"),
        (KnownFrom::Drawing, "no mark"),
        (KnownFrom::Memory, "memory alone"),
    ] {
        let features = vec![house(3.0), line(Some(known_from))];
        session.apply(Command::SetFeatures(features)).unwrap();
        assert!(says(&session, 0).contains(words), "{}", says(&session, 0));
    }
    let mut poor = crate::lot::LotRecord::clone(&session.site().site().lot);
    poor.deed = Some("Beginning at a pin".to_owned());
    session.apply(Command::SetLot(poor)).unwrap();
    assert!(says(&session, 1).contains("from the deed"));
}

#[test]
fn a_hand_finds_the_nearest_edge_then_what_stands_there_then_the_point() {
    let session = taped(Vec::new());
    let end = |x: f64, y: f64| session.tape_end_at(Point::new(x, y), 0.5);
    assert_eq!(end(9.2, 5.0), named("house"));
    assert_eq!(end(6.0, 5.0), named("house"));
    assert_eq!(end(25.3, 20.0), named("line"));
    assert_eq!(end(15.0, 0.2), TapeEnd::Side(0));
    assert_eq!(end(15.0, 5.0), TapeEnd::At(Point::new(15.0, 5.0)));
    let at = session.site().site().placement.as_ref().unwrap().at;
    assert_eq!(session.tape_end_at(at, 0.1), WATER);
    let names = session.tape_choices();
    let names: Vec<&str> = names.iter().map(|it| it.name.as_str()).collect();
    assert_eq!(
        names[..4],
        ["water's edge", "rim", "deck edge", "top of dig"]
    );
    assert_eq!(names[8..], ["house", "buried line"]);
}

#[test]
fn a_file_keeps_its_tapes() {
    let tapes = vec![
        tape(WATER, TapeEnd::Side(2)),
        tape(named("house"), TapeEnd::At(Point::new(1.0, 2.5))),
    ];
    let session = taped(tapes.clone());
    let mut other = Session::new().unwrap();
    assert!(
        other
            .open(&session.save())
            .unwrap()
            .iter()
            .all(|f| !f.is_fault())
    );
    assert_eq!(other.site().site().tapes, tapes);
    // One without any says nothing of them.
    assert!(!taped(Vec::new()).save().contains("tapes"));
}
