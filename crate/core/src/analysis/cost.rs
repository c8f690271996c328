//! What it costs, by rates that the user typed. No rate is built in.
//!
//! A rate is told for the stable name of a line. Some lines measure the same thing twice (stone by
//! volume and by weight, spoil by load and by volume); such lines name what is paid for by them,
//! and of these one is priced. Sums of other lines are not paid at all.

use crate::finding::{Finding, Topic};
use crate::site::Rate;
use crate::takeoff::{Cause, Group, Line, spread};
use crate::units::round_to;

/// One priced line.
#[derive(Debug, Clone, PartialEq)]
pub struct Priced {
    /// The line's stable name.
    pub key: &'static str,
    /// Its group.
    pub group: Group,
    /// Money per SI unit.
    pub rate: f64,
    /// Rate x value, to the cent.
    pub cost: f64,
    /// Rate x low and rate x high, to the cent; the cost itself where it has no range.
    pub range: [f64; 2],
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
pub(super) fn price(lines: &[Line], rates: &[Rate]) -> (Option<Cost>, Vec<Finding>) {
    let mut findings = Vec::new();
    let mut priced: Vec<(&Line, f64)> = Vec::new();
    for (index, rate) in rates.iter().enumerate() {
        let line = lines.iter().find(|line| line.key == rate.key);
        match (line, line.and_then(|line| line.pays_for)) {
            (None, _) => findings.push(unused(index, rate)),
            (Some(line), None) => findings.push(not_paid(index, line)),
            (Some(line), Some(thing)) => {
                let twice = priced.iter().find(|(l, _)| l.pays_for == Some(thing));
                match twice {
                    Some((other, _)) => findings.push(priced_twice(index, line, other)),
                    None => priced.push((line, rate.rate)),
                }
            }
        }
    }
    if priced.is_empty() {
        return (None, findings);
    }
    // In the order of the takeoff, not in that of the rates.
    let rate_of = |line: &Line| {
        let mut known = priced.iter().filter(|(l, _)| l.key == line.key);
        known.next().map(|(_, rate)| *rate)
    };
    let of_line = |line: &Line| {
        let rate = rate_of(line)?;
        let range = line.range.as_ref();
        let ends = range.map_or([line.value; 2], |range| [range.low, range.high]);
        Some(Priced {
            key: line.key,
            group: line.group,
            rate,
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
    let causes = causes(&priced, total);
    let (low, high) = spread(total, &causes);
    let cost = Cost {
        groups: groups.collect(),
        total,
        range: [cents(low.max(0.0)), cents(high)],
        causes,
        lines: all,
    };
    (Some(cost), findings)
}

/// What each doubt does to the total.
fn causes(priced: &[(&Line, f64)], total: f64) -> Vec<Cause> {
    let mut sums: Vec<Cause> = Vec::new();
    for (line, rate) in priced {
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

fn not_paid(index: usize, line: &Line) -> Finding {
    Finding::note(
        "rate-not-counted",
        format!(
            "The rate for \"{}\" is not counted: it is a sum, or measures what is paid by \
             another line.",
            line.label
        ),
        "Give the rate to the lines that are bought.",
    )
    .about(Topic::Cost)
    .under(&place(index))
}

fn priced_twice(index: usize, line: &Line, other: &Line) -> Finding {
    Finding::caution(
        "priced-twice",
        format!(
            "\"{}\" and \"{}\" have rates and are paid for the same thing; the rate for the \
             first one told counts, \"{}\".",
            other.label, line.label, other.label
        ),
        "Take one of the two rates out.",
    )
    .about(Topic::Cost)
    .under(&place(index))
}

/// Money to the cent.
fn cents(money: f64) -> f64 {
    round_to(money, 2)
}
