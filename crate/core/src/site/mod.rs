//! The document: everything placed on the lot, as it is saved.
//!
//! [`Site`] is plain data, the exact content of a site file. [`checked::CheckedSite`] is the
//! same site with every figure validated; everything further down computes from
//! that alone. Large parts sit behind `Arc`, so that an edit copies only what it changes and
//! derived results can be kept for as long as their part is the same one.

mod barrier;
pub mod book;
pub mod checked;
mod checked_lot;
mod condition;
pub mod datum;
pub mod described;
pub mod facts;
pub mod feature;
pub mod forms;
pub mod kind;
pub mod lift;
pub mod limits;
mod named;
pub mod numbers;
pub mod photograph;
pub mod picture;
pub mod placement;
pub mod plan;
pub mod rule;
pub mod shape;
mod share;
pub mod soil;
mod stage;
pub mod stakeout;
pub mod starter;
mod street;
pub mod tape;
pub mod works;

use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use barrier::BarrierRule;
pub use checked::CheckedSite;
pub use checked_lot::CheckedLot;
pub use condition::RuleConditions;
pub use datum::{Benchmark, GeoOrigin, Grid, GridUnit};
pub use facts::{FactForm, FactKind, Facts, KnownFrom, LineClass, Opening, Utility};
pub use feature::{Feature, PieceRecord, ShapeRecord};
pub use kind::FeatureKind;
pub use lift::{CraneSpot, Lift};
pub use photograph::Photograph;
pub use picture::{Fit, Picture, PictureMedia};
pub use placement::{EquipmentPad, Placement, ShellChoice};
pub use plan::{Alternative, Rate, SectionLine};
pub use rule::{FeaturePart, MeasuredFrom, MeasuredTo, Rule};
pub use shape::{CheckedFeature, CheckedPart, CheckedShape};
pub use share::{Cover, GroundPart, ShareRule};
pub use soil::{SoilClass, SpoilMaterial};
pub use stage::Stage;
pub use stakeout::{
    FixedPair, FixedPoint, ReadingOf, RodReading, RodScale, StakedLine, StakeoutRecord, TapedPoint,
    YardReading,
};
pub use street::kinds_from_street;
pub use tape::{Tape, TapeEnd};
pub use works::{
    AccessSettings, BaseZone, Bench, CollarSettings, ConstructionSettings, CraneSettings,
    DeckSettings, DewateringSettings, DigSettings, DoubtSettings, Fitting, FittingKind,
    GradingSettings, HaulSettings, HoleSide, MachineSize, PIPE_SOURCE, PadSettings, PipeSettings,
    PipeSize, SideSettings, SoilLayer, SpoilSettings, StoneSettings, TieSettings, WasteSettings,
};

use crate::ground::GroundRecord;
use crate::lot::LotRecord;
use crate::units::{Currency, System};

/// The `format` member of every site file.
pub const FORMAT: &str = "batterboard-site";

/// The version this build writes. Every older one still opens.
pub const VERSION: u32 = 3;

/// A site file's content. Lengths are meters, angles radians, bearings clockwise from
/// north, x east and y north.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Site {
    /// Always `batterboard-site`.
    pub format: String,
    /// Version of the format.
    pub version: u32,
    /// What the job is called.
    pub name: String,
    /// Anything worth saying about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The units the user reads.
    #[serde(default)]
    pub display: System,
    /// The lot, course by course.
    pub lot: Arc<LotRecord>,
    /// What stands on and under the lot.
    #[serde(default)]
    pub features: Arc<Vec<Feature>>,
    /// The ground before the dig.
    #[serde(default)]
    pub ground: Arc<GroundRecord>,
    /// The mark that elevations are carried from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub benchmark: Option<Benchmark>,
    /// Where the site's origin lies on the earth, where that is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub origin: Option<GeoOrigin>,
    /// The survey grid that the site's coordinates were brought down from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grid: Option<Grid>,
    /// The picture under the plan.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub picture: Option<Arc<Picture>>,
    /// The interval of the contours on the plan, meters; none are drawn without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contours: Option<f64>,
    /// The shell and where it is to stand, once one is chosen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub placement: Option<Placement>,
    /// The pad for pump, filter and heater, once placed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub equipment: Option<EquipmentPad>,
    /// Over-dig, base, collar, deck and the rest of the work.
    #[serde(default)]
    pub works: Arc<ConstructionSettings>,
    /// The clearance rules that apply here.
    #[serde(default)]
    pub rules: Arc<Vec<Rule>>,
    /// How much of the ground may be covered here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shares: Vec<ShareRule>,
    /// What the barrier round the water has to be; it is not looked at where nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub barrier: Option<BarrierRule>,
    /// What the user pays for quantities; none is built in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rates: Vec<Rate>,
    /// What the rates are in: a symbol or a code. Without it, `$`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub currency: Option<Currency>,
    /// Where the section is cut; without it along the shell through its deepest point.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub section: Option<SectionLine>,
    /// Other shells and places, kept to be compared with the one in use.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub alternatives: Vec<Alternative>,
    /// What was taken from the company's book, as it was then.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub taken: Vec<book::TakenEntry>,
    /// Distances that somebody had measured and wants to keep.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub tapes: Vec<Tape>,
    /// Where the shell is delivered and where the crane stands, once somebody has said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lift: Option<Lift>,
    /// How the work is staked and what was read back in the yard, once somebody began.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stakeout: Option<Arc<StakeoutRecord>>,
    /// Photographs of the yard, each at the place it was taken from.
    #[serde(default, skip_serializing_if = "none_taken")]
    pub photographs: Arc<Vec<Photograph>>,
}

fn none_taken(photographs: &Arc<Vec<Photograph>>) -> bool {
    photographs.is_empty()
}
