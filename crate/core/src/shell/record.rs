//! A shell as files tell it, not yet checked.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::{PathRecord, Point};

/// A one-piece shell as a file tells it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ShellRecord {
    /// What the shell is called.
    pub name: String,
    /// Anything worth saying about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The water's edge, closed, shell frame, meters.
    pub outline: PathRecord,
    /// The floor, facet by facet; together they cover the outline. Empty where stations tell it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub floor: Vec<FacetRecord>,
    /// Width of the coping outside the water's edge, meters.
    pub coping_width: f64,
    /// Depth of the water's surface below the rim, meters.
    pub waterline: f64,
    /// Thickness of the moulded wall and floor, meters.
    #[serde(default)]
    pub wall_thickness: f64,
    /// How far the wall leans inward, run per unit of depth.
    #[serde(default)]
    pub draft: f64,
    /// Radius of the rounding between wall and floor, meters.
    #[serde(default)]
    pub cove: f64,
    /// The floor told by stations along the length, in place of facets.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub stations: Vec<StationRecord>,
    /// Where the drain is, shell frame, where it has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub drain: Option<Point>,
    /// Weight of the empty shell, kilograms, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight: Option<f64>,
}

/// A planar piece of the floor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct FacetRecord {
    /// What part of the floor it is.
    pub kind: FacetKind,
    /// Its outline in plan, closed, shell frame, meters.
    pub outline: PathRecord,
    /// Depth below the rim at each vertex of its outline, meters; they lie in one plane.
    pub depths: Vec<f64>,
}

/// The part of the floor a facet is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum FacetKind {
    /// A wide shallow shelf for lying in the water.
    Ledge,
    /// A stair tread.
    Step,
    /// A seat along a wall.
    Bench,
    /// The shallow floor.
    Shallow,
    /// The floor falling from the break to the deep end.
    Slope,
    /// The deepest floor.
    Deep,
}

impl FacetKind {
    /// The part in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Ledge => "ledge",
            Self::Step => "step",
            Self::Bench => "bench",
            Self::Shallow => "shallow floor",
            Self::Slope => "slope",
            Self::Deep => "deep floor",
        }
    }
}

/// A station along the length of a shell: how deep and how wide the floor is there.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct StationRecord {
    /// Where it is along the length, shell frame, meters.
    pub at: f64,
    /// Depth of the floor below the rim, meters.
    pub depth: f64,
    /// Width of the level floor there, its middle on the length; the whole width without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub width: Option<f64>,
    /// Depth below the rim at which the wall ends and the floor begins to slope inward, meters;
    /// where `width` is told and this is not, half of `depth`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wall: Option<f64>,
}
