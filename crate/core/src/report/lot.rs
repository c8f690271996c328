//! The lot in figures.

use serde::Serialize;

use super::Figure;
use crate::finding::Caveat;
use crate::lot::{Balance, LineKind, Lot, LotRecord, MonumentKind, MonumentState, North};
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
    /// The legs of the traverse, curves by their chords, over the misclosure; none when the courses
    /// close exactly.
    pub closing: Option<Figure>,
    /// Where they end instead, where they do not close exactly.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<Gap>,
    /// The closing ratio that was asked for, where they close worse.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub asked: Option<Figure>,
    /// How the misclosure is spread over the corners.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub balance: Option<Balance>,
    /// Area inside the courses less the stated area, as a share of the stated one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub area_difference: Option<Figure>,
    /// What the bearings count from, where it is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub basis: Option<BasisFigures>,
    /// Its sides, counter-clockwise.
    pub sides: Vec<SideFigures>,
    /// What marks its corners, in the order of the courses.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub monuments: Vec<MonumentFigures>,
    /// Why its figures are weaker than they look.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caveats: Vec<Caveat>,
}

/// From the start of the courses to their end.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gap {
    /// How far north of the start they end.
    pub northing: Figure,
    /// How far east of the start they end.
    pub easting: Figure,
    /// The bearing from start to end.
    pub direction: Figure,
}

/// What the bearings count from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BasisFigures {
    /// What kind of north.
    pub north: North,
    /// The basis in the words of the plat.
    pub words: String,
    /// Where true north lies in these bearings.
    pub true_north: Option<Figure>,
}

/// What marks a corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MonumentFigures {
    /// Index of the course that starts there.
    pub course: usize,
    /// What it is made of.
    pub kind: MonumentKind,
    /// Whether it was seen.
    pub state: MonumentState,
    /// Anything worth saying about it.
    pub note: String,
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
    /// Why it is weaker than it looks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caveats: Vec<Caveat>,
}

impl LotFigures {
    pub(super) fn of(lot: &Lot, record: &LotRecord, system: System) -> Self {
        let figure = |measure, value| Figure::new(measure, value, system);
        let side = |side: &crate::lot::Side| SideFigures {
            label: side.label.to_string(),
            kind: side.kind,
            course: side.course,
            length: figure(Measure::LongLength, side.segment.length()),
            caveats: lot.caveats(),
        };
        let closure = lot.closure;
        let gap = |_| Gap {
            northing: figure(Measure::Misclosure, closure.northing),
            easting: figure(Measure::Misclosure, closure.easting),
            direction: figure(Measure::Bearing, closure.bearing),
        };
        let basis = BasisFigures {
            north: record.basis.north,
            words: record.basis.words.clone(),
            true_north: record.basis.true_north.map(|b| figure(Measure::Bearing, b)),
        };
        let monuments = record
            .courses
            .iter()
            .enumerate()
            .filter_map(|(course, it)| {
                let monument = it.monument.as_ref()?;
                Some(MonumentFigures {
                    course,
                    kind: monument.kind,
                    state: monument.state,
                    note: monument.note.clone(),
                })
            });
        Self {
            area: figure(Measure::LandArea, lot.area),
            stated_area: lot
                .area_comparison
                .map(|c| figure(Measure::LandArea, c.stated)),
            perimeter: figure(Measure::LongLength, lot.outline.perimeter()),
            misclosure: figure(Measure::Misclosure, lot.closure.length),
            closing: lot.closure.ratio.map(|r| figure(Measure::Closing, r)),
            gap: closure.ratio.map(gap),
            asked: lot.closes_worse_than.map(|r| figure(Measure::Closing, r)),
            balance: record.balance.filter(|_| closure.ratio.is_some()),
            area_difference: lot
                .area_comparison
                .map(|c| figure(Measure::Fraction, c.difference)),
            basis: (!record.basis.is_untold()).then_some(basis),
            sides: lot.sides.iter().map(side).collect(),
            monuments: monuments.collect(),
            caveats: lot.caveats(),
        }
    }
}
