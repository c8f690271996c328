//! A page as an SVG (SVG 2): one user unit is a millimeter of paper, its text is text, and the faces are inside.

use std::fmt::Write as _;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use batterboard_core::geom::Point;

use crate::face::Face;
use crate::mark::{Area, Color, Document, Ink, Mark, Outline, Page, Photo, Step, Text};

/// Width of the rim of paper round text, as a part of its size.
pub(crate) const HALO: f64 = 0.28;

/// A page of a document; `None` where there is no such page.
pub fn of(document: &Document, page: usize) -> Option<String> {
    let sheet = document.pages.get(page)?;
    let mut out = Writer::default();
    out.head(document, sheet);
    sheet.marks.iter().for_each(|mark| out.mark(mark));
    out.0.push_str("</svg>\n");
    Some(out.0)
}

#[derive(Default)]
struct Writer(String, usize);

impl Writer {
    fn put(&mut self, text: core::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = self.0.write_fmt(text);
    }

    fn head(&mut self, document: &Document, page: &Page) {
        let (width, height) = (number(page.width), number(page.height));
        self.put(format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" \
             viewBox=\"0 0 {width} {height}\" xml:lang=\"{}\" role=\"img\">\n<title>{}</title>\n<style>",
            document.language,
            escaped(&document.title),
        ));
        for face in Face::ALL {
            self.put(format_args!(
                "@font-face{{font-family:\"{0}\";src:url(data:font/ttf;base64,{1})}}.{2}{{font-family:\"{0}\",sans-serif}}",
                face.name(),
                STANDARD.encode(face.bytes()),
                class(face),
            ));
        }
        self.put(format_args!(
            "text{{white-space:pre}}</style>\n<rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>\n"
        ));
    }

    fn mark(&mut self, mark: &Mark) {
        match mark {
            Mark::Shape(outlines, ink) => self.shape(outlines, ink),
            Mark::Text(text) => self.text(text),
            Mark::Photo(area, photo) => self.photo(area, photo),
            Mark::Within(area, marks) => self.within(area, marks),
            Mark::Element(_, _, marks) => marks.iter().for_each(|mark| self.mark(mark)),
        }
    }

    fn within(&mut self, area: &Area, marks: &[Mark]) {
        self.1 += 1;
        let id = self.1;
        self.put(format_args!(
            "<clipPath id=\"c{id}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath><g clip-path=\"url(#c{id})\">\n",
            number(area.x),
            number(area.y),
            number(area.width),
            number(area.height),
        ));
        marks.iter().for_each(|mark| self.mark(mark));
        self.0.push_str("</g>\n");
    }

    fn photo(&mut self, area: &Area, photo: &Photo) {
        self.put(format_args!(
            "<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" preserveAspectRatio=\"none\" \
             href=\"data:image/jpeg;base64,{}\"/>\n",
            number(area.x),
            number(area.y),
            number(area.width),
            number(area.height),
            STANDARD.encode(&photo.bytes),
        ));
    }

    fn shape(&mut self, outlines: &[Outline], ink: &Ink) {
        if outlines.is_empty() || (ink.fill.is_none() && ink.stroke.is_none()) {
            return;
        }
        self.0.push_str("<path d=\"");
        for outline in outlines {
            self.put(format_args!("M{}", place(outline.from)));
            for step in &outline.steps {
                match *step {
                    Step::Line(p) => self.put(format_args!("L{}", place(p))),
                    Step::Curve(a, b, p) => {
                        self.put(format_args!("C{} {} {}", place(a), place(b), place(p)));
                    }
                }
            }
            if outline.closed {
                self.0.push('Z');
            }
        }
        self.0.push('"');
        match ink.fill {
            Some(fill) => self.put(format_args!(
                " fill=\"{}\" fill-rule=\"evenodd\"",
                hex(fill)
            )),
            None => self.0.push_str(" fill=\"none\""),
        }
        if let Some(stroke) = &ink.stroke {
            self.put(format_args!(
                " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\"",
                hex(stroke.color),
                number(stroke.width)
            ));
            if !stroke.dash.is_empty() {
                let dash: Vec<String> = stroke.dash.iter().map(|it| number(*it)).collect();
                self.put(format_args!(" stroke-dasharray=\"{}\"", dash.join(" ")));
            }
        }
        self.0.push_str("/>\n");
    }

    fn text(&mut self, text: &Text) {
        self.put(format_args!(
            "<text class=\"{}\" x=\"{}\" y=\"{}\" font-size=\"{}\" fill=\"{}\"",
            class(text.face),
            number(text.at.x),
            number(text.at.y),
            number(text.size),
            hex(text.color),
        ));
        if text.turn != 0.0 {
            self.put(format_args!(
                " transform=\"rotate({} {})\"",
                number(text.turn.to_degrees()),
                place(text.at)
            ));
        }
        if text.halo {
            self.put(format_args!(
                " stroke=\"#fff\" stroke-width=\"{}\" stroke-linejoin=\"round\" paint-order=\"stroke\"",
                number(text.size * HALO)
            ));
        }
        self.put(format_args!(">{}</text>\n", escaped(&text.words)));
    }
}

fn class(face: Face) -> &'static str {
    match face {
        Face::Regular => "r",
        Face::SemiBold => "b",
    }
}

fn place(p: Point) -> String {
    format!("{} {}", number(p.x), number(p.y))
}

/// A number to a thousandth, without needless zeros.
fn number(value: f64) -> String {
    let rounded = (value * 1000.0).round() / 1000.0;
    // Never a negative zero.
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

fn hex(Color(r, g, b): Color) -> String {
    format!("#{r:02x}{g:02x}{b:02x}")
}

/// Text as XML has it; what XML cannot hold is left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() && !matches!(c, '\t' | '\n' | '\r') => {}
            c => out.push(c),
        }
    }
    out
}
