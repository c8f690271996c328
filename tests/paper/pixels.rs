//! Sheets as pictures, read back by the decoder of the `png` crate: as many dots as the paper has at a resolution, dark
//! where the scale says that a line lies, and nowhere a page without anything.

use batterboard_core::geom::{Point, Vector};
use batterboard_paper::mark::{Area, Attachment, Color, Ink, Mark, Outline, Page, Stroke};
use batterboard_paper::{Document, Language, Lie, Paper, SheetKind, SheetWish, png};

use crate::{DEMOS, demo, sheet};

/// A picture as it was read: its size, dots to a meter, and red, green and blue of every dot.
pub struct Picture {
    width: usize,
    height: usize,
    per_meter: u32,
    dots: Vec<u8>,
}

impl Picture {
    pub fn of(document: &Document, page: usize, dots: u32) -> Self {
        let bytes = png::of(document, page, dots).unwrap().unwrap();
        let mut reader = ::png::Decoder::new(std::io::Cursor::new(bytes))
            .read_info()
            .unwrap();
        let mut dots = vec![0; reader.output_buffer_size().unwrap()];
        let told = reader.next_frame(&mut dots).unwrap();
        assert_eq!(told.color_type, ::png::ColorType::Rgb);
        let [width, height] = [told.width, told.height].map(|it| it as usize);
        Self {
            width,
            height,
            per_meter: reader.info().pixel_dims.unwrap().xppu,
            dots,
        }
    }

    pub fn dot(&self, x: usize, y: usize) -> [u8; 3] {
        let at = 3 * (y * self.width + x);
        self.dots[at..at + 3].try_into().unwrap()
    }

    fn is_dark(&self, x: usize, y: usize) -> bool {
        self.dot(x, y).iter().all(|part| *part < 128)
    }

    /// The share of dots that are not bare paper.
    fn inked(&self) -> f64 {
        let inked = self.dots.chunks(3).filter(|dot| *dot != [255; 3]).count();
        inked as f64 / (self.width * self.height) as f64
    }
}

fn alone(marks: Vec<Mark>) -> Document {
    Document {
        title: String::new(),
        subject: String::new(),
        language: "en-US",
        pages: vec![Page {
            width: 100.0,
            height: 60.0,
            marks,
        }],
        window: None,
        attachments: Vec::<Attachment>::new(),
    }
}

fn line(from: (f64, f64), to: (f64, f64), dash: &'static [f64]) -> Mark {
    let ends = [from, to].map(|(x, y)| Point::new(x, y));
    let stroke = Stroke {
        color: Color::BLACK,
        width: 1.0,
        dash,
    };
    Mark::Shape(
        vec![Outline::through(ends, false).unwrap()],
        Ink::line(stroke),
    )
}

/// 254 dots to an inch are ten to a millimeter.
#[test]
fn a_picture_has_the_dots_of_its_paper() {
    let job = demo("level-suburban");
    for (paper, lie, dots, size) in [
        (Paper::Letter, Lie::Tall, 100, (850, 1100)),
        (Paper::Letter, Lie::Wide, 200, (2200, 1700)),
        (Paper::ArchD, Lie::Wide, 50, (1800, 1200)),
        (Paper::A4, Lie::Tall, 254, (2100, 2970)),
    ] {
        let wanted = SheetWish {
            paper: Some(paper),
            lie: Some(lie),
            ..SheetWish::new(SheetKind::Permit)
        };
        let picture = Picture::of(&sheet(&job, &wanted).unwrap(), 0, dots);
        assert_eq!((picture.width, picture.height), size);
        let inch = f64::from(picture.per_meter) * 0.0254;
        assert!((inch - f64::from(dots)).abs() < 0.02, "{inch}");
    }
}

#[test]
fn marks_are_where_their_millimeters_say() {
    let area = Area {
        x: 0.0,
        y: 30.0,
        width: 50.0,
        height: 30.0,
    };
    let document = alone(vec![
        line((10.0, 10.0), (90.0, 10.0), &[]),
        line((10.0, 20.0), (90.0, 20.0), &[4.0, 6.0]),
        Mark::Within(area, vec![line((10.0, 40.0), (90.0, 40.0), &[])]),
    ]);
    let picture = Picture::of(&document, 0, 254);
    let dark = |row: usize| -> Vec<usize> {
        (0..picture.width)
            .filter(|x| picture.is_dark(*x, row))
            .collect()
    };
    assert_eq!(dark(100), (100..900).collect::<Vec<_>>());
    assert!(dark(90).is_empty() && dark(110).is_empty());
    let dashed: Vec<usize> = (100..900).filter(|x| (x - 100) % 100 < 40).collect();
    assert_eq!(dark(200), dashed);
    assert_eq!(
        dark(400),
        (100..500).collect::<Vec<_>>(),
        "cut off at its area"
    );
}

/// The sides of the lot, looked up in the window of the plan: dark on the line for most of their length (labels
/// and what lies over it cover some), bare paper beside it.
#[test]
fn the_lot_of_a_plan_is_painted_where_the_scale_says() {
    let job = demo("level-suburban");
    let document = sheet(&job, &SheetWish::new(SheetKind::Permit)).unwrap();
    let window = document.window.as_ref().unwrap();
    let picture = Picture::of(&document, 0, 254);
    let dark_near = |p: Point| {
        let at = window.place(p);
        let near = |c: f64| {
            let c = (c * 10.0) as usize;
            c - 2..=c + 2
        };
        near(at.y).any(|y| near(at.x).any(|x| picture.is_dark(x, y)))
    };
    let (mut on, mut all) = (0, 0);
    for side in &job.site.lot().lot.sides {
        let (from, to) = (side.segment.from(), side.segment.to());
        for k in 1..100 {
            let way: Vector = to - from;
            all += 1;
            on += usize::from(dark_near(from + way * (f64::from(k) / 100.0)));
        }
    }
    assert!(on * 10 > all * 6, "{on} of {all}");
}

#[test]
fn no_page_is_bare_and_letters_are_painted() {
    for name in DEMOS {
        let job = demo(name);
        for kind in SheetKind::ALL {
            let Some(document) = sheet(&job, &SheetWish::new(kind)) else {
                continue;
            };
            for page in 0..document.pages.len() {
                let inked = Picture::of(&document, page, 40).inked();
                assert!(
                    (0.005..0.9).contains(&inked),
                    "{name} {kind:?} {page}: {inked}"
                );
            }
        }
    }
    let wanted = SheetWish {
        language: Language::Spanish,
        ..SheetWish::new(SheetKind::Home)
    };
    let document = sheet(&demo("level-suburban"), &wanted).unwrap();
    let picture = Picture::of(&document, 0, 254);
    for text in document
        .texts(0)
        .iter()
        .filter(|it| !it.halo && it.turn == 0.0)
    {
        let (left, base) = ((text.at.x * 10.0) as usize, (text.at.y * 10.0) as usize);
        let (right, high) = ((text.length() * 10.0) as usize, (text.size * 7.0) as usize);
        let paper = picture.dot(left.saturating_sub(2), base);
        let painted =
            (base - high..base).any(|y| (left..left + right).any(|x| picture.dot(x, y) != paper));
        assert!(painted, "{}", text.words);
    }
}

#[test]
fn what_is_too_large_is_said_so() {
    let job = demo("level-suburban");
    let wanted = SheetWish {
        paper: Some(Paper::ArchD),
        ..SheetWish::new(SheetKind::Permit)
    };
    let document = sheet(&job, &wanted).unwrap();
    let fault = png::of(&document, 0, 1200).unwrap().unwrap_err();
    assert_eq!(fault.code, "picture-too-large");
    assert!(png::of(&document, 9, 100).is_none());
}
