//! The barrier round the water: what counts as part of it, whether it is closed, and where it is not.
//!
//! Fences and walls of enough height and the walls of buildings make it; gates and doors count as
//! closed and are told by name, as somebody has to see to them. Whether it is closed, and how wide
//! each opening is, comes from the gap graph (`geom::gap`), which is exact: the widest disc that
//! gets from outside to the water passes the widest opening; that one is bridged, and the next is
//! sought.

use crate::geom::gap::{Piece, widest};
use crate::geom::{Point, Polygon, Region, Ring};
use crate::site::{
    BarrierRule, CheckedFeature, CheckedShape, CheckedSite, FeatureKind, FeaturePart,
};

/// The most openings that are sought one after another.
const MOST_OPENINGS: usize = 24;

/// The barrier as it stands.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Barrier {
    /// The openings that are wider than the rule allows, the widest first.
    pub openings: Vec<Opening>,
    /// Whether it goes round the water at all: each opening is narrower than twice the way from the
    /// middle of the water to the nearest part of the barrier.
    pub goes_round: bool,
    /// The features that make it, by their indices in the site: without one of them it would be open. Every
    /// one that counts, while it is not closed or closed twice over.
    pub parts: Vec<usize>,
    /// Length of the fences and walls among them, meters.
    pub length: f64,
    /// The gates in them, as the plan calls them.
    pub gates: Vec<String>,
    /// The doors and windows in the walls of buildings among them.
    pub doors: Vec<String>,
    /// Fences and walls that are too low, by their indices in the site.
    pub too_low: Vec<usize>,
    /// Fences and walls whose height nobody has entered; they count.
    pub height_unknown: Vec<usize>,
}

/// A place where the barrier is open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Its width, meters.
    pub width: f64,
    /// Where it begins and ends, site meters.
    pub ends: [Point; 2],
}

impl Barrier {
    /// Whether it is closed about the water.
    pub fn is_closed(&self) -> bool {
        self.goes_round && self.openings.is_empty()
    }

    /// The barrier of a site by a rule, about a point of the water.
    pub fn of(site: &CheckedSite, rule: &BarrierRule, water: Point) -> Self {
        let counted: Vec<&CheckedFeature> = counted(site, rule).collect();
        let mut pieces: Vec<Piece> = counted.iter().flat_map(|it| pieces(it)).collect();
        let mut barrier = Self::default();
        while barrier.openings.len() < MOST_OPENINGS {
            let found = widest(&pieces, &[water]).filter(|it| !it.at_goal);
            let Some(pinch) = found.and_then(|it| it.pinch) else {
                break;
            };
            if pinch.width <= rule.widest_gap {
                barrier.goes_round = true;
                break;
            }
            let [from, to] = pinch.ends;
            barrier.openings.push(Opening {
                width: pinch.width,
                ends: pinch.ends,
            });
            pieces.push(Piece {
                from,
                to,
                radius: 0.0,
                owner: usize::MAX,
            });
        }
        let is_needed = |part: &&CheckedFeature| {
            let without = pieces.iter().filter(|it| it.owner != part.index);
            !is_closed(&without.copied().collect::<Vec<Piece>>(), rule, water)
        };
        let needed: Vec<&CheckedFeature> = match barrier.is_closed() {
            true => counted.iter().copied().filter(is_needed).collect(),
            false => Vec::new(),
        };
        // Of two that close it one behind the other neither is needed.
        barrier.told_of(if needed.is_empty() { &counted } else { &needed });
        for feature in site.features().iter().filter(|it| is_fence(it.kind)) {
            match height(site, feature) {
                None => barrier.height_unknown.push(feature.index),
                Some(height) if height < rule.least_height => barrier.too_low.push(feature.index),
                Some(_) => {}
            }
        }
        barrier
    }

    fn told_of(&mut self, parts: &[&CheckedFeature]) {
        self.parts = parts.iter().map(|it| it.index).collect();
        let fences = parts.iter().filter(|it| is_fence(it.kind));
        self.length = fences.map(|it| it.shape.length()).sum();
        let named = |meant: &[FeaturePart]| {
            let all = parts.iter().flat_map(|it| &it.parts);
            let meant = all.filter(|it| meant.contains(&it.part));
            meant.map(|it| it.name.clone()).collect()
        };
        self.gates = named(&[FeaturePart::Gate]);
        self.doors = named(&[FeaturePart::Door, FeaturePart::Window]);
    }
}

/// The fences and walls that count, as distances take them: one without thickness is there and back.
pub fn fences(site: &CheckedSite, rule: &BarrierRule) -> Region {
    let fences = counted(site, rule).filter(|it| is_fence(it.kind));
    let polygons = fences.flat_map(|it| match &it.shape {
        CheckedShape::Area(_, region) => region.polygons.clone(),
        CheckedShape::Track(_, chain) => {
            vec![Polygon {
                outer: Ring::there_and_back(chain),
                holes: Vec::new(),
            }]
        }
    });
    Region {
        polygons: polygons.collect(),
    }
}

fn is_fence(kind: FeatureKind) -> bool {
    matches!(kind, FeatureKind::Fence | FeatureKind::Wall)
}

fn height(site: &CheckedSite, feature: &CheckedFeature) -> Option<f64> {
    site.site().features.get(feature.index)?.facts.height
}

/// What may be part of a barrier: buildings, and fences and walls that are not known to be too low.
fn counted<'a>(
    site: &'a CheckedSite,
    rule: &BarrierRule,
) -> impl Iterator<Item = &'a CheckedFeature> {
    let least = rule.least_height;
    site.features().iter().filter(move |it| match it.kind {
        FeatureKind::House | FeatureKind::Outbuilding => true,
        kind => is_fence(kind) && height(site, it).is_none_or(|height| height >= least),
    })
}

fn is_closed(pieces: &[Piece], rule: &BarrierRule, water: Point) -> bool {
    widest(pieces, &[water])
        .is_some_and(|it| !it.at_goal && it.pinch.is_some() && it.width() <= rule.widest_gap)
}

/// The edges of a feature.
fn pieces(feature: &CheckedFeature) -> Vec<Piece> {
    let of_chain =
        |chain: &[Point]| -> Vec<Piece> { Piece::of_chain(chain, 0.0, feature.index).collect() };
    match &feature.shape {
        CheckedShape::Area(_, region) => {
            let closed = region.rings().map(Ring::closed);
            closed.flat_map(|chain| of_chain(&chain)).collect()
        }
        CheckedShape::Track(_, chain) => of_chain(chain),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use std::sync::Arc;

    use serde_json::{Value, json};

    use super::*;
    use crate::site::starter;

    const RULE: BarrierRule = BarrierRule {
        least_height: 1.2,
        widest_gap: 0.1,
        source: String::new(),
    };

    fn points(of: &[(f64, f64)]) -> Vec<Value> {
        of.iter().map(|(x, y)| json!([x, y])).collect()
    }

    fn fence(id: &str, of: &[(f64, f64)], height: Option<f64>) -> Value {
        let facts = height.map_or_else(|| json!({}), |height| json!({ "height": height }));
        json!({ "id": id, "kind": "fence", "name": id, "shape": { "track": points(of) }, "facts": facts })
    }

    fn house(openings: Value) -> Value {
        let outline = points(&[(8.0, 10.0), (22.0, 10.0), (22.0, 20.0), (8.0, 20.0)]);
        json!({ "id": "house", "kind": "house", "name": "house", "shape": { "area": outline },
                "facts": { "openings": openings } })
    }

    fn barrier(features: &[Value]) -> Barrier {
        let mut site = starter::blank_lot();
        let read = |it: &Value| serde_json::from_value(it.clone()).unwrap();
        site.features = Arc::new(features.iter().map(read).collect());
        let site = CheckedSite::check(site, None).unwrap();
        Barrier::of(&site, &RULE, Point::new(15.0, 30.0))
    }

    /// From the left corner of the house round the yard behind it to the right corner.
    const ROUND: [(f64, f64); 6] = [
        (8.0, 20.0),
        (2.0, 20.0),
        (2.0, 40.0),
        (28.0, 40.0),
        (28.0, 20.0),
        (22.0, 20.0),
    ];

    #[test]
    fn fences_and_a_house_wall_close_it() {
        let doors = json!([{ "at": [15.0, 20.0], "width": 1.0, "name": "kitchen door" }]);
        let mut round = fence("fence", &ROUND, Some(1.5));
        round["facts"]["openings"] =
            json!([{ "at": [2.0, 30.0], "width": 1.0, "name": "side gate" }]);
        let elsewhere = fence("front fence", &[(0.0, 1.0), (20.0, 1.0)], Some(1.5));
        let found = barrier(&[house(doors), round, elsewhere]);
        assert!(found.is_closed());
        // The fence in front is no part of it: without it the barrier is closed as well.
        assert_eq!(found.parts, [0, 1]);
        assert_eq!(
            (found.gates, found.doors),
            (
                vec!["side gate".to_owned()],
                vec!["kitchen door".to_owned()]
            )
        );
        assert!((found.length - (6.0 + 20.0 + 26.0 + 20.0 + 6.0)).abs() < 1e-9);
    }

    #[test]
    fn every_open_place_is_found_with_its_width() {
        let left = fence(
            "left",
            &[(7.4, 20.0), (2.0, 20.0), (2.0, 40.0), (12.0, 40.0)],
            Some(1.5),
        );
        let right = fence(
            "right",
            &[(15.0, 40.0), (28.0, 40.0), (28.0, 20.0), (22.05, 20.0)],
            Some(1.5),
        );
        let found = barrier(&[house(json!([])), left, right]);
        let widths: Vec<f64> = found.openings.iter().map(|it| it.width).collect();
        // 3 in the rear, 0.6 at the house; 0.05 at its other corner is closed.
        assert_eq!(widths.len(), 2);
        assert!((widths[0] - 3.0).abs() < 1e-9 && (widths[1] - 0.6).abs() < 1e-9);
        assert!(found.goes_round && !found.is_closed());
    }

    #[test]
    fn a_low_fence_does_not_count_and_one_of_unknown_height_is_told() {
        let low = barrier(&[house(json!([])), fence("low", &ROUND, Some(1.0))]);
        assert!(!low.is_closed() && !low.goes_round);
        assert_eq!(low.too_low, [1]);
        let unknown = barrier(&[house(json!([])), fence("old", &ROUND, None)]);
        assert!(unknown.is_closed());
        assert_eq!(unknown.height_unknown, [1]);
    }

    #[test]
    fn of_two_fences_one_behind_the_other_both_are_told() {
        let inner = [
            (5.0, 25.0),
            (25.0, 25.0),
            (25.0, 35.0),
            (5.0, 35.0),
            (5.0, 25.0),
        ];
        let outer = [
            (2.0, 22.0),
            (28.0, 22.0),
            (28.0, 40.0),
            (2.0, 40.0),
            (2.0, 22.0),
        ];
        let found = barrier(&[
            fence("inner", &inner, Some(1.5)),
            fence("outer", &outer, Some(1.5)),
        ]);
        assert!(found.is_closed());
        assert_eq!(found.parts, [0, 1]);
    }

    #[test]
    fn nothing_is_no_barrier() {
        let found = barrier(&[]);
        assert!(!found.is_closed() && found.openings.is_empty());
    }
}
