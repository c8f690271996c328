//! What stands on and under the lot.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::{PathRecord, Point};

/// One thing on, over or under the lot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Feature {
    /// A name unique in the file, for references.
    pub id: String,
    /// What it is.
    pub kind: FeatureKind,
    /// What the plan calls it; empty: its kind.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Where it is and how it is shaped.
    pub shape: ShapeRecord,
    /// Depth of its footing below the ground beside it, metres, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub footing_depth: Option<f64>,
    /// For a buried line: what runs in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub utility: Option<Utility>,
    /// Anything worth saying about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The shape of a feature in plan, site frame.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ShapeRecord {
    /// A closed path.
    Area(PathRecord),
    /// An open path.
    Track(PathRecord),
    /// A disc.
    Disc {
        /// Its centre, metres.
        at: Point,
        /// Its radius, metres.
        radius: f64,
    },
}

/// What a feature is.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum FeatureKind {
    /// The dwelling.
    House,
    /// A shed, garage or other building.
    Outbuilding,
    /// A free-standing or retaining wall.
    Wall,
    /// A fence.
    Fence,
    /// A driveway.
    Driveway,
    /// A walk, patio or other paving.
    Walk,
    /// A tree with its canopy.
    Tree,
    /// Land somebody else may use.
    Easement,
    /// A septic tank.
    SepticTank,
    /// A septic absorption field.
    SepticField,
    /// A water well.
    Well,
    /// A line in the ground.
    BuriedLine,
    /// A wire overhead.
    OverheadLine,
    /// Equipment that is already there.
    Equipment,
    /// A stream, ditch or pond.
    Watercourse,
    /// Anything else.
    Other,
}

impl FeatureKind {
    /// Every kind, in the order lists show them.
    pub const ALL: [Self; 16] = [
        Self::House,
        Self::Outbuilding,
        Self::Wall,
        Self::Fence,
        Self::Driveway,
        Self::Walk,
        Self::Tree,
        Self::Easement,
        Self::SepticTank,
        Self::SepticField,
        Self::Well,
        Self::BuriedLine,
        Self::OverheadLine,
        Self::Equipment,
        Self::Watercourse,
        Self::Other,
    ];

    /// The kind in plain words, lower case.
    pub fn words(self) -> &'static str {
        match self {
            Self::House => "house",
            Self::Outbuilding => "outbuilding",
            Self::Wall => "wall",
            Self::Fence => "fence",
            Self::Driveway => "driveway",
            Self::Walk => "walk",
            Self::Tree => "tree",
            Self::Easement => "easement",
            Self::SepticTank => "septic tank",
            Self::SepticField => "septic field",
            Self::Well => "well",
            Self::BuriedLine => "buried line",
            Self::OverheadLine => "overhead line",
            Self::Equipment => "equipment",
            Self::Watercourse => "watercourse",
            Self::Other => "other feature",
        }
    }
}

impl Feature {
    /// What the plan calls it: its name, or else its kind.
    pub fn label(&self) -> &str {
        if self.name.is_empty() {
            self.kind.words()
        } else {
            &self.name
        }
    }
}

/// What runs in a buried line; each has its colour in the APWA uniform colour code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Utility {
    /// Electric power.
    Electric,
    /// Gas, oil or steam.
    Gas,
    /// Telephone, cable or fibre.
    Communication,
    /// Drinking water.
    Water,
    /// Reclaimed water or irrigation.
    Reclaimed,
    /// Sewer or drain.
    Sewer,
}
