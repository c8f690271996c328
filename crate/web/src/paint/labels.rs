//! The text of the plan: how long it is in the browser's own letters, and writing it where the core placed it.

use std::collections::BTreeMap;

use batterboard_core::drawing::lettering::{Frame, Lettering, TextLook};
use batterboard_core::drawing::placement::{Placed, Size};
use batterboard_core::drawing::{Item, Layer};
use web_sys::CanvasRenderingContext2d;

use super::View;
use super::ink::sign::LINE;
use super::ink::theme::Theme;
use super::ink::{Ink, ink};
use super::pen::{self, Pen};

/// The size at which letters are measured, CSS pixels.
const MEASURED_AT: f64 = 100.0;

/// Of a letter that the browser does not measure, its width as a part of its size.
const USUAL: f64 = 0.6;

/// Half of the dot at the end of a leader, CSS pixels.
const DOT: f64 = 2.0;

/// How wide the letters are that were met so far, as parts of their size. A text is as long as its letters: kerning
/// makes it a little shorter.
#[derive(Debug, Default)]
pub struct Letters {
    widths: BTreeMap<char, f64>,
    theme: Theme,
}

impl Letters {
    /// Letters of a theme: what was measured of lighter or heavier ones is forgotten.
    fn of(&mut self, theme: Theme) -> &mut Self {
        if self.theme.weight() != theme.weight() {
            self.widths.clear();
        }
        self.theme = theme;
        self
    }

    /// How long a text of a size is, CSS pixels.
    fn length(&mut self, canvas: &CanvasRenderingContext2d, text: &str, size: f64) -> f64 {
        text.chars()
            .map(|letter| self.width(canvas, letter))
            .sum::<f64>()
            * size
    }

    fn width(&mut self, canvas: &CanvasRenderingContext2d, letter: char) -> f64 {
        let theme = self.theme;
        *self.widths.entry(letter).or_insert_with(|| {
            canvas.save();
            canvas.set_font(&pen::font(MEASURED_AT, theme));
            let measured = canvas.measure_text(letter.encode_utf8(&mut [0; 4]));
            canvas.restore();
            measured.map_or(USUAL, |metrics| metrics.width() / MEASURED_AT)
        })
    }
}

/// The view as the core has it.
pub fn frame(view: &View) -> Frame {
    Frame {
        size: Size {
            width: view.width,
            height: view.height,
        },
        centre: view.centre,
        scale: view.scale,
    }
}

/// All text of some items that the view is close enough for.
pub fn lettering(
    canvas: &CanvasRenderingContext2d,
    view: &View,
    items: &[Item],
    letters: &mut Letters,
) -> Vec<Lettering> {
    let letters = letters.of(view.theme);
    let length = |text: &str, size: f64| letters.length(canvas, text, size);
    batterboard_core::drawing::lettering::lettering(items.iter(), &frame(view), look, length)
}

fn look(layer: Layer) -> TextLook {
    let ink = ink(layer);
    TextLook {
        size: ink.text_size,
        from_scale: ink.text_from_scale,
    }
}

/// Writes labels where they were placed, with their leaders below all of them.
pub fn write<'a>(
    pen: &mut Pen<'_>,
    placed: impl Iterator<Item = (&'a Lettering, &'a Placed)> + Clone,
) {
    for (it, place) in placed.clone() {
        let Some((from, to)) = place.leader else {
            continue;
        };
        let colour = ink(it.layer).text;
        let line = Ink {
            stroke: colour,
            width: 1.0,
            ..LINE
        };
        let dot = Ink {
            fill: colour,
            stroke: "",
            ..LINE
        };
        pen.line((from.x, from.y), (to.x, to.y), &line);
        pen.disc((to.x, to.y), DOT, &dot);
    }
    for (it, place) in placed {
        let at = place.text.centre;
        pen.text((at.x, at.y), place.text.bearing(), &it.text, &ink(it.layer));
    }
}
