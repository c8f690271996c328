//! Lengths on paper, read back by an independent PDF library (lopdf): 1 in is 72 pt (ISO 32000-2, 8.3.2.3), so 100 ft at
//! 1 in = 20 ft are 5 in, 360 pt.

use batterboard_core::drawing::{Drawing, Item, Layer};
use batterboard_core::geom::Point;
use batterboard_core::units::System;
use batterboard_core::units::constants::FOOT;
use batterboard_paper::mark::{Area, Page};
use batterboard_paper::plan::{self, Window};
use batterboard_paper::{Document, Job, Paper, Scale, SheetKind, SheetWish, pdf};
use lopdf::content::Content;

use crate::{demo, sheet};

/// Every straight stroke of a page: from, to, points.
fn strokes(bytes: &[u8], page: u32) -> Vec<([f32; 2], [f32; 2])> {
    let file = lopdf::Document::load_mem(bytes).unwrap();
    let id = file.get_pages()[&page];
    let content = Content::decode(&file.get_page_content(id)).unwrap();
    let mut found = Vec::new();
    let mut at = [0.0, 0.0];
    for operation in content.operations {
        let number = |k: usize| operation.operands[k].as_float().unwrap();
        match operation.operator.as_str() {
            "m" => at = [number(0), number(1)],
            "l" => {
                let to = [number(0), number(1)];
                found.push((at, to));
                at = to;
            }
            _ => {}
        }
    }
    found
}

fn length((a, b): &([f32; 2], [f32; 2])) -> f64 {
    let far = |k: usize| f64::from(b[k] - a[k]);
    batterboard_core::math::hypot(far(0), far(1))
}

/// A line of 100 ft alone on a sheet.
fn hundred_feet(scale: Scale, turned: bool) -> Vec<u8> {
    let area = Area {
        x: 10.0,
        y: 10.0,
        width: 250.0,
        height: 250.0,
    };
    let window = Window {
        area,
        centre: Point::new(50.0 * FOOT, 0.0),
        scale,
        lettering: 1.0,
    };
    let end = if turned {
        Point::new(60.0 * FOOT, 80.0 * FOOT)
    } else {
        Point::new(100.0 * FOOT, 0.0)
    };
    let item = Item::Lines {
        layer: Layer::Breakline,
        lines: vec![(Point::new(0.0, 0.0), end)],
    };
    let drawing = Drawing { items: vec![item] };
    let marks = plan::draw(&drawing, &window, plan::Palette::Drafting, &[]).marks;
    pdf::of(&Document {
        title: "A line".to_owned(),
        subject: String::new(),
        language: "en-US",
        pages: vec![Page {
            width: 270.0,
            height: 270.0,
            marks,
        }],
        window: Some(window),
        attachments: Vec::new(),
    })
}

#[test]
fn a_hundred_feet_at_one_inch_to_twenty_are_360_points() {
    for (text, points) in [
        ("20", 360.0),
        ("10", 720.0),
        ("30", 240.0),
        ("1:200", 100.0 * 0.3048 / 200.0 / 0.0254 * 72.0),
    ] {
        let scale = Scale::parse(text, System::Feet).unwrap();
        for turned in [false, true] {
            let lengths: Vec<f64> = strokes(&hundred_feet(scale, turned), 1)
                .iter()
                .map(length)
                .collect();
            let [only] = lengths[..] else {
                panic!("{lengths:?}")
            };
            // Places are written to a thousandth of a point.
            assert!((only - points).abs() < 0.002, "{text}: {only} of {points}");
        }
    }
}

#[test]
fn the_lot_of_a_permit_plan_measures_what_its_courses_say() {
    let job = demo("level-suburban");
    let wanted = SheetWish {
        paper: Some(Paper::Tabloid),
        scale: Some(Scale { ratio: 240.0 }),
        ..SheetWish::new(SheetKind::Permit)
    };
    let bytes = pdf::of(&sheet(&job, &wanted).unwrap());
    let strokes = strokes(&bytes, 1);
    for side in &job.site.lot().lot.sides {
        let points = side.segment.length() / FOOT / 20.0 * 72.0;
        let near = |it: &([f32; 2], [f32; 2])| (length(it) - points).abs() < 0.003;
        assert!(strokes.iter().any(near), "no stroke of {points} pt");
    }
}

#[test]
fn a_scale_that_was_chosen_stays_and_what_lies_outside_is_told() {
    let job = demo("level-suburban");
    let wanted = SheetWish {
        paper: Some(Paper::Letter),
        scale: Some(Scale { ratio: 48.0 }),
        ..SheetWish::new(SheetKind::Permit)
    };
    let (document, findings) = batterboard_paper::make(&job, &wanted).unwrap();
    assert_eq!(document.window.unwrap().scale.ratio, 48.0);
    assert_eq!(findings[0].code, "part-outside");
    let texts = document.texts(0);
    assert!(texts.iter().any(|it| it.words.contains("1 in = 4 ft")));
}

#[test]
fn a_sheet_in_other_units_has_no_figure_in_the_sites_own() {
    let site = include_str!("../../demo-sites/level-suburban.json");
    let opened = || batterboard_core::exchange::open(site).unwrap();
    let metric = Job::of(opened(), Some(System::Metres));
    assert_eq!(metric.file, Job::of(opened(), None).file);
    let document = sheet(&metric, &SheetWish::new(SheetKind::Permit)).unwrap();
    assert_eq!(document.window.unwrap().scale.ratio % 5.0, 0.0);
    let texts = document.texts(0);
    let has = |part: &str| texts.iter().any(|it| it.words.contains(part));
    assert!(has("30.48 m") && has("1:"));
    for text in &texts {
        let feet = text.words.contains("'-") || text.words.ends_with(" ft");
        assert!(!feet, "{text:?}");
    }
}
