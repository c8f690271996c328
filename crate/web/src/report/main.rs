//! The report's module: a site file comes in, the whole report on it goes out, or the list of its
//! takeoff.
//!
//! It computes everything anew from the text, as the command line does, so that the planner
//! need not carry the words and the layout of a report from the first moment.

use batterboard_core::estimate::{self, Estimate};
use batterboard_core::exchange;
use batterboard_core::report::{Report, csv};
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
    Ok(Made::of(site)?.report().to_text())
}

/// The whole report on a site file as JSON.
///
/// # Errors
/// Every fault of the file.
#[wasm_bindgen]
pub fn report_json(site: &str) -> Result<String, JsValue> {
    Ok(Made::of(site)?.report().to_json())
}

/// The takeoff of a site file as a list for a spreadsheet.
///
/// # Errors
/// Every fault of the file.
#[wasm_bindgen]
pub fn takeoff_list(site: &str) -> Result<String, JsValue> {
    let made = Made::of(site)?;
    let system = made.site.site().display;
    Ok(csv::takeoff(&made.site, &made.estimate, system))
}

/// A site and all that follows from it.
struct Made {
    site: CheckedSite,
    results: Results,
    estimate: Estimate,
}

impl Made {
    fn of(site: &str) -> Result<Self, JsValue> {
        // The planner's own text, so of the present version and with nothing unknown in it.
        let read = exchange::read_value::<Site>(site).map_err(|fault| refused(&[fault]))?;
        let site = CheckedSite::check(read, None).map_err(|faults| refused(&faults))?;
        let results = Results::compute(&site, &mut results::Cache::default());
        let estimate = Estimate::of(&site, &results, &mut estimate::Cache::default());
        Ok(Self {
            site,
            results,
            estimate,
        })
    }

    fn report(&self) -> Report {
        let system = self.site.site().display;
        Report::new(&self.site, &self.results, &self.estimate, system)
    }
}

/// Runs once when the module is instantiated.
fn main() {
    console_error_panic_hook::set_once();
}
