//! What crosses to the page besides reports, and how it crosses.

use batterboard_core::exchange;
use batterboard_core::finding::Finding;
use batterboard_core::units::{
    Doubt, Measure, System, UnitFault, parse_measure, parse_rate, show, show_rate,
};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::JsValue;

/// Carries a value across as plain objects and arrays (never `Map`).
///
/// # Errors
/// The value holds something JavaScript has no word for; ours do not.
pub fn cross(value: &impl Serialize) -> Result<JsValue, JsValue> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value.serialize(&serializer).map_err(JsValue::from)
}

/// Takes a plain object from the page by way of its JSON text, with faults that name the member.
///
/// # Errors
/// The member that cannot be read.
pub fn taken<T: DeserializeOwned>(value: &JsValue) -> Result<T, Vec<Finding>> {
    let text = js_sys::JSON::stringify(value).map(String::from);
    exchange::read_value(&text.unwrap_or_default()).map_err(|fault| vec![fault])
}

/// Findings as the error of a call that cannot be answered without what they bar.
pub fn refused(findings: &[Finding]) -> JsValue {
    cross(&findings).unwrap_or(JsValue::NULL)
}

/// Whether an edit was taken.
#[derive(Debug, Serialize)]
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

/// A typed figure as it was understood.
#[derive(Debug, Serialize)]
#[serde(untagged)]
enum Reading {
    Understood {
        ok: bool,
        value: f64,
        text: String,
        doubts: Vec<Doubt>,
    },
    Not {
        ok: bool,
        message: String,
        remedy: String,
        from: usize,
        to: usize,
    },
}

/// Reads a typed figure.
pub fn reading(text: &str, measure: Measure, system: System) -> impl Serialize {
    match parse_measure(text, measure, system) {
        Ok(parsed) => Reading::Understood {
            ok: true,
            value: parsed.value,
            text: show(measure, parsed.value, system).text,
            doubts: parsed.doubts,
        },
        Err(fault) => Reading::from(fault),
    }
}

/// Reads a typed rate: money for one unit that the figure is shown in, kept for one SI unit.
pub fn rate_reading(text: &str, measure: Measure, system: System) -> impl Serialize {
    match parse_rate(text, measure, system) {
        Ok(value) => Reading::Understood {
            ok: true,
            value,
            text: show_rate(measure, value, system).text,
            doubts: Vec::new(),
        },
        Err(fault) => Reading::from(fault),
    }
}

impl From<UnitFault> for Reading {
    fn from(fault: UnitFault) -> Self {
        Self::Not {
            ok: false,
            message: fault.message,
            remedy: fault.remedy,
            from: fault.span.start,
            to: fault.span.end,
        }
    }
}
