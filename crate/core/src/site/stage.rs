//! The stages of the work, one after the other: what a photograph shows, and what is seen in the round.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How far the work has come.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// The lot as it is.
    Lot,
    /// The work is marked on the ground.
    Marked,
    /// The hole is dug.
    Dug,
    /// The base lies in it.
    Bed,
    /// The shell stands on the base.
    Set,
    /// Stone fills the room beside it, and water stands in it.
    Backfilled,
    /// Collar and deck are poured, banks and fill are graded.
    Decked,
    /// Nothing of the work is left lying.
    Done,
}

impl Stage {
    /// Every stage, in order.
    pub const ALL: [Self; 8] = [
        Self::Lot,
        Self::Marked,
        Self::Dug,
        Self::Bed,
        Self::Set,
        Self::Backfilled,
        Self::Decked,
        Self::Done,
    ];

    /// What it is called.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Lot => "Lot",
            Self::Marked => "Marked",
            Self::Dug => "Dug",
            Self::Bed => "Base laid",
            Self::Set => "Shell set",
            Self::Backfilled => "Backfilled",
            Self::Decked => "Decked",
            Self::Done => "Done",
        }
    }

    /// Its place among the stages, from 0.
    pub const fn number(self) -> u8 {
        self as u8
    }
}
