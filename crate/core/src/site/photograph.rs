//! Photographs of the yard: each pinned to the place on the plan where it was taken, with the way it
//! looks, the stage of the work, and a note.
//!
//! A photograph shows how something was; it is no survey, and no figure is computed from it. It
//! stays in the job: it leaves with the site file and on the record sheet, and with nothing else.
//!
//! Its data is shared as that of the picture under the plan is: whatever else is changed about a
//! photograph, its data is the same text, told by its address. It is JPEG without the notes of the
//! camera, so that neither a place on earth nor the name of a device travels along unseen.

use std::collections::BTreeSet;
use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::picture::{Image, ImageSort, check_image, colors, has_notes, weight};
use super::{PictureMedia, Site, Stage, numbers};
use crate::finding::Finding;
use crate::geom::Point;

/// The most bytes of one photograph. Arbitrary: what a phone takes is sharp on a sheet in that many.
pub const BYTES: usize = 250_000;

/// The most bytes of all photographs of a site together. Arbitrary: as base64 they are 16 MB, half
/// of what a site file may have.
pub const ALL_BYTES: usize = 12_000_000;

/// The most pixels along a side. Arbitrary: more than a tablet shows.
pub const SIDE: u32 = 1_600;

/// The most letters of a note. Arbitrary: a few lines on the record sheet.
pub const NOTE: usize = 400;

/// The most letters of an id. Arbitrary.
const ID: usize = 40;

/// The most letters of when it was taken. Arbitrary: a day and an hour in any words.
const WHEN: usize = 40;

/// What one is called among images, and how large it may be.
const PHOTOGRAPH: ImageSort = ImageSort {
    name: "photograph",
    side: SIDE,
    bytes: BYTES,
    codes: [
        "photograph-size",
        "photograph-weight",
        "photograph-data",
        "photograph-data",
    ],
};

/// A photograph and where it was taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Photograph {
    /// What it is known by: letters and figures without spaces, and no other's.
    pub id: String,
    /// Where it was taken from, site meters.
    pub at: Point,
    /// The bearing it looks along, radians clockwise from north; none where nobody said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bearing: Option<f64>,
    /// When it was taken, as the camera or a person wrote it down: the local time there, without a
    /// zone.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub when: String,
    /// The stage of the work that it shows.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stage: Option<Stage>,
    /// What is worth saying of it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Its width, pixels.
    pub width: u32,
    /// Its height, pixels.
    pub height: u32,
    /// The photograph itself: JPEG, base64 (RFC 4648, section 4).
    pub data: Arc<str>,
}

impl Photograph {
    /// The same photograph without its data, as forms see it.
    #[must_use]
    pub fn bare(&self) -> Self {
        Self {
            data: "".into(),
            ..self.clone()
        }
    }

    /// Whether it has no colors but gray.
    pub fn is_gray(&self) -> bool {
        colors(&self.data) == Some(1)
    }

    /// Whether two photographs have the very same data.
    pub fn same_data(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.data, &other.data)
    }
}

/// Every fault of a site's photographs, placed in the site file. Those that are the same as before
/// are not looked at again, nor is data that was there before.
pub(super) fn check(site: &Site, before: Option<&Site>) -> Vec<Finding> {
    let all = &site.photographs;
    if before.is_some_and(|it| Arc::ptr_eq(&it.photographs, all)) {
        return Vec::new();
    }
    let known = before.map_or(&[][..], |it| it.photographs.as_slice());
    let mut faults = numbers::photographs(all.iter().map(|it| (it.at, it.bearing)), site.display);
    let mut ids = BTreeSet::new();
    for (index, photograph) in all.iter().enumerate() {
        let mut found = words(photograph, !ids.insert(photograph.id.as_str()));
        if !known.iter().any(|it| it.same_data(photograph)) {
            found.extend(data(photograph));
        }
        let place = format!("/photographs/{index}");
        faults.extend(found.into_iter().map(|it| it.under(&place)));
    }
    let together: usize = all.iter().map(|it| weight(&it.data)).sum();
    if together > ALL_BYTES {
        let message = format!(
            "The photographs together weigh {} kB; at most {} kB are kept in a job.",
            together / 1000,
            ALL_BYTES / 1000
        );
        let remedy = "Remove those that show the least, or begin another job for the next stage.";
        faults.push(Finding::fault("photographs-weight", message, remedy).under("/photographs"));
    }
    faults
}

/// What is wrong with the words of a photograph. `again`: another has its id.
fn words(photograph: &Photograph, again: bool) -> Vec<Finding> {
    let mut faults = Vec::new();
    let id = &photograph.id;
    let is_one = (1..=ID).contains(&id.len()) && id.bytes().all(|it| it.is_ascii_graphic());
    if again || !is_one {
        let message = format!("The id \"{id}\" of a photograph is used twice, or is none.");
        let remedy =
            "Give each photograph an id of its own: up to 40 letters and figures without spaces.";
        faults.push(Finding::fault("photograph-id", message, remedy).under("/id"));
    }
    let texts = [
        ("/note", "note", &photograph.note, NOTE),
        ("/when", "time", &photograph.when, WHEN),
    ];
    for (place, what, text, most) in texts {
        let letters = text.chars().count();
        if letters > most {
            let message = format!(
                "The {what} of a photograph has {letters} letters; at most {most} are kept."
            );
            faults.push(Finding::fault("photograph-words", message, "Shorten it.").under(place));
        }
    }
    faults
}

/// What is wrong with the data of a photograph.
fn data(photograph: &Photograph) -> Option<Finding> {
    let image = Image {
        data: &photograph.data,
        media: PictureMedia::Jpeg,
        size: (photograph.width, photograph.height),
    };
    let again =
        "Add the photograph again from its own file on the page, which keeps only what is seen.";
    let of =
        |code, message: &'static str| Some(Finding::fault(code, message, again).under("/data"));
    match check_image(image, &PHOTOGRAPH) {
        Some(fault) if fault.pointer == "/media" => {
            return of("photograph-data", "The photograph's data is no JPEG.");
        }
        Some(fault) => return Some(fault),
        None => {}
    }
    if has_notes(&photograph.data) {
        return of(
            "photograph-notes",
            "The photograph still has the camera's own notes in it, which may say where and with what it was taken.",
        );
    }
    if !matches!(colors(&photograph.data), Some(1 | 3)) {
        return of(
            "photograph-colors",
            "The photograph is made of other colors than red, green and blue, or gray.",
        );
    }
    None
}

#[cfg(test)]
mod tests;
