//! The part of the plane that an edge of the bottom may govern.
//!
//! Let `q` be the place on the bottom that governs `p`, farther away than the reach, and `v`
//! the unit vector from `q` to `p`. Moving `q` must not help, so `v + slope * gradient` lies in
//! the cone of outward normals at `q`: along an edge that gives one direction `v` for all its
//! points, at an outer corner the fan between its two edges' directions. Strip and fan, widened
//! by the reach where the floor slopes, are all an edge has to be tried on; trying it elsewhere
//! costs time and changes nothing.

use super::grid::Grid;
use crate::geom::{Point, Vector};
use crate::math::{TURN, atan2};

/// The widest piece of a corner's fan, radians.
const WIDEST_FAN: f64 = TURN / 8.0;

/// One over the cosine of half the widest piece: a chord so far out clears the arc.
const CLEAR_OF_ARC: f64 = 1.09;

/// A part of the plane that an edge may govern, somewhat too large.
pub(super) struct Zone {
    outline: Vec<Point>,
    /// How far the zone reaches beyond its outline, meters.
    margin: f64,
}

impl Zone {
    /// The zone of the edge from `a` to `b` (its piece to the left, `before` the corner before
    /// `a`): its strip, and the fan at `a`. `gradient` is the floor's, times the side slope.
    pub fn of_edge(
        before: Point,
        a: Point,
        b: Point,
        gradient: Vector,
        reach: f64,
        far: f64,
        cell: f64,
    ) -> Self {
        let steepness = gradient.length();
        if steepness >= 1.0 {
            // Governed from anywhere: try all round.
            return Self {
                outline: vec![a, b],
                margin: far,
            };
        }
        let margin = if steepness > 0.0 { reach } else { 0.0 } + cell / 4.0;
        let out =
            |from: Point, to: Point| (to - from).unit().map(|e| governed(-e.left(), gradient));
        let (Some(u), Some(u_before)) = (out(a, b), out(before, a)) else {
            return Self {
                outline: vec![a, b],
                margin: far,
            };
        };
        let far = far * CLEAR_OF_ARC;
        let mut outline = vec![a, b, b + u * far, a + u * far];
        let turn = (a - before).cross(b - a);
        if turn > 0.0 {
            let angle = atan2(u_before.cross(u), u_before.dot(u));
            let angle = if angle < 0.0 { angle + TURN } else { angle };
            let pieces = (angle / WIDEST_FAN).ceil().max(1.0);
            let start = u_before.angle();
            for k in (0..pieces as u32).rev() {
                let direction = start + angle * f64::from(k) / pieces;
                outline.push(a + Vector::at_angle(direction) * far);
            }
        }
        Self { outline, margin }
    }

    /// Where the zone lies on each row, at most: the extent of the outline within the margin
    /// of the row, widened by the margin.
    pub fn extents(&self, grid: &Grid, out: &mut Extents) {
        let margin = self.margin;
        let ys = self.outline.iter().map(|p| p.y);
        let (low, high) = ys.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), y| {
            (l.min(y), h.max(y))
        });
        let rows = grid.rows_between(low - margin, high + margin);
        out.clear(rows.clone());
        let next = self.outline.iter().cycle().skip(1);
        for (a, b) in self.outline.iter().zip(next) {
            let (a, b) = if a.y <= b.y { (a, b) } else { (b, a) };
            // Level edges lean by nothing: both their ends count in every row.
            let lean = if b.y > a.y {
                (b.x - a.x) / (b.y - a.y)
            } else {
                0.0
            };
            for row in grid.rows_between(a.y - margin, b.y + margin) {
                let y = grid.first.y + row as f64 * grid.cell;
                let from = a.x + ((y - margin).max(a.y) - a.y) * lean;
                let to = b.x - (b.y - (y + margin).min(b.y)) * lean;
                out.widen(row, from.min(to) - margin, from.max(to) + margin);
            }
        }
    }
}

/// The extents of a zone, row by row.
#[derive(Default)]
pub(super) struct Extents {
    first: usize,
    /// Low and high x of each row, meters.
    spans: Vec<(f64, f64)>,
}

impl Extents {
    fn clear(&mut self, rows: core::ops::Range<usize>) {
        self.first = rows.start;
        self.spans.clear();
        self.spans
            .resize(rows.len(), (f64::INFINITY, f64::NEG_INFINITY));
    }

    fn widen(&mut self, row: usize, low: f64, high: f64) {
        let span = row.checked_sub(self.first);
        if let Some((l, h)) = span.and_then(|i| self.spans.get_mut(i)) {
            *l = l.min(low);
            *h = h.max(high);
        }
    }

    pub fn iter(&self) -> impl Iterator<Item = (usize, f64, f64)> + '_ {
        let rows = self.first..;
        rows.zip(&self.spans)
            .map(|(row, (low, high))| (row, *low, *high))
    }
}

/// The direction from an edge to the points it governs, from its outward unit normal and the
/// floor's gradient times the side slope (shorter than 1).
fn governed(normal: Vector, gradient: Vector) -> Vector {
    let across = normal.cross(gradient);
    let out = gradient.dot(normal) + (1.0 - across * across).max(0.0).sqrt();
    normal * out - gradient
}
