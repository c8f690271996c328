//! What stands on and under the lot.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::facts::Facts;
use super::kind::FeatureKind;
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
        /// Its center, meters.
        at: Point,
        /// Its radius, meters.
        radius: f64,
    },
    /// A band with an open path along its middle, its ends square.
    Strip {
        /// Its middle.
        path: PathRecord,
        /// Its width, meters.
        width: f64,
    },
    /// A band inside the lot along one of its courses; it follows the lot.
    Along {
        /// Index of the course.
        course: usize,
        /// Its width, meters.
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
