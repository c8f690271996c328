//! The section: the hand on its line, the figures on it, and its painting.

use batterboard_core::geom::Point;
use batterboard_core::session::SectionFigures;
use batterboard_core::site::SectionLine;
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use crate::js::to_js;
use crate::paint::pen::Pen;
use crate::paint::{View, section};
use crate::planner::Planner;

#[wasm_bindgen]
impl Planner {
    /// Shows the section's line on the plan, or hides it; a line that was dragged goes back.
    pub fn show_section(&mut self, shown: bool) {
        self.session.show_section(shown);
    }

    /// Takes hold of the shown line at a place within a reach, meters: of an end, or, where
    /// `whole`, of what lies between them. False where it is not there.
    pub fn take_section(&mut self, x: f64, y: f64, reach: f64, whole: bool) -> bool {
        self.session.take_section(Point::new(x, y), reach, whole)
    }

    /// Moves what is held to a place.
    pub fn drag_section(&mut self, x: f64, y: f64) {
        self.session.drag_section(Point::new(x, y));
    }

    /// Lets go; with `keep` false the line goes back to where it was taken.
    pub fn drop_section(&mut self, keep: bool) {
        self.session.drop_section(keep);
    }

    /// The line turned about its middle to point along a bearing, radians, made as long as given,
    /// meters; none without one.
    pub fn laid_section(
        &self,
        bearing: f64,
        length: f64,
    ) -> Result<Option<Ts<SectionLine>>, JsValue> {
        let line = self.session.section_line_along(bearing, length);
        line.as_ref().map(to_js).transpose()
    }

    /// The line and the figures on it; none without a shell or a line.
    pub fn section(&mut self) -> Result<Option<Ts<SectionFigures>>, JsValue> {
        let figures = self.session.section_figures();
        figures.as_ref().map(to_js).transpose()
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
        let system = self.display();
        let view = View {
            width,
            height,
            ratio,
            centre: Point::default(),
            scale: 1.0,
            theme: self.theme,
        };
        let mut pen = Pen::new(context, &view);
        if let Some(cut) = self.session.section() {
            section::paint(&mut pen, &view, cut, exaggeration, system);
        }
    }
}
