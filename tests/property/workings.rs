//! The working shown for a quantity against its value: every line of every demo site.

use batterboard_core::analysis::{Cache, Detail, Scenario, run};
use batterboard_core::exchange::open;
use batterboard_core::report::Workings;
use batterboard_core::takeoff::Line;
use batterboard_core::takeoff::expression::{Expression, Input};
use batterboard_core::units::constants::INCH;
use batterboard_core::units::{Measure, Shown, System, parse_measure, show};

const DEMOS: [&str; 4] = [
    include_str!("../../demo-sites/creek-side-deed.json"),
    include_str!("../../demo-sites/level-suburban.json"),
    include_str!("../../demo-sites/sloping-hillside.json"),
    include_str!("../../demo-sites/wedge-cul-de-sac.json"),
];

fn lines() -> Vec<Line> {
    let of_demo = |text: &&str| -> Vec<Line> {
        let site = open(text).unwrap().site;
        let mut cache = Cache::default();
        run(&Scenario::of(&site), Detail::Complete, &mut cache).takeoff
    };
    DEMOS.iter().flat_map(of_demo).collect()
}

#[track_caller]
fn agree(line: &Line, worked_out: f64) {
    let off = (worked_out - line.value).abs();
    assert!(
        off <= 1e-9 * line.value.abs().max(1.0),
        "{}: {} by {}, not {}",
        line.key,
        worked_out,
        line.working.expression.formula(),
        line.value
    );
}

/// What was worked out more closely elsewhere is what the formula gives from its inputs.
#[test]
fn every_formula_gives_the_value_of_its_line() {
    let lines = lines();
    assert!(lines.len() > 200);
    for line in &lines {
        assert_eq!(line.working.expression.value(), line.value, "{}", line.key);
        agree(line, line.working.expression.by_formula());
    }
}

/// The text that people check with a calculator, worked out by its signs alone: numbers in SI in
/// full, precedence and brackets as they are printed.
#[test]
fn the_arithmetic_as_printed_gives_the_value_of_its_line() {
    let mut checked = 0;
    for line in &lines() {
        let expression = &line.working.expression;
        let number = |input: &Input| format!("{:?}", input.value);
        let text = expression.arithmetic(&number, "");
        let Some(text) = text.strip_suffix(" = ") else {
            continue;
        };
        if matches!(expression, Expression::FoundFor(..)) {
            continue;
        }
        let mut printed = Printed::of(text);
        let mut value = printed.sum();
        assert!(printed.0.is_empty(), "{}: {text}", line.key);
        if !line.working.rounding().is_empty() {
            value = (value - 1e-9).ceil();
        }
        // The only bounds that formulas leave to words.
        if line.key == "least-water-volume" {
            value = value.min(line.value);
        }
        agree(line, value.max(line.value.min(0.0)));
        checked += 1;
    }
    assert!(checked > 120, "{checked}");
}

/// One unit of the last digit of a printed figure, in its unit.
fn last_digit(shown: &Shown, measure: Measure, system: System) -> f64 {
    if (measure, system) == (Measure::Length, System::Feet) {
        return INCH / 16.0 / measure.shown_unit(system).in_si();
    }
    let figure = shown.text.split(' ').next().unwrap();
    let decimals = figure
        .trim_end_matches('%')
        .split_once('.')
        .map_or(0, |(_, it)| it.len());
    (0..decimals).fold(1.0, |digit, _| digit / 10.0)
}

/// What people do with a calculator: the inputs as they are printed, put into the formula, give the
/// figure as it is printed, within one unit of its last digit.
#[test]
fn the_printed_inputs_give_the_printed_value() {
    let (mut checked, mut to_the_digit) = (0, 0);
    for system in [System::Feet, System::Metres] {
        for line in &lines() {
            let workings = Workings::of(line, system);
            let expression = &line.working.expression;
            let inputs = expression.inputs();
            let read = |input: &Input| -> f64 {
                let at = inputs.iter().position(|it| core::ptr::eq(*it, input));
                let text = &workings.inputs[at.unwrap()].shown.text;
                let parsed = parse_measure(text, input.measure, system);
                parsed
                    .unwrap_or_else(|e| panic!("{}: {text}: {e}", line.key))
                    .value
            };
            let text = expression.arithmetic(&|input| format!("{:?}", read(input)), "");
            let mut value = match (expression, text.strip_suffix(" = ")) {
                (Expression::FoundFor(..), _) => continue,
                (Expression::InWords(..), _) => inputs.iter().map(|input| read(input)).sum(),
                (_, Some(text)) => Printed::of(text).sum(),
                // The formula leaves to words how its inputs are put together.
                (_, None) => continue,
            };
            if !line.working.rounding().is_empty() {
                value = (value - 1e-9).ceil();
            }
            if line.key == "least-water-volume" {
                value = value.min(line.value);
            }
            value = value.max(line.value.min(0.0));
            let by_hand = show(line.measure, value, system);
            let off = (by_hand.value - workings.shown.value).abs();
            let unit = last_digit(&workings.shown, line.measure, system);
            assert!(
                off <= unit * 1.000_001,
                "{}: {} gives {}",
                line.key,
                workings.arithmetic,
                by_hand.text
            );
            checked += 1;
            to_the_digit += i32::from(by_hand.text == workings.shown.text);
        }
    }
    assert!(checked > 250, "{checked}");
    // Results on the edge of two roundings are the only ones that may be off at all.
    assert!(
        checked - to_the_digit <= checked / 50,
        "{to_the_digit} of {checked}"
    );
}

/// What is left of a printed formula.
struct Printed<'a>(Vec<&'a str>);

impl<'a> Printed<'a> {
    /// Words that say which of the two, or what was left out, are no part of the sum.
    fn of(text: &'a str) -> Self {
        let text = text.split(", ").next().unwrap();
        let mut tokens = Vec::new();
        for word in text.split(' ') {
            let mut word = word;
            while let Some(rest) = word.strip_prefix('(') {
                tokens.push("(");
                word = rest;
            }
            let bare = word.trim_end_matches(')');
            let (base, power) = bare.split_once('^').unwrap_or((bare, ""));
            if !["outside", "the", "hole", "of"].contains(&base) {
                tokens.push(base);
            }
            if !power.is_empty() {
                tokens.extend(["^", power]);
            }
            tokens.extend(word[bare.len()..].chars().map(|_| ")"));
        }
        tokens.reverse();
        Self(tokens)
    }

    fn takes(&mut self, token: &str) -> bool {
        self.0.pop_if(|next| *next == token).is_some()
    }

    fn sum(&mut self) -> f64 {
        let mut value = self.product();
        loop {
            if self.takes("+") {
                value += self.product();
            } else if self.takes("-") {
                value -= self.product();
            } else {
                return value;
            }
        }
    }

    fn product(&mut self) -> f64 {
        let mut value = self.power();
        loop {
            if self.takes("x") {
                value *= self.power();
            } else if self.takes("/") {
                value /= self.power();
            } else {
                return value;
            }
        }
    }

    fn power(&mut self) -> f64 {
        let base = self.one();
        if self.takes("^") {
            batterboard_core::math::powf(base, self.one())
        } else {
            base
        }
    }

    fn one(&mut self) -> f64 {
        if self.takes("(") {
            let value = self.sum();
            assert!(self.takes(")"));
            return value;
        }
        for (word, pick) in [
            ("greater", f64::max as fn(f64, f64) -> f64),
            ("lesser", f64::min),
        ] {
            if self.takes(word) {
                let first = self.one();
                assert!(self.takes("and"));
                return pick(first, self.one());
            }
        }
        match self.0.pop().unwrap() {
            "pi" => core::f64::consts::PI,
            number => number.parse().unwrap_or_else(|_| panic!("{number}")),
        }
    }
}
