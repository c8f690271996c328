//! Texts changed at random: pieces cut, doubled, swapped and spliced, figures and words replaced by awkward ones; and
//! the same of a JSON value, which stays JSON.

use rand::RngExt;
use rand::seq::IndexedRandom;
use rand_pcg::Pcg64;
use serde_json::{Value, json};

/// What files hold that somebody made by hand, by a fault, or to do harm.
const AWKWARD: [&str; 36] = [
    "",
    "0",
    "-0",
    "-1",
    "1e309",
    "-1e309",
    "1e-320",
    "NaN",
    "null",
    "true",
    "99999999999999999999",
    "0.1e",
    "1,2",
    "\u{2212}5",
    "\u{1d7d7}",
    "\u{bd}",
    "\u{202e}",
    "\u{0}",
    "\u{feff}",
    "\r\n",
    "\t",
    "\"",
    "\\u0000",
    "\\ud800",
    "[[[[[[[[",
    "}}}}",
    "&amp;",
    "&x;",
    "<!DOCTYPE a [<!ENTITY x \"xx\">]>",
    "<![CDATA[",
    "'",
    "\u{b0}",
    "N 90 E",
    "5'-11 15/16\"",
    ";",
    "=1+1",
];

/// How deep brackets are put into each other.
const DEEP: usize = 5_000;

/// A text changed in up to six places; `others` are texts of the same kind to take pieces from.
pub fn text(dice: &mut Pcg64, seed: &str, others: &[String]) -> String {
    let mut chars: Vec<char> = seed.chars().collect();
    for _ in 0..dice.random_range(1..=6) {
        once(dice, &mut chars, others);
    }
    chars.into_iter().collect()
}

fn once(dice: &mut Pcg64, chars: &mut Vec<char>, others: &[String]) {
    let (from, to) = span(dice, chars.len());
    match dice.random_range(0..10) {
        0 => drop(chars.drain(from..to)),
        1 => {
            let copy = chars[from..to].to_vec();
            chars.splice(from..from, copy);
        }
        2 => {
            let other: Vec<char> = others
                .choose(dice)
                .map_or(Vec::new(), |it| it.chars().collect());
            let (a, b) = span(dice, other.len());
            chars.splice(from..to, other[a..b].iter().copied());
        }
        3 => chars.truncate(from),
        4 => {
            let open = *['[', '{', '(', '<'].choose(dice).unwrap();
            chars.splice(from..from, core::iter::repeat_n(open, DEEP));
        }
        5 => {
            let any = char::from_u32(dice.random_range(0..0x11_0000)).unwrap_or('\u{fffd}');
            chars.splice(from..(from + 1).min(chars.len()), [any]);
        }
        // A figure in the place of a figure.
        6 | 7 => {
            let digit = |at: &usize| chars.get(*at).is_some_and(char::is_ascii_digit);
            let Some(first) = (from..chars.len()).find(digit) else {
                return;
            };
            let last = (first..chars.len()).take_while(digit).count() + first;
            let other = figure(dice);
            chars.splice(first..last, other.chars());
        }
        _ => {
            let word = AWKWARD.choose(dice).unwrap();
            chars.splice(from..from, word.chars());
        }
    }
}

/// A piece of a text so long, short ones more often.
fn span(dice: &mut Pcg64, length: usize) -> (usize, usize) {
    if length == 0 {
        return (0, 0);
    }
    let from = dice.random_range(0..length);
    let most = 1 << dice.random_range(0..9);
    (from, (from + dice.random_range(0..=most)).min(length))
}

fn figure(dice: &mut Pcg64) -> String {
    match dice.random_range(0..4) {
        0 => (*AWKWARD.choose(dice).unwrap()).to_owned(),
        1 => dice.random_range(-1_000_000_i64..1_000_000).to_string(),
        2 => {
            let (share, power) = (dice.random_range(-1.0..1.0_f64), dice.random_range(-20..20));
            format!("{share}e{power}")
        }
        _ => dice.random_range(0..400).to_string(),
    }
}

/// A value changed in up to four places.
pub fn value(dice: &mut Pcg64, seed: &Value) -> Value {
    let mut value = seed.clone();
    for _ in 0..dice.random_range(1..=4) {
        let mut nodes = Vec::new();
        list(&value, String::new(), &mut nodes);
        let place = nodes.choose(dice).unwrap().clone();
        let other = nodes.choose(dice).unwrap().clone();
        let other = value.pointer(&other).cloned().unwrap_or_default();
        let Some(node) = value.pointer_mut(&place) else {
            continue;
        };
        alter(dice, node, other);
    }
    value
}

fn list(value: &Value, place: String, found: &mut Vec<String>) {
    match value {
        Value::Array(items) => {
            for (number, item) in items.iter().enumerate() {
                list(item, format!("{place}/{number}"), found);
            }
        }
        Value::Object(members) => {
            for (name, member) in members {
                list(member, format!("{place}/{name}"), found);
            }
        }
        _ => {}
    }
    found.push(place);
}

fn alter(dice: &mut Pcg64, node: &mut Value, other: Value) {
    let by = dice.random_range(-2.0..2.0_f64);
    match node {
        // Mostly a little: what is nearly right reaches farther in than what is refused at once.
        Value::Number(number) if dice.random_bool(0.7) => {
            let near = number.as_f64().unwrap_or(0.0) * (1.0 + by) + by;
            *node = json!(near);
        }
        Value::Array(items) if dice.random_bool(0.7) => match dice.random_range(0..4) {
            0 => items.clear(),
            1 => items.reverse(),
            2 => items.extend(items.clone()),
            _ => drop(items.pop()),
        },
        Value::Object(members) if dice.random_bool(0.5) => {
            let name = members
                .keys()
                .nth(dice.random_range(0..members.len().max(1)))
                .cloned();
            if let Some(gone) = name.and_then(|name| members.remove(&name)) {
                members.insert("nobody-knows-this".to_owned(), gone);
            }
        }
        Value::String(text) if dice.random_bool(0.5) => {
            *text = self::text(dice, text, &[]);
        }
        _ => {
            *node = match dice.random_range(0..6) {
                0 => Value::Null,
                1 => json!(by * 1e12),
                2 => json!({}),
                3 => json!([]),
                4 => json!(*AWKWARD.choose(dice).unwrap()),
                _ => other,
            };
        }
    }
}
