//! The picture under the plan, as the report names it.

use serde::Serialize;

use super::Figure;
use crate::site::Picture;
use crate::units::{Measure, System};

/// The picture under the plan. No figure of the report rests on it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PictureFigures {
    /// What the list calls it.
    pub name: String,
    /// Its width and height, pixels.
    pub pixels: [u32; 2],
    /// The length of a pixel's side on the ground.
    pub pixel: Figure,
    /// Its width on the ground.
    pub width: Figure,
    /// Its height on the ground.
    pub height: Figure,
    /// The bearing its upper edge faces.
    pub heading: Figure,
}

impl PictureFigures {
    /// Of a picture, in the given units.
    pub fn of(picture: &Picture, system: System) -> Self {
        let length = |metres| Figure::new(Measure::LongLength, metres, system);
        let (width, height) = (picture.width, picture.height);
        Self {
            name: picture.name.clone(),
            pixels: [width, height],
            pixel: Figure::new(Measure::Length, picture.scale, system),
            width: length(picture.scale * f64::from(width)),
            height: length(picture.scale * f64::from(height)),
            heading: Figure::new(Measure::Heading, picture.heading, system),
        }
    }

    /// Its size and its scale, in a sentence.
    pub fn words(&self) -> String {
        let [width, height] = self.pixels;
        format!(
            "{width} by {height} pixels, covering {} by {}; one pixel is {}.",
            self.width.shown.text, self.height.shown.text, self.pixel.shown.text
        )
    }
}
