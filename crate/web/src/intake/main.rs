//! The intake's module: what reads or writes text, and needs no open site.
//!
//! Each export is a free function: text comes in, together with what it has to be read against,
//! and what was understood goes out. The page then makes an edit of it, which the planner's door
//! checks like any other.

mod deed;
mod ground;
mod map;
mod shell;
mod site;
mod walk;
mod write;

use wasm_bindgen::prelude::wasm_bindgen;

/// The shapes of what crosses here, for TypeScript.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("intake.d.ts");

/// Runs once when the module is instantiated.
fn main() {
    console_error_panic_hook::set_once();
}
