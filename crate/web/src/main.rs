//! The planner's module: the open site, typed exports, canvas painting.
//!
//! [`planner::Planner`] hands each call to a [`batterboard_core::session::Session`] and carries
//! the answer across: small reports by `serde-wasm-bindgen`, geometry as flat `Float64Array`
//! copies. The plan is painted straight onto the page's canvas from the core's own geometry (see
//! [`plan`]).

mod cards;
mod drawing;
mod picture;
mod plan;
mod planner;

use wasm_bindgen::prelude::wasm_bindgen;

/// The shapes of what crosses here, for TypeScript.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("planner.d.ts");

/// Runs once when the module is instantiated.
fn main() {
    console_error_panic_hook::set_once();
}
