//! What the crew lays the work out from, and what it reads back in the yard.
//!
//! A fixed point names a thing, not a place, so that it follows it; a pair that has lost the
//! feature, the course or the mark of one of its points goes with it. A reading keeps what it was
//! taken from (the backsight, the places of its fixed points): later choices do not change it.

use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Feature, ShapeRecord, Site};
use crate::finding::Finding;
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Point};
use crate::units::constants::{FOOT, INCH};

/// How the work is staked, and every reading so far. Every default is common practice, no source.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default)]
pub struct StakeoutRecord {
    /// The two fixed points that tapes are held to, once chosen.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fixed: Option<FixedPair>,
    /// How far the reading of one tape may be out (one standard deviation), meters.
    pub tape_error: f64,
    /// Length of the tape, meters.
    pub tape_length: f64,
    /// How far a straight string between two stakes may lie off the line they mark, meters.
    pub chord: f64,
    /// How far offset stakes stand clear of the top of dig, meters.
    pub offset: f64,
    /// The rod reading on the benchmark from where the laser stands now, meters.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub backsight: Option<f64>,
    /// How the rod is divided; by the site's units without it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rod_scale: Option<RodScale>,
    /// Length of the rod, meters.
    pub rod_length: f64,
    /// How far the bottom may lie off grade before it is cut or filled, meters.
    pub bottom_limit: f64,
    /// How much higher the rim may be at its highest than at its lowest, meters.
    pub rim_limit: f64,
    /// What was read, in the order in which it was read: of two at one place the later one counts.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<YardReading>,
}

impl Default for StakeoutRecord {
    fn default() -> Self {
        Self {
            fixed: None,
            tape_error: 0.25 * INCH,
            tape_length: 100.0 * FOOT,
            chord: 2.0 * INCH,
            offset: 3.0 * FOOT,
            backsight: None,
            rod_scale: None,
            rod_length: 13.0 * FOOT,
            bottom_limit: 0.5 * INCH,
            rim_limit: 0.25 * INCH,
            readings: Vec::new(),
        }
    }
}

/// The fixed points at the two ends of the base line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct FixedPair {
    /// The one that tape A is held to; the base line begins here.
    pub a: FixedPoint,
    /// The one that tape B is held to.
    pub b: FixedPoint,
}

/// Something that stays where it is and that a tape can be held to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum FixedPoint {
    /// A corner of what stands on the lot.
    Corner {
        /// The feature's id.
        feature: String,
        /// Which corner, in the order of its shape, from 0.
        corner: usize,
    },
    /// The corner of the lot at which this course begins.
    Lot(usize),
    /// The benchmark.
    Benchmark,
    /// A point of the plan that somebody marked.
    Marked {
        /// What it is ("nail in the walk").
        #[serde(default, skip_serializing_if = "String::is_empty")]
        name: String,
        /// Where it is, site meters.
        at: Point,
    },
}

/// How a rod is divided and read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum RodScale {
    /// Feet, inches and eighths.
    FeetInches,
    /// Feet, tenths and hundredths.
    Tenths,
    /// Millimeters.
    Millimetres,
}

/// Something read in the yard.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct YardReading {
    /// What was read.
    pub of: ReadingOf,
    /// When, as somebody typed it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub when: String,
    /// Who read it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub by: String,
}

/// What a reading is of.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ReadingOf {
    /// The rod on the bottom of the dig, before the base goes in.
    Bottom(RodReading),
    /// The rod on the rim, after setting.
    Rim(RodReading),
    /// Two tapes to a stake or to the edge of the hole.
    Taped(TapedPoint),
}

/// A reading of the rod.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RodReading {
    /// What the place is called ("S3", "deep end, left").
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// Where the rod stood, shell frame, meters.
    pub at: Point,
    /// The reading, meters.
    pub rod: f64,
    /// The reading on the benchmark from the same set-up, meters.
    pub backsight: f64,
}

/// A point measured by two tapes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct TapedPoint {
    /// The name of the stake; of what is no stake, whatever it is called.
    pub stake: String,
    /// What it is a point of.
    pub line: StakedLine,
    /// Where the tapes were held, site meters.
    pub from: [Point; 2],
    /// The two readings, meters.
    pub tapes: [f64; 2],
}

/// A line of the work that stakes mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum StakedLine {
    /// The outer edge of the coping.
    Rim,
    /// The outer edge of the collar.
    Collar,
    /// Where the sides of the dig meet the ground.
    Top,
    /// The foot of the sides: the over-dig at the bottom.
    Bottom,
    /// The rectangle round the bottom of the dig.
    Hole,
}

impl StakedLine {
    /// Every line, in the order of the sheet.
    pub const ALL: [Self; 5] = [Self::Hole, Self::Bottom, Self::Top, Self::Rim, Self::Collar];

    /// What its stakes mark, and the letter that their names begin with.
    pub const fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Rim => ("rim", "R"),
            Self::Collar => ("edge of collar", "C"),
            Self::Top => ("top of dig", "D"),
            Self::Bottom => ("bottom edge of dig", "B"),
            Self::Hole => ("corner of the hole", "H"),
        }
    }
}

impl FixedPoint {
    /// Whether the site has it, somewhere that is known.
    pub fn is_there(&self, site: &Site) -> bool {
        match self {
            Self::Corner { feature, corner } => {
                let mut features = site.features.iter();
                let feature = features.find(|f| f.id == *feature);
                feature.is_some_and(|f| *corner < corners(f).len())
            }
            Self::Lot(course) => *course < site.lot.courses.len(),
            Self::Benchmark => site.benchmark.as_ref().is_some_and(|it| it.at.is_some()),
            Self::Marked { .. } => true,
        }
    }
}

/// The corners of a feature in the order of its shape, site meters; a disc has its center.
pub fn corners(feature: &Feature) -> Vec<Point> {
    let of = |path: &PathRecord| -> Vec<Point> {
        let vertices = path.0.iter();
        let places = vertices.map(|vertex| match *vertex {
            VertexRecord::Arc([x, y, _]) | VertexRecord::Line([x, y]) => Point::new(x, y),
        });
        places.collect()
    };
    match &feature.shape {
        ShapeRecord::Area(path) | ShapeRecord::Track(path) => of(path),
        ShapeRecord::Disc { at, .. } => vec![*at],
        ShapeRecord::Strip { .. } | ShapeRecord::Along { .. } => Vec::new(),
        ShapeRecord::Compound(pieces) => pieces.iter().flat_map(|it| of(&it.outer)).collect(),
    }
}

/// Takes the pair of fixed points away that has lost one of them.
pub fn drop_lost(site: &mut Site) {
    let pair = site.stakeout.as_ref().and_then(|it| it.fixed.as_ref());
    let lost = pair.is_some_and(|it| !it.a.is_there(site) || !it.b.is_there(site));
    if let Some(record) = site.stakeout.as_mut().filter(|_| lost) {
        Arc::make_mut(record).fixed = None;
    }
}

/// The faults of fixed points that are not there or twice the same, placed in the site file.
pub fn check(site: &Site) -> Vec<Finding> {
    let mut faults = Vec::new();
    let Some(pair) = site.stakeout.as_ref().and_then(|it| it.fixed.as_ref()) else {
        return faults;
    };
    if pair.a == pair.b {
        let message = "Both tapes are held to the same fixed point.";
        let remedy = "Choose another point for one of them.";
        faults.push(Finding::fault("fixed-points", message, remedy).under("/stakeout/fixed"));
    }
    for (name, point) in [("a", &pair.a), ("b", &pair.b)] {
        if !point.is_there(site) {
            let message = "A fixed point is not on the site, or nobody knows where it is.";
            let remedy = "Choose a corner or a mark that is there, or leave the fixed points out.";
            let fault = Finding::fault("fixed-point", message, remedy);
            faults.push(fault.under(&format!("/stakeout/fixed/{name}")));
        }
    }
    faults
}
