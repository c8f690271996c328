//! What a thing from outside is to become, and how its numbers are meant.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::site::{FeatureKind, GridUnit};

/// What becomes of one thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Nothing.
    LeaveOut,
    /// The lot, in place of the one that is there.
    Lot,
    /// A corner of the lot, in the order of the list.
    Corner,
    /// What marks the nearest corner of the lot.
    Monument,
    /// Spot elevations.
    Spot,
    /// A line that the ground bends along. Points of one description are joined in their order.
    Breakline,
    /// The benchmark.
    Benchmark,
    /// Something on the lot. Points of one description become discs, or are joined in their order
    /// where the kind is a line or an area (see [`Joined`]).
    Feature(FeatureKind),
}

impl Role {
    /// The role as files and commands name it: `lot`, `leave-out`, `septic-tank`.
    pub fn word(self) -> String {
        let value = match self {
            Self::Feature(kind) => serde_json::to_value(kind),
            other => serde_json::to_value(other),
        };
        let word = value.ok().and_then(|v| v.as_str().map(str::to_owned));
        word.unwrap_or_default()
    }

    /// The role of a name; `None` when there is none.
    pub fn named(word: &str) -> Option<Self> {
        let value = Value::from(word);
        serde_json::from_value(value.clone())
            .ok()
            .or_else(|| serde_json::from_value(value).ok().map(Self::Feature))
    }
}

/// How points that are told to be one kind of feature are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joined {
    /// Each by itself, as a small disc.
    Each,
    /// As the corners of a line.
    Line,
    /// As the corners of an area.
    Area,
}

impl Joined {
    /// The way that suits a kind.
    pub fn of(kind: FeatureKind) -> Self {
        use FeatureKind as K;
        match kind {
            K::Tree | K::Well | K::SepticTank | K::Equipment | K::Other => Self::Each,
            K::Wall
            | K::Fence
            | K::BuriedLine
            | K::OverheadLine
            | K::Watercourse
            | K::StreetEdge
            | K::PipeTrench => Self::Line,
            K::House
            | K::Outbuilding
            | K::Driveway
            | K::Walk
            | K::Easement
            | K::SepticField
            | K::Deck
            | K::DeckOpening
            | K::DeckSteps
            | K::SpoilSpace => Self::Area,
        }
    }
}

/// What the two numbers of a position are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "MapFrame")
)]
#[serde(rename_all = "kebab-case")]
pub enum Frame {
    /// Longitude and latitude, WGS 84 degrees.
    Degrees,
    /// East and north, meters.
    Metres,
    /// East and north, international feet.
    Feet,
    /// East and north, US survey feet.
    SurveyFeet,
}

impl Frame {
    /// The unit of east and north; `None` for degrees.
    pub fn unit(self) -> Option<GridUnit> {
        match self {
            Self::Degrees => None,
            Self::Metres => Some(GridUnit::Metres),
            Self::Feet => Some(GridUnit::Feet),
            Self::SurveyFeet => Some(GridUnit::SurveyFeet),
        }
    }
}

impl From<GridUnit> for Frame {
    fn from(unit: GridUnit) -> Self {
        match unit {
            GridUnit::Metres => Self::Metres,
            GridUnit::Feet => Self::Feet,
            GridUnit::SurveyFeet => Self::SurveyFeet,
        }
    }
}

/// Which of the two numbers of a position comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "MapOrder")
)]
#[serde(rename_all = "kebab-case")]
pub enum Order {
    /// Northing or latitude first, as surveyors' lists have it.
    NorthFirst,
    /// Easting or longitude first, as GeoJSON has it.
    EastFirst,
}

/// Which columns a list of points has besides the two coordinates and the description.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "MapColumns")
)]
pub struct Columns {
    /// A point's number or name comes first.
    pub point: bool,
    /// An elevation follows the coordinates.
    pub elevation: bool,
}

/// How a text is meant and what becomes of what is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "MapSettings", missing_as_null)
)]
pub struct Settings {
    /// What the two numbers of a position are.
    #[cfg_attr(feature = "typescript", tsify(type = "MapFrame"))]
    pub frame: Frame,
    /// Which comes first.
    #[cfg_attr(feature = "typescript", tsify(type = "MapOrder"))]
    pub order: Order,
    /// The unit of elevations.
    pub heights: GridUnit,
    /// The columns of a list of points.
    #[serde(default)]
    #[cfg_attr(feature = "typescript", tsify(type = "MapColumns | null"))]
    pub columns: Option<Columns>,
    /// Which of several parcels is the lot, counted from 0: only what stands on it is proposed.
    #[serde(default)]
    pub lot: Option<usize>,
    /// Which ring of the lot's item is its boundary, counted from 0, where it has several.
    #[serde(default)]
    pub ring: Option<usize>,
    /// Choose the site's origin anew, though it has one.
    #[serde(default)]
    pub fresh: bool,
    /// New spots join those that are there; otherwise they take their place.
    #[serde(default)]
    pub keep_spots: bool,
    /// Whatever comes in with an elevation is a spot too.
    #[serde(default)]
    pub spots_of_all: bool,
}
