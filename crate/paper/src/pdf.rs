//! A document as a PDF (ISO 32000-2): its marks as they stand, its text as text, its faces embedded as far as they are
//! used, its photographs as they are, its language and title told, and its attachments inside.
//!
//! A point of PDF is 1/72 in; places are rounded to a thousandth of it. The same document gives the same bytes on
//! every machine: nothing is taken from the clock.

mod tree;

use std::collections::BTreeMap;
use std::sync::Arc;

use batterboard_core::geom::Point;
use pdf_writer::types::{
    AssociationKind, CidFontType, FontFlags, LineCapStyle, LineJoinStyle, SystemInfo,
    TextRenderingMode, UnicodeCmap,
};
use pdf_writer::{Content, Filter, Finish, Name, Pdf, Rect, Ref, Settings, Str, TextStr};
use subsetter::GlyphRemapper;

use crate::face::Face;
use crate::mark::{
    Area, Attachment, Color, Document, Ink, Mark, Outline, Page, Photo, Role, Step, Text,
};
use tree::{DOCUMENT, Tree, tag};

/// Points in a millimeter.
const POINTS: f64 = 72.0 / 25.4;

/// Width of the rim of paper round text, as a part of its size.
const HALO: f64 = 0.28;

/// How hard the bytes are packed, of 10.
const PACKED: u8 = 6;

/// The bytes of a document.
pub fn of(document: &Document) -> Vec<u8> {
    let mut ids = Ids(0);
    let (catalog, tree, info) = (ids.next(), ids.next(), ids.next());
    let mut pdf = Pdf::with_settings(Settings { pretty: false });
    let mut fonts = Fonts::default();
    for page in &document.pages {
        let texts = page.marks.iter().flat_map(Mark::texts);
        texts.for_each(|text| fonts.meet(text));
    }
    let embedded: Vec<(Face, Ref)> = (fonts.used.iter())
        .map(|(face, used)| (*face, used.write(*face, &mut pdf, &mut ids)))
        .collect();
    let photos = Photos::of(document, &mut pdf, &mut ids);
    let mut kids = Vec::new();
    let mut structure = Tree::new(document.pages.len());
    for (index, page) in document.pages.iter().enumerate() {
        let (id, content) = (ids.next(), ids.next());
        kids.push(id);
        let height = page.height * POINTS;
        let mut written = pdf.page(id);
        let sheet = Rect::new(0.0, 0.0, number(page.width * POINTS), number(height));
        written.parent(tree).media_box(sheet).contents(content);
        written.struct_parents(i32::try_from(index).unwrap_or(i32::MAX));
        let mut resources = written.resources();
        let mut faces = resources.fonts();
        for (face, id) in &embedded {
            faces.pair(Name(face.name().as_bytes()), id);
        }
        faces.finish();
        let on_page = photos.on(page);
        if !on_page.is_empty() {
            let mut objects = resources.x_objects();
            for (name, id) in on_page {
                objects.pair(Name(name.as_bytes()), id);
            }
        }
        resources.finish();
        written.finish();
        let painter = Painter::new((&fonts, &photos), &mut structure, index, height);
        let bytes = packed(&painter.page(page));
        pdf.stream(content, &bytes).filter(Filter::FlateDecode);
    }
    let count = i32::try_from(kids.len()).unwrap_or(i32::MAX);
    pdf.pages(tree).kids(kids.iter().copied()).count(count);
    let files: Vec<(&Attachment, Ref)> = (document.attachments.iter())
        .map(|it| (it, attach(&mut pdf, &mut ids, it)))
        .collect();
    let root = structure.write(&mut pdf, &mut ids, &kids);
    let mut told = pdf.catalog(catalog);
    told.pages(tree).lang(TextStr(document.language));
    told.pair(Name(b"StructTreeRoot"), root);
    told.mark_info().marked(true);
    told.viewer_preferences().display_doc_title(true);
    if !files.is_empty() {
        let mut names = told.names();
        let mut tree = names.embedded_files();
        let mut list = tree.names();
        for (file, id) in files {
            list.insert(Str(file.name.as_bytes()), id);
        }
    }
    told.finish();
    pdf.document_info(info)
        .title(TextStr(&document.title))
        .subject(TextStr(&document.subject))
        .creator(TextStr("batterboard"));
    pdf.finish()
}

/// Numbers for the objects of a file.
struct Ids(i32);

impl Ids {
    fn next(&mut self) -> Ref {
        self.0 += 1;
        Ref::new(self.0)
    }
}

/// Puts a file into the document, and gives what names it.
fn attach(pdf: &mut Pdf, ids: &mut Ids, file: &Attachment) -> Ref {
    let (named, held) = (ids.next(), ids.next());
    let bytes = packed(&file.bytes);
    let mut stream = pdf.embedded_file(held, &bytes);
    stream.filter(Filter::FlateDecode);
    stream.subtype(Name(file.kind.as_bytes()));
    stream
        .params()
        .size(i32::try_from(file.bytes.len()).unwrap_or(i32::MAX));
    stream.finish();
    let mut spec = pdf.file_spec(named);
    spec.path(Str(file.name.as_bytes()))
        .unic_file(TextStr(&file.name))
        .description(TextStr(&file.what))
        .association_kind(AssociationKind::Source)
        .embedded_file_with_unicode(held);
    spec.finish();
    named
}

/// The photographs of a document: each stands in the file once, however often it is shown.
struct Photos(Vec<(Arc<Photo>, Ref)>);

impl Photos {
    fn of(document: &Document, pdf: &mut Pdf, ids: &mut Ids) -> Self {
        let mut known = Self(Vec::new());
        let marks = document.pages.iter().flat_map(|page| &page.marks);
        for (_, photo) in marks.flat_map(Mark::photos) {
            if known.place(photo).is_none() {
                let id = ids.next();
                write_photo(pdf, id, photo);
                known.0.push((Arc::clone(photo), id));
            }
        }
        known
    }

    fn place(&self, photo: &Arc<Photo>) -> Option<usize> {
        self.0.iter().position(|(it, _)| Arc::ptr_eq(it, photo))
    }

    fn name(&self, photo: &Arc<Photo>) -> Option<String> {
        self.place(photo).map(|place| format!("P{place}"))
    }

    /// Those of a page, by their names.
    fn on(&self, page: &Page) -> BTreeMap<String, Ref> {
        let shown = page.marks.iter().flat_map(Mark::photos);
        let named = shown.filter_map(|(_, photo)| {
            let (_, id) = self.0.get(self.place(photo)?)?;
            Some((self.name(photo)?, *id))
        });
        named.collect()
    }
}

/// A photograph as an object: its bytes are taken as they stand (ISO 32000-2, 7.4.8).
fn write_photo(pdf: &mut Pdf, id: Ref, photo: &Photo) {
    let side = |pixels: u32| i32::try_from(pixels).unwrap_or(i32::MAX);
    let mut object = pdf.image_xobject(id, &photo.bytes);
    object.filter(Filter::DctDecode);
    object.width(side(photo.width)).height(side(photo.height));
    object.bits_per_component(8);
    if photo.gray {
        object.color_space().device_gray();
    } else {
        object.color_space().device_rgb();
    }
}

/// The glyphs that a document uses of each face.
#[derive(Default)]
struct Fonts {
    used: BTreeMap<Face, Used>,
}

#[derive(Default)]
struct Used {
    numbers: GlyphRemapper,
    letters: BTreeMap<u16, char>,
}

impl Fonts {
    fn meet(&mut self, text: &Text) {
        let used = self.used.entry(text.face).or_default();
        for letter in text.words.chars() {
            let glyph = used.numbers.remap(text.face.glyph(letter));
            used.letters.entry(glyph).or_insert(letter);
        }
    }

    /// A text as the numbers of its glyphs.
    fn encoded(&self, text: &Text) -> Vec<u8> {
        let numbers = self.used.get(&text.face).map(|it| &it.numbers);
        let glyph = |letter| numbers.and_then(|it| it.get(text.face.glyph(letter)));
        let glyphs = text.words.chars().map(|c| glyph(c).unwrap_or_default());
        glyphs.flat_map(u16::to_be_bytes).collect()
    }
}

impl Used {
    fn write(&self, face: Face, pdf: &mut Pdf, ids: &mut Ids) -> Ref {
        let [font, cid, descriptor, unicode, file] = [(); 5].map(|()| ids.next());
        // Its name says that it is a part of the face (ISO 32000-2, 9.9.2).
        let name = format!("BTRBRD+{}", face.name());
        let name = Name(name.as_bytes());
        let system = SystemInfo {
            registry: Str(b"Adobe"),
            ordering: Str(b"Identity"),
            supplement: 0,
        };
        pdf.type0_font(font)
            .base_font(name)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(cid)
            .to_unicode(unicode);
        let mut written = pdf.cid_font(cid);
        written
            .subtype(CidFontType::Type2)
            .base_font(name)
            .system_info(system)
            .font_descriptor(descriptor)
            .cid_to_gid_map_predefined(Name(b"Identity"));
        let widths = self.numbers.remapped_gids();
        let widths = widths.map(|glyph| number(face.advance(glyph) * 1000.0));
        written.widths().consecutive(0, widths);
        written.finish();
        let parsed = face.parsed();
        let bounds = parsed.map(ttf_parser::Face::global_bounding_box);
        let rect = bounds.map_or(Rect::new(0.0, -200.0, 1000.0, 1000.0), |it| {
            let [a, b, c, d] = [it.x_min, it.y_min, it.x_max, it.y_max].map(f32::from);
            Rect::new(a, b, c, d)
        });
        pdf.font_descriptor(descriptor)
            .name(name)
            .flags(FontFlags::NON_SYMBOLIC)
            .bbox(rect)
            .italic_angle(0.0)
            .ascent(1000.0)
            .descent(-200.0)
            .cap_height(number(Face::CAPITAL * 1000.0))
            .stem_v(if face == Face::SemiBold { 120.0 } else { 80.0 })
            .font_file2(file);
        let mut map = UnicodeCmap::new(Name(b"Custom"), system);
        for (glyph, letter) in &self.letters {
            map.pair(*glyph, *letter);
        }
        let map = packed(map.finish().as_slice());
        pdf.cmap(unicode, &map).filter(Filter::FlateDecode);
        let cut = subsetter::subset(face.bytes(), 0, &self.numbers);
        let cut = cut.unwrap_or_else(|_| face.bytes().to_vec());
        let bytes = packed(&cut);
        let mut stream = pdf.stream(file, &bytes);
        stream.filter(Filter::FlateDecode);
        stream.pair(
            Name(b"Length1"),
            i32::try_from(cut.len()).unwrap_or(i32::MAX),
        );
        stream.finish();
        font
    }
}

/// What a mark is in.
enum Within<'a> {
    Nothing,
    /// An element, by its place in the tree.
    Element(usize, &'a Role),
    /// A figure, which is one piece of content.
    Figure,
    /// Something that is not read out.
    Ornament,
}

/// A page as it is written.
struct Painter<'a> {
    fonts: &'a Fonts,
    photos: &'a Photos,
    structure: &'a mut Tree,
    /// Which page it is.
    page: usize,
    /// Whether what is painted is told to be ornament.
    ornament: bool,
    /// Height of the page, points.
    height: f64,
    content: Content,
}

impl<'a> Painter<'a> {
    fn new(
        (fonts, photos): (&'a Fonts, &'a Photos),
        structure: &'a mut Tree,
        page: usize,
        height: f64,
    ) -> Self {
        let content = Content::new();
        Self {
            fonts,
            photos,
            structure,
            page,
            ornament: false,
            height,
            content,
        }
    }

    fn page(mut self, page: &Page) -> Vec<u8> {
        self.content
            .set_line_join(LineJoinStyle::RoundJoin)
            .set_line_cap(LineCapStyle::ButtCap);
        page.marks
            .iter()
            .for_each(|mark| self.mark(mark, &Within::Nothing));
        self.end_ornament();
        self.content.finish().into_vec()
    }

    /// Where a place of the page lies, points from the lower left.
    fn place(&self, p: Point) -> (f32, f32) {
        (number(p.x * POINTS), number(self.height - p.y * POINTS))
    }

    fn mark(&mut self, mark: &Mark, within: &Within<'_>) {
        match mark {
            Mark::Shape(outlines, ink) => {
                if !matches!(within, Within::Figure) {
                    self.begin_ornament();
                }
                self.shape(outlines, ink);
            }
            Mark::Photo(area, photo) => {
                if !matches!(within, Within::Figure) {
                    self.begin_ornament();
                }
                self.photo(area, photo);
            }
            Mark::Text(text) => self.told(text, within),
            Mark::Within(area, marks) => {
                self.end_ornament();
                self.content.save_state();
                self.rectangle(area);
                self.content.clip_nonzero().end_path();
                marks.iter().for_each(|mark| self.mark(mark, within));
                self.end_ornament();
                self.content.restore_state();
            }
            Mark::Element(role, number, marks) => self.element(role, *number, marks, within),
        }
    }

    fn element(&mut self, role: &Role, number: u32, marks: &[Mark], within: &Within<'_>) {
        let parent = match within {
            Within::Nothing => DOCUMENT,
            Within::Element(node, _) => *node,
            // Nothing inside is an element of its own.
            Within::Figure | Within::Ornament => {
                marks.iter().for_each(|mark| self.mark(mark, within));
                return;
            }
        };
        match role {
            Role::Ornament => (marks.iter()).for_each(|mark| self.mark(mark, &Within::Ornament)),
            Role::Figure(_) => {
                let node = self.structure.element(parent, role, number);
                self.begin(node, role);
                (marks.iter()).for_each(|mark| self.mark(mark, &Within::Figure));
                self.content.end_marked_content();
            }
            _ => {
                let node = self.structure.element(parent, role, number);
                let within = Within::Element(node, role);
                marks.iter().for_each(|mark| self.mark(mark, &within));
            }
        }
    }

    /// A text as a piece of its element.
    fn told(&mut self, text: &Text, within: &Within<'_>) {
        let (node, role) = match within {
            Within::Figure => return self.text(text),
            Within::Ornament => {
                self.begin_ornament();
                return self.text(text);
            }
            Within::Nothing => (self.structure.paragraph(), &Role::Paragraph),
            Within::Element(node, role) => (*node, *role),
        };
        self.begin(node, role);
        self.text(text);
        self.content.end_marked_content();
    }

    /// Begins a piece of an element.
    fn begin(&mut self, node: usize, role: &Role) {
        self.end_ornament();
        let number = self.structure.content(node, self.page);
        let mut piece = self.content.begin_marked_content_with_properties(tag(role));
        piece.properties().identify(number);
    }

    fn begin_ornament(&mut self) {
        if !self.ornament {
            self.content.begin_marked_content(Name(b"Artifact"));
            self.ornament = true;
        }
    }

    fn end_ornament(&mut self) {
        if self.ornament {
            self.content.end_marked_content();
            self.ornament = false;
        }
    }

    fn photo(&mut self, area: &Area, photo: &Arc<Photo>) {
        let Some(name) = self.photos.name(photo) else {
            return;
        };
        let (left, bottom) = self.place(Point::new(area.x, area.bottom()));
        let (width, height) = (number(area.width * POINTS), number(area.height * POINTS));
        self.content.save_state();
        self.content
            .transform([width, 0.0, 0.0, height, left, bottom])
            .x_object(Name(name.as_bytes()));
        self.content.restore_state();
    }

    fn rectangle(&mut self, area: &Area) {
        let (left, bottom) = self.place(Point::new(area.x, area.bottom()));
        let (width, height) = (number(area.width * POINTS), number(area.height * POINTS));
        self.content.rect(left, bottom, width, height);
    }

    fn shape(&mut self, outlines: &[Outline], ink: &Ink) {
        if outlines.is_empty() || (ink.fill.is_none() && ink.stroke.is_none()) {
            return;
        }
        if let Some(fill) = ink.fill {
            let [r, g, b] = parts(fill);
            self.content.set_fill_rgb(r, g, b);
        }
        if let Some(stroke) = &ink.stroke {
            let [r, g, b] = parts(stroke.color);
            let dash = stroke.dash.iter().map(|it| number(it * POINTS));
            self.content
                .set_stroke_rgb(r, g, b)
                .set_line_width(number(stroke.width * POINTS))
                .set_dash_pattern(dash, 0.0);
        }
        for outline in outlines {
            let (x, y) = self.place(outline.from);
            self.content.move_to(x, y);
            for step in &outline.steps {
                match *step {
                    Step::Line(p) => {
                        let (x, y) = self.place(p);
                        self.content.line_to(x, y);
                    }
                    Step::Curve(a, b, p) => {
                        let [(ax, ay), (bx, by), (x, y)] = [a, b, p].map(|p| self.place(p));
                        self.content.cubic_to(ax, ay, bx, by, x, y);
                    }
                }
            }
            if outline.closed {
                self.content.close_path();
            }
        }
        match (ink.fill.is_some(), ink.stroke.is_some()) {
            (true, true) => self.content.fill_even_odd_and_stroke(),
            (true, false) => self.content.fill_even_odd(),
            _ => self.content.stroke(),
        };
    }

    fn text(&mut self, text: &Text) {
        let size = number(text.size * POINTS);
        let (x, y) = self.place(text.at);
        let (along, _) = text.axes();
        let (cos, sin) = (number(along.x), number(-along.y));
        let letters = self.fonts.encoded(text);
        let content = &mut self.content;
        if text.halo {
            // The rim is no text of its own: whoever reads or copies the page meets each word once.
            let mut rim = content.begin_marked_content_with_properties(Name(b"Span"));
            rim.properties().actual_text(TextStr(""));
            rim.finish();
            let [r, g, b] = parts(Color::WHITE);
            content
                .set_stroke_rgb(r, g, b)
                .set_line_width(number(text.size * HALO * POINTS))
                .set_dash_pattern([], 0.0)
                .begin_text()
                .set_font(Name(text.face.name().as_bytes()), size)
                .set_text_rendering_mode(TextRenderingMode::Stroke)
                .set_text_matrix([cos, sin, -sin, cos, x, y])
                .show(Str(&letters))
                .end_text()
                .end_marked_content();
        }
        let [r, g, b] = parts(text.color);
        content
            .set_fill_rgb(r, g, b)
            .begin_text()
            .set_font(Name(text.face.name().as_bytes()), size)
            .set_text_rendering_mode(TextRenderingMode::Fill)
            .set_text_matrix([cos, sin, -sin, cos, x, y])
            .show(Str(&letters))
            .end_text();
    }
}

fn parts(color: Color) -> [f32; 3] {
    [color.0, color.1, color.2].map(|part| number(f64::from(part) / 255.0))
}

/// A number as a file has it: to a thousandth.
fn number(value: f64) -> f32 {
    #[allow(clippy::cast_possible_truncation)] // A thousandth of a page is far above what is lost.
    {
        ((value * 1000.0).round() / 1000.0) as f32
    }
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, PACKED)
}
