//! What leads from one JSON value to another, as little as it takes to say.
//!
//! An edit changes a member or two of a site that holds thousands: a step of the history kept as a
//! patch weighs what the edit changed, not what the site holds.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::Value;

/// How one value becomes another.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Patch {
    /// It is this from now on.
    To(Value),
    /// Of an object: these members change or come in, and these go.
    Members {
        /// The members that change or come in.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        set: BTreeMap<String, Patch>,
        /// The members that go.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        gone: Vec<String>,
    },
    /// Of a list: from an index on, so many items go and these come in their place.
    Items {
        /// The index.
        at: usize,
        /// How many go.
        out: usize,
        /// What comes in.
        put: Vec<Value>,
    },
    /// Of a list: one item changes.
    Item {
        /// Its index.
        at: usize,
        /// How it changes.
        patch: Box<Patch>,
    },
}

impl Patch {
    /// What leads from one value to another; none where they are the same.
    pub fn between(from: &Value, to: &Value) -> Option<Self> {
        if from == to {
            return None;
        }
        Some(match (from, to) {
            (Value::Object(from), Value::Object(to)) => {
                let changed = |(key, value): (&String, &Value)| {
                    let patch = match from.get(key) {
                        Some(before) => Self::between(before, value)?,
                        None => Self::To(value.clone()),
                    };
                    Some((key.clone(), patch))
                };
                Self::Members {
                    set: to.iter().filter_map(changed).collect(),
                    gone: from
                        .keys()
                        .filter(|k| !to.contains_key(*k))
                        .cloned()
                        .collect(),
                }
            }
            (Value::Array(from), Value::Array(to)) => between_lists(from, to)?,
            _ => Self::To(to.clone()),
        })
    }

    /// The value as it is afterwards; none where the patch does not belong to it.
    pub fn applied(self, value: Value) -> Option<Value> {
        match (self, value) {
            (Self::To(to), _) => Some(to),
            (Self::Members { set, gone }, Value::Object(mut members)) => {
                for key in &gone {
                    members.shift_remove(key)?;
                }
                for (key, patch) in set {
                    let before = members.get_mut(&key).map(Value::take);
                    let after = patch.applied(before.unwrap_or(Value::Null))?;
                    members.insert(key, after);
                }
                Some(Value::Object(members))
            }
            (Self::Items { at, out, put }, Value::Array(mut items)) => {
                let end = at.checked_add(out).filter(|end| *end <= items.len())?;
                items.splice(at..end, put);
                Some(Value::Array(items))
            }
            (Self::Item { at, patch }, Value::Array(mut items)) => {
                let item = items.get_mut(at)?;
                *item = patch.applied(item.take())?;
                Some(Value::Array(items))
            }
            _ => None,
        }
    }
}

/// Lists are alike at their beginning and at their end; what is between is exchanged.
fn between_lists(from: &[Value], to: &[Value]) -> Option<Patch> {
    let alike = from.iter().zip(to).take_while(|(a, b)| a == b).count();
    let (from, to) = (from.get(alike..)?, to.get(alike..)?);
    let last = from.iter().rev().zip(to.iter().rev());
    let alike_last = last.take_while(|(a, b)| a == b).count();
    let from = from.get(..from.len().checked_sub(alike_last)?)?;
    let to = to.get(..to.len().checked_sub(alike_last)?)?;
    Some(match (from, to) {
        ([before], [after]) => Patch::Item {
            at: alike,
            patch: Patch::between(before, after)?.into(),
        },
        _ => Patch::Items {
            at: alike,
            out: from.len(),
            put: to.to_vec(),
        },
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use serde_json::json;

    #[test]
    fn a_patch_leads_there_and_says_little() {
        let spots: Vec<Value> = (0..100).map(|i| json!([i, i, 0.5])).collect();
        let from = json!({ "name": "a", "spots": spots, "note": "x", "shell": { "at": [1, 2] } });
        let mut moved = from.clone();
        moved["spots"][40] = json!([40, 40, 0.6]);
        moved["shell"]["at"] = json!([1, 3]);
        moved.as_object_mut().unwrap().shift_remove("note");
        moved["more"] = json!(null);
        let mut longer = from.clone();
        let list = longer["spots"].as_array_mut().unwrap();
        list.remove(3);
        list.insert(50, json!("new"));
        for to in [moved, longer, json!(7), json!([]), json!({})] {
            let patch = Patch::between(&from, &to).unwrap();
            let text = serde_json::to_string(&patch).unwrap();
            let read: Patch = serde_json::from_str(&text).unwrap();
            assert_eq!(read, patch);
            assert_eq!(read.applied(from.clone()), Some(to.clone()));
            let back = Patch::between(&to, &from).unwrap();
            assert_eq!(back.applied(to), Some(from.clone()));
        }
        assert_eq!(Patch::between(&from, &from), None);
        let mut one = from.clone();
        one["spots"][40] = json!([40, 40, 0.6]);
        let patch = Patch::between(&from, &one).unwrap();
        assert!(serde_json::to_string(&patch).unwrap().len() < 120);
    }

    #[test]
    fn a_patch_of_another_value_is_not_applied() {
        let gone = Patch::between(&json!({ "a": 1 }), &json!({})).unwrap();
        assert_eq!(gone.applied(json!({ "b": 1 })), None);
        let item = Patch::between(&json!([1, [2]]), &json!([1, [3]])).unwrap();
        assert_eq!(item.clone().applied(json!([1])), None);
        assert_eq!(item.applied(json!("text")), None);
        let items = Patch::Items {
            at: usize::MAX,
            out: 2,
            put: Vec::new(),
        };
        assert_eq!(items.applied(json!([1, 2, 3])), None);
    }
}
