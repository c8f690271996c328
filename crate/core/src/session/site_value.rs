//! A site as a JSON value and back, the data of its images in a table of its own: they are large, and
//! nearly every step of a history has the same.

use std::sync::Arc;

use serde_json::Value;

use crate::exchange::{self, images};
use crate::site::{CheckedSite, Site};

/// The data of every image that a history knows. An index stays good for as long as the table.
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

/// The indices that stand for the data of a site's images.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Named {
    /// The picture's.
    pub picture: Option<usize>,
    /// Those of its photographs, in order.
    pub photographs: Vec<usize>,
}

impl Named {
    /// The indices of a site's images, whose data are taken in where they are new.
    pub fn of(site: &Site, pictures: &mut Pictures) -> Self {
        let mut index = |data| pictures.index_of(data);
        Self {
            picture: site.picture.as_ref().map(|it| index(&it.data)),
            photographs: site.photographs.iter().map(|it| index(&it.data)).collect(),
        }
    }

    /// Every index, the picture's first.
    pub fn all(&self) -> impl Iterator<Item = usize> {
        self.picture.iter().chain(&self.photographs).copied()
    }
}

/// A site as a value, the indices of its images' data in place of them.
pub(super) fn value_of(site: &Site, pictures: &mut Pictures) -> Value {
    let named = Named::of(site, pictures);
    let mut value = serde_json::to_value(images::without(site)).unwrap_or(Value::Null);
    let sign = |place: Option<&mut Value>, index: usize| {
        if let Some(it) = place {
            *it = Value::from(format!("{SIGN}{index}"));
        }
    };
    if let Some(index) = named.picture {
        sign(value.pointer_mut("/picture/data"), index);
    }
    for (at, index) in named.photographs.iter().enumerate() {
        let place = format!("/photographs/{at}/data");
        sign(value.pointer_mut(&place), *index);
    }
    value
}

/// The indices that a value names in place of its images' data.
pub(super) fn named_in(value: &Value) -> Named {
    let index = |it: &Value| it.get("data")?.as_str()?.strip_prefix(SIGN)?.parse().ok();
    let photographs = value.get("photographs").and_then(Value::as_array);
    Named {
        picture: value.get("picture").and_then(index),
        photographs: photographs.map_or(Vec::new(), |all| all.iter().filter_map(index).collect()),
    }
}

/// The site of a value, which shares with `near` all that is the same; none where the value, or
/// one of its images, is not whole.
pub(super) fn site_of(
    value: Value,
    pictures: &Pictures,
    near: &CheckedSite,
) -> Option<CheckedSite> {
    let mut site: Site = exchange::read_value(&value.to_string()).ok()?;
    let data = |sign: &str| {
        let index = sign.strip_prefix(SIGN)?.parse().ok()?;
        pictures.get(index).map(Arc::clone)
    };
    if let Some(picture) = &mut site.picture {
        let found = data(&picture.data)?;
        Arc::make_mut(picture).data = found;
    }
    for it in Arc::make_mut(&mut site.photographs) {
        it.data = data(&it.data)?;
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
    same(&mut site.photographs, &near.photographs);
    if let Some((picture, near)) = site.picture.as_mut().zip(near.picture.as_ref()) {
        same(picture, near);
    }
    if let Some((placement, near)) = site.placement.as_mut().zip(near.placement.as_ref()) {
        same(&mut placement.shell, &near.shell);
    }
}
