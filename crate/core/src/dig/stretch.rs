//! The deepest of straight parts along a line, from end to end.

use crate::math::{greater, lesser};

/// A straight part of a line's course, between two places.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    from: f64,
    to: f64,
    /// Depth where it begins, meters.
    depth: f64,
    /// Growth of the depth along it.
    growth: f64,
    least: f64,
    greatest: f64,
}

impl Part {
    /// From a place to a later one, with the depth at either, meters.
    pub fn new((from, depth): (f64, f64), (to, at_end): (f64, f64)) -> Self {
        Self {
            from,
            to,
            depth,
            growth: (at_end - depth) / (to - from),
            least: lesser(depth, at_end),
            greatest: greater(depth, at_end),
        }
    }

    fn at(&self, place: f64) -> f64 {
        self.depth + self.growth * (place - self.from)
    }
}

/// How much lies below each of some levels, along lines.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sum {
    /// Depths of the levels, meters.
    pub levels: [f64; LEVELS],
    /// Of each the length that is at least so deep, meters, and the depth over that length, m2.
    pub deeper: [(f64, f64); LEVELS],
}

/// How many levels are told apart.
pub(super) const LEVELS: usize = 3;

/// Stretches shorter than this are left out, meters.
const SHORT: f64 = 1e-12;

/// Adds up what is deepest.
#[derive(Debug, Clone, Default)]
pub(super) struct Stretch {
    seen: Vec<Part>,
    places: Vec<f64>,
    here: Vec<Part>,
    open: Vec<(f64, f64)>,
}

impl Stretch {
    /// Adds the integrals of the deepest part.
    pub fn sum(&mut self, parts: &[Part], sum: &mut Sum) {
        let starts = parts.iter().map(|part| part.from);
        let ends = parts.iter().map(|part| part.to);
        let (start, end) = (
            starts.fold(f64::INFINITY, lesser),
            ends.fold(f64::NEG_INFINITY, greater),
        );
        // Under what runs from end to end most of the others are never seen.
        let whole = parts.iter().filter(|p| p.from == start && p.to == end);
        let under = whole.fold(f64::NEG_INFINITY, |most, p| greater(most, p.least));
        self.seen.clear();
        self.seen
            .extend(parts.iter().filter(|p| p.greatest >= under));
        if let [only] = self.seen.as_slice() {
            sum.add(only.to - only.from, only.depth, only.at(only.to));
            return;
        }
        self.places.clear();
        let ends = self.seen.iter().flat_map(|part| [part.from, part.to]);
        self.places.extend(ends);
        self.places.sort_by(f64::total_cmp);
        for pair in 1..self.places.len() {
            let (Some(&from), Some(&to)) = (self.places.get(pair - 1), self.places.get(pair))
            else {
                continue;
            };
            if to - from < SHORT {
                continue;
            }
            self.here.clear();
            let across = |part: &&Part| part.from <= from && part.to >= to;
            self.here.extend(self.seen.iter().filter(across));
            self.between(from, to, sum);
        }
    }

    /// The deepest between two places at which no part begins or ends.
    fn between(&mut self, from: f64, to: f64, sum: &mut Sum) {
        self.open.clear();
        self.open.push((from, to));
        // Each crossing ends a part's turn: there are fewer than parts, but for rounding.
        let mut left = 2 * self.here.len();
        while let Some((from, to)) = self.open.pop() {
            let (Some(first), Some(last)) =
                (deepest(&self.here, from, to), deepest(&self.here, to, from))
            else {
                return;
            };
            let (a, b) = (first.at(from), last.at(to));
            // How much deeper the one that is deepest at an end is there than the other.
            let (before, after) = (a - last.at(from), b - first.at(to));
            if before <= 0.0 || after <= 0.0 || left == 0 {
                sum.add(to - from, a, b);
                continue;
            }
            left -= 1;
            let place = from + (to - from) * (before / (before + after));
            if to - from < SHORT {
                continue;
            }
            let level = first.at(place);
            let between = deepest(&self.here, place, to).map_or(level, |part| part.at(place));
            if between > level + SHORT && place > from && place < to {
                self.open.extend([(from, place), (place, to)]);
            } else {
                sum.add(place - from, a, level);
                sum.add(to - place, level, b);
            }
        }
    }
}

/// The part that is deepest at a place; of equals the one that is deepest at another.
fn deepest(parts: &[Part], at: f64, then: f64) -> Option<Part> {
    let mut best: Option<(f64, f64, Part)> = None;
    for part in parts {
        let here = part.at(at);
        if best.is_none_or(|(depth, _, _)| here >= depth) {
            let there = part.at(then);
            if best.is_none_or(|(depth, other, _)| here > depth || there > other) {
                best = Some((here, there, *part));
            }
        }
    }
    best.map(|(_, _, part)| part)
}

impl Sum {
    /// Nothing yet.
    pub fn below(levels: [f64; LEVELS]) -> Self {
        Self {
            levels,
            deeper: [(0.0, 0.0); LEVELS],
        }
    }

    /// A straight course of a length from one depth to another.
    fn add(&mut self, length: f64, a: f64, b: f64) {
        for (level, sum) in self.levels.iter().zip(&mut self.deeper) {
            let (share, depth) = above(a, b, *level);
            *sum = (sum.0 + share * length, sum.1 + depth * length);
        }
    }
}

/// The share of what goes evenly from `a` to `b` that is at least `least`, and that share times its
/// mean.
fn above(a: f64, b: f64, least: f64) -> (f64, f64) {
    let (low, high) = if a < b { (a, b) } else { (b, a) };
    if low >= least {
        (1.0, (low + high) / 2.0)
    } else if high <= least {
        (0.0, 0.0)
    } else {
        let share = (high - least) / (high - low);
        (share, share * (high + least) / 2.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sum(parts: &[[f64; 4]], least: f64) -> [(f64, f64); LEVELS] {
        let part = |[from, to, a, b]: &[f64; 4]| Part::new((*from, *a), (*to, *b));
        let parts: Vec<Part> = parts.iter().map(part).collect();
        let mut sum = Sum::below([least, 0.0, f64::INFINITY]);
        Stretch::default().sum(&parts, &mut sum);
        sum.deeper
    }

    #[test]
    fn the_deepest_is_followed_through_crossings_and_steps() {
        // Two slopes that cross, a bump over their crossing, and a step.
        let parts = [
            [0.0, 4.0, 2.0, 0.0],
            [0.0, 4.0, 0.0, 2.0],
            [1.0, 3.0, 1.2, 1.2],
            [3.5, 4.0, 5.0, 5.0],
        ];
        let [(length, depth), ..] = sum(&parts, -1.0);
        // 2 down to 1.2 at 1.6, level to 2.4, up to 1.75 at 3.5, then 5.
        let exact = 1.6 * 1.6 + 0.8 * 1.2 + 1.1 * (1.2 + 1.75) / 2.0 + 0.5 * 5.0;
        assert!((depth - exact).abs() < 1e-12, "{depth}, not {exact}");
        assert!((length - 4.0).abs() < 1e-12);
    }

    #[test]
    fn only_what_is_deep_enough_counts() {
        let [(length, depth), at_rim, never] = sum(&[[0.0, 2.0, -1.0, 1.0]], -0.5);
        assert!((length - 1.5).abs() < 1e-12);
        assert!((depth - (0.5 - 0.125)).abs() < 1e-12);
        assert!((at_rim.0 - 1.0).abs() < 1e-12 && (at_rim.1 - 0.5).abs() < 1e-12);
        assert_eq!(never, (0.0, 0.0));
        assert_eq!(sum(&[], 0.0), [(0.0, 0.0); LEVELS]);
    }
}
