//! Members of a file that this build does not know: kept on opening, put back on saving.
//!
//! A member is remembered by the way to it. Items of lists are remembered by their `id` or
//! `name` where they have one, so that a kept member follows its item when the list is
//! edited; otherwise by position. On saving, a member returns if the thing it belonged to is
//! still there, and never in place of a member that the planner wrote itself.

use serde_json::Value;

/// The members that are not written when they say nothing (`skip_serializing_if`). A test
/// compares the list with the schema.
const LEFT_OUT: [&str; 99] = [
    "alternatives",
    "at",
    "backsight",
    "balance",
    "barrier",
    "bases",
    "basis",
    "bearing",
    "bench",
    "benchmark",
    "breaklines",
    "by",
    "cautions",
    "changed",
    "checked_by",
    "clear_height",
    "contours",
    "crane",
    "currency",
    "dated",
    "deed",
    "delivery",
    "density",
    "depth",
    "dig_deeper_than",
    "drain",
    "equipment",
    "facts",
    "finished_floor",
    "fittings",
    "fixed",
    "floor",
    "footing_depth",
    "for_new_jobs",
    "grid",
    "groundwater",
    "height",
    "hidden",
    "holes",
    "jurisdiction",
    "kind",
    "known_from",
    "label",
    "layers",
    "lift",
    "line_class",
    "locked",
    "long_way",
    "lot_at_least",
    "lot_smaller_than",
    "monument",
    "name",
    "note",
    "on_street_side",
    "only",
    "openings",
    "origin",
    "over_dig",
    "overhang",
    "per",
    "photographs",
    "picture",
    "place",
    "placement",
    "price",
    "printed_length",
    "printed_width",
    "protection",
    "rates",
    "readings",
    "rod_scale",
    "section",
    "set_down",
    "shares",
    "shell_weight",
    "short_term",
    "side_slope",
    "sides",
    "slant",
    "slope",
    "source",
    "stage",
    "stakeout",
    "stated_area",
    "stations",
    "swell",
    "taken",
    "tapes",
    "true_north",
    "trunk",
    "upright_below",
    "utility",
    "voltage",
    "wall",
    "weight",
    "when",
    "width",
    "window",
    "words",
];

/// Those of them that are lists.
const LISTS: [&str; 15] = [
    "alternatives",
    "bases",
    "breaklines",
    "fittings",
    "floor",
    "holes",
    "layers",
    "openings",
    "photographs",
    "rates",
    "readings",
    "shares",
    "sides",
    "stations",
    "tapes",
];

/// Those of them that are objects.
const OBJECTS: [&str; 2] = ["facts", "only"];

/// Every member of a file that this build does not know. Hand it back to
/// [`save`](super::save) with the site it was opened with.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Unknown(Vec<Member>);

impl Unknown {
    /// The members of `read` that `written`, the document made of it, does not have.
    ///
    /// A member that is left out when it says nothing is not missed where it says nothing.
    pub(super) fn between(read: &Value, written: &Value) -> Self {
        let mut unknown = Self::default();
        unknown.collect(read, written, &mut Vec::new());
        unknown
    }

    fn collect(&mut self, read: &Value, written: &Value, way: &mut Vec<Step>) {
        match (read, written) {
            (Value::Object(read), Value::Object(written)) => {
                for (key, value) in read {
                    match written.get(key) {
                        Some(known) => {
                            way.push(Step::Member(key.clone()));
                            self.collect(value, known, way);
                            way.pop();
                        }
                        None if left_out(key, value) => {}
                        None => self.0.push(Member {
                            way: way.clone(),
                            key: key.clone(),
                            value: value.clone(),
                        }),
                    }
                }
            }
            (Value::Array(read), Value::Array(written)) => {
                for (index, (item, known)) in read.iter().zip(written).enumerate() {
                    let identity = identity(item).map(str::to_owned);
                    way.push(Step::Item { index, identity });
                    self.collect(item, known, way);
                    way.pop();
                }
            }
            _ => {}
        }
    }

    /// The members, in the order of the file.
    pub(super) fn members(&self) -> &[Member] {
        &self.0
    }

    /// How many members there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether the build knows every member of the file.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Where each member was, as a JSON pointer.
    pub fn places(&self) -> impl Iterator<Item = String> + '_ {
        self.0.iter().map(Member::place)
    }

    /// Puts the members back into a document that is about to be saved.
    pub(super) fn put_back(&self, document: &mut Value) {
        for member in &self.0 {
            member.put_back(document);
        }
    }
}

/// One unknown member and where it belongs.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Member {
    way: Vec<Step>,
    key: String,
    value: Value,
}

/// One step from a value into a part of it.
#[derive(Debug, Clone, PartialEq)]
enum Step {
    /// Into a member of an object.
    Member(String),
    /// Into an item of a list.
    Item {
        index: usize,
        identity: Option<String>,
    },
}

impl Member {
    /// The member's name.
    pub fn name(&self) -> &str {
        &self.key
    }

    /// Where the member was, as a JSON pointer.
    pub fn place(&self) -> String {
        let mut place = String::new();
        for step in &self.way {
            match step {
                Step::Member(key) => push_pointer(&mut place, key),
                Step::Item { index, .. } => push_pointer(&mut place, &index.to_string()),
            }
        }
        push_pointer(&mut place, &self.key);
        place
    }

    /// Puts the member back into a document that is about to be saved.
    fn put_back(&self, document: &mut Value) {
        let mut here = document;
        for step in &self.way {
            let next = match step {
                Step::Member(key) => here.get_mut(key),
                Step::Item { index, identity } => here
                    .as_array_mut()
                    .and_then(|items| item(items, *index, identity.as_deref())),
            };
            let Some(next) = next else { return };
            here = next;
        }
        if let Some(members) = here.as_object_mut() {
            members
                .entry(self.key.clone())
                .or_insert_with(|| self.value.clone());
        }
    }
}

/// The place of the first list in `read` that was taken for an object, as a JSON pointer:
/// `written`, the document made of it, has an object there or leaves one out that says nothing.
pub(super) fn list_for_object(read: &Value, written: &Value) -> Option<String> {
    let nothing = Value::Object(serde_json::Map::new());
    let inside = |part: &str, read: &Value, written: &Value| {
        let rest = list_for_object(read, written)?;
        let mut place = String::new();
        push_pointer(&mut place, part);
        Some(place + &rest)
    };
    match (read, written) {
        (Value::Array(_), Value::Object(_)) => Some(String::new()),
        (Value::Object(read), Value::Object(written)) => read.iter().find_map(|(key, value)| {
            let known = written
                .get(key)
                .or(OBJECTS.contains(&key.as_str()).then_some(&nothing));
            inside(key, value, known?)
        }),
        (Value::Array(read), Value::Array(written)) => {
            let mut items = read.iter().zip(written).enumerate();
            items.find_map(|(i, (item, known))| inside(&i.to_string(), item, known))
        }
        _ => None,
    }
}

/// Whether a member is a known one that says nothing, and so was not written.
fn left_out(key: &str, value: &Value) -> bool {
    let says_nothing = match value {
        Value::Null | Value::Bool(false) => true,
        Value::String(text) => text.is_empty(),
        Value::Object(members) => members.iter().all(|(key, value)| left_out(key, value)),
        Value::Array(items) => items.is_empty() && LISTS.contains(&key),
        _ => false,
    };
    says_nothing && LEFT_OUT.contains(&key)
}

/// What an item of a list is known by.
fn identity(item: &Value) -> Option<&str> {
    item.get("id").or_else(|| item.get("name"))?.as_str()
}

/// The item of the same identity, at its old position if it is still there.
fn item<'a>(items: &'a mut [Value], index: usize, known_by: Option<&str>) -> Option<&'a mut Value> {
    let is_it = |candidate: &Value| identity(candidate) == known_by;
    let index = if items.get(index).is_some_and(is_it) {
        index
    } else {
        known_by?;
        items.iter().position(is_it)?
    };
    items.get_mut(index)
}

/// Appends one part to a JSON pointer (RFC 6901).
pub(super) fn push_pointer(pointer: &mut String, part: &str) {
    pointer.push('/');
    pointer.push_str(&part.replace('~', "~0").replace('/', "~1"));
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn unknown(way: Vec<Step>, key: &str) -> Member {
        Member {
            way,
            key: key.to_owned(),
            value: json!(1),
        }
    }

    #[test]
    fn a_member_follows_its_item_and_never_overwrites() {
        let item = Step::Item {
            index: 0,
            identity: Some("shed".to_owned()),
        };
        let kept = unknown(vec![Step::Member("features".to_owned()), item], "colour");
        assert_eq!(kept.place(), "/features/0/colour");

        let mut moved = json!({ "features": [{ "id": "house" }, { "id": "shed" }] });
        kept.put_back(&mut moved);
        assert_eq!(
            moved,
            json!({ "features": [{ "id": "house" }, { "id": "shed", "colour": 1 }] })
        );

        let mut gone = json!({ "features": [{ "id": "house" }] });
        kept.put_back(&mut gone);
        assert_eq!(gone, json!({ "features": [{ "id": "house" }] }));

        let mut taken = json!({ "features": [{ "id": "shed", "colour": 2 }] });
        kept.put_back(&mut taken);
        assert_eq!(
            taken,
            json!({ "features": [{ "id": "shed", "colour": 2 }] })
        );
    }

    /// Names of properties that are neither required nor given a default.
    fn optional_without_default(schema: &Value, out: &mut std::collections::BTreeSet<String>) {
        if let Some(properties) = schema.get("properties").and_then(Value::as_object) {
            let required = schema.get("required").and_then(Value::as_array);
            for (name, property) in properties {
                let required = required.is_some_and(|r| r.contains(&json!(name)));
                if !required && property.get("default").is_none() {
                    out.insert(name.clone());
                }
            }
        }
        match schema {
            Value::Object(parts) => parts
                .values()
                .for_each(|p| optional_without_default(p, out)),
            Value::Array(parts) => parts.iter().for_each(|p| optional_without_default(p, out)),
            _ => {}
        }
    }

    #[test]
    fn the_members_left_out_are_those_of_the_schema() {
        let mut optional = std::collections::BTreeSet::new();
        optional_without_default(&crate::exchange::schema::site(), &mut optional);
        optional_without_default(&crate::exchange::schema::shell(), &mut optional);
        optional_without_default(&crate::exchange::schema::book(), &mut optional);
        let listed: Vec<&str> = optional.iter().map(String::as_str).collect();
        assert_eq!(listed, LEFT_OUT);
    }

    #[test]
    fn a_member_that_says_nothing_is_unknown_only_by_its_name() {
        let known = json!({ "a": 1 });
        let places = |document: Value| -> Vec<String> {
            Unknown::between(&document, &known).places().collect()
        };
        assert!(
            places(json!({ "a": 1, "note": "", "utility": null, "long_way": false })).is_empty()
        );
        let told = json!({ "a": 1, "holes": [], "facts": { "depth": null }, "openings": [] });
        assert!(places(told).is_empty());
        let nested = json!({ "a": 1, "facts": { "colour": null } });
        assert_eq!(places(nested), ["/facts"]);
        let odd = json!({ "a": 1, "odd": null, "other": "", "third": false, "note": [] });
        assert_eq!(places(odd), ["/odd", "/other", "/third", "/note"]);
    }

    #[test]
    fn pointers_escape_their_signs() {
        assert_eq!(unknown(vec![], "a/b~c").place(), "/a~1b~0c");
    }
}
