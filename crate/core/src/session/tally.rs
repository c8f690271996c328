//! The quantities beside the plan, as ready text.
//!
//! Light enough to be made anew on every frame of a drag. A quantity's working is made only
//! when somebody opens it (see `report`).

use serde::Serialize;

use super::Desk;
use crate::finding::{Finding, gravest_first};
use crate::takeoff::{Group, Line};
use crate::units::{Shown, System, show};

/// Everything the page lists of an estimate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Tally {
    /// Every quantity, in order.
    pub quantities: Vec<QuantityRow>,
    /// What belongs beside them, cautions first.
    pub findings: Vec<Finding>,
}

/// One quantity as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct QuantityRow {
    /// Its stable name.
    pub key: &'static str,
    /// The group it is listed in.
    pub group: Group,
    /// What it is called.
    pub label: &'static str,
    /// Its value.
    pub shown: Shown,
    /// Why it is weaker than it looks, in a few words each.
    pub caveats: Vec<&'static str>,
}

impl Tally {
    /// The tally of a desk as it stands.
    pub fn of(desk: &Desk) -> Self {
        let system = desk.site().site().display;
        let estimate = desk.estimate();
        let row = |line| quantity_row(line, system);
        Self {
            quantities: estimate.takeoff.iter().map(row).collect(),
            findings: gravest_first(&estimate.findings),
        }
    }
}

fn quantity_row(line: &Line, system: System) -> QuantityRow {
    QuantityRow {
        key: line.key,
        group: line.group,
        label: line.label,
        shown: show(line.measure, line.value, system),
        caveats: line.caveats.iter().map(|c| c.words()).collect(),
    }
}
