//! Everything to dig, haul, buy and place for a site, and the cautions that belong beside it.
//!
//! [`Results`] hold what the plan shows on every frame; an [`Estimate`] is made from them when
//! quantities are wanted. What depends on the shell and the settings alone is kept in a [`Cache`]
//! between calls; an estimate is the same whatever the cache holds.
//!
//! | part | what it does |
//! |---|---|
//! | `soil`, `water` | what soil and groundwater have to say |
//! | `footing` | structures whose footing the hole reaches under |
//! | `small` | sump, pad and trenches |
//! | `doubt` | low and high of every quantity, and what they come from |
//! | [`cost`] | what it costs, by rates that the user typed |
//! | [`compare`] | the same figures for other shells and places, side by side |

mod cache;
pub mod compare;
pub mod cost;
mod doubt;
mod footing;
pub mod leveling;
mod small;
mod soil;
#[cfg(test)]
mod tests;
mod water;

pub use cache::Cache;
pub use cost::Cost;
pub use footing::InfluenceLine;
pub use small::SmallDigs;

use std::sync::Arc;

use crate::deck::{DeckPlan, Drawn};
use crate::dig::safety;
use crate::finding::{Finding, gravest_first};
use crate::grading::{self, Grading, graded};
use crate::groundwater::{Level, Uplift};
use crate::pipe::{Dewatering, PipePlan};
use crate::results::Results;
use crate::site::CheckedSite;
use crate::stockpile::{self, Stockpile, stockpile};
use crate::takeoff::{Earth, Fill, Inputs, Line, Moved, Pad, takeoff};
use crate::units::round_to;

/// What a placed shell takes; empty until one is placed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Estimate {
    /// Every quantity, in order.
    pub takeoff: Vec<Line>,
    /// What it costs, once a rate is told.
    pub cost: Option<Cost>,
    /// Deck, banks, cut and fill.
    pub grading: Option<Grading>,
    /// The pile of spoil, where any is piled.
    pub stockpile: Option<Stockpile>,
    /// The deck, shell frame.
    pub deck: Option<Arc<DeckPlan>>,
    /// The runs of pipe, site frame.
    pub pipes: PipePlan,
    /// The pipe that lowers groundwater, shell frame.
    pub dewatering: Option<Arc<Dewatering>>,
    /// The stone in the hole.
    pub fill: Option<Arc<Fill>>,
    /// Sump, pad and trenches.
    pub small: SmallDigs,
    /// What groundwater does to the shell.
    pub uplift: Option<Uplift>,
    /// Both lines from the toe of the dig, for every structure: above them its footing is in reach.
    pub influence: Vec<InfluenceLine>,
    /// The dangers of the dig, what stands in the yard, and what quantities rest on; without a
    /// shell what the site alone has to say.
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
        let mut estimate = Self {
            findings: results.remarks(site),
            ..Self::default()
        };
        let (Some((shell, placement)), Some(dig)) = (site.placed_shell(), &results.dig) else {
            return estimate;
        };
        let works = &site.site().works;
        let (kept, around) = cache.of(site, shell, works);
        let pose = placement.pose();
        let at = (site.ground().as_ref(), &pose, placement.coping_elevation);
        let opening = &dig.top_edge;
        let grading = graded(shell, works, &around.drawn, at, opening, &mut kept.grading);
        let pipes = PipePlan::new(site, shell, placement, &kept.around, &dig.top_edge);
        let small = SmallDigs::of(site, kept, &pipes, dig);
        let others = small.yields(works);
        let mut moved = Moved {
            grading: Some(&grading),
            others: &others,
            pile: None,
            refill: small.refill(works, &pipes),
        };
        let loose = Earth::of(works, dig.bank_volume, &moved).dug * works.dig.loose_per_bank();
        let work = stockpile::Work::of(&results.work, works.spoil.back, pose.at);
        let stockpile = stockpile(site, loose * works.spoil.piled, &around.obstacles, &work);
        moved.pile = stockpile.as_ref().map(|it| &it.heap);
        let deck = kept.deck(Drawn::of(site, &pose, shell, works));
        let (fill, dewatering) = (Arc::clone(&kept.fill), Arc::clone(&kept.dewatering));
        let measured = kept.measured;
        let level = works.groundwater.map_or(Level::AtRim, Level::Told);
        let uplift = kept.uplift(placement.coping_elevation, level);
        let inputs = Inputs {
            moved,
            fill: Some(&fill),
            deck: Some(&deck.figures),
            pipes: Some(&pipes),
            dewatering: Some(&dewatering),
            pad: site.equipment().map(|pad| Pad {
                area: pad.area(),
                edges: pad.perimeter(),
            }),
            uplift: Some(&uplift),
            ..Inputs::new(works, &measured, dig)
        };
        let taken = takeoff(&inputs);
        estimate.takeoff = taken.lines;
        if ranges == Ranges::Worked {
            let placed = (shell.as_ref(), placement);
            doubt::judge(
                site,
                placed,
                &inputs,
                kept,
                &around.drawn,
                &mut estimate.takeoff,
            );
        }
        estimate.deck = Some(deck);
        estimate.pipes = pipes;
        estimate.small = small;
        estimate.dewatering = Some(dewatering);
        estimate.fill = Some(fill);
        let remarks = core::mem::take(&mut estimate.findings);
        estimate.findings = safety::findings(dig);
        estimate.findings.extend(soil::findings(site, dig));
        let (near, lines) = footing::screen(site, (shell, placement), dig, kept);
        estimate.findings.extend(near);
        estimate.influence = lines;
        let graded = grading::findings(site, &results.work, &grading);
        estimate.findings.extend(graded);
        estimate
            .findings
            .extend(water::findings(site, dig, &uplift));
        estimate.findings.extend(remarks);
        estimate.findings.extend(taken.findings);
        estimate.uplift = Some(uplift);
        let (cost, notes) = cost::price(&estimate.takeoff, &site.site().rates);
        estimate.cost = cost;
        estimate.findings.extend(notes);
        let piled = stockpile.iter().flat_map(|it| &it.findings);
        estimate.findings.extend(piled.cloned());
        estimate.grading = Some(grading);
        estimate.stockpile = stockpile;
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
