//! Distances measured aslant: to a wire overhead by its height as well as in plan.
//!
//! A wire that is known to hang so high above the ground is taken as level at the lowest place it may
//! have: that height above the lowest ground under it. So the distance to it is never longer than
//! it is, and one figure holds for the whole wire.

use super::Subject;
use crate::geom::Point;
use crate::geom::distance::Figure;
use crate::math::{greater, hypot};
use crate::site::{CheckedSite, FeatureKind, Rule};

/// How high above the rim the thing hangs that a rule measures to aslant, meters. Nothing where it measures
/// in plan, or where nobody has entered how high the wire hangs.
pub(crate) fn above_rim(site: &CheckedSite, rule: &Rule, subject: Subject) -> f64 {
    let Subject::Feature(index) = subject else {
        return 0.0;
    };
    if !rule.slant {
        return 0.0;
    }
    let record = site.site().features.get(index);
    let wire = record.filter(|it| it.kind == FeatureKind::OverheadLine);
    let height = wire.and_then(|it| it.facts.height);
    let placement = site.site().placement.as_ref();
    let (Some(height), Some(placement)) = (height, placement) else {
        return 0.0;
    };
    let ground = |p: &Point| site.ground().height(*p).elevation;
    let lowest = match subject.figure(site) {
        Some(Figure::Chain(points)) => points.iter().map(ground).reduce(f64::min),
        Some(Figure::Area(region)) => {
            let points = region.rings().flat_map(|ring| &ring.0);
            points.map(ground).reduce(f64::min)
        }
        None => None,
    };
    let above = lowest.map(|lowest| lowest + height - placement.coping_elevation);
    above.map_or(0.0, |above| greater(above, 0.0))
}

/// The distance aslant to something so far off in plan (negative inside it) and so high above, meters.
pub(super) fn aslant(plan: f64, above: f64) -> f64 {
    if above > 0.0 {
        hypot(greater(plan, 0.0), above)
    } else {
        plan
    }
}

/// How far off in plan something so high above has to be for a distance aslant, meters; none where it is far
/// enough wherever it is.
pub(crate) fn in_plan(distance: f64, above: f64) -> Option<f64> {
    if above > 0.0 {
        (above < distance).then(|| (distance * distance - above * above).sqrt())
    } else {
        Some(distance)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_aslant_and_the_way_in_plan_are_one_triangle() {
        // 3, 4, 5.
        assert!((aslant(3.0, 4.0) - 5.0).abs() < 1e-12);
        assert_eq!(in_plan(5.0, 4.0).map(|it| (it * 1e9).round()), Some(3e9));
        assert_eq!(in_plan(5.0, 5.0), None);
        // A rule that asks for no distance still bars what it names.
        assert_eq!(in_plan(0.0, 0.0), Some(0.0));
        // Under the wire its height is all there is.
        assert!((aslant(-1.0, 4.0) - 4.0).abs() < 1e-12);
        assert!((aslant(-1.0, 0.0) + 1.0).abs() < 1e-12);
    }
}
