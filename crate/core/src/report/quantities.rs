//! The quantities as plain text: the list with its ranges, what it costs, and the workings.

use super::table::{Lean, columns, heading, weak, wrapped};
use super::{CostFigures, RangeFigures, Report, Workings};

/// How low and high are told, once for all of them.
const RANGES: &str = "Low and high come from what nobody knows exactly before the hole is dug. \
                      The causes do not depend on each other and are put together by the root of \
                      the sum of their squares; each stands by itself with the working.";

/// Every quantity with its range, and what they cost.
pub(super) fn list(report: &Report, out: &mut String) {
    heading("Quantities", out);
    let quantities = &report.quantities;
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut group = None;
    for q in quantities {
        if group != Some(q.group) {
            group = Some(q.group);
            rows.push(vec![q.group.words().to_owned()]);
        }
        let range = q
            .range
            .as_ref()
            .map_or_else(String::new, RangeFigures::text);
        rows.push(vec![
            format!("  {}{}", q.label, weak(&q.caveats)),
            q.shown.text.clone(),
            q.other.text.clone(),
            range,
        ]);
    }
    let leans = [Lean::Left, Lean::Right, Lean::Right, Lean::Right];
    columns(2, &leans, &rows, out);
    if quantities.iter().any(|q| q.range.is_some()) {
        out.extend(["\n", &wrapped(RANGES, 2), "\n"]);
    }
    if let Some(cost) = &report.cost {
        heading("Cost", out);
        costs(cost, out);
    }
}

fn costs(cost: &CostFigures, out: &mut String) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for line in &cost.lines {
        rows.push(vec![
            line.label.to_owned(),
            line.rate.text.clone(),
            line.cost.text.clone(),
            format!("{} to {}", line.low.text, line.high.text),
        ]);
    }
    for group in &cost.groups {
        let label = format!("{}, sum", group.label);
        rows.push(vec![label, String::new(), group.sum.text.clone()]);
    }
    rows.push(vec![
        "Total".to_owned(),
        String::new(),
        cost.total.text.clone(),
        format!("{} to {}", cost.low.text, cost.high.text),
    ]);
    let leans = [Lean::Left, Lean::Right, Lean::Right, Lean::Right];
    columns(2, &leans, &rows, out);
    for uncounted in &cost.not_counted {
        let told = format!(
            "{}, {}: {}",
            uncounted.label, uncounted.rate.text, uncounted.why
        );
        out.extend(["\n", &wrapped(&told, 2), "\n"]);
    }
    let said = "By the rates entered for this site; lines without a rate are not in the total.";
    out.extend(["\n", &wrapped(said, 2), "\n"]);
}

/// How every quantity came about.
pub(super) fn workings(quantities: &[Workings], out: &mut String) {
    heading("Working", out);
    for q in quantities {
        out.push_str(&format!("  {}\n", q.label));
        let mut paragraph = |text: &str| {
            let text = wrapped(text, 6);
            out.push_str(&format!("    {}\n", text.trim_start()));
        };
        paragraph(&format!("= {}", q.formula));
        if !q.arithmetic.is_empty() {
            paragraph(&format!("= {}", q.arithmetic));
        }
        for (name, text) in [
            ("waste", q.waste.as_str()),
            ("rounding", q.rounding),
            ("source", q.source),
        ] {
            if !text.is_empty() {
                paragraph(&format!("{name}: {text}"));
            }
        }
        for cause in q.range.iter().flat_map(|range| &range.causes) {
            let (less, more) = (&cause.less.shown.text, &cause.more.shown.text);
            paragraph(&format!("by the {}: {less} to {more}", cause.words));
        }
        for input in q.inputs.iter().filter(|i| !i.source.is_empty()) {
            paragraph(&format!("{}: {}", input.name, input.source));
        }
        for assumption in &q.assumptions {
            paragraph(assumption);
        }
    }
}
