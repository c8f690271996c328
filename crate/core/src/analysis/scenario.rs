//! What is computed, and how much of it.

use std::borrow::Cow;

use super::data::Analysis;
use crate::finding::Finding;
use crate::site::{CheckedSite, ConstructionSettings, Site};

/// How much is computed of a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// The hole and every clearance.
    Clearances,
    /// The hole and the earth moved: what is left over of it. No clearances.
    Earth,
    /// Every quantity. No clearances, cautions or cost.
    Quantities,
    /// Everything but low and high: what a frame of a drag shows.
    Complete,
    /// Everything, with low and high of every quantity: up to four more holes.
    Ranges,
}

impl Detail {
    pub(super) fn measures_clearances(self) -> bool {
        !matches!(self, Self::Earth | Self::Quantities)
    }

    pub(super) fn moves_earth(self) -> bool {
        self != Self::Clearances
    }

    pub(super) fn takes_off(self) -> bool {
        !matches!(self, Self::Clearances | Self::Earth)
    }

    pub(super) fn advises(self) -> bool {
        matches!(self, Self::Complete | Self::Ranges)
    }
}

/// A checked site, and what is changed from it.
#[derive(Debug, Clone)]
pub struct Scenario<'a> {
    site: Cow<'a, CheckedSite>,
    doubted: Option<Doubted<'a>>,
}

/// What one end of a doubt changes of a plan that is known.
#[derive(Debug, Clone)]
struct Doubted<'a> {
    works: ConstructionSettings,
    raised: f64,
    planned: &'a Analysis,
}

impl<'a> Scenario<'a> {
    /// The site as it is.
    pub fn of(site: &'a CheckedSite) -> Self {
        Self {
            site: Cow::Borrowed(site),
            doubted: None,
        }
    }

    /// The site with something changed: another placement, another coping, other settings of the
    /// work. What is left alone is not checked again.
    ///
    /// # Errors
    /// Every fault that the change would cause.
    pub fn with(
        site: &CheckedSite,
        change: impl FnOnce(&mut Site),
    ) -> Result<Scenario<'static>, Vec<Finding>> {
        let mut next = Site::clone(site.site());
        change(&mut next);
        Ok(Scenario {
            site: Cow::Owned(CheckedSite::check(next, Some(site))?),
            doubted: None,
        })
    }

    /// The site with its coping at another elevation, meters; `None` where that is out of range or no
    /// shell is placed.
    pub(super) fn at_coping(site: &CheckedSite, elevation: f64) -> Option<Scenario<'static>> {
        site.placed_shell()?;
        let changed = Scenario::with(site, |next| {
            if let Some(placement) = &mut next.placement {
                placement.coping_elevation = elevation;
            }
        });
        changed.ok()
    }

    /// The site as it turns out when a doubt comes true: its settings those given, its ground so
    /// many meters higher than surveyed. Hole, earth and stone follow from it; deck, pipe and what
    /// is dug for them stay as `planned`, which was computed from the same site.
    pub(super) fn doubted(
        site: &'a CheckedSite,
        planned: &'a Analysis,
        works: ConstructionSettings,
        raised: f64,
    ) -> Self {
        Self {
            site: Cow::Borrowed(site),
            doubted: Some(Doubted {
                works,
                raised,
                planned,
            }),
        }
    }

    /// The site, its changes made.
    pub fn site(&self) -> &CheckedSite {
        &self.site
    }

    /// The settings of the work.
    pub fn works(&self) -> &ConstructionSettings {
        let planned = &self.site.site().works;
        self.doubted.as_ref().map_or(planned, |it| &it.works)
    }

    /// How much higher the ground lies than surveyed, meters.
    pub(super) fn raised(&self) -> f64 {
        self.doubted.as_ref().map_or(0.0, |it| it.raised)
    }

    /// The plan that is doubted.
    pub(super) fn planned(&self) -> Option<&Analysis> {
        self.doubted.as_ref().map(|it| it.planned)
    }

    /// The doubted plan where its hole is the scenario's: only what the spoil does is in doubt.
    pub(super) fn same_hole(&self) -> Option<&Analysis> {
        let doubted = self.doubted.as_ref().filter(|it| it.raised == 0.0)?;
        let mut dig = doubted.works.dig.clone();
        dig.swell = self.site.site().works.dig.swell;
        (dig == self.site.site().works.dig).then_some(doubted.planned)
    }
}
