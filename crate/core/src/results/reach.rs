//! The work beyond the land it may stand on, whatever the rules say: shell, deck, equipment
//! and dig over a lot line or in an easement, and the dig through what stands or lies there.

use crate::clearance::WorkFigures;
use crate::finding::Finding;
use crate::geom::distance::{Figure, Nearest, nearest, nearest_inside};
use crate::geom::{Point, Region};
use crate::site::{CheckedFeature, CheckedSite, FeatureKind};
use crate::units::{Measure, show};

/// A reach smaller than this is rounding, metres.
const HAIR: f64 = 1e-6;

/// One part of the work and how it is spoken of.
struct Part<'a> {
    check: &'static str,
    words: &'static str,
    place: &'static str,
    area: &'a Region,
    out: f64,
}

/// Everything that reaches where it must not.
pub(super) fn beyond(site: &CheckedSite, work: &WorkFigures) -> Vec<Finding> {
    let mut found = Vec::new();
    for part in parts(work) {
        lot_lines(site, &part, &mut found);
        for feature in site.features().iter() {
            if feature.kind == FeatureKind::Easement {
                found.extend(easement(site, &part, feature));
            }
        }
    }
    for feature in site.features().iter() {
        found.extend(in_the_way(site, work, feature));
    }
    found
}

/// The parts of the work, the widest of what stands on the ground last.
fn parts(work: &WorkFigures) -> Vec<Part<'_>> {
    let part = |check, words, place, area, out| Part {
        check,
        words,
        place,
        area,
        out,
    };
    let water = &work.waters_edge;
    let mut parts = vec![
        part("shell-beyond", "shell's rim", "/placement", water, work.rim),
        part("dig-beyond", "dig", "/placement", &work.dig, 0.0),
    ];
    if work.deck_edge > work.rim {
        parts.push(part(
            "deck-beyond",
            "deck",
            "/works/deck/width",
            water,
            work.deck_edge,
        ));
    }
    if !work.drawn_decks.polygons.is_empty() {
        let drawn = &work.drawn_decks;
        parts.push(part("deck-beyond", "drawn deck", "/features", drawn, 0.0));
    }
    if let Some(pad) = &work.equipment {
        parts.push(part(
            "equipment-beyond",
            "equipment pad",
            "/equipment",
            pad,
            0.0,
        ));
    }
    parts
}

/// A part of the work over a lot line.
fn lot_lines(site: &CheckedSite, part: &Part<'_>, found: &mut Vec<Finding>) {
    let lot = site.lot();
    for (side, chain) in lot.lot.sides.iter().zip(&lot.sides) {
        let Some(pair) = nearest_inside(part.area, &lot.region, chain) else {
            continue;
        };
        if pair.distance - part.out < -HAIR {
            let message = format!(
                "The {} reaches {} over the {}.",
                part.words,
                length(site, part.out - pair.distance),
                side.label
            );
            let remedy = "Move the shell, or make the work narrower. Nothing may be built or dug \
                          on land that is not the owner's.";
            found.push(placed(
                Finding::caution(part.check, message, remedy),
                part,
                pair.to,
            ));
        }
    }
}

/// A part of the work in an easement.
fn easement(site: &CheckedSite, part: &Part<'_>, feature: &CheckedFeature) -> Option<Finding> {
    let pair = nearest(Figure::Area(part.area), feature.shape.figure())?;
    (pair.distance - part.out < -HAIR).then(|| {
        let message = format!("The {} reaches into {}.", part.words, label(site, feature));
        let remedy = "Move it out, or get the written consent of whoever holds the easement.";
        placed(Finding::caution(part.check, message, remedy), part, pair.to)
    })
}

/// The dig, or else the shell, where something stands or lies already.
fn in_the_way(site: &CheckedSite, work: &WorkFigures, feature: &CheckedFeature) -> Option<Finding> {
    let (check, remedy) = match feature.kind {
        FeatureKind::House | FeatureKind::Outbuilding | FeatureKind::Wall => (
            "dig-under-structure",
            "Move the shell. Digging beside or under a footing takes a registered engineer.",
        ),
        FeatureKind::SepticTank | FeatureKind::SepticField | FeatureKind::Well => (
            "dig-through-system",
            "Move the shell, or have the system moved by those who may.",
        ),
        FeatureKind::BuriedLine => (
            "dig-through-line",
            "Have its owner move or disconnect it, and its place marked, before anyone digs.",
        ),
        FeatureKind::Watercourse => (
            "dig-through-water",
            "Move the shell; ask the authority that watches over the water.",
        ),
        _ => return None,
    };
    let pair: Nearest = nearest(Figure::Area(&work.dig), feature.shape.figure())?;
    // A line that the dig merely touches is in its way already.
    (pair.distance <= 0.0).then(|| {
        let message = format!("The dig runs into {}.", label(site, feature));
        Finding::caution(check, message, remedy)
            .under(&format!("/features/{}", feature.index))
            .at(pair.to.x, pair.to.y)
    })
}

fn placed(finding: Finding, part: &Part<'_>, at: Point) -> Finding {
    finding.under(part.place).at(at.x, at.y)
}

fn label<'a>(site: &'a CheckedSite, feature: &CheckedFeature) -> &'a str {
    let record = site.site().features.get(feature.index);
    record.map_or(feature.kind.words(), |f| f.label())
}

fn length(site: &CheckedSite, metres: f64) -> String {
    show(Measure::Length, metres, site.site().display).text
}
