//! What the modules of the page share: how values cross into and out of the browser.
//!
//! The page loads four modules. The planner (`main.rs`) holds the open site and is there from
//! the first moment; the estimate (`estimate/main.rs`) says what the site takes to build, and is
//! loaded once the plan is on the screen; the intake (`intake/main.rs`) only reads or writes text,
//! and the report (`report/main.rs`) only makes reports: they are loaded when that is first
//! wanted. No rule and no formula lives in any of them.
//!
//! A panic is a bug. It is told on the console by a hook and ends that instance for good; the
//! page then makes a new one. The last good document is kept outside this memory.

pub mod answers;
pub mod closing;
pub mod paint;

use wasm_bindgen::prelude::wasm_bindgen;

/// The shapes that the modules speak of, for TypeScript.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("types.d.ts");
