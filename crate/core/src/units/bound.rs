//! A figure out of its range, and the range, in the units in use and as somebody would type them.
//!
//! A bound is rounded into its range, so that what is read here is taken when it is typed; the
//! figure itself is rounded away from the range, so that it never looks as if it lay within.

use core::ops::RangeInclusive;

use super::System;
use super::decimal::{format_decimal, round_to};
use super::measure::{Measure, parse_measure, show, with_unit};

/// The most digits after the point.
const MOST_DECIMALS: u32 = 9;

/// How far a text may lie from its figure, as shares of it.
#[derive(Debug, Clone, Copy)]
struct Slack {
    /// On the right side of it.
    right: f64,
    /// On the wrong side.
    wrong: f64,
}

impl Slack {
    /// A bound is told roughly, and never beyond.
    const BOUND: Self = Self {
        right: 0.01,
        wrong: 0.0,
    };
    /// The figure itself, as somebody typed it.
    const FIGURE: Self = Self {
        right: 1e-5,
        wrong: NOISE,
    };
}

/// Which way a figure is rounded.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Toward {
    Greater,
    Lesser,
}

/// How far reading a text back may fall short of the figure that was typed, as a share of it: the
/// last digits of a double.
const NOISE: f64 = 1e-12;

/// A sentence for an SI figure outside its range: `The over-dig is 12'-0"; it must lie between
/// 0'-0" and 9'-10 1/16".` In more than one system, the others stand in brackets.
pub fn out_of_range(
    what: &str,
    measure: Measure,
    value: f64,
    range: &RangeInclusive<f64>,
    systems: &[System],
) -> String {
    let both = |value: f64, toward, slack| {
        let mut texts = systems
            .iter()
            .map(|system| written(measure, value, *system, toward, slack));
        let first = texts.next().unwrap_or_default();
        let others = texts.filter(|text| *text != first);
        others.fold(first.clone(), |all, text| format!("{all} ({text})"))
    };
    let low = both(*range.start(), Toward::Greater, Slack::BOUND);
    let high = both(*range.end(), Toward::Lesser, Slack::BOUND);
    let is = if value.is_finite() {
        let away = if value < *range.start() {
            Toward::Lesser
        } else {
            Toward::Greater
        };
        both(value, away, Slack::FIGURE)
    } else {
        "no number".to_owned()
    };
    format!("{what} is {is}; it must lie between {low} and {high}.")
}

/// A figure as it is shown, or with as many digits as it takes to read back on the right side of
/// it and close to it.
fn written(measure: Measure, value: f64, system: System, toward: Toward, slack: Slack) -> String {
    let sign = match toward {
        Toward::Greater => 1.0,
        Toward::Lesser => -1.0,
    };
    let fits = |text: &String| {
        let Ok(read) = parse_measure(text, measure, system) else {
            return false;
        };
        let off = sign * (read.value - value);
        (-slack.wrong * value.abs()..=slack.right * value.abs()).contains(&off)
    };
    let half_step = sign * measure.step(system) / 2.0;
    let shown = [value, value + half_step].map(|value| show(measure, value, system).text);
    let decimals = measure.decimals(system) + 1..=MOST_DECIMALS;
    let longer =
        decimals.map(|decimals| with_decimals(measure, value, system, (toward, slack), decimals));
    let mut texts = shown.into_iter().chain(longer);
    texts
        .find(fits)
        .unwrap_or_else(|| show(measure, value, system).text)
}

/// A figure with so many digits after the point.
fn with_decimals(
    measure: Measure,
    value: f64,
    system: System,
    (toward, slack): (Toward, Slack),
    decimals: u32,
) -> String {
    let unit = measure.shown_unit(system);
    let count = unit.from_si(value);
    let nearest = round_to(count, decimals);
    let noise = slack.wrong * value.abs();
    let step = (0..decimals).fold(1.0, |step, _| step / 10.0);
    let rounded = match toward {
        Toward::Greater if unit.to_si(nearest) < value - noise => nearest + step,
        Toward::Lesser if unit.to_si(nearest) > value + noise => nearest - step,
        _ => nearest,
    };
    with_unit(measure, unit, &format_decimal(rounded, decimals))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_speaks_as_people_type() {
        let feet =
            |measure, value, range| out_of_range("It", measure, value, &range, &[System::Feet]);
        for (measure, value, range, text) in [
            // 12 ft; 3 m are 118.11 in, and 118 1/8 in would be too much.
            (
                Measure::Length,
                3.657_600_000_000_000_4,
                0.0..=3.0,
                "It is 12'-0\"; it must lie between 0'-0\" and 9'-10 1/16\".",
            ),
            (
                Measure::Length,
                -0.0254,
                0.0..=3.0,
                "It is -0'-1\"; it must lie between 0'-0\" and 9'-10 1/16\".",
            ),
            (
                Measure::Fraction,
                1.5,
                0.0..=1.0,
                "It is 150.0%; it must lie between 0.0% and 100.0%.",
            ),
            (
                Measure::Slope,
                5.0,
                0.0..=4.0,
                "It is 5:1; it must lie between vertical and 4:1.",
            ),
            (
                Measure::Count,
                101.0,
                1.0..=100.0,
                "It is 101; it must lie between 1 and 100.",
            ),
            // 500 kg/m3 are 0.4214 short tons to the cubic yard, 4,000 are 3.3711.
            (
                Measure::Density,
                5000.0,
                500.0..=4000.0,
                "It is 4.2139 short tons/cu yd; it must lie between 0.422 short tons/cu yd and 3.37 short tons/cu yd.",
            ),
            (
                Measure::Length,
                f64::NAN,
                0.0..=3.0,
                "It is no number; it must lie between 0'-0\" and 9'-10 1/16\".",
            ),
        ] {
            assert_eq!(feet(measure, value, range), text);
        }
        assert_eq!(
            out_of_range(
                "It",
                Measure::Length,
                3.0004,
                &(0.0..=3.0),
                &[System::Metres]
            ),
            "It is 3.0004 m; it must lie between 0.000 m and 3.000 m."
        );
        let both = [System::Feet, System::Metres];
        assert_eq!(
            out_of_range("It", Measure::Length, 3.6576, &(0.1..=3.0), &both),
            "It is 12'-0\" (3.6576 m); it must lie between 0'-3 15/16\" (0.100 m) and 9'-10 1/16\" (3.000 m)."
        );
    }

    /// Every bound that is told can be typed.
    #[test]
    fn what_a_bound_says_lies_within_it() {
        for measure in [
            Measure::Length,
            Measure::LongLength,
            Measure::Elevation,
            Measure::EarthVolume,
            Measure::Weight,
            Measure::Density,
            Measure::Flow,
            Measure::Minutes,
            Measure::Fraction,
            Measure::Angle,
        ] {
            for system in [System::Feet, System::Metres] {
                for bound in [1e-3, 0.0123, 0.61, 3.0, 77.7, 1234.5, 86_400.0] {
                    for (toward, sign) in [(Toward::Greater, 1.0), (Toward::Lesser, -1.0)] {
                        let text = written(measure, bound, system, toward, Slack::BOUND);
                        let read = parse_measure(&text, measure, system);
                        let off = read.map(|read| (read.value - bound) * sign / bound);
                        assert!(
                            off.is_ok_and(|off| (0.0..=0.01).contains(&off)),
                            "{measure:?} {bound}: {text}"
                        );
                    }
                }
            }
        }
    }
}
