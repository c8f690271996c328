//! The ground of a site at a glance: how low and how high, which contours suit it, and how much
//! of the lot nobody measured.

use crate::finding::Finding;
use crate::finding::said;
use crate::geom::Vector;
use crate::ground::GroundRecord;
use crate::ground::contour::{
    Contour, contours, drawn_interval, plane_contours, proposed_interval,
};
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// The ground of a site at a glance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Relief {
    /// The lowest ground, meters: of the surveyed area, or on the lot where it is told in figures.
    pub low: f64,
    /// The highest ground, meters.
    pub high: f64,
}

impl Relief {
    /// Of a site.
    pub fn of(site: &CheckedSite) -> Self {
        if let Some((low, high)) = site.ground().surveyed_range() {
            return Self { low, high };
        }
        let (at, elevation, gradient) = match *site.site().ground {
            GroundRecord::Plane {
                at,
                elevation,
                fall,
                towards,
            } => (at, elevation, Vector::along_bearing(towards) * -fall),
            GroundRecord::Level { elevation } => {
                (site.site().lot.start, elevation, Vector::default())
            }
            GroundRecord::Spots { .. } => (site.site().lot.start, 0.0, Vector::default()),
        };
        let corners = site.lot().region.rings().flat_map(|ring| &ring.0);
        let heights = corners.map(|p| elevation + gradient.dot(*p - at));
        let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| {
            (low.min(z), high.max(z))
        });
        Self { low, high }
    }

    /// The contour interval that suits it, meters, in whole steps of the units in use.
    pub fn proposed_interval(&self, site: &CheckedSite) -> f64 {
        let unit = Measure::Elevation.shown_unit(site.site().display);
        proposed_interval(self.high - self.low, unit.to_si(1.0))
    }

    /// The interval that is drawn, meters; `None` where the site asks for no contours.
    pub fn drawn_interval(&self, site: &CheckedSite) -> Option<f64> {
        let asked = site.site().contours?;
        Some(drawn_interval(asked, self.high - self.low))
    }
}

/// The contours of a site at its own interval; none where it has none.
pub fn drawn_contours(site: &CheckedSite) -> Vec<Contour> {
    let Some(interval) = Relief::of(site).drawn_interval(site) else {
        return Vec::new();
    };
    match *site.site().ground {
        GroundRecord::Level { .. } => Vec::new(),
        GroundRecord::Plane {
            at,
            elevation,
            fall,
            towards,
        } => {
            let gradient = Vector::along_bearing(towards) * -fall;
            plane_contours(&site.lot().region, at, elevation, gradient, interval)
        }
        GroundRecord::Spots { .. } => contours(site.ground().surveyed_facets(), interval),
    }
}

/// The share of the lot whose ground nobody measured, 0 to 1.
pub fn unknown_share(site: &CheckedSite) -> f64 {
    let lot = &site.lot().region;
    site.ground().unknown_within(lot).area() / lot.area()
}

/// What is worth knowing of datum and contours.
pub(super) fn notes(site: &CheckedSite) -> Vec<Finding> {
    let document = site.site();
    let mut notes = Vec::new();
    if let Some(mark) = document.benchmark.as_ref().filter(|mark| mark.assumed) {
        notes.push(
            Finding::note(
                "assumed-datum",
                said!(
                    "All elevations count from an assumed datum: {mark}.",
                    mark = mark.told(document.display),
                ),
                "Compare them with no other drawing before the benchmark's real elevation is known.",
            )
            .under("/benchmark"),
        );
    }
    if let Some(asked) = document.contours
        && let Some(drawn) = Relief::of(site).drawn_interval(site)
        && drawn > asked
    {
        let text = show(Measure::Elevation, drawn, document.display).text;
        notes.push(
            Finding::note(
                "contours-thinned",
                said!(
                    "Contours this close would cover the plan; they are drawn every {interval}.",
                    interval = text,
                ),
                "Choose a wider interval.",
            )
            .under("/contours"),
        );
    }
    notes
}
