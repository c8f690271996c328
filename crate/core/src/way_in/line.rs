//! A line along which the widest way runs, to be drawn and walked.
//!
//! The width is not taken from it: it comes from the gaps. Here a grid is searched for a line that
//! leads through the pinch and keeps its half width where it can, is straightened, and says itself
//! how wide it is at its narrowest.

use core::cmp::Ordering;
use std::collections::BinaryHeap;

use super::gap::{self, Piece, Widest};
use crate::geom::{Point, Region, Vector};
use crate::math::{greater, lesser};

/// The grid reaches so far beyond the lot, meters (our choice: a verge).
const BEYOND: f64 = 4.0;

/// About so many cells along the longer side (our choice: a foot on most lots).
const CELLS: f64 = 150.0;

/// A way where something drives already costs so much of another (our choice).
const DRIVEN: f64 = 0.6;

/// Nothing wider than this is kept free at the price of a detour, meters (our choice: wider than any
/// machine needs).
const WIDE: f64 = 2.5;

/// What the search knows of the yard.
pub struct Yard<'a> {
    /// What stands in the way.
    pub pieces: &'a [Piece],
    /// The lot.
    pub lot: &'a Region,
    /// The sides of the lot on a street, as chains of points.
    pub streets: &'a [Vec<Point>],
    /// Driveways.
    pub driven: Vec<&'a Region>,
}

/// A place that the search has come to.
#[derive(PartialEq)]
struct Reached {
    cost: f64,
    at: usize,
}

impl Eq for Reached {}

impl Ord for Reached {
    fn cmp(&self, other: &Self) -> Ordering {
        // The cheapest first.
        let by_cost = other.cost.total_cmp(&self.cost);
        by_cost.then_with(|| other.at.cmp(&self.at))
    }
}

impl PartialOrd for Reached {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// The grid, each node with its room.
struct Grid {
    low: Point,
    cell: f64,
    wide: usize,
    room: Vec<f64>,
    driven: Vec<bool>,
    street: Vec<bool>,
}

/// The line from the street to the goal; empty where none was found. It keeps a width of `wanted`
/// meters free where it can.
pub fn along(yard: &Yard<'_>, way: &Widest, wanted: f64) -> Vec<Point> {
    let half = lesser(lesser(way.width(), wanted) / 2.0, WIDE);
    let Some(grid) = Grid::of(yard) else {
        return Vec::new();
    };
    let pinch = way.pinch.filter(|_| !way.at_goal);
    let found = match pinch {
        Some(gap) => {
            let [a, b] = gap.ends;
            let middle = a.midpoint(b);
            // The gap is passed in its middle and nowhere else.
            let out = grid.search(yard, Some((a, b)), middle, half, Start::Street);
            let on = grid.search(yard, Some((a, b)), way.goal, half, Start::At(middle));
            match (out, on) {
                (Some(out), Some(on)) => Some((out, on)),
                _ => None,
            }
        }
        None => {
            let found = grid.search(yard, None, way.goal, half, Start::Street);
            found.map(|it| (it, Vec::new()))
        }
    };
    let Some((first, second)) = found else {
        return Vec::new();
    };
    let mut line = straightened(yard.pieces, &eased(yard.pieces, &first, &grid, half), half);
    line.extend(
        straightened(yard.pieces, &eased(yard.pieces, &second, &grid, half), half)
            .into_iter()
            .skip(1),
    );
    from_the_street(yard.lot, line)
}

/// Where a search begins.
#[derive(Clone, Copy)]
enum Start {
    Street,
    At(Point),
}

impl Grid {
    fn of(yard: &Yard<'_>) -> Option<Self> {
        let (low, high) = yard.lot.bounds()?;
        let low = low + Vector::new(-BEYOND, -BEYOND);
        let size = high + Vector::new(BEYOND, BEYOND) - low;
        let cell = greater(greater(size.x, size.y) / CELLS, 0.1);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // A count of cells.
        let count = |length: f64| (length / cell).ceil() as usize + 1;
        let (wide, high) = (count(size.x), count(size.y));
        let mut grid = Self {
            low,
            cell,
            wide,
            room: Vec::with_capacity(wide * high),
            driven: Vec::with_capacity(wide * high),
            street: Vec::with_capacity(wide * high),
        };
        for i in 0..wide * high {
            let p = grid.at(i);
            let room = gap::clearance(yard.pieces, p).0;
            let driven = yard.driven.iter().any(|it| it.contains(p));
            let near = || {
                let legs = yard.streets.iter().flat_map(|chain| chain.array_windows());
                legs.map(|[a, b]| gap::clearance(&[bare(*a, *b)], p).0)
                    .fold(f64::INFINITY, lesser)
            };
            let street = !yard.lot.contains(p) && near() < 1.6 * cell;
            grid.room.push(room);
            grid.driven.push(driven);
            grid.street.push(street);
        }
        Some(grid)
    }

    #[allow(clippy::cast_precision_loss)] // A count of cells.
    fn at(&self, node: usize) -> Point {
        let (x, y) = (node % self.wide, node / self.wide);
        self.low + Vector::new(x as f64 * self.cell, y as f64 * self.cell)
    }

    /// The nodes next to one.
    fn beside(&self, node: usize) -> impl Iterator<Item = usize> {
        let (wide, count) = (self.wide, self.room.len());
        let (x, y) = (node % wide, node / wide);
        let steps = (0..9_usize).filter(|it| *it != 4);
        steps.filter_map(move |step| {
            let (x, y) = (
                (x + step % 3).checked_sub(1)?,
                (y + step / 3).checked_sub(1)?,
            );
            let next = y * wide + x;
            (x < wide && next < count).then_some(next)
        })
    }

    /// The nodes within two and a half cells of a point.
    fn round(&self, p: Point) -> Vec<usize> {
        let near = |i: &usize| self.at(*i).distance(p) < 2.5 * self.cell;
        (0..self.room.len()).filter(near).collect()
    }

    /// What a leg costs that has so much room.
    fn cost(&self, length: f64, room: f64, half: f64, driven: bool) -> f64 {
        let driven = if driven { DRIVEN } else { 1.0 };
        let short = greater(half - room, 0.0) / greater(half, 1e-9);
        length * driven * (1.0 + 0.3 * half / greater(room, 0.05) + 60.0 * short)
    }

    /// The cheapest line to a point; `wall` is not crossed.
    fn search(
        &self,
        yard: &Yard<'_>,
        wall: Option<(Point, Point)>,
        to: Point,
        half: f64,
        start: Start,
    ) -> Option<Vec<Point>> {
        let count = self.room.len();
        let mut cost = vec![f64::INFINITY; count];
        let mut before = vec![usize::MAX; count];
        let mut queue = BinaryHeap::new();
        let free = |a: Point, b: Point| gap::clearance_of_line(yard.pieces, a, b) > 1e-9;
        let walled = |a: Point, b: Point| {
            wall.is_some_and(|(c, d)| bare(c, d).distance_of_line(a, b) <= 0.0)
        };
        let starts: Vec<(usize, f64)> = match start {
            Start::Street => (0..count)
                .filter(|i| self.street.get(*i).copied().unwrap_or(false))
                .map(|i| (i, 0.0))
                .collect(),
            Start::At(p) => self
                .round(p)
                .into_iter()
                .filter(|i| free(p, self.at(*i)))
                .map(|i| (i, p.distance(self.at(i))))
                .collect(),
        };
        for (at, so_far) in starts {
            if let Some(slot) = cost.get_mut(at) {
                *slot = so_far;
                queue.push(Reached { cost: so_far, at });
            }
        }
        let ends = self.round(to);
        let ends: Vec<usize> = ends.into_iter().filter(|i| free(to, self.at(*i))).collect();
        let mut end = None;
        while let Some(Reached { cost: so_far, at }) = queue.pop() {
            if cost.get(at).is_none_or(|it| so_far > *it) {
                continue;
            }
            if ends.contains(&at) {
                end = Some(at);
                break;
            }
            let here = self.at(at);
            let room_here = self.room.get(at).copied().unwrap_or(0.0);
            for next in self.beside(at) {
                let Some(&room_there) = self.room.get(next) else {
                    continue;
                };
                let there = self.at(next);
                let length = here.distance(there);
                // No piece lies between two nodes that are as far from all pieces as from each other.
                if room_here + room_there <= length && !free(here, there) || walled(here, there) {
                    continue;
                }
                let driven = self.driven.get(next).copied().unwrap_or(false);
                let room = lesser(room_here, room_there);
                let sum = so_far + self.cost(length, room, half, driven);
                if let (Some(slot), Some(from)) = (cost.get_mut(next), before.get_mut(next))
                    && sum < *slot
                {
                    (*slot, *from) = (sum, at);
                    queue.push(Reached {
                        cost: sum,
                        at: next,
                    });
                }
            }
        }
        let mut line = vec![to];
        let mut at = end?;
        loop {
            line.push(self.at(at));
            match before.get(at) {
                Some(&from) if from != usize::MAX => at = from,
                _ => break,
            }
        }
        if let Start::At(p) = start {
            line.push(p);
        }
        line.reverse();
        Some(line)
    }
}

/// A straight line with nothing round it.
fn bare(from: Point, to: Point) -> Piece {
    Piece {
        from,
        to,
        radius: 0.0,
        owner: 0,
    }
}

/// The same line, its points between the ends moved to where they have the half width, as far as a cell allows.
fn eased(pieces: &[Piece], line: &[Point], grid: &Grid, half: f64) -> Vec<Point> {
    let mut eased = line.to_vec();
    for i in 1..line.len().saturating_sub(1) {
        let around = (line.get(i - 1), line.get(i), line.get(i + 1));
        let (Some(before), Some(here), Some(after)) = around else {
            continue;
        };
        let Some(across) = (*after - *before).unit().map(Vector::left) else {
            continue;
        };
        let offsets = [0.0, 0.1, -0.1, 0.25, -0.25, 0.4, -0.4, 0.6, -0.6, 0.8, -0.8];
        let tried = offsets.map(|share| {
            let p = *here + across * (share * grid.cell);
            (lesser(gap::clearance(pieces, p).0, half), p)
        });
        let [first, rest @ ..] = tried;
        let best = rest.into_iter().fold(
            first,
            |best, it| if it.0 > best.0 + 1e-6 { it } else { best },
        );
        if let Some(slot) = eased.get_mut(i) {
            *slot = best.1;
        }
    }
    eased
}

/// The same line with as few corners as keep its room, up to the half width.
fn straightened(pieces: &[Piece], line: &[Point], half: f64) -> Vec<Point> {
    let rooms: Vec<f64> = line
        .iter()
        .map(|p| lesser(gap::clearance(pieces, *p).0, half))
        .collect();
    let mut kept: Vec<Point> = line.first().copied().into_iter().collect();
    let mut at = 0;
    while at + 1 < line.len() {
        let Some(here) = line.get(at) else { break };
        let mut least = rooms.get(at).copied().unwrap_or(0.0);
        let mut next = at + 1;
        for (j, (p, room)) in line.iter().zip(&rooms).enumerate().skip(at + 1) {
            least = lesser(least, *room);
            if gap::clearance_of_line(pieces, *here, *p) >= least - 0.02 {
                next = j;
            } else if j > next + 40 {
                break;
            }
        }
        kept.extend(line.get(next));
        at = next;
    }
    kept
}

/// The same line from where it last comes onto the lot.
fn from_the_street(lot: &Region, line: Vec<Point>) -> Vec<Point> {
    let Some(last) = line.iter().rposition(|p| !lot.contains(*p)) else {
        return line;
    };
    let (Some(out), Some(inside)) = (line.get(last), line.get(last + 1)) else {
        return line;
    };
    let start = edge(lot, *out, *inside);
    core::iter::once(start)
        .chain(line.into_iter().skip(last + 1))
        .collect()
}

/// The same line to where it first comes to a region.
pub fn until(region: &Region, line: Vec<Point>) -> Vec<Point> {
    let first = line.iter().position(|p| region.contains(*p));
    let ends = first.and_then(|at| Some((at, line.get(at.checked_sub(1)?)?, line.get(at)?)));
    let Some((at, out, inside)) = ends else {
        return line;
    };
    let end = edge(region, *out, *inside);
    line.iter().copied().take(at).chain([end]).collect()
}

/// Where a straight line comes into a region: halving finds it to a hair.
fn edge(region: &Region, out: Point, inside: Point) -> Point {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        if region.contains(out + (inside - out) * middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    out + (inside - out) * high
}

/// Length of a line, meters.
pub fn length(line: &[Point]) -> f64 {
    line.array_windows().map(|[a, b]| a.distance(*b)).sum()
}

/// How wide a line is at its narrowest, meters.
pub fn narrowest(pieces: &[Piece], line: &[Point]) -> f64 {
    let legs = line.array_windows();
    2.0 * legs
        .map(|[a, b]| gap::clearance_of_line(pieces, *a, *b))
        .fold(f64::INFINITY, lesser)
}
