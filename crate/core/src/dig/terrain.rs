//! The ground in the shell's frame, drawn row by row over a grid.

use super::grid::Grid;
use crate::geom::{Point, Pose, Vector};
use crate::ground::{Facet, Ground, gradient};
use crate::math::{greater, lesser};

/// The triangles of the ground over a grid.
pub(crate) struct Terrain {
    triangles: Vec<Triangle>,
    /// Their places in the order in which rows meet them.
    order: Vec<usize>,
    /// How many of them have been met.
    met: usize,
    /// Those that the present row meets.
    active: Vec<usize>,
    /// The steepest triangle, rise per meter.
    steepest: f64,
    assumed: bool,
}

impl Terrain {
    /// The ground over a grid at a pose, measured from the rim.
    pub fn over(grid: &Grid, ground: &Ground, pose: &Pose, coping_elevation: f64) -> Self {
        let (low, high) = site_bounds(grid, pose);
        let triangles: Vec<Triangle> = ground
            .facets_near(low, high)
            .filter_map(|facet| Triangle::new(grid, facet, pose, coping_elevation))
            .collect();
        Self {
            order: by_first_row(&triangles, grid.rows),
            met: 0,
            active: Vec::new(),
            steepest: triangles
                .iter()
                .map(|t| t.slope.length())
                .fold(0.0, f64::max),
            assumed: triangles.iter().any(|t| t.assumed),
            triangles,
        }
    }

    /// The steepest ground over the grid, rise per meter.
    pub fn steepest(&self) -> f64 {
        self.steepest
    }

    /// Whether any of it was never surveyed.
    pub fn assumed(&self) -> bool {
        self.assumed
    }

    /// Draws a row: how far the ground stands above the rim in each cell, meters, and whether
    /// it is assumed there. Rows must come in order.
    pub fn draw(&mut self, grid: &Grid, row: usize, rises: &mut [f64], assumed: &mut [bool]) {
        while let Some(next) = self.order.get(self.met)
            && self
                .triangles
                .get(*next)
                .is_some_and(|t| t.rows.start <= row)
        {
            self.active.push(*next);
            self.met += 1;
        }
        let triangles = &self.triangles;
        let ends_after = |i: &usize| triangles.get(*i).is_some_and(|t| t.rows.end > row);
        self.active.retain(ends_after);
        for triangle in self.active.iter().filter_map(|i| triangles.get(*i)) {
            triangle.draw(grid, row, rises, assumed);
        }
    }
}

/// The places of triangles by the rows in which they begin; those that begin in one row keep the
/// ground's order.
fn by_first_row(triangles: &[Triangle], rows: usize) -> Vec<usize> {
    // Where those of each row begin.
    let mut next = vec![0; rows + 1];
    for triangle in triangles {
        if let Some(count) = next.get_mut(triangle.rows.start + 1) {
            *count += 1;
        }
    }
    let mut sum = 0;
    for start in &mut next {
        sum += *start;
        *start = sum;
    }
    let mut order = vec![0; triangles.len()];
    for (place, triangle) in triangles.iter().enumerate() {
        if let Some(next) = next.get_mut(triangle.rows.start) {
            if let Some(slot) = order.get_mut(*next) {
                *slot = place;
            }
            *next += 1;
        }
    }
    order
}

/// The upright rectangle of the site round a grid.
fn site_bounds(grid: &Grid, pose: &Pose) -> (Point, Point) {
    let (low, high) = grid.corners();
    let corners = [
        low,
        Point::new(high.x, low.y),
        high,
        Point::new(low.x, high.y),
    ]
    .map(|p| pose.site_from_shell(p));
    let [first, ..] = corners;
    corners.iter().fold((first, first), |(l, h), p| {
        (
            Point::new(l.x.min(p.x), l.y.min(p.y)),
            Point::new(h.x.max(p.x), h.y.max(p.y)),
        )
    })
}

/// One triangle in the shell's frame, ready to be drawn.
struct Triangle {
    sides: [Side; 3],
    /// A corner and its rise above the rim, meters.
    corner: Point,
    rise: f64,
    /// Rise per meter.
    slope: Vector,
    /// Least and greatest rise of its corners: a sliver's plane may be steep and its rounding
    /// coarse, but no point of it lies beyond its corners.
    range: (f64, f64),
    rows: core::ops::Range<usize>,
    assumed: bool,
}

impl Triangle {
    fn new(grid: &Grid, facet: &Facet, pose: &Pose, coping_elevation: f64) -> Option<Self> {
        let corners = facet.corners.map(|p| pose.shell_from_site(p));
        let rises = facet.elevations.map(|z| z - coping_elevation);
        let ([a, b, c], [za, zb, zc]) = (corners, rises);
        let rows = grid.rows_between(a.y.min(b.y).min(c.y), a.y.max(b.y).max(c.y));
        (!rows.is_empty()).then_some(Self {
            sides: [Side::new(a, b), Side::new(b, c), Side::new(c, a)],
            corner: a,
            rise: za,
            slope: gradient(&corners, &rises)?,
            range: (za.min(zb).min(zc), za.max(zb).max(zc)),
            rows,
            assumed: !facet.known,
        })
    }

    /// Draws the cells of a row whose centers lie in the triangle.
    fn draw(&self, grid: &Grid, row: usize, rises: &mut [f64], assumed: &mut [bool]) {
        let y = grid.first.y + row as f64 * grid.cell;
        let xs = self.sides.iter().filter_map(|side| side.x_at(y));
        let (low, high) = xs.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| {
            (lesser(l, x), greater(h, x))
        });
        if low >= high {
            return;
        }
        let columns = grid.columns_between(low, high);
        let from = grid.centre(columns.start, row) - self.corner;
        let start = self.rise + self.slope.dot(from);
        let step = self.slope.x * grid.cell;
        let (least, most) = self.range;
        if let Some(cells) = rises.get_mut(columns.clone()) {
            let mut along = 0.0;
            for rise in cells {
                *rise = bounded(start + step * along, least, most);
                along += 1.0;
            }
        }
        if let Some(cells) = assumed.get_mut(columns) {
            cells.fill(self.assumed);
        }
    }
}

/// A value held between two bounds. Plain comparisons: `f64::max` is a call in WebAssembly.
fn bounded(value: f64, least: f64, most: f64) -> f64 {
    if value < least {
        least
    } else if value > most {
        most
    } else {
        value
    }
}

/// A side of a triangle, walked upwards, so that both triangles that share it cross a row at
/// the same place to the last digit: every cell's center lies in exactly one of them.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ground::GroundRecord;

    /// Every cell drawn once, at the elevation that the ground itself tells.
    #[test]
    fn every_cell_gets_the_ground_at_its_centre() {
        let spots: Vec<[f64; 3]> = (0..60)
            .map(f64::from)
            .map(|i| {
                [
                    (i * 7.13) % 10.0 - 3.0,
                    (i * 3.77) % 9.0 - 4.0,
                    (i * 1.9) % 2.0,
                ]
            })
            .collect();
        let ground = Ground::check(&GroundRecord::of_spots(spots)).unwrap().0;
        let grid = Grid::covering(Point::new(-6.0, -5.0), Point::new(6.0, 5.0), 0.1);
        for mirrored in [false, true] {
            let pose = Pose::new(Point::new(1.0, 0.5), 0.8, mirrored);
            let mut terrain = Terrain::over(&grid, &ground, &pose, 0.25);
            assert!(terrain.assumed());
            for row in 0..grid.rows {
                let mut rises = vec![f64::NAN; grid.columns];
                let mut assumed = vec![false; grid.columns];
                terrain.draw(&grid, row, &mut rises, &mut assumed);
                for column in 0..grid.columns {
                    let p = pose.site_from_shell(grid.centre(column, row));
                    let height = ground.height(p);
                    assert!((rises[column] - (height.elevation - 0.25)).abs() < 1e-9);
                    assert_eq!(assumed[column], !height.known);
                }
            }
        }
    }
}
