//! Which bounds leave nothing between them, and what they are called.

use super::bounds::{Bounds, Cause};
use crate::clearance::Subject;
use crate::order::put_in_order;
use crate::site::CheckedSite;

impl Bounds<'_> {
    /// What leaves no place at a heading: a set of causes from which none can be taken away without a
    /// place coming free, beside the lot's own lines. Empty where there is a place, and where the lot
    /// alone leaves none.
    ///
    /// The more bounds, the less is left: the fewest of the last causes that leave nothing are found by
    /// halving, the first of those is needed, and the others are looked for behind it.
    pub fn what_leaves_nothing(&self, heading: f64, mirrored: bool) -> Vec<Cause> {
        let mut causes: Vec<Cause> = self.all().iter().map(|it| it.cause).collect();
        causes.retain(|it| !matches!(it, Cause::LotLine(_)));
        put_in_order(&mut causes, Ord::cmp);
        causes.dedup();
        let none_left = |needed: &[Cause], others: &[Cause]| {
            let fewer = self.only(&[needed, others].concat());
            fewer.region(heading, mirrored).is_empty()
        };
        let mut needed = Vec::new();
        let mut rest = causes.as_slice();
        if !none_left(&needed, rest) {
            return needed;
        }
        while !none_left(&needed, &[]) {
            let (mut enough, mut too_few) = (rest.len(), 0);
            while enough - too_few > 1 {
                let last = enough.midpoint(too_few);
                match rest.get(rest.len() - last..) {
                    Some(others) if !none_left(&needed, others) => too_few = last,
                    _ => enough = last,
                }
            }
            let Some((first, behind)) =
                rest.get(rest.len() - enough..).and_then(<[_]>::split_first)
            else {
                break;
            };
            needed.push(*first);
            rest = behind;
        }
        needed
    }
}

/// What a cause is called: `Water to house (garage)`.
pub fn cause_words(site: &CheckedSite, cause: Cause) -> String {
    let records = site.site();
    let feature = |index: usize| {
        let record = records.features.get(index);
        record.map_or_else(String::new, |it| it.label().to_owned())
    };
    let side = |index: usize| {
        let side = site.lot().lot.sides.get(index);
        side.map_or_else(String::new, |it| it.label.to_string())
    };
    match cause {
        Cause::LotLine(index) => side(index),
        Cause::Conflict(index) => feature(index),
        Cause::Rule(rule, subject) => {
            let name = records.rules.get(rule).map_or("", |it| it.name.as_str());
            let to = match subject {
                Subject::Side(index) => side(index),
                Subject::Feature(index) | Subject::Part { feature: index, .. } => feature(index),
            };
            format!("{name} ({to})")
        }
    }
}

/// Why no place is left at a heading, as a sentence: `causes` as [`Bounds::what_leaves_nothing`] finds them.
pub fn nothing_left_words(site: &CheckedSite, causes: &[Cause]) -> String {
    let names: Vec<String> = causes.iter().map(|it| cause_words(site, *it)).collect();
    match names.as_slice() {
        [] => "No clear ground: at this heading the work does not fit on the lot.".to_owned(),
        [one] => format!("No clear ground at this heading: {one} leaves none."),
        [rest @ .., last] => format!(
            "No clear ground at this heading: {} and {last} leave none between them.",
            rest.join(", ")
        ),
    }
}
