//! The plan on the page's canvas: the site, the work on it, and what a hand is at.

mod furniture;
mod hand;
mod sheet;
pub mod still;

use std::sync::Arc;

use batterboard_core::drawing::Focus;
use batterboard_core::session::{Session, handle, picture_handle};
use web_sys::CanvasRenderingContext2d;

use crate::paint::pen::Pen;
use crate::paint::{View, draw, labels, section};
use crate::picture::Pictured;
use still::{StillHalf, Subject};

/// Paints everything, lowest first.
pub fn paint(
    context: &CanvasRenderingContext2d,
    view: &View,
    session: &mut Session,
    still: &mut StillHalf,
    picture: &Pictured,
    focus: Focus<'_>,
) {
    let subject = Subject {
        drawing: Arc::clone(session.still_drawing()),
        picture: picture.shown(session.site().site()),
    };
    let lettering = still.lay_ground(context, view, &subject);
    let mut pen = Pen::new(context, view);
    let moving = session.work_drawing(focus);
    draw(&mut pen, view, &moving.items);
    let site = session.site();
    let handles = [handle(site, view.scale), picture_handle(site, view.scale)];
    let mut knobs = Vec::new();
    for (stem, knob) in handles.into_iter().flatten() {
        furniture::handle(&mut pen, view.place(stem), view.place(knob));
        knobs.push(view.place(knob));
    }
    // All text on top, so that no line strikes a word through.
    let moving = labels::lettering(view, moving.items.iter());
    let (of_still, of_moving) = labels::with_room(lettering, &moving, &knobs);
    still.lay_text(context, view, of_still);
    labels::write(&mut pen, &moving, &of_moving);
    if let Some(line) = session.shown_section_line() {
        section::on_plan(&mut pen, view, &line);
    }
    hand::set(&mut pen, view, session);
    furniture::north_arrow(&mut pen, view, &session.site().site().lot.basis);
    furniture::scale_bar(&mut pen, view, session.site().site().display);
}
