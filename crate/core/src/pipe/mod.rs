//! Pipe between the shell's fittings and the equipment pad, and the pipe that lowers groundwater.
//!
//! A run leaves its fitting in the wall, follows the shell at a set distance the shorter way round
//! to where it leaves the hole, and goes from there to the pad: along a trench that was drawn, or
//! straight. A drain's run goes under the floor. Runs that share a way are counted each by itself.
//!
//! | part | what it knows |
//! |---|---|
//! | [`Around`] | the way round the shell, in its frame |
//! | `route` | where the runs leave the hole and how they reach the pad |
//! | `runs` | every run in plan and in height: lengths, straps, bends, loss |
//! | `cautions`, `crossing` | what is told beside them, and what their trenches run into |
//! | [`friction`] | what water loses, and how fast it runs |
//! | [`dewatering`] | the pipe beside the deep end |
//! | [`fitting`] | where fittings are: on the plan, in the shell, along its wall |
//!
//! Deliberately absent: pumps and their curves; valves, filters and heaters, whose losses their
//! makers tell; wiring and bonding, which belong to a licensed electrician.

mod around;
mod bends;
mod cautions;
mod crossing;
pub mod dewatering;
pub mod fitting;
pub mod friction;
mod route;
mod runs;
#[cfg(test)]
mod tests;

pub use around::{Around, Closed};
pub use bends::LEAST_BEND;
pub use dewatering::Dewatering;
pub use runs::Run;

use crate::finding::Finding;
use crate::geom::clip::length;
use crate::geom::{Point, Region};
use crate::shell::Shell;
use crate::site::{CheckedSite, Placement};

/// All pipe of one shell at one place, site frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PipePlan {
    /// The runs, returns first; each has a name of its own (`R1`, `S1`, `D1`).
    pub runs: Vec<Run>,
    /// The middles of the trenches outside the hole: the way to the pad, and whatever else of
    /// trenches was drawn.
    pub trenches: Vec<Vec<Point>>,
    /// How many runs lie in the trench to the pad.
    pub shared: usize,
    /// The length of the trench to the pad that they lie in, meters.
    pub shared_length: f64,
    /// What is worth knowing of them.
    pub findings: Vec<Finding>,
}

impl PipePlan {
    /// The pipe of a placed shell whose hole opens at `top_edge` (site frame).
    pub fn new(
        site: &CheckedSite,
        shell: &Shell,
        placement: &Placement,
        around: &Around,
        top_edge: &Region,
    ) -> Self {
        let any_run = !site.site().works.pipe.fittings.is_empty() || shell.record.drain.is_some();
        let route = route::to_pad(site, placement, around, top_edge, any_run);
        let mut plan = Self {
            trenches: route.trenches.clone(),
            ..Self::default()
        };
        runs::lay(site, shell, placement, around, &route, &mut plan);
        cautions::tell(site, shell, placement, around, &route, &mut plan);
        let crossed = crossing::findings(site, &plan.trenches);
        plan.findings.extend(crossed);
        plan
    }

    /// Length of all runs, meters.
    pub fn length(&self) -> f64 {
        self.runs.iter().map(Run::length).sum()
    }

    /// Straps of all runs.
    pub fn straps(&self) -> usize {
        self.runs.iter().map(|run| run.straps.len()).sum()
    }

    /// Bends of all runs.
    pub fn bends(&self) -> u32 {
        self.runs.iter().map(|run| run.bends).sum()
    }

    /// Length of all trenches, meters.
    pub fn trench_length(&self) -> f64 {
        self.trenches.iter().map(|trench| length(trench)).sum()
    }

    /// The run in which water loses most.
    pub fn worst(&self) -> Option<&Run> {
        let worse = |a: &&Run, b: &&Run| a.loss.total_cmp(&b.loss);
        self.runs.iter().max_by(worse)
    }
}
