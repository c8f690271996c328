//! What is worth knowing about the rules themselves: none at all, one without a source, one
//! that finds nothing to measure.

use super::condition::{applies, unmet};
use super::{WorkFigures, targets};
use crate::finding::said;
use crate::finding::{Entry, Finding};
use crate::site::{CheckedSite, Rule};

/// Cautions and notes about the rules of a site. Rules that measure from the shell are tried
/// only once a shell is placed.
pub fn advice(site: &CheckedSite, work: &WorkFigures) -> Vec<Finding> {
    let rules = &site.site().rules;
    if rules.is_empty() {
        return vec![
            Finding::caution(
                "no-rules",
                "No clearance rules are entered, so no distance was checked.",
                "Ask the local authority which distances it requires, and enter them.",
            )
            .under("/rules")
            .entered_at(Entry::Rules),
        ];
    }
    let mut found = Vec::new();
    for (i, rule) in rules.iter().enumerate() {
        if rule.source.trim().is_empty() {
            found.push(no_source(rule).under(&format!("/rules/{i}/source")));
        }
    }
    let (idle, busy): (Vec<&Rule>, Vec<&Rule>) = rules
        .iter()
        .partition(|rule| targets(site, rule).next().is_none());
    found.extend(without_target(&idle));
    found.extend(not_here(site, work, &busy));
    found.extend(not_placed(&waiting_among(site, work, &busy)));
    found
}

/// The rules that have something to measure to, and wait for a part of the work that is not
/// placed.
pub fn waiting<'a>(site: &'a CheckedSite, work: &WorkFigures) -> Vec<&'a Rule> {
    let rules = site.site().rules.iter();
    let busy = rules.filter(|rule| targets(site, rule).next().is_some());
    waiting_among(site, work, &busy.collect::<Vec<_>>())
}

fn waiting_among<'a>(site: &CheckedSite, work: &WorkFigures, rules: &[&'a Rule]) -> Vec<&'a Rule> {
    let shell = site.placed_shell().is_some();
    let rules = rules.iter().copied();
    rules
        .filter(|rule| shell || !rule.from.needs_shell())
        .filter(|rule| applies(site, work, rule))
        .filter(|rule| work.base(rule.from).1.is_none())
        .collect()
}

fn no_source(rule: &Rule) -> Finding {
    Finding::caution(
        "rule-source",
        said!(
            "The rule \"{rule}\" names no source.",
            rule = rule.name.clone()
        ),
        "Name the code section, or the person at the local authority who gave it.",
    )
    .entered_at(Entry::Rules)
}

/// One note for all rules that find nothing of their kind: most sites have no well.
fn without_target(rules: &[&Rule]) -> Option<Finding> {
    let told = Finding::note(
        "rule-without-target",
        format!("Nothing on the plan to measure to for: {}.", names(rules)),
        "Draw every such thing there is, on the lot and near it.",
    );
    (!rules.is_empty()).then(|| told.under("/rules"))
}

/// A note on each rule whose conditions this job does not meet.
fn not_here<'a>(
    site: &'a CheckedSite,
    work: &'a WorkFigures,
    rules: &'a [&Rule],
) -> impl Iterator<Item = Finding> + 'a {
    let tried = rules
        .iter()
        .filter(|it| site.placed_shell().is_some() || it.only.dig_deeper_than.is_none());
    let unmet = tried.map(|rule| (rule, unmet(site, work, rule)));
    unmet
        .filter(|(_, unmet)| !unmet.is_empty())
        .map(|(rule, unmet)| {
            Finding::note(
                "rule-not-here",
                format!(
                    "Not measured: \"{}\" applies only {}; {}.",
                    rule.name,
                    rule.only.words(site.site().display).join(" and "),
                    unmet.join(" and ")
                ),
                "Ask the local authority, where the lot or the dig is near that limit.",
            )
            .under("/rules")
            .entered_at(Entry::Rules)
        })
}

/// One note for all rules that wait for a part of the work.
fn not_placed(rules: &[&Rule]) -> Option<Finding> {
    let told = Finding::note(
        "rule-without-work",
        format!(
            "Not measured, because what they are measured from is not placed yet: {}.",
            names(rules)
        ),
        "Place it, and the rules are measured.",
    );
    (!rules.is_empty()).then(|| told.under("/rules"))
}

fn names(rules: &[&Rule]) -> String {
    let names: Vec<&str> = rules.iter().map(|rule| rule.name.as_str()).collect();
    names.join(", ")
}
