//! The estimate's module: what is to be dug, hauled, bought and placed, and what is laid over the
//! plan to show it.
//!
//! It holds the planner's site a second time, so that the planner, which is loaded before
//! anything is seen, need not carry what is only listed, priced or typed (see [`desk::Desk`]).

mod desk;
mod fittings;
mod forms;
mod section;

use wasm_bindgen::prelude::wasm_bindgen;

/// The shapes of what crosses here, for TypeScript.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("estimate.d.ts");

/// Runs once when the module is instantiated.
fn main() {
    console_error_panic_hook::set_once();
}
