//! Putting lists in order: one stable sort for every kind of item.
//!
//! The standard library's sorts are compiled once for every type they meet, three or four
//! kilobytes each time. The page loads this module over a phone, its lists are short, and few of
//! them are sorted in a frame: so the sorting is done here once, on indices, and only the moving
//! about is compiled anew.

use core::cmp::Ordering;

/// Sorts a list; items that compare equal keep their order.
pub fn sort_by<T>(items: &mut Vec<T>, mut compare: impl FnMut(&T, &T) -> Ordering) {
    let places = ascending(
        items.len(),
        &mut |a, b| match (items.get(a), items.get(b)) {
            (Some(a), Some(b)) => compare(a, b),
            _ => Ordering::Equal,
        },
    );
    let Some(places) = places else { return };
    let mut before: Vec<Option<T>> = core::mem::take(items).into_iter().map(Some).collect();
    items.extend(
        places
            .into_iter()
            .filter_map(|at| before.get_mut(at)?.take()),
    );
}

/// Sorts numbers, bit for bit: -0 before 0, NaN at the ends.
pub fn sort_numbers(numbers: &mut Vec<f64>) {
    sort_by(numbers, f64::total_cmp);
}

/// The lesser of two numbers, the first of equals. A plain comparison: `f64::min`, which also has
/// to look for what is no number, is a call in WebAssembly.
pub(crate) fn lesser(a: f64, b: f64) -> f64 {
    if b < a { b } else { a }
}

/// The greater of two numbers, the first of equals; see [`lesser`].
pub(crate) fn greater(a: f64, b: f64) -> f64 {
    if b > a { b } else { a }
}

/// The places of `count` items in ascending order by merging ever longer runs; `None` when they
/// stand in order already.
fn ascending(
    count: usize,
    compare: &mut dyn FnMut(usize, usize) -> Ordering,
) -> Option<Vec<usize>> {
    if (1..count).all(|at| compare(at - 1, at).is_le()) {
        return None;
    }
    let mut places: Vec<usize> = (0..count).collect();
    let mut merged = Vec::with_capacity(count);
    let mut run = 1;
    while run < count {
        for pair in places.chunks(2 * run) {
            let (mut left, mut right) = pair.split_at(run.min(pair.len()));
            while let (Some((a, others)), Some((b, rest))) =
                (left.split_first(), right.split_first())
            {
                if compare(*a, *b).is_le() {
                    merged.push(*a);
                    left = others;
                } else {
                    merged.push(*b);
                    right = rest;
                }
            }
            merged.extend_from_slice(left);
            merged.extend_from_slice(right);
        }
        core::mem::swap(&mut places, &mut merged);
        merged.clear();
        run *= 2;
    }
    Some(places)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers without a pattern (a linear congruence), in `kinds` values.
    fn jumble(count: u64, kinds: u64) -> Vec<(u64, usize)> {
        let mut state = 12_345_u64;
        (0..count)
            .map(|index| {
                state = state
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(1);
                ((state >> 33) % kinds, index as usize)
            })
            .collect()
    }

    #[test]
    fn it_sorts_as_the_standard_library_does_and_keeps_equals_in_order() {
        for count in 0..70 {
            for kinds in [1, 2, 7, 1000] {
                let mut ours = jumble(count, kinds);
                let mut theirs = ours.clone();
                sort_by(&mut ours, |a, b| a.0.cmp(&b.0));
                theirs.sort_by_key(|item| item.0);
                assert_eq!(ours, theirs, "{count} of {kinds} kinds");
            }
        }
    }

    #[test]
    fn numbers_of_every_kind_have_an_order() {
        let mut numbers = vec![3.0, f64::NAN, -0.0, f64::NEG_INFINITY, 0.0, -2.5];
        sort_numbers(&mut numbers);
        let shown: Vec<String> = numbers.iter().map(f64::to_string).collect();
        assert_eq!(shown, ["-inf", "-2.5", "-0", "0", "3", "NaN"]);
    }

    #[test]
    fn what_cannot_be_copied_is_moved_whole() {
        let mut words: Vec<String> = ["c", "a", "b"].map(str::to_owned).to_vec();
        sort_by(&mut words, String::cmp);
        assert_eq!(words, ["a", "b", "c"]);
    }
}
