//! What is searched for, and how well a place has to be known to be told.

use serde::{Deserialize, Serialize};

use crate::site::ShellChoice;
use crate::site::book::Day;

/// What the best place is the best for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum FitAim {
    /// The most room to whatever is nearest.
    #[default]
    MostRoom,
    /// The shortest walk from a door; from the house where no door is told.
    NearDoor,
    /// The most room of those that lie parallel or square to the house or a lot line.
    Parallel,
    /// The least earth to haul away.
    LeastSpoil,
    /// The least fill, and thereby the lowest banks and walls.
    LeastFill,
    /// The most sun on the water through a day.
    MostSun,
}

/// What is searched for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(default, rename_all = "kebab-case")]
pub struct FitWish {
    /// What the best place is the best for.
    pub wanted: FitAim,
    /// From one heading to the next, whole degrees, 1 to 90.
    pub step: u16,
    /// The shells tried, by name; all of the catalogue and the one on the lot where none is named.
    pub shells: Vec<String>,
    /// The day whose sun counts, as `2026-06-21`; the usual one where none is named.
    #[cfg_attr(feature = "typescript", tsify(type = "string | undefined", optional))]
    pub sun_date: Option<Day>,
}

impl Default for FitWish {
    fn default() -> Self {
        Self {
            wanted: FitAim::default(),
            step: 1,
            shells: Vec::new(),
            sun_date: None,
        }
    }
}

/// How many places are told of one shell.
pub(super) const PLACES_A_SHELL: usize = 3;

impl FitAim {
    /// Whether a place promises as much as clear ground is deep round it.
    pub(super) fn is_by_depth(self) -> bool {
        matches!(self, Self::MostRoom | Self::Parallel)
    }

    /// How many places of one shell are worked out: more where only that tells which is the best.
    pub(super) fn worked_out(self) -> usize {
        match self {
            Self::MostRoom | Self::NearDoor | Self::Parallel => PLACES_A_SHELL,
            Self::LeastSpoil | Self::LeastFill | Self::MostSun => 3 * PLACES_A_SHELL,
        }
    }
}

/// What a shell is called.
pub(super) fn name_of(shell: &ShellChoice) -> &str {
    match shell {
        ShellChoice::Catalogue(name) => name,
        ShellChoice::Own(record) => &record.name,
    }
}
