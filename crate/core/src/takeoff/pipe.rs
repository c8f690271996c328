//! Pipe, straps, bends and trenches; what water loses; and the pipe that lowers groundwater.

use super::expression::{Expression, SETTING, given, input, measured, setting};
use super::line::{Group, Line, WHOLE_UP};
use super::{Inputs, MeasuredOn, Takeoff};
use crate::math::powf;
use crate::pipe::friction::{FRICTION_SOURCE, GALLON_PER_MINUTE};
use crate::pipe::{PipePlan, Run};
use crate::site::PIPE_SOURCE;
use crate::units::Measure;
use crate::units::constants::INCH;

const BENDS: &str = "Turns of more than 20 degrees within half a metre count, wider ones are swept; two for a climb at \
     the edge of the hole, one at the pad.";

const BEND_LENGTH: &str = "setting; default from memory, use the maker's figure";

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

fn line(
    key: &'static str,
    label: &'static str,
    measure: Measure,
    expression: Expression,
    source: &'static str,
) -> Line {
    Line::new(key, Group::Pipe, label, measure, expression, source)
}

fn runs(inputs: &Inputs<'_>, pipes: &PipePlan) -> [Line; 3] {
    let settings = &inputs.works.pipe;
    let sum = |name, part: fn(&Run) -> f64| {
        let whole = pipes.runs.iter().map(part).sum::<f64>();
        input(name, whole, Measure::LongLength)
    };
    let beside_wall = sum("beside the wall", |run| run.around);
    let length = beside_wall.clone()
        + sum("under the floor", |run| run.under_floor)
        + sum("through the backfill", |run| run.in_fill)
        + sum("in the trench", |run| run.in_trench)
        + sum("risers", |run| run.risers);
    let spacing = settings.strap_spacing;
    let straps = measured(
        "of each run its length beside the wall / greatest spacing",
        pipes.straps() as f64,
    )
    .under(input("runs", pipes.runs.len() as f64, Measure::Count))
    .under(beside_wall)
    .under(setting("greatest spacing", spacing, Measure::Length));
    [
        line(
            "pipe",
            "Pipe, shell to pad",
            Measure::LongLength,
            length
                .closer(pipes.length())
                .with_waste(inputs.works.waste.pipe),
            "way round the shell at the set distance, the shorter way to where it leaves",
        )
        .on(MeasuredOn::Pipes)
        .paying_for("pipe"),
        line(
            "straps",
            "Straps",
            Measure::Count,
            straps,
            "common practice; plumbing codes ask support every 4 ft of pipe over 1 in (a pipe \
             maker's guide, read); the local code decides",
        )
        .counted(WHOLE_UP)
        .on(MeasuredOn::Pipes)
        .paying_for("straps"),
        line(
            "bends",
            "Bends",
            Measure::Count,
            measured("bends of all runs", f64::from(pipes.bends())),
            "counted on the way as drawn",
        )
        .counted("whole bends")
        .on(MeasuredOn::Pipes)
        .paying_for("bends")
        .assuming(true, BENDS),
    ]
}

fn trenches(pipes: &PipePlan) -> Option<Line> {
    let whole = pipes.trench_length();
    (whole > 0.0).then(|| {
        line(
            "trench",
            "Trench, outside the hole",
            Measure::LongLength,
            measured(
                "length of the trenches from the edge of the hole to the pad",
                whole,
            ),
            "as drawn; straight from the hole to the pad where no trench is drawn",
        )
        .on(MeasuredOn::Trenches)
        .paying_for("trench")
    })
}

fn loss(inputs: &Inputs<'_>, worst: &Run) -> [Line; 2] {
    let settings = &inputs.works.pipe;
    let (pipe, bends, bend) = (worst.length(), f64::from(worst.bends), settings.bend);
    let length = input(
        "length with bends",
        pipe + bends * bend,
        Measure::LongLength,
    );
    let flow = setting("flow", settings.flow, Measure::Flow);
    let inside = given(
        "inside diameter",
        settings.size.inside(),
        Measure::Length,
        PIPE_SOURCE,
    );
    let coefficient = setting("coefficient C", settings.coefficient, Measure::Count);
    // Of gallons per minute and inches, told of cubic meters per second and meters.
    let factor = 10.44 / powf(GALLON_PER_MINUTE, 1.852) * powf(INCH, 4.8704);
    let loss = Expression::Number(factor, "10.44") * length * flow.clone().power(1.852, "1.852")
        / (coefficient.power(1.852, "1.852") * inside.clone().power(4.8704, "4.8704"));
    let area = Expression::Number(core::f64::consts::PI / 4.0, "pi / 4") * inside.power(2.0, "2");
    [
        line(
            "pipe-loss",
            "Friction in the worst run",
            Measure::Length,
            loss.closer(worst.loss)
                .under(input("pipe of this run", pipe, Measure::LongLength))
                .under(input("its bends", bends, Measure::Count))
                .under(given(
                    "pipe equal to one bend",
                    bend,
                    Measure::Length,
                    BEND_LENGTH,
                )),
            FRICTION_SOURCE,
        ),
        line(
            "pipe-speed",
            "Speed of the water",
            Measure::Speed,
            (flow / area).closer(worst.speed),
            "common practice, no source: at most 8 ft/s to the shell, 6 ft/s to the pump",
        ),
    ]
    .map(|line| line.on(MeasuredOn::Pipes).assuming(true, FULL_FLOW))
}

fn dewatering(inputs: &Inputs<'_>) -> [Line; 2] {
    let (works, on_shell) = (inputs.works, inputs.measured);
    let pipe = &works.dewatering;
    let plain = on_shell.underside + works.dig.base_thickness;
    let down = inputs.dewatering.map_or(plain, |it| it.underside);
    let length = setting("height above the rim", pipe.above_rim, Measure::Length)
        + input("depth of the base's underside", down, Measure::Length)
        + setting("sump depth", pipe.sump_depth, Measure::Length);
    [
        line(
            "dewatering-pipe",
            "Dewatering pipe, length",
            Measure::Length,
            length.not_negative(),
            "common practice: one pipe beside the deep end, down to the underside of the base",
        )
        .on(MeasuredOn::Dewatering)
        .paying_for("dewatering-pipe"),
        line(
            "dewatering-pipe-diameter",
            "Dewatering pipe, diameter",
            Measure::Length,
            measured("nominal diameter", pipe.diameter),
            SETTING,
        )
        .on(MeasuredOn::Dewatering),
    ]
}
