//! JSON text with a fixed layout: two spaces of indent, lists of plain numbers on one line.
//!
//! The same value always gives the same bytes: members keep the order they were written in,
//! and numbers are printed as the shortest text that reads back to the same `f64`.

use serde::Serialize;
use serde_json::Value;

/// A value as JSON text, ending with a line break.
///
/// Numbers that JSON cannot tell (NaN, infinities) become `null`; values that have no JSON
/// form at all (maps whose keys are not text) become an empty document. Neither occurs in
/// what the planner writes, and the tests of every caller read their own text back.
pub fn to_string<T: Serialize>(value: &T) -> String {
    let value = serde_json::to_value(value).unwrap_or(Value::Null);
    let mut out = String::new();
    write(&value, 0, &mut out);
    out.push('\n');
    out
}

fn write(value: &Value, depth: usize, out: &mut String) {
    match value {
        Value::Object(members) if !members.is_empty() => {
            let items = members.iter().map(|(key, member)| (Some(key), member));
            block('{', items, '}', depth, out);
        }
        Value::Array(items) if !items.is_empty() && items.iter().all(Value::is_number) => {
            let numbers: Vec<String> = items.iter().map(Value::to_string).collect();
            out.push('[');
            out.push_str(&numbers.join(", "));
            out.push(']');
        }
        Value::Array(items) if !items.is_empty() => {
            block('[', items.iter().map(|item| (None, item)), ']', depth, out);
        }
        // Scalars, and empty lists and objects.
        _ => out.push_str(&value.to_string()),
    }
}

/// An opening sign, one item a line, and the closing sign.
fn block<'a>(
    open: char,
    items: impl Iterator<Item = (Option<&'a String>, &'a Value)>,
    close: char,
    depth: usize,
    out: &mut String,
) {
    out.push(open);
    for (i, (key, item)) in items.enumerate() {
        if i > 0 {
            out.push(',');
        }
        new_line(depth + 1, out);
        if let Some(key) = key {
            out.push_str(&Value::from(key.as_str()).to_string());
            out.push_str(": ");
        }
        write(item, depth + 1, out);
    }
    new_line(depth, out);
    out.push(close);
}

fn new_line(depth: usize, out: &mut String) {
    out.push('\n');
    out.extend(std::iter::repeat_n("  ", depth));
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn numbers_share_a_line_and_members_keep_their_order() {
        let value = json!({ "b": [[1.0, 2.5], [3, -0.1]], "a": {}, "c": ["x"], "d": "q\"" });
        let text = to_string(&value);
        let expected = "{\n  \"b\": [\n    [1.0, 2.5],\n    [3, -0.1]\n  ],\n  \"a\": {},\n  \
                        \"c\": [\n    \"x\"\n  ],\n  \"d\": \"q\\\"\"\n}\n";
        assert_eq!(text, expected);
        assert_eq!(serde_json::from_str::<Value>(&text).unwrap(), value);
    }
}
