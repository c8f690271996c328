//! What an inch of coping changes.

use super::cache::Cache;
use super::data::Analysis;
use super::pipeline;
use super::scenario::{Detail, Scenario};
use crate::grading::Grading;
use crate::site::{CheckedSite, FeatureKind};
use crate::units::Measure;
use crate::units::constants::INCH;

/// By how much the coping is moved to see what changes, meters: an inch.
pub const STEP: f64 = INCH;

/// The copings that are computed, meters above the present one.
const COPINGS: [f64; 3] = [0.0, STEP, -STEP];

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
    /// Its value with the coping [`STEP`] higher, SI.
    pub up: f64,
    /// Its value with the coping [`STEP`] lower, SI.
    pub down: f64,
}

/// The quantities that are told with what an inch changes.
const TOLD: [&str; 6] = ["bank-cut", "cut", "fill", "fill-import", "loads", "stone"];

/// The copings as they are computed, one at a time.
#[derive(Debug, Default)]
pub struct Copings {
    done: Vec<Option<Analysis>>,
    cache: Cache,
}

impl Copings {
    /// How many copings were computed, and how many there are.
    pub fn progress(&self) -> (usize, usize) {
        (self.done.len(), COPINGS.len())
    }

    /// Computes one more coping; false when none was left.
    pub fn step(&mut self, site: &CheckedSite) -> bool {
        let (Some((_, placement)), Some(by)) = (site.placed_shell(), COPINGS.get(self.done.len()))
        else {
            return false;
        };
        let scenario = Scenario::at_coping(site, placement.coping_elevation + by);
        let computed = scenario.map(|it| pipeline::run(&it, Detail::Quantities, &mut self.cache));
        self.done.push(computed);
        true
    }

    /// What changes from one to another; nothing while one is missing or out of range.
    pub fn changes(&self, site: &CheckedSite) -> Vec<Change> {
        match self.done.as_slice() {
            [Some(now), Some(up), Some(down)] => changes(site, [now, up, down]),
            _ => Vec::new(),
        }
    }
}

/// What an inch up or down changes; nothing before a shell is placed.
pub fn coping_step(site: &CheckedSite) -> Vec<Change> {
    let mut copings = Copings::default();
    while copings.step(site) {}
    copings.changes(site)
}

fn changes(site: &CheckedSite, [now, up, down]: [&Analysis; 3]) -> Vec<Change> {
    let Some((_, placement)) = site.placed_shell() else {
        return Vec::new();
    };
    let present = placement.coping_elevation;
    let mut changes = Vec::new();
    for key in TOLD {
        let Some(line) = [now, up, down].into_iter().find_map(|it| it.line(key)) else {
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
        let of = |it: &Analysis| it.grading.as_ref().map_or(0.0, height);
        changes.push(Change {
            key,
            label: label.to_owned(),
            measure: Measure::Length,
            present: of(now),
            up: of(up),
            down: of(down),
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
                up: present + STEP - floor,
                down: present - STEP - floor,
            });
        }
    }
    changes
}
