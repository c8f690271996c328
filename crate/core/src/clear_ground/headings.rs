//! Every heading the shell may take where it stands.
//!
//! A turn moves no point farther than the angle times its distance from the middle, so the room at
//! one heading says how far the shell may be turned at least until anything changes. The search
//! goes on by such steps and halves the last one where a bound is met.

use super::bounds::Bounds;
use super::room::Ruler;
use crate::geom::{Point, Pose};
use crate::math::{TURN, wrap_turn};

/// Two headings nearer than this are one, radians (a twentieth of a degree).
const FINE: f64 = TURN / 360.0 / 20.0;

/// The least step, radians (half a degree): a free or barred range narrower than this may be
/// passed over.
const STEP: f64 = TURN / 720.0;

/// In how many parts a range is drawn: 3 degrees each at most.
const DRAWN_PARTS: u8 = 120;

/// A range of headings, radians clockwise from north.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeadingRange {
    /// Where it begins, in one turn.
    pub from: f64,
    /// Where it ends, clockwise from there: at most one turn farther.
    pub to: f64,
}

impl HeadingRange {
    /// Headings along it, both ends among them, a few degrees apart: an arc to draw.
    pub fn points(&self) -> impl Iterator<Item = f64> + Clone + use<> {
        let (from, wide) = (self.from, self.to - self.from);
        let parts = DRAWN_PARTS;
        (0..=parts).map(move |i| from + wide * f64::from(i) / f64::from(parts))
    }

    /// Whether a heading lies in it.
    pub fn holds(&self, heading: f64) -> bool {
        wrap_turn(heading - self.from) <= self.to - self.from
    }
}

impl Bounds<'_> {
    /// Every heading at which nothing is fallen short of with the shell's middle at `at`, within a
    /// twentieth of a degree; in order, the first from north on. Ranges of less than half a degree
    /// may be missing.
    pub fn headings(&self, at: Point, mirrored: bool) -> Vec<HeadingRange> {
        let ruler = Ruler::of(self);
        let reach = ruler.reach().max(STEP);
        let room = |heading: f64| {
            let tightest = ruler.tightest(&Pose::new(at, heading, mirrored));
            tightest.map_or(f64::INFINITY, |it| it.room)
        };
        let mut ranges: Vec<HeadingRange> = Vec::new();
        let (mut heading, mut here) = (0.0, room(0.0));
        let mut open = (here >= 0.0).then_some(0.0);
        while heading < TURN {
            let next = (heading + (here.abs() / reach).max(STEP)).min(TURN);
            let there = if next < TURN { room(next) } else { room(0.0) };
            if (here >= 0.0) != (there >= 0.0) {
                let edge = edge(&room, heading, next, here >= 0.0);
                match open.take() {
                    Some(from) => ranges.push(HeadingRange { from, to: edge }),
                    None => open = Some(edge),
                }
            }
            (heading, here) = (next, there);
        }
        if let Some(from) = open {
            // What reaches over north is one range.
            match ranges.first_mut() {
                Some(first) if first.from == 0.0 => {
                    *first = HeadingRange {
                        from,
                        to: first.to + TURN,
                    };
                }
                _ => ranges.push(HeadingRange { from, to: TURN }),
            }
        }
        ranges
    }
}

/// Where between two headings the free ones end (or begin), on the free side.
fn edge(room: &impl Fn(f64) -> f64, mut low: f64, mut high: f64, free_below: bool) -> f64 {
    while high - low > FINE {
        let middle = low.midpoint(high);
        if (room(middle) >= 0.0) == free_below {
            low = middle;
        } else {
            high = middle;
        }
    }
    if free_below { low } else { high }
}
