//! How far quantities may be out: each doubt carried through the whole pipeline.
//!
//! Nothing is taken from rules of thumb. For each doubt the hole is cut, or the spoil swollen,
//! again at both of its ends, and every quantity is taken off anew; what comes out is its low
//! and its high by that cause alone. That costs four more holes, so it is done when the work
//! rests and not on every frame of a drag. Deck, pipe and small digs stay as planned.

use super::cache::Cache;
use super::data::Analysis;
use super::pipeline;
use super::ranges::{LineRange, Ranges};
use super::scenario::{Detail, Scenario};
use crate::finding::Caveat;
use crate::site::{CheckedSite, ConstructionSettings};
use crate::takeoff::{Cause, Doubt, Range};

/// A change smaller than this share of a value is rounding.
const ROUNDING: f64 = 1e-9;

/// One end of a doubt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct End {
    doubt: Doubt,
    upper: bool,
}

impl End {
    /// What a site and its plan turn out to be at this end.
    fn scenario<'a>(self, site: &'a CheckedSite, planned: &'a Analysis) -> Scenario<'a> {
        let works = &site.site().works;
        let sign = if self.upper { 1.0 } else { -1.0 };
        let (works, raised) = match self.doubt {
            Doubt::Swell => (swollen(works, sign * works.doubt.swell), 0.0),
            Doubt::OverDig => (wider(works, sign * works.doubt.over_dig), 0.0),
            Doubt::Ground => (
                ConstructionSettings::clone(works),
                sign * works.doubt.ground,
            ),
        };
        Scenario::doubted(site, planned, works, raised)
    }
}

/// The settings with a swell that adds so much more or less, as a share of what it adds.
fn swollen(works: &ConstructionSettings, share: f64) -> ConstructionSettings {
    let mut works = works.clone();
    let adds = works.dig.loose_per_bank() - 1.0;
    works.dig.swell = Some(1.0 + adds * (1.0 + share));
    works
}

/// The settings with the over-dig so much wider on every side.
fn wider(works: &ConstructionSettings, by: f64) -> ConstructionSettings {
    let mut works = works.clone();
    let told = works.dig.sides.iter_mut();
    let told = told.filter_map(|side| side.over_dig.as_mut());
    for over_dig in told.chain([&mut works.dig.over_dig]) {
        *over_dig = (*over_dig + by).max(0.0);
    }
    works
}

/// The quantities of one scenario by their stable names.
type Values = Vec<(&'static str, f64)>;

/// The doubts of a site as they are worked through, one end at a time.
#[derive(Debug, Clone)]
pub struct Sensitivity {
    ends: Vec<End>,
    values: Vec<Values>,
}

impl Sensitivity {
    /// The doubts of a site; none before a shell is placed. `planned` must have been computed from the
    /// same site.
    pub fn new(site: &CheckedSite, planned: &Analysis) -> Self {
        let doubt = &site.site().works.doubt;
        let doubts = [
            (Doubt::Swell, doubt.swell),
            (Doubt::OverDig, doubt.over_dig),
            (Doubt::Ground, doubt.ground),
        ];
        let told = doubts
            .into_iter()
            .filter(|(_, by)| *by > 0.0 && !planned.takeoff.is_empty());
        let ends = told.flat_map(|(doubt, _)| [false, true].map(|upper| End { doubt, upper }));
        Self {
            ends: ends.collect(),
            values: Vec::new(),
        }
    }

    /// How many ends were worked out, and how many there are.
    pub fn progress(&self) -> (usize, usize) {
        (self.values.len(), self.ends.len())
    }

    /// ConstructionSettings out one more end; false when none was left.
    pub fn step(&mut self, site: &CheckedSite, planned: &Analysis, cache: &mut Cache) -> bool {
        let Some(end) = self.ends.get(self.values.len()) else {
            return false;
        };
        let scenario = end.scenario(site, planned);
        let found = pipeline::run(&scenario, Detail::Quantities, cache);
        let values = found.takeoff.iter().map(|line| (line.key, line.value));
        self.values.push(values.collect());
        true
    }

    /// Low and high of every quantity of the plan, by the ends that were worked out.
    pub fn ranges(&self, planned: &Analysis) -> Ranges {
        let (ends, _) = self.ends.as_chunks::<2>();
        let (values, _) = self.values.as_chunks::<2>();
        let lines = planned.takeoff.iter().filter_map(|line| {
            let value_in = |values: &Values| {
                let known = values.iter().find(|(key, _)| *key == line.key);
                known.map_or(0.0, |(_, value)| *value)
            };
            let causes = ends
                .iter()
                .zip(values)
                .filter_map(|([end, _], [less, more])| {
                    let cause = Cause {
                        doubt: end.doubt,
                        less: value_in(less),
                        more: value_in(more),
                    };
                    let off = (cause.less - line.value).abs() + (cause.more - line.value).abs();
                    (off > ROUNDING * line.value.abs().max(1.0)).then_some(cause)
                });
            let open = line.caveats.contains(&Caveat::UnknownGround);
            Some(LineRange {
                key: line.key.to_owned(),
                range: Range::of(line.value, line.measure, causes.collect(), open)?,
            })
        });
        Ranges {
            lines: lines.collect(),
        }
    }
}
