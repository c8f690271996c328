//! Members of a file that this build does not know: kept on opening, put back on saving.
//!
//! A member is remembered by the way to it. Items of lists are remembered by their `id` or
//! `name` where they have one, so that a kept member follows its item when the list is
//! edited; otherwise by position. On saving, a member returns if the thing it belonged to is
//! still there, and never in place of a member that the planner wrote itself.

use serde_json::Value;

/// Every member of a file that this build does not know. Hand it back to
/// [`save`](super::save) with the site it was opened with.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Unknown(Vec<Member>);

impl Unknown {
    /// Finds what the reader passed over in the document it read. What cannot be found is
    /// left out.
    pub(super) fn find(passed: &[Passed], document: &Value) -> Self {
        let members = passed.iter().filter_map(|p| Member::find(p, document));
        Self(members.collect())
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

/// The way to a member that the reader passed over, as the reader tells it.
pub(super) struct Passed(Vec<Part>);

enum Part {
    Key(String),
    Index(usize),
}

impl Passed {
    /// Copies the reader's own path, which lives only while it reads.
    pub(super) fn new(path: &serde_ignored::Path<'_>) -> Self {
        use serde_ignored::Path;
        let mut parts = Vec::new();
        let mut next = path;
        loop {
            next = match next {
                Path::Root => break,
                Path::Seq { parent, index } => {
                    parts.push(Part::Index(*index));
                    parent
                }
                Path::Map { parent, key } => {
                    parts.push(Part::Key(key.clone()));
                    parent
                }
                Path::Some { parent }
                | Path::NewtypeStruct { parent }
                | Path::NewtypeVariant { parent } => parent,
            };
        }
        parts.reverse();
        Self(parts)
    }
}

impl Member {
    /// Finds the member that the reader passed over in the document it read.
    ///
    /// The reader does not tell the names of variants (`{"disc": {...}}`), so an object of a
    /// single member is entered where a step would otherwise lead nowhere. `None` when the
    /// member is not found even so.
    fn find(passed: &Passed, document: &Value) -> Option<Self> {
        let mut here = document;
        let mut way = Vec::new();
        for part in &passed.0 {
            let mut next = follow(part, here);
            while next.is_none() {
                let (key, only) = single_member(here)?;
                way.push(Step::Member(key.clone()));
                here = only;
                next = follow(part, here);
            }
            here = next?;
            way.push(match part {
                Part::Key(key) => Step::Member(key.clone()),
                Part::Index(index) => Step::Item {
                    index: *index,
                    identity: identity(here).map(str::to_owned),
                },
            });
        }
        match way.pop()? {
            Step::Member(key) => Some(Self {
                way,
                key,
                value: here.clone(),
            }),
            Step::Item { .. } => None,
        }
    }

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

/// The value one step further, if there is one.
fn follow<'a>(part: &Part, here: &'a Value) -> Option<&'a Value> {
    match part {
        Part::Key(key) => here.get(key),
        Part::Index(index) => here.get(index),
    }
}

/// The only member of an object, if it has just one.
fn single_member(value: &Value) -> Option<(&String, &Value)> {
    let members = value.as_object()?;
    (members.len() == 1).then(|| members.iter().next())?
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

    #[test]
    fn pointers_escape_their_signs() {
        assert_eq!(unknown(vec![], "a/b~c").place(), "/a~1b~0c");
    }
}
