//! The plan on the page's canvas: the site, the work on it, and what a hand is at.

mod furniture;
mod hand;
pub mod labels;
mod sheet;
pub mod small;
pub mod stakes;
pub mod still;

use std::sync::Arc;

use batterboard_core::drawing::Focus;
use batterboard_core::session::{Session, handle, picture_handle};
use web_sys::CanvasRenderingContext2d;

use crate::paint::labels::write;
use crate::paint::pen::{Pen, Place};
use crate::paint::{View, draw, section};
use crate::picture::Pictured;
use labels::PlanLabels;
use still::{StillHalf, Subject};

/// The handles that turn the shell and the picture: where each begins, and its knob.
fn turning_handles(view: &View, session: &Session) -> impl Iterator<Item = (Place, Place)> {
    let site = session.site();
    let handles = [handle(site, view.scale), picture_handle(site, view.scale)];
    let places = handles.map(|it| it.map(|(stem, knob)| (view.place(stem), view.place(knob))));
    places.into_iter().flatten()
}

/// Paints everything, lowest first.
pub fn paint(
    context: &CanvasRenderingContext2d,
    view: &View,
    session: &mut Session,
    still: &mut StillHalf,
    labels: &mut PlanLabels,
    picture: &Pictured,
    focus: Focus<'_>,
) {
    let subject = Subject {
        drawing: Arc::clone(session.still_drawing()),
        picture: picture.shown(session.site().site()),
    };
    let renewed = still.lay_ground(context, view, &subject);
    if renewed {
        labels.set_still(context, view, &subject.drawing);
    }
    let mut pen = Pen::new(context, view);
    let mut moving = session.work_drawing(focus);
    moving.items.extend(
        session
            .clear_ground_drawing()
            .into_iter()
            .flat_map(|it| it.items),
    );
    draw(&mut pen, view, &moving.items);
    let ring = session.turn_ring(view.scale);
    if let Some(ring) = &ring {
        furniture::turn_ring(&mut pen, view, ring);
    }
    for (stem, knob) in turning_handles(view, session) {
        furniture::handle(&mut pen, stem, knob);
    }
    // All text on top, so that no line strikes a word through.
    labels.lay(context, view, &moving, session, ring.as_ref());
    still.lay_text(context, view, labels.layout());
    write(&mut pen, labels.layout().moving());
    if let Some(line) = session.shown_section_line() {
        section::on_plan(&mut pen, view, &line);
    }
    hand::set(&mut pen, view, session);
    furniture::north_arrow(&mut pen, view, &session.site().site().lot.basis);
    furniture::scale_bar(&mut pen, view, session.site().site().display);
}
