//! A shell as files tell it, not yet checked.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::PathRecord;

/// A one-piece shell as a file tells it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ShellRecord {
    /// What the shell is called.
    pub name: String,
    /// Anything worth saying about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The water's edge, closed, shell frame, metres.
    pub outline: PathRecord,
    /// The floor, facet by facet; together they cover the outline.
    pub floor: Vec<FacetRecord>,
    /// Width of the coping outside the water's edge, metres.
    pub coping_width: f64,
    /// Depth of the water's surface below the rim, metres.
    pub waterline: f64,
    /// Thickness of the moulded wall and floor, metres.
    #[serde(default)]
    pub wall_thickness: f64,
    /// Weight of the empty shell, kilograms, where known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight: Option<f64>,
}

/// A planar piece of the floor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FacetRecord {
    /// What part of the floor it is.
    pub kind: FacetKind,
    /// Its outline in plan, closed, shell frame, metres.
    pub outline: PathRecord,
    /// Depth below the rim at each vertex of its outline, metres; they lie in one plane.
    pub depths: Vec<f64>,
}

/// The part of the floor a facet is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
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
