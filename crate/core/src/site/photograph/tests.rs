//! What a photograph may be, and that nothing of it is looked at twice.

use super::*;
use crate::math::TURN;
use crate::site::{CheckedSite, starter};

/// 7 by 3 pixels, written by Pillow 13.0.0 without notes.
const JPEG: &str = "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAKBueIx4ZKCMgoy0qqC+8P//8Nzc8P//////////////////////////////////////////////////////////2wBDAaq0tPDS8P//////////////////////////////////////////////////////////////////////////////wAARCAADAAcDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAQP/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCQAo//2Q==";

fn photograph(id: &str) -> Photograph {
    Photograph {
        id: id.to_owned(),
        at: Point::new(3.0, 4.0),
        bearing: Some(TURN / 8.0),
        when: "2026-11-30 09:40".to_owned(),
        stage: Some(Stage::Dug),
        note: "The bank at the shed".to_owned(),
        width: 7,
        height: 3,
        data: JPEG.into(),
    }
}

fn site(all: Vec<Photograph>) -> Site {
    Site {
        photographs: Arc::new(all),
        ..starter::blank_lot()
    }
}

/// The faults of a site whose one photograph is changed: what, and where.
fn told(change: impl FnOnce(&mut Photograph)) -> Vec<(&'static str, String)> {
    let mut one = photograph("a");
    change(&mut one);
    faults(&site(vec![one]), None)
}

fn faults(site: &Site, before: Option<&Site>) -> Vec<(&'static str, String)> {
    let all = check(site, before).into_iter();
    let whole = |it: &Finding| {
        assert!(it.is_fault() && !it.message.is_empty() && !it.remedy.is_empty());
    };
    all.inspect(whole).map(|it| (it.code, it.pointer)).collect()
}

fn at(place: &str) -> String {
    format!("/photographs/0/{place}")
}

#[test]
fn a_whole_photograph_passes_and_a_broken_one_says_where() {
    assert_eq!(told(|_| ()), []);
    assert_eq!(told(|it| it.bearing = None), []);
    assert_eq!(
        told(|it| it.id = String::new()),
        [("photograph-id", at("id"))]
    );
    assert_eq!(
        told(|it| it.id = "a b".to_owned()),
        [("photograph-id", at("id"))]
    );
    assert_eq!(
        told(|it| it.id = "a\nb".to_owned()),
        [("photograph-id", at("id"))]
    );
    assert_eq!(told(|it| it.note = "ñ".repeat(NOTE)), []);
    assert_eq!(
        told(|it| it.note = "n".repeat(NOTE + 1)),
        [("photograph-words", at("note"))]
    );
    assert_eq!(
        told(|it| it.when = "n".repeat(WHEN + 1)),
        [("photograph-words", at("when"))]
    );
    assert_eq!(told(|it| it.at.x = f64::NAN), [("out-of-range", at("at"))]);
    assert_eq!(
        told(|it| it.bearing = Some(f64::INFINITY)),
        [("out-of-range", at("bearing"))]
    );
    assert_eq!(told(|it| it.width = 8), [("photograph-size", at("width"))]);
    assert_eq!(
        told(|it| it.width = SIDE + 1),
        [("photograph-size", at("width"))]
    );
    assert_eq!(
        told(|it| it.data = "".into()),
        [("photograph-data", at("data"))]
    );
    assert_eq!(
        told(|it| it.data = "iVBORw0KGgo=".into()),
        [("photograph-data", at("data"))]
    );
    let heavy = "A".repeat(BYTES / 3 * 4 + 8);
    assert_eq!(
        told(|it| it.data = heavy.into()),
        [("photograph-weight", at("data"))]
    );
}

#[test]
fn notes_of_the_camera_do_not_come_in() {
    // A segment of six bytes is put behind the first marker.
    let bytes = unpacked(JPEG);
    for (marker, text) in [(0xe1, "Exif\0\0"), (0xed, "Photo "), (0xfe, "hello!")] {
        let mut noted = bytes.get(..2).unwrap().to_vec();
        noted.extend([0xff, marker, 0, 8]);
        noted.extend(text.bytes());
        noted.extend(bytes.get(2..).unwrap());
        let data: Arc<str> = packed(&noted).into();
        assert_eq!(
            told(|it| it.data = data),
            [("photograph-notes", at("data"))],
            "{marker:x}"
        );
    }
    // The form of the file and a profile of its colors are no notes.
    for marker in [0xe0, 0xe2] {
        let mut plain = bytes.get(..2).unwrap().to_vec();
        plain.extend([0xff, marker, 0, 8]);
        plain.extend("profil".bytes());
        plain.extend(bytes.get(2..).unwrap());
        let data: Arc<str> = packed(&plain).into();
        assert_eq!(told(|it| it.data = data), []);
    }
}

#[test]
fn an_id_is_used_once_and_all_together_weigh_no_more_than_a_job_may() {
    let two = site(vec![photograph("a"), photograph("a")]);
    assert_eq!(
        faults(&two, None),
        [("photograph-id", "/photographs/1/id".to_owned())]
    );
    // Data of 249,999 bytes each: 48 of them fit, 49 do not. Theirs is no JPEG, so they are told as known.
    let data: Arc<str> = "A".repeat(249_999 / 3 * 4).into();
    let many = |count: usize| {
        let one = |k: usize| Photograph {
            data: Arc::clone(&data),
            ..photograph(&format!("p{k}"))
        };
        site((0..count).map(one).collect())
    };
    let known = many(1);
    assert_eq!(faults(&many(48), Some(&known)), []);
    let told = faults(&many(49), Some(&known));
    assert_eq!(told, [("photographs-weight", "/photographs".to_owned())]);
    // More of them than may be there are told before anything is looked at.
    let all = CheckedSite::check(many(61), None).unwrap_err();
    assert_eq!(all.first().map(|it| it.code), Some("too-many"));
}

#[test]
fn what_was_there_before_is_not_looked_at_again() {
    let broken = Photograph {
        data: "no data".into(),
        ..photograph("a")
    };
    let before = site(vec![broken.clone()]);
    assert_eq!(faults(&before, None).len(), 1);
    // The same list: nothing of it.
    assert_eq!(faults(&before.clone(), Some(&before)), []);
    // Another list with the same data: its words and figures alone.
    let moved = Photograph {
        at: Point::new(f64::NAN, 0.0),
        ..broken
    };
    let told = faults(&site(vec![moved]), Some(&before));
    assert_eq!(told, [("out-of-range", "/photographs/0/at".to_owned())]);
}

const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

fn unpacked(text: &str) -> Vec<u8> {
    let mut out = Vec::new();
    for four in text.trim_end_matches('=').as_bytes().chunks(4) {
        let value = |b: &u8| LETTERS.iter().position(|it| it == b).unwrap() as u32;
        let sum = four.iter().fold(0, |sum, b| sum << 6 | value(b)) << (6 * (4 - four.len()));
        let [_, bytes @ ..] = sum.to_be_bytes();
        out.extend(bytes.iter().take(four.len() - 1));
    }
    out
}

fn packed(bytes: &[u8]) -> String {
    let mut out = String::new();
    for three in bytes.chunks(3) {
        let sum =
            three.iter().fold(0_u32, |sum, b| sum << 8 | u32::from(*b)) << (8 * (3 - three.len()));
        for k in 0..=three.len() {
            let index = (sum >> (18 - 6 * k) & 63) as usize;
            out.push(char::from(*LETTERS.get(index).unwrap()));
        }
        out.push_str(&"=".repeat(3 - three.len()));
    }
    out
}
