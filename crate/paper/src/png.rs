//! A page as a picture (PNG): the same marks as in the files, painted in dots of its own size.
//!
//! Letters are painted from the outlines of their face, so that no font has to be there. The picture says how large
//! its dots are, so that it prints at the size of the sheet. Only the command line asks for it: the browser paints
//! an SVG by itself.

use batterboard_core::finding::Finding;
use batterboard_core::finding::said;
use batterboard_core::geom::Point;
use batterboard_core::units::constants::INCH;
use png::{BitDepth, ColorType, Encoder, PixelDimensions, Unit};
use tiny_skia::{
    FillRule, FilterQuality, IntSize, LineJoin, Mask, Paint, Path, PathBuilder, Pixmap,
    PixmapPaint, Rect, Stroke as Pencil, StrokeDash, Transform,
};
use ttf_parser::{GlyphId, OutlineBuilder};
use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;

use crate::face::Face;
use crate::mark::{Area, Color, Document, Ink, Mark, Outline, Photo, Step, Stroke, Text};
use crate::svg::HALO;

/// The resolution that a picture has when nobody says, dots per inch: sharp on a screen and on a printer at home.
pub const USUAL_DOTS: u32 = 200;

/// The resolutions that can be asked for, dots per inch.
pub const DOTS: core::ops::RangeInclusive<u32> = 20..=1200;

/// The most dots of a picture: 24 by 36 in at 300 dots per inch, and something over.
const MOST_DOTS: f64 = 1e8;

/// Millimeters of an inch.
const INCH_MM: f64 = INCH * 1000.0;

/// A page of a document at a resolution, dots per inch; `None` where there is no such page.
///
/// # Errors
/// When it would have more dots than a picture is made with.
pub fn of(document: &Document, page: usize, dots: u32) -> Option<Result<Vec<u8>, Finding>> {
    let page = document.pages.get(page)?;
    let scale = f64::from(dots) / INCH_MM;
    let size = [page.width, page.height].map(|side| (side * scale).round());
    let [width, height] = size;
    let fits = width * height <= MOST_DOTS;
    let map = fits
        .then(|| Pixmap::new(width as u32, height as u32))
        .flatten();
    let Some(mut map) = map else {
        return Some(Err(Finding::fault(
            "picture-too-large",
            said!(
                "At {dots} dots per inch this sheet is a picture of {width} by {height} dots, more than are painted.",
                dots = dots.to_string(),
                width = width.to_string(),
                height = height.to_string(),
            ),
            "Take fewer dots per inch, a smaller paper, or write a PDF.",
        )));
    };
    map.fill(tiny_skia::Color::WHITE);
    let mut painter = Painter {
        map,
        transform: Transform::from_scale(single(scale), single(scale)),
    };
    painter.marks(&page.marks, None);
    Some(Ok(encoded(&painter.map, dots)))
}

struct Painter {
    map: Pixmap,
    /// From millimeters of paper to dots.
    transform: Transform,
}

impl Painter {
    /// Marks, of which only what a mask holds is seen.
    fn marks(&mut self, marks: &[Mark], mask: Option<&Mask>) {
        for mark in marks {
            match mark {
                Mark::Shape(outlines, ink) => self.shape(outlines, ink, mask),
                Mark::Text(text) => self.text(text, mask),
                Mark::Photo(area, photo) => self.photo(area, photo, mask),
                Mark::Element(_, _, marks) => self.marks(marks, mask),
                Mark::Within(area, marks) => {
                    let within = self.within(area, mask);
                    self.marks(marks, within.as_ref().or(mask));
                }
            }
        }
    }

    /// A mask that holds what lies in an area, and in another mask.
    fn within(&self, area: &Area, outer: Option<&Mask>) -> Option<Mask> {
        let [x, y, width, height] = [area.x, area.y, area.width, area.height].map(single);
        let path = PathBuilder::from_rect(Rect::from_xywh(x, y, width, height)?);
        if let Some(outer) = outer {
            let mut mask = outer.clone();
            mask.intersect_path(&path, FillRule::Winding, true, self.transform);
            return Some(mask);
        }
        let mut mask = Mask::new(self.map.width(), self.map.height())?;
        mask.fill_path(&path, FillRule::Winding, true, self.transform);
        Some(mask)
    }

    /// A photograph; one that cannot be read leaves its place empty.
    fn photo(&mut self, area: &Area, photo: &Photo, mask: Option<&Mask>) {
        let Some(dots) = dots_of(photo) else {
            return;
        };
        let scale = |side: f64, pixels: u32| single(side / f64::from(pixels.max(1)));
        let placed = Transform::from_scale(
            scale(area.width, dots.width()),
            scale(area.height, dots.height()),
        )
        .post_translate(single(area.x), single(area.y))
        .post_concat(self.transform);
        let paint = PixmapPaint {
            quality: FilterQuality::Bicubic,
            ..PixmapPaint::default()
        };
        self.map
            .draw_pixmap(0, 0, dots.as_ref(), &paint, placed, mask);
    }

    fn shape(&mut self, outlines: &[Outline], ink: &Ink, mask: Option<&Mask>) {
        let Some(path) = path_of(outlines) else {
            return;
        };
        if let Some(fill) = ink.fill {
            let rule = FillRule::EvenOdd;
            self.map
                .fill_path(&path, &paint(fill), rule, self.transform, mask);
        }
        if let Some(stroke) = &ink.stroke {
            self.stroke(&path, stroke, self.transform, mask);
        }
    }

    fn stroke(&mut self, path: &Path, stroke: &Stroke, transform: Transform, mask: Option<&Mask>) {
        let dash = stroke.dash.iter().map(|it| single(*it));
        let pencil = Pencil {
            width: single(stroke.width),
            line_join: LineJoin::Round,
            dash: StrokeDash::new(dash.collect(), 0.0),
            ..Pencil::default()
        };
        self.map
            .stroke_path(path, &paint(stroke.color), &pencil, transform, mask);
    }

    fn text(&mut self, text: &Text, mask: Option<&Mask>) {
        let Some(path) = letters(text) else {
            return;
        };
        let at = [text.at.x, text.at.y].map(single);
        let turn = Transform::from_rotate(single(text.turn.to_degrees()));
        let transform = turn
            .post_translate(at[0], at[1])
            .post_concat(self.transform);
        if text.halo {
            let rim = Stroke::full(Color::WHITE, text.size * HALO);
            self.stroke(&path, &rim, transform, mask);
        }
        self.map.fill_path(
            &path,
            &paint(text.color),
            FillRule::Winding,
            transform,
            mask,
        );
    }
}

/// The dots of a photograph.
fn dots_of(photo: &Photo) -> Option<Pixmap> {
    let options = DecoderOptions::default().jpeg_set_out_colorspace(ColorSpace::RGBA);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(&photo.bytes), options);
    let dots = decoder.decode().ok()?;
    let (width, height) = decoder.dimensions()?;
    let side = |it: usize| u32::try_from(it).ok();
    let size = IntSize::from_wh(side(width)?, side(height)?)?;
    Pixmap::from_vec(dots, size)
}

/// Outlines as one path, millimeters of paper.
fn path_of(outlines: &[Outline]) -> Option<Path> {
    let place = |p: Point| (single(p.x), single(p.y));
    let mut path = PathBuilder::new();
    for outline in outlines {
        let (x, y) = place(outline.from);
        path.move_to(x, y);
        for step in &outline.steps {
            match *step {
                Step::Line(p) => {
                    let (x, y) = place(p);
                    path.line_to(x, y);
                }
                Step::Curve(a, b, p) => {
                    let [(ax, ay), (bx, by), (x, y)] = [a, b, p].map(place);
                    path.cubic_to(ax, ay, bx, by, x, y);
                }
            }
        }
        if outline.closed {
            path.close();
        }
    }
    path.finish()
}

/// The outlines of a text's letters, millimeters from where its base line begins.
fn letters(text: &Text) -> Option<Path> {
    let face = text.face.parsed()?;
    let mut drawn = Letters {
        path: PathBuilder::new(),
        scale: single(text.size / f64::from(face.units_per_em())),
        x: 0.0,
    };
    let mut along = 0.0;
    for letter in text.words.chars() {
        let glyph = text.face.glyph(letter);
        drawn.x = single(along * text.size);
        // A space has no outline.
        let _ = face.outline_glyph(GlyphId(glyph), &mut drawn);
        along += Face::advance(text.face, glyph);
    }
    drawn.path.finish()
}

/// Takes the outline of a letter over, y down.
struct Letters {
    path: PathBuilder,
    /// Millimeters of a unit of the face.
    scale: f32,
    /// Where the letter begins, millimeters.
    x: f32,
}

impl Letters {
    fn place(&self, x: f32, y: f32) -> (f32, f32) {
        (self.x + x * self.scale, -y * self.scale)
    }
}

impl OutlineBuilder for Letters {
    fn move_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.place(x, y);
        self.path.move_to(x, y);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.place(x, y);
        self.path.line_to(x, y);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        let ((x1, y1), (x, y)) = (self.place(x1, y1), self.place(x, y));
        self.path.quad_to(x1, y1, x, y);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let [(x1, y1), (x2, y2), (x, y)] =
            [(x1, y1), (x2, y2), (x, y)].map(|(x, y)| self.place(x, y));
        self.path.cubic_to(x1, y1, x2, y2, x, y);
    }

    fn close(&mut self) {
        self.path.close();
    }
}

fn paint(Color(r, g, b): Color) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color_rgba8(r, g, b, 255);
    paint
}

/// The picture as a file that tells how large its dots are. All inks are opaque, so it needs no transparency.
fn encoded(map: &Pixmap, dots: u32) -> Vec<u8> {
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, map.width(), map.height());
    encoder.set_color(ColorType::Rgb);
    encoder.set_depth(BitDepth::Eight);
    let per_meter = (f64::from(dots) / INCH).round() as u32;
    encoder.set_pixel_dims(Some(PixelDimensions {
        xppu: per_meter,
        yppu: per_meter,
        unit: Unit::Meter,
    }));
    let colors = map.pixels().iter();
    let colors: Vec<u8> = colors
        .flat_map(|dot| [dot.red(), dot.green(), dot.blue()])
        .collect();
    // Writing to memory cannot fail.
    if let Ok(mut writer) = encoder.write_header() {
        let _ = writer.write_image_data(&colors);
    }
    bytes
}

/// A figure as the painter takes it.
fn single(value: f64) -> f32 {
    #[allow(clippy::cast_possible_truncation)] // A hair of a dot.
    {
        value as f32
    }
}
