//! The work beyond the land it may stand on, whatever the rules say: shell, deck, equipment
//! and dig over a lot line or in an easement, and the dig through what stands or lies there.

use crate::clearance::WorkFigures;
use crate::finding::{Finding, Topic};
use crate::geom::Point;
use crate::geom::distance::{Figure, Measurable};
use crate::site::{CheckedFeature, CheckedSite, FeatureKind};
use crate::units::{Measure, show};

/// A reach smaller than this is rounding, metres.
const HAIR: f64 = 1e-6;

/// One part of the work and how it is spoken of.
struct Part<'a> {
    code: &'static str,
    words: &'static str,
    place: &'static str,
    area: &'a Measurable<'a>,
    out: f64,
}

/// Everything that reaches where it must not.
pub(super) fn beyond(site: &CheckedSite, work: &WorkFigures) -> Vec<Finding> {
    let ready = |area| Measurable::of(Figure::Area(area));
    let lot = ready(&site.lot().region);
    let [water, dig, drawn] = [&work.waters_edge, &work.dig, &work.drawn_decks].map(ready);
    let pad = work.equipment.as_ref().map(ready);
    let mut found = Vec::new();
    for part in parts(work, [&water, &dig, &drawn], pad.as_ref()) {
        lot_lines(site, &part, &lot, &mut found);
        for feature in site.features().iter() {
            if feature.kind == FeatureKind::Easement {
                found.extend(easement(site, &part, feature));
            }
        }
    }
    for feature in site.features().iter() {
        found.extend(in_the_way(site, &dig, feature));
    }
    found
}

/// The parts of the work, the widest of what stands on the ground last.
fn parts<'a>(
    work: &WorkFigures,
    [water, dig, drawn]: [&'a Measurable<'a>; 3],
    pad: Option<&'a Measurable<'a>>,
) -> Vec<Part<'a>> {
    let part = |code, words, place, area, out| Part {
        code,
        words,
        place,
        area,
        out,
    };
    let mut parts = vec![
        part("shell-beyond", "shell's rim", "/placement", water, work.rim),
        part("dig-beyond", "dig", "/placement", dig, 0.0),
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
        parts.push(part("deck-beyond", "drawn deck", "/features", drawn, 0.0));
    }
    if let Some(pad) = pad {
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
fn lot_lines(
    site: &CheckedSite,
    part: &Part<'_>,
    whole: &Measurable<'_>,
    found: &mut Vec<Finding>,
) {
    let lot = site.lot();
    let within = part.area.within(whole);
    for (side, chain) in lot.lot.sides.iter().zip(&lot.sides) {
        if within.is_clear_of(chain, part.out) {
            continue;
        }
        let Some(pair) = within.nearest(chain) else {
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
                Finding::caution(part.code, message, remedy),
                part,
                pair.to,
            ));
        }
    }
}

/// A part of the work in an easement.
fn easement(site: &CheckedSite, part: &Part<'_>, feature: &CheckedFeature) -> Option<Finding> {
    let easement = Measurable::of(feature.shape.figure());
    if part.area.boxes_apart(&easement) > part.out {
        return None;
    }
    let pair = part.area.nearest(&easement)?;
    (pair.distance - part.out < -HAIR).then(|| {
        let message = format!("The {} reaches into {}.", part.words, label(site, feature));
        let remedy = "Move it out, or get the written consent of whoever holds the easement.";
        placed(Finding::caution(part.code, message, remedy), part, pair.to)
    })
}

/// The dig, or else the shell, where something stands or lies already.
fn in_the_way(
    site: &CheckedSite,
    dig: &Measurable<'_>,
    feature: &CheckedFeature,
) -> Option<Finding> {
    let (code, remedy) = match feature.kind {
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
    let other = Measurable::of(feature.shape.figure());
    if dig.boxes_apart(&other) > 0.0 {
        return None;
    }
    let pair = dig.nearest(&other)?;
    // A line that the dig merely touches is in its way already.
    (pair.distance <= 0.0).then(|| {
        let message = format!("The dig runs into {}.", label(site, feature));
        Finding::caution(code, message, remedy)
            .about(Topic::Verdict)
            .under(&format!("/features/{}", feature.index))
            .at(pair.to.x, pair.to.y)
    })
}

fn placed(finding: Finding, part: &Part<'_>, at: Point) -> Finding {
    finding
        .about(Topic::Verdict)
        .under(part.place)
        .at(at.x, at.y)
}

fn label<'a>(site: &'a CheckedSite, feature: &CheckedFeature) -> &'a str {
    let record = site.site().features.get(feature.index);
    record.map_or(feature.kind.words(), |f| f.label())
}

fn length(site: &CheckedSite, metres: f64) -> String {
    show(Measure::Length, metres, site.site().display).text
}
