//! Rules about how much of the ground may be covered.
//!
//! Towns limit the share of a lot, or of its rear yard, that buildings, paving and water may take.
//! They differ in what counts, so a rule names it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Site;
use super::rule::says_example;
use crate::finding::Finding;

/// The greatest share of some ground that may be covered.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ShareRule {
    /// What the ledger calls it.
    pub name: String,
    /// Of which ground.
    pub of: GroundPart,
    /// What counts as covered; never empty.
    pub counts: Vec<Cover>,
    /// The greatest share, a number from 0 to 1.
    pub most: f64,
    /// Who says so.
    #[serde(default)]
    pub source: String,
}

impl ShareRule {
    /// Whether somebody has named who requires it on this lot (see [`super::Rule::is_confirmed`]).
    pub fn is_confirmed(&self) -> bool {
        !self.source.trim().is_empty() && !says_example(&self.source)
    }
}

/// A part of the lot that a share is taken of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum GroundPart {
    /// All of it.
    Lot,
    /// What lies between the rear line and the house, over the whole width of the lot.
    RearYard,
}

impl GroundPart {
    /// The part in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Lot => "lot",
            Self::RearYard => "rear yard",
        }
    }
}

/// Something that covers ground.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Cover {
    /// Houses and outbuildings that stand there.
    Structures,
    /// Driveways and walks that are there.
    Paving,
    /// The water with its coping.
    Shell,
    /// The deck and its steps.
    Deck,
    /// The equipment pad.
    Pad,
}

impl Cover {
    /// Every cover, in the order lists show them.
    pub const ALL: [Self; 5] = [
        Self::Structures,
        Self::Paving,
        Self::Shell,
        Self::Deck,
        Self::Pad,
    ];

    /// The cover in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Structures => "structures",
            Self::Paving => "driveway and walks",
            Self::Shell => "water and coping",
            Self::Deck => "deck and steps",
            Self::Pad => "equipment pad",
        }
    }

    /// Whether it comes with the work.
    pub fn is_new(self) -> bool {
        matches!(self, Self::Shell | Self::Deck | Self::Pad)
    }
}

/// The faults of shares that count nothing, placed in the site file.
pub(super) fn check(site: &Site) -> Vec<Finding> {
    let rules = site.shares.iter().enumerate();
    let counts_nothing = rules.filter(|(_, rule)| rule.counts.is_empty());
    counts_nothing
        .map(|(i, rule)| {
            Finding::fault(
                "share-counts-nothing",
                format!(
                    "The rule \"{}\" does not say what counts as covered.",
                    rule.name
                ),
                "Name what the authority counts: structures, paving, water, deck, pad.",
            )
            .under(&format!("/shares/{i}/counts"))
        })
        .collect()
}
