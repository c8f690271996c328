//! Where banks meet the ground, as lines for the plan.

use super::drape::{Drape, Way};
use super::drawn::Over;
use super::layout::{Beside, Layout, STRIDE};
use crate::dig::positive_area;
use crate::geom::{Point, Pose, Vector};

/// Beyond the edge by this much a line counts as one of a bank, meters.
const OFF_EDGE: f64 = 0.01;

/// What is traced: how far a bank stands above the ground, or below it.
pub(super) struct Field<'a> {
    pub layout: &'a Layout,
    pub over: Option<&'a Over>,
    pub drape: &'a Drape,
}

impl Field<'_> {
    /// Run from the edge at a place of the coarse grid, and the deck's top at that edge.
    fn run(&self, index: usize) -> (f64, f64) {
        let levels = &self.layout.levels;
        let plain = || {
            let run = self
                .layout
                .runs
                .get(index)
                .copied()
                .unwrap_or(f64::INFINITY);
            (run, levels.top(levels.edge()))
        };
        match self.over {
            Some(over) => over.runs.get(index).copied().unwrap_or_else(plain),
            None => plain(),
        }
    }

    /// How much of a bank stands between it and the ground, meters; negative beyond its end.
    fn value(&self, index: usize, way: Way) -> f64 {
        let layout = self.layout;
        let columns = layout.coarse.columns.max(1);
        let (column, row) = (index % columns, index / columns);
        let ground = self
            .drape
            .rise(row * STRIDE * layout.grid.columns + column * STRIDE);
        let (run, edge) = self.run(index);
        let rise = run * layout.levels.bank;
        let value = match way {
            Way::Down => edge - rise - ground,
            Way::Up => ground - (edge + rise),
        };
        if run <= 0.0 || value <= 0.0 {
            return value;
        }
        // Its way back to the edge: up the gradient of the run.
        let at = layout.coarse.centre(column, row);
        let beside = Beside {
            cell: 0,
            area: 0.0,
            run,
            edge,
            toward: self.toward(column, row).unwrap_or_default(),
            hole: f64::INFINITY,
        };
        if layout.reaches(self.drape, (at, value), &beside, way) {
            value
        } else {
            -OFF_EDGE
        }
    }

    fn toward(&self, column: usize, row: usize) -> Option<Vector> {
        let grid = &self.layout.coarse;
        let at = |c: usize, r: usize| {
            let index = r.min(grid.rows - 1) * grid.columns + c.min(grid.columns - 1);
            self.run(index).0
        };
        let (left, below) = (column.saturating_sub(1), row.saturating_sub(1));
        let x = at(column + 1, row) - at(left, row);
        let y = at(column, row + 1) - at(column, below);
        (-Vector::new(x, y)).unit()
    }

    /// The run at any place, between the four of the coarse grid round it.
    fn run_at(&self, p: Point) -> f64 {
        let grid = &self.layout.coarse;
        let off = p - grid.first;
        let (x, y) = (off.x / grid.cell, off.y / grid.cell);
        let (column, row) = (x.floor().max(0.0), y.floor().max(0.0));
        let (dx, dy) = (x - column, y - row);
        let at = |c: f64, r: f64| {
            let (c, r) = (c as usize, r as usize);
            self.run(r.min(grid.rows - 1) * grid.columns + c.min(grid.columns - 1))
                .0
        };
        let low = at(column, row) * (1.0 - dx) + at(column + 1.0, row) * dx;
        let high = at(column, row + 1.0) * (1.0 - dx) + at(column + 1.0, row + 1.0) * dx;
        low * (1.0 - dy) + high * dy
    }
}

/// The lines along which banks of one kind meet the ground, site frame.
pub(super) fn lines(field: &Field<'_>, way: Way, pose: &Pose) -> Vec<Vec<Point>> {
    let grid = &field.layout.coarse;
    let values: Vec<f64> = (0..grid.len()).map(|i| field.value(i, way)).collect();
    let area = positive_area(grid, &values);
    let mut found = Vec::new();
    for ring in area.rings() {
        let beyond = |p: &Point| field.run_at(*p) > OFF_EDGE;
        // Begun within the edge, so that no line is cut in two.
        let start = ring.0.iter().position(|p| !beyond(p));
        let turned = ring.0.iter().cycle().skip(start.unwrap_or(0));
        let mut line: Vec<Point> = Vec::new();
        for p in turned.take(ring.0.len()) {
            if beyond(p) {
                line.push(pose.site_from_shell(*p));
            } else {
                keep(&mut line, &mut found);
            }
        }
        if start.is_none() {
            let first = line.first().copied();
            line.extend(first);
        }
        keep(&mut line, &mut found);
    }
    found
}

/// Ends a line; one of a single point is none.
fn keep(line: &mut Vec<Point>, found: &mut Vec<Vec<Point>>) {
    if line.len() > 1 {
        found.push(core::mem::take(line));
    } else {
        line.clear();
    }
}
