//! What it costs, by rates that the user typed. No rate is built in.
//!
//! A rate is told for the stable name of a line. Some lines measure the same thing twice (stone by
//! volume and by weight, spoil by load and by volume); such lines name what is paid for by them,
//! and of these one is priced. Sums of other lines are not paid at all.

use crate::finding::{Finding, Topic};
use crate::site::Rate;
use crate::takeoff::{Cause, Group, Line, spread};
use crate::units::{RateUnit, round_to};

/// One priced line.
#[derive(Debug, Clone, PartialEq)]
pub struct Priced {
    /// The line's stable name.
    pub key: &'static str,
    /// Its group.
    pub group: Group,
    /// Money per SI unit.
    pub rate: f64,
    /// The rate as it was typed.
    pub typed: Rate,
    /// Rate x value, to the cent.
    pub cost: f64,
    /// Rate x low and rate x high, to the cent; the cost itself where it has no range.
    pub range: [f64; 2],
}

/// A rate that counts for nothing, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Uncounted {
    /// Index of the rate in the site file.
    pub index: usize,
    /// The stable name of the line it was typed for.
    pub key: &'static str,
    /// Why, in a sentence.
    pub why: String,
}

/// What the rates come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pricing {
    /// What everything priced costs; none before a rate counts.
    pub cost: Option<Cost>,
    /// The rates that count for nothing, in their order.
    pub uncounted: Vec<Uncounted>,
    /// What is worth knowing of the rates.
    pub findings: Vec<Finding>,
}

/// What everything priced costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Cost {
    /// The priced lines, in the order of the takeoff.
    pub lines: Vec<Priced>,
    /// The sum of each group that has a priced line.
    pub groups: Vec<(Group, f64)>,
    /// The sum of all of them: that of the lines' costs as shown.
    pub total: f64,
    /// Low and high of the total. A doubt moves all lines it touches at once, so its effect on
    /// the total is summed first, and the doubts are put together after that.
    pub range: [f64; 2],
    /// What each doubt does to the total.
    pub causes: Vec<Cause>,
}

/// Prices the lines. Nothing is priced without a rate for a line that is paid.
pub(super) fn price(lines: &[Line], rates: &[Rate]) -> Pricing {
    let mut pricing = Pricing::default();
    let mut priced: Vec<(&Line, &Rate)> = Vec::new();
    for (index, rate) in rates.iter().enumerate() {
        let Some(line) = lines.iter().find(|line| line.key == rate.key) else {
            pricing.findings.push(unused(index, rate));
            continue;
        };
        let twice = priced.iter().find(|(l, _)| l.pays_for == line.pays_for);
        let (finding, why) = match (line.pays_for, twice) {
            (None, _) => (not_paid(line), NOT_PAID.to_owned()),
            _ if !fits(rate, line) => (other_unit(rate, line), OTHER_UNIT.to_owned()),
            (Some(_), Some((other, _))) => (priced_twice(line, other), paid_by(other)),
            (Some(_), None) => {
                priced.push((line, rate));
                continue;
            }
        };
        let finding = finding.about(Topic::Cost).under(&place(index));
        pricing.findings.push(finding);
        let key = line.key;
        pricing.uncounted.push(Uncounted { index, key, why });
    }
    pricing.cost = summed(lines, &priced);
    pricing
}

/// The cost of the priced lines; none where there are none.
fn summed(lines: &[Line], priced: &[(&Line, &Rate)]) -> Option<Cost> {
    if priced.is_empty() {
        return None;
    }
    // In the order of the takeoff, not in that of the rates.
    let rate_of = |line: &Line| {
        let mut known = priced.iter().filter(|(l, _)| l.key == line.key);
        known.next().map(|(_, rate)| *rate)
    };
    let of_line = |line: &Line| {
        let typed = rate_of(line)?;
        let rate = typed.per_si();
        let range = line.range.as_ref();
        let ends = range.map_or([line.value; 2], |range| [range.low, range.high]);
        Some(Priced {
            key: line.key,
            group: line.group,
            rate,
            typed: typed.clone(),
            cost: cents(rate * line.value),
            range: ends.map(|end| cents(rate * end)),
        })
    };
    let all: Vec<Priced> = lines.iter().filter_map(of_line).collect();
    let groups = Group::ALL.iter().filter_map(|group| {
        let mut of_group = all.iter().filter(|line| line.group == *group).peekable();
        of_group.peek()?;
        Some((*group, cents(of_group.map(|line| line.cost).sum())))
    });
    let total = cents(all.iter().map(|line| line.cost).sum());
    let causes = causes(priced, total);
    let (low, high) = spread(total, &causes);
    Some(Cost {
        groups: groups.collect(),
        total,
        range: [cents(low.max(0.0)), cents(high)],
        causes,
        lines: all,
    })
}

/// What each doubt does to the total.
fn causes(priced: &[(&Line, &Rate)], total: f64) -> Vec<Cause> {
    let mut sums: Vec<Cause> = Vec::new();
    for (line, rate) in priced {
        let rate = rate.per_si();
        for cause in line.range.iter().flat_map(|range| &range.causes) {
            let known = sums.iter().position(|sum| sum.doubt == cause.doubt);
            let less = rate * (cause.less - line.value);
            let more = rate * (cause.more - line.value);
            match known.and_then(|at| sums.get_mut(at)) {
                Some(sum) => {
                    sum.less += less;
                    sum.more += more;
                }
                None => sums.push(Cause {
                    doubt: cause.doubt,
                    less: total + less,
                    more: total + more,
                }),
            }
        }
    }
    sums
}

fn place(index: usize) -> String {
    format!("/rates/{index}")
}

fn unused(index: usize, rate: &Rate) -> Finding {
    Finding::note(
        "rate-unused",
        format!(
            "There is a rate for \"{}\", but no such quantity here.",
            rate.key
        ),
        "It is kept and adds nothing; take it out, or plan what it is for.",
    )
    .about(Topic::Cost)
    .under(&place(index))
}

/// Why a rate does not count where nothing is paid by its line.
const NOT_PAID: &str = "Not counted: this is a sum, or measures what is paid by another line.";

/// Why a rate does not count that is for another kind of unit.
const OTHER_UNIT: &str = "Not counted: the rate is for another kind of unit.";

/// Why a rate does not count where another line is paid for the same thing.
fn paid_by(other: &Line) -> String {
    format!(
        "Not counted: the rate of \"{}\" pays for the same thing and was there first.",
        other.label
    )
}

/// Whether the unit of a rate is one that the line can be counted in.
fn fits(rate: &Rate, line: &Line) -> bool {
    let dimension = line.measure.dimension();
    rate.per
        .is_none_or(|per| per.unit().dimension() == dimension)
}

fn other_unit(rate: &Rate, line: &Line) -> Finding {
    Finding::caution(
        "rate-unit",
        format!(
            "The rate of \"{}\" is told {}, which it is not counted in; it does not count.",
            line.label,
            rate.per.map_or("", RateUnit::words)
        ),
        "Type the rate anew.",
    )
}

fn not_paid(line: &Line) -> Finding {
    Finding::note(
        "rate-not-counted",
        format!(
            "The rate for \"{}\" is not counted: it is a sum, or measures what is paid by \
             another line.",
            line.label
        ),
        "Give the rate to the lines that are bought.",
    )
}

fn priced_twice(line: &Line, other: &Line) -> Finding {
    Finding::caution(
        "priced-twice",
        format!(
            "\"{}\" and \"{}\" have rates and are paid for the same thing; the rate for the \
             first one told counts, \"{}\".",
            other.label, line.label, other.label
        ),
        "Take one of the two rates out.",
    )
}

/// Money to the cent.
fn cents(money: f64) -> f64 {
    round_to(money, 2)
}
