//! What the data of an image claims to be, validated: its size, its base64, the marks of its form,
//! and how many pixels it says it has. Whether it can be drawn only the page finds out.
//!
//! The picture under the plan and every photograph of the yard are held to it, each within bounds of
//! its own ([`ImageSort`]).

use super::{Picture, PictureMedia};
use crate::finding::Finding;

/// The most bytes a picture may have. Arbitrary: a plat is legible in a tenth of it, and a site
/// file has to stay something that can be sent.
pub const BYTES: usize = 2_000_000;

/// The most pixels along a side. Arbitrary: a tablet holds that many, squared, in memory.
pub const SIDE: u32 = 4_000;

/// A sort of image that a site keeps: what its faults are called, and how large it may be.
pub(in crate::site) struct ImageSort {
    /// What a person calls one.
    pub name: &'static str,
    /// The most pixels along a side.
    pub side: u32,
    /// The most bytes.
    pub bytes: usize,
    /// The codes of its faults: size, weight, data, media.
    pub codes: [&'static str; 4],
}

const PICTURE: ImageSort = ImageSort {
    name: "picture",
    side: SIDE,
    bytes: BYTES,
    codes: [
        "picture-size",
        "picture-weight",
        "picture-data",
        "picture-media",
    ],
};

/// An image's data, and what is claimed of it.
#[derive(Clone, Copy)]
pub(in crate::site) struct Image<'a> {
    /// Base64.
    pub data: &'a str,
    /// Its form.
    pub media: PictureMedia,
    /// Its width and height, pixels.
    pub size: (u32, u32),
}

/// What is wrong with a picture's data, placed in the site file.
pub(in crate::site) fn check(picture: &Picture) -> Vec<Finding> {
    let image = Image {
        data: &picture.data,
        media: picture.media,
        size: (picture.width, picture.height),
    };
    let fault = check_image(image, &PICTURE);
    fault.into_iter().map(|it| it.under("/picture")).collect()
}

/// What is wrong with an image's data, placed in the record that it belongs to.
pub(in crate::site) fn check_image(image: Image<'_>, sort: &ImageSort) -> Option<Finding> {
    let data = image.data.as_bytes();
    let (name, side) = (sort.name, sort.side);
    let [size_code, weight_code, data_code, media_code] = sort.codes;
    let fault = |code, place: &str, message: String| {
        let again = format!("Add the {name} again from its own file.");
        Some(Finding::fault(code, message, again).under(&format!("/{place}")))
    };
    let (width, height) = image.size;
    if [width, height].iter().any(|it| !(1..=side).contains(it)) {
        return fault(
            size_code,
            "width",
            format!(
                "The {name} is {width} by {height} pixels; each must lie between 1 and {side}."
            ),
        );
    }
    if weight(image.data) > sort.bytes {
        let most = sort.bytes / 1000;
        return fault(
            weight_code,
            "data",
            format!("The {name} is heavier than {most} kB."),
        );
    }
    if !is_base64(data) {
        return fault(
            data_code,
            "data",
            format!("The {name}'s data is not base64."),
        );
    }
    let Some(told) = size(image.media, Bytes(data)) else {
        let media = image.media.words();
        return fault(
            media_code,
            "media",
            format!("The {name}'s data is no {media}, which its media says it is."),
        );
    };
    if told != image.size {
        let (w, h) = told;
        return fault(
            size_code,
            "width",
            format!("The {name}'s data says {w} by {h} pixels, the file {width} by {height}."),
        );
    }
    None
}

/// The bytes that so much base64 stands for, to the last two.
pub(in crate::site) fn weight(data: &str) -> usize {
    data.len() / 4 * 3
}

/// Whether a JPEG says more than what is seen: where and with what it was taken (Exif and XMP in the
/// first application segment, IPTC in the thirteenth; ISO/IEC 10918-1, B.2.4.6), or a comment.
pub(in crate::site) fn has_notes(data: &str) -> bool {
    let mut all = segments(Bytes(data.as_bytes()));
    all.any(|(marker, _)| matches!(marker, 0xe1 | 0xed | 0xfe))
}

/// How many colors a JPEG is made of (ISO/IEC 10918-1, B.2.2).
pub(in crate::site) fn colors(data: &str) -> Option<u8> {
    let bytes = Bytes(data.as_bytes());
    bytes.at(frame(bytes)? + 9)
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

/// The sides that its frame tells (ISO/IEC 10918-1, B.2.2).
fn jpeg(bytes: Bytes<'_>) -> Option<(u32, u32)> {
    let at = frame(bytes)?;
    Some((bytes.high_first(at + 7, 2)?, bytes.high_first(at + 5, 2)?))
}

/// Where the frame of a JPEG begins: C4, C8 and CC of that range are tables.
fn frame(bytes: Bytes<'_>) -> Option<usize> {
    if !bytes.starts(0, &[0xff, 0xd8]) {
        return None;
    }
    let is_frame =
        |marker: u8| matches!(marker, 0xc0..=0xcf) && ![0xc4, 0xc8, 0xcc].contains(&marker);
    let mut all = segments(bytes);
    all.find(|(marker, _)| is_frame(*marker)).map(|(_, at)| at)
}

/// The segments of a JPEG up to its first scan: the marker of each, and where it begins
/// (ISO/IEC 10918-1, B.1.1.4).
fn segments(bytes: Bytes<'_>) -> impl Iterator<Item = (u8, usize)> {
    let mut at = 2;
    core::iter::from_fn(move || {
        loop {
            if bytes.at(at)? != 0xff {
                return None;
            }
            match bytes.at(at + 1)? {
                // Filled up.
                0xff => at += 1,
                // The scan begins, or the picture ends.
                0xda | 0xd9 => return None,
                marker => {
                    let begins = at;
                    at += 2 + usize::try_from(bytes.high_first(at + 2, 2)?).ok()?;
                    return Some((marker, begins));
                }
            }
        }
    })
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
