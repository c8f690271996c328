//! The key figures of a report: what a reviewer wants to see change, one line each, to the last digit.

use std::fmt::Write;

use serde_json::Value;

/// The key figures of a report's JSON as text: findings by severity and in order, lot, shell, clearances,
/// quantities with low and high, cost. Values are SI as the JSON has them, every digit kept.
pub fn text_of(report: &Value) -> String {
    let mut text = format!("{}: key figures, in SI\n", word(&report["site"]));
    findings(report, &mut text);
    places(report, &mut text);
    clearances(report, &mut text);
    quantities(report, &mut text);
    cost(report, &mut text);
    text
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

/// A leaf without the quotes of JSON; nothing where there is none.
fn word(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// A measure as value and unit.
fn measure(value: &Value) -> String {
    format!("{} {}", word(&value["value"]), word(&value["unit"]))
}

fn findings(report: &Value, text: &mut String) {
    let all = list(&report["findings"]);
    let of = |severity: &str| all.iter().filter(|it| it["severity"] == severity).count();
    let _ = writeln!(
        text,
        "\n{} of {} clearances fall short; {} faults, {} cautions, {} findings in all",
        word(&report["shortfalls"]),
        list(&report["clearances"]).len(),
        of("fault"),
        of("caution"),
        all.len()
    );
    for it in all {
        let [severity, code, pointer] =
            ["severity", "code", "pointer"].map(|member| word(&it[member]));
        let _ = writeln!(
            text,
            "{}",
            format!("  {severity:<8} {code:<28} {pointer}").trim_end()
        );
    }
}

fn places(report: &Value, text: &mut String) {
    text.push_str("\nlot and shell\n");
    for (name, member) in [
        ("area of the lot", &report["lot"]["area"]),
        ("perimeter of the lot", &report["lot"]["perimeter"]),
        ("misclosure", &report["lot"]["misclosure"]),
        ("area of the shell", &report["shell"]["area"]),
        ("deepest of the shell", &report["shell"]["deepest"]),
        (
            "elevation of the coping",
            &report["shell"]["coping_elevation"],
        ),
    ] {
        let _ = writeln!(text, "  {name:<28} {}", measure(member));
    }
}

fn clearances(report: &Value, text: &mut String) {
    let _ = writeln!(
        text,
        "\nclearances: {:>17} {:>20} {:>8}",
        "room, m", "distance, m", "required"
    );
    for row in list(&report["clearances"]) {
        let _ = writeln!(
            text,
            "  {:<5} {:>21} {:>20} {:>8}  {}: {} to {}",
            if row["falls_short"] == true {
                "SHORT"
            } else {
                "ok"
            },
            word(&row["room"]["value"]),
            word(&row["distance"]["value"]),
            word(&row["required"]["value"]),
            word(&row["name"]),
            word(&row["from"]),
            word(&row["target"]),
        );
    }
}

fn quantities(report: &Value, text: &mut String) {
    text.push_str("\nquantities: expected, low to high\n");
    for row in list(&report["quantities"]) {
        let ends = ["low", "high"].map(|end| word(&row["range"][end]["value"]));
        let _ = write!(
            text,
            "  {:<28} {}",
            word(&row["key"]),
            measure(row).trim_end()
        );
        let _ = writeln!(text, "{}", range(&ends));
    }
}

fn range([low, high]: &[String; 2]) -> String {
    if low.is_empty() && high.is_empty() {
        return String::new();
    }
    format!(", {low} to {high}")
}

fn cost(report: &Value, text: &mut String) {
    let cost = &report["cost"];
    if cost.is_null() {
        return;
    }
    text.push_str("\ncost: by rate, low to high\n");
    let value = |it: &Value| word(&it["value"]);
    for line in list(&cost["lines"]) {
        let ends = ["low", "high"].map(|end| value(&line[end]));
        let (key, rate) = (word(&line["key"]), measure(&line["rate"]));
        let _ = writeln!(
            text,
            "  {key:<28} {} at {rate}{}",
            value(&line["cost"]),
            range(&ends)
        );
    }
    let ends = ["low", "high"].map(|end| value(&cost[end]));
    let _ = writeln!(
        text,
        "  {:<28} {}{}",
        "total",
        value(&cost["total"]),
        range(&ends)
    );
}
