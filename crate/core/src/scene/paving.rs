//! Collar, deck, the bed under it, and steps.

use super::moulding::THIN;
use super::place::Placed;
use super::plan::{Layer, Lines};
use super::{Matter, Scene, Span, Stage};
use crate::geom::offset::offset_region;
use crate::geom::{Edges, Point, VOLUME_TOLERANCE};

/// Adds them.
pub(super) fn build(scene: &mut Scene, placed: &Placed<'_>) {
    let (shell, works, coping) = (placed.shell, placed.works, placed.coping);
    let out = shell.record.coping_width + works.collar.width;
    let ring = offset_region(&shell.footprint, out, VOLUME_TOLERANCE);
    let mut lines = Lines::default();
    lines.shell_region(&shell.rim, &placed.pose, THIN);
    lines.shell_region(&ring, &placed.pose, THIN);
    if let Some(deck) = placed.deck {
        let flights = deck.steps.iter().map(|flight| &flight.region);
        for region in [&deck.slab, &deck.bed].into_iter().chain(flights) {
            lines.shell_region(region, &placed.pose, THIN);
        }
    }
    let rim = Edges::of_region(&shell.rim);
    let collar = |q: Point| -> Layer {
        let top = coping - works.collar.top_below_rim;
        let over = ring.contains(q) && !shell.rim.contains(q);
        over.then_some((top - works.collar.depth, top))
    };
    let settings = &works.deck;
    let plan = lines.part(scene.section.as_ref());
    let [collar, slab, bed, steps] = plan.bodies(|p| {
        let q = placed.inward(p);
        let mut layers = [collar(q), None, None, None];
        if let Some(deck) = placed.deck {
            let top = coping - settings.fall * rim.distance(q);
            let under = top - settings.thickness;
            let flight = deck.steps.iter().any(|it| it.region.contains(q));
            let [_, slab, bed, steps] = &mut layers;
            *slab = deck.slab.contains(q).then_some((under, top));
            *steps = flight.then_some((under, top));
            *bed = (flight || deck.bed.contains(q)).then_some((under - settings.bed, under));
        }
        layers
    });
    let span = Span::from(Stage::Decked);
    for (matter, mesh) in [
        (Matter::Collar, collar),
        (Matter::Deck, slab),
        (Matter::DeckBed, bed),
        (Matter::Steps, steps),
    ] {
        scene.add(matter, matter.words(), span, mesh);
    }
}
