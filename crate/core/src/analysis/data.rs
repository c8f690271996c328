//! What follows from one site.

use std::sync::Arc;

use super::cost::{self, Cost, Uncounted};
use super::ranges::Ranges;
use super::rings::ShellRings;
use super::small_digs::SmallDigs;
use crate::barrier::Barrier;
use crate::clearance::tape::Taped;
use crate::clearance::{Clearance, WorkFigures};
use crate::coverage::Share;
use crate::deck::DeckPlan;
use crate::dig::Dig;
use crate::finding::Finding;
use crate::geom::Region;
use crate::grading::Grading;
use crate::groundwater::Uplift;
use crate::pipe::{Dewatering, PipePlan};
use crate::site::Rate;
use crate::stockpile::Stockpile;
use crate::takeoff::{Fill, Line};

/// What follows from one site, as far as it was asked for; most of it is empty until a shell is
/// placed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Analysis {
    /// The work as it stands on the site.
    pub work: WorkFigures,
    /// Deck, collar and over-dig, shell frame.
    pub rings: Option<Arc<ShellRings>>,
    /// The hole.
    pub dig: Option<Dig>,
    /// Every rule measured, least room first.
    pub clearances: Vec<Clearance>,
    /// Every tape of the site measured, in order; none where it waits for a part of the work.
    pub tapes: Vec<Option<Taped>>,
    /// The share of ground that each rule of the site limits, in order; none where nobody can tell.
    pub shares: Vec<Option<Share>>,
    /// The barrier about the water, where a rule for one is entered.
    pub barrier: Option<Barrier>,
    /// Deck, banks, cut and fill.
    pub grading: Option<Grading>,
    /// The runs of pipe, site frame.
    pub pipes: PipePlan,
    /// Sump, pad and trenches.
    pub small: SmallDigs,
    /// The earth that is left over.
    pub surplus: Option<Surplus>,
    /// The pile of spoil, where any is piled.
    pub stockpile: Option<Stockpile>,
    /// The deck, shell frame.
    pub deck: Option<Arc<DeckPlan>>,
    /// The pipe that lowers groundwater, shell frame.
    pub dewatering: Option<Arc<Dewatering>>,
    /// The stone in the hole.
    pub fill: Option<Arc<Fill>>,
    /// What groundwater does to the shell.
    pub uplift: Option<Uplift>,
    /// Every quantity, in order.
    pub takeoff: Vec<Line>,
    /// Whether the quantities have their low and high.
    pub has_ranges: bool,
    /// What it costs, once a rate is told.
    pub cost: Option<Cost>,
    /// The rates that count for nothing, and why.
    pub uncounted: Vec<Uncounted>,
    /// Both lines from the toe of the dig, for every structure that they could reach: above them its
    /// footing is in reach.
    pub influence: Vec<InfluenceLine>,
    /// Everything worth knowing, in the order in which it was found: where the work reaches too far,
    /// what belongs to it,
    /// what stands beside every plan, what validation noticed.
    pub findings: Vec<Finding>,
}

/// What is left over of the earth, m3 bank; short of, when negative.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Surplus {
    /// All that is dug less all the fill.
    pub all: f64,
    /// The same for deck and banks alone: the hole's spoil goes elsewhere.
    pub deck_and_banks: f64,
}

/// Where the base of a structure's footing would lie above a line from the bottom of the hole.
#[derive(Debug, Clone, PartialEq)]
pub struct InfluenceLine {
    /// Index of the structure in the site file.
    pub feature: usize,
    /// Run of the line per unit of rise.
    pub slope: f64,
    /// Inside it a footing as deep as the structure's is in reach, site frame.
    pub region: Region,
}

impl Analysis {
    /// How many clearances fall short.
    pub fn shortfalls(&self) -> usize {
        self.clearances.iter().filter(|c| c.falls_short()).count()
    }

    /// Where the work cannot be built as it stands, whatever the rules say.
    pub fn faults(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.is_fault())
    }

    /// A quantity by its stable name.
    pub fn line(&self, key: &str) -> Option<&Line> {
        self.takeoff.iter().find(|line| line.key == key)
    }

    /// The value of a quantity by its stable name.
    pub fn value(&self, key: &str) -> Option<f64> {
        self.line(key).map(|line| line.value)
    }

    /// Gives every quantity its low and high, and the cost by these rates as well. They must have
    /// been worked out for the same site.
    pub fn set_ranges(&mut self, ranges: &Ranges, rates: &[Rate]) {
        for line in &mut self.takeoff {
            line.range = ranges.of(line.key).cloned();
        }
        self.has_ranges = true;
        if self.cost.is_some() {
            self.cost = cost::price(&self.takeoff, rates).cost;
        }
    }
}
