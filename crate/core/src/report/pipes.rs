//! The runs of pipe in figures.

use serde::Serialize;

use super::Figure;
use super::table::Lean::{self, Left, Right};
use super::table::columns;
use crate::geom::Point;
use crate::pipe::Run;
use crate::site::FittingKind;
use crate::units::{Measure, System};

/// One run of pipe, from its fitting to the equipment pad.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunFigures {
    /// What the plan calls it.
    pub label: String,
    /// What its fitting does.
    pub kind: FittingKind,
    /// Length of pipe, waste not counted.
    pub length: Figure,
    /// The part of it beside the wall.
    pub around: Figure,
    /// The part under the floor.
    pub under_floor: Figure,
    /// The part through the backfill.
    pub in_fill: Figure,
    /// The part in the trench.
    pub in_trench: Figure,
    /// Climbs and falls.
    pub risers: Figure,
    /// Bends.
    pub bends: u32,
    /// Straps.
    pub straps: usize,
    /// Head lost in friction when it carries all of the flow.
    pub loss: Figure,
    /// How fast the water then runs.
    pub speed: Figure,
    /// Its way in plan, site meters.
    pub path: Vec<Point>,
}

impl RunFigures {
    pub(super) fn of(run: &Run, system: System) -> Self {
        let length = |metres| Figure::new(Measure::LongLength, metres, system);
        Self {
            label: run.label.clone(),
            kind: run.kind,
            length: length(run.length()),
            around: length(run.around),
            under_floor: length(run.under_floor),
            in_fill: length(run.in_fill),
            in_trench: length(run.in_trench),
            risers: length(run.risers),
            bends: run.bends,
            straps: run.straps.len(),
            loss: length(run.loss),
            speed: Figure::new(Measure::Speed, run.speed, system),
            path: run.path.clone(),
        }
    }
}

/// The runs as a table.
pub(super) fn text(runs: &[RunFigures], out: &mut String) {
    let head = [
        "Run", "Fitting", "Length", "Wall", "Floor", "Fill", "Trench", "Risers", "Bends",
        "Friction", "Speed",
    ];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for run in runs {
        let lengths = [
            &run.length,
            &run.around,
            &run.under_floor,
            &run.in_fill,
            &run.in_trench,
            &run.risers,
        ];
        let mut row = vec![run.label.clone(), run.kind.words().to_owned()];
        row.extend(lengths.map(|figure| figure.shown.text.clone()));
        row.push(run.bends.to_string());
        row.extend([run.loss.shown.text.clone(), run.speed.shown.text.clone()]);
        rows.push(row);
    }
    let leans: Vec<Lean> = [Left; 2].into_iter().chain([Right; 9]).collect();
    columns(2, &leans, &rows, out);
    out.push_str("    Friction and speed with all of the flow in the one run.\n");
}
