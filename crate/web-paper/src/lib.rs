//! The browser's door to paper and to other people's files: a module of its own, which a worker fetches when the first
//! sheet, survey or file for others is wanted.
//!
//! It holds the core a second time, so that the page's own module needs nothing of it, and is given the text of a site as
//! the planner saved it. No rule lives here.
//!
//! | module | holds |
//! |---|---|
//! | [`finder`] | where a shell fits, and what would free one that stands too close |
//! | [`access`] | the way in and the crane |
//! | [`edge`] | the edge of clear ground, held against the cut |
//! | [`space`] | the job in three dimensions |
//! | [`sources`] | every figure that the work rests on, with its source |
//! | [`sun`] | the sun on the water, and the shade at one time
//! | [`press`] | one job worked out, sheets made of it, files of it for others |
//! | [`survey`] | a surveyor's LandXML looked at and brought in; the site out of a sheet |
//! | [`yard`] | the homeowner's view |
//!
//! A panic is a bug. It is told on the console by a hook and ends the worker; the page starts a new one.

pub mod access;
pub mod edge;
pub mod finder;
pub mod press;
pub mod sources;
pub mod space;
pub mod sun;
pub mod survey;
pub mod yard;

use std::sync::Arc;

use batterboard_core::exchange;
use batterboard_core::finding::Finding;
use batterboard_core::site::{CheckedSite, Site};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// Runs once when the module is instantiated.
#[wasm_bindgen(start)]
fn start() {
    console_error_panic_hook::set_once();
}

/// Carries a value across as plain objects and arrays.
fn to_js<T: Tsify + Serialize>(value: &T) -> Result<Ts<T>, JsValue> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    Ok(Ts::new_unchecked(value.serialize(&serializer)?))
}

/// The site of a text that the planner saved, with or without the data of its images, which is not looked at.
fn without_images(site: &str) -> Result<CheckedSite, JsValue> {
    let mut site: Site = exchange::read_value(site).map_err(|fault| js_error(&[fault]))?;
    site.picture = None;
    site.photographs = Arc::default();
    CheckedSite::check(site, None).map_err(|faults| js_error(&faults))
}

/// Findings as the error of a call that cannot be answered without what they bar.
fn js_error(findings: &[Finding]) -> JsValue {
    let sentence = |it: &Finding| format!("{} {}", it.message, it.remedy);
    let text: Vec<String> = findings.iter().map(sentence).collect();
    js_sys::Error::new(&text.join(" ")).into()
}
