//! The photographs of the record: legible on every paper however many were taken at one spot, in every kind of file as they
//! are, and in no other sheet.

use std::sync::Arc;

use batterboard_core::exchange::{self, Opened, Unknown};
use batterboard_core::geom::Point;
use batterboard_core::site::{CheckedSite, Photograph, Site, Stage};
#[cfg(feature = "png")]
use batterboard_paper::mark::Mark;
use batterboard_paper::mark::Text;
use batterboard_paper::{Document, Job, Language, SheetKind, SheetWish, make, pdf, svg};

use crate::legible::on_every_paper;
use crate::{demo_text, sheet};

/// 7 by 3 pixels, written by Pillow 13.0.0 without notes.
const JPEG: &str = "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAKBueIx4ZKCMgoy0qqC+8P//8Nzc8P//////////////////////////////////////////////////////////2wBDAaq0tPDS8P//////////////////////////////////////////////////////////////////////////////wAARCAADAAcDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAQP/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCQAo//2Q==";

const NOTE: &str = "The bank at the shed after the rain of the night, with the string that marks the over-dig and the rod at the corner where the stone is to begin; the neighbor's fence stands behind it.";

/// A job of a demo with so many photographs: every third at one spot.
fn with(name: &str, many: u32) -> Job {
    let opened = exchange::open(&demo_text(name)).unwrap();
    let one = |k: u32| Photograph {
        id: format!("p{k}"),
        at: if k.is_multiple_of(3) {
            Point::new(12.0, 14.0)
        } else {
            Point::new(2.0 + f64::from(k), 3.0 + f64::from(k % 7) * 3.0)
        },
        bearing: (k % 4 != 3).then(|| f64::from(k) * 0.9),
        when: if k.is_multiple_of(2) {
            "2026-11-30 09:40".to_owned()
        } else {
            String::new()
        },
        stage: Stage::ALL.get(k as usize % 9).copied(),
        note: if k.is_multiple_of(5) {
            NOTE.to_owned()
        } else {
            String::new()
        },
        width: 7,
        height: 3,
        data: JPEG.into(),
    };
    let site = Site {
        photographs: Arc::new((0..many).map(one).collect()),
        ..Site::clone(opened.site.site())
    };
    Job::of(
        Opened {
            site: CheckedSite::check(site, None).unwrap(),
            findings: Vec::new(),
            unknown: Unknown::default(),
        },
        None,
    )
}

fn record(job: &Job) -> Document {
    make(job, &SheetWish::new(SheetKind::Record)).unwrap().0
}

fn texts(document: &Document) -> Vec<&Text> {
    (0..document.pages.len())
        .flat_map(|page| document.texts(page))
        .collect()
}

/// How often the photographs stand in a document.
fn shown(document: &Document) -> usize {
    let marks = document.pages.iter().flat_map(|page| &page.marks);
    marks.map(|mark| mark.photos().len()).sum::<usize>()
}

#[test]
fn no_text_of_a_record_with_photographs_lies_on_another_or_off_the_paper() {
    // Without readings, and behind them.
    for (name, many) in [("level-suburban", 60), ("sloping-hillside", 7)] {
        let job = with(name, many);
        for language in [Language::English, Language::Spanish] {
            on_every_paper(&job, name, SheetKind::Record, language);
        }
        assert_eq!(shown(&record(&job)), many as usize);
    }
}

#[test]
fn every_photograph_has_its_number_on_the_plan_and_under_it() {
    let document = record(&with("level-suburban", 60));
    let words: Vec<&str> = texts(&document)
        .iter()
        .map(|it| it.words.as_str())
        .collect();
    for number in 1..=60 {
        let (pin, caption) = (number.to_string(), format!("{number}."));
        assert_eq!(words.iter().filter(|it| **it == pin).count(), 1, "{pin}");
        assert_eq!(
            words.iter().filter(|it| **it == caption).count(),
            1,
            "{caption}"
        );
    }
    assert!(
        words
            .iter()
            .any(|it| it.starts_with("looking north · before the work"))
    );
    assert!(
        words
            .iter()
            .any(|it| it.starts_with("direction not entered"))
    );
}

#[test]
fn files_hold_them_as_they_are() {
    let document = record(&with("level-suburban", 3));
    let file = lopdf::Document::load_mem(&pdf::of(&document)).unwrap();
    let images = file.objects.values().filter_map(|it| it.as_stream().ok());
    let images: Vec<_> = images
        .filter(|it| {
            it.dict
                .get(b"Filter")
                .and_then(|it| it.as_name())
                .is_ok_and(|it| it == b"DCTDecode")
        })
        .collect();
    assert_eq!(images.len(), 3);
    for image in images {
        assert_eq!(image.dict.get(b"Width").unwrap().as_i64().unwrap(), 7);
        assert!(image.content.starts_with(&[0xff, 0xd8, 0xff]));
    }
    let pages = (0..document.pages.len()).filter_map(|page| svg::of(&document, page));
    let text: String = pages.collect();
    assert_eq!(
        text.matches(&format!("href=\"data:image/jpeg;base64,{JPEG}\""))
            .count(),
        3
    );
}

#[cfg(feature = "png")]
#[test]
fn a_picture_of_the_sheet_shows_them() {
    let document = record(&with("level-suburban", 1));
    let marks = &document.pages[0].marks;
    let (area, _) = marks.iter().flat_map(Mark::photos).next().unwrap();
    let picture = crate::pixels::Picture::of(&document, 0, 100);
    let dot = |mm: f64| (mm * 100.0 / 25.4) as usize;
    let middle = picture.dot(
        dot(area.x + area.width / 2.0),
        dot(area.y + area.height / 2.0),
    );
    assert_ne!(middle, [255, 255, 255], "the photograph is painted");
}

/// Neither the file inside a sheet nor any other sheet has anything of them, and a job without any is as it was.
#[test]
fn nothing_else_that_leaves_has_them() {
    let job = with("sloping-hillside", 7);
    let bare = with("sloping-hillside", 0);
    assert!(!job.file.contains(JPEG) && job.revision == bare.revision);
    for kind in SheetKind::ALL {
        let wanted = SheetWish::new(kind);
        let (Some(document), Some(without)) = (sheet(&job, &wanted), sheet(&bare, &wanted)) else {
            continue;
        };
        for it in &document.attachments {
            assert!(!String::from_utf8_lossy(&it.bytes).contains(JPEG));
        }
        match kind {
            SheetKind::Record => assert!(shown(&document) == 7 && shown(&without) == 0),
            // It lists them in words.
            SheetKind::Report => assert_eq!(shown(&document), 0),
            _ => assert_eq!(document, without, "{kind:?}"),
        }
    }
}
