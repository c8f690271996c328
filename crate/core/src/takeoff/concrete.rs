//! The collar and the deck.

use super::line::{GEOMETRY, Group, Line, SETTING};
use super::{Inputs, On, Takeoff};
use crate::finding::Finding;
use crate::site::Works;
use crate::units::Measure;

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let (works, measured) = (inputs.works, inputs.measured);
    let waste = works.waste.concrete;
    let collar = measured.collar_area * works.collar.depth * (1.0 + waste);
    let deck = measured.deck_area * works.deck.thickness * (1.0 + waste);
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
        Line::new(
            "deck-area",
            Group::Concrete,
            "Deck, area",
            (measured.deck_area, Measure::Area),
            "area between the rim and the same widened by the deck's width, corners rounded",
            GEOMETRY,
        )
        .on(On::Deck)
        .paying_for("deck")
        .with("length of the rim", measured.rim_length, Measure::Length)
        .given("deck's width", works.deck.width, Measure::Length, SETTING),
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
        .with("area of the deck", measured.deck_area, Measure::Area)
        .given("thickness", works.deck.thickness, Measure::Length, SETTING)
        .wasting(waste)
        .assuming(
            true,
            "The slab is of even thickness; its fall is given by the bed.",
        ),
        Line::new(
            "concrete",
            Group::Concrete,
            "Concrete in all",
            (collar + deck, Measure::ConcreteVolume),
            "collar concrete + deck concrete",
            "sum of the lines above",
        )
        .with("collar concrete", collar, Measure::ConcreteVolume)
        .with("deck concrete", deck, Measure::ConcreteVolume),
    ]);
    taken.findings.extend(notes(works));
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
            .under("/works/deck/width"),
        );
    }
    notes
}
