//! A deed as the page shows it: every piece, its courses, and what they close to.

use batterboard_core::finding::Finding;
use batterboard_core::lot::deed::{self, Piece, Summary};
use batterboard_core::lot::{Course, LotRecord};
use batterboard_core::units::{Measure, Shown, System, show};
use batterboard_web::answers::{cross, taken};
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
    /// Of the text and of the lot it would make, in this order.
    findings: Vec<Finding>,
}

/// Closure and area of the courses.
#[derive(Debug, Serialize)]
struct Figures {
    northing: Shown,
    easting: Shown,
    misclosure: Shown,
    /// None when the courses close exactly.
    direction: Option<Shown>,
    ratio: Option<Shown>,
    perimeter: Shown,
    area: Option<Area>,
    stated: Option<Shown>,
    /// Computed less stated, as a share of the stated area.
    difference: Option<Shown>,
}

/// An area in the units of both systems.
#[derive(Debug, Serialize)]
struct Area {
    /// Square feet and acres.
    feet: Shown,
    /// Square metres and hectares.
    metres: Shown,
}

impl DeedReading {
    /// Reads a deed for a lot of which the rest stays.
    fn of(text: &str, rest: &LotRecord, system: System) -> Self {
        let reading = deed::read(text, system);
        let summary = Summary::of(&reading.record(rest));
        let figures = Figures::of(&summary, system);
        let mut findings = reading.findings;
        findings.extend(summary.findings);
        Self {
            pieces: reading.pieces,
            courses: reading.courses,
            stated_area: reading.stated_area,
            figures,
            findings,
        }
    }
}

impl Figures {
    fn of(summary: &Summary, system: System) -> Option<Self> {
        let closure = summary.closure?;
        let figure = |measure, value| show(measure, value, system);
        let area = |value| Area {
            feet: show(Measure::LandArea, value, System::Feet),
            metres: show(Measure::LandArea, value, System::Metres),
        };
        let misses = |value: f64| closure.ratio.map(|_| value);
        Some(Self {
            northing: figure(Measure::Misclosure, closure.northing),
            easting: figure(Measure::Misclosure, closure.easting),
            misclosure: figure(Measure::Misclosure, closure.length),
            direction: misses(closure.bearing).map(|b| figure(Measure::Bearing, b)),
            ratio: closure.ratio.map(|r| figure(Measure::Closing, r)),
            perimeter: figure(Measure::LongLength, closure.perimeter),
            area: summary.area.map(area),
            stated: summary
                .comparison
                .map(|c| figure(Measure::LandArea, c.stated)),
            difference: summary
                .comparison
                .map(|c| figure(Measure::Fraction, c.difference)),
        })
    }
}
