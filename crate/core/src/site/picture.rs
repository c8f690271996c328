//! A picture under the plan: a scan of a plat, or an aerial photograph.
//!
//! A picture is a help to the eye. It is no survey, and no figure is computed from it: what is
//! drawn over it is as good as the picture and the two points it was scaled by.
//!
//! Its data is the one large thing in a site, so it is shared: whatever is changed about a
//! picture, its data is the same text, told by its address. A picture without data stands for
//! "the data that is there already" in an edit (see [`Picture::bare`]).

mod data;
mod fit;

use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use data::{BYTES, SIDE};
pub use fit::{Fit, first_place};

pub(super) use data::{
    Image, ImageSort, check as check_data, check_image, colors, has_notes, weight,
};

use crate::geom::Point;

/// A picture and where it lies.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Picture {
    /// What the list calls it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The form its data has.
    pub media: PictureMedia,
    /// The picture itself, base64 (RFC 4648, section 4).
    pub data: Arc<str>,
    /// Its width, pixels.
    pub width: u32,
    /// Its height, pixels.
    pub height: u32,
    /// Where its middle lies, site meters.
    pub at: Point,
    /// The length of a pixel's side on the ground, meters.
    pub scale: f64,
    /// The bearing its upper edge faces, radians clockwise from north.
    #[serde(default)]
    pub heading: f64,
    /// How much of it shows: 1 wholly, toward 0 hardly.
    #[serde(default = "whole")]
    pub opacity: f64,
    /// Left out of the plan.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub hidden: bool,
    /// Held where it is: no hand moves it.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub locked: bool,
}

impl Picture {
    /// The same picture without its data, as forms see it and as an edit sends it that does not
    /// bring another picture.
    #[must_use]
    pub fn bare(&self) -> Self {
        Self {
            data: "".into(),
            ..self.clone()
        }
    }

    /// Whether two pictures have the very same data.
    pub fn same_data(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.data, &other.data)
    }
}

fn whole() -> f64 {
    1.0
}

/// The form of a picture's data.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum PictureMedia {
    /// PNG (ISO/IEC 15948).
    Png,
    /// JPEG (ISO/IEC 10918-1).
    Jpeg,
    /// WebP (RFC 9649).
    Webp,
}
