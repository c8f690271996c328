//! The section: where it is cut, the hand on its line, and its painting.

use batterboard_core::geom::Point;
use batterboard_core::section::Section;
use batterboard_core::section::hand::{self, Grip};
use batterboard_core::site::SectionLine;
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use crate::js::to_js;
use crate::paint::pen::Pen;
use crate::paint::{View, section};
use crate::planner::Planner;

/// The section's line while it is shown.
#[derive(Debug, Default)]
pub struct Cutting {
    /// Whether the plan shows the line.
    shown: bool,
    /// Where a hand has dragged it; the site does not know yet.
    line: Option<SectionLine>,
    /// What a hand holds: the line as it was, the part of it, and where it was taken.
    held: Option<(SectionLine, Grip, Point)>,
    /// The section that was cut last, as long as nothing has moved since.
    cut: Option<Section>,
}

impl Cutting {
    /// The site has changed: the section is cut anew, and, where its line may have changed as
    /// well, along the site's own.
    pub(crate) fn forget(&mut self, line_too: bool) {
        self.cut = None;
        if line_too {
            self.line = None;
        }
    }
}

/// A figure to read.
#[derive(Debug, Serialize, Tsify)]
pub struct DimensionRow {
    label: &'static str,
    text: String,
}

/// The line and what is read on it; places are site metres, the bearing is radians.
#[derive(Debug, Serialize, Tsify)]
pub struct SectionFigures {
    /// Whether the site says where; otherwise it lies along the shell.
    given: bool,
    from: Point,
    to: Point,
    length: f64,
    bearing: f64,
    dimensions: Vec<DimensionRow>,
}

#[wasm_bindgen]
impl Planner {
    /// Shows the section's line on the plan, or hides it.
    pub fn show_section(&mut self, shown: bool) {
        if self.section.shown != shown {
            self.section = Cutting {
                shown,
                ..Cutting::default()
            };
        }
    }

    /// Takes hold of the line at a place within a reach, metres: of an end, or, where `whole`, of
    /// what lies between them. False when it is not there.
    pub fn take_section(
        &mut self,
        x: f64,
        y: f64,
        reach: f64,
        whole: bool,
    ) -> Result<bool, JsValue> {
        let at = Point::new(x, y);
        let shown = self.section.shown;
        let line = self.cut_line()?.filter(|_| shown);
        let grip = line.and_then(|line| Some((line, hand::grip_at(&line, at, reach)?, at)));
        self.section.held = grip.filter(|(_, grip, _)| (*grip == Grip::Whole) == whole);
        Ok(self.section.held.is_some())
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
    /// metres; none without one.
    pub fn laid_section(
        &mut self,
        bearing: f64,
        length: f64,
    ) -> Result<Option<Ts<SectionLine>>, JsValue> {
        let line = self.cut_line()?;
        let laid = line.map(|line| hand::laid(&line, bearing, length));
        laid.as_ref().map(to_js).transpose()
    }

    /// The line and the figures on it; none without a shell or a line.
    pub fn section(&mut self) -> Result<Option<Ts<SectionFigures>>, JsValue> {
        let Some(line) = self.cut_line()? else {
            return Ok(None);
        };
        self.cut(Some(line))?;
        let cut = self.section.cut.iter();
        let row = |label, text: &String| DimensionRow {
            label,
            text: text.clone(),
        };
        let figures = SectionFigures {
            given: self.session.site().site().section.is_some(),
            from: line.from,
            to: line.to,
            length: line.from.distance(line.to),
            bearing: (line.to - line.from).bearing(),
            dimensions: cut
                .flat_map(|cut| &cut.dimensions)
                .map(|d| row(d.label, &d.text))
                .collect(),
        };
        to_js(&figures).map(Some)
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
    ) -> Result<(), JsValue> {
        let line = self.cut_line()?;
        let view = View {
            width,
            height,
            ratio,
            centre: Point::default(),
            scale: 1.0,
        };
        let mut pen = Pen::new(context, &view);
        self.cut(line)?;
        if let Some(cut) = &self.section.cut {
            section::paint(&mut pen, &view, cut, exaggeration, self.display());
        }
        Ok(())
    }
}

impl Planner {
    /// Where the section is cut now.
    fn cut_line(&mut self) -> Result<Option<SectionLine>, JsValue> {
        // The desk comes first: where it has to follow the site, a dragged line may be forgotten.
        let line = self.desk()?.section_line();
        Ok(self.section.line.or(line))
    }

    /// Cuts the section along a line, unless it is cut there already.
    fn cut(&mut self, line: Option<SectionLine>) -> Result<(), JsValue> {
        if self.section.cut.as_ref().map(|cut| cut.line) == line {
            return Ok(());
        }
        self.section.cut = match line {
            Some(line) => self.desk()?.section(line),
            None => None,
        };
        Ok(())
    }

    /// The line over the plan, where it is shown.
    pub(crate) fn paint_section_line(
        &mut self,
        pen: &mut Pen<'_>,
        view: &View,
    ) -> Result<(), JsValue> {
        if !self.section.shown {
            return Ok(());
        }
        if let Some(line) = self.cut_line()? {
            section::on_plan(pen, view, &line);
        }
        Ok(())
    }
}
