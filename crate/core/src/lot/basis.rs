//! What the bearings of a lot count from: the basis of bearings and its north.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The north that bearings count from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum North {
    /// Not told.
    #[default]
    Unspecified,
    /// Along the meridian.
    True,
    /// Of a map grid.
    Grid,
    /// Of the compass, at the time of the survey.
    Magnetic,
    /// Taken for granted by the surveyor.
    Assumed,
    /// Of an earlier plat or deed.
    Record,
}

impl North {
    /// The north in plain words, lower case; empty where it is not told.
    pub fn words(self) -> &'static str {
        match self {
            Self::Unspecified => "",
            Self::True => "true north",
            Self::Grid => "grid north",
            Self::Magnetic => "magnetic north",
            Self::Assumed => "assumed north",
            Self::Record => "north of record",
        }
    }
}

/// The basis of bearings.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Basis {
    /// What kind of north it is.
    #[serde(default)]
    pub north: North,
    /// The basis as the plat says it ("the north line of Lot 4 bears N 89°12' E").
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub words: String,
    /// Where true north lies in the bearings of the lot, radians clockwise from their zero,
    /// where it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub true_north: Option<f64>,
}

impl Basis {
    /// Whether nothing is told of it.
    pub fn is_untold(&self) -> bool {
        *self == Self::default()
    }
}
