//! Where a field of values changes sign: closed lines with the positive side to their left.

use super::grid::Grid;
use crate::geom::{Point, Polygon, Region, Ring};

/// Points of the line that lie within this of the chord between kept ones are left out,
/// meters: a stake is not set nearer.
const SIMPLER: f64 = 0.005;

/// The area where the field is positive. `values` gives the field at every cell's center, row
/// by row; beyond the grid it counts as negative.
pub(crate) fn positive_area(grid: &Grid, values: &[f64]) -> Region {
    let mut tracer = Tracer {
        grid,
        values,
        walked: vec![false; grid.len()],
    };
    nested(tracer.rings().into_iter().map(simplified).collect())
}

/// A step of the walk: the square entered (by its low corner) and the heading.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Step {
    column: usize,
    row: usize,
    heading: Heading,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Heading {
    Up,
    Left,
    Down,
    Right,
}

impl Heading {
    fn left(self) -> Self {
        match self {
            Self::Up => Self::Left,
            Self::Left => Self::Down,
            Self::Down => Self::Right,
            Self::Right => Self::Up,
        }
    }

    fn right(self) -> Self {
        self.left().left().left()
    }

    /// The corners of a square seen by someone who enters it: near left, near right, far left,
    /// far right, as offsets from its low corner.
    fn corners(self) -> [(usize, usize); 4] {
        match self {
            Self::Up => [(0, 0), (1, 0), (0, 1), (1, 1)],
            Self::Right => [(0, 1), (0, 0), (1, 1), (1, 0)],
            Self::Down => [(1, 1), (0, 1), (1, 0), (0, 0)],
            Self::Left => [(1, 0), (1, 1), (0, 0), (0, 1)],
        }
    }
}

struct Tracer<'a> {
    grid: &'a Grid,
    values: &'a [f64],
    /// Whether the upward crossing right of a cell has been walked.
    walked: Vec<bool>,
}

impl Tracer<'_> {
    fn value(&self, column: usize, row: usize) -> f64 {
        let inside = column < self.grid.columns && row < self.grid.rows;
        let index = row * self.grid.columns + column;
        let value = self.values.get(index).copied().filter(|_| inside);
        value.unwrap_or(-1.0)
    }

    fn rings(&mut self) -> Vec<Ring> {
        let mut rings = Vec::new();
        let rows = self.values.chunks(self.grid.columns.max(1)).enumerate();
        for (row, values) in rows {
            let next = values.iter().skip(1).chain(&[-1.0]);
            for (column, (here, right)) in values.iter().zip(next).enumerate() {
                let crosses = *here > 0.0 && *right <= 0.0;
                let index = row * self.grid.columns + column;
                if crosses && self.walked.get(index) == Some(&false) {
                    rings.push(self.walk(column, row));
                }
            }
        }
        rings
    }

    /// Walks one line from the upward crossing right of a cell until it comes back.
    fn walk(&mut self, column: usize, row: usize) -> Ring {
        let start = Step {
            column,
            row,
            heading: Heading::Up,
        };
        let mut points = Vec::new();
        let mut step = start;
        // A line passes each square at most twice: the bound is never met.
        for _ in 0..4 * self.grid.len() {
            if step.heading == Heading::Up {
                let index = step.row * self.grid.columns + step.column;
                if let Some(walked) = self.walked.get_mut(index) {
                    *walked = true;
                }
            }
            points.push(self.crossing(step));
            let Some(next) = self.next(step) else { break };
            if next == start {
                break;
            }
            step = next;
        }
        Ring(points)
    }

    /// The corners of the square a step enters, with their values.
    fn seen(&self, step: Step) -> [(Point, f64); 4] {
        step.heading.corners().map(|(dc, dr)| {
            let (column, row) = (step.column + dc, step.row + dr);
            (self.grid.centre(column, row), self.value(column, row))
        })
    }

    /// Where the line crosses the side through which a step enters.
    fn crossing(&self, step: Step) -> Point {
        let [(left, inside), (right, outside), ..] = self.seen(step);
        left + (right - left) * (inside / (inside - outside)).clamp(0.0, 1.0)
    }

    fn next(&self, step: Step) -> Option<Step> {
        let corners = self.seen(step);
        let [_, _, (_, far_left), (_, far_right)] = corners;
        let heading = match (far_left > 0.0, far_right > 0.0) {
            (true, false) => step.heading,
            (true, true) => step.heading.right(),
            (false, false) => step.heading.left(),
            // A saddle: the middle decides.
            (false, true) if corners.iter().map(|(_, v)| v).sum::<f64>() > 0.0 => {
                step.heading.right()
            }
            (false, true) => step.heading.left(),
        };
        let (column, row) = (step.column, step.row);
        let (column, row) = match heading {
            Heading::Up => (column, row + 1),
            Heading::Down => (column, row.checked_sub(1)?),
            Heading::Right => (column + 1, row),
            Heading::Left => (column.checked_sub(1)?, row),
        };
        Some(Step {
            column,
            row,
            heading,
        })
    }
}

/// The ring with every point left out that the chords pass within `SIMPLER` meters.
fn simplified(ring: Ring) -> Ring {
    let points = &ring.0;
    let Some(&first) = points.first() else {
        return ring;
    };
    let away = |p: &Point| first.distance(*p);
    let farthest = (0..points.len())
        .max_by(|&a, &b| {
            let at = |i: usize| points.get(i).map_or(0.0, away);
            at(a).total_cmp(&at(b))
        })
        .unwrap_or(0);
    let mut keep = vec![false; points.len()];
    for index in [0, farthest] {
        if let Some(kept) = keep.get_mut(index) {
            *kept = true;
        }
    }
    // The two halves of the ring, each from one kept point to the next.
    let mut open = vec![(0, farthest), (farthest, points.len())];
    while let Some((start, end)) = open.pop() {
        let (Some(&a), Some(&b)) = (points.get(start), points.get(end % points.len())) else {
            continue;
        };
        let off = |p: Point| {
            let chord = b - a;
            match chord.unit() {
                Some(along) => along.cross(p - a).abs(),
                None => a.distance(p),
            }
        };
        let between = (start + 1..end).filter_map(|i| points.get(i).map(|p| (i, off(*p))));
        let worst = between.max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((index, distance)) = worst
            && distance > SIMPLER
        {
            if let Some(kept) = keep.get_mut(index) {
                *kept = true;
            }
            open.extend([(start, index), (index, end)]);
        }
    }
    let kept = points.iter().zip(&keep).filter(|(_, keep)| **keep);
    Ring(kept.map(|(p, _)| *p).collect())
}

/// Rings into polygons: clockwise rings are holes of the ring they lie in.
fn nested(rings: Vec<Ring>) -> Region {
    let real = |ring: &Ring| ring.0.len() >= 3 && ring.signed_area() != 0.0;
    let (outer, holes): (Vec<Ring>, Vec<Ring>) = rings
        .into_iter()
        .filter(real)
        .partition(|ring| ring.signed_area() > 0.0);
    let mut polygons: Vec<Polygon> = outer
        .into_iter()
        .map(|outer| Polygon {
            outer,
            holes: Vec::new(),
        })
        .collect();
    for hole in holes {
        let Some(&p) = hole.0.first() else { continue };
        let round = polygons
            .iter_mut()
            .filter(|polygon| polygon.outer.winding(p) != 0)
            .min_by(|a, b| a.outer.signed_area().total_cmp(&b.outer.signed_area()));
        if let Some(polygon) = round {
            polygon.holes.push(hole);
        }
    }
    Region { polygons }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::TURN;

    fn area(grid: &Grid, value: impl Fn(usize, usize) -> f64) -> Region {
        let rows = 0..grid.rows;
        let cells = rows.flat_map(|row| (0..grid.columns).map(move |column| (column, row)));
        let values: Vec<f64> = cells.map(|(column, row)| value(column, row)).collect();
        positive_area(grid, &values)
    }

    #[test]
    fn a_ring_shaped_area_has_its_hole_and_the_right_area() {
        let grid = Grid::covering(Point::new(-3.0, -3.0), Point::new(3.0, 3.0), 0.05);
        let value = |column: usize, row: usize| {
            let r = grid.centre(column, row).distance(Point::new(0.1, 0.2));
            (r - 1.0).min(2.5 - r)
        };
        let region = area(&grid, value);
        assert_eq!(region.polygons.len(), 1);
        assert_eq!(region.polygons[0].holes.len(), 1);
        let exact = TURN / 2.0 * (2.5 * 2.5 - 1.0);
        assert!((region.area() / exact - 1.0).abs() < 3e-3);
        assert!(region.rings().all(|ring| ring.0.len() < 100));
        for p in region.rings().flat_map(|ring| &ring.0) {
            let r = p.distance(Point::new(0.1, 0.2));
            assert!((r - 2.5).abs() < 1e-3 || (r - 1.0).abs() < 1e-3);
        }
    }

    #[test]
    fn single_cells_and_saddles_close() {
        let grid = Grid::covering(Point::new(0.0, 0.0), Point::new(1.0, 1.0), 0.1);
        let value = |c: usize, r: usize| {
            let on = [(5, 5), (6, 6), (9, 3)].contains(&(c, r));
            if on { 1.0 } else { -1.0 }
        };
        let region = area(&grid, value);
        assert!(region.polygons.iter().all(|p| p.holes.is_empty()));
        assert!(region.area() > 0.0);
        assert!(area(&grid, |_, _| -1.0).is_empty());
    }
}
