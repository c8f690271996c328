//! The members of a report's JSON: what a program that reads one may rely on.

use std::collections::BTreeSet;

use serde_json::{Map, Value};

/// Adds every member of a report by its path and kind to a list. A measured value with both ways to show it counts as
/// one leaf, `figure`, and one of those ways as `shown`.
pub fn add(report: &Value, into: &mut BTreeSet<String>) {
    walk(report, "", into);
}

fn walk(value: &Value, path: &str, into: &mut BTreeSet<String>) {
    let kind = match value {
        Value::Null => "null",
        Value::Bool(_) => "bool",
        Value::Number(_) => "number",
        Value::String(_) => "string",
        Value::Array(items) => {
            for item in items {
                walk(item, &format!("{path}[]"), into);
            }
            "list"
        }
        Value::Object(members) => {
            let (kind, own) = kind_of(members);
            for (name, member) in members
                .iter()
                .filter(|(name, _)| !own.contains(&name.as_str()))
            {
                walk(member, &format!("{path}/{name}"), into);
            }
            kind
        }
    };
    into.insert(format!("{path} {kind}"));
}

/// What an object is, and which of its members are told by that.
fn kind_of(members: &Map<String, Value>) -> (&'static str, &'static [&'static str]) {
    let shown = |it: &Value| {
        it.as_object()
            .is_some_and(|it| it.len() == 3 && kind_of(it).0 == "shown")
    };
    let is = |name: &str, holds: fn(&Value) -> bool| members.get(name).is_some_and(holds);
    let number = is("value", |it| it.is_number() || it.is_null());
    if number && is("unit", Value::is_string) {
        if members.get("shown").is_some_and(shown) && members.get("other").is_some_and(shown) {
            return ("figure", &["value", "unit", "shown", "other"]);
        }
        if is("text", Value::is_string) {
            return ("shown", &["value", "unit", "text"]);
        }
    }
    ("object", &[])
}
