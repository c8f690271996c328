//! Questions that take long, worked through in a second instance of this module: low and high,
//! where earth is even, what an inch of coping changes, places side by side, the report, exports.
//!
//! A study is given the site's text and one question. The page lets it go on step by step, so
//! that it can be told how far it is and can be given up between two steps.

use batterboard_core::analysis::{self, Cache, Detail, Ranges, Scenario};
use batterboard_core::exchange::{self, Figures, geojson, points};
use batterboard_core::finding::Finding;
use batterboard_core::report::{BalanceFigures, ComparisonFigures, NudgeFigures, Report, csv};
use batterboard_core::site::{CheckedSite, Site};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::js::{Answer, js_error, made_by_page, to_js};

/// What is asked of a site.
#[derive(Debug, Clone, Copy, Deserialize, Tsify)]
#[serde(rename_all = "kebab-case")]
pub enum Question {
    /// Low and high of every quantity and of the cost.
    Ranges,
    /// The copings at which cut and fill are even.
    Balance,
    /// What an inch of coping changes.
    Inch,
    /// The present placement beside those that were kept.
    Comparison,
    /// The whole report as text.
    ReportText,
    /// The whole report as JSON.
    ReportJson,
    /// The takeoff as a list for a spreadsheet.
    TakeoffList,
    /// The site as GeoJSON.
    Map(#[tsify(type = "MapParts")] geojson::Parts),
    /// The site as a list of points.
    Points(#[tsify(type = "ListChoice")] points::Choice),
}

/// What was found.
#[derive(Debug, Serialize, Tsify)]
#[serde(rename_all = "kebab-case")]
#[tsify(missing_as_null)]
pub enum Found {
    /// Low and high of every quantity that has them, for the planner.
    Ranges(Ranges),
    /// None before a shell is placed.
    Balance(Option<BalanceFigures>),
    /// What an inch of coping changes.
    Inch(NudgeFigures),
    /// Placements side by side.
    Comparison(ComparisonFigures),
    /// A text, or why there is none.
    Written {
        /// The text.
        text: Option<String>,
        /// What there is to say of it.
        findings: Vec<Finding>,
    },
}

/// A question being worked on.
#[wasm_bindgen]
pub struct Study {
    site: CheckedSite,
    question: Question,
    found: Option<Found>,
}

#[wasm_bindgen]
impl Study {
    /// Begins on a question about a site's text, as a planner saved it. Its picture may be left
    /// out but for a report, which names it.
    ///
    /// # Errors
    /// Every fault of the text.
    #[wasm_bindgen(constructor)]
    pub fn new(site: &str, question: Ts<Question>) -> Result<Study, JsValue> {
        // The planner's own text, so of the present version and with nothing unknown in it.
        let mut read = exchange::read_value::<Site>(site).map_err(|fault| js_error(&[fault]))?;
        let question = made_by_page(question)?;
        if !matches!(question, Question::ReportText | Question::ReportJson) {
            read.picture = None;
        }
        let site = CheckedSite::check(read, None).map_err(|faults| js_error(&faults))?;
        Ok(Self {
            site,
            question,
            found: None,
        })
    }

    /// Goes one step on; gives the share that is done, 1 for all of it.
    pub fn step(&mut self) -> f64 {
        if self.found.is_none() {
            self.found = Some(found(&self.site, self.question));
        }
        1.0
    }

    /// The answer, once all is done.
    ///
    /// # Errors
    /// Before that.
    pub fn answer(&self) -> Answer<Found> {
        match &self.found {
            Some(found) => to_js(found),
            None => Err(js_sys::Error::new("the study is not done").into()),
        }
    }
}

fn found(site: &CheckedSite, question: Question) -> Found {
    let system = site.site().display;
    let analysis = |detail| analysis::run(&Scenario::of(site), detail, &mut Cache::default());
    let report = || Report::new(site, &analysis(Detail::Ranges), system);
    match question {
        Question::Ranges => Found::Ranges(Ranges::from(&analysis(Detail::Ranges))),
        Question::Balance => Found::Balance(BalanceFigures::of(site, system)),
        Question::Inch => Found::Inch(NudgeFigures::of(site, system)),
        Question::Comparison => Found::Comparison(ComparisonFigures::of(site, system)),
        Question::ReportText => Found::from(Ok(report().to_text())),
        Question::ReportJson => Found::from(Ok(report().to_json())),
        Question::TakeoffList => {
            Found::from(Ok(csv::takeoff(site, &analysis(Detail::Ranges), system)))
        }
        Question::Map(parts) => Found::from(geojson::write(site.site(), &figures(site), parts)),
        Question::Points(choice) => Found::from(points::write(site.site(), &figures(site), choice)),
    }
}

/// The geometry of a site, for what writes it in another form.
fn figures(site: &CheckedSite) -> Figures {
    let analysis = analysis::run(&Scenario::of(site), Detail::Earth, &mut Cache::default());
    let edge = analysis.dig.as_ref().map(|dig| &dig.top_edge);
    Figures::of(site, edge)
}

impl From<Result<String, Vec<Finding>>> for Found {
    fn from(result: Result<String, Vec<Finding>>) -> Self {
        let (text, findings) = match result {
            Ok(text) => (Some(text), Vec::new()),
            Err(findings) => (None, findings),
        };
        Self::Written { text, findings }
    }
}
