//! The grid of a hole with upright sides: a stack of slabs.
//!
//! Such a hole has no depth at its edge, only a share of the cell that is inside. Each layer of
//! the hole is bounded by a contour; the contour's exact share of every cell times the layer's
//! height adds up to the cell's mean depth times its share. Sums over the grid are therefore
//! as exact as the contours, wherever the ground stands above the bottom.

use super::bottom::Bottom;
use super::contour::{FINE, contour, layers};
use super::grid::Grid;
use crate::geom::{Point, Region};

/// The part of the hole that is at least `least` meters deep: its share of every cell, and that
/// share times its mean depth below the rim, meters.
pub(super) fn fill(bottom: &Bottom, grid: &Grid, least: f64) -> (Vec<f64>, Vec<f64>) {
    let least = least.max(bottom.shallowest());
    let cover = coverage(&contour(bottom, least, FINE), grid);
    let mut depths: Vec<f64> = cover.iter().map(|c| c * least).collect();
    for (depth, height) in layers(bottom, least).iter().flat_map(|l| l.gauss()) {
        let slab = coverage(&contour(bottom, depth, FINE), grid);
        for (sum, share) in depths.iter_mut().zip(slab) {
            *sum += share * height;
        }
    }
    (cover, depths)
}

/// The exact share of every cell that lies in the region.
pub(super) fn coverage(region: &Region, grid: &Grid) -> Vec<f64> {
    let mut shares = Shares::new(grid);
    shares.add(region, 1.0);
    let mut shares = shares.summed();
    for share in &mut shares {
        *share = share.clamp(0.0, 1.0);
    }
    shares
}

/// A share below this is rounding: the sum along a row gathers some.
const NOTHING: f64 = 1e-12;

/// Weighted shares of the cells in several regions, gathered before they are summed.
///
/// Every edge leaves in each cell it passes the area to its right, signed by its direction;
/// summed along a row that is the covered share. The sums of many regions cost no more than
/// their edges do, and one pass over the grid.
pub(super) struct Shares<'a> {
    grid: &'a Grid,
    marks: Vec<f64>,
}

impl<'a> Shares<'a> {
    pub fn new(grid: &'a Grid) -> Self {
        Self {
            grid,
            marks: vec![0.0; grid.len() + 1],
        }
    }

    /// Adds the shares in a region, times a weight.
    pub fn add(&mut self, region: &Region, weight: f64) {
        let grid = self.grid;
        let half = grid.cell / 2.0;
        let in_cells = |p: Point| {
            Point::new(
                (p.x - grid.first.x + half) / grid.cell,
                (p.y - grid.first.y + half) / grid.cell,
            )
        };
        for (a, b) in region.rings().flat_map(|ring| ring.edges()) {
            sweep(in_cells(a), in_cells(b), grid, weight, &mut self.marks);
        }
    }

    /// The sum over the regions of weight times share, cell by cell.
    pub fn summed(mut self) -> Vec<f64> {
        for row in self.marks.chunks_mut(self.grid.columns.max(1)) {
            let mut sum = 0.0;
            for share in row {
                sum += *share;
                *share = if sum > NOTHING { sum } else { 0.0 };
            }
        }
        self.marks.truncate(self.grid.len());
        self.marks
    }
}

/// Adds one edge, in units of cells.
fn sweep(a: Point, b: Point, grid: &Grid, weight: f64, shares: &mut [f64]) {
    // Down along the left side of a counter-clockwise ring the inside lies to the right: plus.
    let (low, high, sign) = if a.y < b.y {
        (a, b, -weight)
    } else {
        (b, a, weight)
    };
    if low.y >= high.y {
        return;
    }
    let lean = (high.x - low.x) / (high.y - low.y);
    let x_at = |y: f64| low.x + (y - low.y) * lean;
    let rows = low.y.floor().max(0.0) as usize..(high.y.ceil() as usize).min(grid.rows);
    for row in rows {
        let y0 = low.y.max(row as f64);
        let y1 = high.y.min((row + 1) as f64);
        let (x0, x1) = (x_at(y0), x_at(y1));
        let cells = shares.get_mut(row * grid.columns..).unwrap_or_default();
        spread(x0.min(x1), x0.max(x1), sign * (y1 - y0), cells);
    }
}

/// Spreads the signed height of an edge that leans from `x0` to `x1` within one row.
fn spread(x0: f64, x1: f64, height: f64, cells: &mut [f64]) {
    let mut add = |cell: usize, amount: f64| {
        if let Some(share) = cells.get_mut(cell) {
            *share += amount;
        }
    };
    let first = x0.floor();
    let last = x1.floor();
    let (mut cell, mut from) = (first, x0);
    while cell <= last {
        let to = x1.min(cell + 1.0);
        // The part of the height that falls into this cell, and how far to the left it stands.
        let part = if x1 > x0 {
            height * (to - from) / (x1 - x0)
        } else {
            height
        };
        let right = cell + 1.0 - (from + to) / 2.0;
        add(cell.max(0.0) as usize, part * right);
        add(cell.max(0.0) as usize + 1, part * (1.0 - right));
        from = to;
        cell += 1.0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::{Polygon, Ring, Vector};

    #[test]
    fn shares_add_up_to_the_area_and_the_moment() {
        let outer: Vec<Point> = (0..57)
            .map(|i| f64::from(i) / 57.0 * crate::math::TURN)
            .map(|a| Point::new(0.13, -0.21) + Vector::at_angle(a) * (1.5 + 0.4 * (3.0 * a) % 0.5))
            .collect();
        let hole = [(0.1, 0.1), (0.1, 0.43), (0.52, 0.2)].map(|(x, y)| Point::new(x, y));
        let region = Region {
            polygons: vec![Polygon {
                outer: Ring(outer),
                holes: vec![Ring(hole.to_vec())],
            }],
        };
        let grid = Grid::covering(Point::new(-2.5, -2.5), Point::new(2.5, 2.5), 0.05);
        let shares = coverage(&region, &grid);
        let sum: f64 = shares.iter().sum();
        assert!((sum * grid.cell * grid.cell - region.area()).abs() < 1e-9);
        assert!(shares.iter().all(|s| (0.0..=1.0).contains(s)));
        let share = |x: f64, y: f64| {
            let (column, row) = grid.place_of(Point::new(x, y));
            shares[row * grid.columns + column]
        };
        assert!((share(0.13, -0.3) - 1.0).abs() < 1e-12);
        assert_eq!(share(0.2, 0.2), 0.0);
    }
}
