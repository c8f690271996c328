//! Whether a rule applies to the work, and to what on the lot.

use super::{Subject, WorkFigures};
use crate::geom::distance::{Figure, nearest};
use crate::lot::LineKind;
use crate::site::{CheckedSite, Rule, RuleConditions};
use crate::units::{Measure, show};

/// Two lines that lie this near to being equally far count as equally far, meters.
const TIE: f64 = 1e-6;

/// Whether the conditions of a rule that are about the whole job are met: the depth of the dig and
/// the size of the lot. Which side something lies on is asked of each target.
pub(crate) fn applies(site: &CheckedSite, work: &WorkFigures, rule: &Rule) -> bool {
    is_deep_enough(work, rule) && applies_on_lot(site, rule)
}

fn is_deep_enough(work: &WorkFigures, rule: &Rule) -> bool {
    let deeper = |than| work.dig_depth.is_some_and(|depth| depth > than);
    rule.only.dig_deeper_than.is_none_or(deeper)
}

/// Whether the lot's size is one that a rule applies on.
pub(crate) fn applies_on_lot(site: &CheckedSite, rule: &Rule) -> bool {
    let area = || site.lot().region.area();
    let RuleConditions {
        lot_smaller_than,
        lot_at_least,
        ..
    } = rule.only;
    lot_smaller_than.is_none_or(|limit| area() < limit)
        && lot_at_least.is_none_or(|limit| area() >= limit)
}

/// What the job has instead of what the rule's conditions ask for, in plain words; nothing where all are met.
pub(super) fn unmet(site: &CheckedSite, work: &WorkFigures, rule: &Rule) -> Vec<String> {
    let shown = |measure, value| show(measure, value, site.site().display).text;
    let mut found = Vec::new();
    if !is_deep_enough(work, rule) {
        found.push(match work.dig_depth {
            Some(depth) => format!("the dig is {} deep", shown(Measure::Length, depth)),
            None => "there is no dig yet".to_owned(),
        });
    }
    if !applies_on_lot(site, rule) {
        let area = site.lot().region.area();
        found.push(format!("the lot has {}", shown(Measure::Area, area)));
    }
    found
}

/// Whether something lies on the street side: it is a front or street-side line, or none of the lot's
/// other lines is nearer to it.
pub(super) fn is_on_street_side(site: &CheckedSite, subject: Subject) -> bool {
    let to_street = |kind| matches!(kind, LineKind::Front | LineKind::StreetSide);
    let lot = site.lot();
    if let Subject::Side(index) = subject {
        let side = lot.lot.sides.get(index);
        return side.is_some_and(|side| to_street(side.kind));
    }
    let Some(figure) = subject.figure(site) else {
        return false;
    };
    let least = |street: bool| {
        let sides = lot.lot.sides.iter().zip(&lot.sides);
        let sides = sides.filter(|(side, _)| to_street(side.kind) == street);
        let apart = sides.filter_map(|(_, chain)| nearest(figure, Figure::Chain(chain)));
        apart.map(|it| it.distance.abs()).reduce(f64::min)
    };
    match (least(true), least(false)) {
        (Some(street), Some(other)) => street <= other + TIE,
        (street, _) => street.is_some(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use std::sync::Arc;

    use super::*;
    use crate::clearance::{advice, measure};
    use crate::geom::{Point, Region, Ring};
    use crate::site::{Feature, FeatureKind, MeasuredFrom, MeasuredTo, Site, starter};
    use crate::units::constants::FOOT;
    use serde_json::json;

    /// Two fences on the starter's lot (100 by 140 ft, its front to the south): one near the street,
    /// one near the rear line.
    fn yard(only: RuleConditions) -> CheckedSite {
        let fence = |id: &str, y: f64| -> Feature {
            let ends = [40.0, 60.0].map(|x| json!([x * FOOT, y * FOOT]));
            let record =
                json!({ "id": id, "kind": "fence", "name": id, "shape": { "track": ends } });
            serde_json::from_value(record).unwrap()
        };
        let mut site: Site = starter::blank_lot();
        site.features = Arc::new(vec![fence("street", 10.0), fence("rear", 130.0)]);
        site.equipment = None;
        site.rules = Arc::new(vec![Rule {
            name: "a fence".to_owned(),
            from: MeasuredFrom::WatersEdge,
            to: MeasuredTo::Feature {
                kind: FeatureKind::Fence,
            },
            distance: 1.0,
            source: "a test".to_owned(),
            slant: false,
            only,
        }]);
        CheckedSite::check(site, None).unwrap()
    }

    fn work(dig_depth: Option<f64>) -> WorkFigures {
        WorkFigures {
            waters_edge: Region::from_ring(Ring(
                [(14.0, 18.0), (17.0, 18.0), (17.0, 21.0), (14.0, 21.0)]
                    .map(|(x, y)| Point::new(x, y))
                    .to_vec(),
            )),
            dig_depth,
            ..WorkFigures::default()
        }
    }

    fn measured(only: RuleConditions, depth: Option<f64>) -> Vec<String> {
        let site = yard(only);
        let all = measure(&site, &work(depth));
        all.into_iter().map(|it| it.target).collect()
    }

    #[test]
    fn only_what_lies_on_the_street_side() {
        let everywhere = RuleConditions::default();
        assert_eq!(measured(everywhere, None).len(), 2);
        let street = RuleConditions {
            on_street_side: true,
            ..everywhere
        };
        assert_eq!(measured(street, None), ["street"]);
    }

    #[test]
    fn only_of_a_deep_dig() {
        let deep = RuleConditions {
            dig_deeper_than: Some(1.5),
            ..RuleConditions::default()
        };
        assert!(measured(deep, None).is_empty());
        assert!(measured(deep, Some(1.5)).is_empty());
        assert_eq!(measured(deep, Some(1.51)).len(), 2);
    }

    #[test]
    fn only_on_lots_of_some_size() {
        // 14,000 sq ft.
        let area = 14_000.0 * FOOT * FOOT;
        let smaller = |limit: f64| RuleConditions {
            lot_smaller_than: Some(limit),
            ..RuleConditions::default()
        };
        let at_least = |limit: f64| RuleConditions {
            lot_at_least: Some(limit),
            ..RuleConditions::default()
        };
        assert_eq!(measured(smaller(area + 1.0), None).len(), 2);
        assert!(measured(smaller(area - 1.0), None).is_empty());
        assert_eq!(measured(at_least(area - 1.0), None).len(), 2);
        assert!(measured(at_least(area + 1.0), None).is_empty());
        let told = advice(&yard(smaller(area - 1.0)), &work(None));
        let told: Vec<&str> = told.iter().map(|it| it.code).collect();
        assert_eq!(told, ["rule-not-here"]);
    }
}
