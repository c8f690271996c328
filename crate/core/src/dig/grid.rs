//! A grid of square cells over the shell's frame, and where a figure's rows cross it.

use super::sums::LANES;
use crate::geom::{Point, Region, Vector};

/// Square cells in rows from low y to high y; cell centers stand on the multiples of the cell
/// size, whatever the grid's extent, so that a larger grid keeps its neighbors' cells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Grid {
    /// Center of the first cell of the first row, meters.
    pub first: Point,
    /// Side of a cell, meters.
    pub cell: f64,
    /// Cells in a row.
    pub columns: usize,
    /// Rows.
    pub rows: usize,
}

impl Grid {
    /// The cells that cover a rectangle, and two more on every side; rows are a whole number
    /// of lanes long.
    pub fn covering(low: Point, high: Point, cell: f64) -> Self {
        let start = |c: f64| (c / cell).floor() - 2.0;
        let count = |low: f64, high: f64| ((high / cell).ceil() + 3.0 - start(low)) as usize;
        Self {
            first: Point::new(start(low.x) * cell, start(low.y) * cell),
            cell,
            columns: count(low.x, high.x).next_multiple_of(LANES),
            rows: count(low.y, high.y),
        }
    }

    /// Number of cells.
    pub fn len(&self) -> usize {
        self.columns * self.rows
    }

    /// Center of a cell, meters.
    pub fn centre(&self, column: usize, row: usize) -> Point {
        self.first + Vector::new(column as f64 * self.cell, row as f64 * self.cell)
    }

    /// The outer corners of the grid, meters.
    pub fn corners(&self) -> (Point, Point) {
        let half = Vector::new(self.cell / 2.0, self.cell / 2.0);
        let last = self.centre(self.columns.max(1) - 1, self.rows.max(1) - 1);
        (self.first + -half, last + half)
    }

    /// Column and row of the cell a point lies in (the nearest cell for a point outside).
    pub fn place_of(&self, p: Point) -> (usize, usize) {
        let nearest = |c: f64, first: f64, count: usize| {
            // What is negative is cut off at nothing.
            (((c - first) / self.cell + 0.5).floor() as usize).min(count.max(1) - 1)
        };
        let column = nearest(p.x, self.first.x, self.columns);
        let row = nearest(p.y, self.first.y, self.rows);
        (column, row)
    }

    /// The columns whose centers `x` lie in `low <= x < high`.
    pub fn columns_between(&self, low: f64, high: f64) -> core::ops::Range<usize> {
        span(low, high, self.first.x, self.cell, self.columns)
    }

    /// The rows whose centers `y` lie in `low <= y < high`.
    pub fn rows_between(&self, low: f64, high: f64) -> core::ops::Range<usize> {
        span(low, high, self.first.y, self.cell, self.rows)
    }

    /// Every `step`th cell of every `step`th row, from the first on.
    pub fn every(&self, step: usize) -> Self {
        Self {
            first: self.first,
            cell: self.cell * step as f64,
            columns: self.columns.div_ceil(step),
            rows: self.rows.div_ceil(step),
        }
    }

    /// The same area in cells `parts` times smaller, every cell divided evenly.
    pub fn divided(&self, parts: usize) -> Self {
        let cell = self.cell / parts as f64;
        let back = (cell - self.cell) / 2.0;
        Self {
            first: self.first + Vector::new(back, back),
            cell,
            columns: self.columns * parts,
            rows: self.rows * parts,
        }
    }
}

/// The whole numbers `i` below `count` with `low <= first + i * step < high`.
fn span(low: f64, high: f64, first: f64, step: f64, count: usize) -> core::ops::Range<usize> {
    // What is negative is cut off at nothing.
    let at = |c: f64| (((c - first) / step).ceil() as usize).min(count);
    let start = at(low);
    start..at(high).max(start)
}

/// Where a region's boundary crosses the rows of a grid: between the first and the second
/// crossing of a row the region is inside, and so on in pairs.
#[derive(Debug, Clone, Default)]
pub(super) struct Crossings {
    /// Start of each row in `xs`, and the end of the last.
    starts: Vec<usize>,
    xs: Vec<f64>,
}

impl Crossings {
    /// The crossings of a region moved by `shift`.
    pub fn of(region: &Region, shift: Vector, grid: &Grid) -> Self {
        let mut found: Vec<(usize, f64)> = Vec::new();
        for (a, b) in region.rings().flat_map(|ring| ring.edges()) {
            let (a, b) = (a + shift, b + shift);
            // Walked upwards, so that two figures that share the edge cross at the same x.
            let (low, high) = if a.y <= b.y { (a, b) } else { (b, a) };
            let lean = (high.x - low.x) / (high.y - low.y);
            for row in grid.rows_between(low.y, high.y) {
                let y = grid.first.y + row as f64 * grid.cell;
                found.push((row, low.x + (y - low.y) * lean));
            }
        }
        found.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut starts = vec![0; grid.rows + 1];
        for (row, _) in &found {
            if let Some(start) = starts.get_mut(row + 1) {
                *start += 1;
            }
        }
        let mut sum = 0;
        for start in &mut starts {
            sum += *start;
            *start = sum;
        }
        Self {
            starts,
            xs: found.into_iter().map(|(_, x)| x).collect(),
        }
    }

    /// The stretches of a row inside the region, meters.
    pub fn row(&self, row: usize) -> impl Iterator<Item = (f64, f64)> + '_ {
        let start = self.starts.get(row).copied().unwrap_or(0);
        let end = self.starts.get(row + 1).copied().unwrap_or(start);
        let xs = self.xs.get(start..end).unwrap_or_default();
        xs.iter()
            .copied()
            .step_by(2)
            .zip(xs.iter().copied().skip(1).step_by(2))
    }

    /// Whether a place on a row is inside the region.
    pub fn inside(&self, row: usize, x: f64) -> bool {
        self.row(row).any(|(low, high)| low <= x && x < high)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Ring;

    #[test]
    fn cells_stand_at_the_same_places_in_every_grid() {
        let small = Grid::covering(Point::new(-1.01, 0.3), Point::new(1.0, 2.0), 0.05);
        let large = Grid::covering(Point::new(-7.77, -9.0), Point::new(8.0, 9.0), 0.05);
        let p = small.centre(3, 4);
        let (column, row) = large.place_of(p);
        let same = large.centre(column, row);
        assert!(p.distance(same) < 1e-12);
        let (low, high) = small.corners();
        assert!(low.x < -1.06 && low.y < 0.25 && high.x > 1.05 && high.y > 2.05);
    }

    #[test]
    fn two_halves_of_a_square_share_every_cell_once() {
        let grid = Grid::covering(Point::new(0.0, 0.0), Point::new(3.0, 3.0), 0.1);
        let [a, b, c, d] =
            [(0.0, 0.0), (3.0, 0.05), (2.9, 3.0), (-0.1, 2.8)].map(|(x, y)| Point::new(x, y));
        let triangle = |ring: [Point; 3]| Region::from_ring(Ring(ring.to_vec()));
        let halves = [triangle([a, b, c]), triangle([a, c, d])]
            .map(|half| Crossings::of(&half, Vector::default(), &grid));
        let whole = Region::from_ring(Ring(vec![a, b, c, d]));
        let whole = Crossings::of(&whole, Vector::default(), &grid);
        let cells = |crossings: &Crossings, row: usize| -> usize {
            let spans = crossings.row(row);
            spans.map(|(l, h)| grid.columns_between(l, h).len()).sum()
        };
        for row in 0..grid.rows {
            let parts: usize = halves.iter().map(|half| cells(half, row)).sum();
            assert_eq!(parts, cells(&whole, row), "row {row}");
        }
    }
}
