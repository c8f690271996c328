//! What was read back in the yard, in figures.

use serde::Serialize;

use super::Figure;
use crate::geom::Point;
use crate::site::{StakedLine, YardReading};
use crate::stakeout::{GradeWork, ShellEnd};

/// The bottom as dug.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BottomFigures {
    /// Each reading that counts.
    pub places: Vec<BottomPlace>,
    /// To be cut down to grade.
    pub cut: Figure,
    /// Stone to fill up to grade.
    pub fill: Figure,
    /// Stone beyond the plan where nothing is cut.
    pub stone: Figure,
    /// How it was worked out.
    pub method: &'static str,
}

/// The bottom at one reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BottomPlace {
    /// Index of the reading.
    pub reading: usize,
    /// What the place is called.
    pub place: String,
    /// Where it is, site meters.
    pub at: Point,
    /// Elevation of the bottom.
    pub elevation: Figure,
    /// How far above grade, signed.
    pub high: Figure,
    /// What is to be done.
    pub grade: GradeWork,
    /// The part of the bottom it stands for.
    pub share: Figure,
}

/// The rim as set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct RimFigures {
    /// Each reading that counts.
    pub places: Vec<RimPlace>,
    /// The highest and the lowest place, by their order here.
    pub high_low: [usize; 2],
    /// From the lowest to the highest.
    pub out_of_level: Figure,
    /// The limit that was chosen (common practice, no source).
    pub limit: Figure,
    /// Whether it is kept.
    pub within: bool,
    /// How far the mean lies above the coping as planned.
    pub above_plan: Option<Figure>,
    /// Which ends to lift and by how much; none while no plane can be told.
    pub lifts: Option<Vec<(ShellEnd, Figure)>>,
    /// What no lifting mends: from the lowest to the highest once the plane is taken off.
    pub twist: Option<Figure>,
}

/// The rim at one reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct RimPlace {
    /// Index of the reading.
    pub reading: usize,
    /// What the place is called.
    pub place: String,
    /// Where it is, site meters.
    pub at: Point,
    /// How far it lies below the highest.
    pub below_high: Figure,
    /// How far it lies above the plane, signed.
    pub off_plane: Option<Figure>,
}

/// A point as taped.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct TapedFigures {
    /// Index of the reading.
    pub reading: usize,
    /// The name of the stake.
    pub stake: String,
    /// What it is a point of.
    pub line: StakedLine,
    /// Where it is; none where the tapes cannot meet.
    pub found: Option<FoundFigures>,
    /// By how much tapes that cannot meet are out.
    pub apart: Option<Figure>,
}

/// A point that was found by two tapes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct FoundFigures {
    /// Where it is, site meters.
    pub at: Point,
    /// Expected error of the place.
    pub error: Option<Figure>,
    /// How far from the plan.
    pub miss: Option<Figure>,
    /// In which direction, clockwise from north.
    pub towards: Option<Figure>,
    /// How much narrower the hole is there, signed.
    pub narrower: Option<Figure>,
    /// The over-dig there.
    pub over_dig: Option<Figure>,
}

/// A reading as it was typed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ReadingFigures {
    /// The reading.
    pub reading: YardReading,
    /// What was read, in words.
    pub words: String,
}
