//! The edge of clear ground held against the cut made along it: dozens of cuts, and so of this module.

use batterboard_core::report::EdgeFigures;
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{to_js, without_images};

/// Walks the edge of clear ground of a site's text, the shell as it stands, in the site's own units.
///
/// # Errors
/// Every fault of the text.
#[wasm_bindgen]
pub fn check_edge(site: &str) -> Result<Ts<EdgeFigures>, JsValue> {
    let site = without_images(site)?;
    to_js(&EdgeFigures::of(&site, site.site().display))
}
