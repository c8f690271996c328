//! Clearance rules: how far from what to what, and who says so.
//!
//! Towns differ in what they measure from and to, so a rule names both. The examples here
//! are examples; the local authority's own numbers go in their place.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::feature::FeatureKind;
use crate::lot::LineKind;

/// A least distance from one part of the work to something on the lot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Rule {
    /// What the ledger calls it.
    pub name: String,
    /// Where on the work it is measured from.
    pub from: MeasuredFrom,
    /// What it is measured to.
    pub to: MeasuredTo,
    /// The least distance, metres.
    pub distance: f64,
    /// Who says so. Never empty in a file that goes to a permit office.
    #[serde(default)]
    pub source: String,
}

/// The part of the work a rule measures from.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum MeasuredFrom {
    /// The inside of the wall at the rim.
    WatersEdge,
    /// The outer edge of the coping.
    Rim,
    /// The outer edge of the deck.
    DeckEdge,
    /// The equipment pad.
    Equipment,
    /// The top edge of the dig, where its sides meet the ground.
    Dig,
}

impl MeasuredFrom {
    /// The part in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::WatersEdge => "water's edge",
            Self::Rim => "rim",
            Self::DeckEdge => "deck edge",
            Self::Equipment => "equipment pad",
            Self::Dig => "top of dig",
        }
    }
}

/// What a rule measures to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum MeasuredTo {
    /// Every side of the lot of this kind; every side at all where none is named.
    LotLine {
        /// The kind of side.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        kind: Option<LineKind>,
    },
    /// Every feature of this kind.
    Feature {
        /// The kind of feature.
        kind: FeatureKind,
    },
}
