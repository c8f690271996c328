//! A site as a JSON value and back, its picture's data in a table of its own: the data are large,
//! and nearly every step of a history has the same.

use std::sync::Arc;

use serde_json::Value;

use crate::exchange;
use crate::site::{CheckedSite, Site};

/// The data of every picture that a history knows. An index stays good for as long as the table.
#[derive(Debug, Default)]
pub(super) struct Pictures(Vec<Option<Arc<str>>>);

impl Pictures {
    /// The data at an index.
    pub fn get(&self, index: usize) -> Option<&Arc<str>> {
        self.0.get(index)?.as_ref()
    }

    /// Puts data at an index; false where the index is out of reach.
    pub fn put(&mut self, index: usize, data: Arc<str>) -> bool {
        if index >= MOST_PICTURES {
            return false;
        }
        if self.0.len() <= index {
            self.0.resize(index + 1, None);
        }
        self.0.get_mut(index).map(|it| *it = Some(data)).is_some()
    }

    /// The index of data, which are taken in where they are new.
    pub fn index_of(&mut self, data: &Arc<str>) -> usize {
        let is_it = |it: &Option<Arc<str>>| {
            it.as_ref()
                .is_some_and(|it| Arc::ptr_eq(it, data) || it == data)
        };
        let known = self.0.iter().position(is_it);
        known.unwrap_or_else(|| {
            self.0.push(Some(Arc::clone(data)));
            self.0.len() - 1
        })
    }
}

/// More pictures than a history can name (one a step; arbitrary).
const MOST_PICTURES: usize = 4096;

/// What stands before the index where data would be.
const SIGN: char = '#';

/// A site as a value, the index of its picture's data in place of them.
pub(super) fn value_of(site: &Site, pictures: &mut Pictures) -> Value {
    let mut bare = site.clone();
    let data = bare
        .picture
        .as_ref()
        .map(|picture| Arc::clone(&picture.data));
    bare.picture = bare.picture.map(|picture| picture.bare().into());
    let mut value = serde_json::to_value(&bare).unwrap_or(Value::Null);
    if let Some((data, picture)) = data.zip(value.get_mut("picture").and_then(Value::as_object_mut))
    {
        let index = pictures.index_of(&data);
        picture.insert("data".to_owned(), Value::from(format!("{SIGN}{index}")));
    }
    value
}

/// The index that a value names in place of its picture's data.
pub(super) fn picture_of(value: &Value) -> Option<usize> {
    let data = value.get("picture")?.get("data")?.as_str()?;
    data.strip_prefix(SIGN)?.parse().ok()
}

/// The site of a value, which shares with `near` all that is the same; none where the value, or
/// its picture, is not whole.
pub(super) fn site_of(
    mut value: Value,
    pictures: &Pictures,
    near: &CheckedSite,
) -> Option<CheckedSite> {
    let data = match picture_of(&value) {
        Some(index) => Some(Arc::clone(pictures.get(index)?)),
        None => None,
    };
    if let Some(picture) = value.get_mut("picture").and_then(Value::as_object_mut) {
        picture.insert("data".to_owned(), Value::from(""));
    }
    let mut site: Site = exchange::read_value(&value.to_string()).ok()?;
    if let Some((picture, data)) = site.picture.as_mut().zip(data) {
        Arc::make_mut(picture).data = data;
    }
    share(&mut site, near.site());
    CheckedSite::check(site, Some(near)).ok()
}

/// Takes over the parts of another site that are the same, so that they are not checked again.
fn share(site: &mut Site, near: &Site) {
    fn same<T: PartialEq>(part: &mut Arc<T>, near: &Arc<T>) {
        if part == near {
            *part = Arc::clone(near);
        }
    }
    same(&mut site.lot, &near.lot);
    same(&mut site.features, &near.features);
    same(&mut site.ground, &near.ground);
    same(&mut site.works, &near.works);
    same(&mut site.rules, &near.rules);
    if let Some((picture, near)) = site.picture.as_mut().zip(near.picture.as_ref()) {
        same(picture, near);
    }
    if let Some((placement, near)) = site.placement.as_mut().zip(near.placement.as_ref()) {
        same(&mut placement.shell, &near.shell);
    }
}
