//! The coping at which cut and fill are even.
//!
//! Every coping that is looked at is the whole site computed anew with one thing changed, so this is
//! for when somebody asks. The search goes one coping at a time: it is run over from the start with
//! what is known, and the first coping that is not known is the next to be computed.

use super::cache::Cache;
use super::data::Surplus;
use super::pipeline;
use super::scenario::{Detail, Scenario};
use crate::finding::Finding;
use crate::grading::balance::{Even, RANGE, even};
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// The coping at which earth is even, in two ways.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// The present coping, meters.
    pub present: f64,
    /// What is left over at the present coping.
    pub left: Surplus,
    /// Where all that is dug is as much as all the fill takes.
    pub whole: Even,
    /// Where deck and banks alone are even: the hole's spoil goes elsewhere.
    pub alone: Even,
    /// Import messages.
    pub findings: Vec<Finding>,
}

/// How many copings a search looks at: the range step by step, then twice by halves (no more than
/// these; our measure).
const COPINGS: usize = 41;

/// The search for even earth, one coping at a time.
#[derive(Debug)]
pub struct Search {
    present: f64,
    known: Vec<(f64, Surplus)>,
    cache: Cache,
}

impl Search {
    /// A search on a site; `None` before a shell is placed.
    pub fn new(site: &CheckedSite) -> Option<Self> {
        let (_, placement) = site.placed_shell()?;
        Some(Self {
            present: placement.coping_elevation,
            known: Vec::new(),
            cache: Cache::default(),
        })
    }

    /// How many copings were computed, and how many there are about.
    pub fn progress(&self) -> (usize, usize) {
        let done = self.known.len();
        (done, COPINGS.max(done + 1))
    }

    /// Computes one more coping; false when none was left.
    pub fn step(&mut self, site: &CheckedSite) -> bool {
        let Err(coping) = self.found() else {
            return false;
        };
        let surplus = surplus(site, coping, &mut self.cache).unwrap_or_default();
        self.known.push((coping, surplus));
        true
    }

    /// What was found; `None` while copings are left to compute.
    pub fn balance(&self, site: &CheckedSite) -> Option<Balance> {
        let (left, whole, alone) = self.found().ok()?;
        let findings = [
            nowhere(site, whole, "all that is dug and all the fill"),
            nowhere(site, alone, "cut and fill of deck and banks"),
        ];
        Some(Balance {
            present: self.present,
            left,
            whole,
            alone,
            findings: findings.into_iter().flatten().collect(),
        })
    }

    /// What is left over at present and where it is even, both ways; else the coping that has to
    /// be computed first.
    fn found(&self) -> Result<(Surplus, Even, Even), f64> {
        let mut wanted = None;
        let mut at = |coping: f64| {
            let known = self.known.iter().find(|(other, _)| *other == coping);
            let surplus = known.map(|(_, surplus)| *surplus);
            surplus.unwrap_or_else(|| {
                wanted.get_or_insert(coping);
                Surplus::default()
            })
        };
        let left = at(self.present);
        let whole = even(self.present, |coping| at(coping).all);
        let alone = even(self.present, |coping| at(coping).deck_and_banks);
        wanted.map_or(Ok((left, whole, alone)), Err)
    }
}

/// Where the earth of a placed shell is even; `None` before one is placed.
pub fn balance(site: &CheckedSite) -> Option<Balance> {
    let mut search = Search::new(site)?;
    while search.step(site) {}
    search.balance(site)
}

/// What is left over at a coping; `None` where that is out of range.
fn surplus(site: &CheckedSite, coping: f64, cache: &mut Cache) -> Option<Surplus> {
    let scenario = Scenario::at_coping(site, coping)?;
    pipeline::run(&scenario, Detail::Earth, cache).surplus
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
