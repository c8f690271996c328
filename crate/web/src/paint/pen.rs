//! The canvas's pen: shapes in CSS pixels, styles set only when they change.

use core::cell::RefCell;
use core::f64::consts::TAU;

use batterboard_core::geom::Segment;
use batterboard_core::site::Picture;
use wasm_bindgen::JsValue;
use web_sys::{CanvasRenderingContext2d, ImageBitmap};

use super::View;
use super::ink::theme::{Purpose, Theme};
use super::ink::{HALO, Ink};

/// A place on the canvas, CSS pixels.
pub type Place = (f64, f64);

/// Draws on one canvas and remembers what styles it has set.
pub struct Pen<'a> {
    context: &'a CanvasRenderingContext2d,
    view: View,
    fill: (&'static str, Purpose),
    stroke: (&'static str, Purpose),
    width: f64,
    dash: &'static [f64],
    text_size: f64,
}

impl<'a> Pen<'a> {
    /// A pen on a canvas, its units CSS pixels.
    pub fn new(context: &'a CanvasRenderingContext2d, view: &View) -> Self {
        scaled(context, view.ratio);
        context.set_line_cap("butt");
        context.set_line_join("round");
        context.set_text_align("center");
        context.set_text_baseline("middle");
        Self {
            context,
            view: *view,
            fill: ("", Purpose::Fill),
            stroke: ("", Purpose::Line),
            width: 0.0,
            dash: &[-1.0],
            text_size: 0.0,
        }
    }

    /// Covers the whole canvas.
    pub fn clear(&mut self, colour: &'static str) {
        self.set_fill(colour, Purpose::Fill);
        self.context
            .fill_rect(0.0, 0.0, self.view.width, self.view.height);
    }

    /// An area bounded by rings, filled and outlined.
    pub fn area<R: Iterator<Item = Place>>(&mut self, rings: impl Iterator<Item = R>, ink: &Ink) {
        self.context.begin_path();
        for ring in rings {
            for (i, (x, y)) in ring.enumerate() {
                if i == 0 {
                    self.context.move_to(x, y)
                } else {
                    self.context.line_to(x, y)
                }
            }
            self.context.close_path();
        }
        self.finish(ink);
    }

    /// A path of lines and arcs, outlined.
    pub fn path(&mut self, view: &View, segments: &[Segment], closed: bool, ink: &Ink) {
        self.context.begin_path();
        if let Some(first) = segments.first() {
            let (x, y) = view.place(first.from());
            self.context.move_to(x, y);
        }
        for segment in segments {
            match *segment {
                Segment::Line { to, .. } => {
                    let (x, y) = view.place(to);
                    self.context.line_to(x, y);
                }
                Segment::Arc {
                    centre,
                    radius,
                    start_angle,
                    sweep,
                    ..
                } => {
                    let (x, y) = view.place(centre);
                    // The canvas's y runs down, so angles change sign.
                    let arc = self.context.arc_with_anticlockwise(
                        x,
                        y,
                        radius * view.scale,
                        -start_angle,
                        -(start_angle + sweep),
                        sweep > 0.0,
                    );
                    debug_assert!(arc.is_ok(), "a checked arc has a positive radius");
                }
            }
        }
        if closed {
            self.context.close_path();
        }
        self.stroke_as(ink);
    }

    /// Lines in one stroke. Lines that follow each other are drawn as one, so that dashes run
    /// on round a curve.
    pub fn lines(&mut self, lines: impl Iterator<Item = (Place, Place)>, ink: &Ink) {
        self.context.begin_path();
        let mut last = None;
        for (from, to) in lines {
            if last != Some(from) {
                self.context.move_to(from.0, from.1);
            }
            self.context.line_to(to.0, to.1);
            last = Some(to);
        }
        self.stroke_as(ink);
    }

    /// One line.
    pub fn line(&mut self, from: Place, to: Place, ink: &Ink) {
        self.lines(core::iter::once((from, to)), ink);
    }

    /// A closed shape of straight edges, filled and outlined.
    pub fn shape(&mut self, corners: &[Place], ink: &Ink) {
        self.area(core::iter::once(corners.iter().copied()), ink);
    }

    /// A small dot.
    pub fn dot(&mut self, at: Place, ink: &Ink) {
        self.disc(at, 1.8, ink);
    }

    /// A disc of a radius in CSS pixels.
    pub fn disc(&mut self, (x, y): Place, radius: f64, ink: &Ink) {
        self.context.begin_path();
        let arc = self.context.arc(x, y, radius, 0.0, TAU);
        debug_assert!(arc.is_ok(), "radii are positive");
        self.finish(ink);
    }

    /// Text with its middle at a place, running along a bearing (radians clockwise from up),
    /// with a halo so that it reads over lines.
    pub fn text(&mut self, (x, y): Place, along: f64, text: &str, ink: &Ink) {
        if self.text_size != ink.text_size {
            self.text_size = ink.text_size;
            self.context.set_font(&font(ink.text_size, self.view.theme));
        }
        self.set_dash(&[]);
        self.set_width(4.0);
        self.set_stroke(HALO, Purpose::Fill);
        self.set_fill(ink.text, Purpose::Letter);
        let turned = self
            .context
            .translate(x, y)
            .and_then(|()| self.context.rotate(along - TAU / 4.0))
            .and_then(|()| self.context.stroke_text(text, 0.0, 0.0))
            .and_then(|()| self.context.fill_text(text, 0.0, 0.0));
        debug_assert!(turned.is_ok(), "the canvas takes finite numbers");
        scaled(self.context, self.view.ratio);
    }

    /// A picture where it lies on the site. One that the browser has let go of is left out.
    pub fn picture(&mut self, bitmap: &ImageBitmap, laid: &Picture, opacity: f64) {
        let (x, y) = self.view.place(laid.at);
        let scale = laid.scale * self.view.scale;
        let (wide, tall) = (
            f64::from(laid.width) * scale,
            f64::from(laid.height) * scale,
        );
        self.context.set_global_alpha(opacity);
        let drawn = self
            .context
            .translate(x, y)
            .and_then(|()| self.context.rotate(laid.heading))
            .and_then(|()| {
                self.context.draw_image_with_image_bitmap_and_dw_and_dh(
                    bitmap,
                    -wide / 2.0,
                    -tall / 2.0,
                    wide,
                    tall,
                )
            });
        drop(drawn);
        self.context.set_global_alpha(1.0);
        scaled(self.context, self.view.ratio);
    }

    fn finish(&mut self, ink: &Ink) {
        if !ink.fill.is_empty() {
            self.set_fill(ink.fill, Purpose::Fill);
            self.context.fill();
        }
        self.stroke_as(ink);
    }

    fn stroke_as(&mut self, ink: &Ink) {
        if !ink.stroke.is_empty() {
            self.set_stroke(ink.stroke, Purpose::Line);
            self.set_width(self.view.theme.width(ink.width));
            self.set_dash(ink.dash);
            self.context.stroke();
        }
    }

    fn set_fill(&mut self, colour: &'static str, purpose: Purpose) {
        if self.fill != (colour, purpose) {
            self.fill = (colour, purpose);
            themed(self.view.theme, colour, purpose, |it| {
                self.context.set_fill_style_str(it);
            });
        }
    }

    fn set_stroke(&mut self, colour: &'static str, purpose: Purpose) {
        if self.stroke != (colour, purpose) {
            self.stroke = (colour, purpose);
            themed(self.view.theme, colour, purpose, |it| {
                self.context.set_stroke_style_str(it);
            });
        }
    }

    fn set_width(&mut self, width: f64) {
        if self.width != width {
            self.width = width;
            self.context.set_line_width(width);
        }
    }

    fn set_dash(&mut self, dash: &'static [f64]) {
        if self.dash != dash {
            self.dash = dash;
            let list: js_sys::Array = dash.iter().copied().map(JsValue::from_f64).collect();
            let set = self.context.set_line_dash(&list);
            debug_assert!(set.is_ok(), "dashes are finite");
        }
    }
}

/// Hands over what a theme makes of a color. Each is worked out once.
fn themed(theme: Theme, colour: &'static str, purpose: Purpose, set: impl FnOnce(&str)) {
    thread_local! {
        static MADE: RefCell<Vec<(Wanted, String)>> = const { RefCell::new(Vec::new()) };
    }
    // The colors are constants: the same text lies at the same place.
    let wanted = (theme, purpose, colour.as_ptr(), colour.len());
    MADE.with_borrow_mut(|made| {
        if let Some((_, it)) = made.iter().find(|(key, _)| *key == wanted) {
            return set(it);
        }
        let it = theme.ink(colour, purpose);
        set(&it);
        made.push((wanted, it));
    });
}

/// A color of light paper, by where its text lies, and what it is wanted for.
type Wanted = (Theme, Purpose, *const u8, usize);

/// The font of all text, by its size in CSS pixels.
pub fn font(size: f64, theme: Theme) -> String {
    format!("{} {size}px system-ui, sans-serif", theme.weight())
}

/// Makes one unit of the canvas one CSS pixel, upright.
fn scaled(context: &CanvasRenderingContext2d, ratio: f64) {
    let set = context.set_transform(ratio, 0.0, 0.0, ratio, 0.0, 0.0);
    debug_assert!(set.is_ok(), "the ratio is finite");
}
