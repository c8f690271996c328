//! The browser's door to the sheets: a module of its own, which a worker fetches with the first sheet.
//!
//! It holds the core a second time, so that the page's own module needs nothing of paper, and is given the text of a site as
//! the planner saved it. No rule lives here: a [`Press`] keeps one job worked out and makes one sheet after the other of it.
//!
//! A panic is a bug. It is told on the console by a hook and ends the worker; the page starts a new one.

use batterboard_core::exchange;
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_paper::{Document, Job, Paper, SheetWish, make, pdf, read, svg};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// Runs once when the module is instantiated.
#[wasm_bindgen(start)]
fn start() {
    console_error_panic_hook::set_once();
}

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
        let opened = exchange::open(site).map_err(|faults| {
            let text: Vec<&str> = faults.iter().map(|it| it.message.as_str()).collect();
            JsValue::from(js_sys::Error::new(&text.join(" ")))
        })?;
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
        Ok(to_js(&told)?)
    }

    /// A page of the last sheet as SVG.
    pub fn svg(&self, page: usize) -> Option<String> {
        svg::of(self.made.as_ref()?, page)
    }

    /// The last sheet as PDF.
    pub fn pdf(&self) -> Option<Vec<u8>> {
        self.made.as_ref().map(pdf::of)
    }
}

/// The text of the site file in a PDF that was saved here.
///
/// # Errors
/// When it cannot be read or there is none in it.
#[wasm_bindgen]
pub fn site_in_pdf(bytes: &[u8]) -> Result<String, JsValue> {
    read::site_in(bytes).map_err(|fault| {
        let text = format!("{} {}", fault.message, fault.remedy);
        js_sys::Error::new(&text).into()
    })
}

fn to_js<T: Tsify + Serialize>(value: &T) -> Result<Ts<T>, serde_wasm_bindgen::Error> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    Ok(Ts::new_unchecked(value.serialize(&serializer)?))
}
