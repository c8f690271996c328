//! The browser's door to the core: one module, one [`planner::Planner`] that holds the open
//! site, and a [`study::Study`] for questions that take long.
//!
//! The page holds a planner and asks it alone; a worker instantiates the same module a second
//! time and works through a study. No rule and no formula lives here: calls become commands,
//! answers cross as plain objects, and the canvas is painted from the core's own geometry. Every
//! type that crosses tells TypeScript its shape by itself (`tsify`).
//!
//! A panic is a bug. It is told on the console by a hook and ends that instance for good; the
//! page then makes a new one. The last good document is kept outside this memory.

mod book;
mod cards;
mod closing;
mod described;
mod edit;
mod fittings;
mod forms;
mod import;
mod js;
mod paint;
mod picture;
mod plan;
mod planner;
mod quantities;
mod section;
mod stakeout;
mod study;

use wasm_bindgen::prelude::wasm_bindgen;

/// Runs once when the module is instantiated.
#[wasm_bindgen(start)]
fn start() {
    console_error_panic_hook::set_once();
}
