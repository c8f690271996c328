//! The hole cut into the ground at one placement.
//!
//! The triangles of the ground near the hole are moved into the shell's frame and drawn over
//! the depth grid row by row, every cell's centre in exactly one triangle. The cut of a cell is
//! what stands between ground and bottom. Where the two surfaces cross within a cell the cut
//! is taken exactly, as that of two planes (see [`super::kink`]).
//!
//! Sums run in four fixed lanes along each row: the same order everywhere, so native and
//! WebAssembly builds agree to the last bit, and wide registers are put to use.

use super::fill::UNREACHED;
use super::grid::Grid;
use super::kink::open_cell;
use super::shape::DigShape;
use super::{Dig, safety, top_edge};
use crate::geom::{Point, Pose, Region, Vector};
use crate::ground::{Facet, Ground, gradient};

/// Cuts the hole into the ground.
///
/// `cap_depth`: depth below the rim of the level up to which the hole is backfilled (the
/// underside of the collar), metres.
pub fn excavate(
    shape: &DigShape,
    ground: &Ground,
    pose: &Pose,
    coping_elevation: f64,
    cap_depth: f64,
) -> Dig {
    let terrain = Terrain::over(&shape.grid, ground, pose, coping_elevation);
    let cut = Cut {
        shape,
        terrain: &terrain,
        cap: -cap_depth,
    };
    let totals = cut.totals();
    let top_edge = cut.top_edge().posed(pose);
    let greatest_depth = cut.corner_depths().fold(totals.deepest, f64::max);
    let rises = cut.rim_rises();
    let mut dig = Dig {
        bank_volume: totals.bank,
        unsurveyed_volume: totals.unsurveyed,
        volume_below_cap: totals.below_cap,
        top_area: totals.open,
        top_edge,
        floor_area: shape.floor().area(),
        side_slope: shape.side_slope(),
        greatest_depth,
        bottom_elevation: coping_elevation - shape.deepest(),
        rim_above_ground: -rises.0,
        ground_above_rim: rises.1,
        area_above_ground: totals.above_ground,
        closed: totals.unclosed <= shape.headroom(),
        findings: Vec::new(),
    };
    dig.findings = safety::findings(&dig, shape.steepest);
    dig
}

/// The ground in the shell's frame, cell by cell.
struct Terrain {
    /// Ground above the rim at each cell's centre, metres.
    rises: Vec<f64>,
    /// Which cells lie on ground that nobody surveyed; `None` when none does.
    assumed: Option<Vec<bool>>,
}

impl Terrain {
    fn over(grid: &Grid, ground: &Ground, pose: &Pose, coping_elevation: f64) -> Self {
        let (low, high) = grid.corners();
        let corners = [
            low,
            Point::new(high.x, low.y),
            high,
            Point::new(low.x, high.y),
        ]
        .map(|p| pose.site_from_shell(p));
        let [first, rest @ ..] = corners;
        let (low, high) = rest.iter().fold((first, first), |(l, h), p| {
            (
                Point::new(l.x.min(p.x), l.y.min(p.y)),
                Point::new(h.x.max(p.x), h.y.max(p.y)),
            )
        });
        let facets: Vec<&Facet> = ground.facets_near(low, high).collect();
        let mut terrain = Self {
            rises: vec![0.0; grid.len()],
            assumed: facets
                .iter()
                .any(|facet| !facet.known)
                .then(|| vec![false; grid.len()]),
        };
        for facet in facets {
            terrain.draw(grid, facet, pose, coping_elevation);
        }
        terrain
    }

    /// Draws one triangle: every cell whose centre lies in it.
    fn draw(&mut self, grid: &Grid, facet: &Facet, pose: &Pose, coping_elevation: f64) {
        let corners = facet.corners.map(|p| pose.shell_from_site(p));
        let rises = facet.elevations.map(|z| z - coping_elevation);
        let Some(slope) = gradient(&corners, &rises) else {
            return;
        };
        let ([a, b, c], [za, zb, zc]) = (corners, rises);
        let (least, most) = (za.min(zb).min(zc), za.max(zb).max(zc));
        let (bottom, top) = (a.y.min(b.y).min(c.y), a.y.max(b.y).max(c.y));
        let sides = [(a, b), (b, c), (c, a)].map(|(p, q)| Side::new(p, q));
        for row in grid.rows_between(bottom, top) {
            let y = grid.first.y + row as f64 * grid.cell;
            let xs = sides.iter().filter_map(|side| side.x_at(y));
            let (low, high) = xs.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| {
                (l.min(x), h.max(x))
            });
            if low >= high {
                continue;
            }
            let columns = grid.columns_between(low, high);
            let start = row * grid.columns;
            let cells = start + columns.start..start + columns.end;
            let from = grid.centre(columns.start, row) - a;
            let base = za + slope.dot(from);
            let step = slope.x * grid.cell;
            for (rise, i) in self
                .rises
                .get_mut(cells.clone())
                .into_iter()
                .flatten()
                .zip(0_u32..)
            {
                *rise = (base + step * f64::from(i)).max(least).min(most);
            }
            let assumed = self.assumed.as_mut();
            if let Some(cells) = assumed.and_then(|assumed| assumed.get_mut(cells)) {
                cells.fill(!facet.known);
            }
        }
    }
}

/// A side of a triangle, walked upwards, so that both triangles that share it cross a row at
/// the same place to the last digit.
struct Side {
    low: Point,
    top: f64,
    lean: f64,
}

impl Side {
    fn new(a: Point, b: Point) -> Self {
        let upwards = (a.y, a.x) <= (b.y, b.x);
        let (low, high) = if upwards { (a, b) } else { (b, a) };
        Self {
            low,
            top: high.y,
            lean: (high.x - low.x) / (high.y - low.y),
        }
    }

    fn x_at(&self, y: f64) -> Option<f64> {
        let met = self.low.y <= y && y < self.top;
        met.then_some(self.low.x + (y - self.low.y) * self.lean)
    }
}

/// The sums over all cells.
#[derive(Debug, Clone, Copy, Default)]
struct Totals {
    bank: f64,
    unsurveyed: f64,
    below_cap: f64,
    open: f64,
    above_ground: f64,
    deepest: f64,
    /// How far the ground stands above the rim where a side was not followed far enough.
    unclosed: f64,
}

/// One row of everything, as slices of the same length.
struct Row<'a> {
    rises: &'a [f64],
    cover: &'a [f64],
    depths: &'a [f64],
}

struct Cut<'a> {
    shape: &'a DigShape,
    terrain: &'a Terrain,
    /// Level of the cap above the rim, metres (negative: below it).
    cap: f64,
}

/// Lanes in which sums run.
const LANES: usize = 4;

impl Cut<'_> {
    fn row(&self, row: usize) -> Row<'_> {
        let width = self.shape.grid.columns;
        let range = row * width..(row + 1) * width;
        Row {
            rises: self.terrain.rises.get(range.clone()).unwrap_or_default(),
            cover: self.shape.cover.get(range.clone()).unwrap_or_default(),
            depths: self.shape.depths.get(range).unwrap_or_default(),
        }
    }

    fn totals(&self) -> Totals {
        let mut sums = Totals::default();
        for row in 0..self.shape.grid.rows {
            self.add_row(&self.row(row), &mut sums);
            if let Some(assumed) = &self.terrain.assumed {
                self.add_unsurveyed(row, assumed, &mut sums);
            }
        }
        if self.shape.side_slope() > 0.0 {
            self.mend_kinks(&mut sums);
        }
        let cell = self.shape.grid.cell * self.shape.grid.cell;
        Totals {
            bank: sums.bank * cell,
            unsurveyed: sums.unsurveyed * cell,
            below_cap: sums.below_cap * cell,
            open: sums.open * cell,
            above_ground: sums.above_ground * cell,
            ..sums
        }
    }

    /// Adds one row, in lanes.
    fn add_row(&self, row: &Row<'_>, sums: &mut Totals) {
        let (cap, headroom) = (self.cap, self.shape.headroom());
        let mut lanes = [[0.0_f64; LANES]; 4];
        let mut deepest = [0.0_f64; LANES];
        let mut unclosed = [f64::NEG_INFINITY; LANES];
        let [bank, below, open, above] = &mut lanes;
        let mut add = |i: usize, rise: f64, cover: f64, depth: f64| {
            let cut = cover * rise + depth;
            let under_cap = cover * rise.min(cap) + depth;
            let share = if cut > 0.0 { cover } else { 0.0 };
            let in_air = cover * cap + depth > 0.0 && rise < cap;
            let beyond = cut > 0.0 && depth < -headroom * cover;
            if let (Some(bank), Some(below), Some(open), Some(above)) = (
                bank.get_mut(i),
                below.get_mut(i),
                open.get_mut(i),
                above.get_mut(i),
            ) {
                *bank += cut.max(0.0);
                *below += under_cap.max(0.0);
                *open += share;
                *above += if in_air { cover } else { 0.0 };
            }
            if let (Some(deepest), Some(unclosed)) = (deepest.get_mut(i), unclosed.get_mut(i)) {
                *deepest = deepest.max(cut);
                *unclosed = unclosed.max(if beyond { rise } else { f64::NEG_INFINITY });
            }
        };
        let (rises, rise_rest) = row.rises.as_chunks::<LANES>();
        let (cover, cover_rest) = row.cover.as_chunks::<LANES>();
        let (depths, depth_rest) = row.depths.as_chunks::<LANES>();
        for ((rises, cover), depths) in rises.iter().zip(cover).zip(depths) {
            for (i, ((rise, cover), depth)) in rises.iter().zip(cover).zip(depths).enumerate() {
                add(i, *rise, *cover, *depth);
            }
        }
        let rest = rise_rest.iter().zip(cover_rest).zip(depth_rest);
        for (i, ((rise, cover), depth)) in rest.enumerate() {
            add(i, *rise, *cover, *depth);
        }
        let [bank, below, open, above] = lanes.map(|lane| lane.iter().sum::<f64>());
        sums.bank += bank;
        sums.below_cap += below;
        sums.open += open;
        sums.above_ground += above;
        sums.deepest = deepest.iter().copied().fold(sums.deepest, f64::max);
        sums.unclosed = unclosed.iter().copied().fold(sums.unclosed, f64::max);
    }

    fn add_unsurveyed(&self, row: usize, assumed: &[bool], sums: &mut Totals) {
        let cells = self.row(row);
        let start = row * self.shape.grid.columns;
        let flags = assumed.get(start..).unwrap_or_default();
        for (((rise, cover), depth), assumed) in cells
            .rises
            .iter()
            .zip(cells.cover)
            .zip(cells.depths)
            .zip(flags)
        {
            if *assumed {
                sums.unsurveyed += (cover * rise + depth).max(0.0);
            }
        }
    }

    /// Replaces the cut of every cell in which bottom and ground, or bottom and cap, cross.
    fn mend_kinks(&self, sums: &mut Totals) {
        let cap = self.cap;
        let width = self.shape.grid.columns;
        for row in 1..self.shape.grid.rows.max(1) - 1 {
            let [below, here, above] = [row - 1, row, row + 1].map(|r| self.row(r));
            let assumed = self.terrain.assumed.as_ref();
            let flags = assumed
                .and_then(|a| a.get(row * width..))
                .unwrap_or_default();
            mend_row(
                &below,
                &here,
                &above,
                |rise| rise,
                |column, change, open| {
                    sums.bank += change;
                    sums.open += open;
                    if flags.get(column).copied().unwrap_or(false) {
                        sums.unsurveyed += change;
                    }
                },
            );
            mend_row(
                &below,
                &here,
                &above,
                |rise| rise.min(cap),
                |_, change, _| {
                    sums.below_cap += change;
                },
            );
        }
    }

    /// Where the sides meet the ground, shell frame.
    fn top_edge(&self) -> Region {
        let grid = &self.shape.grid;
        let at = |values: &[f64], i: usize| values.get(i).copied().unwrap_or(0.0);
        let cell = |column: usize, row: usize| {
            let i = row * grid.columns + column;
            let cover = at(&self.shape.cover, i);
            let cut = cover * at(&self.terrain.rises, i) + at(&self.shape.depths, i);
            (cover, cut)
        };
        if self.shape.side_slope() > 0.0 {
            return top_edge::positive_area(grid, |column, row| cell(column, row).1);
        }
        // Upright sides open the floor's own plan, unless some of it is in the air.
        let covered = self.shape.cover.iter().zip(&self.shape.depths);
        let whole = covered
            .zip(&self.terrain.rises)
            .all(|((cover, depth), rise)| *cover <= 0.0 || cover * rise + depth > 0.0);
        if whole {
            return self.shape.floor().clone();
        }
        top_edge::positive_area(grid, |column, row| {
            let (cover, cut) = cell(column, row);
            if cut > 0.0 { cover - 0.5 } else { -0.5 }
        })
    }

    /// Depth of the hole below the ground at every corner of the bottom, metres: a floor may
    /// be deepest at a corner that no cell's centre meets.
    fn corner_depths(&self) -> impl Iterator<Item = f64> + '_ {
        let corners = self.shape.bottom.pieces.iter().flat_map(|p| p.corners());
        corners.map(|(p, depth)| depth + self.rise_at(p))
    }

    /// Least and greatest rise of the ground above the rim along the outline, metres.
    fn rim_rises(&self) -> (f64, f64) {
        let corners = self.shape.bottom.pieces.iter().flat_map(|p| p.corners());
        let rises = corners.map(|(p, _)| self.rise_at(p));
        let (low, high) = rises.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), rise| {
            (l.min(rise), h.max(rise))
        });
        if low <= high { (low, high) } else { (0.0, 0.0) }
    }

    fn rise_at(&self, p: Point) -> f64 {
        let index = self.shape.grid.index_of(p);
        self.terrain.rises.get(index).copied().unwrap_or(0.0)
    }
}

/// Finds the cells of a row in which the cut changes sign and tells how much their cut and
/// their open share change when the two surfaces are taken as planes within the cell.
fn mend_row(
    below: &Row<'_>,
    here: &Row<'_>,
    above: &Row<'_>,
    ground: impl Fn(f64) -> f64,
    mut tell: impl FnMut(usize, f64, f64),
) {
    let value = |row: &Row<'_>, i: usize| {
        let (rise, depth) = (row.rises.get(i), row.depths.get(i));
        rise.zip(depth).map(|(rise, depth)| ground(*rise) + depth)
    };
    for column in 1..here.rises.len().max(1) - 1 {
        let (Some(cut), Some(left), Some(right), Some(down), Some(up)) = (
            value(here, column),
            value(here, column - 1),
            value(here, column + 1),
            value(below, column),
            value(above, column),
        ) else {
            continue;
        };
        // Beside a cell that the sides were not followed to there is no slope to speak of.
        if left.min(right).min(down).min(up) < UNREACHED / 2.0 {
            continue;
        }
        let slope = Vector::new((right - left) / 2.0, (up - down) / 2.0);
        if cut.abs() >= (slope.x.abs() + slope.y.abs()) / 2.0 {
            continue;
        }
        let (mean, share) = open_cell(cut, slope);
        let (counted, open) = if cut > 0.0 { (cut, 1.0) } else { (0.0, 0.0) };
        tell(column, mean - counted, share - open);
    }
}
