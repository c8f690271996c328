//! The sun on the water through a day, and the shade at one time of it.

use batterboard_core::report::{ShadeFigures, SunFigures};
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{js_error, to_js, without_images};

/// The sun on the water of a site's text on a day as it was typed, in the site's own units; what is empty is the usual.
///
/// # Errors
/// Every fault of the text, the day or the offset.
#[wasm_bindgen]
pub fn measure_sun(site: &str, date: &str, offset: &str) -> Result<Ts<SunFigures>, JsValue> {
    let site = without_images(site)?;
    let found = SunFigures::of(&site, date, offset, site.site().display);
    to_js(&found.map_err(|faults| js_error(&faults))?)
}

/// The shade of a site's text so many minutes after midnight of such a day; nothing where there is no place on the earth
/// or no shell.
///
/// # Errors
/// As [`measure_sun`].
#[wasm_bindgen]
pub fn cast_shade(
    site: &str,
    date: &str,
    offset: &str,
    minutes: f64,
) -> Result<Option<Ts<ShadeFigures>>, JsValue> {
    let site = without_images(site)?;
    let found = ShadeFigures::of(&site, date, offset, minutes, site.site().display);
    let found = found.map_err(|faults| js_error(&faults))?;
    found.map(|it| to_js(&it)).transpose()
}
