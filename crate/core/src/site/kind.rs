//! What a thing on the lot is.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

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

    /// Whether it stands on a footing that a hole may undermine.
    pub fn has_footing(self) -> bool {
        matches!(self, Self::House | Self::Outbuilding | Self::Wall)
    }

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
