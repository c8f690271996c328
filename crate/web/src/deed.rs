//! A deed as the page shows it: every piece, its courses, and what they close to.

use batterboard_core::finding::Finding;
use batterboard_core::lot::deed::{self, Piece, Summary};
use batterboard_core::lot::{Course, LotRecord};
use batterboard_core::units::{Measure, Shown, System, show};
use serde::Serialize;

/// A deed as it was read.
#[derive(Debug, Serialize)]
pub struct DeedReading {
    pieces: Vec<Piece>,
    courses: Vec<Course>,
    /// The area stated, m2, as a lot record keeps it.
    stated_area: Option<f64>,
    figures: Option<Figures>,
    /// Of the text and of the lot it would make, in this order.
    findings: Vec<Finding>,
}

/// Closure and area of the courses.
#[derive(Debug, Serialize)]
struct Figures {
    northing: Shown,
    easting: Shown,
    misclosure: Shown,
    /// None when the courses close exactly.
    direction: Option<Shown>,
    ratio: Option<Shown>,
    perimeter: Shown,
    area: Option<Area>,
    stated: Option<Shown>,
    /// Computed less stated, as a share of the stated area.
    difference: Option<Shown>,
}

/// An area in the units of both systems.
#[derive(Debug, Serialize)]
struct Area {
    /// Square feet and acres.
    feet: Shown,
    /// Square metres and hectares.
    metres: Shown,
}

impl DeedReading {
    /// Reads a deed for a lot of which the rest stays.
    pub fn of(text: &str, rest: &LotRecord, system: System) -> Self {
        let reading = deed::read(text, system);
        let summary = Summary::of(&reading.record(rest));
        let figures = Figures::of(&summary, system);
        let mut findings = reading.findings;
        findings.extend(summary.findings);
        Self {
            pieces: reading.pieces,
            courses: reading.courses,
            stated_area: reading.stated_area,
            figures,
            findings,
        }
    }
}

impl Figures {
    fn of(summary: &Summary, system: System) -> Option<Self> {
        let closure = summary.closure?;
        let figure = |measure, value| show(measure, value, system);
        let area = |value| Area {
            feet: show(Measure::LandArea, value, System::Feet),
            metres: show(Measure::LandArea, value, System::Metres),
        };
        let misses = |value: f64| closure.ratio.map(|_| value);
        Some(Self {
            northing: figure(Measure::Misclosure, closure.northing),
            easting: figure(Measure::Misclosure, closure.easting),
            misclosure: figure(Measure::Misclosure, closure.length),
            direction: misses(closure.bearing).map(|b| figure(Measure::Bearing, b)),
            ratio: closure.ratio.map(|r| figure(Measure::Closing, r)),
            perimeter: figure(Measure::LongLength, closure.perimeter),
            area: summary.area.map(area),
            stated: summary
                .comparison
                .map(|c| figure(Measure::LandArea, c.stated)),
            difference: summary
                .comparison
                .map(|c| figure(Measure::Fraction, c.difference)),
        })
    }
}
