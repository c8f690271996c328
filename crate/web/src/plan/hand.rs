//! What a hand is at: the handles of a shape being changed, the path being drawn, and the lines
//! that show why a point is where it is.

use crate::paint::View;
use crate::paint::ink::Ink;
use crate::paint::ink::hand::{CORNER, DRAWN, GUIDE, IN_HAND, PAPER_EDGE, PICKED};
use crate::paint::pen::{Pen, Place};
use batterboard_core::geom::{Point, Segment};
use batterboard_core::session::{Part, Session};

/// Half the side of a corner's handle, CSS pixels.
pub const HANDLE: f64 = 8.0;

/// Where the handles of the shape being changed lie.
pub fn handle_places(view: &View, session: &Session) -> impl Iterator<Item = Place> {
    let (handles, _) = session.handles(view.scale);
    handles.into_iter().map(|handle| view.place(handle.at))
}

/// Guides, handles, and the path being drawn.
pub fn set(pen: &mut Pen<'_>, view: &View, session: &Session) {
    if let Some(snap) = session.snap() {
        guides(pen, view, &snap.guides);
    }
    if let Some(shown) = session.shown_path() {
        let edges: Vec<Segment> = (0..shown.edges()).filter_map(|i| shown.edge(i)).collect();
        pen.path(view, &edges, false, &PAPER_EDGE);
        pen.path(view, &edges, false, &IN_HAND);
        if let Some(start) = shown.vertices.first() {
            square(pen, view.place(start.at), &CORNER);
        }
    }
    handles(pen, view, session);
    draft(pen, view, session);
}

fn guides(pen: &mut Pen<'_>, view: &View, guides: &[(Point, Point)]) {
    for (from, to) in guides {
        pen.line(view.place(*from), view.place(*to), &GUIDE);
    }
}

fn handles(pen: &mut Pen<'_>, view: &View, session: &Session) {
    let (handles, picked) = session.handles(view.scale);
    if let Some(edge) = session.picked_edge() {
        pen.path(view, &[edge], false, &PAPER_EDGE);
        pen.path(view, &[edge], false, &DRAWN);
    }
    for placed in handles {
        let at = view.place(placed.at);
        let ink = if picked == Some(placed.handle) {
            &PICKED
        } else {
            &CORNER
        };
        match placed.handle.part {
            Part::Middle(_) => {
                pen.disc(at, 6.5, ink);
                cross(pen, at, 3.5, 1.5);
            }
            Part::Rim | Part::Whole => pen.disc(at, 9.0, ink),
            _ => square(pen, at, ink),
        }
    }
}

fn draft(pen: &mut Pen<'_>, view: &View, session: &Session) {
    let Some(draft) = session.draft() else { return };
    if let Some(caught) = draft.caught() {
        guides(pen, view, &caught.guides);
    }
    let (placed, hand) = draft.stretches();
    for ink in [&PAPER_EDGE, &DRAWN] {
        pen.path(view, &placed, false, ink);
    }
    pen.path(view, &hand, false, &PAPER_EDGE);
    pen.path(view, &hand, false, &IN_HAND);
    for point in draft.points() {
        square(pen, view.place(point), &CORNER);
    }
    if let Some(at) = draft.at() {
        let at = view.place(at);
        cross(pen, at, 22.0, 6.0);
        pen.disc(at, 3.0, &PICKED);
        if let (Some(length), Some(line)) = (draft.drawn().length, hand.first())
            && hand.len() == 1
        {
            pen.text(
                beside(view, line),
                core::f64::consts::FRAC_PI_2,
                &length,
                &DRAWN,
            );
        }
    }
}

/// A place for a stretch's length: above its middle.
fn beside(view: &View, line: &Segment) -> Place {
    let (x, y) = view.place(line.point_at(0.5));
    (x, y - 18.0)
}

fn square(pen: &mut Pen<'_>, (x, y): Place, ink: &Ink) {
    let (a, b) = (HANDLE, -HANDLE);
    pen.shape(
        &[
            (x + a, y + a),
            (x + b, y + a),
            (x + b, y + b),
            (x + a, y + b),
        ],
        ink,
    );
}

/// Four strokes that leave the middle free by `gap`.
fn cross(pen: &mut Pen<'_>, (x, y): Place, reach: f64, gap: f64) {
    let gap = if gap < reach { gap } else { 0.0 };
    let ink = Ink {
        width: 2.0,
        ..DRAWN
    };
    for (dx, dy) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
        let from = (x + dx * gap, y + dy * gap);
        pen.line(from, (x + dx * reach, y + dy * reach), &ink);
    }
}
