//! Pipe, straps, bends and trenches; what water loses; and the pipe that lowers groundwater.

use super::line::{Group, Line, SETTING, WHOLE_UP};
use super::{Inputs, On, Takeoff};
use crate::pipe::friction::FRICTION_SOURCE;
use crate::pipe::{PipePlan, Run};
use crate::site::PIPE_SOURCE;
use crate::units::Measure;

const BENDS: &str = "Turns of more than 20 degrees within half a metre count, wider ones are swept; two for a climb at \
     the edge of the hole, one at the pad.";

const BEND_LENGTH: &str = "setting; default from memory, makers tell theirs";

const FULL_FLOW: &str = "All of the flow in this one run: shared between runs it loses less. Valves, filter and heater \
     are not counted.";

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    if let Some(pipes) = inputs.pipes {
        if !pipes.runs.is_empty() {
            taken.lines.extend(runs(inputs, pipes));
        }
        taken.lines.extend(trenches(pipes));
        if let Some(worst) = pipes.worst() {
            taken.lines.extend(loss(inputs, worst));
        }
    }
    taken.lines.extend(dewatering(inputs));
    taken
        .findings
        .extend(inputs.pipes.iter().flat_map(|pipes| pipes.findings.clone()));
    let pipe = inputs.dewatering.iter();
    taken
        .findings
        .extend(pipe.flat_map(|pipe| pipe.findings.clone()));
}

fn runs(inputs: &Inputs<'_>, pipes: &PipePlan) -> [Line; 3] {
    let (settings, waste) = (&inputs.works.pipe, inputs.works.waste.pipe);
    let sum = |part: fn(&Run) -> f64| pipes.runs.iter().map(part).sum::<f64>();
    [
        Line::new(
            "pipe",
            Group::Pipe,
            "Pipe, shell to pad",
            (pipes.length() * (1.0 + waste), Measure::LongLength),
            "(beside the wall + under the floor + through the backfill + in the trench + risers) x \
             (1 + waste)",
            "way round the shell at the set distance, the shorter way to where it leaves",
        )
        .with(
            "beside the wall",
            sum(|run| run.around),
            Measure::LongLength,
        )
        .with(
            "under the floor",
            sum(|run| run.under_floor),
            Measure::LongLength,
        )
        .with(
            "through the backfill",
            sum(|run| run.in_fill),
            Measure::LongLength,
        )
        .with(
            "in the trench",
            sum(|run| run.in_trench),
            Measure::LongLength,
        )
        .with("risers", sum(|run| run.risers), Measure::LongLength)
        .wasting(waste)
        .on(On::Pipes)
        .paying_for("pipe"),
        Line::new(
            "straps",
            Group::Pipe,
            "Straps",
            (pipes.straps() as f64, Measure::Count),
            "of each run its length beside the wall / greatest spacing",
            "common practice; plumbing codes ask support every 4 ft of pipe over 1 in (a pipe \
             maker's guide, read); the local code decides",
        )
        .with("runs", pipes.runs.len() as f64, Measure::Count)
        .with(
            "beside the wall",
            sum(|run| run.around),
            Measure::LongLength,
        )
        .given(
            "greatest spacing",
            settings.strap_spacing,
            Measure::Length,
            SETTING,
        )
        .rounded(WHOLE_UP)
        .on(On::Pipes)
        .paying_for("straps"),
        Line::new(
            "bends",
            Group::Pipe,
            "Bends",
            (f64::from(pipes.bends()), Measure::Count),
            "bends of all runs",
            "counted on the way as drawn",
        )
        .rounded("whole bends")
        .on(On::Pipes)
        .paying_for("bends")
        .assuming(true, BENDS),
    ]
}

fn trenches(pipes: &PipePlan) -> Option<Line> {
    let whole = pipes.trench_length();
    (whole > 0.0).then(|| {
        Line::new(
            "trench",
            Group::Pipe,
            "Trench, outside the hole",
            (whole, Measure::LongLength),
            "length of the trenches from the edge of the hole to the pad",
            "as drawn; straight from the hole to the pad where no trench is drawn",
        )
        .on(On::Trenches)
        .paying_for("trench")
    })
}

fn loss(inputs: &Inputs<'_>, worst: &Run) -> [Line; 2] {
    let settings = &inputs.works.pipe;
    let equal = worst.length() + f64::from(worst.bends) * settings.bend;
    [
        Line::new(
            "pipe-loss",
            Group::Pipe,
            "Friction in the worst run",
            (worst.loss, Measure::Length),
            "10.44 x length with bends x flow^1.852 / (coefficient C^1.852 x inside diameter^4.8704)",
            FRICTION_SOURCE,
        )
        .with("length with bends", equal, Measure::LongLength)
        .given("flow", settings.flow, Measure::Flow, SETTING)
        .given(
            "coefficient C",
            settings.coefficient,
            Measure::Count,
            SETTING,
        )
        .given(
            "inside diameter",
            settings.size.inside(),
            Measure::Length,
            PIPE_SOURCE,
        )
        .with("pipe of this run", worst.length(), Measure::LongLength)
        .with("its bends", f64::from(worst.bends), Measure::Count)
        .given("pipe that one bend equals", settings.bend, Measure::Length, BEND_LENGTH)
        .on(On::Pipes)
        .assuming(true, FULL_FLOW),
        Line::new(
            "pipe-speed",
            Group::Pipe,
            "Speed of the water",
            (worst.speed, Measure::Speed),
            "flow / (pi / 4 x inside diameter^2)",
            "common practice, no source: at most 8 ft/s to the shell, 6 ft/s to the pump",
        )
        .given("flow", settings.flow, Measure::Flow, SETTING)
        .given(
            "inside diameter",
            settings.size.inside(),
            Measure::Length,
            PIPE_SOURCE,
        )
        .on(On::Pipes)
        .assuming(true, FULL_FLOW),
    ]
}

fn dewatering(inputs: &Inputs<'_>) -> [Line; 2] {
    let (works, measured) = (inputs.works, inputs.measured);
    let pipe = &works.dewatering;
    let plain = measured.underside + works.dig.base_thickness;
    let down = inputs.dewatering.map_or(plain, |it| it.underside);
    [
        Line::new(
            "dewatering-pipe",
            Group::Pipe,
            "Dewatering pipe, length",
            (
                (pipe.above_rim + down + pipe.sump_depth).max(0.0),
                Measure::Length,
            ),
            "height above the rim + depth of the base's underside + sump depth",
            "common practice: one pipe beside the deep end, down to the underside of the base",
        )
        .on(On::Dewatering)
        .paying_for("dewatering-pipe")
        .given(
            "height above the rim",
            pipe.above_rim,
            Measure::Length,
            SETTING,
        )
        .with("depth of the base's underside", down, Measure::Length)
        .given("sump depth", pipe.sump_depth, Measure::Length, SETTING),
        Line::new(
            "dewatering-pipe-diameter",
            Group::Pipe,
            "Dewatering pipe, diameter",
            (pipe.diameter, Measure::Length),
            "nominal diameter",
            SETTING,
        )
        .on(On::Dewatering),
    ]
}
