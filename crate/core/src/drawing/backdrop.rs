//! The half of the plan that stays while the shell moves: lot, features, ground, setbacks.

use super::{Drawing, Item, Layer, setback};
use crate::geom::{Point, Region, Segment, Vector, pattern};
use crate::ground::GroundRecord;
use crate::math::TURN;
use crate::site::{CheckedFeature, CheckedShape, CheckedSite, FeatureKind};
use crate::units::{Measure, show};

/// Spacing of hatch lines, metres (arbitrary: reads well from 1:50 to 1:300).
const HATCH_SPACING: f64 = 0.75;

/// Most spots that get their elevation written beside them; beyond it, dots only.
const LABELLED_SPOTS: usize = 150;

/// Lot, features, ground and setback lines.
pub fn backdrop(site: &CheckedSite) -> Drawing {
    let mut drawing = Drawing::default();
    let lot = site.lot();
    drawing.area(Layer::Lot, lot.region.clone());
    for feature in site.features().iter() {
        draw_feature(&mut drawing, site, feature);
    }
    spots(&mut drawing, site);
    setback::draw(&mut drawing, site);
    drawing.path(Layer::LotLine, lot.lot.outline.segments().collect(), true);
    for side in &lot.lot.sides {
        side_label(&mut drawing, site, &side.segment);
    }
    drawing
}

/// The length of a side, written outside it.
fn side_label(drawing: &mut Drawing, site: &CheckedSite, segment: &Segment) {
    let (middle, bearing) = middle_of(segment);
    // The outline runs counter-clockwise: outside is to the right.
    let outward = Vector::along_bearing(bearing + TURN / 4.0);
    let text = show(Measure::LongLength, segment.length(), site.site().display).text;
    drawing.label(Layer::LotLine, middle + outward * 0.9, bearing, text);
}

fn draw_feature(drawing: &mut Drawing, site: &CheckedSite, feature: &CheckedFeature) {
    let Some(record) = site.site().features.get(feature.index) else {
        return;
    };
    let layer = match feature.kind {
        FeatureKind::BuriedLine => Layer::Buried(record.facts.utility),
        kind => Layer::Feature(kind),
    };
    match &feature.shape {
        CheckedShape::Area(outline, region) => {
            drawing.area(layer, region.clone());
            if let Some(angle) = hatch_angle(feature.kind) {
                let lines = pattern::hatch(region, angle, HATCH_SPACING);
                drawing.lines(Layer::Hatch(feature.kind), lines);
            }
            drawing.path(layer, outline.segments().collect(), true);
            if let Some((at, along)) = label_place(region) {
                drawing.label(layer, at, along, record.label());
            }
        }
        CheckedShape::Track(track, _) => {
            let segments: Vec<Segment> = track.segments().collect();
            let longest = segments
                .iter()
                .max_by(|a, b| a.length().total_cmp(&b.length()));
            if let Some((at, along)) = longest.map(middle_of) {
                let aside = Vector::along_bearing(along - TURN / 4.0) * 0.6;
                drawing.label(layer, at + aside, along, record.label());
            }
            drawing.path(layer, segments, false);
        }
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

/// The middle of a stretch and the bearing from its start to its end.
fn middle_of(segment: &Segment) -> (Point, f64) {
    (
        segment.point_at(0.5),
        (segment.to() - segment.from()).bearing(),
    )
}

fn spots(drawing: &mut Drawing, site: &CheckedSite) {
    let GroundRecord::Spots { spots, .. } = site.site().ground.as_ref() else {
        return;
    };
    let labelled = spots.len() <= LABELLED_SPOTS;
    for &[x, y, elevation] in spots {
        let at = Point::new(x, y);
        drawing.items.push(Item::Dot {
            layer: Layer::Spot,
            at,
        });
        if labelled {
            let shown = show(Measure::Elevation, elevation, site.site().display);
            let bare = shown.text.trim_end_matches(shown.unit).trim_end();
            drawing.label(Layer::Spot, at + Vector::new(0.0, 0.5), TURN / 4.0, bare);
        }
    }
}
