//! A place on the globe as people write it.

use batterboard_core::site::GeoOrigin;
use batterboard_core::units::{format_place, parse_place};
use serde::Serialize;
use tsify::Tsify;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::js::{Answer, to_js};
use crate::planner::Planner;

/// A place as it was understood, or what to type.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct PlaceReading {
    origin: Option<GeoOrigin>,
    text: String,
    message: String,
}

#[wasm_bindgen]
impl Planner {
    /// A latitude and longitude, as people write them, as the origin of a site.
    pub fn read_place(&self, text: &str) -> Answer<PlaceReading> {
        to_js(&match parse_place(text) {
            Ok(place) => PlaceReading {
                origin: Some(GeoOrigin {
                    longitude: place.longitude.to_radians(),
                    latitude: place.latitude.to_radians(),
                }),
                text: format_place(place.latitude, place.longitude, 6),
                message: String::new(),
            },
            Err(fault) => PlaceReading {
                origin: None,
                text: String::new(),
                message: fault.to_string(),
            },
        })
    }
}
