//! The ground at a glance, as ready text for the page's ground step.

use serde::Serialize;

use crate::analysis::{Relief, unknown_share};
use crate::site::CheckedSite;
use crate::units::{Measure, Shown, show};

/// What the ground step shows beside its fields.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct GroundWords {
    /// The lowest ground that is known.
    pub low: Shown,
    /// The highest.
    pub high: Shown,
    /// The contour interval that suits it, meters.
    pub proposed: f64,
    /// The same as text.
    pub proposed_shown: Shown,
    /// The interval that is drawn, where contours are.
    pub drawn: Option<Shown>,
    /// The share of the lot whose ground is unknown; `None` where it is known all over.
    pub unknown: Option<Shown>,
}

impl GroundWords {
    /// Of a site.
    pub fn of(site: &CheckedSite) -> Self {
        let elevation = |z| show(Measure::Elevation, z, site.site().display);
        let relief = Relief::of(site);
        let proposed = relief.proposed_interval(site);
        let unknown = unknown_share(site);
        Self {
            low: elevation(relief.low),
            high: elevation(relief.high),
            proposed,
            proposed_shown: elevation(proposed),
            drawn: relief.drawn_interval(site).map(elevation),
            unknown: (unknown > 0.0).then(|| show(Measure::Fraction, unknown, site.site().display)),
        }
    }
}
