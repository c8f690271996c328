//! Validation of ground told in figures: level, an even fall, and what a surface of spots gives
//! to think about. (Spots themselves: [`super::spots`].)

use super::facet::Facet;
use super::spots::ELEVATION_RANGE;
use crate::finding::said;
use crate::finding::{Finding, Topic};
use crate::geom::{COORDINATE_LIMIT, Point};

/// The steepest even fall that is taken, drop per meter of run. Steeper ground is no lot.
const STEEPEST_FALL: f64 = 1.0;

/// The fault of an elevation out of range.
pub(super) fn elevation_fault(place: &str, elevation: f64) -> Option<Finding> {
    (!ELEVATION_RANGE.contains(&elevation)).then(|| {
        Finding::fault(
            "elevation",
            format!("The elevation is {elevation} m."),
            "Elevations are meters between -500 and 9,000.",
        )
        .under(place)
    })
}

/// Every fault of an even fall.
pub(super) fn plane_faults(at: Point, elevation: f64, fall: f64, towards: f64) -> Vec<Finding> {
    let mut faults: Vec<Finding> = elevation_fault("/plane/elevation", elevation)
        .into_iter()
        .collect();
    let mut check = |good: bool, place: &str, message: String, remedy: &'static str| {
        if !good {
            faults.push(Finding::fault("plane", message, remedy).under(place));
        }
    };
    check(
        at.is_finite() && at.x.abs() <= COORDINATE_LIMIT && at.y.abs() <= COORDINATE_LIMIT,
        "/plane/at",
        "The point of known elevation lies too far off or is not a number.".into(),
        "Give a point on the lot, in meters.",
    );
    check(
        fall.abs() <= STEEPEST_FALL,
        "/plane/fall",
        format!("The ground falls {fall} m per meter."),
        "Give the drop per meter of run, at most 1.",
    );
    check(
        (-100.0..=100.0).contains(&towards),
        "/plane/towards",
        format!("The bearing down the slope is {towards} radians."),
        "Give a bearing in radians, clockwise from north.",
    );
    faults
}

/// Stretches of breaklines that could not be put into the surface.
pub(super) fn left_out(edges: &[[usize; 2]], points: &[Point]) -> Option<Finding> {
    let [first, _] = *edges.first()?;
    let finding = Finding::caution(
        "breakline-left-out",
        said!(
            "{count} stretches of breaklines lie too close to others and were left out.",
            count = edges.len().to_string(),
        ),
        "Draw the lines there farther apart, or as one line.",
    )
    .under("/breaklines");
    Some(match points.get(first) {
        Some(p) => finding.at(p.x, p.y),
        None => finding,
    })
}

/// What is worth knowing about a surface of spots.
pub(super) fn notes(facets: &[Facet], merged: usize) -> Vec<Finding> {
    let mut notes = vec![
        Finding::note(
            "ground-beyond-spots",
            "Beyond the outermost spots the ground is unknown; there the nearest known \
             elevation is assumed.",
            "Take spots beyond every edge of the dig.",
        )
        .about(Topic::Dig)
        .under("/spots"),
    ];
    if merged > 0 {
        notes.push(
            Finding::note(
                "spots-merged",
                said!(
                    "{count} spots repeat another and were left out.",
                    count = merged.to_string(),
                ),
                "",
            )
            .about(Topic::Dig)
            .under("/spots"),
        );
    }
    let steep = |f: &&Facet| f.gradient().is_some_and(|g| g.length() > STEEPEST_FALL);
    let count = facets.iter().filter(steep).count();
    if let Some(first) = facets.iter().find(steep) {
        let [p, ..] = first.corners;
        notes.push(
            Finding::caution(
                "steep-spots",
                said!(
                    "Between spots the ground is steeper than 1 in 1 in {count} places.",
                    count = count.to_string(),
                ),
                "Check the elevations there for a slip of the pen; show a wall as two breaklines, along its top and its foot.",
            ).about(Topic::Dig)
            .under("/spots")
            .at(p.x, p.y),
        );
    }
    notes
}
