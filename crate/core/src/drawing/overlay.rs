//! What quantities lay over the plan: the geometry that a quantity was measured on.

use super::{Drawing, Focus, Layer, earth, hardware, tape};
use crate::analysis::{Analysis, ShellRings};
use crate::geom::{Region, boolean};
use crate::shell::Shell;
use crate::site::CheckedSite;
use crate::stockpile::Stockpile;
use crate::takeoff::MeasuredOn;

/// What lies over the plan: banks and pile, what is laid round the shell, and what a quantity was measured
/// on, where the ledger looks at it.
pub fn overlay(site: &CheckedSite, analysis: &Analysis, focus: Focus<'_>) -> Drawing {
    let mut drawing = Drawing::default();
    earth::lies(&mut drawing, site, analysis);
    hardware::lies(&mut drawing, site, analysis);
    tape::lies(&mut drawing, site, analysis, focus);
    let Focus::Quantity(key) = focus else {
        return drawing;
    };
    let line = analysis.takeoff.iter().find(|line| line.key == key);
    if let (Some(line), Some((shell, placement)), Some(rings)) =
        (line, site.placed_shell(), &analysis.rings)
    {
        let pose = placement.pose();
        if hardware::light(&mut drawing, site, analysis, line.on, &pose) {
            return drawing;
        }
        match line.on {
            MeasuredOn::Opening => opening(&mut drawing, analysis),
            MeasuredOn::Pad => drawing.area(Layer::Focus, site.equipment().unwrap_or_default()),
            MeasuredOn::WatersEdge => drawing.path(
                Layer::FocusLine,
                shell.outline.posed(&pose).segments().collect(),
                true,
            ),
            MeasuredOn::Fill | MeasuredOn::Cut | MeasuredOn::Retained => {
                let deck = of_shell(MeasuredOn::Deck, shell, rings);
                drawing.area(Layer::Focus, deck.posed(&pose));
                banks(&mut drawing, analysis, line.on);
            }
            MeasuredOn::Stockpile => {
                let pile = analysis.stockpile.as_ref();
                drawing.area(
                    Layer::Focus,
                    pile.map(Stockpile::footprint).unwrap_or_default(),
                );
            }
            MeasuredOn::Rim => edge(&mut drawing, &shell.rim.posed(&pose)),
            on => {
                let region = of_shell(on, shell, rings);
                drawing.area(Layer::Focus, region.posed(&pose));
            }
        }
    }
    drawing
}

fn opening(drawing: &mut Drawing, analysis: &Analysis) {
    if let Some(dig) = &analysis.dig {
        drawing.area(Layer::Focus, dig.top_edge.clone());
    }
}

/// Where the banks of fill, or those of cut, meet the ground.
fn banks(drawing: &mut Drawing, analysis: &Analysis, on: MeasuredOn) {
    let Some(grading) = &analysis.grading else {
        return;
    };
    let bank = if on == MeasuredOn::Cut {
        &grading.crest
    } else {
        &grading.toe
    };
    for line in &bank.lines {
        let pairs = line.iter().zip(line.iter().skip(1));
        drawing.lines(Layer::FocusLine, pairs.map(|(a, b)| (*a, *b)).collect());
    }
}

/// The edge of a region.
fn edge(drawing: &mut Drawing, region: &Region) {
    for ring in region.rings() {
        drawing.lines(Layer::FocusLine, ring.edges().collect());
    }
}

/// What goes with the shell, in its frame; empty for what does not.
fn of_shell(on: MeasuredOn, shell: &Shell, rings: &ShellRings) -> Region {
    let round = |outer: &Region, inner: &Region| boolean::difference(outer, inner);
    match on {
        MeasuredOn::Bottom => rings.over_dig.clone(),
        MeasuredOn::Deepest | MeasuredOn::Dewatering => deepest(shell),
        MeasuredOn::Floor => shell.footprint.clone(),
        MeasuredOn::Water => rings.waters_edge.clone(),
        MeasuredOn::Body => shell.rim.clone(),
        MeasuredOn::Collar => round(&rings.collar, &shell.rim),
        MeasuredOn::Deck | MeasuredOn::Joints | MeasuredOn::Forms | MeasuredOn::Rods => {
            round(&rings.deck, &shell.rim)
        }
        MeasuredOn::DeckBed => round(&rings.deck, &rings.collar),
        MeasuredOn::Backfill => round(&rings.over_dig, &shell.footprint),
        MeasuredOn::Ties => round(&shell.rim, &shell.footprint),
        _ => Region::default(),
    }
}

/// The facets of the floor that reach the greatest depth.
fn deepest(shell: &Shell) -> Region {
    let depth = shell.deepest() - 1e-6;
    let deep = shell.facets.iter().filter(|facet| {
        let mut corners = facet.region.rings().flat_map(|ring| ring.0.iter());
        corners.any(|p| facet.plane.depth(*p) >= depth)
    });
    let polygons = deep.flat_map(|facet| facet.region.polygons.iter().cloned());
    Region {
        polygons: polygons.collect(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]

    use std::sync::Arc;

    use super::super::Item;
    use super::*;
    use crate::analysis::{self, Cache, Detail, Scenario};
    use crate::shell::catalogue;
    use crate::site::{Placement, ShellChoice, Site, starter};

    fn placed() -> (CheckedSite, Analysis) {
        let name = catalogue::all()[0].name.clone();
        let lot = CheckedSite::check(starter::blank_lot(), None).unwrap();
        let (low, high) = lot.lot().region.bounds().unwrap();
        let placement = Placement {
            shell: Arc::new(ShellChoice::Catalogue(name)),
            at: low + (high - low) * 0.5,
            heading: 0.3,
            mirrored: false,
            coping_elevation: 0.1,
        };
        let site = Site {
            placement: Some(placement),
            ..Site::clone(lot.site())
        };
        let site = CheckedSite::check(site, None).unwrap();
        let mut cache = Cache::default();
        let analysis = analysis::run(&Scenario::of(&site), Detail::Complete, &mut cache);
        (site, analysis)
    }

    /// Whether anything is lit.
    fn lights(over: &Drawing) -> bool {
        let lit = |layer: Layer| matches!(layer, Layer::Focus | Layer::FocusLine);
        over.items.iter().any(|item| match item {
            Item::Area { layer, .. } | Item::Path { layer, .. } | Item::Lines { layer, .. } => {
                lit(*layer)
            }
            _ => false,
        })
    }

    #[test]
    fn the_pile_lies_on_the_plan_whatever_is_looked_at() {
        let (site, analysis) = placed();
        let over = overlay(&site, &analysis, Focus::None);
        let text = over.items.iter().find_map(|item| match item {
            Item::Label { text, .. } if text.starts_with("spoil pile") => Some(text),
            _ => None,
        });
        assert!(text.unwrap().ends_with("high"));
    }

    #[test]
    fn every_quantity_measured_on_the_plan_lights_it_up() {
        let (site, analysis) = placed();
        assert!(!analysis.takeoff.is_empty());
        for line in &analysis.takeoff {
            let over = overlay(&site, &analysis, Focus::Quantity(line.key));
            let lit = lights(&over);
            assert_eq!(lit, line.on != MeasuredOn::Nothing, "{}", line.key);
        }
    }

    #[test]
    fn what_is_not_listed_lights_nothing_up() {
        let (site, analysis) = placed();
        for focus in [Focus::None, Focus::Quantity("no-such-quantity")] {
            let over = overlay(&site, &analysis, focus);
            assert!(!lights(&over));
        }
    }
}
