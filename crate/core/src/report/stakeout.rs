//! Stakes, ties and levels, in figures.

use serde::Serialize;

use super::Figure;
use super::read_back::{BottomFigures, ReadingFigures, RimFigures, TapedFigures};
use crate::finding::{Finding, Message};
use crate::geom::Point;
use crate::shell::FacetKind;
use crate::site::StakedLine;
use crate::stakeout::{BaseSide, Blocked, FixedCandidate, RimStation};

/// Everything that is laid out, and everything that was read back.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct StakeoutFigures {
    /// What is wrong or worth knowing.
    pub findings: Vec<Finding>,
    /// Everything that tapes can be held to.
    pub candidates: Vec<FixedCandidate>,
    /// The pair that fixes all stakes best.
    pub best: Option<PairFigures>,
    /// The base line that the ties hang on.
    pub base: Option<BaseFigures>,
    /// How far the reading of a tape may be out.
    pub tape_error: Figure,
    /// How far a straight string between two stakes of a line lies off it at most.
    pub chords: Vec<(StakedLine, Figure)>,
    /// Every stake, line by line.
    pub stakes: Vec<StakeFigures>,
    /// Stakes clear of the dig.
    pub offsets: Vec<OffsetFigures>,
    /// How far they stand clear of the top of dig.
    pub clear: Figure,
    /// Check diagonals.
    pub diagonals: Vec<DiagonalFigures>,
    /// Where the laser stands, once it is told.
    pub level: Option<LevelFigures>,
    /// Stations along the shell.
    pub stations: Vec<StationFigures>,
    /// Places of the rim to be read after setting.
    pub rim_stations: Vec<RimStation>,
    /// The bottom as dug, once it was read.
    pub bottom: Option<BottomFigures>,
    /// The rim as set, once it was read.
    pub rim: Option<RimFigures>,
    /// Points as taped.
    pub taped: Vec<TapedFigures>,
    /// Every reading as it was typed, in order.
    pub readings: Vec<ReadingFigures>,
}

/// A pair of fixed points that is proposed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct PairFigures {
    /// What tape A and tape B are held to.
    pub points: [FixedCandidate; 2],
    /// Stakes that it does not fix well: a tape barred or too long, or a poor angle.
    pub unfit: usize,
    /// The greatest expected error of a stake; none where one lies on the base line.
    pub worst: Option<Figure>,
}

/// The base line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct BaseFigures {
    /// What tape A and tape B are held to.
    pub points: [FixedCandidate; 2],
    /// From the one to the other.
    pub length: Figure,
    /// Nobody chose them: they are the best pair.
    pub proposed: bool,
    /// The greatest expected error of a stake; none where one lies on the base line.
    pub worst: Option<Figure>,
}

/// How a stake hangs on the base line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct TieFigures {
    /// Tape A and tape B.
    pub tapes: [Figure; 2],
    /// The angle at which they cross.
    pub crossing: Figure,
    /// Whether they cross well.
    pub sound: bool,
    /// Expected error of the stake.
    pub error: Option<Figure>,
    /// The long half-axis of its ellipse.
    pub long_axis: Option<Figure>,
    /// Along the base line from A.
    pub along: Figure,
    /// Off the base line.
    pub off: Figure,
    /// On which side, going from A to B.
    pub side: BaseSide,
    /// What is in the way of either tape.
    #[cfg_attr(feature = "typescript", tsify(type = "[string | null, string | null]"))]
    pub blocked: Blocked,
}

/// A stake.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct StakeFigures {
    /// Its name.
    pub name: String,
    /// The line it is on.
    pub line: StakedLine,
    /// What it marks, in words.
    pub what: &'static str,
    /// Where it is, site meters.
    pub at: Point,
    /// Its tie, once there is a base line.
    pub tie: Option<TieFigures>,
    /// Elevation of the ground there, where it is known.
    pub ground: Option<Figure>,
    /// Elevation of the bottom of the dig there, for stakes at the bottom.
    pub bottom: Option<Figure>,
    /// What the rod reads on that bottom.
    pub rod: Option<RodFigures>,
    /// Its offset stakes.
    pub offsets: Vec<String>,
}

/// An offset stake.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct OffsetFigures {
    /// Its name.
    pub name: String,
    /// The stake or station it serves.
    pub serves: String,
    /// Which way it lies from there.
    pub towards: &'static str,
    /// Where it is, site meters.
    pub at: Point,
    /// From the stake to the bottom edge of the dig, level.
    pub distance: Figure,
    /// Its tie, once there is a base line.
    pub tie: Option<TieFigures>,
    /// Elevation of the ground at the stake, where it is known.
    pub ground: Option<Figure>,
    /// Elevation of the bottom of the dig at its edge.
    pub bottom: Figure,
    /// From the ground at the stake down to the bottom, where the ground is known.
    pub cut: Option<Figure>,
    /// What the rod reads on that bottom.
    pub rod: Option<RodFigures>,
}

/// Two diagonals that show whether four stakes are square.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct DiagonalFigures {
    /// The stakes, in order round.
    pub stakes: [String; 4],
    /// From the first to the third, and from the second to the fourth.
    pub lengths: [Figure; 2],
    /// How far off square the corners are when the first is measured an inch (25.4 mm) longer, and
    /// what that is over the longer side.
    pub off_by_inch: [Figure; 2],
}

/// A reading of the rod.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RodFigures {
    /// Meters.
    pub value: f64,
    /// As the rod is divided.
    pub text: String,
    /// Whether the rod can show it.
    pub shows: bool,
}

/// Where the laser stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct LevelFigures {
    /// What the mark is called.
    #[cfg_attr(feature = "typescript", tsify(type = "string"))]
    pub mark: Message,
    /// Its elevation.
    pub elevation: Figure,
    /// The reading on it.
    pub backsight: RodFigures,
    /// Elevation of the line of sight.
    pub instrument: Figure,
    /// The reading on the rim as planned.
    pub rim: RodFigures,
}

/// A station along the shell.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct StationFigures {
    /// Its name.
    pub name: String,
    /// Where it is, site meters.
    pub at: Point,
    /// Where it is, shell frame, meters.
    pub in_shell: Point,
    /// How far along the shell from the shallow end of its floor.
    pub along: Figure,
    /// What part of the floor it is.
    pub kind: FacetKind,
    /// Depth of the floor below the coping.
    pub depth: Figure,
    /// Elevation of the finished base, on which the shell rests.
    pub base: Figure,
    /// Elevation of the underside of the base, the bottom of the dig.
    pub bottom: Figure,
    /// What the rod reads on the finished base.
    pub rod_base: Option<RodFigures>,
    /// What the rod reads on the bottom of the dig.
    pub rod_bottom: Option<RodFigures>,
}
