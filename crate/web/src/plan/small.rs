//! The plan as a small picture, for lists: areas and lines, no lettering, nothing that a hand takes.

use std::sync::Arc;

use batterboard_core::drawing::Focus;
use batterboard_core::session::Session;
use web_sys::CanvasRenderingContext2d;

use super::still::{StillHalf, Subject};
use crate::paint::pen::Pen;
use crate::paint::{View, draw};
use crate::picture::Pictured;

/// Paints the site small. What the plan's own painting keeps is not touched.
pub fn paint(
    context: &CanvasRenderingContext2d,
    view: &View,
    session: &mut Session,
    picture: &Pictured,
) {
    let subject = Subject {
        drawing: Arc::clone(session.still_drawing()),
        picture: picture.shown(session.site().site()),
    };
    StillHalf::default().lay_ground(context, view, &subject);
    let moving = session.work_drawing(Focus::None);
    draw(&mut Pen::new(context, view), view, &moving.items);
}
