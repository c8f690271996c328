//! What is worth knowing about the rules themselves: none at all, one without a source, one
//! that finds nothing to measure.

use super::{WorkFigures, targets};
use crate::finding::Finding;
use crate::site::{CheckedSite, MeasuredFrom, Rule};

/// Cautions and notes about the rules of a site. Rules that measure from the shell are tried
/// only once a shell is placed.
pub fn advice(site: &CheckedSite, work: &WorkFigures) -> Vec<Finding> {
    let rules = &site.site().rules;
    if rules.is_empty() {
        return vec![
            Finding::caution(
                "no-rules",
                "There are no clearance rules, so nothing was checked.",
                "Ask the local authority which distances it requires and enter them.",
            )
            .under("/rules"),
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
    let shell = site.placed_shell().is_some();
    let measurable = |rule: &&&Rule| shell || rule.from == MeasuredFrom::Equipment;
    let waiting = busy.iter().filter(measurable);
    let waiting = waiting.filter(|rule| work.base(rule.from).1.is_none());
    found.extend(not_placed(&waiting.copied().collect::<Vec<_>>()));
    found
}

fn no_source(rule: &Rule) -> Finding {
    Finding::caution(
        "rule-source",
        format!("Nothing says where the rule \"{}\" comes from.", rule.name),
        "Name the code section or the person at the local authority who gave it.",
    )
}

/// One note for all rules that find nothing of their kind: most sites have no well.
fn without_target(rules: &[&Rule]) -> Option<Finding> {
    let told = Finding::note(
        "rule-without-target",
        format!("Nothing on the site to measure to for: {}.", names(rules)),
        "Draw every such thing there is, near the lot as well as on it.",
    );
    (!rules.is_empty()).then(|| told.under("/rules"))
}

/// One note for all rules that wait for a part of the work.
fn not_placed(rules: &[&Rule]) -> Option<Finding> {
    let told = Finding::note(
        "rule-without-work",
        format!(
            "Not measured, because what they measure from is not placed yet: {}.",
            names(rules)
        ),
        "Place it to have the rules measured.",
    );
    (!rules.is_empty()).then(|| told.under("/rules"))
}

fn names(rules: &[&Rule]) -> String {
    let names: Vec<&str> = rules.iter().map(|rule| rule.name.as_str()).collect();
    names.join(", ")
}
