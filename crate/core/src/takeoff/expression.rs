//! A figure as an expression: it evaluates itself and prints itself, so that the value of a
//! quantity and the working shown for it are one thing.
//!
//! [`Expression::value`] works it out in SI units, [`Expression::formula`] writes it with the
//! names of its inputs (`area x thickness`), [`Expression::arithmetic`] with their numbers
//! (`302.1 sq ft x 4" = ...`). No text is made before it is asked for.
//!
//! Expressions are put together by `+ - * /`; sums and products are evaluated from left to
//! right, as they are written.

use core::ops::{Add, Div, Mul, Sub};

use crate::math::powf;
use crate::units::Measure;

/// One number that went into a figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input {
    /// What it is.
    pub name: &'static str,
    /// Its value in SI units.
    pub value: f64,
    /// What kind of figure it is.
    pub measure: Measure,
    /// Where it comes from, when it is a constant or a setting; empty when it was measured.
    pub source: &'static str,
}

/// How a figure comes about.
#[derive(Debug, Clone, PartialEq)]
pub enum Expression {
    /// A number with a name.
    Input(Input),
    /// A plain number, written as it stands in the formula (`1`, `pi / 4`).
    Number(f64, &'static str),
    /// A figure that no formula gives: measured on geometry, or as somebody entered it.
    Measured(f64, &'static str),
    /// The first term, then each of the others added or subtracted.
    Sum(Vec<(Sign, Expression)>),
    /// The first factor, then each of the others by which it is multiplied or divided.
    Product(Vec<(Sign, Expression)>),
    /// A base, to this power.
    Power(Box<Expression>, f64, &'static str),
    /// The greater or the lesser of two.
    OfTwo(Extreme, Box<(Expression, Expression)>),
    /// Whole pieces that hold it.
    WholeUp(Box<Expression>),
    /// No less and no more than these, which the formula does not write.
    Within(f64, f64, Box<Expression>),
    /// The same value, worked out more closely elsewhere (run by run, facet by facet, by a
    /// search) than the formula shown for it, which agrees but for rounding.
    Closer(f64, Box<Expression>),
    /// Found where another figure is what it is, which stands after the words.
    FoundFor(f64, &'static str, Box<Expression>),
    /// With words before and after it.
    Worded(&'static str, Box<Expression>, &'static str),
    /// Told in words, which leave its inputs unnamed: they are listed beside them.
    InWords(&'static str, Box<Expression>),
    /// With what bears on it beside its own inputs, though the formula does not name it.
    Bearing(Box<Expression>, Vec<Input>),
}

/// Whether a term is added or subtracted, a factor multiplied with or divided by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Added, multiplied with.
    Plus,
    /// Subtracted, divided by.
    Minus,
}

/// Which of two figures counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Extreme {
    /// The greater.
    Greater,
    /// The lesser.
    Lesser,
}

/// What the user set, or left at the default of the trade.
pub(super) const SETTING: &str = "setting; default is common practice";

/// What the fraction added for waste is called.
const WASTE: &str = "waste";

/// An input that was measured or worked out.
pub const fn input(name: &'static str, value: f64, measure: Measure) -> Expression {
    given(name, value, measure, "")
}

/// An input that the user set, or left at the default of the trade.
pub const fn setting(name: &'static str, value: f64, measure: Measure) -> Expression {
    given(name, value, measure, SETTING)
}

/// An input that somebody set or published.
pub const fn given(
    name: &'static str,
    value: f64,
    measure: Measure,
    source: &'static str,
) -> Expression {
    Expression::Input(Input {
        name,
        value,
        measure,
        source,
    })
}

/// A figure that no formula gives, and how it was measured, in words.
pub const fn measured(words: &'static str, value: f64) -> Expression {
    Expression::Measured(value, words)
}

/// The sum of all.
pub fn sum(terms: impl IntoIterator<Item = Expression>) -> Expression {
    Expression::Sum(terms.into_iter().map(|it| (Sign::Plus, it)).collect())
}

/// The greater or the lesser of two.
pub fn of_two(extreme: Extreme, a: Expression, b: Expression) -> Expression {
    Expression::OfTwo(extreme, Box::new((a, b)))
}

impl Expression {
    /// Its value in SI units.
    pub fn value(&self) -> f64 {
        match self {
            Self::Closer(value, _) => *value,
            other => other.evaluated(&Self::value, &|input| input.value),
        }
    }

    /// What the formula gives, worked out from its inputs alone, SI units: [`Self::value`] but
    /// for rounding.
    pub fn by_formula(&self) -> f64 {
        self.by_formula_of(&|input| input.value)
    }

    /// What the formula gives for other values of its inputs, SI units.
    pub fn by_formula_of(&self, value: &dyn Fn(&Input) -> f64) -> f64 {
        match self {
            Self::Closer(_, of) => of.by_formula_of(value),
            other => other.evaluated(&|part| part.by_formula_of(value), value),
        }
    }

    /// Its value, that of its parts by `of` and that of an input by `input_value`.
    fn evaluated(&self, of: &dyn Fn(&Self) -> f64, input_value: &dyn Fn(&Input) -> f64) -> f64 {
        match self {
            Self::Input(input) => input_value(input),
            Self::Number(value, _)
            | Self::Measured(value, _)
            | Self::FoundFor(value, ..)
            | Self::Closer(value, _) => *value,
            Self::Sum(terms) => joined(terms, of, |a, b| a + b, |a, b| a - b).unwrap_or(0.0),
            Self::Product(factors) => {
                joined(factors, of, |a, b| a * b, |a, b| a / b).unwrap_or(1.0)
            }
            Self::Power(base, exponent, _) => powf(of(base), *exponent),
            Self::OfTwo(extreme, two) => {
                let (a, b) = (of(&two.0), of(&two.1));
                match extreme {
                    Extreme::Greater => a.max(b),
                    Extreme::Lesser => a.min(b),
                }
            }
            Self::WholeUp(inner) => whole_up(of(inner)),
            Self::Within(least, most, inner) => of(inner).max(*least).min(*most),
            Self::Worded(_, inner, _) | Self::InWords(_, inner) | Self::Bearing(inner, _) => {
                of(inner)
            }
        }
    }

    /// The formula in words and signs, its inputs by their names.
    pub fn formula(&self) -> String {
        let mut out = String::new();
        self.write(&mut out, &|input, out| out.push_str(input.name));
        out
    }

    /// The formula with the texts of its inputs put in, and its result; the inputs listed where
    /// the formula does not name them all. Empty where nothing went in: the figure was measured.
    pub fn arithmetic(&self, text: &dyn Fn(&Input) -> String, result: &str) -> String {
        let inputs = self.inputs();
        if inputs.is_empty() {
            return String::new();
        }
        if self.leaves_inputs_unnamed() {
            let each = |input: &&Input| format!("{} {}", input.name, text(input));
            let listed: Vec<String> = inputs.iter().map(each).collect();
            return format!("{}: {result}", listed.join(", "));
        }
        let mut out = String::new();
        self.write(&mut out, &|input, out| out.push_str(&text(input)));
        format!("{out} = {result}")
    }

    /// Everything that went into it, in the order in which it is written.
    pub fn inputs(&self) -> Vec<&Input> {
        let mut found = Vec::new();
        self.visit(&mut |part| match part {
            Self::Input(input) => found.push(input),
            Self::Bearing(_, inputs) => found.extend(inputs),
            _ => {}
        });
        found
    }

    /// The fraction added for waste, if any.
    pub fn waste(&self) -> Option<f64> {
        let wasted = self.inputs().into_iter().find(|it| it.name == WASTE);
        wasted.map(|it| it.value)
    }

    /// Whether it, or a part of it, is rounded up to whole pieces.
    pub fn is_whole_up(&self) -> bool {
        let mut found = false;
        self.visit(&mut |part| found |= matches!(part, Self::WholeUp(_)));
        found
    }

    fn leaves_inputs_unnamed(&self) -> bool {
        let mut found = false;
        self.visit(&mut |part| found |= matches!(part, Self::InWords(..) | Self::Bearing(..)));
        found
    }

    /// With the fraction added for waste.
    pub fn with_waste(self, fraction: f64) -> Self {
        let waste = setting(WASTE, fraction, Measure::Fraction);
        self * (Self::Number(1.0, "1") + waste)
    }

    /// Rounded up to whole pieces.
    pub fn whole_up(self) -> Self {
        Self::WholeUp(Box::new(self))
    }

    /// No less than nothing.
    pub fn not_negative(self) -> Self {
        self.within(0.0, f64::INFINITY)
    }

    /// No less and no more than these.
    pub fn within(self, least: f64, most: f64) -> Self {
        Self::Within(least, most, Box::new(self))
    }

    /// The same, worked out more closely elsewhere.
    pub fn closer(self, value: f64) -> Self {
        Self::Closer(value, Box::new(self))
    }

    /// To a power, and how that is written.
    pub fn power(self, exponent: f64, written: &'static str) -> Self {
        Self::Power(Box::new(self), exponent, written)
    }

    /// A value that was found for this one, and the words before it.
    pub fn found(self, value: f64, words: &'static str) -> Self {
        Self::FoundFor(value, words, Box::new(self))
    }

    /// With words before and after it.
    pub fn worded(self, before: &'static str, after: &'static str) -> Self {
        Self::Worded(before, Box::new(self), after)
    }

    /// Told in words.
    pub fn told(self, words: &'static str) -> Self {
        Self::InWords(words, Box::new(self))
    }

    /// With an input that bears on it, though the formula does not name it.
    pub fn under(self, bearing: Self) -> Self {
        let Self::Input(input) = bearing else {
            return self;
        };
        match self {
            Self::Bearing(of, mut inputs) => {
                inputs.push(input);
                Self::Bearing(of, inputs)
            }
            other => Self::Bearing(Box::new(other), vec![input]),
        }
    }

    /// Calls back with every part in the order in which they are written, a part's own parts
    /// first.
    fn visit<'a>(&'a self, see: &mut dyn FnMut(&'a Self)) {
        match self {
            Self::Input(_) | Self::Number(..) | Self::Measured(..) => {}
            Self::Sum(parts) | Self::Product(parts) => {
                parts.iter().for_each(|(_, part)| part.visit(see));
            }
            Self::OfTwo(_, two) => [&two.0, &two.1]
                .into_iter()
                .for_each(|part| part.visit(see)),
            Self::Power(of, ..)
            | Self::WholeUp(of)
            | Self::Within(_, _, of)
            | Self::Closer(_, of)
            | Self::FoundFor(_, _, of)
            | Self::Worded(_, of, _)
            | Self::InWords(_, of)
            | Self::Bearing(of, _) => of.visit(see),
        }
        see(self);
    }

    fn write(&self, out: &mut String, name: &dyn Fn(&Input, &mut String)) {
        match self {
            Self::Input(input) => name(input, out),
            Self::Number(_, words) | Self::Measured(_, words) | Self::InWords(words, _) => {
                out.push_str(words);
            }
            Self::Sum(terms) => {
                for (at, (sign, term)) in terms.iter().enumerate() {
                    let minus = *sign == Sign::Minus;
                    if at > 0 {
                        out.push_str(if minus { " - " } else { " + " });
                    }
                    term.write_inside(minus && term.is_sum(), out, name);
                }
            }
            Self::Product(factors) => {
                for (at, (sign, factor)) in factors.iter().enumerate() {
                    let over = *sign == Sign::Minus;
                    if at > 0 {
                        out.push_str(if over { " / " } else { " x " });
                    }
                    let apart = factor.is_sum() || (over && factor.is_product());
                    factor.write_inside(apart, out, name);
                }
            }
            Self::Power(base, _, exponent) => {
                let mut of = String::new();
                base.write(&mut of, name);
                // "(0.172 ft)^2": the power is not that of the unit.
                let figure = of.contains(' ') && of.starts_with(|c: char| c.is_ascii_digit());
                if figure || base.is_sum() || base.is_product() {
                    of = format!("({of})");
                }
                out.extend([&of, "^", exponent]);
            }
            Self::OfTwo(extreme, two) => {
                out.push_str(match extreme {
                    Extreme::Greater => "the greater of ",
                    Extreme::Lesser => "the lesser of ",
                });
                two.0.write(out, name);
                out.push_str(" and ");
                two.1.write(out, name);
            }
            Self::Worded(before, of, after) => {
                out.push_str(before);
                of.write(out, name);
                out.push_str(after);
            }
            Self::FoundFor(_, words, of) => {
                out.push_str(words);
                of.write(out, name);
            }
            Self::WholeUp(of)
            | Self::Within(_, _, of)
            | Self::Closer(_, of)
            | Self::Bearing(of, _) => of.write(out, name),
        }
    }

    fn write_inside(&self, brackets: bool, out: &mut String, name: &dyn Fn(&Input, &mut String)) {
        out.push_str(if brackets { "(" } else { "" });
        self.write(out, name);
        out.push_str(if brackets { ")" } else { "" });
    }

    /// What it is written as, where nothing is written round it.
    fn bare(&self) -> &Self {
        match self {
            Self::WholeUp(of)
            | Self::Within(_, _, of)
            | Self::Closer(_, of)
            | Self::Bearing(of, _) => of.bare(),
            other => other,
        }
    }

    fn is_sum(&self) -> bool {
        matches!(self.bare(), Self::Sum(terms) if terms.len() > 1)
    }

    fn is_product(&self) -> bool {
        matches!(self.bare(), Self::Product(factors) if factors.len() > 1)
    }

    fn joined_to_sum(self, sign: Sign, other: Self) -> Self {
        Self::Sum(match self {
            Self::Sum(terms) => pushed(terms, sign, other),
            first => vec![(Sign::Plus, first), (sign, other)],
        })
    }

    fn joined_to_product(self, sign: Sign, other: Self) -> Self {
        Self::Product(match self {
            Self::Product(factors) => pushed(factors, sign, other),
            first => vec![(Sign::Plus, first), (sign, other)],
        })
    }
}

type Parts = Vec<(Sign, Expression)>;

fn pushed(mut parts: Parts, sign: Sign, other: Expression) -> Parts {
    parts.push((sign, other));
    parts
}

/// From left to right, the first part whatever its sign.
fn joined(
    parts: &Parts,
    of: &dyn Fn(&Expression) -> f64,
    plus: fn(f64, f64) -> f64,
    minus: fn(f64, f64) -> f64,
) -> Option<f64> {
    let mut values = parts.iter().map(|(sign, part)| (*sign, of(part)));
    let (_, first) = values.next()?;
    Some(values.fold(first, |so_far, (sign, value)| match sign {
        Sign::Plus => plus(so_far, value),
        Sign::Minus => minus(so_far, value),
    }))
}

/// Whole pieces that hold an amount. A billionth of a piece too much is rounding noise of
/// the sum, not a piece. Nothing is a plain zero: which of the two zeros `max` gives differs
/// between machines.
fn whole_up(pieces: f64) -> f64 {
    (pieces - 1e-9).ceil().max(0.0) + 0.0
}

impl Add for Expression {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        self.joined_to_sum(Sign::Plus, other)
    }
}

impl Sub for Expression {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        self.joined_to_sum(Sign::Minus, other)
    }
}

impl Mul for Expression {
    type Output = Self;

    fn mul(self, other: Self) -> Self {
        self.joined_to_product(Sign::Plus, other)
    }
}

impl Div for Expression {
    type Output = Self;

    fn div(self, other: Self) -> Self {
        self.joined_to_product(Sign::Minus, other)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(name: &'static str, value: f64) -> Expression {
        input(name, value, Measure::Count)
    }

    fn filled(of: &Expression) -> String {
        of.arithmetic(&|input| input.value.to_string(), &of.value().to_string())
    }

    #[test]
    fn what_is_evaluated_is_what_is_written() {
        let (a, b, c) = (named("a", 12.0), named("b", 4.0), named("c", 2.0));
        for (of, formula, value) in [
            (a.clone() * b.clone() - c.clone(), "a x b - c", 46.0),
            ((a.clone() - b.clone()) * c.clone(), "(a - b) x c", 16.0),
            (a.clone() - (b.clone() - c.clone()), "a - (b - c)", 10.0),
            (a.clone() - b.clone() - c.clone(), "a - b - c", 6.0),
            (a.clone() / (b.clone() * c.clone()), "a / (b x c)", 1.5),
            (a.clone() / b.clone() * c.clone(), "a / b x c", 6.0),
            (a.clone() - b.clone() / c.clone(), "a - b / c", 10.0),
            ((a.clone() + b.clone()).power(2.0, "2"), "(a + b)^2", 256.0),
            (
                (c.clone() - a.clone()).not_negative() * b.clone(),
                "(c - a) x b",
                0.0,
            ),
        ] {
            assert_eq!((of.formula().as_str(), of.value()), (formula, value));
            let numbers = formula
                .replace('a', "12")
                .replace('b', "4")
                .replace('c', "2");
            assert_eq!(filled(&of), format!("{numbers} = {value}"));
        }
        let with_unit = |input: &Input| format!("{} ft", input.value);
        let power = a
            .clone()
            .power(2.0, "2")
            .arithmetic(&with_unit, "144 sq ft");
        assert_eq!(power, "(12 ft)^2 = 144 sq ft");
        let greater = of_two(Extreme::Greater, a.clone(), b.clone());
        assert_eq!(filled(&greater), "the greater of 12 and 4 = 12");
        let lesser = of_two(Extreme::Lesser, a, b);
        assert_eq!(filled(&lesser), "the lesser of 12 and 4 = 4");
    }

    #[test]
    fn waste_and_rounding_are_part_of_it() {
        let of = named("area", 10.0).with_waste(0.25);
        assert_eq!(of.formula(), "area x (1 + waste)");
        assert_eq!((of.value(), of.waste()), (12.5, Some(0.25)));
        assert!(!of.is_whole_up());
        let pieces = of.whole_up();
        assert_eq!((pieces.value(), pieces.is_whole_up()), (13.0, true));
        assert_eq!(filled(&pieces), "10 x (1 + 0.25) = 13");
    }

    #[test]
    fn inputs_that_the_formula_leaves_unnamed_are_listed() {
        let sum = sum([named("a", 1.0), named("b", 2.0)]).told("all of them");
        assert_eq!(sum.formula(), "all of them");
        assert_eq!(filled(&sum), "a 1, b 2: 3");
        let bearing = named("length", 10.0).under(named("spacing", 2.0)) * named("waste", 1.0);
        assert_eq!(bearing.formula(), "length x waste");
        assert_eq!(filled(&bearing), "length 10, spacing 2, waste 1: 10");
        assert_eq!(filled(&measured("round the edge", 7.0)), "");
        assert_eq!(
            filled(&measured("held", 7.0).under(named("depth", 2.0))),
            "depth 2: 7"
        );
    }

    #[test]
    fn a_closer_value_stands_in_for_its_formula() {
        let of = (named("a", 2.0) * named("b", 3.0)).closer(6.000_001) * named("c", 2.0);
        assert_eq!((of.value(), of.by_formula()), (12.000_002, 12.0));
        assert_eq!(filled(&of), "2 x 3 x 2 = 12.000002");
    }

    #[test]
    fn pieces_round_up_but_not_for_noise() {
        assert_eq!(whole_up(10.000_000_000_001), 10.0);
        assert_eq!(whole_up(10.001), 11.0);
        assert_eq!(whole_up(0.0), 0.0);
        assert!(whole_up(0.0).is_sign_positive() && whole_up(-0.5).is_sign_positive());
    }
}
