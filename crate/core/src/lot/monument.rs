//! What marks a corner of the lot on the ground.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What stands at a corner.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Monument {
    /// What it is made of.
    #[serde(default)]
    pub kind: MonumentKind,
    /// Whether anybody has seen it.
    #[serde(default)]
    pub state: MonumentState,
    /// Anything worth saying about it ("cap stamped 12", "0.3 ft below grade").
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// What a monument is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum MonumentKind {
    /// An iron rod or pin.
    #[default]
    IronRod,
    /// An iron pipe.
    IronPipe,
    /// A concrete monument.
    Concrete,
    /// A stone.
    Stone,
    /// A nail, with or without a washer.
    Nail,
    /// A mark cut into concrete or rock.
    Cut,
    /// A post or stake.
    Post,
    /// Anything else.
    Other,
}

impl MonumentKind {
    /// The kind in plain words, lower case.
    pub fn words(self) -> &'static str {
        match self {
            Self::IronRod => "iron rod",
            Self::IronPipe => "iron pipe",
            Self::Concrete => "concrete monument",
            Self::Stone => "stone",
            Self::Nail => "nail",
            Self::Cut => "cut mark",
            Self::Post => "post",
            Self::Other => "monument",
        }
    }
}

/// Whether a monument was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum MonumentState {
    /// The deed or plat tells of it; nobody has looked yet.
    #[default]
    NotSearched,
    /// It was found.
    Found,
    /// A surveyor set it.
    Set,
    /// It was looked for and not found.
    NotFound,
}

impl MonumentState {
    /// The state in plain words, lower case.
    pub fn words(self) -> &'static str {
        match self {
            Self::NotSearched => "not searched for",
            Self::Found => "found",
            Self::Set => "set",
            Self::NotFound => "not found",
        }
    }
}
