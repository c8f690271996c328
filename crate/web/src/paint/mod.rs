//! Drawings of the core on the page's canvas.
//!
//! The core says *what* is drawn ([`batterboard_core::drawing`]); [`ink`] says *how* each
//! layer looks on a screen; [`pen`] moves the canvas's own pen, setting a style only when it
//! differs from the last one, because style strings are what crosses slowly. The planner paints
//! the plan with these, the estimate what it lays over the plan.

pub mod ink;
pub mod labels;
pub mod pen;
pub mod section;
pub mod sign;

use batterboard_core::drawing::{Item, Layer};
use batterboard_core::geom::Point;

use ink::ink;
use ink::theme::Theme;
use pen::Pen;

/// What part of the plan the canvas shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// Width of the canvas, CSS pixels.
    pub width: f64,
    /// Height of the canvas, CSS pixels.
    pub height: f64,
    /// Device pixels per CSS pixel.
    pub ratio: f64,
    /// The point of the site at the canvas's middle, meters.
    pub centre: Point,
    /// CSS pixels per meter.
    pub scale: f64,
    /// How it is colored.
    pub theme: Theme,
}

impl View {
    /// Where a point of the site lies on the canvas, CSS pixels from its upper left corner.
    pub fn place(&self, p: Point) -> (f64, f64) {
        (
            self.width / 2.0 + (p.x - self.centre.x) * self.scale,
            self.height / 2.0 - (p.y - self.centre.y) * self.scale,
        )
    }
}

/// Areas, lines and dots, lowest first.
pub fn draw(pen: &mut Pen<'_>, view: &View, items: &[Item]) {
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
            } => sign::monument(pen, view.place(*at), *state),
            Item::Dot { layer, at } => pen.dot(view.place(*at), &ink(*layer)),
            Item::Measured {
                layer, from, to, ..
            } => {
                let (from, to) = (view.place(*from), view.place(*to));
                match layer {
                    Layer::Tape => sign::tape(pen, from, to, &ink(*layer)),
                    _ => sign::dimension_line(pen, from, to, &ink(*layer)),
                }
            }
            Item::Label { .. } => {}
        }
    }
}
