//! The data of a site's images, apart from its file.
//!
//! They are large and seldom change, so a file that is kept after every edit is without them, and they
//! are one text beside it: the data of the picture under the plan on the first line, which is empty
//! where there is none, and on each further line a photograph's id, a space, and its data. Of a site
//! without photographs that is its picture's data as it stands.

use std::sync::Arc;

use crate::site::{Photograph, Site};

/// The data of every image of a site.
pub fn of(site: &Site) -> String {
    let picture = site.picture.as_ref().map_or("", |it| &it.data);
    let mut out = picture.to_owned();
    for it in site.photographs.iter() {
        out.extend(["\n", &it.id, " ", &it.data]);
    }
    out
}

/// The same site without the data of its images.
pub fn without(site: &Site) -> Site {
    let mut bare = site.clone();
    bare.picture = bare.picture.map(|it| it.bare().into());
    if !bare.photographs.is_empty() {
        let photographs = bare.photographs.iter();
        bare.photographs = Arc::new(photographs.map(Photograph::bare).collect());
    }
    bare
}

/// Gives a site that came without the data of its images what of it is there.
pub(super) fn put_back(site: &mut Site, images: &str) {
    let mut lines = images.split('\n');
    let picture = lines.next().unwrap_or_default();
    if let Some(it) = site.picture.as_mut().filter(|it| it.data.is_empty()) {
        Arc::make_mut(it).data = picture.into();
    }
    if site.photographs.iter().all(|it| !it.data.is_empty()) {
        return;
    }
    let known: Vec<(&str, &str)> = lines.filter_map(|line| line.split_once(' ')).collect();
    for it in Arc::make_mut(&mut site.photographs) {
        let found = known.iter().find(|(id, _)| *id == it.id);
        if let Some((_, data)) = found.filter(|_| it.data.is_empty()) {
            it.data = (*data).into();
        }
    }
}
