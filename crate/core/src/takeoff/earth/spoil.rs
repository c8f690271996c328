//! The spoil: all of it loose, its pile, and what is hauled.

use super::{ENTERED, Earth, PER_BANK, VOLUME, all_dug, from_spoil, loads, swell};
use crate::site::ConstructionSettings;
use crate::stockpile::Heap;
use crate::takeoff::expression::{Expression, given, measured, setting};
use crate::takeoff::{Group, Inputs, Line, MeasuredOn, Takeoff};
use crate::units::Measure;

pub(super) fn take(inputs: &Inputs<'_>, earth: &Earth, taken: &mut Takeoff) {
    let works = inputs.works;
    let line = |key, label, measure, expression, source| {
        Line::new(key, Group::Haul, label, measure, expression, source).on(MeasuredOn::Opening)
    };
    let spoil = line(
        "spoil-loose",
        "Spoil, loose",
        VOLUME,
        all_dug(earth) * swell(works),
        PER_BANK,
    );
    let all_loose = spoil.named("spoil, loose");
    taken.lines.push(spoil);
    if let Some(heap) = inputs.moved.pile {
        taken.lines.extend(pile(works, heap, all_loose));
    }
    let bank = line(
        "haul-bank",
        "To haul, bank",
        VOLUME,
        all_dug(earth) - from_spoil(earth),
        "common practice",
    )
    .paying_for("haul");
    let loose = line(
        "haul-loose",
        "To haul, loose",
        VOLUME,
        bank.named("to haul, bank") * swell(works),
        PER_BANK,
    )
    .paying_for("haul");
    let weight = line(
        "haul-weight",
        "To haul, weight",
        Measure::Mass,
        bank.named("to haul, bank") * bank_weight(works),
        "soil weighs the same loose as in place; wet soil weighs more",
    )
    .paying_for("haul");
    let (volume, mass) = (
        loose.named("to haul, loose"),
        weight.named("to haul, weight"),
    );
    taken.lines.extend([bank, loose, weight]);
    loads::take(works, volume, mass, taken);
}

fn bank_weight(works: &ConstructionSettings) -> Expression {
    let source = match works.dig.density {
        Some(_) => ENTERED,
        None => works.dig.material.density_source(),
    };
    given(
        "weight of the bank",
        works.dig.bank_density(),
        Measure::Density,
        source,
    )
}

/// The pile on the lot.
fn pile(works: &ConstructionSettings, heap: &Heap, loose: Expression) -> [Line; 3] {
    let spoil = &works.spoil;
    let shape = if heap.top > 0.0 {
        "a cone at the slope of repose, cut off level at the greatest height"
    } else {
        "a cone at the slope of repose"
    };
    let line = |key, label, measure, expression, source| {
        Line::new(key, Group::Haul, label, measure, expression, source).on(MeasuredOn::Stockpile)
    };
    let share = setting("share that is piled", spoil.piled, Measure::Fraction);
    let volume = line(
        "pile-loose",
        "Pile on the lot, loose",
        VOLUME,
        (loose * share).closer(heap.volume),
        "common practice",
    );
    let repose = "geometry; the slope of repose is common practice";
    let of_pile = |value| {
        measured(shape, value)
            .under(volume.named("pile on the lot, loose"))
            .under(setting("slope of repose", spoil.repose, Measure::Slope))
    };
    let width = line(
        "pile-width",
        "Pile, across",
        Measure::Length,
        of_pile(2.0 * heap.radius),
        repose,
    )
    .assuming(true, "The pile is taken to stand on level ground.");
    let most = setting("greatest height", spoil.most_height, Measure::Length);
    let height = line(
        "pile-height",
        "Pile, height",
        Measure::Length,
        of_pile(heap.height).under(most),
        repose,
    );
    [volume, width, height]
}
