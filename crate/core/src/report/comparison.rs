//! Placements side by side, as people read them.

use serde::Serialize;

use super::table::{Lean, columns, wrapped};
use crate::analysis::compare::Comparison;
use crate::finding::Finding;
use crate::site::CheckedSite;
use crate::units::{Measure, Shown, System, show, show_money};

/// The figures of several placements; differences are to the first, the present one.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ComparisonFigures {
    /// What the site is called.
    pub site: String,
    /// The placements.
    pub columns: Vec<ColumnFigures>,
    /// The figures.
    pub rows: Vec<RowFigures>,
}

/// One placement.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ColumnFigures {
    /// What it is called.
    pub name: String,
    /// Its shell.
    pub shell: String,
    /// What bars the way where it cannot be computed.
    pub faults: Vec<Finding>,
}

/// One figure of every placement.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct RowFigures {
    /// A stable name.
    pub key: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// Its value in each column.
    pub values: Vec<Option<Shown>>,
    /// The SI value in each column.
    pub si: Vec<Option<f64>>,
    /// Each value less the first one.
    pub differences: Vec<Option<Shown>>,
}

impl ComparisonFigures {
    /// A comparison of a site in the given units.
    pub fn of(comparison: &Comparison, site: &CheckedSite, system: System) -> Self {
        let columns = comparison.columns.iter().map(|column| ColumnFigures {
            name: column.name.clone(),
            shell: column.shell.clone(),
            faults: column.faults.clone(),
        });
        let currency = site.site().currency.clone().unwrap_or_default();
        let rows = comparison.rows.iter().map(|row| {
            let shown = |value: f64| match row.measure {
                Measure::Money => show_money(value, &currency),
                measure => show(measure, value, system),
            };
            let differences = (0..row.values.len()).map(|column| row.difference(column));
            RowFigures {
                key: row.key,
                label: row.label,
                values: row.values.iter().map(|value| value.map(shown)).collect(),
                si: row.values.clone(),
                differences: differences
                    .map(|difference| difference.map(|d| signed(shown(d))))
                    .collect(),
            }
        });
        Self {
            site: site.site().name.clone(),
            columns: columns.collect(),
            rows: rows.collect(),
        }
    }

    /// The comparison as JSON text.
    pub fn to_json(&self) -> String {
        crate::json::to_string(self)
    }

    /// The comparison as plain text.
    pub fn to_text(&self) -> String {
        let mut out = format!("{}\n\n", self.site);
        if self.columns.len() < 2 {
            out.push_str("No other placement is kept to compare with the present one.\n\n");
        }
        let empty = || "-".to_owned();
        let text = |shown: &Option<Shown>| shown.as_ref().map_or_else(empty, |s| s.text.clone());
        let mut head = vec![String::new()];
        let mut shells = vec!["Shell".to_owned()];
        for (at, column) in self.columns.iter().enumerate() {
            head.push(column.name.clone());
            shells.push(column.shell.clone());
            if at > 0 {
                head.push("difference".to_owned());
                shells.push(String::new());
            }
        }
        let width = head.len();
        let mut rows = vec![head, shells];
        for row in &self.rows {
            let mut cells = vec![row.label.to_owned()];
            for (at, (value, difference)) in row.values.iter().zip(&row.differences).enumerate() {
                cells.push(text(value));
                if at > 0 {
                    cells.push(text(difference));
                }
            }
            rows.push(cells);
        }
        let mut leans = vec![Lean::Right; width];
        if let Some(first) = leans.first_mut() {
            *first = Lean::Left;
        }
        columns(2, &leans, &rows, &mut out);
        for column in &self.columns {
            for fault in &column.faults {
                let told = format!("{}: {} {}", column.name, fault.message, fault.remedy);
                out.extend(["\n", &wrapped(&told, 2), "\n"]);
            }
        }
        out
    }
}

/// A difference with its sign.
fn signed(mut shown: Shown) -> Shown {
    if shown.value > 0.0 {
        shown.text.insert(0, '+');
    }
    shown
}
