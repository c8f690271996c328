//! What the trenches for pipe run into, and where they leave the lot.

use crate::finding::said;
use crate::finding::{Finding, Scope, Severity, Topic};
use crate::geom::distance::{Figure, Measurable};
use crate::geom::{Edges, Point};
use crate::site::{CheckedSite, FeatureKind};
use crate::units::{Measure, show};

/// A reach smaller than this is rounding, meters.
const HAIR: f64 = 1e-6;

/// Everything that trenches cross. Each is `trench`: its middle, a chain of points in site meters.
pub(super) fn findings(site: &CheckedSite, trenches: &[Vec<Point>]) -> Vec<Finding> {
    let chains: Vec<Measurable<'_>> = trenches
        .iter()
        .map(|trench| Measurable::of(Figure::Chain(trench)))
        .collect();
    let mut found = Vec::new();
    found.extend(beyond_lot(site, trenches, &chains));
    for feature in site.features().iter() {
        let Some((code, severity, topic, remedy)) = crossed(feature.kind) else {
            continue;
        };
        let figure = Measurable::of(feature.shape.figure());
        let meets = chains.iter().find_map(|chain| {
            if chain.boxes_apart(&figure) > 0.0 {
                return None;
            }
            let pair = chain.nearest(&figure)?;
            (pair.distance <= 0.0).then_some(pair.to)
        });
        if let Some(at) = meets {
            let thing = feature.named(&site.site().features);
            let message = said!("The trench for pipe crosses {thing}.", thing = thing);
            let finding = Finding::new(severity, code, message, remedy);
            found.push(placed(finding, topic, at));
        }
    }
    found
}

/// What follows where a trench crosses a thing: code, how bad it is, where it is shown, what to
/// do.
fn crossed(kind: FeatureKind) -> Option<(&'static str, Severity, Topic, &'static str)> {
    use FeatureKind as K;
    Some(match kind {
        K::House | K::Outbuilding | K::SepticTank | K::SepticField | K::Well => (
            "trench-through",
            Severity::Fault,
            Topic::Verdict,
            "Draw the trench round it, or move the pad.",
        ),
        K::Watercourse => (
            "trench-through-water",
            Severity::Caution,
            Topic::Verdict,
            "Draw the trench round it, or ask the authority that has charge of the water.",
        ),
        K::Easement => (
            "trench-in-easement",
            Severity::Caution,
            Topic::Verdict,
            "Draw the trench round it, or get the written consent of whoever holds the easement.",
        ),
        K::BuriedLine => (
            "trench-over-line",
            Severity::Caution,
            Topic::Pipe,
            "Have the line located and marked, and dig by hand near the marks.",
        ),
        _ => return None,
    })
}

/// The trench farthest over a lot line, by its edge. `chains` are the trenches, ready to be measured.
fn beyond_lot(
    site: &CheckedSite,
    trenches: &[Vec<Point>],
    chains: &[Measurable<'_>],
) -> Option<Finding> {
    let lot = &site.lot().region;
    let half = site.site().works.pipe.trench_width / 2.0;
    let boundary = Edges::of_region(lot);
    let mut farthest: Option<(f64, Point)> = None;
    for p in trenches.iter().flatten() {
        let apart = boundary.distance(*p);
        let over = half + if lot.contains(*p) { -apart } else { apart };
        if over > HAIR && farthest.is_none_or(|(most, _)| over > most) {
            farthest = Some((over, *p));
        }
    }
    // Between its corners a trench may leave the lot where the lot has a notch.
    let sides = &site.lot().sides;
    let crossing = || {
        let sides = sides.iter().map(|side| Measurable::of(Figure::Chain(side)));
        let sides: Vec<Measurable<'_>> = sides.collect();
        chains.iter().find_map(|chain| {
            sides.iter().find_map(|side| {
                let pair = chain.nearest(side)?;
                (half - pair.distance > HAIR).then_some((half - pair.distance, pair.to))
            })
        })
    };
    let (over, at) = farthest.or_else(crossing)?;
    let message = said!(
        "The trench for pipe reaches {length} over the lot line.",
        length = show(Measure::Length, over, site.site().display).text,
    );
    let remedy = "Draw the trench on the lot, or move the pad: nothing is dug on land that is not \
                  the owner's.";
    let finding = Finding::fault("trench-beyond-lot", message, remedy);
    Some(placed(finding, Topic::Verdict, at))
}

fn placed(finding: Finding, topic: Topic, at: Point) -> Finding {
    finding
        .about(topic)
        .scoped(Scope::Placement)
        .under("/works/pipe")
        .at(at.x, at.y)
}
