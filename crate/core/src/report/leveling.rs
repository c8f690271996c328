//! Where cut and fill are even, and what an inch of coping changes, as people read them.

use serde::Serialize;

use super::table::{Lean, columns, wrapped};
use crate::analysis::balance::Balance;
use crate::analysis::coping_step::{self, Change};
use crate::finding::Finding;
use crate::grading::balance::Even;
use crate::units::{Measure, Shown, System, show};

/// The copings at which earth is even.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct BalanceFigures {
    /// The present coping.
    pub present: Shown,
    /// All that is dug against all the fill, and deck and banks alone.
    pub ways: Vec<WayFigures>,
    /// What there is to say.
    pub findings: Vec<Finding>,
}

/// One way to be even.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct WayFigures {
    /// A stable name.
    pub key: &'static str,
    /// What is held against what.
    pub label: &'static str,
    /// What is left over or short at the present coping, in words.
    pub left: String,
    /// The coping at which it is even, meters; none in the range.
    pub coping: Option<f64>,
    /// The same as shown, and how far above the present one it is.
    pub shown: Option<Shown>,
    /// How far from the present coping, in words.
    pub step: Option<String>,
}

/// What an inch of coping changes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct NudgeFigures {
    /// How far the coping is moved.
    pub by: Shown,
    /// The figures.
    pub rows: Vec<ChangeFigures>,
}

/// One figure now, and with the coping moved up and down.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ChangeFigures {
    /// A stable name.
    pub key: &'static str,
    /// What it is.
    pub label: String,
    /// At the present coping.
    pub present: Shown,
    /// With the coping higher.
    pub up: Shown,
    /// With the coping lower.
    pub down: Shown,
}

impl BalanceFigures {
    /// A balance in the given units.
    pub fn of(found: &Balance, system: System) -> Self {
        let way = |key, label, even: Even, left: f64| way(key, label, found, even, left, system);
        let left = found.left;
        Self {
            present: show(Measure::Elevation, found.present, system),
            ways: vec![
                way(
                    "whole",
                    "All that is dug against all the fill",
                    found.whole,
                    left.all,
                ),
                way(
                    "alone",
                    "Deck and banks alone",
                    found.alone,
                    left.deck_and_banks,
                ),
            ],
            findings: found.findings.clone(),
        }
    }

    /// The figures as plain text.
    pub fn to_text(&self) -> String {
        let head = ["", "At the present coping", "Balances at", "Change"].map(str::to_owned);
        let mut rows = vec![head.to_vec()];
        let none = || "nowhere in range".to_owned();
        for way in &self.ways {
            rows.push(vec![
                way.label.to_owned(),
                way.left.clone(),
                way.shown.as_ref().map_or_else(none, |it| it.text.clone()),
                way.step.clone().unwrap_or_default(),
            ]);
        }
        let mut out = format!("Present coping: {}\n\n", self.present.text);
        columns(2, &[Lean::Left; 4], &rows, &mut out);
        for finding in &self.findings {
            let said = format!("{} {}", finding.message, finding.remedy);
            out.extend(["\n", &wrapped(&said, 2), "\n"]);
        }
        out.extend([
            "\n",
            &wrapped(
                "Bank volumes. Floors, doors and drainage come before balanced earthwork.",
                2,
            ),
            "\n",
        ]);
        out
    }
}

fn way(
    key: &'static str,
    label: &'static str,
    found: &Balance,
    even: Even,
    left: f64,
    system: System,
) -> WayFigures {
    let volume = show(Measure::EarthVolume, left.abs(), system).text;
    let over = if left >= 0.0 { "left over" } else { "short" };
    let coping = even.coping();
    let step = coping.map(|coping| {
        let by = show(Measure::Length, (coping - found.present).abs(), system).text;
        let way = if coping < found.present {
            "lower"
        } else {
            "higher"
        };
        format!("{by} {way}")
    });
    WayFigures {
        key,
        label,
        left: format!("{volume} {over}"),
        coping,
        shown: coping.map(|coping| show(Measure::Elevation, coping, system)),
        step,
    }
}

impl NudgeFigures {
    /// What changes, in the given units.
    pub fn of(changes: Vec<Change>, system: System) -> Self {
        let row = |it: Change| {
            let shown = |value| show(it.measure, value, system);
            ChangeFigures {
                key: it.key,
                present: shown(it.present),
                up: shown(it.up),
                down: shown(it.down),
                label: it.label,
            }
        };
        Self {
            by: show(Measure::Length, coping_step::STEP, system),
            rows: changes.into_iter().map(row).collect(),
        }
    }

    /// The figures as plain text.
    pub fn to_text(&self) -> String {
        let by = &self.by.text;
        let head = [
            "Coping",
            "as it is",
            &format!("{by} higher"),
            &format!("{by} lower"),
        ];
        let mut rows = vec![head.map(str::to_owned).to_vec()];
        for row in &self.rows {
            let cells = [&row.present, &row.up, &row.down].map(|it| it.text.clone());
            rows.push([vec![row.label.clone()], cells.to_vec()].concat());
        }
        let mut out = String::new();
        columns(
            2,
            &[Lean::Left, Lean::Right, Lean::Right, Lean::Right],
            &rows,
            &mut out,
        );
        out
    }
}
