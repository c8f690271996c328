//! Rods, joints and forms of collar, deck and pad.

use super::line::{GEOMETRY, Group, Line, SETTING, WHOLE_UP, whole_up};
use super::{Inputs, On, Takeoff};
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

fn ties(inputs: &Inputs<'_>) -> [Line; 2] {
    let (works, measured) = (inputs.works, inputs.measured);
    let round = whole_up(measured.rim_length / works.ties.spacing);
    let count = inputs.deck.map_or(round, |deck| f64::from(deck.ties));
    let left_out = round - count;
    let all = Line::new(
        "ties",
        Group::RodsAndForms,
        "Ties, rim to deck",
        (count, Measure::Count),
        if left_out > 0.0 {
            "length of the rim / greatest spacing - left out where no deck meets the rim"
        } else {
            "length of the rim / greatest spacing"
        },
        "common practice; spaced evenly round the closed rim",
    )
    .on(On::Ties)
    .paying_for("ties")
    .with("length of the rim", measured.rim_length, Measure::Length)
    .given(
        "greatest spacing",
        works.ties.spacing,
        Measure::Length,
        SETTING,
    )
    .rounded(WHOLE_UP);
    let all = if left_out > 0.0 {
        all.with(
            "left out where no deck meets the rim",
            left_out,
            Measure::Count,
        )
    } else {
        all
    };
    [
        all,
        Line::new(
            "tie-rod",
            Group::RodsAndForms,
            "Rod for ties",
            (count * works.ties.length, Measure::Length),
            "ties x length of one",
            "common practice; offcuts not counted",
        )
        .on(On::Ties)
        .paying_for("ties")
        .with("ties", count, Measure::Count)
        .given("length of one", works.ties.length, Measure::Length, SETTING),
    ]
}

fn collar_rods(inputs: &Inputs<'_>) -> Line {
    let (bars, waste) = (inputs.works.collar.bars, inputs.works.waste.rods);
    let middle = inputs.measured.collar_middle;
    Line::new(
        "collar-rods",
        Group::RodsAndForms,
        "Rods in the collar",
        (bars * middle * (1.0 + waste), Measure::LongLength),
        "rods round it x length of the collar's middle x (1 + waste)",
        "common practice",
    )
    .given("rods round it", bars, Measure::Count, SETTING)
    .with("length of the collar's middle", middle, Measure::LongLength)
    .wasting(waste)
    .on(On::Collar)
    .paying_for("collar-rods")
    .assuming(true, LAPS)
}

fn deck_rods(inputs: &Inputs<'_>, deck: &DeckFigures) -> Line {
    let waste = inputs.works.waste.rods;
    Line::new(
        "deck-rods",
        Group::RodsAndForms,
        "Rods in the deck",
        (deck.rods * (1.0 + waste), Measure::LongLength),
        "length of the grid in the slab x (1 + waste)",
        "common practice: along the shell and across it",
    )
    .with(
        "length of the grid in the slab",
        deck.rods,
        Measure::LongLength,
    )
    .given(
        "rod spacing",
        inputs.works.deck.rod_spacing,
        Measure::Length,
        SETTING,
    )
    .wasting(waste)
    .on(On::Rods)
    .paying_for("deck-rods")
    .assuming(true, LAPS)
}

fn joints(inputs: &Inputs<'_>, deck: &DeckFigures) -> Line {
    Line::new(
        "joints",
        Group::RodsAndForms,
        "Control joints",
        (deck.joints, Measure::LongLength),
        "length of all joints as drawn",
        "common practice",
    )
    .given(
        "greatest spacing",
        inputs.works.deck.joint_spacing,
        Measure::Length,
        SETTING,
    )
    .on(On::Joints)
    .paying_for("joints")
    .assuming(true, SQUARE_TO_RIM)
}

fn forms(inputs: &Inputs<'_>) -> Vec<Line> {
    let measured = inputs.measured;
    let pad = inputs.pad.map_or(0.0, |pad| pad.edges);
    let deck = inputs.deck.map_or(0.0, |deck| deck.forms);
    let mut lines =
        vec![
        Line::new(
            "collar-forms",
            Group::RodsAndForms,
            "Forms of the collar",
            (
                measured.collar_edge + measured.rim_length,
                Measure::LongLength,
            ),
            "outer edge of the collar + rim",
            GEOMETRY,
        )
        .with("outer edge of the collar", measured.collar_edge, Measure::LongLength)
        .with("rim", measured.rim_length, Measure::LongLength)
        .on(On::Collar)
        .paying_for("collar-forms")
        .assuming(
            true,
            "Inside, the wall of the shell may be the form; then only the outer edge is needed.",
        ),
    ];
    let edges = deck + pad;
    if edges > 0.0 {
        lines.push(
            Line::new(
                "deck-forms",
                Group::RodsAndForms,
                "Forms of deck and pad",
                (edges, Measure::LongLength),
                "edges of the deck + edges of the pad",
                GEOMETRY,
            )
            .with("edges of the deck", deck, Measure::LongLength)
            .with("edges of the pad", pad, Measure::LongLength)
            .on(On::Forms)
            .paying_for("deck-forms")
            .assuming(
                true,
                "Outer edge, openings, and steps all round; none along the rim.",
            ),
        );
        lines.push(
            Line::new(
                "form-stakes",
                Group::RodsAndForms,
                "Stakes for forms",
                (whole_up(edges / STAKE_SPACING), Measure::Count),
                "forms of deck and pad / greatest spacing",
                "common practice, no source: a stake every 3 ft",
            )
            .with("forms of deck and pad", edges, Measure::LongLength)
            .given(
                "greatest spacing",
                STAKE_SPACING,
                Measure::Length,
                "common practice, no source",
            )
            .rounded(WHOLE_UP)
            .on(On::Forms)
            .paying_for("form-stakes"),
        );
    }
    lines
}
