//! What a plan has to show: the work as it stands, clearances, the dig, and every caution that
//! belongs to the place. What is dug, hauled and bought follows from it (see `estimate`).
//!
//! [`Results::compute`] is what a drag runs on every frame. What depends on the shell and the
//! settings of the work alone is kept in a [`Cache`] between calls; the results are the same
//! whatever the cache holds.

mod cache;
mod headroom;
mod over;
mod reach;
mod relief;
mod standing;
#[cfg(test)]
mod tests;
mod yard;

use std::sync::Arc;

pub use cache::{Cache, ShellRings};
pub use headroom::needed as headroom_needed;
pub use relief::{Relief, unknown_share};
pub use yard::CRANE_NEAR_LINE;

use crate::clearance::{self, Clearance, WorkFigures};
use crate::dig::{Dig, excavate};
use crate::finding::{Caveat, Finding};
use crate::geom::Region;
use crate::site::{CheckedShape, CheckedSite, FeatureKind, MeasuredFrom};

/// What follows from one site.
#[derive(Debug, Clone)]
pub struct Results {
    /// The work as it stands on the site.
    pub work: WorkFigures,
    /// Deck, collar and over-dig in the shell's frame, once a shell is placed.
    pub rings: Option<Arc<ShellRings>>,
    /// Every rule measured, least room first.
    pub clearances: Vec<Clearance>,
    /// The hole, once a shell is placed.
    pub dig: Option<Dig>,
    /// Where the work reaches over land it may not stand on or through what is there, whatever
    /// the rules say; these are among the findings as well.
    pub overreaches: Vec<Finding>,
    /// What stands beside every plan whatever its numbers, where the work reaches too far, and
    /// what the door noticed; [`Results::remarks`] has the rest.
    pub findings: Vec<Finding>,
}

impl Results {
    /// Computes everything that follows from a site.
    pub fn compute(site: &CheckedSite, cache: &mut Cache) -> Self {
        let mut results = Self::unmeasured(site, cache, None);
        let overreaches = reach::beyond(site, &results.work);
        let mut findings = overreaches.clone();
        findings.extend(standing::cautions(site));
        findings.extend(site.findings().iter().cloned());
        let mut clearances = clearance::measure(site, &results.work);
        // Sloping sides meet the ground nearer or farther out, as it stands higher or lower.
        if let Some(dig) = &results.dig
            && dig.unsurveyed_volume > 0.0
            && dig.side_slope > 0.0
        {
            let from_dig = |c: &&mut Clearance| c.from == MeasuredFrom::Dig;
            for clearance in clearances.iter_mut().filter(from_dig) {
                clearance.caveats.push(Caveat::UnknownGround);
            }
        }
        results.clearances = clearances;
        results.overreaches = overreaches;
        results.findings = findings;
        results
    }

    /// The work and the hole alone, without clearances and findings: where the plan shows those.
    /// `cut`: the hole as it was cut there, of the very same site.
    pub fn unmeasured(site: &CheckedSite, cache: &mut Cache, cut: Option<Dig>) -> Self {
        let mut work = WorkFigures {
            equipment: site.equipment(),
            drawn_decks: drawn_decks(site),
            ..WorkFigures::default()
        };
        let mut rings = None;
        let mut dig = None;
        if let Some((shell, placement)) = site.placed_shell() {
            let works = &site.site().works;
            let pose = placement.pose();
            let coping = placement.coping_elevation;
            let kept = cache.of(shell, works);
            work.waters_edge = kept.rings.waters_edge.posed(&pose);
            work.rim = shell.record.coping_width;
            work.deck_edge = work.rim + works.deck.width;
            let cut = cut.unwrap_or_else(|| {
                let ground = site.ground();
                let headroom = headroom::needed(shell, &works.dig, ground, &pose, coping);
                let shape = kept.shape(shell, &works.dig, headroom);
                excavate(shape, ground, &pose, coping, works.collar.underside())
            });
            work.dig = cut.top_edge.clone();
            dig = Some(cut);
            rings = Some(Arc::clone(&kept.rings));
        }
        Self {
            work,
            rings,
            dig,
            clearances: Vec::new(),
            overreaches: Vec::new(),
            findings: Vec::new(),
        }
    }

    /// What is worth knowing besides: of what stands in the yard and is drawn over, of datum and contours, and what
    /// the rules leave open. Told with the estimate, so that the plan need not carry the words.
    pub fn remarks(&self, site: &CheckedSite) -> Vec<Finding> {
        let mut remarks = yard::findings(site, &self.work);
        remarks.extend(over::findings(site));
        remarks.extend(relief::notes(site));
        remarks.extend(clearance::advice(site, &self.work));
        remarks
    }

    /// How many clearances fall short.
    pub fn shortfalls(&self) -> usize {
        self.clearances.iter().filter(|c| c.falls_short()).count()
    }
}

/// The decks and steps that were drawn; where they overlap they are not united.
fn drawn_decks(site: &CheckedSite) -> Region {
    let drawn = site.features().iter().filter_map(|feature| {
        let poured = matches!(feature.kind, FeatureKind::Deck | FeatureKind::DeckSteps);
        match &feature.shape {
            CheckedShape::Area(_, region) if poured => Some(region),
            _ => None,
        }
    });
    let polygons = drawn.flat_map(|region| &region.polygons).cloned();
    Region {
        polygons: polygons.collect(),
    }
}
