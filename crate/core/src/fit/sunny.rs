//! What a place promises of sun on the water: hours of the day read off a grid of the lot.

use std::sync::Arc;

use crate::finding::Finding;
use crate::geom::pole::poles;
use crate::geom::winding::stretches;
use crate::geom::{Point, Pose, Region, Ring, Vector};
use crate::shell::Shell;
use crate::site::CheckedSite;
use crate::site::book::Day;
use crate::sun::{SunDay, SunField, no_place};

/// From one place that is looked at to the next, meters (our choice).
const PLACES: f64 = 0.75;

/// The water is looked at in about so many points.
const POINTS: f64 = 24.0;

/// Of places with as much sun the one with more room: a meter of it counts as so many seconds of sun.
const SECONDS_A_METER: f64 = 1.0;

/// The sun over a lot, and the points of one shell's water.
#[derive(Debug, Clone)]
pub(super) struct Sunny {
    field: Arc<SunField>,
    points: Vec<Point>,
}

/// The day that a search asks about.
///
/// # Errors
/// Nobody said where on the earth the site lies, or the year is out of range.
pub(super) fn day_of(site: &CheckedSite, wanted: Option<Day>) -> Result<SunDay, Finding> {
    let usual = SunDay::usual(&site.site().origin.ok_or_else(no_place)?);
    wanted.map_or(Ok(usual), |date| usual.on(date))
}

impl Sunny {
    /// For the shell that stands on a site; `known` is the field of the same lot.
    ///
    /// # Errors
    /// A site without a place on the earth.
    pub(super) fn of(
        site: &CheckedSite,
        day: &SunDay,
        known: Option<&Arc<SunField>>,
    ) -> Result<Option<Self>, Finding> {
        let Some((shell, placement)) = site.placed_shell() else {
            return Ok(None);
        };
        let plane = placement.coping_elevation - shell.record.waterline;
        let field = match known {
            Some(field) => Arc::clone(field),
            None => Arc::new(SunField::of(site, day, plane)?),
        };
        Ok(Some(Self {
            field,
            points: points(shell),
        }))
    }

    /// The field of the lot.
    pub(super) fn field(&self) -> &Arc<SunField> {
        &self.field
    }

    /// The place of clear ground with the most sun, and those with the most room, each with what it promises.
    pub(super) fn places(
        &self,
        region: &Region,
        (heading, mirrored): (f64, bool),
    ) -> Vec<(Point, f64)> {
        let promising = |at: Point, room: f64| {
            let sun = self.seconds(&Pose::new(at, heading, mirrored));
            (at, sun + room * SECONDS_A_METER)
        };
        let deepest = poles(region);
        let deepest = deepest.iter().map(|pole| promising(pole.at, pole.depth));
        let sunniest = inside(region, PLACES)
            .into_iter()
            .map(|at| promising(at, 0.0))
            .reduce(|best, it| if it.1 > best.1 { it } else { best });
        deepest.chain(sunniest).collect()
    }

    /// Sun on the water of the shell there, seconds.
    fn seconds(&self, pose: &Pose) -> f64 {
        let points = self.points.iter();
        self.field.mean(points.map(|p| pose.site_from_shell(*p)))
    }
}

/// Points of the water, evenly, in the shell's frame.
fn points(shell: &Shell) -> Vec<Point> {
    inside(&shell.footprint, (shell.footprint.area() / POINTS).sqrt())
}

/// The points of a square grid inside a region.
fn inside(region: &Region, step: f64) -> Vec<Point> {
    let Some((low, high)) = region.bounds() else {
        return Vec::new();
    };
    let rings: Vec<Ring> = region.rings().cloned().collect();
    let mut found = Vec::new();
    let mut y = low.y + step / 2.0;
    while y < high.y {
        let from = Point::new(low.x, y);
        for (start, end) in stretches(from, Vector::new(1.0, 0.0), &rings) {
            let mut x = ((start / step - 0.5).ceil() + 0.5) * step;
            while x < end {
                found.push(from + Vector::new(x, 0.0));
                x += step;
            }
        }
        y += step;
    }
    found
}
