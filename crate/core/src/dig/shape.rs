//! The hole in the shell's own frame, before it meets any ground.

use std::borrow::Cow;
use std::cell::OnceCell;

use super::bottom::{Bottom, STEEPEST_SLOPE};
use super::cells::{Capped, Cells};
use super::grid::Grid;
use super::hole::Hole;
use super::profile::Stand;
use super::sides::BySide;
use crate::geom::{Point, Region, Ring};
use crate::order::put_in_order_by;
use crate::shell::Shell;
use crate::site::DigSettings;

/// Side of a grid cell, meters: 2 in. Cells in which the surface bends are taken in parts, so
/// the cell decides the cost rather than the error (less than 0.01 % on every shape tried).
const CELL: f64 = 0.05;

/// The most cells of a grid: a hole that needs more (high ground, flat sides) gets larger
/// cells. Half a million take about ten milliseconds to fill.
const MOST_CELLS: f64 = 500_000.0;

/// The farthest a slope is followed above the rim, meters: higher than any bank on a lot.
const MOST_HEADROOM: f64 = 100.0;

/// A side is at least so many cells wide for every meter it rises, times a cell: steep ones are
/// drawn with smaller cells.
const STEEPEST_CELL: f64 = 4.0;

/// How far apart the ground is looked at along the rim, meters.
const RIM_STEP: f64 = 0.25;

/// The hole in the shell's own frame, before it meets any ground.
#[derive(Debug, Clone)]
pub struct DigShape {
    pub(super) hole: Hole,
    pub(super) grid: Grid,
    /// How far above the rim the grid is filled: a little beyond the headroom, meters.
    above: f64,
    /// The hole as that grid, filled when it is first asked for.
    cells: OnceCell<Cells>,
    /// A contour with the depth of it: that of the cap, which no placement changes.
    contour: OnceCell<(f64, Region)>,
    headroom: f64,
    /// The side and layer that stand steepest for their soil.
    pub(super) boldest: Stand,
    /// Where the ground is looked at besides: corners of the bottom and the rim, by rows.
    pub(super) spots: Vec<Spot>,
    /// Plan of the bottom with the ground kept free round it.
    floor: Region,
}

impl DigShape {
    /// Builds the hole of a shell. `headroom`: how far the ground may stand above the rim
    /// anywhere near the shell, meters (the slope is followed up that far). Where the ground
    /// turns out to stand higher, the cut says so: [`super::Dig::closed`].
    pub fn new(shell: &Shell, settings: &DigSettings, headroom: f64) -> Self {
        let (hole, boldest) = Hole::of(shell, settings);
        Self::over(hole, boldest, headroom)
    }

    /// A hole with its grid.
    pub(super) fn over(hole: Hole, boldest: Stand, headroom: f64) -> Self {
        let headroom = bounded(headroom);
        let sloping = hole.profile().steepest_sloping();
        let mut cell = CELL;
        while sloping > 0.0 && cell > sloping / STEEPEST_CELL {
            cell /= 2.0;
        }
        // Followed a little beyond the headroom: ground that stands higher shows there.
        let above = |cell: f64| match sloping > 0.0 {
            true => headroom + 3.0 * cell / sloping.max(STEEPEST_SLOPE),
            false => headroom,
        };
        let mut bounds = hole.bounds(above(cell));
        while count(bounds, cell) > MOST_CELLS {
            cell *= 2.0;
            bounds = hole.bounds(above(cell));
        }
        let grid = Grid::covering(bounds.0, bounds.1, cell);
        Self {
            spots: spots(&hole.bottom, &grid),
            floor: hole.floor(),
            above: above(cell),
            hole,
            grid,
            cells: OnceCell::new(),
            contour: OnceCell::new(),
            headroom,
            boldest,
        }
    }

    /// The hole as a grid.
    pub(super) fn cells(&self) -> &Cells {
        let fill = || self.hole.fill(&self.grid, self.above, None);
        self.cells.get_or_init(fill)
    }

    /// Share of hole in the cells of a row; `None` where it is 1 throughout.
    pub(super) fn cover_of(&self, row: usize) -> Option<&[f64]> {
        self.cells().cover.get(self.row(row))
    }

    /// That share times the mean depth, meters.
    pub(super) fn depths_of(&self, row: usize) -> &[f64] {
        self.cells().depths.get(self.row(row)).unwrap_or_default()
    }

    /// The part below a cap of a hole kept in shares, `None` where that is all of it. Where a
    /// ledge lies above the cap and the floor beside it below, a cell holds some of either, and
    /// only the share that is deep enough counts. (Where all sides slope alike cells are mended
    /// one by one.)
    pub(super) fn below(&self, cap_depth: f64) -> Option<Cow<'_, Capped>> {
        if !self.hole.is_cut_by(cap_depth) {
            return None;
        }
        let fill = || self.hole.fill(&self.grid, self.above, Some(cap_depth));
        // The first cap that is asked for is filled with the rest.
        let kept = self.cells.get_or_init(fill).capped.as_ref();
        match kept.filter(|kept| kept.cap_depth == cap_depth) {
            Some(kept) => Some(Cow::Borrowed(kept)),
            None => fill().capped.map(Cow::Owned),
        }
    }

    pub(super) fn row(&self, row: usize) -> core::ops::Range<usize> {
        row * self.grid.columns..(row + 1) * self.grid.columns
    }

    /// How far above the rim the slope was followed, meters.
    pub fn headroom(&self) -> f64 {
        self.headroom
    }

    /// Whether cells are kept by their share of hole: where any side is upright or unlike others.
    pub(super) fn in_shares(&self) -> bool {
        self.hole.in_shares()
    }

    /// The steepest run of a side, or between two sides, that is not upright; 0 when all are.
    pub(super) fn steepest_sloping(&self) -> f64 {
        self.hole.profile().steepest_between()
    }

    /// Run of the sides per unit of rise, side by side: the steepest of the layers of soil that
    /// the hole passes (an upright part below, see [`Self::upright_toe`], is not among them);
    /// 0 for an upright side.
    pub fn slopes(&self) -> BySide {
        self.hole.profile().steepest()
    }

    /// Height of the part at the foot of the sides that is kept upright all round, meters.
    pub fn upright_toe(&self) -> f64 {
        let from = self.hole.profile().upright_below();
        from.map_or(0.0, |depth| (self.deepest() - depth).max(0.0))
    }

    /// Greatest depth of the hole below the rim, base and shell included, meters.
    pub fn deepest(&self) -> f64 {
        self.hole.deepest()
    }

    /// The foot of the sides in plan, shell frame: the footprint with wall and over-dig.
    pub fn floor(&self) -> &Region {
        &self.floor
    }

    /// Plan of what a hole opens whose sides stand upright, however high.
    pub(super) fn opening(&self) -> Region {
        match self.hole.is_upright() {
            true => self.floor.clone(),
            false => self.contour(-self.headroom),
        }
    }

    /// The edge of the hole at a depth below the rim (negative above it): the exact contour,
    /// shell frame, arcs within `DRAWING_TOLERANCE`.
    pub fn contour(&self, depth: f64) -> Region {
        self.hole.contour(depth)
    }

    /// The contour at the depth of the cap, kept from one placement to the next.
    pub(super) fn contour_of_cap(&self, depth: f64) -> Cow<'_, Region> {
        let (kept, contour) = self.contour.get_or_init(|| (depth, self.contour(depth)));
        if *kept == depth {
            Cow::Borrowed(contour)
        } else {
            Cow::Owned(self.contour(depth))
        }
    }

    /// Depth of the hole below the rim at a point of the shell frame, meters; minus infinity
    /// beside an upright side. Exact, from every edge of the bottom: for single points. (Where sides
    /// are not alike it is narrowed down between contours, to 0.1 mm, from 100 m above the rim.)
    pub fn depth(&self, at: Point) -> f64 {
        self.hole.depth(at)
    }

    /// The share of a square of the shell's frame that is hole, and the mean depth there below the
    /// rim, meters, from the grid: for many places. Sides are followed as far above the rim as the
    /// headroom; beyond that there is no hole.
    pub(crate) fn within(&self, middle: Point, side: f64) -> (f64, f64) {
        let (grid, cells) = (&self.grid, self.cells());
        let span = |c: f64, first: f64, count: usize| {
            let at = (c - first) / grid.cell;
            let half = side / grid.cell / 2.0;
            let (low, high) = (at - half, at + half);
            let from = (low + 0.5).floor().max(0.0) as usize;
            let to = ((high + 0.5).ceil().max(0.0) as usize).min(count);
            (from..to.max(from))
                .map(move |i| {
                    let i = i as f64;
                    high.min(i + 0.5) - low.max(i - 0.5)
                })
                .enumerate()
                .map(move |(k, weight)| (from + k, weight))
        };
        let (mut share, mut sum) = (0.0, 0.0);
        for (row, down) in span(middle.y, grid.first.y, grid.rows) {
            for (column, across) in span(middle.x, grid.first.x, grid.columns) {
                let cell = row * grid.columns + column;
                let depth = cells.depths.get(cell).copied().unwrap_or(f64::NEG_INFINITY);
                // Cells of sloping sides are hole throughout, as far as they were followed.
                let cover = match cells.cover.get(cell) {
                    Some(cover) => *cover,
                    None if depth > -MOST_HEADROOM => 1.0,
                    None => continue,
                };
                share += cover * down * across;
                sum += depth * down * across;
            }
        }
        let mean = if share > 0.0 {
            sum / share
        } else {
            f64::NEG_INFINITY
        };
        (share * grid.cell * grid.cell / (side * side), mean)
    }

    /// The depths below the rim at which the hole's sections may bend or jump, meters: where
    /// pieces of the bottom begin and end, and where layers, bench and upright part do.
    pub fn breaks(&self) -> Vec<f64> {
        let layers = self.hole.layers(-self.headroom);
        layers.iter().map(|layer| layer.bottom).collect()
    }

    /// Bank volume of the hole under level ground `surface` meters above the rim, m3: the
    /// integral of the contours' areas, exact but for their chords (0.05 mm).
    pub fn level_volume(&self, surface: f64) -> f64 {
        self.volumes_below(&[-surface]).iter().sum()
    }

    /// Bank volumes of the hole below each of some levels, depths under the rim, m3: as
    /// [`Self::level_volume`], every contour taken once for all of them.
    pub fn volumes_below(&self, depths: &[f64]) -> Vec<f64> {
        self.hole.volumes_below(depths)
    }
}

/// The foot of the sides in plan, shell frame, without the rest of the hole.
pub fn foot(shell: &Shell, settings: &DigSettings) -> Region {
    Hole::of(shell, settings).0.floor()
}

/// The edge of a shell's hole at a depth below the rim (negative above it), without the rest of
/// the hole: see [`DigShape::contour`].
pub fn edge_at(shell: &Shell, settings: &DigSettings, depth: f64) -> Region {
    Hole::of(shell, settings).0.contour(depth)
}

/// Edges of a shell's hole (see [`DigShape::contour`]) from `headroom` meters above the rim down
/// to its bottom, each with its depth below the rim: at most `step` meters apart, and just above
/// and just below every depth at which the sides or the bottom bend.
pub fn contours(
    shell: &Shell,
    settings: &DigSettings,
    headroom: f64,
    step: f64,
) -> Vec<(f64, Region)> {
    let (hole, _) = Hole::of(shell, settings);
    let depths = depths(&hole, headroom, step).into_iter();
    depths.map(|depth| (depth, hole.contour(depth))).collect()
}

/// The same edges not yet united: at each depth sets of rings, any of which winds a positive number of times about
/// a place within the edge. They are had many times faster, and a line through them is cut as fast (see
/// [`crate::geom::winding`]).
pub fn wound_contours(
    shell: &Shell,
    settings: &DigSettings,
    headroom: f64,
    step: f64,
) -> Vec<(f64, Vec<Vec<Ring>>)> {
    let (hole, _) = Hole::of(shell, settings);
    let depths = depths(&hole, headroom, step).into_iter();
    depths.map(|depth| (depth, hole.wound(depth))).collect()
}

/// Depths below the rim from `headroom` meters above it down to the bottom: at most `step` meters apart, and just
/// above and just below every bend.
pub(super) fn depths(hole: &Hole, headroom: f64, step: f64) -> Vec<f64> {
    let mut depths = Vec::new();
    let layers = hole.layers(-bounded(headroom)).into_iter();
    for layer in layers.filter(|layer| layer.bottom - layer.top > 4.0 * BESIDE) {
        let height = layer.bottom - layer.top;
        let count = (height / step).ceil().max(1.0);
        for k in 0..=count as u32 {
            let share = (f64::from(k) / count).clamp(BESIDE / height, 1.0 - BESIDE / height);
            depths.push(layer.top + height * share);
        }
    }
    depths
}

/// How far above and below a bend the edge is asked for, meters; thinner layers are left out.
const BESIDE: f64 = 1e-6;

/// A headroom that is a number, not below 0 nor too great.
fn bounded(headroom: f64) -> f64 {
    if headroom > 0.0 {
        headroom.min(MOST_HEADROOM)
    } else {
        0.0
    }
}

/// A place where the ground is looked at besides the sums.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub row: usize,
    pub column: usize,
    /// Depth of the bottom there, meters: a floor may be deepest at a corner that no cell's
    /// center meets.
    pub depth: f64,
    pub on_rim: bool,
}

/// The corners of the bottom, and the outline at most `RIM_STEP` apart, by rows.
fn spots(bottom: &Bottom, grid: &Grid) -> Vec<Spot> {
    let spot = |p: Point, depth: f64, on_rim: bool| {
        let (column, row) = grid.place_of(p);
        Spot {
            row,
            column,
            depth,
            on_rim,
        }
    };
    let corners = bottom.pieces.iter().flat_map(|piece| piece.corners());
    let mut spots: Vec<Spot> = corners.map(|(p, depth)| spot(p, depth, false)).collect();
    for (a, b) in bottom.plan.rings().flat_map(|ring| ring.edges()) {
        let steps = (a.distance(b) / RIM_STEP).ceil();
        let along = (0..steps as u32).map(|k| a + (b - a) * (f64::from(k) / steps));
        spots.extend(along.map(|p| spot(p, f64::NEG_INFINITY, true)));
    }
    put_in_order_by(&mut spots, |spot| (spot.row, spot.column));
    // Of the corners in one cell the deepest tells all.
    spots.dedup_by(|b, a| {
        let same = (a.row, a.column) == (b.row, b.column);
        if same {
            a.depth = a.depth.max(b.depth);
            a.on_rim |= b.on_rim;
        }
        same
    });
    spots
}

/// Cells of a grid over a rectangle.
fn count((low, high): (Point, Point), cell: f64) -> f64 {
    (high.x - low.x) / cell * ((high.y - low.y) / cell)
}
