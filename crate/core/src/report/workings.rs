//! A quantity with the arithmetic behind it, as people read it.

use serde::Serialize;

use super::{Figure, RangeFigures, by_hand};
use crate::finding::Caveat;
use crate::takeoff::{Group, Input, Line, MeasuredOn};
use crate::units::{Measure, Shown, System};

/// One quantity and how it came about.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Workings {
    /// Its stable name.
    pub key: &'static str,
    /// The group it is listed in.
    pub group: Group,
    /// What it is called.
    pub label: &'static str,
    /// Its value in SI units, waste and rounding included.
    pub value: f64,
    /// The SI unit's sign.
    pub unit: &'static str,
    /// As shown in the report's units.
    pub shown: Shown,
    /// As shown in the other units.
    pub other: Shown,
    /// The geometry it was measured on.
    pub on: MeasuredOn,
    /// Low and high, where they are known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<RangeFigures>,
    /// The formula in words and signs.
    pub formula: String,
    /// The formula with its numbers put in, in the report's units; empty where the figure was
    /// measured and nothing went in.
    pub arithmetic: String,
    /// What went into it.
    pub inputs: Vec<InputShown>,
    /// What was added for waste, empty when nothing was.
    pub waste: String,
    /// How it was rounded, empty when it was not.
    pub rounding: &'static str,
    /// Where formula and constants come from.
    pub source: &'static str,
    /// What it takes for granted, each in a sentence.
    pub assumptions: Vec<&'static str>,
    /// Why it is weaker than it looks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caveats: Vec<Caveat>,
}

/// One number that went into a quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct InputShown {
    /// What it is.
    pub name: &'static str,
    /// Its value in SI units.
    pub value: f64,
    /// The SI unit's sign.
    pub unit: &'static str,
    /// As shown in the report's units.
    pub shown: Shown,
    /// As shown in the other units.
    pub other: Shown,
    /// Where it comes from, when it is a constant; empty when it was measured.
    pub source: &'static str,
}

impl InputShown {
    fn of(input: &Input, shown: Shown, other: Shown) -> Self {
        Self {
            name: input.name,
            value: input.value,
            unit: input.measure.si_unit().symbol(),
            shown,
            other,
            source: input.source,
        }
    }
}

impl Workings {
    /// The working of one line of the takeoff in the given units.
    pub fn of(line: &Line, system: System) -> Self {
        let working = &line.working;
        let expression = &working.expression;
        let result = Figure::new(line.measure, line.value, system);
        let inputs = expression.inputs();
        let printed = by_hand::inputs(line, system);
        let other = by_hand::inputs(line, system.other());
        let text = |input: &Input| {
            let mut known = inputs.iter().zip(&printed);
            let known = known.find(|(it, _)| core::ptr::eq(**it, input));
            known.map_or_else(String::new, |(_, shown)| shown.text.clone())
        };
        let arithmetic = expression.arithmetic(&text, &result.shown.text);
        let shown = inputs.iter().zip(printed.iter().zip(&other));
        let waste = |share| Figure::new(Measure::Fraction, share, system).shown.text;
        Self {
            key: line.key,
            group: line.group,
            label: line.label,
            value: result.value,
            unit: result.unit,
            shown: result.shown,
            other: result.other,
            on: line.on,
            range: RangeFigures::of(line, system),
            formula: expression.formula(),
            arithmetic,
            inputs: shown
                .map(|(input, (shown, other))| InputShown::of(input, shown.clone(), other.clone()))
                .collect(),
            waste: expression.waste().map_or_else(String::new, waste),
            rounding: working.rounding(),
            source: working.source,
            assumptions: working.assumptions.clone(),
            caveats: line.caveats.clone(),
        }
    }
}
