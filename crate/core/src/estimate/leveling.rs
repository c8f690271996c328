//! What another coping would do: where cut and fill are even, and what an inch changes.
//!
//! Each is worked out anew from the whole site, so both are for when somebody asks.

use super::{Cache, Estimate, SmallDigs};
use crate::finding::Finding;
use crate::grading::balance::{Even, RANGE, even};
use crate::grading::{Grading, graded};
use crate::pipe::PipePlan;
use crate::results::{self, Results};
use crate::site::{CheckedSite, FeatureKind, Site};
use crate::takeoff::{Earth, Moved};
use crate::units::constants::INCH;
use crate::units::{Measure, show};

/// By how much the coping is moved to see what changes, metres: an inch.
pub const NUDGE: f64 = INCH;

/// The coping at which earth is even, in two ways.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// The present coping, metres.
    pub present: f64,
    /// What is left over at the present coping (short of, when negative), m3 bank: all that is
    /// dug less all the fill, and the same for deck and banks alone.
    pub left: [f64; 2],
    /// Where all that is dug is as much as all the fill takes.
    pub whole: Even,
    /// Where deck and banks alone are even: the hole's spoil goes elsewhere.
    pub alone: Even,
    /// What there is to say of it.
    pub findings: Vec<Finding>,
}

/// Where the earth of a placed shell is even.
pub fn balance(site: &CheckedSite) -> Option<Balance> {
    let (_, placement) = site.placed_shell()?;
    let present = placement.coping_elevation;
    let mut caches = Caches::default();
    // Both ways look at the same copings first.
    let mut known: Vec<(f64, [f64; 2])> = Vec::new();
    let mut at = |coping: f64| match known.iter().find(|(other, _)| *other == coping) {
        Some((_, left)) => *left,
        None => {
            let left = surplus(site, coping, &mut caches).unwrap_or([0.0, 0.0]);
            known.push((coping, left));
            left
        }
    };
    let left = at(present);
    let whole = even(present, |coping| at(coping)[0]);
    let alone = even(present, |coping| at(coping)[1]);
    let findings = [
        nowhere(site, whole, "all that is dug and all the fill"),
        nowhere(site, alone, "cut and fill of deck and banks"),
    ];
    Some(Balance {
        present,
        left,
        whole,
        alone,
        findings: findings.into_iter().flatten().collect(),
    })
}

/// No coping in the range is even.
fn nowhere(site: &CheckedSite, even: Even, what: &str) -> Option<Finding> {
    let Even::Nowhere { nearest, left } = even else {
        return None;
    };
    let system = site.site().display;
    let shown = |measure, value: f64| show(measure, value, system).text;
    let over = if left >= 0.0 { "left over" } else { "short" };
    let message = format!(
        "Within {} of the present coping {what} are nowhere even. They come nearest at {}: {} are \
         {over}, as they lie in the bank.",
        shown(Measure::Length, RANGE),
        shown(Measure::Elevation, nearest),
        shown(Measure::EarthVolume, left.abs()),
    );
    let remedy = "Haul or bring in the rest; set the coping by floor, door and drainage first.";
    Some(Finding::note("no-balance", message, remedy).under("/placement/coping_elevation"))
}

/// What one figure is now, and an inch up and down.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// A stable name.
    pub key: &'static str,
    /// What it is.
    pub label: String,
    /// What kind of figure it is.
    pub measure: Measure,
    /// Its value at the present coping, SI.
    pub present: f64,
    /// Its value with the coping [`NUDGE`] higher, SI.
    pub up: f64,
    /// Its value with the coping [`NUDGE`] lower, SI.
    pub down: f64,
}

/// The quantities that are told with what an inch changes.
const TOLD: [&str; 6] = ["bank-cut", "cut", "fill", "fill-import", "loads", "stone"];

/// What an inch up or down changes.
pub fn nudge(site: &CheckedSite) -> Vec<Change> {
    let Some((_, placement)) = site.placed_shell() else {
        return Vec::new();
    };
    let present = placement.coping_elevation;
    let mut caches = Caches::default();
    let mut at = |coping| estimated(site, coping, &mut caches);
    let [Some(now), Some(up), Some(down)] = [0.0, NUDGE, -NUDGE].map(|by| at(present + by)) else {
        return Vec::new();
    };
    let mut changes = Vec::new();
    for key in TOLD {
        let Some(line) = [&now, &up, &down]
            .into_iter()
            .find_map(|it| it.takeoff.iter().find(|line| line.key == key))
        else {
            continue;
        };
        changes.push(Change {
            key,
            label: line.label.to_owned(),
            measure: line.measure,
            present: now.value(key).unwrap_or(0.0),
            up: up.value(key).unwrap_or(0.0),
            down: down.value(key).unwrap_or(0.0),
        });
    }
    type Height = (&'static str, &'static str, fn(&Grading) -> f64);
    let heights: [Height; 2] = [
        ("stands", "Deck above the ground, most", |g| {
            g.stands.map_or(0.0, |it| it.height)
        }),
        ("lies", "Ground above the deck, most", |g| {
            g.lies.map_or(0.0, |it| it.height)
        }),
    ];
    for (key, label, height) in heights {
        let of = |it: &Estimate| it.grading.as_ref().map_or(0.0, height);
        changes.push(Change {
            key,
            label: label.to_owned(),
            measure: Measure::Length,
            present: of(&now),
            up: of(&up),
            down: of(&down),
        });
    }
    for record in site.site().features.iter() {
        let building = matches!(record.kind, FeatureKind::House | FeatureKind::Outbuilding);
        if let Some(floor) = record.facts.finished_floor.filter(|_| building) {
            changes.push(Change {
                key: "above-floor",
                label: format!("Coping above the floor of {}", record.label()),
                measure: Measure::Length,
                present: present - floor,
                up: present + NUDGE - floor,
                down: present - NUDGE - floor,
            });
        }
    }
    changes
}

#[derive(Default)]
struct Caches {
    results: results::Cache,
    estimate: Cache,
}

/// The site with its coping elsewhere; `None` where that is out of range.
fn with_coping(site: &CheckedSite, coping: f64) -> Option<CheckedSite> {
    let mut next = Site::clone(site.site());
    next.placement.as_mut()?.coping_elevation = coping;
    CheckedSite::check(next, Some(site)).ok()
}

fn estimated(site: &CheckedSite, coping: f64, caches: &mut Caches) -> Option<Estimate> {
    let site = with_coping(site, coping)?;
    let results = Results::compute(&site, &mut caches.results);
    Some(Estimate::in_passing(&site, &results, &mut caches.estimate))
}

/// What is left over at a coping, m3 bank: of everything, and of deck and banks alone.
fn surplus(site: &CheckedSite, coping: f64, caches: &mut Caches) -> Option<[f64; 2]> {
    let site = with_coping(site, coping)?;
    let results = Results::compute(&site, &mut caches.results);
    let ((shell, placement), dig) = (site.placed_shell()?, results.dig.as_ref()?);
    let works = &site.site().works;
    let (kept, around) = caches.estimate.of(&site, shell, works);
    let at = (site.ground().as_ref(), &placement.pose(), coping);
    let grading = graded(
        shell,
        works,
        &around.drawn,
        at,
        &dig.top_edge,
        &mut kept.grading,
    );
    let pipes = PipePlan::new(&site, shell, placement, &kept.around, &dig.top_edge);
    let small = SmallDigs::of(&site, kept, &pipes, dig);
    let others = small.yields(works);
    let moved = Moved {
        grading: Some(&grading),
        others: &others,
        refill: small.refill(works, &pipes),
        ..Moved::default()
    };
    let whole = Earth::of(works, dig.bank_volume, &moved).surplus();
    let fill = grading.deck_fill + grading.bank_fill;
    let alone = grading.cut() - fill / works.dig.material.compacted_per_bank();
    Some([whole, alone])
}
