//! A surveyor's LandXML looked at and brought in, and the site out of a sheet.

use std::sync::Arc;

use batterboard_core::exchange;
use batterboard_core::exchange::import::Settings;
use batterboard_core::exchange::landxml;
use batterboard_core::session::incoming::{MapBrought, MapReading, proposed};
use batterboard_core::site::Site;
use batterboard_paper::read;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{js_error, to_js};

/// What is in a survey, and where it would lie on a site (its text). Without settings, those that seem to be meant
/// are taken.
#[wasm_bindgen]
pub fn read_survey(
    text: &str,
    site: &str,
    settings: Option<Ts<Settings>>,
) -> Result<Ts<MapReading>, JsValue> {
    let site = opened(site)?;
    let settings = settings.map(Settings::from_js).transpose()?;
    to_js(&match landxml::read(text) {
        Ok(survey) => {
            let settings = settings.unwrap_or_else(|| proposed(&survey.draft, &site));
            MapReading::of(survey.draft, settings, &site)
        }
        Err(findings) => MapReading::refused(findings),
    })
}

/// The edit that brings a survey in, with a role for each thing by its word.
#[wasm_bindgen]
pub fn bring_survey(
    text: &str,
    site: &str,
    settings: Ts<Settings>,
    roles: Vec<String>,
) -> Result<Ts<MapBrought>, JsValue> {
    let site = opened(site)?;
    let settings = Settings::from_js(settings)?;
    to_js(&match landxml::read(text) {
        Ok(survey) => MapBrought::of(&survey.draft, &settings, &roles, &site, |changes, roles| {
            survey.complete(changes, &settings, roles, &site);
        }),
        Err(findings) => MapBrought::refused(findings),
    })
}

/// The text of the site file in a PDF that was saved here.
///
/// # Errors
/// When it cannot be read or there is none in it.
#[wasm_bindgen]
pub fn site_in_pdf(bytes: &[u8]) -> Result<String, JsValue> {
    read::site_in(bytes).map_err(|fault| js_error(&[fault]))
}

fn opened(site: &str) -> Result<Arc<Site>, JsValue> {
    let opened = exchange::open(site).map_err(|faults| js_error(&faults))?;
    Ok(Arc::clone(opened.site.site()))
}
