//! Cautions and notes: what is wrong with this placement, what its figures rest on, and what is
//! true of every job.
//!
//! | part | speaks of |
//! |---|---|
//! | `overreach`, `conflict` | the work beyond the land it may stand on, and into what is there |
//! | `soil`, `footing`, `groundwater` | what the hole passes, reaches under and fills with |
//! | `covered`, `barrier` | ground covered, and what closes off the water |
//! | `yard`, `drawn_over` | what stands in the yard, and what is drawn over it |
//! | `general` | what stands beside every plan |

mod barrier;
mod conflict;
mod covered;
mod drawn_over;
mod footing;
mod general;
mod groundwater;
mod overreach;
mod soil;
mod yard;

pub(crate) use conflict::{Part, conflict};
pub use footing::LINES as INFLUENCE_LINES;
pub(crate) use overreach::{Trunk, poured, trunk};
pub use yard::CRANE_NEAR_LINE;

use super::cache::Cache;
use super::data::{Analysis, InfluenceLine};
use super::relief;
use crate::clearance;
use crate::dig::safety;
use crate::finding::Finding;
use crate::grading;
use crate::site::CheckedSite;

/// Everything worth knowing of a site, in the order in which it is found, and the lines that
/// footings were screened by. `noticed`: by takeoff and prices.
pub(super) fn all(
    site: &CheckedSite,
    analysis: &Analysis,
    noticed: Vec<Finding>,
    cache: &mut Cache,
) -> (Vec<Finding>, Vec<InfluenceLine>) {
    let mut findings = overreach::beyond(site, &analysis.work);
    let mut influence = Vec::new();
    if let (Some((shell, placement)), Some(dig)) = (site.placed_shell(), &analysis.dig) {
        findings.extend(safety::findings(dig));
        findings.extend(soil::findings(site, dig));
        let (kept, _) = cache.of(site, shell);
        let (near, lines) = footing::screen(site, placement, dig, kept);
        findings.extend(near);
        influence = lines;
        let grading = analysis.grading.as_ref();
        let graded = grading.map(|it| grading::findings(site, &analysis.work, it));
        findings.extend(graded.into_iter().flatten());
        let uplift = analysis.uplift.as_ref();
        let lifted = uplift.map(|it| groundwater::findings(site, dig, it));
        findings.extend(lifted.into_iter().flatten());
    }
    findings.extend(yard::findings(site, &analysis.work));
    findings.extend(drawn_over::findings(site));
    findings.extend(covered::findings(site, analysis));
    if let Some(it) = &analysis.barrier {
        findings.extend(barrier::findings(site, it));
    }
    findings.extend(relief::notes(site));
    findings.extend(clearance::advice(site, &analysis.work));
    findings.extend(noticed);
    let piled = analysis.stockpile.iter().flat_map(|it| &it.findings);
    findings.extend(piled.cloned());
    findings.extend(general::cautions(site));
    findings.extend(site.findings().iter().cloned());
    (findings, influence)
}
