//! Facets drawn over a grid: the share of each cell that is hole, and how deep it is there.
//!
//! A cell across which the surface is a plane holds its depth at the middle. Every other one, where
//! facets meet, a side stands upright or the hole ends, is taken along a few lines across what
//! changes there: on each line the deepest of the facets is followed from end to end, exactly. So
//! upright walls are as exact as their place, and what bends is out by the bend within a part of a
//! cell.

use super::facets::{Facet, Facets};
use super::fill::{BEND, PARTS, UNREACHED};
use super::grid::{Crossings, Grid};
use super::stretch::{LEVELS, Part, Stretch, Sum};
use crate::geom::{Point, Region, Ring, Vector};
use crate::math::{greater, lesser};
use crate::shell::DepthPlane;

/// A floor moved sideways, and its depth there.
pub(super) struct Floor {
    pub region: Region,
    pub shift: Vector,
    pub plane: DepthPlane,
}

/// What lies below each of some levels in a cell: its share, and that times its mean depth, meters.
pub(super) type Cell = [(f64, f64); LEVELS];

/// The surface over a grid.
pub(super) struct Relief<'a> {
    grid: Grid,
    facets: &'a Facets,
    floors: Vec<Drawn>,
    /// At the cells' middles, meters.
    depths: Vec<f64>,
    /// The levels that are told apart, the shallowest first: nothing above it counts, meters.
    levels: [f64; LEVELS],
}

/// A floor along fine lines of either direction.
struct Drawn {
    across: Crossings,
    up: Crossings,
    plane: DepthPlane,
    bounds: (Point, Point),
}

impl Drawn {
    fn meets(&self, middle: Point, half: f64) -> bool {
        let (low, high) = self.bounds;
        low.x <= middle.x + half
            && low.y <= middle.y + half
            && high.x >= middle.x - half
            && high.y >= middle.y - half
    }
}

impl<'a> Relief<'a> {
    /// Draws facets and floors over a grid; what is shallower than the first of
    /// some levels is left out.
    pub fn new(grid: Grid, facets: &'a Facets, floors: &[Floor], levels: [f64; LEVELS]) -> Self {
        let mut relief = Self {
            grid,
            facets,
            floors: Vec::with_capacity(floors.len()),
            depths: vec![UNREACHED; grid.len()],
            levels,
        };
        for facet in &facets.all {
            relief.draw(facet);
        }
        let fine = grid.divided(PARTS);
        let (turned_fine, turned) = (turned_grid(&fine), |p: Point| Point::new(p.y, p.x));
        for floor in floors {
            let crossings = Crossings::of(&floor.region, floor.shift, &grid);
            for row in 0..grid.rows {
                for (low, high) in crossings.row(row) {
                    relief.deepen(row, low, high, |p| floor.plane.depth(p));
                }
            }
            let rings = floor.region.rings();
            let rings = rings.map(|ring| Ring(ring.0.iter().map(|p| turned(*p)).collect()));
            let across: Region = Region {
                polygons: rings
                    .flat_map(|ring| Region::from_ring(ring).polygons)
                    .collect(),
            };
            let shift = Vector::new(floor.shift.y, floor.shift.x);
            let (low, high) = floor.region.bounds().unwrap_or_default();
            relief.floors.push(Drawn {
                across: Crossings::of(&floor.region, floor.shift, &fine),
                up: Crossings::of(&across, shift, &turned_fine),
                plane: floor.plane,
                bounds: (low + floor.shift, high + floor.shift),
            });
        }
        relief
    }

    fn deepen(&mut self, row: usize, low: f64, high: f64, depth: impl Fn(Point) -> f64) {
        let columns = self.grid.columns_between(low, high);
        let start = row * self.grid.columns;
        let cells = start + columns.start..start + columns.end;
        let [least, ..] = self.levels;
        let Some(depths) = self.depths.get_mut(cells) else {
            return;
        };
        for (kept, column) in depths.iter_mut().zip(columns) {
            let found = depth(self.grid.centre(column, row));
            if found > *kept && found >= least {
                *kept = found;
            }
        }
    }

    fn draw(&mut self, facet: &Facet) {
        let outline = self.facets.outline(facet);
        let (low, high) = extent(outline, |p| p.y);
        for row in self.grid.rows_between(low, high) {
            let y = self.grid.first.y + row as f64 * self.grid.cell;
            if let Some((from, to)) = chord(outline, y, |p| (p.y, p.x)) {
                self.deepen(row, from, to, |p| facet.depth(p));
            }
        }
    }

    /// What every cell holds.
    pub fn cells(&self) -> Vec<Cell> {
        let whole = |depth: &f64| {
            self.levels.map(|level| match *depth > level {
                true => (1.0, *depth),
                false => (0.0, 0.0),
            })
        };
        let mut cells: Vec<Cell> = self.depths.iter().map(whole).collect();
        let uneven = self.uneven();
        let held = self.held(&uneven);
        let mut scan = Scan::default();
        for (cell, facets) in uneven.iter().zip(held.each()) {
            if let Some(slot) = cells.get_mut(*cell) {
                *slot = self.scanned(*cell, facets, &mut scan);
            }
        }
        cells
    }

    /// The cells across which the surface is no plane, ends, or passes the last of the levels.
    fn uneven(&self) -> Vec<usize> {
        let width = self.grid.columns;
        let mut found = Vec::new();
        for row in 1..self.grid.rows.max(1) - 1 {
            for column in 1..width.max(1) - 1 {
                let here = row * width + column;
                let depth = |i: usize| self.depths.get(i).copied().unwrap_or(UNREACHED);
                let twice = 2.0 * depth(here);
                let [.., last] = self.levels;
                let passes = |i: usize| (depth(i) >= last) != (depth(here) >= last);
                let uneven = [1, width, width + 1, width - 1].into_iter().any(|step| {
                    let (a, b) = (here - step, here + step);
                    (depth(a) + depth(b) - twice).abs() > BEND || passes(a) || passes(b)
                });
                if uneven {
                    found.push(here);
                }
            }
        }
        found
    }

    /// The facets and floors that touch each of some cells.
    fn held(&self, cells: &[usize]) -> HeldCells {
        let mut places = vec![u32::MAX; self.grid.len()];
        for (place, cell) in (0..).zip(cells) {
            if let Some(slot) = places.get_mut(*cell) {
                *slot = place;
            }
        }
        let mut pairs: Vec<(u32, u32)> = Vec::new();
        let mut spans = Vec::new();
        for (number, facet) in (0..).zip(&self.facets.all) {
            self.touched(self.facets.outline(facet), &mut spans);
            for (row, low, high) in &spans {
                let start = row * self.grid.columns;
                let cells = places.get(start + low..start + high).unwrap_or_default();
                let kept = cells.iter().filter(|place| **place != u32::MAX);
                pairs.extend(kept.map(|place| (*place, number)));
            }
        }
        HeldCells::of(&pairs, cells.len())
    }

    /// The cells that an outline touches, row by row.
    fn touched(&self, outline: &[Point], spans: &mut Vec<(usize, usize, usize)>) {
        let grid = &self.grid;
        let half = grid.cell / 2.0;
        let (low, high) = extent(outline, |p| p.y);
        spans.clear();
        for row in grid.rows_between(low - half, high + half + grid.cell) {
            let y = grid.first.y + row as f64 * grid.cell;
            let (bottom, top) = (y - half, y + half);
            let mut span = (f64::INFINITY, f64::NEG_INFINITY);
            let next = outline.iter().cycle().skip(1);
            for (a, b) in outline.iter().zip(next) {
                let (a, b) = if a.y <= b.y { (a, b) } else { (b, a) };
                if b.y < bottom || a.y > top {
                    continue;
                }
                let lean = if b.y > a.y {
                    (b.x - a.x) / (b.y - a.y)
                } else {
                    0.0
                };
                let from = if a.y < bottom {
                    a.x + (bottom - a.y) * lean
                } else {
                    a.x
                };
                let to = if b.y > top {
                    b.x - (b.y - top) * lean
                } else {
                    b.x
                };
                span = (
                    lesser(span.0, lesser(from, to)),
                    greater(span.1, greater(from, to)),
                );
            }
            if span.0 <= span.1 {
                let columns = grid.columns_between(span.0 - half, span.1 + half);
                // A cell that is touched at its very border as well.
                spans.push((row, columns.start, (columns.end + 1).min(grid.columns)));
            }
        }
    }

    /// A cell along lines across what changes there.
    fn scanned(&self, cell: usize, facets: &[u32], scan: &mut Scan) -> Cell {
        let grid = &self.grid;
        let (column, row) = (cell % grid.columns, cell / grid.columns);
        let [least, ..] = self.levels;
        let depth = |i: usize| {
            let depth = self.depths.get(i).copied().unwrap_or(UNREACHED);
            greater(depth, least)
        };
        let x = (depth(cell + 1) - depth(cell - 1)).abs();
        let y = (depth(cell + grid.columns) - depth(cell - grid.columns)).abs();
        let along_x = x >= y;
        let middle = grid.centre(column, row);
        let (on, aside, line) = match along_x {
            true => (middle.x, middle.y, row),
            false => (middle.y, middle.x, column),
        };
        let half = grid.cell / 2.0;
        let floors: Vec<&Drawn> = self
            .floors
            .iter()
            .filter(|floor| floor.meets(middle, half))
            .collect();
        let mut sum = Sum::below(self.levels);
        for part in 0..PARTS {
            let at = aside + ((part as f64 + 0.5) / PARTS as f64 - 0.5) * grid.cell;
            let place = |along: f64| match along_x {
                true => Point::new(along, at),
                false => Point::new(at, along),
            };
            scan.parts.clear();
            let mut add = |(from, to): (f64, f64), depth: &dyn Fn(Point) -> f64| {
                let (from, to) = (greater(from, on - half), lesser(to, on + half));
                if from < to {
                    let end = |place_on: f64| (place_on, depth(place(place_on)));
                    scan.parts.push(Part::new(end(from), end(to)));
                }
            };
            for facet in facets
                .iter()
                .filter_map(|i| self.facets.all.get(*i as usize))
            {
                let outline = self.facets.outline(facet);
                let axes = |p: Point| if along_x { (p.y, p.x) } else { (p.x, p.y) };
                if let Some(found) = chord(outline, at, axes) {
                    add(found, &|p| facet.depth(p));
                }
            }
            for floor in &floors {
                let crossings = if along_x { &floor.across } else { &floor.up };
                for found in crossings.row(line * PARTS + part) {
                    add(found, &|p| floor.plane.depth(p));
                }
            }
            scan.stretch.sum(&scan.parts, &mut sum);
        }
        let whole = grid.cell * PARTS as f64;
        let of_cell = |(length, depth): (f64, f64)| (lesser(length / whole, 1.0), depth / whole);
        sum.deeper.map(of_cell)
    }
}

/// What is kept from one line to the next.
#[derive(Default)]
struct Scan {
    parts: Vec<Part>,
    stretch: Stretch,
}

/// Numbers of facets by cells.
struct HeldCells {
    starts: Vec<u32>,
    facets: Vec<u32>,
}

impl HeldCells {
    fn of(pairs: &[(u32, u32)], cells: usize) -> Self {
        let mut starts = vec![0; cells + 1];
        for (place, _) in pairs {
            if let Some(count) = starts.get_mut(*place as usize + 1) {
                *count += 1;
            }
        }
        let mut sum = 0;
        for start in &mut starts {
            sum += *start;
            *start = sum;
        }
        let mut next = starts.clone();
        let mut facets = vec![0; pairs.len()];
        for (place, facet) in pairs {
            if let Some(next) = next.get_mut(*place as usize) {
                if let Some(slot) = facets.get_mut(*next as usize) {
                    *slot = *facet;
                }
                *next += 1;
            }
        }
        Self { starts, facets }
    }

    fn each(&self) -> impl Iterator<Item = &[u32]> {
        self.starts.array_windows().map(|[from, to]| {
            let range = *from as usize..*to as usize;
            self.facets.get(range).unwrap_or_default()
        })
    }
}

fn turned_grid(grid: &Grid) -> Grid {
    Grid {
        first: Point::new(grid.first.y, grid.first.x),
        cell: grid.cell,
        columns: grid.rows,
        rows: grid.columns,
    }
}

fn extent(outline: &[Point], of: impl Fn(&Point) -> f64) -> (f64, f64) {
    let all = outline.iter().map(of);
    all.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
        (lesser(l, v), greater(h, v))
    })
}

/// Where a line across crosses a convex outline: between which two places. `axes`: of a point, how
/// far aside it lies, and how far along.
fn chord(outline: &[Point], at: f64, axes: impl Fn(Point) -> (f64, f64)) -> Option<(f64, f64)> {
    let mut found = (f64::INFINITY, f64::NEG_INFINITY);
    let (mut aside, mut along) = axes(*outline.last()?);
    for p in outline {
        let (next_aside, next_along) = axes(*p);
        if (aside <= at) != (next_aside <= at) {
            let share = (at - aside) / (next_aside - aside);
            let place = along + (next_along - along) * share;
            found = (lesser(found.0, place), greater(found.1, place));
        }
        (aside, along) = (next_aside, next_along);
    }
    (found.0 < found.1).then_some(found)
}
