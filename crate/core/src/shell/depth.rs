//! Depths below the rim that a floor may have.

use crate::units::{Measure, System, show};

/// The deepest floor taken, meters: beyond twice any pool, so a slip of the finger.
pub(super) const DEPTH_LIMIT: f64 = 6.0;

/// What is wrong with a depth below the rim, and how to mend it.
pub(super) fn depth_fault(depth: f64) -> Option<(String, &'static str)> {
    if !depth.is_finite() {
        Some((
            "The depth is not a number.".to_owned(),
            "Give the depth below the rim.",
        ))
    } else if depth < 0.0 {
        Some((
            format!("A depth of {} lies above the rim.", both(depth)),
            "Depths are measured downward from the rim: give it without the minus sign.",
        ))
    } else if depth > DEPTH_LIMIT {
        Some((
            format!(
                "A depth of {} is deeper than any shell: {} at most.",
                both(depth),
                both(DEPTH_LIMIT)
            ),
            "Depths count down from the rim; was another unit meant?",
        ))
    } else {
        None
    }
}

/// A length in both systems of units: a shell belongs to no site, and so to neither.
fn both(length: f64) -> String {
    let text = |system| show(Measure::Length, length, system).text;
    format!("{} ({})", text(System::Feet), text(System::Metres))
}
