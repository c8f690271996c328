//! Setback lines: where a rule keeps the work from a lot line or a feature.
//!
//! They only draw; distances decide (see `clearance`). Each is the edge of the land within
//! the rule's distance of its target, as far as that edge lies inside the lot.

use super::{Drawing, Layer};
use crate::geom::offset::{widen, widen_chain};
use crate::geom::{Point, Region, Ring, Vector, boolean};
use crate::math::TURN;
use crate::site::{CheckedShape, CheckedSite, MeasuredTo, Rule};
use crate::units::{Measure, show};

/// Chord error of setback lines, metres: drawn at a pixel's width or more.
const TOLERANCE: f64 = 0.005;

/// The shortest line worth a label, metres.
const SHORTEST_LABELLED: f64 = 2.0;

/// Draws every rule's line inside the lot.
pub(super) fn draw(drawing: &mut Drawing, site: &CheckedSite) {
    for rule in site.site().rules.iter().filter(|r| r.distance > 0.0) {
        match rule.to {
            MeasuredTo::LotLine { kind } => {
                for (side, chain) in site.lot().lot.sides.iter().zip(&site.lot().sides) {
                    if kind.is_none_or(|k| k == side.kind) {
                        draw_one(
                            drawing,
                            site,
                            rule,
                            &widen_chain(chain, rule.distance, TOLERANCE),
                        );
                    }
                }
            }
            MeasuredTo::Feature { kind } => {
                for feature in site.features().iter().filter(|f| f.kind == kind) {
                    let near = match &feature.shape {
                        CheckedShape::Area(_, region) => widen(region, rule.distance, TOLERANCE),
                        CheckedShape::Track(_, chain) => {
                            widen_chain(chain, rule.distance, TOLERANCE)
                        }
                    };
                    draw_one(drawing, site, rule, &near);
                }
            }
        }
    }
}

/// Draws the edge of `near` as far as it lies inside the lot, with the rule on its longest part.
fn draw_one(drawing: &mut Drawing, site: &CheckedSite, rule: &Rule, near: &Region) {
    let lot = site.lot();
    let inside = boolean::intersection(near, &lot.region);
    let edges: Vec<(Point, Point)> = inside
        .rings()
        .flat_map(Ring::edges)
        // What runs along the lot line is the lot's own.
        .filter(|(a, b)| {
            lot.sides
                .iter()
                .all(|side| !runs_along(a.midpoint(*b), side))
        })
        .collect();
    let longest = edges
        .iter()
        .max_by(|a, b| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)));
    if let Some(&(from, to)) = longest.filter(|(a, b)| a.distance(*b) >= SHORTEST_LABELLED) {
        let along = (to - from).bearing();
        let distance = show(Measure::Length, rule.distance, site.site().display).text;
        let aside = Vector::along_bearing(along + TURN / 4.0) * 0.4;
        drawing.label(
            Layer::Setback,
            from.midpoint(to) + aside,
            along,
            format!("{distance} to {}", rule.from.words()),
        );
    }
    drawing.lines(Layer::Setback, edges);
}

/// Whether a point lies on a chain, within twice the drawing's chord error.
fn runs_along(at: Point, chain: &[Point]) -> bool {
    chain.iter().zip(chain.iter().skip(1)).any(|(a, b)| {
        let along = *b - *a;
        let t = ((at - *a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        at.distance(*a + along * t) <= 2.0 * TOLERANCE
    })
}
