//! A picture under the plan: a scan of a plat, or an aerial photograph.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::geom::Point;

/// A picture and where it lies.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Picture {
    /// What the list calls it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The form its data has.
    pub media: PictureMedia,
    /// The picture itself, base64 (RFC 4648, section 4).
    pub data: String,
    /// Its width, pixels.
    pub width: u32,
    /// Its height, pixels.
    pub height: u32,
    /// Where its middle lies, site metres.
    pub at: Point,
    /// The length of a pixel's side on the ground, metres.
    pub scale: f64,
    /// The bearing its upper edge faces, radians clockwise from north.
    #[serde(default)]
    pub heading: f64,
    /// How much of it shows: 1 wholly, towards 0 hardly.
    #[serde(default = "whole")]
    pub opacity: f64,
    /// Left out of the plan.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub hidden: bool,
    /// Held where it is: no hand moves it.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub locked: bool,
}

fn whole() -> f64 {
    1.0
}

/// The form of a picture's data.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PictureMedia {
    /// PNG (ISO/IEC 15948).
    Png,
    /// JPEG (ISO/IEC 10918-1).
    Jpeg,
    /// WebP (RFC 9649).
    Webp,
}
