//! The section: where it is cut, the hand on its line, and its painting.

use batterboard_core::geom::Point;
use batterboard_core::section::hand::{self, Grip};
use batterboard_core::section::{Edges, Section, standard};
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
    /// The site's own line that the dragged one takes the place of.
    instead: Option<SectionLine>,
    /// The section that was cut last, and of which revision.
    cut: Option<(u64, Section)>,
    /// The hole's edges, for as long as the hole is the same.
    edges: Option<Edges>,
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
    pub fn take_section(&mut self, x: f64, y: f64, reach: f64, whole: bool) -> bool {
        let at = Point::new(x, y);
        let line = self.cut_line().filter(|_| self.section.shown);
        let grip = line.and_then(|line| Some((line, hand::grip_at(&line, at, reach)?, at)));
        self.section.held = grip.filter(|(_, grip, _)| (*grip == Grip::Whole) == whole);
        self.section.held.is_some()
    }

    /// Moves what is held to a place.
    pub fn drag_section(&mut self, x: f64, y: f64) {
        if let Some((line, grip, from)) = &self.section.held {
            self.section.line = Some(hand::moved(line, *grip, *from, Point::new(x, y)));
            self.section.instead = self.session.site().site().section;
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
        &self,
        bearing: f64,
        length: f64,
    ) -> Result<Option<Ts<SectionLine>>, JsValue> {
        let laid = self
            .cut_line()
            .map(|line| hand::laid(&line, bearing, length));
        laid.as_ref().map(to_js).transpose()
    }

    /// The line and the figures on it; none without a shell or a line.
    pub fn section(&mut self) -> Result<Option<Ts<SectionFigures>>, JsValue> {
        let Some(line) = self.cut_line() else {
            return Ok(None);
        };
        let given = self.session.site().site().section.is_some();
        let cut = self.cut(Some(line)).into_iter();
        let row = |label, text: &String| DimensionRow {
            label,
            text: text.clone(),
        };
        let figures = SectionFigures {
            given,
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
    ) {
        let line = self.cut_line();
        let system = self.display();
        let view = View {
            width,
            height,
            ratio,
            centre: Point::default(),
            scale: 1.0,
        };
        let mut pen = Pen::new(context, &view);
        if let Some(cut) = self.cut(line) {
            section::paint(&mut pen, &view, cut, exaggeration, system);
        }
    }
}

impl Planner {
    /// Where the section is cut now: where a hand has dragged the line, or where the site says, or
    /// along the shell.
    fn cut_line(&self) -> Option<SectionLine> {
        let site = self.session.site();
        let own = site.site().section;
        let dragged = self.section.line.filter(|_| self.section.instead == own);
        dragged
            .or(own)
            .or_else(|| standard(site, self.session.analysis()))
    }

    /// The section along a line, cut anew where it is not cut there already.
    fn cut(&mut self, line: Option<SectionLine>) -> Option<&Section> {
        let revision = self.session.revision();
        let same = |(at, cut): &(u64, Section)| *at == revision && Some(cut.line) == line;
        let kept = self.section.cut.take().filter(same);
        self.section.cut = kept.or_else(|| {
            let (site, analysis) = (self.session.site(), self.session.analysis());
            self.section.edges = Edges::of(site, analysis, self.section.edges.take());
            let edges = self.section.edges.as_ref();
            Some((revision, Section::along(site, analysis, edges, line?)?))
        });
        self.section.cut.as_ref().map(|(_, cut)| cut)
    }

    /// The line over the plan, where it is shown.
    pub(crate) fn paint_section_line(&self, pen: &mut Pen<'_>, view: &View) {
        if let Some(line) = self.cut_line().filter(|_| self.section.shown) {
            section::on_plan(pen, view, &line);
        }
    }
}
