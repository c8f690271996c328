//! The plan on the page's canvas: the site, the work on it, and what a hand is at.

mod furniture;
mod hand;

use crate::paint::ink::PAPER;
use crate::paint::pen::Pen;
use crate::paint::{View, draw, labels, section};
use batterboard_core::drawing::{Focus, Item, Layer};
use batterboard_core::session::{Session, handle, picture_handle};
use web_sys::CanvasRenderingContext2d;

use crate::picture::Pictured;

/// Paints everything, lowest first.
pub fn paint(
    context: &CanvasRenderingContext2d,
    view: &View,
    session: &mut Session,
    picture: &Pictured,
    focus: Focus<'_>,
) {
    let mut pen = Pen::new(context, view);
    pen.clear(PAPER);
    let moving = session.work_drawing(focus);
    let laid = session.site().site().picture.clone();
    let handles = [
        handle(session.site(), view.scale),
        picture_handle(session.site(), view.scale),
    ];
    let still = session.still_drawing();
    // A picture lies on the lot's ground and under everything else.
    let ground = |item: &Item| {
        matches!(
            item,
            Item::Area {
                layer: Layer::Lot,
                ..
            }
        )
    };
    let grounds = still.items.iter().take_while(|it| ground(it)).count();
    let (ground, rest) = still.items.split_at(grounds);
    draw(&mut pen, view, ground);
    if let (Some(bitmap), Some(laid)) = (&picture.bitmap, laid.filter(|it| !it.hidden)) {
        pen.picture(bitmap, &laid, picture.fade.unwrap_or(laid.opacity));
    }
    draw(&mut pen, view, rest);
    draw(&mut pen, view, &moving.items);
    let mut knobs = Vec::new();
    for (stem, knob) in handles.into_iter().flatten() {
        furniture::handle(&mut pen, view.place(stem), view.place(knob));
        knobs.push(view.place(knob));
    }
    // All text on top, so that no line strikes a word through.
    let lettered = still.items.iter().chain(&moving.items);
    labels::set(&mut pen, view, lettered, &knobs);
    if let Some(line) = session.shown_section_line() {
        section::on_plan(&mut pen, view, &line);
    }
    hand::set(&mut pen, view, session);
    furniture::north_arrow(&mut pen, view, &session.site().site().lot.basis);
    furniture::scale_bar(&mut pen, view, session.site().site().display);
}
