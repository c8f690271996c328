//! The fill, and where it comes from.

use super::{Earth, PER_BANK, PRISMS, Refill, VOLUME, all_dug, from_spoil, swell};
use crate::finding::{Finding, Topic};
use crate::takeoff::expression::{Extreme, given, input, measured, of_two, setting};
use crate::takeoff::{Group, Inputs, Line, MeasuredOn, Takeoff};
use crate::units::Measure;

/// Banks stand in what the soil was; they are not stripped or benched here.
const AS_DUG: &str =
    "The spoil is taken to be fit for fill; topsoil, organic and wet soil are not.";

const NOT_TO_GROUND: &str = "A bank was not followed to the ground; the figure falls short.";

/// Nothing where nothing is graded.
pub(super) fn take(inputs: &Inputs<'_>, earth: &Earth, taken: &mut Takeoff) {
    let works = inputs.works;
    let Some(grading) = inputs.moved.grading else {
        return;
    };
    let line = |key, label, expression, source| {
        Line::new(key, Group::Grading, label, VOLUME, expression, source).on(MeasuredOn::Fill)
    };
    let slope = works.grading.bank_slope;
    let in_banks = input("in banks", grading.bank_fill, VOLUME);
    let mut volume = input("above the stone in the opening", grading.hole_fill, VOLUME)
        + input("under deck and collar", grading.deck_fill, VOLUME)
        + in_banks.under(setting("slope of the banks", slope, Measure::Slope));
    if let Some(refill) = &inputs.moved.refill {
        let refilled = refilled(refill);
        volume = volume + refilled.named("refill of trenches");
        taken.lines.push(refilled);
    }
    let fill = line("fill", "Fill, compacted", volume, PRISMS)
        .paying_for("fill")
        .assuming(!grading.closed, NOT_TO_GROUND);
    let compacted_per_bank = given(
        "compacted per bank",
        works.dig.material.compacted_per_bank(),
        Measure::Ratio,
        works.dig.material.swell_source(),
    );
    let bank = line(
        "fill-bank",
        "Fill, as it lies in the bank",
        fill.named("fill, compacted") / compacted_per_bank,
        "shrink is stated per bank volume",
    )
    .paying_for("fill");
    let in_bank = bank.named("fill, as it lies in the bank");
    let reused = match works.spoil.reuse {
        true => of_two(Extreme::Lesser, in_bank.clone(), all_dug(earth)),
        false => measured("none: the spoil is not used again", 0.0)
            .under(in_bank.clone())
            .under(all_dug(earth)),
    };
    let reused = line(
        "fill-from-spoil",
        "Fill from the spoil, bank",
        reused,
        "common practice",
    )
    .assuming(earth.reused > 0.0, AS_DUG);
    taken.lines.extend([fill, bank, reused]);
    if earth.brought <= 0.0 {
        return;
    }
    taken.lines.push(
        line(
            "fill-import",
            "Fill to bring in, loose",
            (in_bank - from_spoil(earth)) * swell(works),
            PER_BANK,
        )
        .paying_for("fill-import")
        .assuming(
            true,
            "What is brought in swells and shrinks as the spoil does.",
        ),
    );
    if works.spoil.reuse {
        taken.findings.push(
            Finding::note(
                "fill-short",
                "The job yields less earth than its fill takes: the rest has to be brought in.",
                "Lower the coping, or order the fill.",
            )
            .about(Topic::Grading)
            .under("/works/spoil/reuse"),
        );
    }
}

/// What is filled into trenches again: a part of the fill, which is paid with it.
fn refilled(refill: &Refill) -> Line {
    let stone = input("stone and pipes across", refill.stone, Measure::Area)
        * input("length of the trench", refill.length, Measure::LongLength);
    Line::new(
        "trench-fill",
        Group::Grading,
        "Refill of trenches, compacted",
        VOLUME,
        (input("cut for trenches", refill.trenches, VOLUME) - stone).not_negative(),
        "common practice: the spoil goes back above the stone, up to the ground",
    )
    .on(MeasuredOn::Trenches)
    .assuming(
        true,
        "It is part of the fill. A trench in which no pipe is counted is filled whole.",
    )
}
