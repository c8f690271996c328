//! The present shell and place beside others that were kept: the figures that decide.
//!
//! Every column is the whole site computed anew with one thing changed: the placement.

use std::sync::Arc;

use super::cache::Cache;
use super::data::Analysis;
use super::pipeline;
use super::scenario::{Detail, Scenario};
use crate::finding::Finding;
use crate::site::{Alternative, CheckedSite, Placement, ShellChoice, Site};
use crate::units::Measure;

/// What the column of the present placement is called.
pub const PRESENT: &str = "Present";

/// The quantities that are compared, by their stable names; those that no column has are left
/// out.
const QUANTITIES: &[&str] = &[
    "bank-cut",
    "dig-depth",
    "dig-top-area",
    "cut",
    "fill",
    "fill-import",
    "haul-loose",
    "haul-weight",
    "loads",
    "haul-time",
    "stone",
    "concrete",
    "deck-area",
    "pipe",
    "water-volume",
    "uplift-empty",
];

/// The figures of several placements side by side; the present one stands first.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The placements.
    pub columns: Vec<Column>,
    /// The figures.
    pub rows: Vec<Row>,
}

/// One placement.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    /// What it is called.
    pub name: String,
    /// Its shell; empty where there is none.
    pub shell: String,
    /// What bars the way where it cannot be computed.
    pub faults: Vec<Finding>,
}

/// One figure of every placement.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// A stable name.
    pub key: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// What kind of figure it is.
    pub measure: Measure,
    /// Its value in each column, SI units, where the column has it.
    pub values: Vec<Option<f64>>,
}

impl Row {
    /// A column's value less the present one, where both have it.
    pub fn difference(&self, column: usize) -> Option<f64> {
        let value = |column: usize| self.values.get(column).copied().flatten();
        Some(value(column)? - value(0)?)
    }
}

/// One figure of one placement.
type Figure = (&'static str, &'static str, Measure, f64);

/// The placements of a site as they are computed, one column at a time.
#[derive(Debug, Default)]
pub struct Columns {
    columns: Vec<Column>,
    figures: Vec<Vec<Figure>>,
    cache: Cache,
}

impl Columns {
    /// How many columns were computed, and how many there are.
    pub fn progress(&self, site: &CheckedSite) -> (usize, usize) {
        let kept = site.site().alternatives.len();
        (self.columns.len(), 1 + kept)
    }

    /// Computes one more column; false when none was left.
    pub fn step(&mut self, site: &CheckedSite) -> bool {
        let document = site.site();
        let (name, placement) = match self.columns.len().checked_sub(1) {
            None => (PRESENT, document.placement.as_ref()),
            Some(at) => {
                let Some(Alternative { name, placement }) = document.alternatives.get(at) else {
                    return false;
                };
                (name.as_str(), Some(placement))
            }
        };
        let (of_column, faults) = match computed(site, placement, &mut self.cache) {
            Ok(of_column) => (of_column, Vec::new()),
            Err(faults) => (Vec::new(), faults),
        };
        self.figures.push(of_column);
        self.columns.push(Column {
            name: name.to_owned(),
            shell: placement.map_or_else(String::new, |placed| shell_name(placed).to_owned()),
            faults,
        });
        true
    }

    /// The columns that were computed, side by side.
    pub fn comparison(&self) -> Comparison {
        Comparison {
            columns: self.columns.clone(),
            rows: rows(&self.figures),
        }
    }
}

/// Compares the present placement with every one that was kept.
pub fn compare(site: &CheckedSite) -> Comparison {
    let mut columns = Columns::default();
    while columns.step(site) {}
    columns.comparison()
}

fn shell_name(placement: &Placement) -> &str {
    match placement.shell.as_ref() {
        ShellChoice::Catalogue(name) => name,
        ShellChoice::Own(record) => &record.name,
    }
}

/// The figures of the site with another placement.
fn computed(
    site: &CheckedSite,
    placement: Option<&Placement>,
    cache: &mut Cache,
) -> Result<Vec<Figure>, Vec<Finding>> {
    let Some(placement) = placement else {
        return Ok(Vec::new());
    };
    let mut placement = placement.clone();
    let scenario = Scenario::with(site, |next: &mut Site| {
        if let Some(present) = &next.placement
            && present.shell == placement.shell
        {
            placement.shell = Arc::clone(&present.shell);
        }
        next.placement = Some(placement);
    })?;
    Ok(figures(&pipeline::run(&scenario, Detail::Complete, cache)))
}

fn figures(analysis: &Analysis) -> Vec<Figure> {
    let over = analysis.faults().count() as f64;
    let short = analysis.shortfalls() as f64;
    let mut figures = vec![
        (
            "shortfalls",
            "Clearances that fall short",
            Measure::Count,
            short,
        ),
        (
            "overreaches",
            "Conflicts with lines or things on the lot",
            Measure::Count,
            over,
        ),
    ];
    // Clearances come with the least room first.
    let least = analysis.clearances.first();
    figures.extend(least.map(|c| ("least-room", "Least room", Measure::Length, c.room)));
    for key in QUANTITIES {
        let lines = analysis.takeoff.iter().filter(|line| line.key == *key);
        figures.extend(lines.map(|line| (line.key, line.label, line.measure, line.value)));
    }
    let stands = analysis.grading.as_ref().and_then(|it| it.stands.as_ref());
    figures.extend(stands.map(|it| {
        let label = "Deck's edge above the ground";
        ("retained-height", label, Measure::Length, it.height)
    }));
    let cost = analysis.cost.iter();
    figures.extend(cost.map(|cost| ("cost", "Priced subtotal", Measure::Money, cost.total)));
    figures
}

/// The figures of all columns by what they are; each stands where a column first has it.
fn rows(columns: &[Vec<Figure>]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for (at, figures) in columns.iter().enumerate() {
        for (key, label, measure, value) in figures {
            let known = rows.iter().position(|row| row.key == *key);
            let index = known.unwrap_or(rows.len());
            if known.is_none() {
                rows.push(Row {
                    key,
                    label,
                    measure: *measure,
                    values: vec![None; columns.len()],
                });
            }
            let cell = rows.get_mut(index).and_then(|row| row.values.get_mut(at));
            if let Some(cell) = cell {
                *cell = Some(*value);
            }
        }
    }
    rows
}
