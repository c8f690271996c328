//! The chain from a scenario to everything that follows from it: the one place where dig,
//! grading, pipe, small digs, earth, stockpile and takeoff are joined.

use std::sync::Arc;

use super::advisories;
use super::cache::{Cache, ShellCache, Surroundings};
use super::cost;
use super::data::{Analysis, Surplus};
use super::scenario::{Detail, Scenario};
use super::small_digs::SmallDigs;
use crate::barrier::{self, Barrier};
use crate::clearance::{self, Clearance, WorkFigures};
use crate::coverage::{self, Coverage, Share};
use crate::deck::{DeckPlan, Drawn};
use crate::dig::Dig;
use crate::finding::{Caveat, Finding};
use crate::geom::{Pose, Region};
use crate::grading::{Grading, graded};
use crate::groundwater::Level;
use crate::pipe::PipePlan;
use crate::shell::Shell;
use crate::site::{CheckedSite, FeatureKind, MeasuredFrom, Placement, ShareRule};
use crate::stockpile::{self, Heap, stockpile};
use crate::takeoff::{Earth, Inputs, Moved, Pad, takeoff};

/// A shell on the site, and what is kept for both.
struct Placed<'a> {
    shell: &'a Shell,
    placement: &'a Placement,
    pose: Pose,
    kept: &'a mut ShellCache,
    around: &'a Surroundings,
}

/// Computes a scenario; low and high of its quantities are left out (see `sensitivity`).
pub(super) fn run(scenario: &Scenario<'_>, detail: Detail, cache: &mut Cache) -> Analysis {
    let site = scenario.site();
    let mut analysis = Analysis {
        work: WorkFigures {
            equipment: site.equipment(),
            drawn_decks: paved(site, |kind| {
                matches!(kind, FeatureKind::Deck | FeatureKind::DeckSteps)
            }),
            barrier: (site.site().barrier.as_ref())
                .map_or_else(Region::default, |rule| barrier::fences(site, rule)),
            steps: paved(site, |kind| kind == FeatureKind::DeckSteps),
            ..WorkFigures::default()
        },
        ..Analysis::default()
    };
    let mut noticed = Vec::new();
    if let Some((shell, placement)) = site.placed_shell() {
        let (kept, around) = cache.of(site, shell);
        let mut placed = Placed {
            shell,
            placement,
            pose: placement.pose(),
            kept,
            around,
        };
        let dig = hole(scenario, &mut placed, &mut analysis);
        if detail.moves_earth() {
            let grading = finished_ground(scenario, &mut placed, &dig);
            noticed = quantities(
                scenario,
                detail,
                &mut placed,
                (&dig, &grading),
                &mut analysis,
            );
            analysis.grading = Some(grading);
        }
        analysis.dig = Some(dig);
    }
    if detail.measures_clearances() {
        analysis.clearances = clearances(site, &analysis);
        analysis.tapes = clearance::tape::measure(site, &analysis.work);
    }
    if detail.advises() {
        analysis.shares = shares(site, &analysis);
        analysis.barrier = closed_off(site, &analysis);
        let pricing = cost::price(&analysis.takeoff, &site.site().rates);
        (analysis.cost, analysis.uncounted) = (pricing.cost, pricing.uncounted);
        noticed.extend(pricing.findings);
        let (findings, influence) = advisories::all(site, &analysis, noticed, cache);
        (analysis.findings, analysis.influence) = (findings, influence);
    }
    analysis
}

/// The work as it stands, and the hole.
fn hole(scenario: &Scenario<'_>, placed: &mut Placed<'_>, analysis: &mut Analysis) -> Dig {
    let works = scenario.works();
    let kept = &mut placed.kept;
    let work = &mut analysis.work;
    work.waters_edge = kept.rings.waters_edge.posed(&placed.pose);
    work.rim = placed.shell.record.coping_width;
    work.deck_edge = work.rim + works.deck.width;
    let cut = scenario.same_hole().and_then(|planned| planned.dig.clone());
    let dig = cut.unwrap_or_else(|| {
        // Ground that lies higher is a rim that lies lower.
        let rim = placed.placement.coping_elevation - scenario.raised();
        let mut dig = kept.cut(works, scenario.site().ground(), &placed.pose, rim);
        if scenario.raised() != 0.0 {
            dig.bottom_elevation += scenario.raised();
        }
        dig
    });
    work.dig = dig.top_edge.clone();
    work.dig_depth = Some(dig.greatest_depth);
    analysis.rings = Some(Arc::clone(&kept.rings));
    dig
}

/// Deck and banks.
fn finished_ground(scenario: &Scenario<'_>, placed: &mut Placed<'_>, dig: &Dig) -> Grading {
    let planned = scenario.same_hole();
    if let Some(grading) = planned.and_then(|planned| planned.grading.clone()) {
        return grading;
    }
    let works = scenario.works();
    let rim = placed.placement.coping_elevation - scenario.raised();
    graded(
        placed.shell,
        works,
        &placed.around.drawn,
        (scenario.site().ground(), &placed.pose, rim),
        &dig.top_edge,
        placed.kept.grading(&works.dig),
    )
}

/// Pipe, small digs, earth, stockpile and takeoff; what was noticed on the way.
fn quantities(
    scenario: &Scenario<'_>,
    detail: Detail,
    placed: &mut Placed<'_>,
    (dig, grading): (&Dig, &Grading),
    analysis: &mut Analysis,
) -> Vec<Finding> {
    let (site, works) = (scenario.site(), scenario.works());
    let kept = &mut placed.kept;
    let materials = kept.materials();
    let planned = scenario.planned();
    let (pipes, small) = match planned {
        Some(planned) => (planned.pipes.clone(), planned.small.clone()),
        None => {
            let around = &materials.around;
            let pipes = PipePlan::new(site, placed.shell, placed.placement, around, &dig.top_edge);
            let (sump, pad) = (materials.sump.clone(), kept.pad(site));
            let small = SmallDigs::of(site, sump, pad, &pipes, dig);
            (pipes, small)
        }
    };
    let others = small.yields(works);
    let mut moved = Moved {
        grading: Some(grading),
        others: &others,
        pile: None,
        refill: small.refill(works, &pipes),
    };
    let earth = Earth::of(works, dig.bank_volume, &moved);
    let fill = grading.deck_fill + grading.bank_fill;
    analysis.surplus = Some(Surplus {
        all: earth.surplus(),
        deck_and_banks: grading.cut() - fill / works.dig.material.compacted_per_bank(),
    });
    let mut findings = Vec::new();
    if detail.takes_off() {
        let loose = earth.dug * works.dig.loose_per_bank() * works.spoil.piled;
        // The pile lies where it was planned, and holds what is dug.
        let grown = planned.and_then(|planned| planned.stockpile.as_ref());
        let grown =
            grown.and_then(|_| Heap::of(loose, works.spoil.repose, works.spoil.most_height));
        if planned.is_none() {
            let back = works.spoil.back;
            let work = stockpile::Work::of(&analysis.work, back, placed.pose.at);
            analysis.stockpile = stockpile(site, loose, &placed.around.obstacles, &work);
            let pile = analysis
                .stockpile
                .as_ref()
                .map(stockpile::Stockpile::footprint);
            analysis.work.spoil_pile = pile.unwrap_or_default();
        }
        let sited = analysis.stockpile.as_ref().map(|it| &it.heap);
        moved.pile = sited.or(grown.as_ref());
        let (measured, fill) = kept.stone(works);
        let deck = deck(scenario, placed);
        let level = works.groundwater.map_or(Level::AtRim, Level::Stated);
        let rim = placed.placement.coping_elevation;
        let uplift = placed.kept.uplift(rim, level);
        let inputs = Inputs {
            moved,
            fill: Some(&fill),
            deck: Some(&deck.figures),
            pipes: Some(&pipes),
            dewatering: Some(&materials.dewatering),
            pad: site.equipment().map(|pad| Pad {
                area: pad.area(),
                edges: pad.perimeter(),
            }),
            uplift: Some(&uplift),
            ..Inputs::new(works, &measured, dig)
        };
        let taken = takeoff(&inputs);
        analysis.takeoff = taken.lines;
        findings = taken.findings;
        analysis.deck = Some(deck);
        analysis.dewatering = Some(Arc::clone(&materials.dewatering));
        analysis.fill = Some(fill);
        analysis.uplift = Some(uplift);
    }
    analysis.pipes = pipes;
    analysis.small = small;
    findings
}

/// What covers the ground of a site, by its analysis.
pub fn covered(site: &CheckedSite, analysis: &Analysis) -> Coverage {
    let placed = site.placed_shell().zip(analysis.rings.as_ref());
    let (shell, deck) = placed.map_or_else(Default::default, |((shell, placement), rings)| {
        let pose = placement.pose();
        (shell.rim.posed(&pose), rings.deck.posed(&pose))
    });
    Coverage::of(site, shell, &deck)
}

/// The share of ground that each rule limits.
fn shares(site: &CheckedSite, analysis: &Analysis) -> Vec<Option<Share>> {
    let rules = &site.site().shares;
    if rules.is_empty() {
        return Vec::new();
    }
    let coverage = covered(site, analysis);
    let share = |rule: &ShareRule| {
        let ground = coverage::ground(site, rule.of)?;
        Some(coverage.share(&ground, &rule.counts))
    };
    rules.iter().map(share).collect()
}

/// The barrier about the water.
fn closed_off(site: &CheckedSite, analysis: &Analysis) -> Option<Barrier> {
    let rule = site.site().barrier.as_ref()?;
    let water = &analysis.work.waters_edge;
    let middle = water.centroid().filter(|it| water.contains(*it));
    let any = || water.rings().next()?.0.first().copied();
    Some(Barrier::of(site, rule, middle.or_else(any)?))
}

/// The deck with what was drawn of it; a doubt leaves it as planned.
fn deck(scenario: &Scenario<'_>, placed: &mut Placed<'_>) -> Arc<DeckPlan> {
    let planned = scenario.planned().and_then(|planned| planned.deck.as_ref());
    planned.map_or_else(
        || {
            let drawn = Drawn::of(
                scenario.site(),
                &placed.pose,
                placed.shell,
                scenario.works(),
            );
            placed.kept.deck(drawn)
        },
        Arc::clone,
    )
}

/// Every rule measured.
fn clearances(site: &CheckedSite, analysis: &Analysis) -> Vec<Clearance> {
    let mut clearances = clearance::measure(site, &analysis.work);
    // Sloping sides meet the ground nearer or farther out, as it stands higher or lower.
    if let Some(dig) = &analysis.dig
        && dig.unsurveyed_volume > 0.0
        && dig.side_slope > 0.0
    {
        let from_dig = |c: &&mut Clearance| c.from == MeasuredFrom::Dig;
        for clearance in clearances.iter_mut().filter(from_dig) {
            clearance.caveats.push(Caveat::UnknownGround);
        }
    }
    clearances
}

/// What of some kinds of paving was drawn; where they overlap they are not united.
fn paved(site: &CheckedSite, is_meant: impl Fn(FeatureKind) -> bool) -> Region {
    let polygons = site.areas(is_meant).flat_map(|it| &it.polygons);
    Region {
        polygons: polygons.cloned().collect(),
    }
}
