//! What a picture's data claims to be, validated: its size, its base64, the marks of
//! its form, and how many pixels it says it has. Whether it can be drawn only the page finds out.

use super::{Picture, PictureMedia};
use crate::finding::Finding;

/// The most bytes a picture may have. Arbitrary: a plat is legible in a tenth of it, and a site
/// file has to stay something that can be sent.
pub const BYTES: usize = 2_000_000;

/// The most pixels along a side. Arbitrary: a tablet holds that many, squared, in memory.
pub const SIDE: u32 = 4_000;

/// What is wrong with a picture's data, placed in the site file.
pub(in crate::site) fn check(picture: &Picture) -> Vec<Finding> {
    let data = picture.data.as_bytes();
    let again = "Add the picture again from its own file.";
    let fault = |check, place: &str, message: String| {
        vec![Finding::fault(check, message, again).under(&format!("/picture/{place}"))]
    };
    let sides = [picture.width, picture.height];
    if sides.iter().any(|side| !(1..=SIDE).contains(side)) {
        let [width, height] = sides;
        return fault(
            "picture-size",
            "width",
            format!(
                "The picture is {width} by {height} pixels; each must lie between 1 and {SIDE}."
            ),
        );
    }
    if data.len() / 4 * 3 > BYTES {
        return fault(
            "picture-weight",
            "data",
            format!("The picture is heavier than {} kB.", BYTES / 1000),
        );
    }
    if !is_base64(data) {
        return fault(
            "picture-data",
            "data",
            "The picture's data is not base64.".to_owned(),
        );
    }
    let Some(size) = size(picture.media, Bytes(data)) else {
        let name = picture.media.words();
        return fault(
            "picture-media",
            "media",
            format!("The picture's data is no {name}, which its media says it is."),
        );
    };
    if size != (picture.width, picture.height) {
        let (width, height) = size;
        return fault(
            "picture-size",
            "width",
            format!(
                "The picture's data says {width} by {height} pixels, the file {} by {}.",
                picture.width, picture.height
            ),
        );
    }
    Vec::new()
}

impl PictureMedia {
    /// The form as people call it.
    pub fn words(self) -> &'static str {
        match self {
            Self::Png => "PNG",
            Self::Jpeg => "JPEG",
            Self::Webp => "WebP",
        }
    }
}

/// Whole groups of four letters, the last filled up with at most two `=` (RFC 4648, section 4).
fn is_base64(text: &[u8]) -> bool {
    let padding = text.iter().rev().take_while(|b| **b == b'=').count();
    let letters = text.len() - padding;
    let known = text.iter().take(letters).all(|b| value(*b).is_some());
    !text.is_empty() && text.len().is_multiple_of(4) && padding <= 2 && known
}

/// What a letter of base64 stands for.
fn value(letter: u8) -> Option<u8> {
    Some(match letter {
        b'A'..=b'Z' => letter - b'A',
        b'a'..=b'z' => letter - b'a' + 26,
        b'0'..=b'9' => letter - b'0' + 52,
        b'+' => 62,
        b'/' => 63,
        _ => return None,
    })
}

/// Bytes told in base64, read one by one where they stand.
#[derive(Clone, Copy)]
struct Bytes<'a>(&'a [u8]);

impl Bytes<'_> {
    fn at(self, index: usize) -> Option<u8> {
        // Three bytes are four letters; a byte lies across two of them.
        let first = index / 3 * 4 + index % 3;
        let high = value(*self.0.get(first)?)?;
        let low = value(*self.0.get(first + 1)?)?;
        let shift = 2 * (index % 3 + 1);
        Some(high << shift | low >> (6 - shift))
    }

    fn starts(self, at: usize, with: &[u8]) -> bool {
        with.iter().zip(at..).all(|(b, i)| self.at(i) == Some(*b))
    }

    /// A whole number of `count` bytes, the highest first.
    fn high_first(self, at: usize, count: usize) -> Option<u32> {
        (at..at + count).try_fold(0, |number, i| Some(number << 8 | u32::from(self.at(i)?)))
    }

    /// A whole number of `count` bytes, the lowest first.
    fn low_first(self, at: usize, count: usize) -> Option<u32> {
        (at..at + count)
            .rev()
            .try_fold(0, |number, i| Some(number << 8 | u32::from(self.at(i)?)))
    }
}

/// Width and height as the data tells them; `None` where it is not of that form.
fn size(media: PictureMedia, bytes: Bytes<'_>) -> Option<(u32, u32)> {
    match media {
        PictureMedia::Png => png(bytes),
        PictureMedia::Jpeg => jpeg(bytes),
        PictureMedia::Webp => webp(bytes),
    }
}

/// The signature, then the header (ISO/IEC 15948, sections 5.2 and 11.2.1).
fn png(bytes: Bytes<'_>) -> Option<(u32, u32)> {
    let begins = bytes.starts(0, b"\x89PNG\r\n\x1a\n") && bytes.starts(12, b"IHDR");
    if !begins {
        return None;
    }
    Some((bytes.high_first(16, 4)?, bytes.high_first(20, 4)?))
}

/// From segment to segment up to the frame's own (ISO/IEC 10918-1, B.1.1.4 and B.2.2).
fn jpeg(bytes: Bytes<'_>) -> Option<(u32, u32)> {
    if !bytes.starts(0, &[0xff, 0xd8]) {
        return None;
    }
    let mut at = 2;
    loop {
        if bytes.at(at)? != 0xff {
            return None;
        }
        match bytes.at(at + 1)? {
            // Filled up.
            0xff => at += 1,
            // The scan begins, or the picture ends, and no frame was told.
            0xda | 0xd9 => return None,
            // A frame; C4, C8 and CC of that range are tables.
            marker @ 0xc0..=0xcf if ![0xc4, 0xc8, 0xcc].contains(&marker) => {
                return Some((bytes.high_first(at + 7, 2)?, bytes.high_first(at + 5, 2)?));
            }
            _ => at += 2 + usize::try_from(bytes.high_first(at + 2, 2)?).ok()?,
        }
    }
}

/// The container, then the first chunk of one of three kinds (RFC 9649, sections 2.4 to 2.7).
fn webp(bytes: Bytes<'_>) -> Option<(u32, u32)> {
    if !bytes.starts(0, b"RIFF") || !bytes.starts(8, b"WEBP") {
        return None;
    }
    let low = |at, count| bytes.low_first(at, count);
    if bytes.starts(12, b"VP8X") {
        return Some((low(24, 3)? + 1, low(27, 3)? + 1));
    }
    if bytes.starts(12, b"VP8L") && bytes.at(20)? == 0x2f {
        let both = low(21, 4)?;
        return Some(((both & 0x3fff) + 1, (both >> 14 & 0x3fff) + 1));
    }
    let lossy = bytes.starts(12, b"VP8 ") && bytes.starts(23, &[0x9d, 0x01, 0x2a]);
    lossy.then_some(())?;
    Some((low(26, 2)? & 0x3fff, low(28, 2)? & 0x3fff))
}

#[cfg(test)]
mod tests;
