//! The area a deed states and the one its courses enclose.

use serde::Serialize;

/// The area a deed states beside the area its courses enclose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct AreaComparison {
    /// Stated area, m2.
    pub stated: f64,
    /// Area inside the courses, m2.
    pub computed: f64,
    /// Computed less stated, as a share of the stated area.
    pub difference: f64,
}

impl AreaComparison {
    /// Of a stated and a computed area, m2; `None` unless the stated one is above zero.
    pub fn of(stated: f64, computed: f64) -> Option<Self> {
        (stated.is_finite() && stated > 0.0).then(|| Self {
            stated,
            computed,
            difference: (computed - stated) / stated,
        })
    }
}
