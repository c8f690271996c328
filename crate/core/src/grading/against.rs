//! The coping against what stands and lies round it.

use super::Grading;
use crate::clearance::WorkFigures;
use crate::dig::Dig;
use crate::geom::Point;
use crate::geom::distance::{Figure, Measurable, Nearest};
use crate::site::shape::PartPlace;
use crate::site::{CheckedSite, FeatureKind, FeaturePart};

/// The coping against one level.
#[derive(Debug, Clone, PartialEq)]
pub struct Against {
    /// What the level is, in words.
    pub what: String,
    /// Its elevation, meters.
    pub level: f64,
    /// How far the coping stands above it, meters; negative when it stands below.
    pub coping_above: f64,
    /// Where, site meters, if it has a place.
    pub at: Option<Point>,
}

/// The coping against finished floors, the ground at doors, the ground along rim and deck, and
/// the ground at the nearest lot line. On request: it looks up the ground many times.
pub fn against(
    site: &CheckedSite,
    work: &WorkFigures,
    dig: &Dig,
    grading: &Grading,
) -> Vec<Against> {
    let Some((_, placement)) = site.placed_shell() else {
        return Vec::new();
    };
    let coping = placement.coping_elevation;
    let mut rows = Vec::new();
    let mut row = |what: String, level: f64, at: Option<Point>| {
        rows.push(Against {
            what,
            level,
            coping_above: coping - level,
            at,
        });
    };
    let ground = |p: Point| site.ground().height(p).elevation;
    for feature in site.features().iter() {
        let Some(record) = site.site().features.get(feature.index) else {
            continue;
        };
        if !matches!(feature.kind, FeatureKind::House | FeatureKind::Outbuilding) {
            continue;
        }
        if let Some(floor) = record.facts.finished_floor {
            row(format!("finished floor of {}", record.label()), floor, None);
        }
        for part in feature.parts.iter().filter(|p| p.part == FeaturePart::Door) {
            let PartPlace::Opening(points) = &part.place else {
                continue;
            };
            let Some(at) = points.get(points.len() / 2) else {
                continue;
            };
            row(format!("ground at {}", part.name), ground(*at), Some(*at));
        }
    }
    let highest = coping + dig.ground_above_rim;
    row("highest ground along the rim".to_owned(), highest, None);
    let lowest = coping - dig.rim_above_ground;
    row("lowest ground along the rim".to_owned(), lowest, None);
    for (height, what) in [
        (
            grading.lies,
            "ground where it stands highest at the deck's edge",
        ),
        (
            grading.stands,
            "ground where it lies lowest at the deck's edge",
        ),
    ] {
        if let Some(height) = height {
            row(what.to_owned(), ground(height.at), Some(height.at));
        }
    }
    let lot = site.lot();
    let sides = lot.lot.sides.iter().zip(&lot.sides);
    let ready = |area| Measurable::of(Figure::Area(area));
    let (water, whole) = (ready(&work.waters_edge), ready(&lot.region));
    let within = water.within(&whole);
    let pairs = sides.filter_map(|(side, chain)| {
        let pair = within.nearest(chain)?;
        Some((pair, side.label.as_str()))
    });
    let nearest = pairs.fold(None, |best: Option<(Nearest, &str)>, next| match best {
        Some(best) if best.0.distance <= next.0.distance => Some(best),
        _ => Some(next),
    });
    if let Some((pair, label)) = nearest {
        row(
            format!("ground at the {label}, the nearest lot line"),
            ground(pair.to),
            Some(pair.to),
        );
    }
    rows
}
