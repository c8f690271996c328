//! The rules that a job may start with.

use batterboard_core::site::rule;
use batterboard_web::answers::cross;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// The clearance rules that a new job starts with, each of which says that it is an example.
#[wasm_bindgen(unchecked_return_type = "any[]")]
pub fn example_rules() -> Result<JsValue, JsValue> {
    cross(&rule::examples())
}
