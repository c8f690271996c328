//! What an analysis brings: kept parts that change nothing, few holes cut, and cautions that speak
//! in time.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

mod place;
mod quantities;
mod scenarios;
mod topics;

use serde_json::{Value, json};

use super::{Analysis, Cache, Detail, Scenario, run};
use crate::finding::Finding;
use crate::math::TURN;
use crate::site::{CheckedSite, Site};

/// A level lot of 30 x 40 m with a shell of 20 x 10 ft lying east and west at its middle.
pub(crate) fn document() -> Value {
    let course = |kind: &str, quarters: f64, length: f64| {
        json!({ "kind": kind,
                "shape": { "line": { "bearing": quarters * TURN / 4.0, "distance": length } } })
    };
    json!({
        "format": "batterboard-site", "version": 3, "name": "test",
        "lot": { "courses": [
            course("front", 1.0, 30.0), course("side", 0.0, 40.0),
            course("rear", 3.0, 30.0), course("side", 2.0, 40.0),
        ] },
        "placement": { "shell": { "catalogue": "Pignut" }, "at": [15, 20],
                       "heading": TURN / 4.0, "coping_elevation": 0.1 },
        "rules": [{ "name": "Rear", "from": "rim", "to": { "lot-line": { "kind": "rear" } },
                    "distance": 3, "source": "test" }],
    })
}

pub(crate) fn checked(document: &Value, previous: Option<&CheckedSite>) -> CheckedSite {
    let site: Site = serde_json::from_value(document.clone()).unwrap();
    CheckedSite::check(site, previous).unwrap()
}

pub(crate) fn analyzed(site: &CheckedSite, detail: Detail) -> Analysis {
    run(&Scenario::of(site), detail, &mut Cache::default())
}

fn named<'a>(analysis: &'a Analysis, check: &str) -> Vec<&'a Finding> {
    let findings = analysis.findings.iter();
    findings.filter(|f| f.code == check).collect()
}

pub(crate) fn feature(kind: &str, shape: &Value, depth: Option<f64>) -> Value {
    json!([{ "id": "it", "kind": kind, "shape": shape, "facts": { "footing_depth": depth } }])
}
