//! A shell from typed figures and a table of stations.

use batterboard_core::finding::Finding;
use batterboard_core::shell::{ShellRecord, typed};
use batterboard_core::units::System;
use batterboard_web::answers::cross;
use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// The shell, or why there is none.
#[derive(Debug, Serialize)]
struct ShellMade {
    shell: Option<ShellRecord>,
    findings: Vec<Finding>,
}

/// The record of a rectangular shell whose floor a table tells; a bare number in the table is in
/// the units of `system`. Findings of the table are placed at `/3` for its third line.
///
/// # Errors
/// When figures or system are not what they should be.
#[wasm_bindgen(unchecked_return_type = "ShellMade")]
pub fn shell_by_stations(
    #[wasm_bindgen(unchecked_param_type = "RectangleFigures")] figures: JsValue,
    table: &str,
    #[wasm_bindgen(unchecked_param_type = "\"feet\" | \"metres\"")] system: JsValue,
) -> Result<JsValue, JsValue> {
    let figures: typed::Rectangle = serde_wasm_bindgen::from_value(figures)?;
    let system: System = serde_wasm_bindgen::from_value(system)?;
    // The door looks at it when it is put on the lot: the planner has that, and it is heavy.
    cross(&match typed::rectangle(&figures, table, system) {
        Err(findings) => ShellMade {
            shell: None,
            findings,
        },
        Ok(record) => ShellMade {
            shell: Some(record),
            findings: Vec::new(),
        },
    })
}
