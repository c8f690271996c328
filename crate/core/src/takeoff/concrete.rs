//! The collar, the deck with its steps, and the equipment pad.

use super::line::{GEOMETRY, Group, Line, SETTING};
use super::{Inputs, On, Takeoff};
use crate::finding::{Finding, Topic};
use crate::site::Works;
use crate::units::Measure;

const EVEN_SLAB: &str = "The slab is of even thickness; its fall is given by the bed.";

const ONCE: &str =
    "Ring and drawn decks united, so that no place counts twice; the collar lies below the slab.";

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let works = inputs.works;
    let mut poured = Vec::new();
    poured.push(("collar concrete", collar(inputs, taken)));
    poured.push(("deck concrete", deck(inputs, taken)));
    poured.extend(steps(inputs, taken).map(|volume| ("step concrete", volume)));
    poured.extend(pad(inputs, taken).map(|volume| ("pad concrete", volume)));
    let sum = Line::new(
        "concrete",
        Group::Concrete,
        "Concrete in all",
        (
            poured.iter().map(|(_, volume)| volume).sum(),
            Measure::ConcreteVolume,
        ),
        "sum of the lines above",
        "sum of the lines above",
    );
    taken
        .lines
        .push(poured.into_iter().fold(sum, |line, (name, volume)| {
            line.with(name, volume, Measure::ConcreteVolume)
        }));
    taken.findings.extend(notes(works));
    if let Some(feature) = inputs.deck.and_then(|deck| deck.unknown_rise) {
        taken.findings.push(
            Finding::note(
                "steps-without-rise",
                "Nobody told how high the steps rise: they are counted as flat slab.",
                "Tell their height in the Yard step.",
            )
            .about(Topic::Concrete)
            .under(&format!("/features/{feature}/facts")),
        );
    }
}

fn collar(inputs: &Inputs<'_>, taken: &mut Takeoff) -> f64 {
    let (works, measured, waste) = (inputs.works, inputs.measured, inputs.works.waste.concrete);
    let collar = measured.collar_area * works.collar.depth * (1.0 + waste);
    taken.lines.extend([
        Line::new(
            "collar-area",
            Group::Concrete,
            "Collar, area",
            (measured.collar_area, Measure::Area),
            "area between the rim and the same widened by the collar's width, corners rounded",
            GEOMETRY,
        )
        .on(On::Collar)
        .paying_for("collar")
        .with("length of the rim", measured.rim_length, Measure::Length)
        .given(
            "collar's width",
            works.collar.width,
            Measure::Length,
            SETTING,
        ),
        Line::new(
            "collar-concrete",
            Group::Concrete,
            "Collar concrete",
            (collar, Measure::ConcreteVolume),
            "area of the collar x depth x (1 + waste)",
            "common practice: a collar round the whole rim",
        )
        .on(On::Collar)
        .paying_for("collar")
        .with("area of the collar", measured.collar_area, Measure::Area)
        .given("depth", works.collar.depth, Measure::Length, SETTING)
        .wasting(waste),
    ]);
    collar
}

fn deck(inputs: &Inputs<'_>, taken: &mut Takeoff) -> f64 {
    let (works, measured, waste) = (inputs.works, inputs.measured, inputs.works.waste.concrete);
    let drawn = inputs.deck.map_or(0.0, |deck| deck.drawn_area);
    let area = inputs.deck.map_or(measured.deck_area, |deck| deck.area);
    let deck = area * works.deck.thickness * (1.0 + waste);
    let formula = match inputs.deck {
        Some(deck) if deck.as_drawn => {
            "area of the ring round the rim united with the drawn decks, less openings, pad and steps"
        }
        _ => "area between the rim and the same widened by the deck's width, corners rounded",
    };
    let line = Line::new(
        "deck-area",
        Group::Concrete,
        "Deck, area",
        (area, Measure::Area),
        formula,
        GEOMETRY,
    )
    .on(On::Deck)
    .paying_for("deck")
    .with("length of the rim", measured.rim_length, Measure::Length)
    .given("deck's width", works.deck.width, Measure::Length, SETTING);
    let line = if drawn > 0.0 {
        line.with("of it beyond the ring", drawn, Measure::Area)
            .assuming(true, ONCE)
    } else {
        line
    };
    taken.lines.push(line);
    taken.lines.push(
        Line::new(
            "deck-concrete",
            Group::Concrete,
            "Deck concrete",
            (deck, Measure::ConcreteVolume),
            "area of the deck x thickness x (1 + waste)",
            "common practice",
        )
        .on(On::Deck)
        .paying_for("deck")
        .with("area of the deck", area, Measure::Area)
        .given("thickness", works.deck.thickness, Measure::Length, SETTING)
        .wasting(waste)
        .assuming(true, EVEN_SLAB),
    );
    deck
}

fn steps(inputs: &Inputs<'_>, taken: &mut Takeoff) -> Option<f64> {
    let deck = inputs.deck.filter(|deck| deck.steps_area > 0.0)?;
    let (works, waste) = (inputs.works, inputs.works.waste.concrete);
    let volume = (deck.steps_area * works.deck.thickness + deck.treads) * (1.0 + waste);
    taken.lines.push(
        Line::new(
            "steps-concrete",
            Group::Concrete,
            "Step concrete",
            (volume, Measure::ConcreteVolume),
            "(area of the steps x thickness + treads) x (1 + waste)",
            "common practice",
        )
        .on(On::Deck)
        .paying_for("steps")
        .with("area of the steps", deck.steps_area, Measure::Area)
        .given("thickness", works.deck.thickness, Measure::Length, SETTING)
        .with("treads", deck.treads, Measure::ConcreteVolume)
        .wasting(waste)
        .assuming(
            true,
            "Treads hold half of the rise over their whole area: even treads, poured solid.",
        ),
    );
    Some(volume)
}

fn pad(inputs: &Inputs<'_>, taken: &mut Takeoff) -> Option<f64> {
    let pad = inputs.pad?;
    let (settings, waste) = (&inputs.works.pad, inputs.works.waste.concrete);
    let volume = pad.area * settings.thickness * (1.0 + waste);
    taken.lines.push(
        Line::new(
            "pad-concrete",
            Group::Concrete,
            "Pad concrete",
            (volume, Measure::ConcreteVolume),
            "area of the pad x thickness x (1 + waste)",
            "common practice",
        )
        .on(On::Pad)
        .paying_for("pad")
        .with("area of the pad", pad.area, Measure::Area)
        .given("thickness", settings.thickness, Measure::Length, SETTING)
        .wasting(waste),
    );
    Some(volume)
}

/// Where collar and deck do not fit each other.
fn notes(works: &Works) -> Vec<Finding> {
    let (collar, deck) = (&works.collar, &works.deck);
    let mut notes = Vec::new();
    if deck.width <= 0.0 {
        return notes;
    }
    // A millimetre is nothing in concrete.
    if deck.thickness > collar.top_below_rim + 0.001 {
        notes.push(
            Finding::caution(
                "deck-in-collar",
                "The deck is thicker than the room above the collar: concrete is counted twice \
                 there, and the two do not fit.",
                "Lower the top of the collar, or make the deck thinner.",
            )
            .about(Topic::Concrete)
            .under("/works/collar/top_below_rim"),
        );
    }
    if deck.width < collar.width {
        notes.push(
            Finding::note(
                "collar-shows",
                "The collar reaches out beyond the deck.",
                "Make the deck at least as wide as the collar, or mean it so.",
            )
            .about(Topic::Concrete)
            .under("/works/deck/width"),
        );
    }
    notes
}
