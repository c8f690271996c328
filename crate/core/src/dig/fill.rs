//! The depth grid of a hole with sloping sides.
//!
//! Every piece's interior and every edge is drawn over the part of the grid that it may govern
//! (see [`super::influence`] and [`super::zone`]), and each cell keeps the deepest. Where the
//! surface bends within a cell, at the foot of the sides and along the breaks, the value at the
//! center is not the mean over the cell: those cells are taken anew at 16 places.

use super::bottom::Bottom;
use super::grid::{Crossings, Grid};
use super::influence::{Cone, Edge, depth_at};
use super::piece::Piece;
use super::zone::{Extents, Zone};
use crate::geom::{Point, Ring};
use crate::shell::DepthPlane;

/// Depth of a cell that the hole does not reach, meters: far above any ground.
pub(super) const UNREACHED: f64 = -1e6;

/// A surface that bends by more than this between neighboring cells is taken anew, meters.
/// Gentler bends cost less than an eighth of it in the cells they pass.
pub(super) const BEND: f64 = 0.004;

/// Places taken along each side of a cell in which the surface bends: the error of such a cell
/// falls to a sixteenth.
pub(super) const PARTS: usize = 4;

/// No winner yet.
const NOBODY: u32 = u32::MAX;

/// The mean depth of the hole below the rim in every cell, followed up to `headroom` above it.
pub(super) fn fill(bottom: &Bottom, headroom: f64, grid: &Grid) -> Vec<f64> {
    let mut canvas = Canvas {
        grid: *grid,
        depths: vec![UNREACHED; grid.len()],
        winners: vec![NOBODY; grid.len()],
        makers: Vec::new(),
    };
    let cone = Cone::new(bottom.reach, bottom.slope);
    for (index, piece) in bottom.pieces.iter().enumerate() {
        canvas.interior(index, piece, cone);
        for ring in piece.region.rings() {
            canvas.edges(piece, ring, cone, headroom);
        }
    }
    canvas.smooth_bends(bottom);
    canvas.depths
}

/// What may govern a cell.
#[derive(Debug, Clone, Copy)]
enum Maker {
    /// The interior of the piece of this index, with its governing plane.
    Interior(usize, DepthPlane),
    /// An edge of a piece.
    Edge(Edge),
}

struct Canvas {
    grid: Grid,
    depths: Vec<f64>,
    winners: Vec<u32>,
    makers: Vec<Maker>,
}

impl Canvas {
    /// Keeps the deeper of what a stretch of a row holds and what `depth` gives for it.
    fn deepen(
        &mut self,
        row: usize,
        columns: core::ops::Range<usize>,
        maker: u32,
        depth: impl Fn(Point) -> f64,
    ) {
        let start = row * self.grid.columns;
        let range = start + columns.start..start + columns.end;
        let (Some(depths), Some(winners)) = (
            self.depths.get_mut(range.clone()),
            self.winners.get_mut(range),
        ) else {
            return;
        };
        for ((kept, winner), column) in depths.iter_mut().zip(winners).zip(columns) {
            let found = depth(self.grid.centre(column, row));
            if found > *kept {
                *kept = found;
                *winner = maker;
            }
        }
    }

    /// The interior of a piece. One steeper than the side slope is governed by its edges.
    fn interior(&mut self, index: usize, piece: &Piece, cone: Cone) {
        let (shift, plane) = piece.shifted(cone.reach);
        let maker = self.makers.len() as u32;
        self.makers.push(Maker::Interior(index, plane));
        let crossings = Crossings::of(&piece.region, shift, &self.grid);
        for row in 0..self.grid.rows {
            for (low, high) in crossings.row(row) {
                let columns = self.grid.columns_between(low, high);
                self.deepen(row, columns, maker, |p| plane.depth(p));
            }
        }
    }

    /// The edges of one ring of a piece.
    fn edges(&mut self, piece: &Piece, ring: &Ring, cone: Cone, headroom: f64) {
        let gradient = piece.plane.gradient * cone.slope;
        let with_depth = |p: Point| (p, piece.plane.depth(p));
        let edges: Vec<(Point, Point)> = ring.edges().filter(|(a, b)| a != b).collect();
        let before = edges.iter().cycle().skip(edges.len().max(1) - 1);
        let mut extents = Extents::default();
        for (&(a, b), &(c, _)) in edges.iter().zip(before) {
            let Some(edge) = Edge::new(with_depth(a), with_depth(b), cone) else {
                continue;
            };
            let deepest = piece.plane.depth(a).max(piece.plane.depth(b));
            let far = cone.reach + cone.slope * (deepest + headroom).max(0.0);
            let zone = Zone::of_edge(c, a, b, gradient, cone.reach, far, self.grid.cell);
            let maker = self.makers.len() as u32;
            self.makers.push(Maker::Edge(edge));
            zone.extents(&self.grid, &mut extents);
            for (row, low, high) in extents.iter() {
                let columns = self.grid.columns_between(low, high);
                self.deepen(row, columns, maker, |p| edge.depth(p));
            }
        }
    }

    /// Takes the mean over every cell in which the surface bends.
    fn smooth_bends(&mut self, bottom: &Bottom) {
        let fine = self.grid.divided(PARTS);
        let inside: Vec<Crossings> = bottom
            .pieces
            .iter()
            .map(|piece| Crossings::of(&piece.region, piece.shifted(bottom.reach).0, &fine))
            .collect();
        let mut means = Vec::new();
        let mut candidates = Vec::new();
        for row in 1..self.grid.rows.max(1) - 1 {
            for column in 1..self.grid.columns.max(1) - 1 {
                if !self.bends(column, row) {
                    continue;
                }
                self.candidates(column, row, &mut candidates);
                let index = row * self.grid.columns + column;
                means.push((
                    index,
                    self.mean(bottom, (column, row), &candidates, &fine, &inside),
                ));
            }
        }
        for (index, mean) in means {
            if let Some(depth) = self.depths.get_mut(index) {
                *depth = mean;
            }
        }
    }

    /// Whether the surface bends at a cell, in any of four directions.
    fn bends(&self, column: usize, row: usize) -> bool {
        let width = self.grid.columns;
        let here = row * width + column;
        let depth = |i: usize| self.depths.get(i).copied().unwrap_or(UNREACHED);
        let twice = 2.0 * depth(here);
        if twice <= UNREACHED {
            return false;
        }
        [1, width, width + 1, width - 1].into_iter().any(|step| {
            let (a, b) = (depth(here - step), depth(here + step));
            (a + b - twice).abs() > BEND && a > UNREACHED && b > UNREACHED
        })
    }

    /// Everything that governs a cell or one of its neighbors, ascending.
    fn candidates(&self, column: usize, row: usize, out: &mut Vec<u32>) {
        out.clear();
        for r in row - 1..=row + 1 {
            let start = r * self.grid.columns + column - 1;
            for winner in self.winners.get(start..start + 3).unwrap_or_default() {
                if let Err(at) = out.binary_search(winner) {
                    out.insert(at, *winner);
                }
            }
        }
    }

    fn mean(
        &self,
        bottom: &Bottom,
        (column, row): (usize, usize),
        candidates: &[u32],
        fine: &Grid,
        inside: &[Crossings],
    ) -> f64 {
        // The hole is nowhere steeper than its sides. A place that seems to be lies in a strip
        // narrower than a cell, whose maker won no cell's center: there all edges are asked.
        let here = self.depths.get(row * self.grid.columns + column);
        let least = here.map_or(UNREACHED, |d| d - self.grid.cell / bottom.slope);
        let mut sum = 0.0;
        for r in row * PARTS..(row + 1) * PARTS {
            for c in column * PARTS..(column + 1) * PARTS {
                let p = fine.centre(c, r);
                let depth = |i: &u32| match self.makers.get(*i as usize) {
                    Some(Maker::Edge(edge)) => edge.depth(p),
                    Some(Maker::Interior(piece, plane)) => {
                        let covers = inside.get(*piece).is_some_and(|c| c.inside(r, p.x));
                        if covers { plane.depth(p) } else { UNREACHED }
                    }
                    None => UNREACHED,
                };
                let best = candidates.iter().map(depth).fold(UNREACHED, f64::max);
                sum += if best < least {
                    depth_at(bottom, p)
                } else {
                    best
                };
            }
        }
        sum / (PARTS * PARTS) as f64
    }
}

#[cfg(test)]
mod tests {
    use super::super::shape::DigShape;
    use super::*;
    use crate::shell::{Shell, catalogue};
    use crate::site::DigSettings;

    /// Every cell but those in which the surface bends holds the depth that all edges together
    /// give for its center: no zone is too small.
    #[test]
    fn no_edge_is_tried_on_too_few_cells() {
        let steep = 3.0;
        for (index, record) in catalogue::all().iter().enumerate() {
            let shell = Shell::check(record).unwrap().0;
            let (over_dig, slope) = [(0.0, 1.0), (0.3, 0.3), (0.0, 0.1), (0.2, steep)][index % 4];
            let settings = DigSettings {
                over_dig,
                side_slope: Some(slope),
                ..DigSettings::default()
            };
            let shape = DigShape::new(&shell, &settings, 0.5);
            let grid = shape.grid;
            let bend = 0.75 * grid.cell * (1.0 / slope + 0.5);
            for cell in (0..grid.len()).step_by(53) {
                let p = grid.centre(cell % grid.columns, cell / grid.columns);
                let exact = depth_at(&shape.hole.bottom, p);
                let held = shape.cells().depths[cell];
                if exact >= -0.5 {
                    let off = (held - exact).abs();
                    assert!(off < bend, "{} at {p:?}: {held}, not {exact}", record.name);
                }
            }
        }
    }
}
