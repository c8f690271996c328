//! What a record makes of its courses before anybody uses them: closure and area.

use serde::Serialize;

use super::super::area::AreaComparison;
use super::super::checked::Lot;
use super::super::record::LotRecord;
use super::super::traverse::{Closure, Traverse};
use crate::finding::Finding;
use crate::geom::Outline;

/// Closure and area of courses, also of courses that do not make a lot yet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Summary {
    /// How well they close; `None` while there are none.
    pub closure: Option<Closure>,
    /// Length round the boundary, meters, arcs along the arc: of the lot that the courses make, or
    /// of the courses as described while they make none. `None` while there are none.
    pub perimeter: Option<f64>,
    /// Area inside them, arcs exact, m2; `None` while they enclose nothing.
    pub area: Option<f64>,
    /// The stated area beside it.
    pub comparison: Option<AreaComparison>,
    /// What [`Lot::check`] says of them.
    pub findings: Vec<Finding>,
}

impl Summary {
    /// Of the courses of a record.
    pub fn of(record: &LotRecord) -> Self {
        if record.courses.is_empty() {
            return Self {
                closure: None,
                perimeter: None,
                area: None,
                comparison: None,
                findings: Vec::new(),
            };
        }
        let traverse = Traverse::of(record);
        let closure = Some(traverse.closure);
        match Lot::check(record) {
            Ok((lot, findings)) => Self {
                closure,
                perimeter: Some(lot.outline.perimeter()),
                area: Some(lot.area),
                comparison: lot.area_comparison,
                findings,
            },
            Err(findings) => {
                let area = Outline::check(traverse.vertices).ok().map(|o| o.area());
                let compare = |area| record.stated_area.and_then(|s| AreaComparison::of(s, area));
                Self {
                    closure,
                    perimeter: Some(record.courses.iter().map(|it| it.shape.length()).sum()),
                    area,
                    comparison: area.and_then(compare),
                    findings,
                }
            }
        }
    }
}
