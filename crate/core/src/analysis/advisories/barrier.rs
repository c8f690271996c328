//! Whether the barrier round the water is closed, what makes it, and what somebody has to see to.

use crate::barrier::Barrier;
use crate::finding::{Entry, Finding, Scope, Topic, said};
use crate::site::{BarrierRule, CheckedSite};
use crate::units::{Measure, show};

/// What is to be said of the barrier, where a rule for one is entered.
pub(super) fn findings(site: &CheckedSite, barrier: &Barrier) -> Vec<Finding> {
    let Some(rule) = &site.site().barrier else {
        return Vec::new();
    };
    let mut found = vec![standing(site, rule, barrier)];
    let names = |indices: &[usize]| {
        let records = indices.iter().filter_map(|i| site.site().features.get(*i));
        let names: Vec<String> = records.map(|it| it.label().to_owned()).collect();
        names.join(", ")
    };
    let length = |value| show(Measure::Length, value, site.site().display).text;
    if !barrier.too_low.is_empty() {
        found.push(Finding::note(
            "barrier-too-low",
            said!(
                "Not counted as a barrier, being lower than {least}: {names}.",
                least = length(rule.least_height),
                names = names(&barrier.too_low),
            ),
            "Raise them, or let something else close the barrier there.",
        ));
    }
    if !barrier.height_unknown.is_empty() {
        found.push(Finding::caution(
            "barrier-height",
            said!(
                "Counted as a barrier though nobody has entered their height: {names}.",
                names = names(&barrier.height_unknown),
            ),
            "Measure their height on the outside, and enter it.",
        ));
    }
    if !rule.is_confirmed() {
        found.push(
            Finding::caution(
                "barrier-unconfirmed",
                "The barrier is held to figures that nobody has confirmed for this lot.",
                "Ask the local authority for its own, with the edition, and name the source.",
            )
            .about(Topic::Verdict),
        );
    }
    let placed = |it: Finding| {
        it.under("/barrier")
            .scoped(Scope::Site)
            .entered_at(Entry::Rules)
    };
    found.into_iter().map(placed).collect()
}

fn standing(site: &CheckedSite, rule: &BarrierRule, barrier: &Barrier) -> Finding {
    let length = |value| show(Measure::Length, value, site.site().display).text;
    if barrier.is_closed() {
        let list = |one: &str, many: &str, names: &[String]| match names.len() {
            0 => format!("no {many}"),
            1 => format!("1 {one} ({})", names.join(", ")),
            count => format!("{count} {many} ({})", names.join(", ")),
        };
        return Finding::note(
            "barrier-closed",
            format!(
                "The barrier is closed about the water: {} of fences and walls, {}, {} in walls of buildings.",
                length(barrier.length),
                list("gate", "gates", &barrier.gates),
                list("door or window", "doors or windows", &barrier.doors),
            ),
            "See that every gate closes and latches by itself, and what the local authority asks of doors that lead to the water.",
        );
    }
    let Some(widest) = barrier.openings.first() else {
        return Finding::caution(
            "barrier-none",
            "No fence, wall or building goes round the water.",
            "Draw the barrier that the local authority asks for; it stands before any water goes in.",
        )
        .about(Topic::Verdict);
    };
    let middle = widest.ends[0].midpoint(widest.ends[1]);
    let all: f64 = barrier.openings.iter().map(|it| it.width).sum();
    let message = match (barrier.openings.len(), barrier.goes_round) {
        (1, true) => said!(
            "The barrier is open in one place, {widest} wide; {most} is the most that counts as closed.",
            widest = length(widest.width),
            most = length(rule.widest_gap),
        ),
        (count, true) => said!(
            "The barrier is open in {count} places, {all} in all, the widest {widest}; {most} is the most that counts as closed.",
            count = count.to_string(),
            all = length(all),
            widest = length(widest.width),
            most = length(rule.widest_gap),
        ),
        (count, false) => said!(
            "The barrier does not go round the water: besides {count} openings, the widest {widest}, a whole side is open.",
            count = count.to_string(),
            widest = length(widest.width),
        ),
    };
    Finding::caution(
        "barrier-open",
        message,
        "Close it with a fence or a wall before any water goes in; the local authority decides what it asks for.",
    )
    .at(middle.x, middle.y)
    .about(Topic::Verdict)
}
