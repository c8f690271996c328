//! How much of anything a site may hold, checked before anything is computed from it.
//!
//! The limits are arbitrary: far above any job, and low enough that a hostile file cannot
//! keep the planner busy. One path by itself is limited by
//! [`VERTEX_LIMIT`](crate::geom::validate::VERTEX_LIMIT).

use super::{ShapeRecord, ShellChoice, Site};
use crate::finding::Finding;
use crate::ground::GroundRecord;
use crate::shell::ShellRecord;

/// Courses of the lot.
pub const COURSES: usize = 1_000;
/// Features of one site.
pub const FEATURES: usize = 2_000;
/// Vertices of all features of one site together: validation compares the sides of a path pair
/// by pair, so ten paths of the greatest length are the most it should meet.
pub const FEATURE_VERTICES: usize = 50_000;
/// Clearance rules of one site.
pub const RULES: usize = 500;
/// Rules about covered ground of one site.
pub const SHARES: usize = 50;
/// Tapes of one site.
pub const TAPES: usize = 200;
/// Readings of one site that were taken in the yard: each takes its share of the bottom from
/// every other.
pub const READINGS: usize = 500;
/// Spot elevations: one to the square meter on more than 30 acres.
pub const SPOTS: usize = 150_000;
/// Points of all breaklines together: every pair of stretches is tried for a crossing.
pub const BREAKLINE_POINTS: usize = 5_000;
/// Facets of one shell's floor.
pub const FACETS: usize = 200;

/// Everything a site holds too much of, placed in the site file.
pub(super) fn check(site: &Site) -> Vec<Finding> {
    let mut faults = Vec::new();
    let mut at_most = |place, what, count, limit| {
        faults.extend(too_many(place, what, count, limit));
    };
    at_most("/lot/courses", "courses", site.lot.courses.len(), COURSES);
    at_most("/features", "features", site.features.len(), FEATURES);
    let vertices = site.features.iter().map(|f| match &f.shape {
        ShapeRecord::Area(path) | ShapeRecord::Track(path) | ShapeRecord::Strip { path, .. } => {
            path.0.len()
        }
        ShapeRecord::Disc { .. } | ShapeRecord::Along { .. } => 1,
        ShapeRecord::Compound(pieces) => pieces
            .iter()
            .flat_map(|p| core::iter::once(&p.outer).chain(&p.holes))
            .map(|path| path.0.len())
            .sum(),
    });
    let vertices = vertices.sum();
    at_most(
        "/features",
        "points of features",
        vertices,
        FEATURE_VERTICES,
    );
    at_most("/rules", "rules", site.rules.len(), RULES);
    at_most("/shares", "rules", site.shares.len(), SHARES);
    at_most("/tapes", "tapes", site.tapes.len(), TAPES);
    if let Some(stakeout) = &site.stakeout {
        let count = stakeout.readings.len();
        at_most("/stakeout/readings", "readings", count, READINGS);
    }
    if let GroundRecord::Spots { spots, breaklines } = site.ground.as_ref() {
        let points = breaklines.iter().map(Vec::len).sum::<usize>();
        at_most("/ground/spots/spots", "spot elevations", spots.len(), SPOTS);
        at_most(
            "/ground/spots/breaklines",
            "points of breaklines",
            points,
            BREAKLINE_POINTS,
        );
    }
    if let Some(ShellChoice::Own(record)) = site.placement.as_ref().map(|p| p.shell.as_ref()) {
        faults.extend(shell(record).map(|f| f.under("/placement/shell/own")));
    }
    faults
}

/// The fault of a shell with too many facets, placed in the shell.
pub fn shell(record: &ShellRecord) -> Option<Finding> {
    too_many("/floor", "facets", record.floor.len(), FACETS)
}

pub(super) fn too_many(place: &str, what: &str, count: usize, limit: usize) -> Option<Finding> {
    (count > limit).then(|| {
        let message = format!("There are {count} {what}; at most {limit} are read.");
        let remedy = "Leave out what the plan does not need, or thin it out.";
        Finding::fault("too-many", message, remedy).under(place)
    })
}
