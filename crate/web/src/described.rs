//! A lot told in one line: what comes of it, while somebody types and when they take it.

use batterboard_core::exchange::{self, Unknown};
use batterboard_core::site::described::read_description;
use serde::Serialize;
use tsify::Tsify;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::js::{Answer, to_js};
use crate::planner::Planner;

/// What a line that describes a lot comes to.
#[derive(Debug, Serialize, Tsify)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum DescribedLot {
    /// A new job.
    Made {
        /// Its site file.
        site: String,
        /// What was understood and what was taken as usual.
        words: String,
    },
    /// It was not understood.
    Refused {
        /// What was not understood, in a sentence.
        message: String,
        /// What to type instead, in a sentence.
        remedy: String,
    },
}

#[wasm_bindgen]
impl Planner {
    /// Reads a line that describes a lot; lengths without a unit are in the units in use.
    pub fn read_description(&self, line: &str) -> Answer<DescribedLot> {
        to_js(&match read_description(line, self.display()) {
            Ok(described) => DescribedLot::Made {
                site: exchange::save(&described.site, &Unknown::default()),
                words: described.words,
            },
            Err(fault) => DescribedLot::Refused {
                message: fault.message,
                remedy: fault.remedy,
            },
        })
    }
}
