//! Everything that follows from a site: the hole, clearances, earth, quantities, their low and
//! high, cost, and every caution.
//!
//! There is one pipeline, [`run`]: hole, grading, pipe, small digs, earth moved, stockpile,
//! takeoff. What it computes is a [`Scenario`], how much of it a [`Detail`], and what comes out an
//! [`Analysis`]. A frame of a drag is a scenario; so is either end of a doubt, another coping in
//! the search for even earth, and a placement that was kept to be compared. What depends on less
//! than the whole site is kept in a [`Cache`] between runs; it changes how soon an answer comes,
//! never what it is.
//!
//! | part | what it does |
//! |---|---|
//! | `scenario` | what is computed and how much of it |
//! | `pipeline` | the chain, once |
//! | `data` | what comes out |
//! | `cache`, `materials`, `rings`, `headroom` | what depends on the shell and the settings alone |
//! | `small_digs` | sump, pad and trenches |
//! | [`sensitivity`] | low and high of every quantity, one end of a doubt at a time |
//! | [`balance`] | the coping at which cut and fill are even |
//! | [`coping_step`] | what an inch of coping changes |
//! | [`compare`] | the same figures for other shells and places, side by side |
//! | [`cost`] | what it costs, by rates that the user typed |
//! | `advisories` | cautions and notes, each part of the site in a file of its own |
//! | [`verdict`] | whether the shell may stand there, as far as anybody can tell |
//! | `relief` | the ground at a glance |
//!
//! Deliberately absent: words for people but those of findings (see `report`), and anything that
//! is drawn.

mod advisories;
mod assumed;
pub mod balance;
mod cache;
pub mod compare;
pub mod coping_step;
pub mod cost;
mod data;
mod headroom;
mod materials;
mod pipeline;
mod ranges;
mod relief;
mod rings;
mod scenario;
pub mod sensitivity;
mod small_digs;
#[cfg(test)]
pub(crate) mod tests;
pub mod verdict;

pub use advisories::{CRANE_NEAR_LINE, INFLUENCE_LINES};
pub(crate) use advisories::{Part, Trunk, conflict, poured, trunk};
pub use assumed::{Assumption, Leeway, Way, assumptions};
pub use cache::Cache;
pub use cost::{Cost, Uncounted};
pub use data::{Analysis, InfluenceLine, Surplus};
pub use pipeline::covered;
pub use ranges::{LineRange, Ranges};
pub use relief::{Relief, drawn_contours, unknown_share};
pub use rings::ShellRings;
pub use scenario::{Detail, Scenario};
pub use small_digs::SmallDigs;
pub use verdict::{Standing, Verdict};

use sensitivity::Sensitivity;

/// Computes what follows from a scenario, as far as `detail` asks.
pub fn run(scenario: &Scenario<'_>, detail: Detail, cache: &mut Cache) -> Analysis {
    let mut analysis = pipeline::run(scenario, detail, cache);
    if detail == Detail::Ranges {
        let site = scenario.site();
        let mut sensitivity = Sensitivity::new(site, &analysis);
        while sensitivity.step(site, &analysis, cache) {}
        let ranges = sensitivity.ranges(&analysis);
        analysis.set_ranges(&ranges, &site.site().rates);
    }
    analysis
}
