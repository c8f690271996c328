//! The finished ground round a shell, cell by cell, before it meets any ground.

use super::levels::Levels;
use crate::dig::{DigShape, Grid};
use crate::geom::offset::offset_region;
use crate::geom::{DRAWING_TOLERANCE, Edges, Foot, Point, Region, VOLUME_TOLERANCE, Vector};
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// Every how many cells the lines of the banks look at the ground.
pub(super) const STRIDE: usize = 2;

/// Cells of a block, each way.
const BLOCK: usize = 8;

/// A share of a cell that is smaller is none.
const SLIVER: f64 = 0.001;

/// How far apart the ground is looked at along the deck's edge, meters.
pub(super) const EDGE_STEP: f64 = 0.25;

/// The finished ground round a shell, in the shell's frame. Rises are meters above the rim.
#[derive(Debug)]
pub struct Layout {
    pub(super) levels: Levels,
    pub(super) grid: Grid,
    /// What lies under deck or collar.
    pub(super) paved: Vec<Paved>,
    /// What lies beside them.
    pub(super) beside: Vec<Beside>,
    /// Places along the edge where banks start.
    pub(super) edge: Vec<EdgeSpot>,
    /// Every other cell of every other row, and the run from the edge there (negative within).
    pub(super) coarse: Grid,
    pub(super) runs: Vec<f64>,
    /// How far from the edge the layout reaches, meters.
    pub(super) reach: f64,
    /// Places along its border.
    border: Vec<EdgeSpot>,
    pub(super) rim: Edges,
    pub(super) rim_area: Region,
}

/// A piece of ground that deck or collar covers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Paved {
    pub cell: u32,
    /// Its area, m2.
    pub area: f64,
    /// What earth is brought to there, rise.
    pub level: f64,
    /// The bottom of the hole there, rise; infinite where there is none.
    pub hole: f64,
}

/// A piece of ground outside deck and collar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Beside {
    pub cell: u32,
    /// Its area, m2.
    pub area: f64,
    /// Distance from the edge, meters; infinite where no bank runs.
    pub run: f64,
    /// The deck's top at the place of the edge it is nearest to, rise.
    pub edge: f64,
    /// The way to that place, a unit vector.
    pub toward: Vector,
    /// The bottom of the hole there, rise; infinite where there is none.
    pub hole: f64,
}

/// A place on the edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct EdgeSpot {
    pub at: Point,
    /// The deck's top there, rise.
    pub top: f64,
}

impl Layout {
    /// The layout of a shell with its hole, to `reach` meters beyond the deck's edge, in cells
    /// of `cell` meters.
    pub fn new(
        shell: &Shell,
        works: &ConstructionSettings,
        hole: Option<&DigShape>,
        reach: f64,
        cell: f64,
    ) -> Self {
        let levels = Levels::of(works);
        let (low, high) = shell.rim.bounds().unwrap_or_default();
        let out = levels.edge() + reach;
        let out = Vector::new(out, out);
        let grid = Grid::covering(low + -out, high + out, cell);
        let coarse = grid.every(STRIDE);
        let mut layout = Self {
            levels,
            grid,
            paved: Vec::new(),
            beside: Vec::new(),
            edge: edge_spots(
                &offset_region(&shell.rim, levels.edge(), VOLUME_TOLERANCE),
                |_| levels.top(levels.edge()),
            ),
            coarse,
            runs: Vec::new(),
            reach,
            border: border(&shell.rim, &levels, reach - 2.0 * cell),
            rim: Edges::of_region(&shell.rim),
            rim_area: shell.rim.clone(),
        };
        layout.fill(hole);
        layout
    }

    /// Whether a bank from the deck's own edge stands at the layout's border, whatever lies before:
    /// then the layout is too small. `rise`: of the ground at a place.
    pub(super) fn is_outrun(&self, rise: impl Fn(Point) -> f64) -> bool {
        let fall = (self.reach - 2.0 * self.grid.cell) * self.levels.bank;
        self.border
            .iter()
            .any(|spot| (spot.top - rise(spot.at)).abs() > fall)
    }

    /// Fills the layout block by block: of the rim's edges only a few can be nearest in one.
    fn fill(&mut self, hole: Option<&DigShape>) {
        let grid = self.grid;
        self.runs = vec![f64::INFINITY; self.coarse.len()];
        let rim = core::mem::take(&mut self.rim);
        for first_row in (0..grid.rows).step_by(BLOCK) {
            for first_column in (0..grid.columns).step_by(BLOCK) {
                let rows = first_row..(first_row + BLOCK).min(grid.rows);
                let columns = first_column..(first_column + BLOCK).min(grid.columns);
                let half = (BLOCK - 1) as f64 * grid.cell / 2.0;
                let middle = grid.centre(first_column, first_row) + Vector::new(half, half);
                let radius = half * core::f64::consts::SQRT_2;
                let near = rim.around(middle, radius);
                // A block that the rim does not cross lies on one side of it.
                let side = (near.distance(middle) > radius).then(|| self.rim_area.contains(middle));
                for row in rows {
                    for column in columns.clone() {
                        let p = grid.centre(column, row);
                        let inside = side.unwrap_or_else(|| self.rim_area.contains(p));
                        if let Some(foot) = near.nearest(p) {
                            self.place(row, column, foot, inside, hole);
                        }
                    }
                }
            }
        }
        self.rim = rim;
    }

    /// A cell whose middle has this foot on the rim.
    fn place(
        &mut self,
        row: usize,
        column: usize,
        foot: Foot,
        inside: bool,
        hole: Option<&DigShape>,
    ) {
        let grid = self.grid;
        let out = if inside {
            -foot.distance
        } else {
            foot.distance
        };
        if row.is_multiple_of(STRIDE) && column.is_multiple_of(STRIDE) {
            let at = row / STRIDE * self.coarse.columns + column / STRIDE;
            if let Some(run) = self.runs.get_mut(at) {
                *run = out - self.levels.edge();
            }
        }
        let half = grid.cell * core::f64::consts::FRAC_1_SQRT_2;
        if out < -half || out > self.levels.edge() + self.reach {
            return;
        }
        let side = hole.map_or(Err(f64::INFINITY), |hole| {
            let (share, depth) = hole.within(grid.centre(column, row), grid.cell);
            if share > 1.0 - SLIVER {
                Err(-depth)
            } else if share < SLIVER {
                Err(f64::INFINITY)
            } else {
                Ok(Side {
                    share,
                    hole: -depth,
                })
            }
        });
        let toward = if inside { -foot.way } else { foot.way };
        self.cell((row * grid.columns + column) as u32, out, toward, side);
    }

    /// A cell by its parts in each zone: the edges between them run side by side. `side`: the
    /// upright side of the hole that crosses it, or else the bottom of the hole in all of it.
    fn cell(&mut self, cell: u32, out: f64, toward: Vector, side: Result<Side, f64>) {
        let size = self.grid.cell;
        let edges = [0.0, self.levels.collar, self.levels.edge(), f64::INFINITY];
        for (zone, (from, to)) in edges.iter().zip(edges.iter().skip(1)).enumerate() {
            let mut part = |from: f64, to: f64, hole: f64| {
                let within = |edge: f64| half_plane(toward, edge - out, size);
                let area = (within(to) - within(from)) * size * size;
                if to <= from || area <= 0.0 {
                    return;
                }
                // The middle of the stretch of the cell that lies between the two edges.
                let wide = (toward.x.abs() + toward.y.abs()) * size / 2.0;
                let middle = (from.max(out - wide) + to.min(out + wide)) / 2.0;
                self.piece(zone, cell, area, middle, toward, hole);
            };
            match side {
                Err(hole) => part(*from, *to, hole),
                Ok(side) => {
                    let edge = out + (side.share - 0.5) * size;
                    let edge = edge.clamp(*from, *to);
                    part(*from, edge, side.hole);
                    part(edge, *to, f64::INFINITY);
                }
            }
        }
    }

    fn piece(&mut self, zone: usize, cell: u32, area: f64, out: f64, toward: Vector, hole: f64) {
        let levels = self.levels;
        let level = match zone {
            0 => -levels.cap,
            1 => levels.subgrade(out),
            _ => {
                self.beside.push(Beside {
                    cell,
                    area,
                    run: out - levels.edge(),
                    edge: levels.top(levels.edge()),
                    toward,
                    hole,
                });
                return;
            }
        };
        self.paved.push(Paved {
            cell,
            area,
            level,
            hole,
        });
    }
}

/// An upright side of the hole that crosses a cell. It is taken to run along the rim, as sides do
/// but at corners between sides that are dug otherwise.
#[derive(Debug, Clone, Copy)]
struct Side {
    /// The share of the cell within it.
    share: f64,
    /// The bottom beside it, rise.
    hole: f64,
}

/// The share of a square cell that lies on the near side of a line: `distance` meters from the
/// cell's middle along `normal`, a unit vector.
pub(super) fn half_plane(normal: Vector, distance: f64, cell: f64) -> f64 {
    let (x, y) = (normal.x.abs() * cell / 2.0, normal.y.abs() * cell / 2.0);
    let (long, short) = if x > y { (x, y) } else { (y, x) };
    let corner = |left: f64| left * left / (8.0 * long * short);
    if distance >= long + short {
        1.0
    } else if distance <= -(long + short) {
        0.0
    } else if distance > long - short {
        1.0 - corner(long + short - distance)
    } else if distance < short - long {
        corner(long + short + distance)
    } else {
        0.5 + distance / (2.0 * long)
    }
}

/// Places `run` meters from the deck's edge, each with the deck's top at that edge.
fn border(rim: &Region, levels: &Levels, run: f64) -> Vec<EdgeSpot> {
    let ring = offset_region(rim, levels.edge() + run, DRAWING_TOLERANCE);
    // A screen only: grading itself looks at every cell.
    let spots = edge_spots(&ring, |_| levels.top(levels.edge()));
    spots.into_iter().step_by(4).collect()
}

/// Places along the rings of a region, no farther apart than `EDGE_STEP`.
pub(super) fn edge_spots(region: &Region, top: impl Fn(Point) -> f64) -> Vec<EdgeSpot> {
    let mut spots = Vec::new();
    let mut since = f64::INFINITY;
    for (a, b) in region.rings().flat_map(|ring| ring.edges()) {
        // Short chords of an arc share a place.
        let length = a.distance(b);
        since += length;
        if since < EDGE_STEP / 2.0 {
            continue;
        }
        since = 0.0;
        let steps = (length / EDGE_STEP).ceil().max(1.0);
        spots.extend((0..steps as u32).map(|k| {
            let at = a + (b - a) * (f64::from(k) / steps);
            EdgeSpot { at, top: top(at) }
        }));
    }
    spots
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_parts_a_cell_as_it_lies() {
        let slanted = Vector::new(0.6, 0.8);
        let upright = Vector::new(1.0, 0.0);
        assert_eq!(half_plane(upright, 0.03, 0.1), 0.8);
        assert_eq!(half_plane(slanted, 0.0, 0.1), 0.5);
        assert_eq!(half_plane(slanted, 0.07, 0.1), 1.0);
        // Summed over the parts of the cell.
        for distance in [-0.06, -0.02, 0.005, 0.03, 0.065] {
            let parts = (0..400).flat_map(|i| (0..400).map(move |k| (i, k)));
            let at = |i: i32| (f64::from(i) + 0.5) / 4000.0 - 0.05;
            let inside = parts.filter(|(i, k)| 0.6 * at(*i) + 0.8 * at(*k) <= distance);
            let share = inside.count() as f64 / 160_000.0;
            assert!((share - half_plane(slanted, distance, 0.1)).abs() < 2e-4);
        }
    }
}
