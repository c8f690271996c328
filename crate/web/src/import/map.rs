//! Maps and lists of points as the page shows them before they come in, and the edit they make.

use batterboard_core::exchange::import::{Settings, read};
use batterboard_core::session::incoming::{MapBrought, MapReading, proposed};
use tsify::Ts;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::js::{Answer, made_by_page, to_js};
use crate::planner::Planner;

#[wasm_bindgen]
impl Planner {
    /// What is in a map or a list, and where it would lie on the site. Without settings, those
    /// that seem to be meant are taken.
    pub fn read_map(&self, text: &str, settings: Option<Ts<Settings>>) -> Answer<MapReading> {
        let site = self.session.site().site();
        let settings = settings.map(made_by_page).transpose()?;
        to_js(&match read(text, settings.and_then(|it| it.columns)) {
            Ok(draft) => {
                let settings = settings.unwrap_or_else(|| proposed(&draft, site));
                MapReading::of(draft, settings, site)
            }
            Err(findings) => MapReading::refused(findings),
        })
    }

    /// The edit that brings a map or a list in, with a role for each thing by its word.
    pub fn bring_map(
        &self,
        text: &str,
        settings: Ts<Settings>,
        roles: Vec<String>,
    ) -> Answer<MapBrought> {
        let site = self.session.site().site();
        let settings = made_by_page(settings)?;
        to_js(&match read(text, settings.columns) {
            Ok(draft) => MapBrought::of(&draft, &settings, &roles, site, |_, _| {}),
            Err(findings) => MapBrought::refused(findings),
        })
    }
}
