//! The way in and the crane of a site, asked rarely and so of this module.

use batterboard_core::report::AccessFigures;
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{to_js, without_images};

/// The way in and the crane of a site's text, as the planner saved it with or without the data of its
/// picture, in the site's own units.
///
/// # Errors
/// Every fault of the text.
#[wasm_bindgen]
pub fn measure_access(site: &str) -> Result<Ts<AccessFigures>, JsValue> {
    let site = without_images(site)?;
    to_js(&AccessFigures::of(&site, site.site().display))
}
