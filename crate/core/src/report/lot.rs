//! The lot in figures.

use serde::Serialize;

use super::Figure;
use crate::finding::Caveat;
use crate::lot::{LineKind, Lot};
use crate::units::{Measure, System};

/// The lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LotFigures {
    /// Area inside the courses, arcs exact.
    pub area: Figure,
    /// The area the deed states, where it states one.
    pub stated_area: Option<Figure>,
    /// Length round the boundary, arcs exact.
    pub perimeter: Figure,
    /// How far the courses miss their start.
    pub misclosure: Figure,
    /// The perimeter over the misclosure; none when the courses close exactly.
    pub closing: Option<Figure>,
    /// Its sides, counter-clockwise.
    pub sides: Vec<SideFigures>,
    /// Why its figures are weaker than they look.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caveats: Vec<Caveat>,
}

/// One side of the lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SideFigures {
    /// What the plan calls it.
    pub label: String,
    /// Its kind.
    pub kind: LineKind,
    /// Index of its course in the site file.
    pub course: usize,
    /// Its length, along the arc where it is one.
    pub length: Figure,
}

impl LotFigures {
    pub(super) fn of(lot: &Lot, system: System) -> Self {
        let figure = |measure, value| Figure::new(measure, value, system);
        let side = |side: &crate::lot::Side| SideFigures {
            label: side.label.clone(),
            kind: side.kind,
            course: side.course,
            length: figure(Measure::LongLength, side.segment.length()),
        };
        Self {
            area: figure(Measure::LandArea, lot.area),
            stated_area: lot
                .area_comparison
                .map(|c| figure(Measure::LandArea, c.stated)),
            perimeter: figure(Measure::LongLength, lot.outline.perimeter()),
            misclosure: figure(Measure::Misclosure, lot.closure.length),
            closing: lot.closure.ratio.map(|r| figure(Measure::Closing, r)),
            sides: lot.sides.iter().map(side).collect(),
            caveats: Vec::new(),
        }
    }
}
