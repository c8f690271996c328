//! Everything to dig, haul, buy and place for a site, and the cautions that belong beside it.
//!
//! [`Results`] hold what the plan shows on every frame; an [`Estimate`] is made from them when
//! quantities are wanted. What depends on the shell and the settings alone is kept in a [`Cache`]
//! between calls; an estimate is the same whatever the cache holds.
//!
//! | part | what it does |
//! |---|---|
//! | `footing` | structures whose footing the hole reaches under |
//! | `doubt` | low and high of every quantity, and what they come from |
//! | [`cost`] | what it costs, by rates that the user typed |
//! | [`compare`] | the same figures for other shells and places, side by side |

mod cache;
pub mod compare;
pub mod cost;
mod doubt;
mod footing;
#[cfg(test)]
mod tests;

pub use cache::Cache;
pub use cost::Cost;

use crate::dig::safety;
use crate::finding::{Finding, gravest_first};
use crate::results::Results;
use crate::site::CheckedSite;
use crate::takeoff::{Inputs, Line, takeoff};
use crate::units::round_to;

/// What a placed shell takes; empty until one is placed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Estimate {
    /// Every quantity, in order.
    pub takeoff: Vec<Line>,
    /// What it costs, once a rate is told.
    pub cost: Option<Cost>,
    /// The dangers of the dig, and what quantities rest on.
    pub findings: Vec<Finding>,
}

/// Whether quantities come with their low and high.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Ranges {
    Worked,
    Left,
}

impl Estimate {
    /// The estimate of a site. `results` must have been computed from the same site.
    pub fn of(site: &CheckedSite, results: &Results, cache: &mut Cache) -> Self {
        Self::make(site, results, cache, Ranges::Worked)
    }

    /// The same without low and high, which take four more holes: for the frames of a drag.
    pub fn in_passing(site: &CheckedSite, results: &Results, cache: &mut Cache) -> Self {
        Self::make(site, results, cache, Ranges::Left)
    }

    fn make(site: &CheckedSite, results: &Results, cache: &mut Cache, ranges: Ranges) -> Self {
        let mut estimate = Self::default();
        let (Some((shell, placement)), Some(dig)) = (site.placed_shell(), &results.dig) else {
            return estimate;
        };
        let works = &site.site().works;
        let kept = cache.of(shell, works);
        let measured = kept.measured;
        let inputs = Inputs::new(works, &measured, dig);
        let taken = takeoff(&inputs);
        estimate.takeoff = taken.lines;
        if ranges == Ranges::Worked {
            let placed = (shell.as_ref(), placement);
            doubt::judge(site, placed, &inputs, kept, &mut estimate.takeoff);
        }
        estimate.findings = safety::findings(dig);
        estimate
            .findings
            .extend(footing::screen(site, shell, placement, kept));
        estimate.findings.extend(taken.findings);
        let (cost, notes) = cost::price(&estimate.takeoff, &site.site().rates);
        estimate.cost = cost;
        estimate.findings.extend(notes);
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

    /// The value of a quantity by its stable name.
    pub fn value(&self, key: &str) -> Option<f64> {
        let line = self.takeoff.iter().find(|line| line.key == key);
        line.map(|line| line.value)
    }
}

/// Money to the cent.
fn cents(money: f64) -> f64 {
    round_to(money, 2)
}
