//! A line of many points by the way along it.

use crate::geom::{Point, Vector};

/// Size of the view.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// From the left to the right edge.
    pub width: f64,
    /// From the upper to the lower edge.
    pub height: f64,
}

/// A line with the way to each of its points.
pub(super) struct Chain<'a> {
    points: &'a [Point],
    ways: Vec<f64>,
}

impl<'a> Chain<'a> {
    /// None for a line of no length.
    pub(super) fn new(points: &'a [Point]) -> Option<Self> {
        let mut ways = Vec::with_capacity(points.len());
        let mut way = 0.0;
        let mut last: Option<Point> = None;
        for p in points {
            way += last.map_or(0.0, |last| last.distance(*p));
            ways.push(way);
            last = Some(*p);
        }
        (way > 1e-9).then_some(Self { points, ways })
    }

    /// Its length.
    pub(super) fn length(&self) -> f64 {
        self.ways.last().copied().unwrap_or_default()
    }

    /// The point so far along it; its ends beyond them.
    pub(super) fn at(&self, way: f64) -> Point {
        let after = self.ways.partition_point(|w| *w < way).max(1);
        let end = |list: &[Point]| list.last().copied().unwrap_or_default();
        let (Some(a), Some(b)) = (self.points.get(after - 1), self.points.get(after)) else {
            return end(self.points);
        };
        let (Some(from), Some(to)) = (self.ways.get(after - 1), self.ways.get(after)) else {
            return end(self.points);
        };
        let part = ((way - from) / (to - from).max(1e-12)).clamp(0.0, 1.0);
        *a + (*b - *a) * part
    }

    /// How far its points between two ways reach to the right of a chord's direction, at the most, as seen with y
    /// down; at least 0. `across` points that way and has length 1.
    pub(super) fn bulge(&self, (from, to): (f64, f64), start: Point, across: Vector) -> f64 {
        let first = self.ways.partition_point(|w| *w <= from);
        let after = self.ways.partition_point(|w| *w < to);
        let between = self.points.get(first..after.max(first)).unwrap_or_default();
        between
            .iter()
            .map(|p| (*p - start).dot(across))
            .fold(0.0, f64::max)
    }

    /// The longest stretch of it that lies within the view, from one way to another.
    pub(super) fn visible(&self, size: Size) -> Option<(f64, f64)> {
        let mut best: Option<(f64, f64)> = None;
        let mut open: Option<(f64, f64)> = None;
        let pairs = self.points.iter().zip(self.points.iter().skip(1));
        for ((a, b), way) in pairs.zip(&self.ways) {
            let Some((enter, leave)) = clipped(*a, *b, size) else {
                continue;
            };
            let length = a.distance(*b);
            let (from, to) = (way + enter * length, way + leave * length);
            let joined = open.filter(|(_, end)| from - end < 1e-6);
            let stretch = (joined.map_or(from, |(start, _)| start), to);
            open = Some(stretch);
            if best.is_none_or(|(s, e)| stretch.1 - stretch.0 > e - s) {
                best = open;
            }
        }
        best
    }
}

/// The part of a stroke within the view, as parts of its length.
pub(super) fn clipped(a: Point, b: Point, size: Size) -> Option<(f64, f64)> {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for (start, run, most) in [(a.x, b.x - a.x, size.width), (a.y, b.y - a.y, size.height)] {
        if run.abs() < 1e-12 {
            if start < 0.0 || start > most {
                return None;
            }
            continue;
        }
        let (s, t) = (-start / run, (most - start) / run);
        enter = enter.max(s.min(t));
        leave = leave.min(s.max(t));
    }
    (enter <= leave).then_some((enter, leave))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_chain_is_walked_and_seen_in_part() {
        let points = [(0.0, 5.0), (10.0, 5.0), (10.0, 25.0)].map(|(x, y)| Point::new(x, y));
        let chain = Chain::new(&points).unwrap();
        assert_eq!(chain.length(), 30.0);
        assert_eq!(chain.at(15.0), Point::new(10.0, 10.0));
        assert_eq!(chain.at(99.0), Point::new(10.0, 25.0));
        assert_eq!(chain.at(-1.0), Point::new(0.0, 5.0));
        let size = Size {
            width: 20.0,
            height: 15.0,
        };
        assert_eq!(chain.visible(size), Some((0.0, 20.0)));
        assert!(Chain::new(&points[..1]).is_none());
    }
}
