//! Stakes, ties, levels and what was read back in the yard, for the page.

use batterboard_core::report::StakeoutFigures;
use batterboard_core::site::StakeoutRecord;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::js::{Answer, document_to_js};
use crate::planner::Planner;

#[wasm_bindgen]
impl Planner {
    /// Everything that is laid out and everything that was read back; nothing before a shell is placed.
    pub fn stakeout(&self) -> Result<Option<tsify::Ts<StakeoutFigures>>, JsValue> {
        self.session
            .stakeout()
            .map(|it| document_to_js(&it))
            .transpose()
    }

    /// How the work is staked, by default where nobody said so.
    pub fn stakeout_record(&self) -> Answer<StakeoutRecord> {
        let record = self.session.site().site().stakeout.as_deref().cloned();
        document_to_js(&record.unwrap_or_default())
    }

    /// The stakes as a list for a spreadsheet (RFC 4180); nothing before a shell is placed.
    pub fn stakes_list(&self) -> Option<String> {
        let site = self.session.site();
        let figures = self.session.stakeout()?;
        Some(figures.to_list(site, site.site().display))
    }
}
