//! Which headings a search looks at: what is known at one bounds what may be found at its neighbors.
//!
//! A turn moves no point of the work farther than its reach times the angle. So clear ground is no deeper at
//! one heading than at another and that much more, and where it is deeper there than that, the shell fits
//! here as well. Headings are looked at from coarse to fine. One is left out as long as it
//! surely fits there and no place of it could be among the best; what is told is what a look at
//! every heading would tell.

use crate::math::wrap_half_turn;

/// Two depths that differ by less than this may come out either way round, meters: the corners that are left out of clear
/// ground for a search, and how well its deepest places are found.
const SLACK: f64 = 0.05;

/// From one heading to the next of those that are looked at first.
const COARSEST: usize = 16;

/// The headings of one shell, and what is known of them.
#[derive(Debug)]
pub(super) struct Turning {
    turns: Vec<(f64, bool)>,
    /// How far the farthest point of the work lies from the shell's middle, meters.
    reach: f64,
    /// Those still to be looked at or left out, the next one last.
    waiting: Vec<usize>,
    /// Those left out so far.
    left_out: Vec<usize>,
    /// Those looked at, each with the depth of clear ground there, meters; 0 where there is none.
    looked: Vec<(usize, f64)>,
}

impl Turning {
    /// `turns`: headings in order, radians clockwise from north, each with whether the shell is mirrored.
    pub fn new(turns: Vec<(f64, bool)>, reach: f64) -> Self {
        let mut waiting = Vec::with_capacity(turns.len());
        for mirrored in [false, true] {
            let these = turns.iter().enumerate().filter(|(_, it)| it.1 == mirrored);
            let these: Vec<usize> = these.map(|(i, _)| i).collect();
            waiting.extend(coarse_to_fine(these.len()).filter_map(|i| these.get(i).copied()));
        }
        waiting.reverse();
        Self {
            turns,
            reach,
            waiting,
            left_out: Vec::new(),
            looked: Vec::new(),
        }
    }

    /// How many headings there are.
    pub fn count(&self) -> usize {
        self.turns.len()
    }

    /// At how many of them the shell fits; right once nothing is left to be looked at.
    pub fn free(&self) -> usize {
        let found = self.looked.iter().filter(|(_, depth)| *depth > 0.0);
        found.count() + self.left_out.len()
    }

    /// The next heading to look at: only places deeper than `least` are wanted. None once no heading that was left
    /// out could have one.
    pub fn next(&mut self, least: f64) -> Option<(usize, (f64, bool))> {
        loop {
            let Some(turn) = self.waiting.pop() else {
                let (again, out): (Vec<usize>, Vec<usize>) = core::mem::take(&mut self.left_out)
                    .into_iter()
                    .partition(|turn| self.most(*turn) >= least);
                (self.waiting, self.left_out) = (again, out);
                if self.waiting.is_empty() {
                    return None;
                }
                continue;
            };
            if self.most(turn) < least && self.fits_surely(turn) {
                self.left_out.push(turn);
                continue;
            }
            return Some((turn, self.turns.get(turn).copied()?));
        }
    }

    /// Takes down how deep clear ground is at a heading that was looked at, meters; 0 where there is none.
    pub fn found(&mut self, turn: usize, depth: f64) {
        self.looked.push((turn, depth));
    }

    /// How far a turn from each heading that was looked at to this one moves the work, and the depth there.
    fn neighbors(&self, turn: usize) -> impl Iterator<Item = (f64, f64)> + '_ {
        let here = self.turns.get(turn).copied().unwrap_or_default();
        self.looked.iter().filter_map(move |(other, depth)| {
            let (heading, mirrored) = self.turns.get(*other)?;
            let angle = wrap_half_turn(heading - here.0).abs();
            (*mirrored == here.1).then_some((self.reach * angle, *depth))
        })
    }

    /// How deep clear ground may be at a heading at the most, meters.
    fn most(&self, turn: usize) -> f64 {
        let bounds = self
            .neighbors(turn)
            .map(|(moved, depth)| depth + moved + SLACK);
        bounds.fold(f64::INFINITY, f64::min)
    }

    fn fits_surely(&self, turn: usize) -> bool {
        self.neighbors(turn)
            .any(|(moved, depth)| depth > moved + SLACK)
    }
}

/// The numbers below a count, those of a coarse step first, then those of ever finer ones.
fn coarse_to_fine(count: usize) -> impl Iterator<Item = usize> {
    let steps = core::iter::successors(Some(COARSEST), |it| (*it > 1).then_some(it / 2));
    steps.flat_map(move |step| {
        let all = (0..count).step_by(step);
        all.filter(move |i| step == COARSEST || i % (2 * step) != 0)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::TURN;
    use proptest::prelude::*;

    #[test]
    fn coarse_to_fine_names_every_number_once() {
        for count in [0, 1, 15, 16, 17, 360] {
            let mut all: Vec<usize> = coarse_to_fine(count).collect();
            all.sort_unstable();
            assert_eq!(all, (0..count).collect::<Vec<_>>());
        }
    }

    proptest! {
        #[test]
        fn what_is_left_out_changes_nothing(
            peaks in prop::collection::vec((0.0..TURN, -1.0_f64..4.0), 1..6),
            reach in 1.0_f64..8.0,
        ) {
            // As steep as a turn allows round every peak, and nowhere below nothing.
            let depth = |heading: f64| {
                let slopes = peaks.iter().map(|(at, top)| top - reach * wrap_half_turn(heading - at).abs());
                slopes.fold(0.0, f64::max)
            };
            let turns: Vec<(f64, bool)> = (0..360).map(|i| (f64::from(i) * TURN / 360.0, false)).collect();
            let mut all: Vec<f64> = turns.iter().map(|it| depth(it.0)).collect();
            let free = all.iter().filter(|it| **it > 0.0).count();
            all.sort_by(|a, b| b.total_cmp(a));
            let mut turning = Turning::new(turns, reach);
            let mut seen: Vec<f64> = Vec::new();
            loop {
                seen.sort_by(|a, b| b.total_cmp(a));
                let least = seen.get(2).copied().unwrap_or(f64::NEG_INFINITY);
                let Some((turn, (heading, _))) = turning.next(least) else { break };
                turning.found(turn, depth(heading));
                seen.push(depth(heading));
            }
            prop_assert_eq!(&seen[..3], &all[..3]);
            prop_assert_eq!(turning.free(), free);
        }
    }
}
