//! Every text of every sheet of every demo on every paper stands on the paper and on no other text.

use batterboard_core::drawing::placement::TextBox;
use batterboard_core::math;
use batterboard_paper::mark::Text;
use batterboard_paper::{Document, Job, Language, Lie, Paper, SheetKind, SheetWish};

use crate::{demo, sheet};

/// What an office printer leaves bare at the edge, millimeters (common practice, no source).
const BARE: f64 = 6.0;

/// The box of a text's capitals and figures.
fn boxed(text: &Text) -> TextBox {
    let [a, _, c, _] = text.corners();
    TextBox {
        centre: a.midpoint(c),
        half_length: text.length() / 2.0,
        half_height: a.distance(text.corners()[3]) / 2.0,
        along: text.axes().0,
    }
}

fn check(document: &Document, what: &str) {
    for (number, page) in document.pages.iter().enumerate() {
        let texts = document.texts(number);
        assert!(!texts.is_empty(), "{what}: page {number} is bare");
        let boxes: Vec<TextBox> = texts.iter().map(|it| boxed(it)).collect();
        for (text, it) in texts.iter().zip(&boxes) {
            for p in it.corners() {
                let on = p.x >= BARE
                    && p.y >= BARE
                    && p.x <= page.width - BARE
                    && p.y <= page.height - BARE;
                assert!(on, "{what}: page {number}: {text:?} reaches {p:?}");
            }
        }
        for (i, a) in boxes.iter().enumerate() {
            for (j, b) in boxes.iter().enumerate().skip(i + 1) {
                assert!(
                    !a.overlaps(b),
                    "{what}: page {number}: \"{}\" lies on \"{}\" at {:?} and {:?}",
                    texts[i].words,
                    texts[j].words,
                    texts[i].at,
                    texts[j].at,
                );
            }
        }
    }
}

/// Holds a sheet to the rule on every paper, either way it lies.
pub fn on_every_paper(job: &Job, name: &str, kind: SheetKind, language: Language) {
    for paper in Paper::ALL {
        for lie in [Lie::Wide, Lie::Tall] {
            let wanted = SheetWish {
                paper: Some(paper),
                lie: Some(lie),
                language,
                day: Some("2026-11-29".to_owned()),
                ..SheetWish::new(kind)
            };
            if let Some(document) = sheet(job, &wanted) {
                check(
                    &document,
                    &format!("{name}, {kind:?}, {paper:?}, {lie:?}, {language:?}"),
                );
            }
        }
    }
}

/// Every sheet of a demo in every language that it comes in.
fn check_demo(name: &str) {
    let job = demo(name);
    for kind in SheetKind::ALL {
        for language in [Language::English, Language::Spanish] {
            on_every_paper(&job, name, kind, language);
        }
    }
}

// One test to a demo, so that they run side by side.

#[test]
fn no_text_of_the_creek_side_sheets_lies_on_another_or_off_the_paper() {
    check_demo("creek-side-deed");
}

#[test]
fn no_text_of_the_level_sheets_lies_on_another_or_off_the_paper() {
    check_demo("level-suburban");
}

#[test]
fn no_text_of_the_hillside_sheets_lies_on_another_or_off_the_paper() {
    check_demo("sloping-hillside");
}

#[test]
fn no_text_of_the_wedge_sheets_lies_on_another_or_off_the_paper() {
    check_demo("wedge-cul-de-sac");
}

/// The box test itself tells texts apart that lie on each other.
#[test]
fn texts_on_each_other_are_found() {
    let job = demo("level-suburban");
    let document = sheet(&job, &SheetWish::new(SheetKind::Home)).unwrap();
    let text = boxed(document.texts(0)[0]);
    let turned = TextBox {
        along: batterboard_core::geom::Vector::new(math::cos(1.0), math::sin(1.0)),
        ..text
    };
    assert!(text.overlaps(&turned));
}
