//! Obstacles by the cells of the view that they reach into, so that a candidate is held against those near it alone.

use super::shape::Shape;
use super::{Guard, Label, Obstacle, Size};
use crate::geom::Point;

/// Side of a cell, view units (arbitrary: about a word).
const CELL: f64 = 48.0;

/// No further entry in a cell.
const END: u32 = u32::MAX;

/// Obstacles and the cells they reach into.
pub(super) struct Grid {
    columns: usize,
    rows: usize,
    /// The first entry of each cell.
    heads: Vec<u32>,
    /// An obstacle and the next entry of the same cell.
    entries: Vec<(u32, u32)>,
    obstacles: Vec<Obstacle>,
}

impl Grid {
    /// A grid over a view, with the obstacles already known.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Cells of a screen.
    pub(super) fn new(size: Size, obstacles: &[Obstacle]) -> Self {
        let cells = |length: f64| (length / CELL).ceil().clamp(1.0, 512.0) as usize;
        let (columns, rows) = (cells(size.width), cells(size.height));
        let mut grid = Self {
            columns,
            rows,
            heads: vec![END; columns * rows],
            entries: Vec::with_capacity(4 * obstacles.len()),
            obstacles: Vec::with_capacity(obstacles.len() + 64),
        };
        for obstacle in obstacles {
            grid.add(*obstacle);
        }
        grid
    }

    /// Adds an obstacle; what lies outside of the view is in nobody's way.
    pub(super) fn add(&mut self, obstacle: Obstacle) {
        let Ok(index) = u32::try_from(self.obstacles.len()) else {
            return;
        };
        if let Shape::Stroke(a, b) = obstacle.shape {
            self.add_stroke(index, a, b);
        } else {
            let (low, high) = obstacle.shape.bounds();
            for cell in self.cells(low, high) {
                self.enter(cell, index);
            }
        }
        self.obstacles.push(obstacle);
    }

    /// A long stroke is entered piece by piece, not in every cell of the rectangle round it.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    fn add_stroke(&mut self, index: u32, a: Point, b: Point) {
        let pieces = ((b - a).length() / CELL).ceil().clamp(1.0, 256.0) as u32;
        let at = |i: u32| a + (b - a) * (f64::from(i) / f64::from(pieces));
        for i in 0..pieces {
            let (low, high) = Shape::Stroke(at(i), at(i + 1)).bounds();
            for cell in self.cells(low, high) {
                let newest = self
                    .heads
                    .get(cell)
                    .and_then(|e| self.entries.get(*e as usize));
                if newest.is_none_or(|(last, _)| *last != index) {
                    self.enter(cell, index);
                }
            }
        }
    }

    fn enter(&mut self, cell: usize, index: u32) {
        let (Some(head), Ok(entry)) = (self.heads.get_mut(cell), u32::try_from(self.entries.len()))
        else {
            return;
        };
        self.entries.push((index, *head));
        *head = entry;
    }

    /// The cells of an upright rectangle; none where it lies outside.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    fn cells(&self, low: Point, high: Point) -> impl Iterator<Item = usize> + use<> {
        let span = |low: f64, high: f64, count: usize| {
            // A cast from a float keeps within the range of the integer.
            let first = (low / CELL).floor().max(0.0) as usize;
            let after = ((high / CELL).floor() + 1.0).max(0.0) as usize;
            first.min(count)..after.min(count)
        };
        let columns = self.columns;
        let across = span(low.x, high.x, columns);
        let down = span(low.y, high.y, self.rows);
        down.flat_map(move |row| across.clone().map(move |column| row * columns + column))
    }

    /// Visits the obstacles near an upright rectangle, some more than once, until the visitor says enough.
    pub(super) fn near(
        &self,
        low: Point,
        high: Point,
        mut visit: impl FnMut(u32, &Obstacle) -> bool,
    ) {
        for cell in self.cells(low, high) {
            let mut entry = self.heads.get(cell).copied().unwrap_or(END);
            while let Some((index, next)) = self.entries.get(entry as usize) {
                if let Some(obstacle) = self.obstacles.get(*index as usize)
                    && !visit(*index, obstacle)
                {
                    return;
                }
                entry = *next;
            }
        }
    }

    /// Whether the leader of a label would run through something that keeps the label off, but for what it names.
    pub(super) fn bars(&self, from: Point, to: Point, label: &Label) -> bool {
        let (low, high) = Shape::Stroke(from, to).bounds();
        let mut barred = false;
        self.near(low, high, |_, it| {
            let guarded = match it.guard {
                Guard::Always => true,
                Guard::From(rank) => label.rank >= rank,
                Guard::Soft(_) => false,
            };
            barred = guarded && it.of != Some(label.key) && it.shape.is_crossed_by(from, to);
            !barred
        });
        barred
    }
}
