//! The collar, the deck with its steps, and the equipment pad.

use super::expression::{Expression, input, measured, setting, sum};
use super::line::{GEOMETRY, Group, Line};
use super::{Inputs, MeasuredOn, Takeoff};
use crate::finding::{Finding, Topic};
use crate::site::ConstructionSettings;
use crate::units::Measure;

const EVEN_SLAB: &str = "The slab is of even thickness; its fall is given by the bed.";

const ONCE: &str =
    "Ring and drawn decks united, so that no place counts twice; the collar lies below the slab.";

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let works = inputs.works;
    let [collar_area, collar] = collar(inputs);
    let [deck_area, deck] = deck(inputs);
    let (steps, pad) = (steps(inputs), pad(inputs));
    let mut poured = vec![collar.named("collar concrete"), deck.named("deck concrete")];
    poured.extend(steps.as_ref().map(|line| line.named("step concrete")));
    poured.extend(pad.as_ref().map(|line| line.named("pad concrete")));
    taken.lines.extend([collar_area, collar, deck_area, deck]);
    taken.lines.extend(steps.into_iter().chain(pad));
    taken.lines.push(Line::new(
        "concrete",
        Group::Concrete,
        "Total concrete",
        Measure::ConcreteVolume,
        sum(poured).told("sum of the lines above"),
        "sum of the lines above",
    ));
    taken.findings.extend(notes(works));
    if let Some(feature) = inputs.deck.and_then(|deck| deck.unknown_rise) {
        taken.findings.push(
            Finding::note(
                "steps-without-rise",
                "Step rise not entered: the steps are counted as flat slab.",
                "Enter their total rise in the Yard step.",
            )
            .about(Topic::Concrete)
            .under(&format!("/features/{feature}/facts")),
        );
    }
}

/// A line of concrete, waste included.
fn concrete(
    inputs: &Inputs<'_>,
    (key, label): (&'static str, &'static str),
    placed: Expression,
    source: &'static str,
) -> Line {
    Line::new(
        key,
        Group::Concrete,
        label,
        Measure::ConcreteVolume,
        placed.with_waste(inputs.works.waste.concrete),
        source,
    )
}

fn collar(inputs: &Inputs<'_>) -> [Line; 2] {
    let (settings, on_shell) = (&inputs.works.collar, inputs.measured);
    let area = measured(
        "area between the rim and the same offset by the collar's width, corners rounded",
        on_shell.collar_area,
    )
    .under(input(
        "length of the rim",
        on_shell.rim_length,
        Measure::Length,
    ))
    .under(setting("collar's width", settings.width, Measure::Length));
    let area = Line::new(
        "collar-area",
        Group::Concrete,
        "Collar, area",
        Measure::Area,
        area,
        GEOMETRY,
    );
    let volume = concrete(
        inputs,
        ("collar-concrete", "Collar concrete"),
        area.named("area of the collar") * setting("depth", settings.depth, Measure::Length),
        "common practice: a collar round the whole rim",
    );
    [area, volume].map(|line| line.on(MeasuredOn::Collar).paying_for("collar"))
}

/// The thickness of the deck's slab.
fn thickness(inputs: &Inputs<'_>) -> Expression {
    setting("thickness", inputs.works.deck.thickness, Measure::Length)
}

fn deck(inputs: &Inputs<'_>) -> [Line; 2] {
    let (works, on_shell) = (inputs.works, inputs.measured);
    let drawn = inputs.deck.map_or(0.0, |deck| deck.drawn_area);
    let area = inputs.deck.map_or(on_shell.deck_area, |deck| deck.area);
    let words = match inputs.deck {
        Some(deck) if deck.as_drawn => {
            "area of the ring round the rim united with the drawn decks, less openings, pad and steps"
        }
        _ => "area between the rim and the same offset by the deck's width, corners rounded",
    };
    let mut area = measured(words, area)
        .under(input(
            "length of the rim",
            on_shell.rim_length,
            Measure::Length,
        ))
        .under(setting("deck's width", works.deck.width, Measure::Length));
    if drawn > 0.0 {
        area = area.under(input("of it beyond the ring", drawn, Measure::Area));
    }
    let area = Line::new(
        "deck-area",
        Group::Concrete,
        "Deck, area",
        Measure::Area,
        area,
        GEOMETRY,
    )
    .assuming(drawn > 0.0, ONCE);
    let volume = concrete(
        inputs,
        ("deck-concrete", "Deck concrete"),
        area.named("area of the deck") * thickness(inputs),
        "common practice",
    )
    .assuming(true, EVEN_SLAB);
    [area, volume].map(|line| line.on(MeasuredOn::Deck).paying_for("deck"))
}

fn steps(inputs: &Inputs<'_>) -> Option<Line> {
    let deck = inputs.deck.filter(|deck| deck.steps_area > 0.0)?;
    let slab = input("area of the steps", deck.steps_area, Measure::Area) * thickness(inputs);
    Some(
        concrete(
            inputs,
            ("steps-concrete", "Step concrete"),
            slab + input("treads", deck.treads, Measure::ConcreteVolume),
            "common practice",
        )
        .on(MeasuredOn::Deck)
        .paying_for("steps")
        .assuming(
            true,
            "Treads hold half of the rise over their whole area: even treads, poured solid.",
        ),
    )
}

fn pad(inputs: &Inputs<'_>) -> Option<Line> {
    let area = input("area of the pad", inputs.pad?.area, Measure::Area);
    let thickness = setting("thickness", inputs.works.pad.thickness, Measure::Length);
    Some(
        concrete(
            inputs,
            ("pad-concrete", "Pad concrete"),
            area * thickness,
            "common practice",
        )
        .on(MeasuredOn::Pad)
        .paying_for("pad"),
    )
}

/// Where collar and deck do not fit each other.
fn notes(works: &ConstructionSettings) -> Vec<Finding> {
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
