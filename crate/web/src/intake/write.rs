//! A site written as a map or a list of points, and its place on the globe.

use batterboard_core::exchange::{Figures, geojson, points};
use batterboard_core::finding::Finding;
use batterboard_core::site::{GeoOrigin, Site};
use batterboard_core::units::parse_place;
use batterboard_web::answers::{cross, taken};
use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::site::Document;

/// A site as GeoJSON; its geometry comes from the planner.
///
/// # Errors
/// When the parts are not what the page can have.
#[wasm_bindgen(unchecked_return_type = "Written")]
pub fn write_map(
    site: &str,
    #[wasm_bindgen(unchecked_param_type = "object")] figures: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "MapParts")] parts: &JsValue,
) -> Result<JsValue, JsValue> {
    cross(&Written::from(opened(site, figures).and_then(
        |(site, figures)| geojson::write(&site, &figures, taken(parts)?),
    )))
}

/// A site as a list of points; its geometry comes from the planner.
///
/// # Errors
/// When the choice is not what the page can have.
#[wasm_bindgen(unchecked_return_type = "Written")]
pub fn write_list(
    site: &str,
    #[wasm_bindgen(unchecked_param_type = "object")] figures: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "ListChoice")] choice: &JsValue,
) -> Result<JsValue, JsValue> {
    cross(&Written::from(opened(site, figures).and_then(
        |(site, figures)| points::write(&site, &figures, taken(choice)?),
    )))
}

/// A latitude and longitude, as people write them, as the origin of a site.
///
/// # Errors
/// None that the page can cause.
#[wasm_bindgen(unchecked_return_type = "PlaceReading")]
pub fn read_place(text: &str) -> Result<JsValue, JsValue> {
    cross(&match parse_place(text) {
        Ok(place) => PlaceReading {
            origin: Some(GeoOrigin {
                longitude: place.longitude.to_radians(),
                latitude: place.latitude.to_radians(),
            }),
            text: batterboard_core::units::format_place(place.latitude, place.longitude, 6),
            message: String::new(),
        },
        Err(fault) => PlaceReading {
            origin: None,
            text: String::new(),
            message: fault.to_string(),
        },
    })
}

fn opened(site: &str, figures: &JsValue) -> Result<(Site, Figures), Vec<Finding>> {
    Ok((Document::read(site)?.site, taken(figures)?))
}

/// A text, or why there is none.
#[derive(Debug, Serialize)]
struct Written {
    text: Option<String>,
    findings: Vec<Finding>,
}

impl From<Result<String, Vec<Finding>>> for Written {
    fn from(result: Result<String, Vec<Finding>>) -> Self {
        match result {
            Ok(text) => Self {
                text: Some(text),
                findings: Vec::new(),
            },
            Err(findings) => Self {
                text: None,
                findings,
            },
        }
    }
}

/// A place as it was understood, or what to type.
#[derive(Debug, Serialize)]
struct PlaceReading {
    origin: Option<GeoOrigin>,
    text: String,
    message: String,
}
