//! How much of anything a site may hold, checked before anything is computed from it.
//!
//! The limits are arbitrary: far above any job, and low enough that a hostile file cannot
//! keep the planner busy. One path by itself is limited by
//! [`VERTEX_LIMIT`](crate::geom::validate::VERTEX_LIMIT).

use super::{FeatureKind, FeaturePart, MeasuredTo, Rule, ShapeRecord, ShellChoice, Site};
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
/// Houses, outbuildings and walls of one site: the hole is held against the footing of each.
pub const STRUCTURES: usize = 100;
/// Clearance rules of one site.
pub const RULES: usize = 500;
/// Rules about covered ground of one site.
pub const SHARES: usize = 50;
/// Tapes of one site.
pub const TAPES: usize = 200;
/// Readings of one site that were taken in the yard: each takes its share of the bottom from
/// every other.
pub const READINGS: usize = 500;
/// Photographs of one site: every stage of the work from every side, and some more.
pub const PHOTOGRAPHS: usize = 60;
/// Spot elevations: one to the square meter on more than 30 acres.
pub const SPOTS: usize = 150_000;
/// Points of all breaklines together: every pair of stretches is tried for a crossing.
pub const BREAKLINE_POINTS: usize = 5_000;
/// Doors, windows and gates of one site.
pub const OPENINGS: usize = 2_000;
/// What all rules together measure to: every rule to every line, thing or part of its kind.
pub const MEASUREMENTS: usize = 50_000;
/// Placements that are kept beside the present one: each is worked out in full to be compared.
pub const ALTERNATIVES: usize = 200;
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
    let structures = site.features.iter().filter(|it| it.kind.has_footing());
    let structures = structures.count();
    // Too many features are told as such.
    if site.features.len() <= FEATURES {
        at_most(
            "/features",
            "houses, outbuildings and walls",
            structures,
            STRUCTURES,
        );
    }
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
    let openings = site.features.iter().map(|it| it.facts.openings.len()).sum();
    at_most("/features", "doors, windows and gates", openings, OPENINGS);
    let measured = measurements(site);
    // Too many rules are told as such.
    if site.rules.len() <= RULES {
        at_most(
            "/rules",
            "distances to be measured by the rules",
            measured,
            MEASUREMENTS,
        );
    }
    let kept = site.alternatives.len();
    at_most("/alternatives", "placements kept", kept, ALTERNATIVES);
    at_most("/shares", "rules", site.shares.len(), SHARES);
    at_most("/tapes", "tapes", site.tapes.len(), TAPES);
    let taken = site.photographs.len();
    at_most("/photographs", "photographs", taken, PHOTOGRAPHS);
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

/// What the rules measure to, all together; of parts at most.
fn measurements(site: &Site) -> usize {
    let features = |kind: FeatureKind| site.features.iter().filter(|it| it.kind == kind).count();
    let openings = || site.features.iter().map(|it| it.facts.openings.len()).sum();
    let targets = |rule: &Rule| match rule.to {
        MeasuredTo::LotLine { kind } => {
            let courses = site.lot.courses.iter();
            courses
                .filter(|it| kind.is_none_or(|kind| kind == it.kind))
                .count()
        }
        MeasuredTo::Feature { kind } => features(kind),
        MeasuredTo::Part { part } => match part {
            FeaturePart::TreeTrunk | FeaturePart::TreeProtection => features(FeatureKind::Tree),
            FeaturePart::Door | FeaturePart::Gate | FeaturePart::Window => openings(),
        },
    };
    site.rules.iter().map(targets).sum()
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use crate::site::{Feature, starter};

    fn told(site: &Site) -> Vec<(&'static str, String)> {
        check(site)
            .into_iter()
            .map(|it| (it.code, it.pointer))
            .collect()
    }

    #[test]
    fn no_more_footings_than_the_hole_can_be_held_against() {
        let mut site = starter::blank_lot();
        let thing = |i: usize| {
            let kind = if i.is_multiple_of(2) {
                FeatureKind::Wall
            } else {
                FeatureKind::Fence
            };
            let at = Point::new(i as f64, 0.0);
            Feature::of(format!("t{i}"), kind, ShapeRecord::Disc { at, radius: 0.1 })
        };
        site.features = (0..2 * STRUCTURES).map(thing).collect::<Vec<_>>().into();
        assert_eq!(told(&site), []);
        site.features = (0..=2 * STRUCTURES).map(thing).collect::<Vec<_>>().into();
        assert_eq!(told(&site), [("too-many", "/features".to_owned())]);
    }

    #[test]
    fn few_rules_and_few_things_may_still_be_too_much_together() {
        let mut site = starter::blank_lot();
        let tree = |i: u32| {
            let at = Point::new(f64::from(i % 50), f64::from(i / 50));
            Feature::of(
                format!("t{i}"),
                FeatureKind::Tree,
                ShapeRecord::Disc { at, radius: 0.1 },
            )
        };
        let trees: Vec<Feature> = (0..2_000).map(tree).collect();
        site.features = trees.into();
        let to_trees = |rule: &Rule| Rule {
            to: MeasuredTo::Feature {
                kind: FeatureKind::Tree,
            },
            ..rule.clone()
        };
        let rule = to_trees(site.rules.first().unwrap());
        site.rules = vec![rule.clone(); 25].into();
        assert_eq!(told(&site), []);
        site.rules = vec![rule.clone(); 26].into();
        assert_eq!(told(&site), [("too-many", "/rules".to_owned())]);
        // As each is asked for trunks.
        let trunks = Rule {
            to: MeasuredTo::Part {
                part: FeaturePart::TreeTrunk,
            },
            ..rule
        };
        site.rules = vec![trunks; 26].into();
        assert_eq!(told(&site), [("too-many", "/rules".to_owned())]);
    }
}
