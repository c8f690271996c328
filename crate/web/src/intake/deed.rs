//! A deed as the page shows it: every piece, its courses, and what they close to.

use batterboard_core::finding::Finding;
use batterboard_core::lot::deed::{self, AlongStreet, Piece, Summary};
use batterboard_core::lot::{Course, LineKind, LotRecord};
use batterboard_core::units::System;
use batterboard_web::answers::{cross, taken};
use batterboard_web::closing::Figures;
use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// Reads a deed or a list of courses for a lot of which the rest stays; a bare number is in the
/// units of `system`.
///
/// # Errors
/// When the rest of the lot or the system is not what a site file holds.
#[wasm_bindgen(unchecked_return_type = "DeedReading")]
pub fn read_deed(
    text: &str,
    #[wasm_bindgen(unchecked_param_type = "object")] rest_of_lot: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "\"feet\" | \"metres\"")] system: JsValue,
) -> Result<JsValue, JsValue> {
    let rest = taken(rest_of_lot).map_err(|faults| cross(&faults).unwrap_or(JsValue::NULL))?;
    let system = serde_wasm_bindgen::from_value(system)?;
    cross(&DeedReading::of(text, &rest, system))
}

/// A deed as it was read.
#[derive(Debug, Serialize)]
struct DeedReading {
    pieces: Vec<Piece>,
    courses: Vec<Course>,
    /// The area stated, m2, as a lot record keeps it.
    stated_area: Option<f64>,
    figures: Option<Figures>,
    /// The kinds that follow from the street named in the text, one a course.
    kinds: Option<Vec<LineKind>>,
    /// The streets that courses are said to run along.
    streets: Vec<AlongStreet>,
    /// Whether the courses of the lot run as these do.
    in_use: bool,
    /// Of the text and of the lot it would make, in this order.
    findings: Vec<Finding>,
}

impl DeedReading {
    /// Reads a deed for a lot of which the rest stays.
    fn of(text: &str, rest: &LotRecord, system: System) -> Self {
        let reading = deed::read(text, system);
        let record = reading.record(rest);
        let summary = Summary::of(&record);
        let figures = Figures::of(&summary, record.closing_ratio, system);
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
