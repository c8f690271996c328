//! What a checked lot tells of its closure, its balance and its area.

use super::area::AreaComparison;
use super::record::{Balance, LotRecord};
use super::traverse::Closure;
use crate::finding::said;
use crate::finding::{Finding, Message};
use crate::units::{Measure, System, format_decimal, show};

/// How far stated and computed area may differ before a caution, as a share (our choice).
const AREA_AGREEMENT: f64 = 0.01;

/// The courses end so far from their start that one of them is wrong or missing.
pub(super) fn not_closed(closure: &Closure) -> Finding {
    Finding::fault(
        "lot-open",
        format!(
            "The courses do not come back to their start: they miss it by {}.",
            both_systems(Measure::Misclosure, closure.length)
        ),
        "Look for a missing course, a wrong quadrant letter or two digits exchanged.",
    )
    .under("/courses")
}

/// The courses close, but worse than the record asks.
pub(super) fn closing_caution(closure: &Closure, record: &LotRecord) -> Option<Finding> {
    let least = record.closing_ratio;
    let taken_up = match record.balance {
        Some(Balance::CompassRule) => "The compass rule spreads the gap over all corners.",
        None => "The last course takes up the gap.",
    };
    let ratio = closure.ratio.filter(|ratio| *ratio < least)?;
    Some(
        Finding::caution(
            "lot-closure",
            said!(
                "The courses miss their start by {gap}: 1:{ratio}, where 1:{least} was asked. {taken_up}",
                gap = both_systems(Measure::Misclosure, closure.length),
                ratio = format_decimal(ratio, 0),
                least = format_decimal(least, 0),
                taken_up = taken_up,
            ),
            "Check every course against the deed; ask the surveyor before relying on a \
             distance to a lot line.",
        )
        .under("/courses"),
    )
}

/// The corners are not those of the courses as described.
pub(super) fn balance_note(closure: &Closure, record: &LotRecord) -> Option<Finding> {
    let Balance::CompassRule = record.balance?;
    closure.ratio?;
    Some(
        Finding::note(
            "lot-balanced",
            format!(
                "The corners are balanced by the compass rule: a misclosure of {} is spread over \
                 all courses by their lengths. The courses are kept as described.",
                both_systems(Measure::Misclosure, closure.length),
            ),
            "",
        )
        .under("/balance"),
    )
}

/// The courses enclose another area than the deed states.
pub(super) fn area_caution(comparison: &AreaComparison) -> Option<Finding> {
    let difference = comparison.difference;
    if difference.abs() <= AREA_AGREEMENT {
        return None;
    }
    Some(
        Finding::caution(
            "lot-area",
            said!(
                "The courses enclose {computed}, but {stated} is stated: {percent}% {more}.",
                computed = both_systems(Measure::LandArea, comparison.computed),
                stated = both_systems(Measure::LandArea, comparison.stated),
                percent = format_decimal(difference.abs() * 100.0, 1),
                more = if difference > 0.0 { "more" } else { "less" },
            ),
            "Check every course against the deed, and which way each curve bends.",
        )
        .under("/stated_area"),
    )
}

/// A figure in feet and in meters: a finding does not know who reads it.
fn both_systems(measure: Measure, value: f64) -> Message {
    let feet = show(measure, value, System::Feet);
    let metres = show(measure, value, System::Metres);
    said!(
        "{feet} or {meters}",
        feet = feet.to_string(),
        meters = metres.to_string()
    )
}
