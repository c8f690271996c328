//! Tests: photographs of the yard through commands, undo and what is kept.

use super::*;
use crate::math::TURN;
use crate::site::{Photograph, Stage};

/// 7 by 3 pixels, written by Pillow 13.0.0 without notes.
const JPEG: &str = "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAKBueIx4ZKCMgoy0qqC+8P//8Nzc8P//////////////////////////////////////////////////////////2wBDAaq0tPDS8P//////////////////////////////////////////////////////////////////////////////wAARCAADAAcDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAQP/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCQAo//2Q==";

fn photograph(id: &str) -> Photograph {
    Photograph {
        id: id.to_owned(),
        at: Point::new(3.0, 4.0),
        bearing: None,
        when: "2026-11-30 09:40".to_owned(),
        stage: None,
        note: String::new(),
        width: 7,
        height: 3,
        data: JPEG.into(),
    }
}

fn apply(session: &mut Session, edit: PhotographEdit) {
    session.apply(Command::Photographs(edit)).unwrap();
}

fn with_two() -> Session {
    let mut session = Session::new().unwrap();
    apply(&mut session, PhotographEdit::Add(vec![photograph("a")]));
    apply(&mut session, PhotographEdit::Add(vec![photograph("b")]));
    session
}

fn all(session: &Session) -> Vec<Photograph> {
    session.site().site().photographs.to_vec()
}

fn said() -> PhotographEdit {
    PhotographEdit::Describe {
        id: "a".into(),
        note: "The bank at the shed".into(),
        stage: Some(Stage::Dug),
        when: "Monday".into(),
    }
}

#[test]
fn each_edit_is_a_step_of_its_own_and_no_data_is_copied() {
    let mut session = with_two();
    let first = all(&session);
    let id = || "a".to_owned();
    let at = Point::new(8.0, 9.0);
    apply(&mut session, PhotographEdit::Move { id: id(), at });
    assert_eq!(session.undo_label(), Some("move a photograph"));
    let bearing = Some(TURN + 1.0);
    apply(&mut session, PhotographEdit::Turn { id: id(), bearing });
    apply(&mut session, said());
    let now = all(&session);
    assert_eq!((now[0].at, now[0].stage), (at, Some(Stage::Dug)));
    assert!(now[0].bearing.is_some_and(|it| (it - 1.0).abs() < 1e-12));
    assert!(now[0].same_data(&first[0]) && now[1] == first[1]);
    apply(&mut session, PhotographEdit::Remove { id: id() });
    assert_eq!(all(&session), [first[1].clone()]);
    assert_eq!(session.undo_steps(1), 1);
    assert!(all(&session)[0].same_data(&first[0]));
    assert_eq!(session.undo_steps(5), 5);
    assert!(all(&session).is_empty());
    assert_eq!(session.redo_steps(2), 2);
    assert_eq!(all(&session), first);
    // One that is not there, and one that is there already.
    let gone = Command::Photographs(PhotographEdit::Remove { id: "z".into() });
    assert_eq!(session.apply(gone).unwrap_err()[0].code, "no-photograph");
    let again = Command::Photographs(PhotographEdit::Add(vec![photograph("a")]));
    assert_eq!(session.apply(again).unwrap_err()[0].code, "photograph-id");
    assert_eq!(all(&session), first);
}

#[test]
fn a_file_without_the_data_and_the_data_are_the_file() {
    let session = with_two();
    let bare = session.save_bare();
    let data = images::of(session.site().site());
    assert!(!bare.contains(JPEG) && session.save().matches(JPEG).count() == 2);
    assert_eq!(data, format!("\na {JPEG}\nb {JPEG}"));
    let mut other = Session::new().unwrap();
    other.open_kept(&bare, &data).unwrap();
    assert_eq!(other.save(), session.save());
    let faults = other.open_kept(&bare, "\na x").unwrap_err();
    let places: Vec<&str> = faults.iter().map(|it| it.pointer.as_str()).collect();
    assert_eq!(places, ["/photographs/0/data", "/photographs/1/data"]);
    other.open_kept(&session.save(), "").unwrap();
    assert_eq!(other.save(), session.save());
}

#[test]
fn undo_outlives_the_page_and_what_was_removed_is_written_once() {
    const ROOM: usize = 100_000;
    let mut session = with_two();
    apply(&mut session, said());
    assert!(!session.keepsake(ROOM).history.contains(JPEG));
    apply(&mut session, PhotographEdit::Remove { id: "a".into() });
    apply(&mut session, PhotographEdit::Remove { id: "b".into() });
    let kept = session.keepsake(ROOM);
    // The two have the same data here, and so it stands there once.
    assert_eq!(kept.history.matches(JPEG).count(), 1);
    let mut other = Session::new().unwrap();
    other.open_kept(&kept.text, "").unwrap();
    assert!(other.restore_history(&kept.history));
    assert_eq!(other.undo_steps(1), 1);
    assert_eq!(all(&other)[0].id, "b");
    assert_eq!(other.undo_steps(1), 1);
    assert_eq!(all(&other)[0].note, "The bank at the shed");
    assert_eq!(other.undo_steps(9), 3);
    assert!(all(&other).is_empty());
    // Where there is no room for the data, the steps that need it are left out.
    let mut short = Session::new().unwrap();
    short.open_kept(&kept.text, "").unwrap();
    assert!(short.restore_history(&session.keepsake(JPEG.len()).history));
    assert!(!short.undo());
}

#[test]
fn an_edit_elsewhere_leaves_the_photographs_as_they_are() {
    let mut session = with_two();
    let before = std::sync::Arc::clone(&session.site().site().photographs);
    let name = crate::shell::catalogue::all()[0].name.clone();
    session
        .apply(Command::ChooseShell(crate::site::ShellChoice::Catalogue(
            name,
        )))
        .unwrap();
    let at = session.site().site().placement.as_ref().unwrap().at;
    session.grab(at, 0.3, 20.0).unwrap();
    session.drag_to(Point::new(at.x + 1.0, at.y), false);
    session.release();
    let after = &session.site().site().photographs;
    assert!(std::sync::Arc::ptr_eq(&before, after));
}

#[test]
fn the_report_lists_them_and_shows_nothing_of_them() {
    let mut session = with_two();
    apply(&mut session, said());
    let bearing = Some(TURN / 8.0);
    let id = "a".into();
    apply(&mut session, PhotographEdit::Turn { id, bearing });
    let system = crate::units::System::Metres;
    let report = crate::report::Report::new(session.site(), session.analysis(), system);
    let text = report.to_text();
    for part in [
        "Photographs",
        "looking northeast",
        "Dug, Monday, The bank at the shed",
        "direction not entered",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
    assert!(!text.contains(JPEG) && !report.to_json().contains(JPEG));
    assert!(report.to_json().contains("\"toward\": \"northeast\""));
}

#[test]
fn no_file_for_others_holds_them() {
    use exchange::outgoing::{FileForm, FileWish, write};
    let mut session = with_two();
    apply(&mut session, said());
    let origin = crate::site::GeoOrigin {
        latitude: 0.6,
        longitude: -1.2,
    };
    session.apply(Command::SetOrigin(Some(origin))).unwrap();
    for form in [FileForm::Geojson, FileForm::Points, FileForm::Landxml] {
        let wish = FileWish {
            form,
            parts: exchange::geojson::Parts::default(),
            frame: None,
            order: None,
            seconds: 0,
        };
        let text = write(session.site(), session.analysis(), &wish).unwrap();
        assert!(!text.contains(JPEG) && !text.contains("The bank at the shed"));
    }
}

#[test]
fn changes_are_told_in_words() {
    let mut session = with_two();
    let before = session.site().site().as_ref().clone();
    apply(&mut session, said());
    apply(&mut session, PhotographEdit::Remove { id: "b".into() });
    let after = session.site().site();
    let told = exchange::changes::between(&before, after);
    let words: Vec<&str> = told.iter().map(|it| it.words.as_str()).collect();
    assert_eq!(
        words,
        [
            "1 photograph removed.",
            "1 photograph: moved, turned or described anew."
        ]
    );
}
