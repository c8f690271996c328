//! Setback lines: where a rule keeps the work from a lot line or a feature.
//!
//! They only draw; distances decide (see `clearance`). Each is the edge of the land within
//! the rule's distance of its target, as far as that edge lies inside the lot.

use super::{Anchor, Drawing, Layer, LineSide, shown};
use crate::clearance::{Subject, above_rim, applies_on_lot, in_plan, targets};
use crate::geom::distance::Figure;
use crate::geom::offset::{offset_chain, offset_region};
use crate::geom::{Point, Region, Ring, boolean};
use crate::site::{CheckedSite, Rule};
use crate::units::{Measure, show};

/// Chord error of setback lines, meters: drawn at a pixel's width or more.
const TOLERANCE: f64 = 0.005;

/// The shortest line worth a label, meters.
const SHORTEST_LABELLED: f64 = 2.0;

/// Draws every rule's line inside the lot. Lines along the lot's sides are labelled with the
/// rule; those round features are told by their dash, or the plan would be all text.
pub(super) fn draw(drawing: &mut Drawing, site: &CheckedSite) {
    let lot = site.lot();
    let drawn = |it: &&Rule| it.distance > 0.0 && applies_on_lot(site, it);
    for rule in site.site().rules.iter().filter(drawn) {
        for (subject, _) in targets(site, rule) {
            let of = |index| shown(site).find(|f| f.index == index);
            match subject {
                Subject::Side(side) => {
                    let Some(chain) = lot.sides.get(side) else {
                        continue;
                    };
                    let near = offset_chain(chain, rule.distance, TOLERANCE);
                    let edges = edges_inside(site, &near);
                    label(drawing, site, rule, &edges);
                    drawing.lines(Layer::Setback, edges);
                }
                Subject::Feature(index) => {
                    let apart = in_plan(rule.distance, above_rim(site, rule, subject));
                    if let (Some(feature), Some(apart)) = (of(index), apart) {
                        round(drawing, site, feature.shape.figure(), apart);
                    }
                }
                Subject::Part { feature, part } => {
                    if let Some(place) = of(feature).and_then(|it| it.parts.get(part)) {
                        round(drawing, site, place.figure(), rule.distance);
                    }
                }
            }
        }
    }
}

/// The line round something on the lot.
fn round(drawing: &mut Drawing, site: &CheckedSite, figure: Figure<'_>, distance: f64) {
    let near = match figure {
        Figure::Area(region) => offset_region(region, distance, TOLERANCE),
        Figure::Chain(chain) => offset_chain(chain, distance, TOLERANCE),
    };
    drawing.lines(Layer::Setback, edges_inside(site, &near));
}

/// The edges of a region as far as they lie inside the lot.
fn edges_inside(site: &CheckedSite, near: &Region) -> Vec<(Point, Point)> {
    let lot = site.lot();
    let inside = boolean::intersection(near, &lot.region);
    let edges = inside.rings().flat_map(Ring::edges);
    // What runs along the lot line is the lot's own.
    edges
        .filter(|(a, b)| {
            let middle = a.midpoint(*b);
            lot.sides.iter().all(|side| !runs_along(middle, side))
        })
        .collect()
}

/// Writes the rule beside the longest edge.
fn label(drawing: &mut Drawing, site: &CheckedSite, rule: &Rule, edges: &[(Point, Point)]) {
    let longest = edges
        .iter()
        .max_by(|a, b| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)));
    let Some(&(from, to)) = longest.filter(|(a, b)| a.distance(*b) >= SHORTEST_LABELLED) else {
        return;
    };
    let distance = show(Measure::Length, rule.distance, site.site().display).text;
    let text = format!("{distance} to {}", rule.from.words());
    let beside = Anchor::Line {
        line: vec![from, to],
        share: 0.5,
        side: LineSide::Right,
    };
    drawing.label(Layer::Setback, beside, text);
}

/// Whether a point lies on a chain, within twice the drawing's chord error.
fn runs_along(at: Point, chain: &[Point]) -> bool {
    chain.iter().zip(chain.iter().skip(1)).any(|(a, b)| {
        let along = *b - *a;
        let t = ((at - *a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        at.distance(*a + along * t) <= 2.0 * TOLERANCE
    })
}
