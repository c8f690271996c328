//! The hole in the shell's own frame, before it meets any ground.

use std::borrow::Cow;
use std::cell::OnceCell;

use super::bottom::{Bottom, STEEPEST_SLOPE};
use super::grid::Grid;
use super::{contour, fill, influence, slabs};
use crate::geom::offset::widen;
use crate::geom::{DRAWING_TOLERANCE, Point, Region};
use crate::order;
use crate::shell::Shell;
use crate::site::DigSettings;

/// Side of a grid cell, metres: 2 in. Cells in which the surface bends are taken in parts, so
/// the cell decides the cost rather than the error (less than 0.01 % on every shape tried).
const CELL: f64 = 0.05;

/// The most cells of a grid: a hole that needs more (high ground, flat sides) gets larger
/// cells. Half a million take about ten milliseconds to fill.
const MOST_CELLS: f64 = 500_000.0;

/// The farthest a slope is followed above the rim, metres: higher than any bank on a lot.
const MOST_HEADROOM: f64 = 100.0;

/// A side is at least so many cells wide for every metre it rises, times a cell: steep ones are
/// drawn with smaller cells.
const STEEPEST_CELL: f64 = 4.0;

/// How far apart the ground is looked at along the rim, metres.
const RIM_STEP: f64 = 0.25;

/// The hole in the shell's own frame, before it meets any ground.
#[derive(Debug, Clone)]
pub struct DigShape {
    pub(super) bottom: Bottom,
    pub(super) grid: Grid,
    /// Share of each cell that is hole; empty for sloping sides, where it is 1 everywhere.
    pub(super) cover: Vec<f64>,
    /// That share times its mean depth below the rim, metres.
    pub(super) depths: Vec<f64>,
    /// The same of the part of an upright hole below the cap it was last asked for.
    capped: OnceCell<Capped>,
    headroom: f64,
    /// Steepest side that the standard lists for the soil, run per unit of rise.
    pub(super) steepest: f64,
    /// Where the ground is looked at besides: corners of the bottom and the rim, by rows.
    pub(super) spots: Vec<Spot>,
    /// Plan of the bottom with the ground kept free round it.
    floor: Region,
}

impl DigShape {
    /// Builds the hole of a shell. `headroom`: how far the ground may stand above the rim
    /// anywhere near the shell, metres (the slope is followed up that far). Where the ground
    /// turns out to stand higher, [`super::excavate`] says so: [`super::Dig::closed`].
    pub fn new(shell: &Shell, settings: &DigSettings, headroom: f64) -> Self {
        let bottom = Bottom::new(shell, settings);
        Self::over(bottom, settings.soil.side_slope(), headroom)
    }

    /// The hole over a bottom in soil that stands no steeper than `steepest`.
    pub(super) fn over(bottom: Bottom, steepest: f64, headroom: f64) -> Self {
        // Not a number is none.
        let headroom = if headroom > 0.0 {
            headroom.min(MOST_HEADROOM)
        } else {
            0.0
        };
        let floor = widen(&bottom.plan, bottom.reach, DRAWING_TOLERANCE);
        let mut cell = CELL;
        while bottom.slope > 0.0 && cell > bottom.slope / STEEPEST_CELL {
            cell /= 2.0;
        }
        // Followed a little beyond the headroom: ground that stands higher shows there.
        let beyond = |cell: f64| headroom + 3.0 * cell / bottom.slope.max(STEEPEST_SLOPE);
        let extent = |cell: f64| {
            let run = bottom.slope * (bottom.deepest() + beyond(cell)).max(0.0);
            extent(&bottom, bottom.reach + run)
        };
        while cells(extent(cell), cell) > MOST_CELLS {
            cell *= 2.0;
        }
        let (low, high) = extent(cell);
        let grid = Grid::covering(low, high, cell);
        let (cover, depths) = if bottom.slope > 0.0 {
            let depths = fill::fill(&bottom, beyond(cell), &grid);
            (Vec::new(), depths)
        } else {
            slabs::fill(&bottom, &grid, f64::NEG_INFINITY)
        };
        Self {
            spots: spots(&bottom, &grid),
            bottom,
            grid,
            cover,
            depths,
            capped: OnceCell::new(),
            headroom,
            steepest,
            floor,
        }
    }

    /// Share of hole in the cells of a row; `None` where it is 1 throughout.
    pub(super) fn cover_of(&self, row: usize) -> Option<&[f64]> {
        self.cover.get(self.row(row))
    }

    /// That share times the mean depth, metres.
    pub(super) fn depths_of(&self, row: usize) -> &[f64] {
        self.depths.get(self.row(row)).unwrap_or_default()
    }

    /// The part of an upright hole below a cap, `None` where that is all of it. Where a ledge
    /// lies above the cap and the floor beside it below, a cell holds some of either, and only
    /// the share that is deep enough counts. (Sloping sides are mended cell by cell.)
    pub(super) fn below(&self, cap_depth: f64) -> Option<Cow<'_, Capped>> {
        if self.bottom.slope > 0.0 || cap_depth <= self.bottom.shallowest() {
            return None;
        }
        let fill = || {
            let (cover, depths) = slabs::fill(&self.bottom, &self.grid, cap_depth);
            Capped {
                cap_depth,
                cover,
                depths,
            }
        };
        let kept = self.capped.get_or_init(fill);
        Some(if kept.cap_depth == cap_depth {
            Cow::Borrowed(kept)
        } else {
            Cow::Owned(fill())
        })
    }

    pub(super) fn row(&self, row: usize) -> core::ops::Range<usize> {
        row * self.grid.columns..(row + 1) * self.grid.columns
    }

    /// How far above the rim the slope was followed, metres.
    pub fn headroom(&self) -> f64 {
        self.headroom
    }

    /// Run of the sides per unit of rise; 0 for upright sides.
    pub fn side_slope(&self) -> f64 {
        self.bottom.slope
    }

    /// Greatest depth of the hole below the rim, base and shell included, metres.
    pub fn deepest(&self) -> f64 {
        self.bottom.deepest()
    }

    /// The foot of the sides in plan, shell frame: the footprint with wall and over-dig.
    pub fn floor(&self) -> &Region {
        &self.floor
    }

    /// The edge of the hole at a depth below the rim (negative above it): the exact contour,
    /// shell frame, arcs within `DRAWING_TOLERANCE`.
    pub fn contour(&self, depth: f64) -> Region {
        contour::contour(&self.bottom, depth, DRAWING_TOLERANCE)
    }

    /// Depth of the hole below the rim at a point of the shell frame, metres; minus infinity
    /// beside an upright side. Exact, from every edge of the bottom: for single points.
    pub fn depth(&self, at: Point) -> f64 {
        influence::depth_at(&self.bottom, at)
    }

    /// Bank volume of the hole under level ground `surface` metres above the rim, m3: the
    /// integral of the contours' areas, exact but for their chords (0.05 mm).
    pub fn level_volume(&self, surface: f64) -> f64 {
        contour::level_volume(&self.bottom, surface)
    }
}

/// The part of an upright hole below a cap, as shares of cells and those times their depths.
#[derive(Debug, Clone)]
pub(super) struct Capped {
    cap_depth: f64,
    pub cover: Vec<f64>,
    pub depths: Vec<f64>,
}

/// A place where the ground is looked at besides the sums.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub row: usize,
    pub column: usize,
    /// Depth of the bottom there, metres: a floor may be deepest at a corner that no cell's
    /// centre meets.
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
    order::sort_by(&mut spots, |a, b| (a.row, a.column).cmp(&(b.row, b.column)));
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

/// The rectangle round the bottom, `run` metres wider on every side.
fn extent(bottom: &Bottom, run: f64) -> (Point, Point) {
    let corners = bottom.pieces.iter().flat_map(|piece| piece.region.bounds());
    let whole = corners.reduce(|(low, high), (l, h)| {
        (
            Point::new(low.x.min(l.x), low.y.min(l.y)),
            Point::new(high.x.max(h.x), high.y.max(h.y)),
        )
    });
    let (low, high) = whole.unwrap_or_default();
    (
        Point::new(low.x - run, low.y - run),
        Point::new(high.x + run, high.y + run),
    )
}

fn cells((low, high): (Point, Point), cell: f64) -> f64 {
    (high.x - low.x) / cell * ((high.y - low.y) / cell)
}
