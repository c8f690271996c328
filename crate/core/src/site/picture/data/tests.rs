//! Pictures of 7 by 3 pixels, written by Pillow 13.0.0 in each form, pass; the same with one thing
//! wrong do not.

use std::sync::Arc;

use super::*;
use crate::geom::Point;

const PNG: &str = "iVBORw0KGgoAAAANSUhEUgAAAAcAAAADCAIAAADQoYKSAAAAFElEQVR4nGM8ISfHgAGYMIVwigIAQrIBCutUVQcAAAAASUVORK5CYII=";
const JPEG: &str = "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAKBueIx4ZKCMgoy0qqC+8P//8Nzc8P//////////////////////////////////////////////////////////2wBDAaq0tPDS8P//////////////////////////////////////////////////////////////////////////////wAARCAADAAcDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAQP/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCQAo//2Q==";
const LOSSY: &str =
    "UklGRjoAAABXRUJQVlA4IC4AAACwAQCdASoHAAMAAUAmJaACdLoABDAAAP7x3I/4DdfFtMv/vYL/3YL/3YL/WwAA";
const LOSSLESS: &str = "UklGRh4AAABXRUJQVlA4TBEAAAAvBoAAAAdQjyLXo/+BiOh/AAA=";
const EXTENDED: &str = "UklGRl4AAABXRUJQVlA4WAoAAAAQAAAABgAAAgAAQUxQSAoAAAABB1C8iAhERP8DVlA4IC4AAACwAQCdASoHAAMAAUAmJaACdLoABDAAAP7x3I/4DdfFtMv/vYL/3YL/3YL/WwAA";

fn picture(media: PictureMedia, data: &str) -> Picture {
    Picture {
        name: String::new(),
        media,
        data: Arc::from(data),
        width: 7,
        height: 3,
        at: Point::default(),
        scale: 0.1,
        heading: 0.0,
        opacity: 1.0,
        hidden: false,
        locked: false,
    }
}

fn faults(picture: &Picture) -> Vec<(&'static str, String)> {
    check(picture)
        .into_iter()
        .inspect(|f| assert!(f.is_fault() && !f.remedy.is_empty()))
        .map(|f| (f.code, f.pointer))
        .collect()
}

#[test]
fn every_form_is_known_by_its_marks_and_its_size() {
    use PictureMedia::{Jpeg, Png, Webp};
    let forms = [
        (Png, PNG),
        (Jpeg, JPEG),
        (Webp, LOSSY),
        (Webp, LOSSLESS),
        (Webp, EXTENDED),
    ];
    for (media, data) in forms {
        assert_eq!(faults(&picture(media, data)), [], "{media:?}");
        for other in [Png, Jpeg, Webp].into_iter().filter(|it| *it != media) {
            let told = faults(&picture(other, data));
            assert_eq!(told, [("picture-media", "/picture/media".to_owned())]);
        }
        let wider = Picture {
            width: 8,
            ..picture(media, data)
        };
        assert_eq!(
            faults(&wider),
            [("picture-size", "/picture/width".to_owned())]
        );
        // Cut off anywhere, it is still no panic; cut off in its head, it is no picture.
        for end in (4..data.len()).step_by(4) {
            check(&picture(media, data.get(..end).unwrap_or_default()));
        }
        let head = picture(media, data.get(..20).unwrap_or_default());
        assert_eq!(
            faults(&head),
            [("picture-media", "/picture/media".to_owned())]
        );
    }
}

#[test]
fn what_is_no_base64_is_told() {
    let data = || "/picture/data".to_owned();
    for text in ["", "abc", "abcde===", "ab=d", "ab\nd", "a-_d", "===="] {
        let told = faults(&picture(PictureMedia::Png, text));
        assert_eq!(told, [("picture-data", data())], "{text:?}");
    }
    let heavy = "A".repeat(BYTES / 3 * 4 + 8);
    let told = faults(&picture(PictureMedia::Png, &heavy));
    assert_eq!(told, [("picture-weight", data())]);
}

#[test]
fn a_picture_without_pixels_or_with_too_many_is_told() {
    for (width, height) in [(0, 3), (7, 0), (SIDE + 1, 3), (7, u32::MAX)] {
        let wrong = Picture {
            width,
            height,
            ..picture(PictureMedia::Png, PNG)
        };
        assert_eq!(
            faults(&wrong),
            [("picture-size", "/picture/width".to_owned())]
        );
    }
}

#[test]
fn bytes_are_read_where_they_stand() {
    // RFC 4648, section 10: "foobar" is Zm9vYmFy, "foob" is Zm9vYg==.
    let read = |text: &str, count| (0..count).map(|i| Bytes(text.as_bytes()).at(i)).collect();
    let all: Option<Vec<u8>> = read("Zm9vYmFy", 6);
    assert_eq!(all.as_deref(), Some(b"foobar".as_slice()));
    let part: Option<Vec<u8>> = read("Zm9vYg==", 4);
    assert_eq!(part.as_deref(), Some(b"foob".as_slice()));
    assert_eq!(Bytes(b"Zm9vYg==").at(4), None);
}
