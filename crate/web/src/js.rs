//! How values cross into and out of the browser.
//!
//! Out they go as plain objects and arrays, with `null` for what is missing; in they come by way
//! of their JSON text, so that a fault names the member. [`Ts`] carries the type along, for
//! TypeScript as for the compiler.

use batterboard_core::exchange;
use batterboard_core::finding::Finding;
use serde::Serialize;
use serde::de::DeserializeOwned;
use tsify::{Ts, Tsify};
use wasm_bindgen::JsValue;

/// A value on its way to the page, or why it could not go.
pub type Answer<T> = Result<Ts<T>, JsValue>;

/// Carries a value across as plain objects and arrays (never `Map`).
///
/// # Errors
/// The value holds something JavaScript has no word for; ours do not.
pub fn to_js<T: Tsify + Serialize>(value: &T) -> Answer<T> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    let value = value.serialize(&serializer).map_err(JsValue::from)?;
    Ok(Ts::new_unchecked(value))
}

/// Carries a document across, by way of its JSON text: whatever is kept in files is written as text
/// anyway, and need not be made ready for another way as well.
///
/// # Errors
/// None: what we write is JSON.
pub fn document_to_js<T: Tsify + Serialize>(value: &T) -> Answer<T> {
    let text = batterboard_core::json::to_string(value);
    Ok(Ts::new_unchecked(js_sys::JSON::parse(&text)?))
}

/// Carries every value of a list across.
///
/// # Errors
/// As [`to_js`].
pub fn list_to_js<T: Tsify + Serialize>(values: &[T]) -> Result<Vec<Ts<T>>, JsValue> {
    values.iter().map(to_js).collect()
}

/// Takes a plain object from the page, with faults that name the member.
///
/// # Errors
/// The member that cannot be read.
pub fn from_js<T: Tsify + DeserializeOwned>(value: &Ts<T>) -> Result<T, Vec<Finding>> {
    let text = js_sys::JSON::stringify(&value.js_value()).map(String::from);
    exchange::read_value(&text.unwrap_or_default()).map_err(|fault| vec![fault])
}

/// Takes a plain object that the page makes itself, never from what somebody typed.
///
/// # Errors
/// What the page got wrong, as an error to throw.
pub fn made_by_page<T: Tsify + DeserializeOwned>(value: Ts<T>) -> Result<T, JsValue> {
    Ok(T::from_js(value)?)
}

/// Findings as the error of a call that cannot be answered without what they bar.
pub fn js_error(findings: &[Finding]) -> JsValue {
    let sentence = |it: &Finding| format!("{} {}", it.message, it.remedy);
    let text: Vec<String> = findings.iter().map(sentence).collect();
    js_sys::Error::new(&text.join(" ")).into()
}

/// Whether an edit was taken; where it was not, nothing was changed and the findings say why.
#[derive(Debug, Serialize, Tsify)]
pub struct Outcome {
    ok: bool,
    findings: Vec<Finding>,
}

impl From<Result<Vec<Finding>, Vec<Finding>>> for Outcome {
    fn from(result: Result<Vec<Finding>, Vec<Finding>>) -> Self {
        let ok = result.is_ok();
        let (Ok(findings) | Err(findings)) = result;
        Self { ok, findings }
    }
}

impl From<Result<(), Vec<Finding>>> for Outcome {
    fn from(result: Result<(), Vec<Finding>>) -> Self {
        Self::from(result.map(|()| Vec::new()))
    }
}
