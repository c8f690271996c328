//! A shell from typed figures and a table of stations.

use batterboard_core::finding::Finding;
use batterboard_core::shell::{ShellRecord, typed};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::wasm_bindgen;

use crate::js::{Answer, made_by_page, to_js};
use crate::planner::Planner;

/// The shell that a table of stations makes, or why there is none; findings are placed at "/3"
/// for the third line.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct ShellMade {
    shell: Option<ShellRecord>,
    findings: Vec<Finding>,
}

#[wasm_bindgen]
impl Planner {
    /// The record of a rectangular shell whose floor a table tells. The door looks at it when it
    /// is put on the lot.
    pub fn shell_by_stations(
        &self,
        figures: Ts<typed::Rectangle>,
        table: &str,
    ) -> Answer<ShellMade> {
        let figures = made_by_page(figures)?;
        let (shell, findings) = match typed::rectangle(&figures, table, self.display()) {
            Ok(record) => (Some(record), Vec::new()),
            Err(findings) => (None, findings),
        };
        to_js(&ShellMade { shell, findings })
    }
}
