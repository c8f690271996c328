//! Decks, openings and steps that were drawn over what stands there.

use crate::finding::said;
use crate::finding::{Finding, Scope, Topic};
use crate::geom::boolean::intersection;
use crate::geom::clip::{inside, length};
use crate::geom::distance::Figure;
use crate::geom::{Point, Region};
use crate::site::{CheckedFeature, CheckedSite, FeatureKind};
use crate::units::{Measure, show};

/// An overlap is rounding, or drawn along the wall, up to this area or length: m2, meters.
const HAIR: f64 = 0.01;

/// Every structure that a drawn part of the deck lies over.
pub(super) fn findings(site: &CheckedSite) -> Vec<Finding> {
    let mut found = Vec::new();
    for drawn in site.features().iter() {
        let poured = matches!(
            drawn.kind,
            FeatureKind::Deck | FeatureKind::DeckOpening | FeatureKind::DeckSteps
        );
        let Figure::Area(area) = drawn.shape.figure() else {
            continue;
        };
        if poured {
            let others = site.features().iter();
            found.extend(others.filter_map(|other| over(site, drawn, area, other)));
        }
    }
    found
}

fn over(
    site: &CheckedSite,
    drawn: &CheckedFeature,
    area: &Region,
    other: &CheckedFeature,
) -> Option<Finding> {
    let stands = matches!(
        other.kind,
        FeatureKind::House | FeatureKind::Outbuilding | FeatureKind::Wall | FeatureKind::Equipment
    );
    if !stands {
        return None;
    }
    let (measure, shared, at) = match other.shape.figure() {
        Figure::Area(region) => {
            let both = intersection(area, region);
            (Measure::Area, both.area(), both.centroid())
        }
        Figure::Chain(chain) => {
            let parts = inside(chain, area);
            let shared = parts.iter().map(|part| length(part)).sum();
            let middle = |part: &Vec<Point>| Some(part.first()?.midpoint(*part.last()?));
            (Measure::Length, shared, parts.first().and_then(middle))
        }
    };
    let at = at.filter(|_| shared > HAIR)?;
    let message = said!(
        "The drawn {part} overlaps {thing} by {figure}.",
        part = drawn.kind.words(),
        thing = other.named(&site.site().features),
        figure = show(measure, shared, site.site().display).text,
    );
    let remedy = "Draw it up to the structure, not over it, or correct the structure's outline: the \
                  overlap is counted as poured, and its ground as graded.";
    Some(
        Finding::caution("deck-over-structure", message, remedy)
            .about(Topic::Verdict)
            .scoped(Scope::Placement)
            .under(&format!("/features/{}", drawn.index))
            .at(at.x, at.y),
    )
}
