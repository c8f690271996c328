//! What the courses of a lot close to and enclose, as the page shows it.

use batterboard_core::lot::deed::Summary;
use batterboard_core::units::{Measure, Shown, System, show};
use serde::Serialize;
use tsify::Tsify;

/// Closure and area of courses.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct LotClosing {
    northing: Shown,
    easting: Shown,
    misclosure: Shown,
    /// None when the courses close exactly.
    direction: Option<Shown>,
    ratio: Option<Shown>,
    perimeter: Shown,
    area: Option<AreaBothWays>,
    stated: Option<Shown>,
    /// Computed less stated, as a share of the stated area.
    difference: Option<Shown>,
    /// The ratio that was asked for, where the courses close worse.
    poorer_than: Option<Shown>,
}

/// An area in the units of both systems.
#[derive(Debug, Serialize, Tsify)]
pub struct AreaBothWays {
    /// Square feet and acres.
    feet: Shown,
    /// Square meters and hectares.
    metres: Shown,
}

impl LotClosing {
    /// Of courses that were asked to close within 1 to `asked`; `None` where there are none.
    pub fn of(summary: &Summary, asked: f64, system: System) -> Option<Self> {
        let closure = summary.closure?;
        let figure = |measure, value| show(measure, value, system);
        let area = |value| AreaBothWays {
            feet: show(Measure::LandArea, value, System::Feet),
            metres: show(Measure::LandArea, value, System::Metres),
        };
        let misses = |value: f64| closure.ratio.map(|_| value);
        let poor = closure.ratio.is_some_and(|ratio| ratio < asked);
        Some(Self {
            northing: figure(Measure::Misclosure, closure.northing),
            easting: figure(Measure::Misclosure, closure.easting),
            misclosure: figure(Measure::Misclosure, closure.length),
            direction: misses(closure.bearing).map(|b| figure(Measure::Bearing, b)),
            ratio: closure.ratio.map(|r| figure(Measure::Closing, r)),
            perimeter: figure(Measure::LongLength, summary.perimeter?),
            area: summary.area.map(area),
            stated: summary
                .comparison
                .map(|c| figure(Measure::LandArea, c.stated)),
            difference: summary
                .comparison
                .map(|c| figure(Measure::Fraction, c.difference)),
            poorer_than: poor.then(|| figure(Measure::Closing, asked)),
        })
    }
}
