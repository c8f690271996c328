//! The ground under a layout, and how banks run over it.

use super::layout::{Beside, Layout};
use crate::dig::{Grid, Terrain};
use crate::geom::{Point, Pose, Vector};
use crate::ground::Ground;

/// Ground within this share of a bank's slope counts as being as steep.
const NEARLY: f64 = 0.98;

/// Which way a bank runs from the deck's edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Way {
    /// Down to the ground: fill.
    Down,
    /// Up to the ground: cut.
    Up,
}

impl Way {
    pub fn sign(self) -> f64 {
        match self {
            Self::Down => -1.0,
            Self::Up => 1.0,
        }
    }
}

/// The ground under a layout, as rises above the rim.
pub(super) struct Drape {
    grid: Grid,
    rises: Vec<f64>,
    pub assumed: Vec<bool>,
    pub any_assumed: bool,
    /// The rectangle round all ground that is as steep as a bank, or steeper.
    steep: Option<(Point, Point)>,
}

impl Drape {
    /// `bank`: the slope of banks, rise per meter of run.
    pub fn over(grid: Grid, ground: &Ground, pose: &Pose, coping: f64, bank: f64) -> Self {
        let mut terrain = Terrain::over(&grid, ground, pose, coping);
        let mut rises = vec![0.0; grid.len()];
        let mut assumed = vec![false; grid.len()];
        let rows = rises.chunks_mut(grid.columns.max(1));
        for (row, (rises, assumed)) in rows
            .zip(assumed.chunks_mut(grid.columns.max(1)))
            .enumerate()
        {
            terrain.draw(&grid, row, rises, assumed);
        }
        Self {
            grid,
            assumed,
            any_assumed: terrain.assumed(),
            steep: steep(&grid, &rises, bank),
            rises,
        }
    }

    /// Whether all ground between two places is less steep than a bank: then a bank that stands
    /// above it (or lies below it) somewhere does so all the way back to its edge.
    fn is_gentle(&self, a: Point, b: Point) -> bool {
        self.steep.is_none_or(|(low, high)| {
            a.x.max(b.x) < low.x
                || a.x.min(b.x) > high.x
                || a.y.max(b.y) < low.y
                || a.y.min(b.y) > high.y
        })
    }

    pub fn rise(&self, cell: usize) -> f64 {
        self.rises.get(cell).copied().unwrap_or(0.0)
    }

    /// How the ground rises over a cell: by this much from its middle to its sides.
    pub fn tilt(&self, cell: usize) -> (f64, f64) {
        let at = |cell: Option<usize>| cell.and_then(|cell| self.rises.get(cell)).copied();
        let half = |low: Option<f64>, high: Option<f64>| match (low, high) {
            (Some(low), Some(high)) => (high - low) / 4.0,
            _ => 0.0,
        };
        let columns = self.grid.columns;
        (
            half(at(cell.checked_sub(1)), at(Some(cell + 1))),
            half(at(cell.checked_sub(columns)), at(Some(cell + columns))),
        )
    }

    /// The rise in the cell of a place.
    pub fn rise_at(&self, p: Point) -> f64 {
        let (column, row) = self.grid.place_of(p);
        self.rise(row * self.grid.columns + column)
    }
}

/// The rectangle round all cells from which the ground rises or falls to the next as steeply as a
/// bank of this slope.
fn steep(grid: &Grid, rises: &[f64], bank: f64) -> Option<(Point, Point)> {
    // Along both ways at once no steeper than along one of them by the square root of two.
    let limit = bank * grid.cell * core::f64::consts::FRAC_1_SQRT_2 * NEARLY;
    let columns = grid.columns.max(1);
    let mut found: Option<((usize, usize), (usize, usize))> = None;
    let (next, below) = (rises.iter().skip(1), rises.iter().skip(columns));
    for (cell, ((rise, next), below)) in rises.iter().zip(next).zip(below).enumerate() {
        if (next - rise).abs() < limit && (below - rise).abs() < limit {
            continue;
        }
        let (column, row) = (cell % columns, cell / columns);
        if column + 1 == columns {
            continue;
        }
        let (low, high) = found.unwrap_or(((column, row), (column, row)));
        found = Some((
            (low.0.min(column), low.1.min(row)),
            (high.0.max(column), high.1.max(row)),
        ));
    }
    // Its cells and their neighbors.
    let (low, high) = found?;
    let reach = Vector::new(2.0 * grid.cell, 2.0 * grid.cell);
    Some((
        grid.centre(low.0, low.1) + -reach,
        grid.centre(high.0, high.1) + reach,
    ))
}

impl Layout {
    /// Whether a bank that would lie at a place, so far from the ground there, is not cut off by
    /// ground that it met before.
    pub(super) fn reaches(
        &self,
        drape: &Drape,
        (from, height): (Point, f64),
        beside: &Beside,
        way: Way,
    ) -> bool {
        if height > 0.0 && drape.is_gentle(from, from + beside.toward * beside.run) {
            return true;
        }
        let cell = self.grid.cell;
        let sign = way.sign();
        let mut run = beside.run - cell;
        let mut p = from + beside.toward * cell;
        while run > cell / 2.0 {
            let bank = beside.edge + sign * run * self.levels.bank;
            if sign * (drape.rise_at(p) - bank) <= 0.0 {
                return false;
            }
            if drape.is_gentle(p, p + beside.toward * run) {
                return true;
            }
            run -= cell;
            p = p + beside.toward * cell;
        }
        true
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing)]
mod tests {
    use super::*;
    use crate::ground::GroundRecord;
    use crate::math::{cos, sin};
    use crate::shell::{Shell, catalogue};
    use crate::site::ConstructionSettings;

    /// Rolling ground, in one half steeper than banks are.
    fn rolling() -> Ground {
        let spots = (0..60).flat_map(|i| (0..60).map(move |k| (f64::from(i), f64::from(k))));
        let spots = spots.map(|(i, k)| {
            let (x, y) = (i * 0.4 - 12.0, k * 0.4 - 12.0);
            let high = if x > 3.0 { 0.9 } else { 0.04 };
            [x, y, 10.0 + high * sin(1.3 * x) * cos(1.1 * y) - 0.06 * y]
        });
        let record = GroundRecord::of_spots(spots.collect());
        Ground::check(&record).unwrap().0
    }

    /// Over gentle ground a bank is not walked back to its edge: what is walked says the same.
    #[test]
    fn gentle_ground_needs_no_walk() {
        let shell = Shell::check(&catalogue::all()[0]).unwrap().0;
        let layout = Layout::new(&shell, &ConstructionSettings::default(), None, 4.5, 0.15);
        let (bank, grid) = (layout.levels.bank, layout.grid);
        let pose = Pose::new(Point::new(0.3, -0.2), 0.4, false);
        let drape = Drape::over(grid, &rolling(), &pose, 10.1, bank);
        let mut walked = Drape::over(grid, &rolling(), &pose, 10.1, bank);
        let far = Vector::new(1e3, 1e3);
        walked.steep = Some((Point::default() - far, Point::default() + far));
        let (mut spared, mut cut_off) = (0, 0);
        for piece in &layout.beside {
            let columns = grid.columns;
            let at = grid.centre(piece.cell as usize % columns, piece.cell as usize / columns);
            let ground = drape.rise(piece.cell as usize);
            for way in [Way::Down, Way::Up] {
                let height = way.sign() * (ground - piece.edge) - piece.run * bank;
                if height < -grid.cell * (bank + 1.0) {
                    continue;
                }
                let reaches = layout.reaches(&drape, (at, height), piece, way);
                let exact = layout.reaches(&walked, (at, height), piece, way);
                assert_eq!(reaches, exact, "{at:?} {height} {way:?}");
                spared += u32::from(drape.is_gentle(at, at + piece.toward * piece.run));
                cut_off += u32::from(!exact);
            }
        }
        assert!(spared > 100 && cut_off > 10, "{spared} {cut_off}");
    }
}
