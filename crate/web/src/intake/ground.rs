//! The ground as it is typed and pasted: corner heights, an even fall, tables of spots and of
//! breaklines.

use batterboard_core::finding::Finding;
use batterboard_core::ground::GroundRecord;
use batterboard_core::ground::quick::{self, Corner, Towards};
use batterboard_core::ground::table::{self, Heights};
use batterboard_core::lot::{Lot, LotRecord};
use batterboard_core::units::{Measure, System, show};
use batterboard_web::answers::{cross, taken};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

/// Takes a plain object of the page's.
fn take<T: DeserializeOwned>(value: &JsValue) -> Result<T, JsValue> {
    taken(value).map_err(|faults| cross(&faults).unwrap_or(JsValue::NULL))
}

/// Ground that was made, or why not.
#[derive(Debug, Default, Serialize)]
struct Made {
    ground: Option<GroundRecord>,
    words: String,
    findings: Vec<Finding>,
}

impl Made {
    fn not(findings: Vec<Finding>) -> Self {
        Self {
            findings,
            ..Self::default()
        }
    }
}

/// The lot's corners, in the order of its courses.
///
/// # Errors
/// When lot or ground is not what a site file holds.
#[wasm_bindgen(unchecked_return_type = "LotCorner[]")]
pub fn lot_corners(
    #[wasm_bindgen(unchecked_param_type = "object")] lot: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "object")] ground: &JsValue,
) -> Result<JsValue, JsValue> {
    let (lot, ground): (LotRecord, GroundRecord) = (take(lot)?, take(ground)?);
    let corners: Vec<Corner> =
        Lot::check(&lot).map_or_else(|_| Vec::new(), |(lot, _)| quick::corners(&lot, &ground));
    cross(&corners)
}

/// The ground with these elevations (metres or null) at the lot's corners.
///
/// # Errors
/// When lot, ground or elevations are not what a site file holds.
#[wasm_bindgen(unchecked_return_type = "GroundMade")]
pub fn ground_by_corners(
    #[wasm_bindgen(unchecked_param_type = "object")] lot: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "object")] ground: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "(number | null)[]")] elevations: &JsValue,
) -> Result<JsValue, JsValue> {
    let (lot, ground): (LotRecord, GroundRecord) = (take(lot)?, take(ground)?);
    let elevations: Vec<Option<f64>> = take(elevations)?;
    let made = Lot::check(&lot)
        .and_then(|(lot, _)| quick::by_corners(&lot, &elevations, &ground))
        .map_or_else(Made::not, |ground| Made {
            ground: Some(ground),
            ..Made::default()
        });
    cross(&made)
}

/// An even fall: `drop` metres from `elevation`, towards the rear, a side or a bearing.
///
/// # Errors
/// When lot or direction is not what is expected.
#[wasm_bindgen(unchecked_return_type = "GroundMade")]
pub fn ground_by_fall(
    #[wasm_bindgen(unchecked_param_type = "object")] lot: &JsValue,
    elevation: f64,
    drop: f64,
    #[wasm_bindgen(unchecked_param_type = "object | \"rear\"")] towards: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "\"feet\" | \"metres\"")] system: JsValue,
) -> Result<JsValue, JsValue> {
    let (lot, towards): (LotRecord, Towards) = (take(lot)?, take(towards)?);
    let system = serde_wasm_bindgen::from_value(system)?;
    let made = Lot::check(&lot)
        .and_then(|(lot, _)| quick::by_fall(&lot, elevation, drop, towards))
        .map_or_else(Made::not, |fall| Made {
            words: format!(
                "{} over {}, {}",
                show(Measure::Length, drop, system).text,
                show(Measure::LongLength, fall.run, system).text,
                fall.words
            ),
            ground: Some(fall.ground),
            findings: Vec::new(),
        });
    cross(&made)
}

/// How the last column is read: elevations, or rod readings below the line of sight.
fn heights(benchmark: Option<f64>, backsight: Option<f64>) -> Heights {
    match (benchmark, backsight) {
        (Some(mark), Some(reading)) => Heights::Rod {
            instrument: table::height_of_instrument(mark, reading),
        },
        _ => Heights::Elevations,
    }
}

#[derive(Debug, Serialize)]
struct Spots {
    spots: Vec<[f64; 3]>,
    findings: Vec<Finding>,
}

/// Reads a table of spots. With `benchmark` and `backsight` (metres) its last column holds rod
/// readings. `known`: the spots it may have been written from.
///
/// # Errors
/// When the system or the known spots are not what is expected.
#[wasm_bindgen(unchecked_return_type = "SpotReading")]
pub fn read_spots(
    text: &str,
    #[wasm_bindgen(unchecked_param_type = "\"feet\" | \"metres\"")] system: JsValue,
    benchmark: Option<f64>,
    backsight: Option<f64>,
    #[wasm_bindgen(unchecked_param_type = "[number, number, number][]")] known: &JsValue,
) -> Result<JsValue, JsValue> {
    let system = serde_wasm_bindgen::from_value(system)?;
    let known: Vec<[f64; 3]> = take(known)?;
    let how = heights(benchmark, backsight);
    let (spots, findings) = table::read_spots(text, system, how, &known);
    cross(&Spots { spots, findings })
}

#[derive(Debug, Serialize)]
struct Breaklines {
    lines: Vec<Vec<[f64; 3]>>,
    findings: Vec<Finding>,
}

/// Reads a table of breaklines, an empty line or a name between two.
///
/// # Errors
/// When the system or the known lines are not what is expected.
#[wasm_bindgen(unchecked_return_type = "BreaklineReading")]
pub fn read_breaklines(
    text: &str,
    #[wasm_bindgen(unchecked_param_type = "\"feet\" | \"metres\"")] system: JsValue,
    #[wasm_bindgen(unchecked_param_type = "[number, number, number][][]")] known: &JsValue,
) -> Result<JsValue, JsValue> {
    let system = serde_wasm_bindgen::from_value(system)?;
    let known: Vec<Vec<[f64; 3]>> = take(known)?;
    let (lines, findings) = table::read_breaklines(text, system, Heights::Elevations, &known);
    cross(&Breaklines { lines, findings })
}

/// Writes spots and breaklines as tables that can be read again.
///
/// # Errors
/// When the system or the lines are not what is expected.
#[wasm_bindgen]
pub fn write_breaklines(
    #[wasm_bindgen(unchecked_param_type = "[number, number, number][][]")] lines: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "\"feet\" | \"metres\"")] system: JsValue,
) -> Result<String, JsValue> {
    let system: System = serde_wasm_bindgen::from_value(system)?;
    let lines: Vec<Vec<[f64; 3]>> = take(lines)?;
    Ok(table::write_breaklines(&lines, system))
}
