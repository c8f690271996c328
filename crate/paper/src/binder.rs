//! Pages as they fill: each with its frame and title block, put round the contents at the end, when it is known how many
//! there are.

use core::cell::Cell;

use batterboard_core::geom::Point;

use crate::flow::{Flow, Poured};
use crate::job::{Job, SheetWish};
use crate::mark::{Area, Attachment, Color, Document, Ink, Mark, Page, Role, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::plan::Window;
use crate::revision;
use crate::scale::Scale;

/// From the edge of the paper to the frame, millimeters: what office printers cannot print on is less.
pub const MARGIN: f64 = 10.0;
/// From the frame to what stands in it, millimeters.
pub const INSIDE: f64 = 4.0;
/// Height of the title block, millimeters.
const BLOCK: f64 = 22.0;
/// Between columns, millimeters.
const GUTTER: f64 = 6.0;
/// The least width of a column of tables, millimeters.
const TABLE: f64 = 128.0;

/// What every sheet says at its foot.
const CAUTION: (&str, &str) = (
    "Planning aid, not a survey. Call the utility-locating service before anyone digs. Local codes, the survey and \
     licensed practice come before this sheet.",
    "Ayuda para planear, no es un levantamiento. Llame al servicio que marca las líneas enterradas antes de excavar. Los \
     códigos locales, el levantamiento y los profesionales con licencia están antes que esta hoja.",
);

/// Pages of one size.
pub struct Binder<'a> {
    job: &'a Job,
    wanted: &'a SheetWish,
    /// Width of the paper, millimeters.
    pub width: f64,
    /// Height of the paper.
    pub height: f64,
    /// What the scale of a page says, for those that have one.
    scales: Vec<Option<Scale>>,
    /// Where the plan is on the first page.
    window: Option<Window>,
    pages: Vec<Pen>,
    /// How many flows and figures there are: each numbers its elements from another number on.
    parts: Cell<u32>,
}

impl<'a> Binder<'a> {
    /// No page yet, of a paper that lies so wide and so high.
    pub const fn new(job: &'a Job, wanted: &'a SheetWish, (width, height): (f64, f64)) -> Self {
        Self {
            job,
            wanted,
            width,
            height,
            scales: Vec::new(),
            window: None,
            pages: Vec::new(),
            parts: Cell::new(0),
        }
    }

    /// Where the contents of a page stand.
    pub fn body(&self) -> Area {
        let frame = self.frame();
        Area {
            height: frame.height - self.block_height() * self.lettering(),
            ..frame
        }
        .inset(INSIDE)
    }

    /// How many times as large as usual text is on this paper.
    pub fn lettering(&self) -> f64 {
        self.wanted.paper(self.job).lettering()
    }

    /// Nothing yet, for columns of a width, its text as large as this paper has it.
    pub fn flow(&self, width: f64) -> Flow {
        Flow::lettered(width, self.lettering()).numbered(self.number())
    }

    /// A number from which a part of the document counts its elements.
    fn number(&self) -> u32 {
        self.parts.set(self.parts.get() + 1);
        self.parts.get() << 16
    }

    /// Marks as a figure that shows something.
    pub fn figure(&self, shows: String, marks: Vec<Mark>) -> Mark {
        Mark::Element(Role::Figure(shows), self.number(), marks)
    }

    fn frame(&self) -> Area {
        Area {
            x: MARGIN,
            y: MARGIN,
            width: self.width - 2.0 * MARGIN,
            height: self.height - 2.0 * MARGIN,
        }
    }

    /// The frame as its text meets it: what is laid out in it grows afterwards.
    fn text_frame(&self) -> Area {
        self.frame().grown(1.0 / self.lettering())
    }

    fn caution(&self) -> Vec<String> {
        let language = self.wanted.language;
        let text = language.say(CAUTION.0, CAUTION.1);
        let style = caution_style();
        style
            .face
            .wrapped(text, style.size(), self.text_frame().width - 2.0 * INSIDE)
    }

    /// Height of the title block with the caution below it, before it grows.
    fn block_height(&self) -> f64 {
        let lines = u32::try_from(self.caution().len()).unwrap_or(1);
        BLOCK + 1.6 + f64::from(lines) * caution_style().leading()
    }

    /// How many pages there are.
    pub fn len(&self) -> usize {
        self.pages.len()
    }

    /// The pen of a page; pages up to it are begun.
    pub fn page(&mut self, index: usize) -> &mut Pen {
        while self.pages.len() <= index {
            self.pages.push(Pen::default());
            self.scales.push(None);
        }
        let last = self.pages.len() - 1;
        // The page is there: it was begun above.
        #[allow(clippy::indexing_slicing)]
        &mut self.pages[index.min(last)]
    }

    /// Puts a plan on the first page.
    pub fn put_plan(&mut self, marks: Vec<Mark>, window: Window) {
        self.put_plan_on(0, marks, window);
    }

    /// Puts a plan on a page.
    pub fn put_plan_on(&mut self, page: usize, marks: Vec<Mark>, window: Window) {
        let title = self.wanted.kind.title(self.wanted.language);
        let shows = format!("{title}, {}", window.scale.words(self.job.system));
        let figure = self.figure(shows, marks);
        self.page(page).marks.push(figure);
        self.set_scale(page, window.scale);
        if page == 0 {
            self.window = Some(window);
        }
    }

    /// Has a page say its scale.
    pub fn set_scale(&mut self, index: usize, scale: Scale) {
        self.page(index);
        if let Some(it) = self.scales.get_mut(index) {
            *it = Some(scale);
        }
    }

    /// The columns of pages from `first` on, so many to a page.
    pub fn columns(&self, first: usize, count: usize) -> impl Fn(usize) -> (usize, Area) + use<> {
        let body = self.body();
        let count = count.max(1);
        #[allow(clippy::cast_precision_loss)] // Columns of a page.
        let many = count as f64;
        let width = (body.width - GUTTER * (many - 1.0)) / many;
        move |k| {
            #[allow(clippy::cast_precision_loss)]
            let x = body.x + (k % count) as f64 * (width + GUTTER);
            (first + k / count, Area { x, width, ..body })
        }
    }

    /// How many columns of text a page of this width has, so that its lines are read without losing the way.
    pub fn text_columns(&self) -> usize {
        let width = self.body().width / self.lettering();
        if width > 380.0 {
            4
        } else if width > 300.0 {
            3
        } else if width > 150.0 {
            2
        } else {
            1
        }
    }

    /// Pours what stands beside a plan: `side` into its column on the first page and on the pages after it, and what
    /// `main` writes for a width into the rest of the pages from the second on.
    pub fn pour_beside(
        &mut self,
        (plan, column): (Area, Area),
        side: &Flow,
        main: impl FnOnce(&mut Flow),
    ) {
        let end = self.pour(side, move |k| (k, column), 0);
        let room = if end.column == 0 { self.body() } else { plan };
        let table = TABLE * self.lettering();
        let many = ((room.width + GUTTER) / (table + GUTTER)).floor().max(1.0);
        let width = (room.width - GUTTER * (many - 1.0)) / many;
        let mut flow = self.flow(width);
        main(&mut flow);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Columns of a page.
        let many = many as usize;
        let next = move |k: usize| {
            #[allow(clippy::cast_precision_loss)]
            let x = room.x + (k % many) as f64 * (width + GUTTER);
            (1 + k / many, Area { x, width, ..room })
        };
        if !flow.is_empty() {
            self.pour(&flow, next, 0);
        }
    }

    /// The width of a column where a page has so many.
    pub fn column_width(&self, count: usize) -> f64 {
        self.columns(0, count)(0).1.width
    }

    /// Pours a flow into columns, beginning with the column `first`.
    pub fn pour(
        &mut self,
        flow: &Flow,
        column: impl Fn(usize) -> (usize, Area),
        first: usize,
    ) -> Poured {
        let (marks, end) = flow.pour(column, first);
        for (page, marks) in marks {
            self.page(page).marks.extend(marks);
        }
        end
    }

    /// The document: frames and title blocks round everything, the site file with it.
    pub fn document(mut self) -> Document {
        let count = self.pages.len();
        let pages = core::mem::take(&mut self.pages);
        let pages = pages.into_iter().enumerate().map(|(index, contents)| {
            let mut pen = Pen::default();
            pen.marks.extend(contents.marks);
            self.frame_page(&mut pen, index, count);
            Page {
                width: self.width,
                height: self.height,
                marks: pen.marks,
            }
        });
        let language = self.wanted.language;
        let pages = pages.collect();
        let kind = self.wanted.kind.title(language);
        document((self.job, self.wanted), kind, self.window, pages)
    }

    fn frame_page(&self, pen: &mut Pen, index: usize, count: usize) {
        let heavy = Stroke::full(Color::BLACK, 0.5);
        pen.rectangle(self.frame(), Ink::line(heavy.clone()));
        let mut foot = Pen::default();
        self.foot(&mut foot, heavy, (index, count));
        // The foot of the first page is read out, that of the others says the same.
        if index > 0 {
            foot.told(Role::Ornament, 0);
        }
        let lettering = self.lettering();
        pen.marks
            .extend(foot.marks.iter().map(|mark| mark.grown(lettering)));
    }

    /// The title block and the caution below it, before they grow.
    fn foot(&self, pen: &mut Pen, heavy: Stroke, place: (usize, usize)) {
        let frame = self.text_frame();
        let top = frame.bottom() - self.block_height();
        let level = |y: f64| [Point::new(frame.x, y), Point::new(frame.right(), y)];
        pen.path(level(top), false, Ink::line(heavy));
        let foot = top + BLOCK;
        pen.path(
            level(foot),
            false,
            Ink::line(Stroke::full(Color::RULE, 0.2)),
        );
        let style = caution_style();
        for (i, line) in (0_u32..).zip(&self.caution()) {
            let y = foot + 0.8 + style.size() + f64::from(i) * style.leading();
            pen.text(Point::new(frame.x + INSIDE, y), Lean::Left, line, style);
        }
        self.title_block(
            pen,
            Area {
                x: frame.x,
                y: top,
                width: frame.width,
                height: BLOCK,
            },
            place,
        );
    }

    /// Firm, job and sheet, what the sheet is of, and the code that matches paper to file.
    fn title_block(&self, pen: &mut Pen, block: Area, (index, count): (usize, usize)) {
        let language = self.wanted.language;
        let code_side = BLOCK - 2.0;
        let facts_width = 46.0_f64.min(block.width * 0.24);
        let right = block.right();
        let code_area = Area {
            x: right - BLOCK + 1.0,
            y: block.y + 1.0,
            width: code_side,
            height: code_side,
        };
        let text = format!("{} | {} | batterboard", self.job.name(), self.job.revision);
        pen.marks.extend(revision::code(&text, code_area));
        let facts_x = right - BLOCK - facts_width;
        let upright = |pen: &mut Pen, x: f64| {
            let ends = [Point::new(x, block.y), Point::new(x, block.bottom())];
            pen.path(ends, false, Ink::line(Stroke::full(Color::RULE, 0.2)));
        };
        upright(pen, right - BLOCK);
        upright(pen, facts_x);
        let scale = self.scales.get(index).copied().flatten();
        let scale = scale.map_or_else(|| "–".to_owned(), |it| it.words(self.job.system));
        let day = self
            .wanted
            .day
            .clone()
            .unwrap_or_else(|| "____________".to_owned());
        let sheet = format!("{} / {count}", index + 1);
        let facts = [
            (language.say("Scale", "Escala"), scale),
            (language.say("Date", "Fecha"), day),
            (
                language.say("Revision", "Revisión"),
                self.job.revision.clone(),
            ),
            (language.say("Sheet", "Hoja"), sheet),
        ];
        let label = Style::plain(6.5).in_color(Color::GRAY);
        for (i, (name, value)) in (0_u32..).zip(&facts) {
            let y = block.y + 4.8 + f64::from(i) * 4.8;
            pen.text(Point::new(facts_x + 2.0, y), Lean::Left, name, label);
            let room = facts_width - 18.0;
            let style = fitted(Style::heavy(7.5), value, room);
            pen.text(Point::new(facts_x + 16.0, y), Lean::Left, value, style);
        }
        // The rest is shared by the firm's own lines and the names of sheet and job.
        let (firm, _) = self.job.firm();
        let room = facts_x - block.x - 2.0 * INSIDE;
        let firm_width = if firm.is_empty() { 0.0 } else { room * 0.42 };
        for (i, line) in (0_u32..).zip(firm.iter().take(5)) {
            let style = if i == 0 {
                Style::heavy(9.0)
            } else {
                Style::plain(7.0)
            };
            let style = fitted(style, line, firm_width - 3.0);
            let y = block.y + 5.2 + f64::from(i) * 3.7;
            pen.text(Point::new(block.x + INSIDE, y), Lean::Left, line, style);
        }
        let x = block.x + INSIDE + firm_width;
        if firm_width > 0.0 {
            upright(pen, x - 1.5);
        }
        let room = facts_x - x - 2.0;
        let title = self.wanted.kind.title(language);
        let mut named = Pen::default();
        named.text(
            Point::new(x + 1.0, block.y + 6.6),
            Lean::Left,
            title,
            fitted(Style::heavy(13.0), title, room),
        );
        named.told(Role::Title, 0);
        pen.marks.extend(named.marks);
        let mut y = block.y + 11.4;
        let gray = Style::plain(6.5).in_color(Color::GRAY);
        let note = self.job.site.site().note.as_str();
        for (text, style, most, leading) in [
            (self.job.name(), Style::heavy(9.0), 1, 3.9),
            (note, gray, 2, gray.leading()),
        ] {
            for line in first_lines(text, style, room, most) {
                let style = fitted(style, &line, room);
                pen.text(Point::new(x + 1.0, y), Lean::Left, &line, style);
                y += leading;
            }
        }
    }
}

/// The first lines of a text, so many at most; where there are more the last says so.
fn first_lines(text: &str, style: Style, room: f64, most: usize) -> Vec<String> {
    let mut lines = style.face.wrapped(text, style.size(), room);
    let more = lines.len() > most;
    lines.truncate(most);
    if let Some(last) = lines.last_mut().filter(|_| more) {
        last.push_str(" …");
    }
    lines
}

const fn caution_style() -> Style {
    Style::plain(6.5)
}

/// A style small enough for a text to fit, down to a third of its size.
fn fitted(style: Style, text: &str, room: f64) -> Style {
    let length = style.length(text);
    let part = if length > room {
        (room / length).max(0.35)
    } else {
        1.0
    };
    Style {
        points: style.points * part,
        ..style
    }
}

/// A document of a job with its site file inside.
pub fn document(
    (job, wanted): (&Job, &SheetWish),
    kind: &str,
    window: Option<Window>,
    pages: Vec<Page>,
) -> Document {
    let language = wanted.language;
    Document {
        title: format!("{kind}: {}", job.name()),
        subject: format!(
            "{} {}, batterboard {}",
            language.say("revision", "revisión"),
            job.revision,
            env!("CARGO_PKG_VERSION")
        ),
        language: language.tag(),
        pages,
        window,
        attachments: vec![Attachment {
            name: "site.json".to_owned(),
            kind: "application/json",
            what: language
                .say(
                    "The site that this sheet was made from; the planner opens it",
                    "El sitio de esta hoja; el programa lo abre",
                )
                .to_owned(),
            bytes: job.file.clone().into_bytes(),
        }],
    }
}
