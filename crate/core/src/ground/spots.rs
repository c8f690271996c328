//! Validation of spot elevations: what a list of spots must satisfy before it is a surface.

use crate::finding::Finding;
use crate::geom::{COORDINATE_LIMIT, Point};
use crate::order::put_in_order;
use crate::units::{Measure, System, show};

/// The elevations a site can have, meters above its datum: from below the lowest shore to
/// above the highest road (the same range as the coping's).
pub const ELEVATION_RANGE: core::ops::RangeInclusive<f64> = -500.0..=9000.0;

/// The most spots a ground may have: far beyond any survey of a lot, and a few seconds' work.
pub const SPOT_LIMIT: usize = 1_000_000;

/// Two spots nearer to each other than this stand at one place, meters: no tape tells them apart.
pub(super) const ONE_PLACE: f64 = 0.001;

/// As many faults as anyone reads; a broken file may have a million.
const FAULTS_TOLD: usize = 100;

/// A checked spot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    /// Where, site meters.
    pub at: Point,
    /// Elevation, meters.
    pub elevation: f64,
    /// Its index in the file.
    pub index: usize,
}

/// Checks every spot; twins of equal elevation are merged. Sorted by x, then y, so that the
/// surface does not depend on the order of the file.
///
/// # Errors
/// Every fault, placed at `/spots/i` (at most 100 are told).
pub(super) fn check(records: &[[f64; 3]]) -> Result<Vec<Spot>, Vec<Finding>> {
    if records.len() > SPOT_LIMIT {
        return Err(vec![
            Finding::fault(
                "too-many-spots",
                format!(
                    "There are {} spots; at most {SPOT_LIMIT} are taken.",
                    records.len()
                ),
                "Keep the spots on and around the lot.",
            )
            .under("/spots"),
        ]);
    }
    let mut faults = Vec::new();
    let mut spots = Vec::with_capacity(records.len());
    for (index, record) in records.iter().enumerate() {
        let name = || format!("Spot {}", index + 1);
        match figures(index, *record, name, &format!("/spots/{index}")) {
            Ok(spot) => spots.push(spot),
            Err(found) => faults.push(found),
        }
    }
    put_in_order(&mut spots, |a, b| {
        let by_place = a.at.x.total_cmp(&b.at.x).then(a.at.y.total_cmp(&b.at.y));
        by_place.then(a.index.cmp(&b.index))
    });
    for (a, b) in spots.iter().zip(spots.iter().skip(1)) {
        if a.at == b.at && a.elevation != b.elevation {
            faults.push(two_elevations(a, b));
        }
    }
    spots.dedup_by(|b, a| a.at == b.at);
    if faults.is_empty() {
        Ok(spots)
    } else {
        Err(shortened(faults))
    }
}

/// One point with its elevation, checked. `name` is what a fault calls it.
pub(super) fn figures(
    index: usize,
    [x, y, elevation]: [f64; 3],
    name: impl Fn() -> String,
    place: &str,
) -> Result<Spot, Finding> {
    let (message, remedy) = if !(x.is_finite() && y.is_finite() && elevation.is_finite()) {
        (
            "has a figure that is not a number.".to_owned(),
            "Give each spot as east, north and elevation, in meters.",
        )
    } else if x.abs() > COORDINATE_LIMIT || y.abs() > COORDINATE_LIMIT {
        (
            format!("lies more than {COORDINATE_LIMIT} m from the site's origin."),
            "Bring the coordinates to an origin on the lot.",
        )
    } else if !ELEVATION_RANGE.contains(&elevation) {
        (
            format!("has an elevation of {elevation} m."),
            "Elevations are meters between -500 and 9,000.",
        )
    } else {
        // Adding zero turns a negative zero into a plain one, so that twins compare equal.
        return Ok(Spot {
            at: Point::new(x + 0.0, y + 0.0),
            elevation,
            index,
        });
    };
    Err(Finding::fault("spot", format!("{} {message}", name()), remedy).under(place))
}

/// An elevation in both systems: validation does not know which one is read.
pub(super) fn told(elevation: f64) -> String {
    let [feet, metres] = [System::Feet, System::Metres]
        .map(|system| show(Measure::Elevation, elevation, system).text);
    format!("{feet} ({metres})")
}

/// The fault of two spots at one place that disagree.
pub(super) fn two_elevations(a: &Spot, b: &Spot) -> Finding {
    let (first, second) = if a.index < b.index { (a, b) } else { (b, a) };
    Finding::fault(
        "two-elevations",
        format!(
            "Spots {} and {} stand at one place with elevations {} m and {} m.",
            first.index + 1,
            second.index + 1,
            first.elevation,
            second.elevation
        ),
        "Remove one of them; show a wall's top and foot as spots a little apart.",
    )
    .under(&format!("/spots/{}", second.index))
    .at(second.at.x, second.at.y)
}

/// The fault of too few places for a surface.
pub(super) fn too_few(count: usize) -> Finding {
    Finding::fault(
        "too-few-spots",
        format!(
            "There are {count} different spots and points of breaklines; a surface needs three."
        ),
        "Add spots, or give the ground as level or as an even fall.",
    )
    .under("/spots")
}

/// The fault of spots that enclose nothing.
pub(super) fn on_one_line() -> Finding {
    Finding::fault(
        "spots-on-a-line",
        "All spots lie on one line, so the ground to either side is unknown.",
        "Add a spot off the line, or give the ground as an even fall.",
    )
    .under("/spots")
}

/// The first faults, and a last one that tells how many more there are.
pub(super) fn shortened(mut faults: Vec<Finding>) -> Vec<Finding> {
    let more = faults.len().saturating_sub(FAULTS_TOLD);
    if more > 0 {
        faults.truncate(FAULTS_TOLD);
        faults.push(
            Finding::fault(
                "more-faults",
                format!("{more} more spots have faults."),
                "Mend the first ones; the others may have the same cause.",
            )
            .under("/spots"),
        );
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;

    fn checks(records: &[[f64; 3]]) -> Vec<(&'static str, String)> {
        match check(records) {
            Ok(_) => Vec::new(),
            Err(faults) => faults.into_iter().map(|f| (f.code, f.pointer)).collect(),
        }
    }

    #[test]
    fn every_bad_figure_is_told_with_its_place() {
        let bad = [
            [0.0, 0.0, 1.0],
            [f64::NAN, 0.0, 1.0],
            [0.0, f64::INFINITY, 1.0],
            [2e4, 0.0, 1.0],
            [1.0, 1.0, 1e9],
        ];
        let told = checks(&bad);
        let expected = [1, 2, 3, 4].map(|i| ("spot", format!("/spots/{i}")));
        assert_eq!(told, expected);
    }

    #[test]
    fn twins_are_merged_when_they_agree_and_refused_when_not() {
        let mut spots = vec![
            [0.0, 0.0, 1.0],
            [4.0, 0.0, 1.0],
            [0.0, 4.0, 2.0],
            [-0.0, 0.0, 1.0],
        ];
        assert_eq!(check(&spots).unwrap().len(), 3);
        spots[3][2] = 1.5;
        assert_eq!(checks(&spots), [("two-elevations", "/spots/3".to_string())]);
    }

    #[test]
    fn a_thousand_faults_are_told_in_a_hundred_and_one() {
        let spots = vec![[f64::NAN; 3]; 1000];
        let told = checks(&spots);
        assert_eq!(told.len(), 101);
        assert_eq!(told[100].0, "more-faults");
    }
}
