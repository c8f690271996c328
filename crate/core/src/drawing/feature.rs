//! What stands on and under the lot, each kind in its own way: hatched, ticked, lettered, with
//! its doors and gates standing open.

use super::{Anchor, Drawing, Layer, LineSide, upright, within};
use crate::geom::path::bulge_of_angle;
use crate::geom::{Point, Region, Ring, Segment, Vector, Vertex, pattern, span};
use crate::math::TURN;
use crate::site::shape::PartPlace;
use crate::site::{
    CheckedFeature, CheckedPart, CheckedShape, CheckedSite, Feature, FeatureKind, FeaturePart,
    ShapeRecord,
};

/// Spacing of hatch lines, meters (arbitrary: reads well from 1:50 to 1:300).
const HATCH_SPACING: f64 = 0.75;

/// Spacing of the letters along a line, meters (arbitrary, likewise).
const LETTER_SPACING: f64 = 4.0;

/// Spacing of the crosses along a fence and half the size of one, meters (arbitrary, likewise).
const CROSS_SPACING: f64 = 3.0;
const CROSS: f64 = 0.22;

/// An opening wider than this is drawn with two leaves, meters (our choice).
const TWO_LEAVES: f64 = 1.6;

/// Draws one feature with its parts.
pub(super) fn draw(drawing: &mut Drawing, site: &CheckedSite, feature: &CheckedFeature) {
    let Some(record) = site.site().features.get(feature.index) else {
        return;
    };
    let layer = match feature.kind {
        FeatureKind::BuriedLine => Layer::Buried(record.facts.utility),
        kind => Layer::Feature(kind),
    };
    match &feature.shape {
        CheckedShape::Area(edges, region) => {
            drawing.area(layer, region.clone());
            if let Some(angle) = hatch_angle(feature.kind) {
                let lines = pattern::hatch(region, angle, HATCH_SPACING);
                drawing.lines(Layer::Hatch(feature.kind), lines);
            }
            for boundary in edges {
                drawing.path(layer, boundary.clone(), true);
            }
            let place = match record.shape {
                ShapeRecord::Strip { .. } | ShapeRecord::Along { .. } => band_place(region),
                _ => label_place(region),
            };
            if let Some((at, along)) = place {
                // Below its trunk, where a tree has one.
                let down = record.facts.trunk.map_or(0.0, |trunk| trunk / 2.0 + 0.7);
                let at = at + Vector::new(0.0, -down);
                drawing.label(layer, within(region, at, along), label_of(record));
            }
        }
        CheckedShape::Track(track, chain) => {
            let segments: Vec<Segment> = track.segments().collect();
            let beside = Anchor::Line {
                line: chain.clone(),
                share: middle_of_longest(&segments),
                side: LineSide::Either,
            };
            drawing.label(layer, beside, label_of(record));
            drawing.path(layer, segments, false);
            marks(drawing, record, chain);
        }
    }
    for part in &feature.parts {
        draw_part(drawing, part);
    }
}

/// Where the middle of the longest stretch lies, as a part of the whole way.
fn middle_of_longest(segments: &[Segment]) -> f64 {
    let (mut way, mut longest, mut middle) = (0.0, 0.0, 0.0);
    for length in segments.iter().map(Segment::length) {
        if length > longest {
            (longest, middle) = (length, way + length / 2.0);
        }
        way += length;
    }
    if way > 0.0 { middle / way } else { 0.5 }
}

/// The cosine of the turn from one chord to the next that ends a side of a band: 15 degrees (our
/// choice; chords of a curve turn less).
const SHARP: f64 = 0.966;

/// What is written beside a feature: its name, and of a line what it is for, spelt out.
fn label_of(record: &Feature) -> String {
    let label = record.label();
    match (record.kind, record.facts.utility) {
        (FeatureKind::BuriedLine, Some(utility)) => {
            let (short, letter) = (utility.short(), utility.letter());
            if label.to_lowercase().contains(short) {
                format!("{label} ({letter})")
            } else {
                format!("{label}, {short} ({letter})")
            }
        }
        _ => label.to_owned(),
    }
}

/// What tells a line without its color: letters on wires and pipes, crosses on a fence.
fn marks(drawing: &mut Drawing, record: &Feature, chain: &[Point]) {
    let (layer, letter) = match record.kind {
        FeatureKind::BuriedLine => {
            let utility = record.facts.utility;
            (Layer::Mark(utility), utility.map_or("?", |u| u.letter()))
        }
        FeatureKind::OverheadLine => (Layer::OverheadMark, "OH"),
        FeatureKind::Fence => return crosses(drawing, chain),
        _ => return,
    };
    for (at, along) in span::marks(chain, LETTER_SPACING) {
        drawing.label(
            layer,
            Anchor::Places(vec![(at, upright(along.bearing()))]),
            letter,
        );
    }
}

fn crosses(drawing: &mut Drawing, chain: &[Point]) {
    let strokes = span::marks(chain, CROSS_SPACING).into_iter();
    let strokes = strokes.flat_map(|(at, along)| {
        let (up, down) = (
            (along + along.left()) * CROSS,
            (along - along.left()) * CROSS,
        );
        [(at - up, at + up), (at - down, at + down)]
    });
    drawing.lines(Layer::Hatch(FeatureKind::Fence), strokes.collect());
}

fn draw_part(drawing: &mut Drawing, part: &CheckedPart) {
    match &part.place {
        PartPlace::Disc(region) => {
            let layer = match part.part {
                FeaturePart::TreeTrunk => Layer::Trunk,
                _ => Layer::Protection,
            };
            drawing.area(layer, region.clone());
        }
        PartPlace::Opening(points) => {
            let edges = points.iter().zip(points.iter().skip(1));
            drawing.lines(Layer::Gap, edges.map(|(a, b)| (*a, *b)).collect());
            if part.part == FeaturePart::Window {
                return;
            }
            if let [first, .., last] = points.as_slice() {
                swing(drawing, *first, *last);
            }
        }
    }
}

/// The leaves of an opening, standing square to it on its right, which is outside of a
/// building; a wide one has two.
fn swing(drawing: &mut Drawing, from: Point, to: Point) {
    let width = to - from;
    let two = width.length() > TWO_LEAVES;
    let leaf = if two { width * 0.5 } else { width };
    let mut hang = |hinge: Point, closed: Point, turn: f64| {
        let open = hinge + -leaf.left();
        let swept = Vertex::arc(open.x, open.y, bulge_of_angle(turn * TURN / 4.0));
        let stands = Segment::Line {
            from: hinge,
            to: open,
        };
        let sweeps = Segment::between(swept, closed);
        drawing.path(Layer::Swing, vec![stands, sweeps], false);
    };
    hang(from, from + leaf, 1.0);
    if two {
        hang(to, to + -leaf, -1.0);
    }
}

/// Buildings and land with a claim on it are hatched, each kind at its own slant.
fn hatch_angle(kind: FeatureKind) -> Option<f64> {
    match kind {
        FeatureKind::House | FeatureKind::Outbuilding => Some(TURN / 8.0),
        FeatureKind::Easement => Some(-TURN / 8.0),
        FeatureKind::SepticField | FeatureKind::SepticTank => Some(0.0),
        _ => None,
    }
}

/// The middle of a region, and the bearing of its longer upright side.
fn label_place(region: &Region) -> Option<(Point, f64)> {
    let (low, high) = region.bounds()?;
    let tall = high.y - low.y > 2.5 * (high.x - low.x);
    Some((region.centroid()?, if tall { 0.0 } else { TURN / 4.0 }))
}

/// The middle of a band beside its longest side, and the bearing there. A side runs on round a
/// curve, whose chords turn little from one to the next.
fn band_place(region: &Region) -> Option<(Point, f64)> {
    let sides = region.rings().flat_map(sides_of);
    let length = |side: &[(Point, Point)]| side.iter().map(|(a, b)| a.distance(*b)).sum::<f64>();
    let longest = sides.max_by(|a, b| length(a).total_cmp(&length(b)))?;
    let mut left = length(&longest) / 2.0;
    let (a, b) = *longest.iter().find(|(a, b)| {
        left -= a.distance(*b);
        left <= 0.0
    })?;
    let along = (b - a).unit()?;
    // A band is about as wide as twice its area to the length round it.
    let inward = along.left() * (region.area() / region.perimeter());
    let middle = b + along * left;
    Some((middle + inward, along.bearing()))
}

/// The edges of a ring, side by side: a new one begins where the ring turns sharply.
fn sides_of(ring: &Ring) -> Vec<Vec<(Point, Point)>> {
    let mut sides: Vec<Vec<(Point, Point)>> = Vec::new();
    let mut before: Option<Vector> = None;
    for (a, b) in ring.edges() {
        let along = b - a;
        let runs_on = before
            .is_some_and(|before| before.dot(along) > SHARP * before.length() * along.length());
        before = Some(along);
        match sides.last_mut().filter(|_| runs_on) {
            Some(side) => side.push((a, b)),
            None => sides.push(vec![(a, b)]),
        }
    }
    sides
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::sync::Arc;

    use super::super::{Item, backdrop};
    use super::*;
    use crate::site::{Opening, Utility, starter};

    fn items(kind: FeatureKind, shape: &str, edit: impl FnOnce(&mut Feature)) -> Vec<Item> {
        let mut feature = Feature::of("it", kind, serde_json::from_str(shape).unwrap());
        edit(&mut feature);
        let mut site = starter::blank_lot();
        site.rules = Arc::default();
        site.features = Arc::new(vec![feature]);
        backdrop(&CheckedSite::check(site, None).unwrap()).items
    }

    fn words(items: &[Item], wanted: Layer) -> Vec<&str> {
        let texts = items.iter().filter_map(|item| match item {
            Item::Label { layer, text, .. } if *layer == wanted => Some(text.as_str()),
            _ => None,
        });
        texts.collect()
    }

    #[test]
    fn a_buried_line_is_told_by_letters_and_words() {
        let layer = Some(Utility::Gas);
        let line = |name: &str| {
            items(
                FeatureKind::BuriedLine,
                r#"{"track": [[1, 1], [13, 1]]}"#,
                |f| {
                    f.facts.utility = layer;
                    f.name = name.to_owned();
                },
            )
        };
        assert_eq!(words(&line(""), Layer::Mark(layer)), ["G", "G", "G"]);
        assert_eq!(
            words(&line(""), Layer::Buried(layer)),
            ["buried line, gas (G)"]
        );
        assert_eq!(
            words(&line("Gas main"), Layer::Buried(layer)),
            ["Gas main (G)"]
        );
    }

    #[test]
    fn what_is_hidden_is_not_drawn() {
        let drawn = |hidden| {
            let disc = r#"{"disc": {"at": [9, 9], "radius": 3}}"#;
            items(FeatureKind::Tree, disc, |f| {
                f.hidden = hidden;
                f.facts.trunk = Some(0.4);
            })
        };
        let has = |items: &[Item], wanted: Layer| {
            let area = |i: &Item| matches!(i, Item::Area { layer, .. } if *layer == wanted);
            items.iter().any(area)
        };
        assert!(has(&drawn(false), Layer::Trunk));
        let tree = Layer::Feature(FeatureKind::Tree);
        assert!(!has(&drawn(true), Layer::Trunk) && !has(&drawn(true), tree));
    }

    #[test]
    fn a_wide_gate_stands_open_with_two_leaves() {
        let leaves = |width| {
            let fence = items(FeatureKind::Fence, r#"{"track": [[1, 1], [13, 1]]}"#, |f| {
                f.facts.openings = vec![Opening {
                    at: Point::new(6.0, 1.0),
                    width,
                    name: String::new(),
                    window: false,
                }];
            });
            let swings = fence.iter().filter(|i| {
                matches!(i, Item::Path { layer: Layer::Swing, segments, .. }
                    if segments.iter().all(|s| s.length() > 0.3))
            });
            swings.count()
        };
        assert_eq!((leaves(1.0), leaves(3.0)), (1, 2));
    }

    #[test]
    fn the_name_of_a_band_round_a_curve_runs_along_it() {
        // A fan of 60 degrees between two circles, its middle due north of their center.
        let at = |radius: f64, degrees: f64| {
            Point::default() + Vector::along_bearing(degrees * TURN / 360.0) * radius
        };
        let steps = (0..=30).map(|i| 30.0 - 2.0 * f64::from(i));
        let outer: Vec<Point> = steps.clone().map(|d| at(20.0, d)).collect();
        let inner: Vec<Point> = steps.rev().map(|d| at(17.0, d)).collect();
        let band = Region::from_ring(Ring([outer, inner].concat()));
        let (place, along) = band_place(&band).unwrap();
        assert!(place.distance(Point::new(0.0, 18.5)) < 0.5, "{place:?}");
        let off = (along - 3.0 * TURN / 4.0).abs();
        assert!(off < 3.0 * TURN / 360.0, "{along}");
    }
}
