//! Depths below the rim that a floor may have.

/// The deepest floor taken, meters: beyond twice any pool, so a slip of the finger.
pub(super) const DEPTH_LIMIT: f64 = 6.0;

/// What is wrong with a depth below the rim, and how to mend it.
pub(super) fn depth_fault(depth: f64) -> Option<(String, &'static str)> {
    if !depth.is_finite() {
        Some((
            "The depth is not a number.".to_owned(),
            "Give the depth below the rim in meters.",
        ))
    } else if depth < 0.0 {
        Some((
            format!("A depth of {depth} m lies above the rim."),
            "Depths are measured downward from the rim: give it without the minus sign.",
        ))
    } else if depth > DEPTH_LIMIT {
        Some((
            format!("A depth of {depth} m is deeper than any shell ({DEPTH_LIMIT} m)."),
            "Depths are meters below the rim; was it typed in feet or inches?",
        ))
    } else {
        None
    }
}
