//! The nearest place where a pile fits.
//!
//! The room for a pile changes by no more than a meter over a meter. So a square whose middle has
//! so little room that none of it can have enough is left out whole, and so is one that lies no
//! nearer than a place already found; all others are quartered. What remains is the nearest place,
//! to the size of the smallest square.

use super::obstacles::{Obstacles, Space, Weight, Work};
use crate::geom::{Point, Vector};

/// How near the nearest place is found, meters.
const NEAR: f64 = 0.01;

/// The same for the largest pile that fits.
const NEAR_GREATEST: f64 = 0.05;

/// The most squares that are looked at: several times what the most crowded demo lot takes. When
/// they run out, the best place so far is told.
const MOST: usize = 20_000;

/// A square that is still looked at.
#[derive(Debug, Clone, Copy)]
struct Square {
    middle: Point,
    half: f64,
}

impl Square {
    fn round(low: Point, high: Point) -> Self {
        Self {
            middle: low.midpoint(high),
            half: (high.x - low.x).max(high.y - low.y) / 2.0,
        }
    }

    /// The farthest any of it lies from its middle, meters.
    fn radius(&self) -> f64 {
        self.half * core::f64::consts::SQRT_2
    }

    /// Its quarters, the one nearest to a point last.
    fn quarters(&self, to: Point) -> [Self; 4] {
        let half = self.half / 2.0;
        let toward = |c: f64, m: f64| if c < m { -half } else { half };
        let (x, y) = (toward(to.x, self.middle.x), toward(to.y, self.middle.y));
        [(-x, -y), (-x, y), (x, -y), (x, y)].map(|(x, y)| Self {
            middle: self.middle + Vector::new(x, y),
            half,
        })
    }
}

/// The place with room for a pile of this radius whose middle is nearest to the middle of the
/// shell; first without anything that is better kept free. `None` where it fits nowhere on the
/// lot.
pub fn nearest_fit(obstacles: &Obstacles, work: &Work, radius: f64) -> Option<Point> {
    let (low, high) = obstacles.bounds()?;
    [Weight::Avoid, Weight::Bar].into_iter().find_map(|least| {
        nearest(
            Square::round(low, high),
            work.middle,
            radius,
            |p, between| obstacles.room(p, work, least, between),
        )
    })
}

/// The place in the drawn rooms: the nearest that has room, or else the one with the most.
pub(super) fn in_space(
    obstacles: &Obstacles,
    work: &Work,
    spaces: &[Space],
    radius: f64,
) -> Option<Point> {
    let within = |space: &Space, p: Point| -space.area.distance(p, f64::INFINITY);
    let fits = spaces.iter().find_map(|space| {
        let (low, high) = space.bounds;
        nearest(
            Square::round(low, high),
            work.middle,
            radius,
            |p, between| within(space, p).min(obstacles.room(p, work, Weight::Bar, between)),
        )
    });
    fits.or_else(|| {
        let rooms = spaces.iter().filter_map(|space| {
            let (low, high) = space.bounds;
            most(Square::round(low, high), |p, _| within(space, p))
        });
        let best = rooms.fold(None, |best: Option<Greatest>, next| match best {
            Some(best) if best.radius >= next.radius => Some(best),
            _ => Some(next),
        });
        best.map(|best| best.at)
    })
}

/// The largest pile that fits anywhere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Greatest {
    /// Radius of its footprint, meters.
    pub radius: f64,
    /// Its middle, site meters.
    pub at: Point,
}

/// The largest pile that fits anywhere on the lot, to 5 cm of its radius; `None` where there is no
/// room at all.
pub fn greatest(obstacles: &Obstacles, work: &Work) -> Option<Greatest> {
    let (low, high) = obstacles.bounds()?;
    let room = |p, hopeless| obstacles.room(p, work, Weight::Bar, (hopeless, f64::INFINITY));
    most(Square::round(low, high), room).filter(|best| best.radius > NEAR_GREATEST)
}

/// The place nearest to `to` with at least `needed` room. `room`: at a place, exact between two
/// numbers and beyond them on the right side.
fn nearest(
    whole: Square,
    to: Point,
    needed: f64,
    room: impl Fn(Point, (f64, f64)) -> f64,
) -> Option<Point> {
    let mut best: Option<(f64, Point)> = None;
    let mut open = vec![whole];
    for _ in 0..MOST {
        let Some(square) = open.pop() else { break };
        let (away, radius) = (square.middle.distance(to), square.radius());
        let worse = |(least, _): &(f64, Point)| away - radius >= least - NEAR;
        if best.as_ref().is_some_and(worse) {
            continue;
        }
        let short = needed - room(square.middle, (needed - radius, needed + radius));
        if short > radius {
            continue;
        }
        if short <= 0.0 && best.as_ref().is_none_or(|(least, _)| away < *least) {
            best = Some((away, square.middle));
        }
        if radius > NEAR {
            open.extend(square.quarters(to));
        }
    }
    best.map(|(_, at)| at)
}

/// The place with the most room. Of the squares that may hold it the one that may hold the most is
/// quartered next.
fn most(whole: Square, room: impl Fn(Point, f64) -> f64) -> Option<Greatest> {
    let mut best: Option<Greatest> = None;
    // Each with the most room that it may hold.
    let mut open: Vec<(f64, Square)> = Vec::new();
    let mut parts = vec![whole];
    for _ in 0..MOST / 4 {
        for part in parts {
            let radius = part.radius();
            let hopeless = best.map_or(f64::NEG_INFINITY, |best| {
                best.radius + (NEAR_GREATEST - radius).min(0.0)
            });
            let here = room(part.middle, hopeless);
            if best.is_none_or(|best| here > best.radius) {
                best = Some(Greatest {
                    radius: here,
                    at: part.middle,
                });
            }
            open.push((here + radius, part));
        }
        let hopeful = open.iter().enumerate();
        let most = hopeful.max_by(|a, b| a.1.0.total_cmp(&b.1.0));
        let Some((next, (bound, square))) = most else {
            break;
        };
        // Where this one holds no more, none does.
        if best.is_some_and(|best| *bound <= best.radius + NEAR_GREATEST) {
            break;
        }
        parts = square.quarters(square.middle).to_vec();
        open.swap_remove(next);
    }
    best
}
