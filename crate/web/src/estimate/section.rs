//! The section at the desk: where it is cut, the hand on its line, and its painting.

use batterboard_core::geom::Point;
use batterboard_core::section::Section;
use batterboard_core::section::hand::{self, Grip};
use batterboard_core::site::SectionLine;
use batterboard_web::answers::cross;
use batterboard_web::paint::pen::Pen;
use batterboard_web::paint::{View, section};
use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use super::desk::Desk;

/// The section's line while it is shown.
#[derive(Debug, Default)]
pub(super) struct Cutting {
    /// Whether the plan shows the line.
    shown: bool,
    /// Where a hand has dragged it; the site does not know yet.
    pub line: Option<SectionLine>,
    /// What a hand holds: the line as it was, the part of it, and where it was taken.
    held: Option<(SectionLine, Grip, Point)>,
    /// The section that was cut last, as long as nothing has moved since.
    pub cut: Option<Section>,
}

/// A figure to read.
#[derive(Debug, Serialize)]
struct Read {
    label: &'static str,
    text: String,
}

/// The line and what is read on it.
#[derive(Debug, Serialize)]
struct SectionFigures {
    /// Whether the site says where; otherwise it lies along the shell.
    given: bool,
    from: Point,
    to: Point,
    length: f64,
    bearing: f64,
    dimensions: Vec<Read>,
}

#[wasm_bindgen]
impl Desk {
    /// Shows the section's line on the plan, or hides it.
    pub fn show_section(&mut self, shown: bool) {
        self.section = Cutting {
            shown,
            ..Cutting::default()
        };
    }

    /// Takes hold of the line at a place within a reach, metres: of an end, or, where `whole`, of
    /// what lies between them. False when it is not there.
    pub fn take_section(&mut self, x: f64, y: f64, reach: f64, whole: bool) -> bool {
        let at = Point::new(x, y);
        let shown = self.section.shown;
        let line = self.cut_line().filter(|_| shown);
        let grip = line.and_then(|line| Some((line, hand::grip_at(&line, at, reach)?, at)));
        self.section.held = grip.filter(|(_, grip, _)| (*grip == Grip::Whole) == whole);
        self.section.held.is_some()
    }

    /// Moves what is held to a place.
    pub fn drag_section(&mut self, x: f64, y: f64) {
        if let Some((line, grip, from)) = &self.section.held {
            self.section.line = Some(hand::moved(line, *grip, *from, Point::new(x, y)));
        }
    }

    /// Lets go; with `keep` false the line goes back to where it was taken.
    pub fn drop_section(&mut self, keep: bool) {
        self.section.held = None;
        if !keep {
            self.section.line = None;
        }
    }

    /// The line turned about its middle to point along a bearing, radians, made as long as given,
    /// metres: `[x, y, x, y]`; empty without one.
    pub fn laid_section(&self, bearing: f64, length: f64) -> Vec<f64> {
        let line = self
            .cut_line()
            .map(|line| hand::laid(&line, bearing, length));
        line.map_or_else(Vec::new, |l| vec![l.from.x, l.from.y, l.to.x, l.to.y])
    }

    /// The line and the figures on it; none without a shell or a line.
    #[wasm_bindgen(unchecked_return_type = "SectionFigures | undefined")]
    pub fn section(&mut self) -> Result<JsValue, JsValue> {
        let line = self.cut_line();
        self.cut(line);
        let (Some(line), Some(desk)) = (line, &self.desk) else {
            return Ok(JsValue::UNDEFINED);
        };
        let cut = self.section.cut.iter();
        let dimensions = cut.flat_map(|cut| &cut.dimensions);
        cross(&SectionFigures {
            given: desk.site().site().section.is_some(),
            from: line.from,
            to: line.to,
            length: line.from.distance(line.to),
            bearing: (line.to - line.from).bearing(),
            dimensions: dimensions
                .map(|d| Read {
                    label: d.label,
                    text: d.text.clone(),
                })
                .collect(),
        })
    }

    /// Paints the section on a canvas of its own: sizes in CSS pixels, `ratio` device pixels per
    /// CSS pixel, heights `exaggeration` times as large as lengths.
    pub fn paint_section(
        &mut self,
        context: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        ratio: f64,
        exaggeration: f64,
    ) {
        let line = self.cut_line();
        let view = View {
            width,
            height,
            ratio,
            centre: Point::default(),
            scale: 1.0,
        };
        let mut pen = Pen::new(context, &view);
        self.cut(line);
        if let (Some(desk), Some(cut)) = (&self.desk, &self.section.cut) {
            let system = desk.site().site().display;
            section::paint(&mut pen, &view, cut, exaggeration, system);
        }
    }
}

impl Desk {
    /// Where the section is cut now.
    fn cut_line(&self) -> Option<SectionLine> {
        let dragged = self.section.line;
        dragged.or_else(|| self.desk.as_ref()?.section_line())
    }

    /// Cuts the section along a line, unless it is cut there already.
    fn cut(&mut self, line: Option<SectionLine>) {
        if self.section.cut.as_ref().map(|cut| cut.line) == line {
            return;
        }
        let desk = self.desk.as_mut();
        self.section.cut = desk.zip(line).and_then(|(desk, line)| desk.section(line));
    }

    /// The line over the plan, where it is shown.
    pub(super) fn paint_section_line(&self, pen: &mut Pen<'_>, view: &View) {
        if let Some(line) = self.cut_line().filter(|_| self.section.shown) {
            section::on_plan(pen, view, &line);
        }
    }
}
