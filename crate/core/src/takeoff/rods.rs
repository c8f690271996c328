//! Rods, joints and forms of collar, deck and pad.

use super::expression::{Expression, given, input, measured, setting};
use super::line::{GEOMETRY, Group, Line};
use super::{Inputs, MeasuredOn, Takeoff};
use crate::deck::{DeckFigures, STAKE_SPACING};
use crate::units::Measure;

const SQUARE_TO_RIM: &str = "Across the ring square to the rim, evenly set; panels at most one and a half times as long as \
     wide where that leaves 3 ft; a joint at every inner corner (common practice, no source).";

const LAPS: &str = "Laps and offcuts are waste.";

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    taken.lines.extend(ties(inputs));
    taken.lines.push(collar_rods(inputs));
    if let Some(deck) = inputs.deck {
        if inputs.works.deck.rod_spacing > 0.0 && deck.rods > 0.0 {
            taken.lines.push(deck_rods(inputs, deck));
        }
        if deck.joints > 0.0 {
            taken.lines.push(joints(inputs, deck));
        }
    }
    taken.lines.extend(forms(inputs));
}

fn line(
    key: &'static str,
    label: &'static str,
    measure: Measure,
    expression: Expression,
    source: &'static str,
) -> Line {
    Line::new(key, Group::RodsAndForms, label, measure, expression, source)
}

fn ties(inputs: &Inputs<'_>) -> [Line; 2] {
    let settings = &inputs.works.ties;
    let rim = input(
        "length of the rim",
        inputs.measured.rim_length,
        Measure::Length,
    );
    let round = (rim / setting("greatest spacing", settings.spacing, Measure::Length)).whole_up();
    let placed = inputs.deck.map(|deck| f64::from(deck.ties));
    let left_out = placed.map_or(0.0, |placed| round.value() - placed);
    let count = if left_out > 0.0 {
        round
            - input(
                "left out where no deck meets the rim",
                left_out,
                Measure::Count,
            )
    } else {
        match placed {
            Some(placed) => round.closer(placed),
            None => round,
        }
    };
    let ties = line(
        "ties",
        "Ties, rim to deck",
        Measure::Count,
        count,
        "common practice; spaced evenly round the closed rim",
    );
    let rod = line(
        "tie-rod",
        "Rod for ties",
        Measure::Length,
        ties.named("ties") * setting("length of one", settings.length, Measure::Length),
        "common practice; offcuts not counted",
    );
    [ties, rod].map(|line| line.on(MeasuredOn::Ties).paying_for("ties"))
}

fn collar_rods(inputs: &Inputs<'_>) -> Line {
    let middle = input(
        "length of the collar's middle",
        inputs.measured.collar_middle,
        Measure::LongLength,
    );
    let bars = setting("bars around it", inputs.works.collar.bars, Measure::Count);
    line(
        "collar-rods",
        "Rebar in the collar",
        Measure::LongLength,
        (bars * middle).with_waste(inputs.works.waste.rods),
        "common practice",
    )
    .on(MeasuredOn::Collar)
    .paying_for("collar-rods")
    .assuming(true, LAPS)
}

fn deck_rods(inputs: &Inputs<'_>, deck: &DeckFigures) -> Line {
    let spacing = inputs.works.deck.rod_spacing;
    let grid = input(
        "length of the grid in the slab",
        deck.rods,
        Measure::LongLength,
    )
    .under(setting("rebar spacing", spacing, Measure::Length));
    line(
        "deck-rods",
        "Rebar in the deck",
        Measure::LongLength,
        grid.with_waste(inputs.works.waste.rods),
        "common practice: along the shell and across it",
    )
    .on(MeasuredOn::Rods)
    .paying_for("deck-rods")
    .assuming(true, LAPS)
}

fn joints(inputs: &Inputs<'_>, deck: &DeckFigures) -> Line {
    let spacing = inputs.works.deck.joint_spacing;
    line(
        "joints",
        "Control joints",
        Measure::LongLength,
        measured("length of all joints as drawn", deck.joints).under(setting(
            "greatest spacing",
            spacing,
            Measure::Length,
        )),
        "common practice",
    )
    .on(MeasuredOn::Joints)
    .paying_for("joints")
    .assuming(true, SQUARE_TO_RIM)
}

fn forms(inputs: &Inputs<'_>) -> Vec<Line> {
    let length = |name, value| input(name, value, Measure::LongLength);
    let on_shell = inputs.measured;
    let mut lines = vec![
        line(
            "collar-forms",
            "Forms of the collar",
            Measure::LongLength,
            length("outer edge of the collar", on_shell.collar_edge)
                + length("rim", on_shell.rim_length),
            GEOMETRY,
        )
        .on(MeasuredOn::Collar)
        .paying_for("collar-forms")
        .assuming(
            true,
            "Inside, the wall of the shell may be the form; then only the outer edge is needed.",
        ),
    ];
    let pad = inputs.pad.map_or(0.0, |pad| pad.edges);
    let deck = inputs.deck.map_or(0.0, |deck| deck.forms);
    if deck + pad > 0.0 {
        let forms = line(
            "deck-forms",
            "Forms of deck and pad",
            Measure::LongLength,
            length("edges of the deck", deck) + length("edges of the pad", pad),
            GEOMETRY,
        )
        .on(MeasuredOn::Forms)
        .paying_for("deck-forms")
        .assuming(
            true,
            "Outer edge, openings, and steps all round; none along the rim.",
        );
        let spacing = given(
            "greatest spacing",
            STAKE_SPACING,
            Measure::Length,
            "common practice, no source",
        );
        let stakes = line(
            "form-stakes",
            "Stakes for forms",
            Measure::Count,
            (forms.named("forms of deck and pad") / spacing).whole_up(),
            "common practice, no source: a stake every 3 ft",
        )
        .on(MeasuredOn::Forms)
        .paying_for("form-stakes");
        lines.extend([forms, stakes]);
    }
    lines
}
