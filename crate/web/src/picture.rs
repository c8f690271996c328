//! The picture under the plan: its data to and from the page, and what the page made of it.

use std::sync::Arc;

use batterboard_core::geom::Point;
use batterboard_core::report::PictureFigures;
use batterboard_core::site::picture::first_place;
use batterboard_core::site::{Picture, Site};
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::ImageBitmap;

use crate::js::{Answer, Outcome, to_js};
use crate::planner::Planner;

/// What is remembered of the picture between calls.
#[derive(Default)]
pub struct Pictured {
    /// The picture decoded by the page; none until it is.
    pub bitmap: Option<ImageBitmap>,
    /// The data that was last asked after, and how often it was another.
    data: Option<Arc<str>>,
    /// How much of it shows while a hand is on the slider.
    pub fade: Option<f64>,
    changes: u32,
}

impl Pictured {
    /// The picture that lies under the plan of a site, what the page made of it, and how much of
    /// it shows; none where it is hidden or not decoded yet.
    pub fn shown(&self, site: &Site) -> Option<(Arc<Picture>, ImageBitmap, f64)> {
        let picture = site.picture.as_ref().filter(|it| !it.hidden)?;
        let opacity = self.fade.unwrap_or(picture.opacity);
        Some((Arc::clone(picture), self.bitmap.clone()?, opacity))
    }

    /// A number for the site's data: another one whenever the data is another.
    fn stamp(&mut self, site: &Site) -> u32 {
        let data = site.picture.as_ref().map(|it| &it.data);
        let same = match (data, &self.data) {
            (Some(now), Some(before)) => Arc::ptr_eq(now, before),
            (None, None) => true,
            _ => false,
        };
        if !same {
            self.data = data.cloned();
            self.changes += 1;
        }
        self.changes
    }
}

#[wasm_bindgen]
impl Planner {
    /// The site file without its picture's data, to be kept after every edit.
    pub fn save_bare(&self) -> String {
        self.session.save_bare()
    }

    /// Opens what was kept: a site file and the data of its picture, empty for none.
    pub fn open_kept(&mut self, text: &str, picture: &str) -> Answer<Outcome> {
        to_js(&Outcome::from(self.session.open_kept(text, picture)))
    }

    /// A number that changes whenever the picture's data does.
    pub fn picture_stamp(&mut self) -> u32 {
        self.pictured.stamp(self.session.site().site())
    }

    /// The picture's data, base64; empty for none.
    pub fn picture_data(&self) -> String {
        let picture = self.session.site().site().picture.as_ref();
        picture.map_or(String::new(), |it| it.data.to_string())
    }

    /// The picture's size and scale, in a sentence; empty for none.
    pub fn picture_words(&self) -> String {
        let site = self.session.site().site();
        let picture = site.picture.as_ref();
        picture.map_or(String::new(), |it| {
            PictureFigures::of(it, site.display).words()
        })
    }

    /// Where a new picture of so many pixels is laid: `[x, y, metres to the pixel]`.
    pub fn picture_place(&mut self, width: u32, height: u32) -> Vec<f64> {
        let corners = self.extent();
        let &[left, lower, right, upper] = corners.as_slice() else {
            return Vec::new();
        };
        let (low, high) = (Point::new(left, lower), Point::new(right, upper));
        let (at, scale) = first_place(width, height, low, high);
        vec![at.x, at.y, scale]
    }

    /// The picture as it is to be painted, decoded by the page; `undefined` until it is.
    pub fn show_picture(&mut self, bitmap: Option<ImageBitmap>) {
        self.pictured.bitmap = bitmap;
    }

    /// Has so much of the picture shown until it is told otherwise; the document is not touched.
    pub fn fade_picture(&mut self, opacity: Option<f64>) {
        self.pictured.fade = opacity;
    }
}
