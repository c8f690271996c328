//! What an estimate lays over the plan: the geometry that a quantity was measured on.

use super::{Drawing, Focus, Layer};
use crate::estimate::Estimate;
use crate::geom::{Region, boolean};
use crate::results::{Results, ShellRings};
use crate::shell::Shell;
use crate::site::CheckedSite;
use crate::takeoff::On;

/// What lies over the plan where the ledger looks at one of the estimate's quantities.
pub fn overlay(
    site: &CheckedSite,
    results: &Results,
    estimate: &Estimate,
    focus: Focus<'_>,
) -> Drawing {
    let mut drawing = Drawing::default();
    let Focus::Quantity(key) = focus else {
        return drawing;
    };
    let line = estimate.takeoff.iter().find(|line| line.key == key);
    if let (Some(line), Some((shell, placement)), Some(rings)) =
        (line, site.placed_shell(), &results.rings)
    {
        let pose = placement.pose();
        match line.on {
            On::Opening => opening(&mut drawing, results),
            On::Pad => drawing.area(Layer::Focus, site.equipment().unwrap_or_default()),
            On::WatersEdge => drawing.path(
                Layer::FocusLine,
                shell.outline.posed(&pose).segments().collect(),
                true,
            ),
            On::Rim => edge(&mut drawing, &shell.rim.posed(&pose)),
            on => {
                let region = of_shell(on, shell, rings);
                drawing.area(Layer::Focus, region.posed(&pose));
            }
        }
    }
    drawing
}

fn opening(drawing: &mut Drawing, results: &Results) {
    if let Some(dig) = &results.dig {
        drawing.area(Layer::Focus, dig.top_edge.clone());
    }
}

/// The edge of a region.
fn edge(drawing: &mut Drawing, region: &Region) {
    for ring in region.rings() {
        drawing.lines(Layer::FocusLine, ring.edges().collect());
    }
}

/// What goes with the shell, in its frame; empty for what does not.
fn of_shell(on: On, shell: &Shell, rings: &ShellRings) -> Region {
    let round = |outer: &Region, inner: &Region| boolean::difference(outer, inner);
    match on {
        On::Bottom => rings.over_dig.clone(),
        On::Deepest | On::Dewatering => deepest(shell),
        On::Floor => shell.footprint.clone(),
        On::Water => rings.waters_edge.clone(),
        On::Body => shell.rim.clone(),
        On::Collar => round(&rings.collar, &shell.rim),
        On::Deck | On::Joints | On::Forms | On::Rods => round(&rings.deck, &shell.rim),
        On::DeckBed => round(&rings.deck, &rings.collar),
        On::Backfill => round(&rings.over_dig, &shell.footprint),
        On::Ties => round(&shell.rim, &shell.footprint),
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

    use super::*;
    use crate::estimate;
    use crate::results::Cache;
    use crate::shell::catalogue;
    use crate::site::{Placement, ShellChoice, Site, starter};

    fn placed() -> (CheckedSite, Results, Estimate) {
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
        let results = Results::compute(&site, &mut Cache::default());
        let estimate = Estimate::of(&site, &results, &mut estimate::Cache::default());
        (site, results, estimate)
    }

    #[test]
    fn every_quantity_measured_on_the_plan_lights_it_up() {
        let (site, results, estimate) = placed();
        assert!(!estimate.takeoff.is_empty());
        for line in &estimate.takeoff {
            let over = overlay(&site, &results, &estimate, Focus::Quantity(line.key));
            let lit = over != Drawing::default();
            assert_eq!(lit, line.on != On::Nothing, "{}", line.key);
        }
    }

    #[test]
    fn what_is_not_listed_lights_nothing_up() {
        let (site, results, estimate) = placed();
        for focus in [Focus::None, Focus::Quantity("no-such-quantity")] {
            let over = overlay(&site, &results, &estimate, focus);
            assert_eq!(over, Drawing::default());
        }
    }
}
