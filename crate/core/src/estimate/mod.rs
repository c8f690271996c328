//! Everything to dig, haul, buy and place for a site, and the cautions that belong beside it.
//!
//! [`Results`] hold what the plan shows on every frame; an [`Estimate`] is made from them when
//! quantities are wanted. What depends on the shell and the settings alone is kept in a [`Cache`]
//! between calls; an estimate is the same whatever the cache holds.

mod cache;
mod footing;
#[cfg(test)]
mod tests;

pub use cache::Cache;

use crate::dig::safety;
use crate::finding::{Finding, gravest_first};
use crate::results::Results;
use crate::site::CheckedSite;
use crate::takeoff::{Inputs, Line, takeoff};

/// What a placed shell takes; empty until one is placed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Estimate {
    /// Every quantity, in order.
    pub takeoff: Vec<Line>,
    /// The dangers of the dig, and what quantities rest on.
    pub findings: Vec<Finding>,
}

impl Estimate {
    /// The estimate of a site. `results` must have been computed from the same site.
    pub fn of(site: &CheckedSite, results: &Results, cache: &mut Cache) -> Self {
        let mut estimate = Self::default();
        let (Some((shell, placement)), Some(dig)) = (site.placed_shell(), &results.dig) else {
            return estimate;
        };
        let works = &site.site().works;
        let kept = cache.of(shell, works);
        let taken = takeoff(&Inputs::new(works, &kept.measured, dig));
        estimate.takeoff = taken.lines;
        estimate.findings = safety::findings(dig);
        estimate
            .findings
            .extend(footing::screen(site, shell, placement, kept));
        estimate.findings.extend(taken.findings);
        estimate
    }

    /// The findings of this estimate and of the results it was made from, gravest first.
    pub fn with_findings_of(&self, results: &Results) -> Vec<Finding> {
        let all: Vec<Finding> = self
            .findings
            .iter()
            .chain(&results.findings)
            .cloned()
            .collect();
        gravest_first(&all)
    }
}
