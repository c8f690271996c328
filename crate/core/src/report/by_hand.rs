//! The inputs of a working, with the digits it takes to get its printed result by hand.
//!
//! Figures are shown with the digits that a crew needs, which are not always enough to work out
//! another figure from: 10,653 gal times 0.84 short tons to the cubic yard is 260 lb short of what
//! the same figures give in full. Where what is shown would give another result than the one that is
//! printed, the input whose rounding does most gets one more digit, until the result comes out.

use crate::takeoff::Line;
use crate::takeoff::expression::Input;
use crate::units::{Shown, System, parse_measure, show, show_finer};

/// The most digits that an input gets beyond those it is shown with elsewhere. A result that lies on
/// the edge of two roundings may then still be one unit of its last digit off.
const MOST_MORE: u32 = 4;

/// What is printed for every input of a line's working, in the order of
/// [`Expression::inputs`](crate::takeoff::expression::Expression::inputs).
pub(super) fn inputs(line: &Line, system: System) -> Vec<Shown> {
    let expression = &line.working.expression;
    let inputs = expression.inputs();
    let result = |values: &[f64]| {
        let value = |input: &Input| {
            let at = inputs.iter().position(|it| core::ptr::eq(*it, input));
            let value = at.and_then(|at| values.get(at));
            value.copied().unwrap_or(input.value)
        };
        expression.by_formula_of(&value)
    };
    let text = |values: &[f64]| show(line.measure, result(values), system).text;
    let exact: Vec<f64> = inputs.iter().map(|input| input.value).collect();
    let aim = text(&exact);
    let mut more = vec![0; inputs.len()];
    loop {
        let printed = inputs.iter().zip(&more);
        let printed: Vec<Shown> = printed
            .map(|(input, more)| show_finer(input.measure, input.value, system, *more))
            .collect();
        let read: Vec<f64> = inputs
            .iter()
            .zip(&printed)
            .map(|(input, shown)| {
                let read = parse_measure(&shown.text, input.measure, system);
                read.map_or(input.value, |parsed| parsed.value)
            })
            .collect();
        if text(&read) == aim {
            return printed;
        }
        // How far the rounding of one input alone carries the result.
        let alone = |at: usize, value: f64| {
            let mut values = exact.clone();
            if let Some(slot) = values.get_mut(at) {
                *slot = value;
            }
            (result(&values) - result(&exact)).abs()
        };
        let off = read.iter().enumerate().map(|(at, value)| alone(at, *value));
        let worst = off
            .zip(&mut more)
            .filter(|(off, more)| *off > 0.0 && **more < MOST_MORE)
            .max_by(|(a, _), (b, _)| a.total_cmp(b));
        match worst {
            Some((_, more)) => *more += 1,
            None => return printed,
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::analysis::{Cache, Detail, Scenario, run};
    use crate::report::Workings;
    use crate::site::{CheckedSite, Site};

    fn arithmetic(key: &str, system: System) -> String {
        let text = include_str!("../../../../demo-sites/sloping-hillside.json");
        let site: Site = serde_json::from_str(text).unwrap();
        let site = CheckedSite::check(site, None).unwrap();
        let analysis = run(
            &Scenario::of(&site),
            Detail::Complete,
            &mut Cache::default(),
        );
        let line = analysis.line(key).unwrap();
        Workings::of(line, system).arithmetic
    }

    /// A cubic yard is 201.974 gal, so that 10,653 gal of body are 52.744 cu yd.
    #[test]
    fn an_uplift_can_be_worked_out_from_what_is_printed() {
        let text = arithmetic("uplift-empty", System::Feet);
        let numbers: Vec<f64> = text
            .replace(',', "")
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        let [body, density, weight, uplift] = numbers.as_slice() else {
            panic!("{text}");
        };
        let by_hand = body / 201.974_026 * density * 2000.0 - weight;
        assert!((by_hand - uplift).abs() <= 1.0, "{text}: {by_hand}");
    }

    #[test]
    fn what_comes_out_as_it_is_gets_no_more_digits() {
        let text = arithmetic("ties", System::Feet);
        assert!(text.ends_with("/ 2'-0\" = 38"), "{text}");
    }
}
