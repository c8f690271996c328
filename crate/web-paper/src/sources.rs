//! Every figure that the work rests on, with its source.

use batterboard_core::sources::{SourcedFigure, figures};
use batterboard_core::units::System;
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::to_js;

/// The register, and which build tells it.
#[derive(Debug, Serialize, Tsify)]
pub struct SourceList {
    /// The planner's version.
    version: &'static str,
    /// Its figures, group by group.
    figures: Vec<SourcedFigure>,
}

/// Every figure with its source, in feet or in meters.
///
/// # Errors
/// When it cannot be carried across.
#[wasm_bindgen]
pub fn list_sources(metres: bool) -> Result<Ts<SourceList>, JsValue> {
    let system = if metres { System::Metres } else { System::Feet };
    to_js(&SourceList {
        version: env!("CARGO_PKG_VERSION"),
        figures: figures(system),
    })
}
