//! Upright columns over triangles of the plan, closed into one body.
//!
//! A body is told by its top and its bottom over each triangle of a plan. Where two columns stand side by side, only what one has and the
//! other has not shows between them. Surfaces may step from triangle to triangle, so at one place of the plan
//! there are several levels: upright walls are parted at each of them, and the body closes edge by edge.

use std::collections::BTreeMap;

use super::mesh::{Corner, Mesh};
use crate::geom::Point;
use crate::order::put_in_order;

/// Levels of one place nearer to each other than this are one, meters.
const ONE_LEVEL: f64 = 0.002;

/// A column that is nowhere thicker is none, meters.
const NOTHING: f64 = 0.000_5;

/// What stands over a triangle of the plan.
#[derive(Debug, Clone, Copy)]
pub(super) struct Column {
    /// The triangle's corners, counter-clockwise.
    pub plan: [usize; 3],
    /// Elevations of its underside there, meters.
    pub bottom: [f64; 3],
    /// Elevations of its top there, meters.
    pub top: [f64; 3],
    /// Whether a cut takes it away.
    pub before: bool,
}

/// The body of some columns. `points` are the corners of the plan.
pub(super) fn closed(points: &[Point], mut columns: Vec<Column>) -> Mesh {
    columns.retain(|it| {
        let mut both = it.top.iter().zip(&it.bottom);
        both.any(|(top, bottom)| top - bottom > NOTHING)
    });
    let levels = Levels::of(&mut columns);
    let mut body = Body {
        points,
        levels: &levels,
        numbers: BTreeMap::new(),
        corners: Vec::new(),
        lots: Default::default(),
    };
    let mut edges: BTreeMap<(usize, usize), (usize, [Stand; 2])> = BTreeMap::new();
    for (number, column) in columns.iter().enumerate() {
        let lot = if column.before { 0 } else { 2 };
        let [a, b, c] = column.plan;
        let [p, q, r] = column.stands();
        body.triangle(lot, [(a, p.top), (b, q.top), (c, r.top)]);
        body.triangle(lot, [(a, p.bottom), (c, r.bottom), (b, q.bottom)]);
        for ((from, to), ends) in [((a, b), [p, q]), ((b, c), [q, r]), ((c, a), [r, p])] {
            edges.insert((from, to), (number, ends));
        }
    }
    let before = |number: usize| columns.get(number).is_some_and(|it| it.before);
    for (&(from, to), &(number, ends)) in &edges {
        let own = if before(number) { 0 } else { 2 };
        let beside = edges.get(&(to, from)).copied();
        let Some((other, [at_to, at_from])) = beside else {
            body.wall(
                own,
                (from, to),
                ends.map(|it| it.bottom),
                ends.map(|it| it.top),
            );
            continue;
        };
        let theirs = [at_from, at_to];
        let parted = before(number) != before(other);
        if parted && own == 2 {
            // The wall of the half that stays, as far as the halves do not show it anyway.
            body.wall(
                3,
                (from, to),
                ends.map(|it| it.bottom),
                ends.map(|it| it.top),
            );
        }
        // What is left between two columns belongs to both: the first of them brings it.
        if from > to {
            continue;
        }
        let lot = if parted { 1 } else { own };
        let apart = |a: [Stand; 2], b: [Stand; 2]| {
            let mut ends = a.iter().zip(&b);
            ends.all(|(a, b)| a.bottom >= b.top)
        };
        if apart(ends, theirs) || apart(theirs, ends) {
            body.wall(
                lot,
                (from, to),
                ends.map(|it| it.bottom),
                ends.map(|it| it.top),
            );
            body.wall(
                lot,
                (to, from),
                [at_to.bottom, at_from.bottom],
                [at_to.top, at_from.top],
            );
        } else {
            body.wall(
                lot,
                (from, to),
                theirs.map(|it| it.top),
                ends.map(|it| it.top),
            );
            body.wall(
                lot,
                (from, to),
                ends.map(|it| it.bottom),
                theirs.map(|it| it.bottom),
            );
        }
    }
    Mesh::of(body.corners, body.lots)
}

/// Levels of a column over one corner of its triangle.
#[derive(Debug, Clone, Copy)]
struct Stand {
    bottom: f64,
    top: f64,
}

impl Column {
    fn stands(&self) -> [Stand; 3] {
        let [a, b, c] = self.bottom;
        let [d, e, f] = self.top;
        [(a, d), (b, e), (c, f)].map(|(bottom, top)| Stand { bottom, top })
    }
}

/// The levels over each place of the plan, ascending.
struct Levels(BTreeMap<usize, Vec<f64>>);

impl Levels {
    /// Gathers them, and brings those that are one together.
    fn of(columns: &mut [Column]) -> Self {
        let mut levels: BTreeMap<usize, Vec<f64>> = BTreeMap::new();
        for column in columns.iter() {
            for (place, stand) in column.plan.iter().zip(column.stands()) {
                levels
                    .entry(*place)
                    .or_default()
                    .extend([stand.bottom, stand.top]);
            }
        }
        for of in levels.values_mut() {
            put_in_order(of, f64::total_cmp);
            // Every run of near levels becomes its middle.
            let runs = of.chunk_by(|a, b| b - a < ONE_LEVEL);
            *of = runs
                .map(|run| run.iter().sum::<f64>() / run.len() as f64)
                .collect();
        }
        let levels = Self(levels);
        for column in columns {
            let bottom = column.bottom.iter_mut().zip(column.top.iter_mut());
            for (place, (bottom, top)) in column.plan.iter().zip(bottom) {
                *bottom = levels.nearest(*place, *bottom);
                *top = levels.nearest(*place, *top);
            }
        }
        levels
    }

    fn at(&self, place: usize) -> &[f64] {
        self.0.get(&place).map_or(&[], Vec::as_slice)
    }

    fn nearest(&self, place: usize, level: f64) -> f64 {
        let all = self.at(place).iter().copied();
        all.min_by(|a, b| (a - level).abs().total_cmp(&(b - level).abs()))
            .unwrap_or(level)
    }

    /// The levels from one to another, both included.
    fn between(&self, place: usize, from: f64, to: f64) -> Vec<f64> {
        let (low, high) = (from.min(to), from.max(to));
        let all = self.at(place).iter().copied();
        let mut chain: Vec<f64> = all.filter(|it| *it >= low && *it <= high).collect();
        if from > to {
            chain.reverse();
        }
        chain
    }
}

/// The body as it is put together.
struct Body<'a> {
    points: &'a [Point],
    levels: &'a Levels,
    /// Numbers of corners by place and level.
    numbers: BTreeMap<(usize, u64), u32>,
    corners: Vec<Corner>,
    lots: [Vec<[u32; 3]>; 4],
}

impl Body<'_> {
    fn corner(&mut self, (place, level): (usize, f64)) -> u32 {
        let next = self.corners.len() as u32;
        let number = *self.numbers.entry((place, level.to_bits())).or_insert(next);
        if number == next {
            let p = self.points.get(place).copied().unwrap_or_default();
            self.corners.push([p.x, p.y, level]);
        }
        number
    }

    fn triangle(&mut self, lot: usize, corners: [(usize, f64); 3]) {
        let [a, b, c] = corners.map(|it| self.corner(it));
        if a != b
            && b != c
            && c != a
            && let Some(lot) = self.lots.get_mut(lot)
        {
            lot.push([a, b, c]);
        }
    }

    /// An upright wall along an edge of the plan that has its column on the left, between two levels at either end.
    fn wall(&mut self, lot: usize, (from, to): (usize, usize), low: [f64; 2], high: [f64; 2]) {
        let ([a, b], [c, d]) = (low, high);
        let near = self.levels.between(from, a, c);
        let far = self.levels.between(to, b, d);
        let (mut i, mut k) = (0, 0);
        // Up both ends, whichever is behind first.
        while i + 1 < near.len() || k + 1 < far.len() {
            let share = |at: usize, of: &[f64]| match of.len() {
                0 | 1 => 1.0,
                count => at as f64 / (count - 1) as f64,
            };
            let (Some(here), Some(there)) = (near.get(i), far.get(k)) else {
                return;
            };
            let first =
                k + 1 >= far.len() || (i + 1 < near.len() && share(i, &near) <= share(k, &far));
            let (next, place) = if first {
                i += 1;
                (near.get(i), from)
            } else {
                k += 1;
                (far.get(k), to)
            };
            let Some(next) = next else { return };
            self.triangle(lot, [(from, *here), (to, *there), (place, *next)]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Vec<Point> {
        [(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0), (1.0, 0.5)]
            .map(|(x, y)| Point::new(x, y))
            .to_vec()
    }

    fn fan(levels: [(f64, f64); 4], before: [bool; 4]) -> Vec<Column> {
        let plan = [[0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]];
        let all = plan.into_iter().zip(levels).zip(before);
        all.map(|((plan, (bottom, top)), before)| Column {
            plan,
            bottom: [bottom; 3],
            top: [top; 3],
            before,
        })
        .collect()
    }

    fn holds(mesh: &Mesh, volume: f64) {
        assert!(mesh.is_closed(mesh.whole()), "whole");
        assert!(mesh.is_closed(mesh.cut()), "cut");
        assert!((mesh.volume() - volume).abs() < 1e-12, "{}", mesh.volume());
    }

    #[test]
    fn a_box_is_closed_and_holds_its_volume() {
        let mesh = closed(&square(), fan([(0.0, 3.0); 4], [false; 4]));
        holds(&mesh, 6.0);
        assert_eq!(mesh.triangles.len(), 16);
        assert_eq!(mesh.cut().len(), 16);
    }

    #[test]
    fn steps_overlaps_and_gaps_close_too() {
        let levels = [(0.0, 3.0), (1.0, 4.0), (3.5, 5.0), (0.0, 0.0)];
        let mesh = closed(&square(), fan(levels, [false; 4]));
        holds(&mesh, 0.5 * (3.0 + 3.0 + 1.5));
    }

    #[test]
    fn a_cut_leaves_a_closed_half_and_the_whole_is_both() {
        let levels = [(0.0, 3.0), (1.0, 4.0), (-1.0, 2.0), (0.5, 1.0)];
        let mesh = closed(&square(), fan(levels, [true, true, false, false]));
        holds(&mesh, 0.5 * (3.0 + 3.0 + 3.0 + 0.5));
        assert!((mesh.volume_of(mesh.cut()) - 0.5 * 3.5).abs() < 1e-12);
    }

    #[test]
    fn tilted_tops_that_cross_each_other_close() {
        let mut columns = fan([(0.0, 2.0); 4], [false, true, false, true]);
        columns[0].top = [1.0, 3.0, 2.0];
        columns[1].top = [1.0, 4.0, 0.0];
        columns[2].bottom = [0.0, 1.0, -1.0];
        let mesh = closed(&square(), columns);
        let mean = |it: [f64; 3]| it.iter().sum::<f64>() / 3.0;
        let volume = 0.5 * (2.0 + mean([1.0, 4.0, 0.0]) + 2.0 + 2.0);
        holds(&mesh, volume);
    }

    #[test]
    fn two_bodies_are_one_mesh_with_both_volumes() {
        let mut mesh = closed(&square(), fan([(0.0, 3.0); 4], [true, false, false, true]));
        mesh.add(closed(
            &square(),
            fan([(5.0, 6.0); 4], [false, false, true, true]),
        ));
        holds(&mesh, 8.0);
    }
}
