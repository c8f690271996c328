//! Things put in order, without a sort made anew for every type of thing.
//!
//! The standard sort is compiled once for each type and each comparison, 5 to 8 kB a time in the page's module. Here
//! their places are sorted, which is one sort for all, and each thing is then moved once to where it belongs. Meant
//! for lists that are short, or sorted once; numbers alone, and what is sorted many times a frame, keep the standard sort.

use core::cmp::Ordering;

/// Puts `things` in order. Stable: what compares equal stays as it stood.
pub fn put_in_order<T>(things: &mut [T], mut compare: impl FnMut(&T, &T) -> Ordering) {
    let mut sources = sources(
        things.len(),
        &mut |a, b| match (things.get(a), things.get(b)) {
            (Some(a), Some(b)) => compare(a, b),
            _ => Ordering::Equal,
        },
    );
    // Each cycle of places is walked once; a place that was filled is its own source from then on.
    for start in 0..sources.len() {
        let mut place = start;
        while let Some(source) = sources.get_mut(place) {
            let from = core::mem::replace(source, place);
            if from == start || from == place {
                break;
            }
            things.swap(place, from);
            place = from;
        }
    }
}

/// [`put_in_order`] by a key of each thing.
pub fn put_in_order_by<T, K: Ord>(things: &mut [T], key: impl Fn(&T) -> K) {
    put_in_order(things, |a, b| key(a).cmp(&key(b)));
}

/// For each place, where that stands now which belongs there.
fn sources(count: usize, compare: &mut dyn FnMut(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|a, b| compare(*a, *b));
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn it_is_the_order_of_the_standard_sort(things in prop::collection::vec((0_u8..9, any::<u16>()), 0..60)) {
            let mut expected = things.clone();
            expected.sort_by_key(|(key, _)| *key);
            let mut ours = things;
            put_in_order_by(&mut ours, |(key, _)| *key);
            prop_assert_eq!(ours, expected);
        }
    }
}
