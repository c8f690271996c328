//! A screen for digging below a footing.
//!
//! 29 CFR 1926.651(i) forbids digging below the base of a footing that could be undermined,
//! without support or a registered engineer's word; it gives no distance. The screen is plain
//! geometry: from every edge of the bottom a plane rises at 1 1/2 : 1, the slope that
//! 1926.652(b)(1) allows in any soil; a footing that stands above such a plane is in reach.

use super::cache::Kept;
use crate::finding::Finding;
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Ring};
use crate::shell::Shell;
use crate::site::{CheckedFeature, CheckedSite, FeatureKind, Placement};

/// Every structure whose footing the hole reaches under. A footing of unknown depth is taken
/// to lie at the ground.
pub(super) fn screen(
    site: &CheckedSite,
    shell: &Shell,
    placement: &Placement,
    kept: &mut Kept,
) -> Vec<Finding> {
    let pose = placement.pose();
    let dig = &site.site().works.dig;
    let mut found = Vec::new();
    for feature in site.features().iter().filter(|f| is_structure(f.kind)) {
        let Some(record) = site.site().features.get(feature.index) else {
            continue;
        };
        let Some(ground) = highest_ground(site, feature) else {
            continue;
        };
        let base = ground - record.facts.footing_depth.unwrap_or(0.0);
        let below_rim = placement.coping_elevation - base;
        let reach = kept.undermined(shell, dig, below_rim).posed(&pose);
        let Some(pair) = nearest(Figure::Area(&reach), feature.shape.figure()) else {
            continue;
        };
        if pair.distance > 0.0 {
            continue;
        }
        let assumed = match record.facts.footing_depth {
            Some(_) => "",
            None => " (its depth is not known; it was taken to stand on the ground)",
        };
        let message = format!(
            "A line rising at 1 1/2 : 1 from the bottom of the hole meets the footing of \
             {}{assumed}.",
            record.label(),
        );
        let remedy = "Find out how deep the footing goes; move the shell, or have a registered \
                      engineer say how the footing is kept (29 CFR 1926.651(i)).";
        found.push(
            Finding::caution("dig-near-footing", message, remedy)
                .under(&format!("/features/{}", feature.index))
                .at(pair.to.x, pair.to.y),
        );
    }
    found
}

fn is_structure(kind: FeatureKind) -> bool {
    matches!(
        kind,
        FeatureKind::House | FeatureKind::Outbuilding | FeatureKind::Wall
    )
}

/// The highest ground at a corner of a feature: where its footing stands highest.
fn highest_ground(site: &CheckedSite, feature: &CheckedFeature) -> Option<f64> {
    let corners: Vec<Point> = match feature.shape.figure() {
        Figure::Area(region) => region
            .rings()
            .flat_map(|Ring(points)| points)
            .copied()
            .collect(),
        Figure::Chain(points) => points.to_vec(),
    };
    let heights = corners.iter().map(|p| site.ground().height(*p).elevation);
    heights.reduce(f64::max)
}
