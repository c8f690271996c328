//! A shell from typed figures and a table of stations.

use batterboard_core::finding::Finding;
use batterboard_core::shell::traced::{InFrame, Traced};
use batterboard_core::shell::{ShellRecord, typed};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::js::{Answer, from_js, to_js};
use crate::planner::Planner;

/// The shell that a table of stations makes, or why there is none; findings are placed at "/3"
/// for the third line.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct ShellMade {
    shell: Option<ShellRecord>,
    findings: Vec<Finding>,
}

/// The size of an outline that was drawn, meters.
#[derive(Debug, Serialize, Tsify)]
pub struct TracedSize {
    length: f64,
    width: f64,
}

#[wasm_bindgen]
impl Planner {
    /// Length and width of an outline that was drawn; nothing where it is none.
    pub fn traced_size(&self, traced: &Ts<Traced>) -> Result<Option<Ts<TracedSize>>, JsValue> {
        let Ok(InFrame { length, width, .. }) = from_js(traced).and_then(|it| it.in_frame()) else {
            return Ok(None);
        };
        to_js(&TracedSize { length, width }).map(Some)
    }

    /// The record of a shell whose floor a table tells. The door looks at it when it
    /// is put on the lot.
    pub fn shell_by_stations(
        &self,
        figures: &Ts<typed::Figures>,
        table: &str,
    ) -> Answer<ShellMade> {
        let made = from_js(figures).and_then(|it| typed::shell(&it, table, self.display()));
        let (shell, findings) = match made {
            Ok(record) => (Some(record), Vec::new()),
            Err(findings) => (None, findings),
        };
        to_js(&ShellMade { shell, findings })
    }
}
