//! The report's module: a site file comes in, the whole report on it goes out.
//!
//! It computes everything anew from the text, as the command line does, so that the planner
//! need not carry the words and the layout of a report from the first moment.

use batterboard_core::estimate::{self, Estimate};
use batterboard_core::exchange;
use batterboard_core::report::Report;
use batterboard_core::results::{self, Results};
use batterboard_core::site::{CheckedSite, Site};
use batterboard_web::answers::refused;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// The whole report on a site file as text.
///
/// # Errors
/// Every fault of the file.
#[wasm_bindgen]
pub fn report_text(site: &str) -> Result<String, JsValue> {
    Ok(report(site)?.to_text())
}

/// The whole report on a site file as JSON.
///
/// # Errors
/// Every fault of the file.
#[wasm_bindgen]
pub fn report_json(site: &str) -> Result<String, JsValue> {
    Ok(report(site)?.to_json())
}

fn report(site: &str) -> Result<Report, JsValue> {
    // The planner's own text, so of the present version and with nothing unknown in it.
    let read = exchange::read_value::<Site>(site).map_err(|fault| refused(&[fault]))?;
    let site = CheckedSite::check(read, None).map_err(|faults| refused(&faults))?;
    let results = Results::compute(&site, &mut results::Cache::default());
    let estimate = Estimate::of(&site, &results, &mut estimate::Cache::default());
    Ok(Report::new(&site, &results, &estimate, site.site().display))
}

/// Runs once when the module is instantiated.
fn main() {
    console_error_panic_hook::set_once();
}
