//! One job worked out: sheets made of it, and files of it for others.

use batterboard_core::exchange;
use batterboard_core::exchange::outgoing::{self, FileWish};
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_paper::{Document, Job, Paper, SheetWish, make, pdf, svg};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{js_error, to_js};

/// A site worked out, and the last sheet made of it.
#[wasm_bindgen]
pub struct Press {
    job: Job,
    made: Option<Document>,
}

/// What there is to know of a sheet that was made.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
#[serde(rename_all = "camelCase")]
pub struct MadeSheet {
    /// The paper it is on.
    paper: Paper,
    /// Width and height of every page, millimeters.
    pages: Vec<(f64, f64)>,
    /// Where the plan is on the first page, if anywhere.
    window: Option<PlanWindow>,
    /// The scales that the plan may be drawn at, with their names.
    scales: Vec<(f64, String)>,
    /// What is worth knowing, or why there is no sheet.
    findings: Vec<Finding>,
    /// What matches paper to file.
    revision: String,
}

/// A file for others.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct WrittenFile {
    /// Its text.
    text: Option<String>,
    /// Why there is none.
    findings: Vec<Finding>,
}

/// Where the plan is on the first page.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
#[serde(rename_all = "camelCase")]
pub struct PlanWindow {
    /// Left, upper edge, width and height, millimeters.
    area: [f64; 4],
    /// The point of the site at its middle, meters.
    centre: Point,
    /// Lengths on the site over lengths on paper.
    ratio: f64,
}

#[wasm_bindgen]
impl Press {
    /// Works out a site's text, as the planner saved it.
    ///
    /// # Errors
    /// Every fault of the text.
    #[wasm_bindgen(constructor)]
    pub fn new(site: &str) -> Result<Press, JsValue> {
        let opened = exchange::open(site).map_err(|faults| js_error(&faults))?;
        Ok(Self {
            job: Job::of(opened, None),
            made: None,
        })
    }

    /// Makes a sheet. Where there is none, the findings say why.
    pub fn make(&mut self, wanted: Ts<SheetWish>) -> Result<Ts<MadeSheet>, JsValue> {
        let wanted = SheetWish::from_js(wanted)?;
        let (made, findings) = match make(&self.job, &wanted) {
            Ok((document, findings)) => (Some(document), findings),
            Err(fault) => (None, vec![fault]),
        };
        let pages = made.iter().flat_map(|it| &it.pages);
        let window = made.as_ref().and_then(|it| it.window.as_ref());
        let told = MadeSheet {
            paper: wanted.paper(&self.job),
            pages: pages.map(|page| (page.width, page.height)).collect(),
            window: window.map(|it| PlanWindow {
                area: [it.area.x, it.area.y, it.area.width, it.area.height],
                centre: it.centre,
                ratio: it.scale.ratio,
            }),
            scales: self.job.scales(),
            findings,
            revision: self.job.revision.clone(),
        };
        self.made = made;
        to_js(&told)
    }

    /// A page of the last sheet as SVG.
    pub fn svg(&self, page: usize) -> Option<String> {
        svg::of(self.made.as_ref()?, page)
    }

    /// The site as a file for others: its text, or why there is none.
    pub fn write(&self, wish: Ts<FileWish>) -> Result<Ts<WrittenFile>, JsValue> {
        let wish = FileWish::from_js(wish)?;
        let (text, findings) = match outgoing::write(&self.job.site, &self.job.analysis, &wish) {
            Ok(text) => (Some(text), Vec::new()),
            Err(findings) => (None, findings),
        };
        to_js(&WrittenFile { text, findings })
    }

    /// The last sheet as PDF.
    pub fn pdf(&self) -> Option<Vec<u8>> {
        self.made.as_ref().map(pdf::of)
    }
}
