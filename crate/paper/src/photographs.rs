//! The part "Photographs" of the record: a small plan with numbered pins, and the photographs in a grid, each with its
//! number, the way it looks, the stage of the work, when it was taken and its note.

use std::sync::Arc;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use batterboard_core::drawing::{Item, Layer};
use batterboard_core::geom::{Point, Vector, region};
use batterboard_core::math::wrap_turn;
use batterboard_core::site::{FeatureKind, Photograph, Stage};
use batterboard_core::units::nearest_eighth;

use crate::binder::Binder;
use crate::flow::{Flow, SMALL};
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::mark::{Area, Color, Ink, Mark, Photo, Role, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::pins;
use crate::plan::{self, Window};
use crate::scale::Scale;
use crate::site_plan;
use crate::words::Language;

/// How much of the first page the plan has.
const PLAN: f64 = 0.38;
/// Room round the lot for pins, millimeters.
const ROUND: f64 = 5.0;
/// The least width of a photograph, and the most of its height to its width, as its text meets them.
const LEAST: f64 = 56.0;
const TALLEST: f64 = 0.8;
/// Between two of a row, and round a caption, millimeters.
const BETWEEN: f64 = 5.0;
const CAPTION: f64 = 1.0;
/// The most lines of a note.
const MOST_LINES: usize = 6;

const NUMBER: Style = Style::heavy(8.0);
const WORDS: Style = Style::plain(7.5);

/// Adds the part to a sheet, from a page on; nothing without photographs.
pub fn put(binder: &mut Binder<'_>, job: &Job, wanted: &SheetWish, page: usize) {
    let photographs = job.site.site().photographs.as_slice();
    if photographs.is_empty() {
        return;
    }
    let body = binder.body();
    let area = Area {
        height: body.height * PLAN,
        ..body
    };
    // Where the sheet has another plan, a scale or a middle that was asked for is meant for that.
    let asked = (page == 0).then_some(wanted);
    let (low, high) = extent(job, photographs);
    let (span, room) = (high - low, area.inset(ROUND));
    let fitting = Scale::fitting(job.system, (span.x, span.y), (room.width, room.height));
    let window = Window {
        area,
        centre: asked.and_then(|it| it.centre).unwrap_or(low.midpoint(high)),
        scale: asked.and_then(|it| it.scale).unwrap_or(fitting),
        lettering: binder.lettering(),
    };
    let mut drawn = drawing(job, wanted, &window);
    let mut pen = Pen::default();
    pins::put(&mut pen, &window, photographs);
    drawn.push(Mark::Within(window.area, pen.marks));
    binder.put_plan_on(page, drawn, window);

    let mut flow = binder.flow(binder.column_width(1));
    let language = wanted.language;
    flow.heading(language.say("Photographs", "Fotografías"));
    flow.paragraph(
        language.say(
            "Each number stands on the plan where the photograph was taken; its wedge points the way it looks. A photograph is no survey: nothing is measured from it.",
            "Cada número está en el plano donde se tomó la fotografía; su cuña apunta hacia donde mira. Una fotografía no es un levantamiento: nada se mide en ella.",
        ),
        SMALL,
    );
    grid(&mut flow, photographs, language);
    let under = Area {
        y: area.bottom() + 2.0,
        height: body.height - area.height - 2.0,
        ..body
    };
    let more = binder.columns(page + 1, 1);
    binder.pour(
        &flow,
        move |k| if k == 0 { (page, under) } else { more(k - 1) },
        0,
    );
}

/// The corners of the lot, the work and every place where a photograph was taken.
fn extent(job: &Job, photographs: &[Photograph]) -> (Point, Point) {
    let (low, high) = site_plan::extent(job);
    let places = photographs.iter().map(|it| it.at);
    region::bounds([low, high].into_iter().chain(places)).unwrap_or((low, high))
}

/// What a place is known by on the lot, without lettering.
fn drawing(job: &Job, wanted: &SheetWish, window: &Window) -> Vec<Mark> {
    let known = |item: &Item, layer: Layer| {
        let is_line = !matches!(item, Item::Label { .. } | Item::Measured { .. });
        let is_known = matches!(
            layer,
            Layer::Lot
                | Layer::LotLine
                | Layer::Deck
                | Layer::Coping
                | Layer::Water { .. }
                | Layer::DigEdge
                | Layer::Feature(
                    FeatureKind::House
                        | FeatureKind::Outbuilding
                        | FeatureKind::Wall
                        | FeatureKind::Fence
                        | FeatureKind::Driveway
                        | FeatureKind::Walk
                        | FeatureKind::Tree
                        | FeatureKind::StreetEdge
                )
        );
        is_line && is_known
    };
    let drawing = site_plan::drawing(job, wanted, known);
    plan::draw(&drawing, window, Palette::Drafting, &[]).marks
}

/// The photographs in rows.
fn grid(flow: &mut Flow, photographs: &[Photograph], language: Language) {
    let width = flow.text_width();
    let many = ((width + BETWEEN) / (LEAST + BETWEEN)).floor().max(1.0);
    let across = (width - BETWEEN * (many - 1.0)) / many;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Photographs of a row.
    let many = many as usize;
    let numbered: Vec<(usize, &Photograph)> = photographs.iter().enumerate().collect();
    for row in numbered.chunks(many) {
        let cells: Vec<Cell> = row
            .iter()
            .map(|(index, it)| Cell::of(index + 1, it, across, language))
            .collect();
        // Captions of a row begin at one height.
        let tall = cells.iter().map(|it| it.high).fold(0.0, f64::max);
        let text = cells
            .iter()
            .map(|it| it.lines.len())
            .max()
            .unwrap_or_default();
        let lines = f64::from(u32::try_from(text).unwrap_or_default());
        let height = tall + CAPTION + lines * WORDS.leading() + 1.0;
        let mut marks = Vec::new();
        for (k, cell) in (0_u32..).zip(&cells) {
            let x = f64::from(k) * (across + BETWEEN);
            let [shown, told] = [flow.element(), flow.element()];
            marks.extend(cell.marks((shown, told), tall, Vector::new(x, 0.0)));
        }
        flow.whole(height, marks);
    }
}

/// A photograph with what is said of it.
struct Cell {
    photo: Option<Arc<Photo>>,
    /// How wide and how high it is shown, millimeters.
    wide: f64,
    high: f64,
    /// What is read out in its place.
    alternative: String,
    number: String,
    /// The lines under it; the first stands beside its number.
    lines: Vec<String>,
}

impl Cell {
    fn of(number: usize, it: &Photograph, across: f64, language: Language) -> Self {
        let share = f64::from(it.height) / f64::from(it.width.max(1));
        let high = across * share.min(TALLEST);
        let number = format!("{number}.");
        let head = head(it, language);
        let indent = NUMBER.length(&number) + 1.2;
        let mut lines = wrapped(&head, across - indent);
        let mut note = wrapped(&it.note, across);
        if note.len() > MOST_LINES {
            note.truncate(MOST_LINES);
            if let Some(last) = note.last_mut() {
                last.push_str(" …");
            }
        }
        let stands = language.say("Photograph", "Fotografía");
        let said = [head.as_str(), it.note.as_str()];
        let said: Vec<&str> = said.into_iter().filter(|it| !it.is_empty()).collect();
        lines.extend(note);
        Self {
            photo: photo(it),
            wide: high / share,
            high,
            alternative: format!("{stands} {number} {}", said.join(". ")),
            number,
            lines,
        }
    }

    fn marks(&self, (shown, told): (u32, u32), tall: f64, by: Vector) -> Vec<Mark> {
        let area = Area {
            x: 0.0,
            y: tall - self.high,
            width: self.wide,
            height: self.high,
        };
        let mut seen = Pen::default();
        match &self.photo {
            Some(photo) => seen.marks.push(Mark::Photo(area, Arc::clone(photo))),
            None => seen.rectangle(area, Ink::filled(Color::RULE)),
        }
        seen.rectangle(area, Ink::line(Stroke::full(Color::GRAY, 0.15)));
        seen.told(Role::Figure(self.alternative.clone()), shown);
        let mut words = Pen::default();
        let mut y = tall + CAPTION + WORDS.size();
        words.text(Point::new(0.0, y), Lean::Left, &self.number, NUMBER);
        let indent = NUMBER.length(&self.number) + 1.2;
        // What stands beside the number is broken for less room.
        let mut x = indent;
        for (k, line) in self.lines.iter().enumerate() {
            if k > 0 {
                x = 0.0;
            }
            words.text(Point::new(x, y), Lean::Left, line, WORDS);
            y += WORDS.leading();
        }
        words.told(Role::Paragraph, told);
        let marks = seen.marks.iter().chain(&words.marks);
        marks.map(|mark| mark.moved(by)).collect()
    }
}

fn wrapped(text: &str, room: f64) -> Vec<String> {
    if text.trim().is_empty() {
        return Vec::new();
    }
    WORDS.face.wrapped(text, WORDS.size(), room)
}

/// Direction, stage and time in one line.
fn head(it: &Photograph, language: Language) -> String {
    let looks = it.bearing.map_or_else(
        || {
            language
                .say("direction not entered", "dirección no anotada")
                .to_owned()
        },
        |bearing| looking(bearing, language).to_owned(),
    );
    let stage = it.stage.map_or("", |it| stage(it, language));
    let parts = [looks.as_str(), stage, it.when.as_str()];
    let parts: Vec<&str> = parts.into_iter().filter(|it| !it.is_empty()).collect();
    parts.join(" · ")
}

/// Which way a photograph looks, in words.
fn looking(bearing: f64, language: Language) -> &'static str {
    let eighth = nearest_eighth(wrap_turn(bearing));
    let (english, spanish) = match eighth {
        "northeast" => ("looking northeast", "mira al noreste"),
        "east" => ("looking east", "mira al este"),
        "southeast" => ("looking southeast", "mira al sureste"),
        "south" => ("looking south", "mira al sur"),
        "southwest" => ("looking southwest", "mira al suroeste"),
        "west" => ("looking west", "mira al oeste"),
        "northwest" => ("looking northwest", "mira al noroeste"),
        _ => ("looking north", "mira al norte"),
    };
    language.say(english, spanish)
}

/// What a stage of the work is called under a photograph.
const fn stage(stage: Stage, language: Language) -> &'static str {
    let (english, spanish) = match stage {
        Stage::Lot => ("before the work", "antes de la obra"),
        Stage::Marked => ("marked out", "trazado"),
        Stage::Dug => ("dug", "excavado"),
        Stage::Bed => ("base laid", "base tendida"),
        Stage::Set => ("shell set", "casco colocado"),
        Stage::Backfilled => ("backfilled", "rellenado"),
        Stage::Decked => ("decked", "con piso"),
        Stage::Done => ("done", "terminado"),
    };
    language.say(english, spanish)
}

/// A photograph as paper takes it; none where its data cannot be read, which validation bars.
fn photo(it: &Photograph) -> Option<Arc<Photo>> {
    let bytes = STANDARD.decode(it.data.as_bytes()).ok()?;
    Some(Arc::new(Photo {
        width: it.width,
        height: it.height,
        gray: it.is_gray(),
        bytes,
    }))
}
