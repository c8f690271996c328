//! The plan on the page's canvas.
//!
//! The core says *what* is drawn ([`batterboard_core::drawing`]); [`ink`] says *how* each
//! layer looks on a screen; [`pen`] moves the canvas's own pen, setting a style only when it
//! differs from the last one, because style strings are what crosses slowly.

mod furniture;
mod hand;
mod ink;
mod labels;
mod pen;

use batterboard_core::drawing::{Drawing, Focus, Item, Layer, work};
use batterboard_core::geom::Point;
use batterboard_core::session::{Session, handle, picture_handle};
use web_sys::CanvasRenderingContext2d;

use crate::picture::Pictured;

use ink::{PAPER, ink};
use pen::Pen;

/// What part of the plan the canvas shows.
#[derive(Debug, Clone, Copy)]
pub struct View {
    /// Width of the canvas, CSS pixels.
    pub width: f64,
    /// Height of the canvas, CSS pixels.
    pub height: f64,
    /// Device pixels per CSS pixel.
    pub ratio: f64,
    /// The point of the site at the canvas's middle, metres.
    pub centre: Point,
    /// CSS pixels per metre.
    pub scale: f64,
}

impl View {
    /// Where a point of the site lies on the canvas, CSS pixels from its upper left corner.
    fn place(&self, p: Point) -> (f64, f64) {
        (
            self.width / 2.0 + (p.x - self.centre.x) * self.scale,
            self.height / 2.0 - (p.y - self.centre.y) * self.scale,
        )
    }
}

/// Paints everything, lowest first.
pub fn paint(
    context: &CanvasRenderingContext2d,
    view: &View,
    session: &Session,
    backdrop: &Drawing,
    picture: &Pictured,
    focus: Focus<'_>,
) {
    let mut pen = Pen::new(context, view);
    pen.clear(PAPER);
    let moving = work(session.site(), session.results(), focus);
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
    let grounds = backdrop.items.iter().take_while(|it| ground(it)).count();
    let (ground, rest) = backdrop.items.split_at(grounds);
    draw(&mut pen, view, ground);
    let laid = session.site().site().picture.as_deref();
    if let (Some(bitmap), Some(laid)) = (&picture.bitmap, laid.filter(|it| !it.hidden)) {
        pen.picture(bitmap, laid, picture.fade.unwrap_or(laid.opacity));
    }
    draw(&mut pen, view, rest);
    draw(&mut pen, view, &moving.items);
    let handles = [
        handle(session.site(), view.scale),
        picture_handle(session.site(), view.scale),
    ];
    let mut knobs = Vec::new();
    for (stem, knob) in handles.into_iter().flatten() {
        furniture::handle(&mut pen, view.place(stem), view.place(knob));
        knobs.push(view.place(knob));
    }
    // All text on top, so that no line strikes a word through.
    let lettered = backdrop.items.iter().chain(&moving.items);
    labels::set(&mut pen, view, lettered, &knobs);
    hand::set(&mut pen, view, session);
    furniture::north_arrow(&mut pen, view, &session.site().site().lot.basis);
    furniture::scale_bar(&mut pen, view, session.site().site().display);
}

/// Areas, lines and dots, lowest first.
fn draw(pen: &mut Pen<'_>, view: &View, items: &[Item]) {
    for item in items {
        match item {
            Item::Area { layer, region } => {
                let rings = region
                    .rings()
                    .map(|ring| ring.0.iter().map(|p| view.place(*p)));
                pen.area(rings, &ink(*layer));
            }
            Item::Path {
                layer,
                segments,
                closed,
            } => {
                pen.path(view, segments, *closed, &ink(*layer));
            }
            Item::Lines { layer, lines } => {
                let ends = lines.iter().map(|(a, b)| (view.place(*a), view.place(*b)));
                pen.lines(ends, &ink(*layer));
            }
            Item::Dot {
                layer: Layer::Monument(state),
                at,
            } => furniture::monument(pen, view.place(*at), *state),
            Item::Dot { layer, at } => pen.dot(view.place(*at), &ink(*layer)),
            Item::Measured {
                layer, from, to, ..
            } => {
                furniture::dimension_line(pen, view.place(*from), view.place(*to), &ink(*layer));
            }
            Item::Label { .. } => {}
        }
    }
}
