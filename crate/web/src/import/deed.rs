//! A deed as the page shows it: every piece, its courses, and what they close to.

use batterboard_core::finding::Finding;
use batterboard_core::lot::deed::{self, AlongStreet, Piece, Summary};
use batterboard_core::lot::{Course, LineKind, LotRecord};
use batterboard_core::units::System;
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::wasm_bindgen;

use crate::closing::LotClosing;
use crate::js::{Answer, from_js, js_error, to_js};
use crate::planner::Planner;

/// A deed as it was read; nothing of it is in the site yet.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct DeedReading {
    #[tsify(type = "DeedPiece[]")]
    pieces: Vec<Piece>,
    courses: Vec<Course>,
    /// The area stated, m2, as a lot record keeps it.
    stated_area: Option<f64>,
    figures: Option<LotClosing>,
    /// The kinds that follow from the street named in the text, one a course.
    kinds: Option<Vec<LineKind>>,
    /// The streets that courses are said to run along.
    streets: Vec<AlongStreet>,
    /// Whether the courses of the lot run as these do.
    in_use: bool,
    /// Of the text and of the lot it would make, in this order.
    findings: Vec<Finding>,
}

#[wasm_bindgen]
impl Planner {
    /// Reads a deed or a list of courses for a lot of which the rest stays.
    ///
    /// # Errors
    /// When the rest of the lot is not what a site file holds.
    pub fn read_deed(&self, text: &str, rest_of_lot: &Ts<LotRecord>) -> Answer<DeedReading> {
        let rest = from_js(rest_of_lot).map_err(|faults| js_error(&faults))?;
        to_js(&DeedReading::of(text, &rest, self.display()))
    }
}

impl DeedReading {
    /// Reads a deed for a lot of which the rest stays.
    fn of(text: &str, rest: &LotRecord, system: System) -> Self {
        let reading = deed::read(text, system);
        let record = reading.record(rest);
        let summary = Summary::of(&record);
        let figures = LotClosing::of(&summary, record.closing_ratio, system);
        let kinds = reading.kinds(rest);
        let in_use = reading.runs_as(rest);
        let mut findings = reading.findings;
        findings.extend(summary.findings);
        Self {
            pieces: reading.pieces,
            courses: reading.courses,
            stated_area: reading.stated_area,
            figures,
            kinds,
            streets: reading.streets,
            in_use,
            findings,
        }
    }
}
