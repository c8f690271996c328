//! The takeoff as a list for a spreadsheet: text of RFC 4180, the same bytes everywhere.
//!
//! Numbers are plain, with a point, in the unit beside them; text is quoted. A spreadsheet takes
//! text that begins with `=`, `+`, `-` or `@` for a formula and runs it, so that such text gets an
//! apostrophe in front, which spreadsheets take for "this is text".

use super::{CostFigures, Figure, RangeFigures, Workings};
use crate::analysis::Analysis;
use crate::site::{CheckedSite, Rate, Site};
use crate::takeoff::Line;
use crate::units::{Measure, RateUnit, Shown, System, rate_in, round_to, show, show_rate};

/// The columns, in order.
pub const COLUMNS: [&str; 23] = [
    "Site",
    "Group",
    "Key",
    "Item",
    "Low",
    "Expected",
    "High",
    "Unit",
    "Low (other units)",
    "Expected (other units)",
    "High (other units)",
    "Other unit",
    "Waste %",
    "Rounding",
    "Rate",
    "Rate for",
    "Currency",
    "Cost low",
    "Cost",
    "Cost high",
    "Caveats",
    "Formula",
    "With numbers",
];

/// Digits after the point of a quantity: a sixteenth of an inch is 0.0052 ft.
const QUANTITY_DECIMALS: u32 = 4;

/// Digits after the point of a rate in another unit than it was typed in.
const RATE_DECIMALS: u32 = 5;

/// What the row of the sum is called in the column of the groups.
pub const TOTAL: &str = "Total";

/// All quantities of a site, in the given units and in the other ones.
pub fn takeoff(site: &CheckedSite, analysis: &Analysis, system: System) -> String {
    let name = &site.site().name;
    let lines = &analysis.takeoff;
    let cost = CostFigures::of(analysis, site.site(), system);
    let currency = site.site().currency.clone().unwrap_or_default();
    let mut out = String::new();
    row(&COLUMNS.map(text), &mut out);
    for line in lines {
        let working = Workings::of(line, system);
        let range = RangeFigures::of(line, system);
        let expected = Figure::new(line.measure, line.value, system);
        let (low, high) = range.map_or_else(
            || (expected.clone(), expected.clone()),
            |range| (range.low, range.high),
        );
        let priced = cost.iter().flat_map(|cost| &cost.lines);
        let priced = priced.into_iter().find(|priced| priced.key == line.key);
        let rate = rate_of(line, site.site());
        let waste = line.working.expression.waste();
        let waste = waste.map(|share| show(Measure::Fraction, share, system));
        let mut caveats: Vec<&str> = line.caveats.iter().map(|caveat| caveat.words()).collect();
        let uncounted = analysis.uncounted.iter().filter(|it| it.key == line.key);
        let uncounted = uncounted.filter(|_| priced.is_none());
        caveats.extend(uncounted.map(|it| it.why.as_str()));
        let figure = |shown: Option<&Shown>| shown.map_or_else(String::new, |s| number(s.value));
        let cells = [
            text(name),
            text(line.group.words()),
            text(line.key),
            text(line.label),
            quantity(&low.shown),
            quantity(&expected.shown),
            quantity(&high.shown),
            text(expected.shown.unit),
            quantity(&low.other),
            quantity(&expected.other),
            quantity(&high.other),
            text(expected.other.unit),
            figure(waste.as_ref()),
            text(line.working.rounding()),
            rate.map_or_else(String::new, |rate| rate_number(line, rate, system)),
            text(rate.map_or("", |_| RateUnit::of(line.measure, system).words())),
            text(rate.map_or("", |_| currency.symbol())),
            figure(priced.map(|priced| &priced.low)),
            figure(priced.map(|priced| &priced.cost)),
            figure(priced.map(|priced| &priced.high)),
            text(&caveats.join("; ")),
            text(&working.formula),
            text(&working.arithmetic),
        ];
        row(&cells, &mut out);
    }
    if let Some(cost) = &cost {
        let mut cells = [const { String::new() }; COLUMNS.len()];
        for (column, cell) in COLUMNS.iter().zip(&mut cells) {
            match *column {
                "Site" => *cell = text(name),
                "Group" => *cell = text(TOTAL),
                "Item" => *cell = text("Total of the priced lines"),
                "Currency" => *cell = text(currency.symbol()),
                "Cost low" => *cell = number(cost.low.value),
                "Cost" => *cell = number(cost.total.value),
                "Cost high" => *cell = number(cost.high.value),
                _ => {}
            }
        }
        row(&cells, &mut out);
    }
    out
}

/// The rate typed for a line.
fn rate_of<'a>(line: &Line, site: &'a Site) -> Option<&'a Rate> {
    site.rates.iter().find(|rate| rate.key == line.key)
}

/// A rate for the unit of its line: as it was typed, or in another unit with the digits that it
/// takes to work out the cost again.
fn rate_number(line: &Line, rate: &Rate, system: System) -> String {
    let exact = rate_in(line.measure, rate.rate, rate.per, system);
    let shown = show_rate(line.measure, rate.rate, rate.per, system).value;
    let finer = round_to(exact, RATE_DECIMALS);
    let off = |value: f64| (value - exact).abs();
    number(if off(finer) < off(shown) {
        finer
    } else {
        shown
    })
}

pub(super) fn row(cells: &[String], out: &mut String) {
    for (at, cell) in cells.iter().enumerate() {
        if at > 0 {
            out.push(',');
        }
        out.push_str(cell);
    }
    out.push_str("\r\n");
}

/// A quantity, with the digits that it is shown with: a length in feet and parts of an inch has
/// more in decimal feet than anybody measured.
pub(super) fn quantity(shown: &Shown) -> String {
    number(round_to(shown.value, QUANTITY_DECIMALS))
}

/// A number as the shortest text that reads back; empty where it is not finite.
pub(super) fn number(value: f64) -> String {
    if value.is_finite() {
        format!("{value}")
    } else {
        String::new()
    }
}

/// Text as a cell: defused, and quoted where it has to be.
pub(super) fn text(words: &str) -> String {
    let begins = |c: char| matches!(c, '=' | '+' | '-' | '@' | '\t' | '\r' | '\n');
    let apostrophe = if words.starts_with(begins) { "'" } else { "" };
    let quoted = |c: char| matches!(c, ',' | '"' | '\r' | '\n') || c.is_whitespace();
    if words.contains(quoted) {
        format!("\"{apostrophe}{}\"", words.replace('"', "\"\""))
    } else {
        format!("{apostrophe}{words}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_quoted_and_no_formula_gets_through() {
        for (words, cell) in [
            ("plain", "plain"),
            ("a, b", "\"a, b\""),
            ("12'-6\"", "\"12'-6\"\"\""),
            ("=1+1", "'=1+1"),
            ("-2, 3", "\"'-2, 3\""),
            ("@sum", "'@sum"),
            ("+", "'+"),
            ("\t=1", "\"'\t=1\""),
            ("", ""),
        ] {
            assert_eq!(text(words), cell);
        }
    }

    #[test]
    fn numbers_are_plain() {
        assert_eq!(number(1234.5), "1234.5");
        assert_eq!(number(-0.25), "-0.25");
        assert_eq!(number(f64::NAN), "");
        // 6'-2 5/16" in feet.
        let length = show(Measure::Length, 74.3125 * 0.0254, System::Feet);
        assert_eq!(quantity(&length), "6.1927");
        let rate = show(Measure::Count, 14.0, System::Feet);
        assert_eq!(quantity(&rate), "14");
    }
}
