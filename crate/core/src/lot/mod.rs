//! The lot: courses, traverse, closure and line kinds.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::Finding;
use crate::geom::{Outline, Point, Segment};

/// The kind of a side of the lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LineKind {
    /// Along the street the house faces.
    Front,
    /// Between neighbours.
    Side,
    /// At the back.
    Rear,
    /// Along another street.
    StreetSide,
    /// Shared with common land.
    Shared,
    /// Not told.
    #[default]
    Unspecified,
}

/// The lot as a file tells it.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct LotRecord {
    /// Where the first course starts, site metres.
    pub start: Point,
}

/// One side of the checked lot.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// The course it came from.
    pub course: usize,
    /// Its kind.
    pub kind: LineKind,
    /// Its shape.
    pub segment: Segment,
    /// What the plan calls it.
    pub label: String,
}

/// The checked lot.
#[derive(Debug, Clone, PartialEq)]
pub struct Lot {
    /// The boundary, counter-clockwise.
    pub outline: Outline,
    /// Its sides, in the order of the outline's segments.
    pub sides: Vec<Side>,
}

impl Lot {
    /// Checks a lot.
    pub fn check(record: &LotRecord) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        let _ = record;
        unimplemented!()
    }
}
