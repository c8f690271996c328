//! The images of the site: their data to and from the page, and what the page made of the picture under the plan.

use std::sync::Arc;

use batterboard_core::exchange::images;
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
    /// The data of the images that was last asked after, and how often it was another.
    data: Vec<Arc<str>>,
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

    /// A number for the data of the site's images: another one whenever any of it is another.
    fn stamp(&mut self, site: &Site) -> u32 {
        let now = || {
            let picture = site.picture.iter().map(|it| &it.data);
            picture.chain(site.photographs.iter().map(|it| &it.data))
        };
        let same = now().count() == self.data.len()
            && now().zip(&self.data).all(|(a, b)| Arc::ptr_eq(a, b));
        if !same {
            self.data = now().cloned().collect();
            self.changes += 1;
        }
        self.changes
    }
}

#[wasm_bindgen]
impl Planner {
    /// The site file without its images' data, to be kept after every edit.
    pub fn save_bare(&self) -> String {
        self.session.save_bare()
    }

    /// Opens what was kept: a site file and the data of its images, empty for none.
    pub fn open_kept(&mut self, text: &str, images: &str) -> Answer<Outcome> {
        to_js(&Outcome::from(self.session.open_kept(text, images)))
    }

    /// A number that changes whenever the data of the images does.
    pub fn images_stamp(&mut self) -> u32 {
        self.pictured.stamp(self.session.site().site())
    }

    /// The data of the images: the picture's on the first line, each photograph's behind its id on a line of its own.
    pub fn images_data(&self) -> String {
        images::of(self.session.site().site())
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
