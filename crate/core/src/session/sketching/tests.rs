//! Drawing point by point, and shapes changed on the plan.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::super::draft::{Mode, NextPoint, Typed, Wanted};
use super::*;
use crate::geom::Vector;
use crate::math::TURN;
use crate::session::{Command, PickedPart};
use crate::site::{Feature, FeatureKind, ShapeRecord};
use crate::sketch::build::Way;

const QUARTER: f64 = TURN / 4.0;

fn house() -> Session {
    let mut session = Session::new().unwrap();
    let corners = [(5.0, 5.0), (15.0, 5.0), (15.0, 12.0), (5.0, 12.0)];
    let path: Vec<Vertex> = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
    let shape = ShapeRecord::Area(path.as_slice().into());
    let tree = ShapeRecord::Disc {
        at: Point::new(3.0, 20.0),
        radius: 2.0,
    };
    session
        .apply(Command::SetFeatures(vec![
            Feature::of("home", FeatureKind::House, shape),
            Feature::of("oak", FeatureKind::Tree, tree),
        ]))
        .unwrap();
    session
}

fn corners(session: &Session, id: &str) -> Vec<[f64; 2]> {
    let target = Target::Feature(id.to_owned());
    let round = |v: f64| (v * 1e6).round() / 1e6;
    target.paths(session.site().site())[0]
        .vertices
        .iter()
        .map(|v| [round(v.at.x), round(v.at.y)])
        .collect()
}

fn draw(wanted: Wanted) -> Session {
    let mut session = house();
    session.draw(wanted, Vec::new());
    session
}

fn tap(session: &mut Session, x: f64, y: f64) -> Option<Vec<Vertex>> {
    let draft = session.draft_mut().unwrap();
    draft.follow(Point::new(x, y), 0.3);
    draft.place().unwrap()
}

#[test]
fn a_path_is_drawn_by_taps_and_typed_figures() {
    let mut session = draw(Wanted::Closed);
    assert_eq!(tap(&mut session, 20.1, 20.0), None);
    let draft = session.draft_mut().unwrap();
    draft.typed(Some(6.0), Some(Typed::Way(Way::Bearing(QUARTER))));
    assert_eq!(draft.drawn().length.unwrap(), "19'-8 1/4\"");
    draft.place().unwrap();
    for _ in 0..2 {
        let draft = session.draft_mut().unwrap();
        draft.typed(Some(4.0), Some(Typed::Inside(QUARTER)));
        draft.place().unwrap();
    }
    let at: Vec<[f64; 2]> = session.draft().unwrap().points().map(Into::into).collect();
    assert_eq!(at.len(), 4);
    // Two inside angles to the same side: the third and the fourth corner lie north.
    assert!((at[2][1] - 24.0).abs() < 1e-9 && (at[3][0] - 22.1).abs() < 1e-9);
    let draft = session.draft_mut().unwrap();
    assert!(draft.back() && draft.drawn().ready);
    assert_eq!(draft.finish().unwrap().len(), 3);
    session.end_drawing();
    assert!(session.draft().is_none());
}

#[test]
fn the_hand_is_led_and_the_first_corner_closes() {
    let mut session = draw(Wanted::Closed);
    tap(&mut session, 15.1, 12.1);
    let start = session.draft().unwrap().points().next().unwrap();
    assert_eq!(start, Point::new(15.0, 12.0));
    tap(&mut session, 18.0, 14.0);
    tap(&mut session, 15.0, 16.0);
    let draft = session.draft_mut().unwrap();
    draft.follow(Point::new(15.2, 12.2), 0.3);
    assert!(draft.drawn().closes);
    assert_eq!(draft.place().unwrap().unwrap().len(), 3);
}

#[test]
fn an_arc_and_a_rectangle() {
    let mut session = draw(Wanted::Open);
    tap(&mut session, 20.0, 20.0);
    session.draft_mut().unwrap().set_mode(Mode::Arc);
    tap(&mut session, 22.0, 18.0);
    assert_eq!(session.draft().unwrap().drawn().wants, NextPoint::ArcEnd);
    tap(&mut session, 24.0, 20.0);
    let path = session.draft_mut().unwrap().finish().unwrap();
    assert!((path[0].bulge - 1.0).abs() < 1e-9 && path.len() == 2);

    let mut session = draw(Wanted::Closed);
    session.draft_mut().unwrap().set_mode(Mode::Rectangle);
    tap(&mut session, 18.0, 20.0);
    let by_corners = tap(&mut session, 24.0, 25.0).unwrap();
    assert_eq!(by_corners.len(), 4);
    assert!(by_corners[2].at.distance(Point::new(24.0, 25.0)) < 1e-9);

    let mut session = draw(Wanted::Closed);
    tap(&mut session, 18.0, 20.0);
    tap(&mut session, 24.0, 23.0);
    let draft = session.draft_mut().unwrap();
    draft.set_mode(Mode::Rectangle);
    draft.follow(Point::new(20.0, 25.0), 0.0);
    draft.typed(Some(2.0), None);
    let on_edge = draft.place().unwrap().unwrap();
    assert!((on_edge[1].at.distance(on_edge[2].at) - 2.0).abs() < 1e-9);
    assert!(on_edge[3].at.y > 20.0);
}

#[test]
fn a_refused_point_leaves_the_drawing() {
    let mut session = draw(Wanted::Closed);
    for (x, y) in [(20.0, 20.0), (26.0, 20.0), (20.0, 26.0), (26.0, 26.0)] {
        tap(&mut session, x, y);
    }
    let draft = session.draft_mut().unwrap();
    assert_eq!(draft.finish().unwrap_err()[0].code, "path-crosses-itself");
    assert_eq!(draft.points().count(), 4);
    draft.follow(Point::new(26.0, 26.0), 0.0);
    assert!(draft.place().is_err());
}

#[test]
fn a_corner_and_an_edge_are_dragged_as_one_step_each() {
    let mut session = house();
    session.choose_shape(Some(Target::Feature("home".into())));
    let before = session.save();
    assert!(matches!(
        session.grab(Point::new(15.1, 12.0), 0.3, 20.0),
        Some(DragTarget::Part(Handle {
            part: Part::Corner(2),
            ..
        }))
    ));
    session.drag_to(Point::new(16.0, 13.0), false);
    session.drag_to(Point::new(17.1, 14.0), false);
    session.release();
    assert_eq!(corners(&session, "home")[2], [17.0, 14.0]);
    assert_eq!(session.undo_label(), Some("move corner"));
    session.undo();
    assert_eq!(session.save(), before);

    assert!(session.grab(Point::new(15.0, 6.5), 0.3, 20.0).is_some());
    session.drag_to(Point::new(18.0, 7.0), false);
    session.release();
    assert_eq!(session.undo_label(), Some("move edge"));
    assert_eq!(corners(&session, "home")[1..3], [[18.0, 5.0], [18.0, 12.0]]);
    session.undo();

    // The handle in the middle adds a corner, which is picked then and can go again.
    session.grab(Point::new(10.0, 5.0), 0.3, 20.0).unwrap();
    session.drag_to(Point::new(10.0, 3.0), false);
    session.release();
    assert_eq!(corners(&session, "home")[1], [10.0, 3.0]);
    assert_eq!(session.shaped().unwrap().says, "corner 2 of 5");
    session.shape(ShapeEdit::Remove).unwrap();
    assert_eq!(session.undo_label(), Some("remove corner"));
    session.undo();
    session.undo();
    assert_eq!(session.save(), before);
}

#[test]
fn a_dragged_corner_is_led_square() {
    let mut session = house();
    session.choose_shape(Some(Target::Feature("home".into())));
    session.grab(Point::new(15.0, 12.0), 0.3, 20.0).unwrap();
    session.drag_to(Point::new(16.1, 11.9), true);
    let snap = session.snap().unwrap().clone();
    assert_eq!(snap.reason, "square to the edge after");
    session.release();
    assert_eq!(corners(&session, "home")[2], [16.1, 12.0]);
}

#[test]
fn what_the_door_refuses_is_held_back_and_told() {
    let mut session = house();
    session.choose_shape(Some(Target::Feature("home".into())));
    session.grab(Point::new(15.0, 12.0), 0.3, 20.0).unwrap();
    session.drag_to(Point::new(14.0, 11.0), false);
    session.drag_to(Point::new(3.0, 9.0), false);
    assert!(session.shaped().unwrap().word.contains("cross"));
    session.release();
    assert_eq!(corners(&session, "home")[2], [14.0, 11.0]);
    for _ in 0..3 {
        session.shape(ShapeEdit::Pick { back: false }).unwrap();
    }
    for _ in 0..2 {
        let _ = session.shape(ShapeEdit::Pick { back: false });
        if session.shaped().unwrap().picked == Some(PickedPart::Corner) {
            let _ = session.shape(ShapeEdit::Remove);
        }
    }
    assert!(corners(&session, "home").len() >= 3);
}

#[test]
fn a_whole_feature_and_a_disc_are_moved() {
    let mut session = house();
    session.choose_shape(Some(Target::Feature("home".into())));
    assert!(session.grab(Point::new(8.0, 8.0), 0.3, 20.0).is_some());
    session.drag_to(Point::new(9.0, 8.0), false);
    session.release();
    assert_eq!(session.undo_label(), Some("move feature"));
    assert_eq!(corners(&session, "home")[0], [6.0, 5.0]);

    session.choose_shape(Some(Target::Feature("oak".into())));
    session.grab(Point::new(5.0, 20.0), 0.3, 20.0).unwrap();
    session.drag_to(Point::new(6.0, 20.0), false);
    session.release();
    session.grab(Point::new(3.0, 20.0), 0.3, 20.0).unwrap();
    session.drag_to(Point::new(3.0, 21.0), false);
    session.release();
    let target = Target::Feature("oak".into());
    let (at, radius) = target.disc(session.site().site()).unwrap();
    assert!(at.distance(Point::new(3.0, 21.0)) < 1e-9 && (radius - 3.0).abs() < 1e-9);
}

#[test]
fn a_locked_feature_stays_and_says_so() {
    let mut session = house();
    let mut features = session.site().site().features.to_vec();
    features[0].locked = true;
    session.apply(Command::SetFeatures(features)).unwrap();
    session.choose_shape(Some(Target::Feature("home".into())));
    assert!(session.grab(Point::new(15.0, 12.0), 0.3, 20.0).is_none());
    assert!(session.shaped().unwrap().word.contains("locked"));
    let before = session.save();
    session
        .shape(ShapeEdit::Nudge(Vector::new(1.0, 0.0)))
        .unwrap();
    assert_eq!(session.save(), before);
    assert!(session.handles(20.0).0.is_empty());
}

#[test]
fn keys_pick_nudge_bend_square_and_type() {
    let mut session = house();
    session.choose_shape(Some(Target::Feature("home".into())));
    session.shape(ShapeEdit::Pick { back: false }).unwrap();
    assert_eq!(session.shaped().unwrap().says, "corner 1 of 4");
    session
        .shape(ShapeEdit::Nudge(Vector::new(0.2, -0.1)))
        .unwrap();
    assert_eq!(corners(&session, "home")[0], [5.2, 4.9]);
    session.shape(ShapeEdit::Square).unwrap();
    assert!(
        session
            .shaped()
            .unwrap()
            .word
            .contains("4 edges are square")
    );
    session.shape(ShapeEdit::Pick { back: false }).unwrap();
    session.shape(ShapeEdit::Bend).unwrap();
    assert_eq!(session.shaped().unwrap().picked, Some(PickedPart::Arc));
    // Outward: the area grew.
    session.shape(ShapeEdit::Bend).unwrap();
    let (length, bearing) = session.shaped().unwrap().run.unwrap();
    session
        .shape(ShapeEdit::Run(length + 1.0, bearing))
        .unwrap();
    let run = session.shaped().unwrap().run.unwrap();
    assert!((run.0 - length - 1.0).abs() < 1e-9);
    session.shape(ShapeEdit::Add).unwrap();
    assert_eq!(corners(&session, "home").len(), 5);
}

#[test]
fn the_lot_keeps_its_kinds_while_its_corners_move() {
    let mut session = house();
    let kinds = |session: &Session| -> Vec<_> {
        let courses = session.site().site().lot.courses.iter();
        courses.map(|c| c.kind).collect()
    };
    let before = kinds(&session);
    session.choose_shape(Some(Target::Lot));
    let corner = session.site().site().lot.corners()[1].at;
    session.grab(corner, 0.3, 20.0).unwrap();
    session.drag_to(corner + Vector::new(1.0, -0.5), false);
    session.release();
    assert_eq!(kinds(&session), before);
    let moved = session.site().site().lot.corners()[1].at;
    assert!(moved.distance(corner + Vector::new(1.0, -0.5)) < 1e-9);
    session
        .apply(Command::DrawLot {
            corners: [
                Vertex::line(0.0, 0.0),
                Vertex::line(20.0, 0.0),
                Vertex::line(10.0, 30.0),
            ][..]
                .into(),
        })
        .unwrap();
    assert_eq!(session.undo_label(), Some("draw the lot"));
    assert_eq!(kinds(&session).len(), 3);
}

#[test]
fn spots_and_breaklines_are_moved_added_and_taken_out() {
    use crate::ground::GroundRecord;
    let mut session = house();
    session
        .apply(Command::SetGround(GroundRecord::Spots {
            spots: vec![[1.0, 1.0, 0.0], [19.0, 1.0, 1.0], [10.0, 28.0, 2.0]],
            breaklines: vec![vec![[2.0, 3.0, 0.5], [12.0, 3.0, 1.5]]],
        }))
        .unwrap();
    let ground = |session: &Session| match &*session.site().site().ground {
        GroundRecord::Spots { spots, breaklines } => (spots.clone(), breaklines.clone()),
        _ => (Vec::new(), Vec::new()),
    };
    session.choose_shape(Some(Target::Spots));
    session.grab(Point::new(19.0, 1.0), 0.3, 20.0).unwrap();
    session.drag_to(Point::new(18.0, 2.0), false);
    session.release();
    assert_eq!(ground(&session).0[1], [18.0, 2.0, 1.0]);
    session.choose_shape(Some(Target::Breakline(0)));
    session.grab(Point::new(7.0, 3.0), 0.3, 20.0).unwrap();
    session.drag_to(Point::new(7.0, 4.0), false);
    session.release();
    let line = ground(&session).1[0].clone();
    assert_eq!(line.len(), 3);
    assert!((line[1][2] - 1.0).abs() < 1e-9 && line[1][1] == 4.0);
    session.shape(ShapeEdit::Remove).unwrap();
    assert_eq!(ground(&session).1[0].len(), 2);
}
