//! The browser's door to the planner: typed exports, canvas painting, crash path.
//!
//! No rule and no formula lives here. [`Planner`] hands each call to a
//! [`batterboard_core::session::Session`] and carries the answer across: small reports by
//! `serde-wasm-bindgen`, geometry as flat `Float64Array` copies. The plan is painted straight
//! onto the page's canvas from the core's own geometry (see [`paint`]).
//!
//! A panic is a bug. It is told on the console by the hook below and ends this instance for
//! good; the page then makes a new one and reopens the last good document, which it keeps
//! outside this memory.

mod answers;
mod cards;
mod deed;
mod paint;
mod planner;

pub use planner::Planner;

use wasm_bindgen::prelude::wasm_bindgen;

/// The shapes of everything that crosses, for TypeScript.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("types.d.ts");

/// Runs once when the module is instantiated.
#[wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
}
