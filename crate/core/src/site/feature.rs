//! What stands on and under the lot.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::facts::Facts;
use crate::geom::{PathRecord, Point};

/// One thing on, over or under the lot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
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
    /// Left out of the plan, though still measured.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub hidden: bool,
    /// Held where it is: no hand moves it.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub locked: bool,
    /// What is known of it (see [`super::facts`] for what belongs to which kind).
    #[serde(default, skip_serializing_if = "Facts::is_empty")]
    pub facts: Facts,
    /// Anything worth saying about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The shape of a feature in plan, site frame.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
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
    /// A band with an open path along its middle, its ends square.
    Strip {
        /// Its middle.
        path: PathRecord,
        /// Its width, metres.
        width: f64,
    },
    /// A band inside the lot along one of its courses; it follows the lot.
    Along {
        /// Index of the course.
        course: usize,
        /// Its width, metres.
        width: f64,
    },
    /// Several areas, with holes.
    Compound(Vec<PieceRecord>),
}

/// One area of a compound shape.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct PieceRecord {
    /// Its outer edge.
    pub outer: PathRecord,
    /// The edges of its holes.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<PathRecord>,
}

/// What a feature is.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
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
    /// The edge of a street: curb or pavement.
    StreetEdge,
    /// Paving that is to be poured with the deck.
    Deck,
    /// A place left open in the deck.
    DeckOpening,
    /// Steps that are to be poured with the deck.
    DeckSteps,
    /// Where the trench for pipe is to run.
    PipeTrench,
    /// Room set aside for spoil.
    SpoilSpace,
    /// Anything else.
    Other,
}

impl FeatureKind {
    /// Every kind, in the order lists show them.
    pub const ALL: [Self; 22] = [
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
        Self::StreetEdge,
        Self::Deck,
        Self::DeckOpening,
        Self::DeckSteps,
        Self::PipeTrench,
        Self::SpoilSpace,
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
            Self::StreetEdge => "street edge",
            Self::Deck => "deck",
            Self::DeckOpening => "opening in the deck",
            Self::DeckSteps => "deck steps",
            Self::PipeTrench => "pipe trench",
            Self::SpoilSpace => "room for spoil",
            Self::Other => "other feature",
        }
    }

    /// Whether it is part of the work to come, rather than there already.
    pub fn is_planned(self) -> bool {
        matches!(
            self,
            Self::Deck | Self::DeckOpening | Self::DeckSteps | Self::PipeTrench | Self::SpoilSpace
        )
    }
}

impl Feature {
    /// A feature of which only kind and shape are known.
    pub fn of(id: impl Into<String>, kind: FeatureKind, shape: ShapeRecord) -> Self {
        Self {
            id: id.into(),
            kind,
            name: String::new(),
            shape,
            hidden: false,
            locked: false,
            facts: Facts::default(),
            note: String::new(),
        }
    }

    /// What the plan calls it: its name, or else its kind.
    pub fn label(&self) -> &str {
        if self.name.is_empty() {
            self.kind.words()
        } else {
            &self.name
        }
    }
}
