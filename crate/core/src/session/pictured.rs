//! Tests: a picture under the plan through commands, the hand, undo and files.

use super::*;
use crate::math::TURN;
use crate::site::{Fit, Picture, PictureMedia};

/// 7 by 3 pixels, written by Pillow 13.0.0.
const PNG: &str = "iVBORw0KGgoAAAANSUhEUgAAAAcAAAADCAIAAADQoYKSAAAAFElEQVR4nGM8ISfHgAGYMIVwigIAQrIBCutUVQcAAAAASUVORK5CYII=";

fn plat() -> Picture {
    Picture {
        name: "Plat".into(),
        media: PictureMedia::Png,
        data: PNG.into(),
        width: 7,
        height: 3,
        at: Point::new(10.0, 12.0),
        scale: 5.0,
        heading: 0.0,
        opacity: 0.7,
        hidden: false,
        locked: false,
    }
}

fn with_picture() -> Session {
    let mut session = Session::new().unwrap();
    session.apply(Command::SetPicture(Some(plat()))).unwrap();
    session
}

fn picture(session: &Session) -> Picture {
    Picture::clone(session.site().site().picture.as_ref().unwrap())
}

#[test]
fn an_edit_without_data_keeps_the_data_and_undoes_in_one_step() {
    let mut session = with_picture();
    let before = picture(&session);
    let faded = Picture {
        opacity: 0.3,
        ..before.bare()
    };
    session.apply(Command::SetPicture(Some(faded))).unwrap();
    let after = picture(&session);
    assert!(after.same_data(&before) && after.opacity == 0.3);
    assert_eq!(session.undo_label(), Some("change the picture"));
    assert!(session.undo());
    assert_eq!(picture(&session), before);
    assert!(session.undo() && session.site().site().picture.is_none());
    assert!(session.redo() && session.redo());
    assert_eq!(picture(&session), after);
    // Without one there is nothing whose data could be meant.
    session.apply(Command::SetPicture(None)).unwrap();
    let faults = session
        .apply(Command::SetPicture(Some(plat().bare())))
        .unwrap_err();
    assert_eq!(faults.first().map(|f| f.code), Some("picture-data"));
}

#[test]
fn two_points_lay_it_and_a_lock_holds_it() {
    let mut session = with_picture();
    let fit = Fit {
        first: Point::new(-5.0, 12.0),
        second: Point::new(20.0, 12.0),
        distance: Some(50.0),
        bearing: None,
    };
    // The points are five pixels apart, which tells no scale.
    let faults = session.apply(Command::FitPicture(fit)).unwrap_err();
    assert_eq!(faults.first().map(|f| f.code), Some("points-too-close"));
    let finer = Picture {
        scale: 0.5,
        ..plat().bare()
    };
    session.apply(Command::SetPicture(Some(finer))).unwrap();
    session.apply(Command::FitPicture(fit)).unwrap();
    assert!((picture(&session).scale - 1.0).abs() < 1e-12);
    let locked = Picture {
        locked: true,
        ..picture(&session).bare()
    };
    session.apply(Command::SetPicture(Some(locked))).unwrap();
    let faults = session.apply(Command::FitPicture(fit)).unwrap_err();
    assert_eq!(faults.first().map(|f| f.code), Some("picture-locked"));
    let at = picture(&session).at;
    assert_eq!(session.hit_test(at, 0.3, 20.0), None);
    session.apply(Command::SetPicture(None)).unwrap();
    let faults = session.apply(Command::FitPicture(fit)).unwrap_err();
    assert_eq!(faults.first().map(|f| f.code), Some("no-picture"));
}

#[test]
fn the_hand_moves_and_turns_it_in_one_step_each() {
    let mut session = with_picture();
    let before = picture(&session);
    let at = Point::new(12.0, 13.0);
    assert_eq!(session.grab(at, 0.3, 20.0), Some(DragTarget::Picture));
    session.drag_to(Point::new(20.0, 10.0), true);
    session.drag_to(Point::new(22.0, 10.0), true);
    session.release();
    assert_eq!(picture(&session).at, Point::new(20.0, 9.0));
    assert_eq!(session.undo_label(), Some("move the picture"));
    assert!(session.undo());
    assert_eq!(picture(&session), before);

    // The knob stands above the middle of the upper edge; led to the east of the middle.
    let (edge, knob) = picture_handle(session.site(), 20.0).unwrap();
    assert_eq!(edge, Point::new(10.0, 19.5));
    assert_eq!(session.grab(knob, 0.3, 20.0), Some(DragTarget::TurnPicture));
    session.drag_to(Point::new(40.0, 12.0), true);
    session.release();
    assert!((picture(&session).heading - TURN / 4.0).abs() < 1e-12);
    assert!(picture(&session).same_data(&before));
    assert!(session.undo());
    assert_eq!(picture(&session), before);
}

#[test]
fn a_file_without_the_data_and_the_data_are_the_file() {
    let session = with_picture();
    let bare = session.save_bare();
    assert!(!bare.contains(PNG) && session.save().contains(PNG));
    let mut other = Session::new().unwrap();
    other.open_kept(&bare, PNG).unwrap();
    assert_eq!(other.save(), session.save());
    assert!(other.open_kept(&bare, "").is_err());
    other.open_kept(&session.save(), "").unwrap();
    assert_eq!(other.save(), session.save());
}

#[test]
fn a_picture_is_told_for_what_it_is() {
    let session = with_picture();
    let told = &session.analysis().findings;
    let caution = told.iter().find(|f| f.code == "picture-is-no-survey");
    assert!(caution.is_some_and(|f| f.pointer == "/picture"));
    let report = crate::report::Report::new(
        session.site(),
        session.analysis(),
        crate::units::System::Metres,
    );
    let text = report.to_text();
    for part in [
        "Picture under the plan",
        "7 by 3 pixels",
        "35",
        "a picture, no survey",
    ] {
        assert!(text.contains(part), "{part} in {text}");
    }
}
