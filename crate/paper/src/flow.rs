//! Text and tables one below the other, poured into columns.
//!
//! A [`Flow`] is made for columns of one width: it breaks text into lines, gives the columns of a table their widths and
//! cuts everything into pieces that stay whole. [`Flow::pour`] puts them into columns from page to page; a heading stays
//! with what follows it, and a table that goes on says its titles again.

mod grid;

use std::rc::Rc;

use batterboard_core::geom::{Point, Vector};

use crate::mark::{Area, Color, Ink, Mark, Role, Stroke};
use crate::pen::{Lean, Pen, Style};
use grid::Grid;

/// Text of the body.
pub const BODY: Style = Style::plain(8.0);
/// Cells of tables.
pub const CELL: Style = Style::plain(7.5);
/// Titles of columns.
pub const TITLE: Style = Style::heavy(7.0);
/// Headings.
pub const HEADING: Style = Style::heavy(10.0);
/// What is read second.
pub const SMALL: Style = Style::plain(7.0).in_color(Color::GRAY);

/// How far the text of an item stands from its mark, millimeters.
const INDENT: f64 = 3.4;

/// Something that stays whole.
#[derive(Debug, Clone)]
struct Piece {
    /// Room above it, unless it begins a column, millimeters.
    above: f64,
    /// Its own height, millimeters.
    height: f64,
    /// Its marks, from its upper left corner.
    marks: Vec<Mark>,
    /// Whether it stays with the next.
    with_next: bool,
    /// What is said again where it begins a column.
    titles: Option<Rc<Piece>>,
}

impl Piece {
    /// Makes its cells a row of a table.
    fn told(&mut self, table: u32, row: u32) {
        let cells = core::mem::take(&mut self.marks);
        let row = Mark::Element(Role::Row, row, cells);
        self.marks = vec![Mark::Element(Role::Table, table, vec![row])];
    }

    /// The same as ornament.
    fn bare(mut self) -> Self {
        let marks = core::mem::take(&mut self.marks);
        self.marks = vec![Mark::Element(Role::Ornament, 0, marks)];
        self
    }

    fn grown(self, by: f64) -> Self {
        if by == 1.0 {
            return self;
        }
        Self {
            above: self.above * by,
            height: self.height * by,
            marks: self.marks.iter().map(|it| it.grown(by)).collect(),
            with_next: self.with_next,
            titles: self.titles,
        }
    }
}

/// A column of a table.
#[derive(Debug, Clone)]
pub struct Column {
    title: String,
    lean: Lean,
}

impl Column {
    /// A column of words.
    pub fn words(title: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            lean: Lean::Left,
        }
    }

    /// A column of figures.
    pub fn figures(title: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            lean: Lean::Right,
        }
    }
}

/// A row of a table.
#[derive(Debug, Clone)]
pub enum Row {
    /// What the rows below it have in common.
    Group(String),
    /// Its cells.
    Cells(Vec<String>),
    /// The same, of something that needs care.
    Alarm(Vec<String>),
    /// The same, of a sum.
    Sum(Vec<String>),
}

impl Row {
    fn cells(&self) -> &[String] {
        match self {
            Self::Group(_) => &[],
            Self::Cells(cells) | Self::Alarm(cells) | Self::Sum(cells) => cells,
        }
    }

    fn style(&self) -> Style {
        match self {
            Self::Group(_) | Self::Sum(_) => Style::heavy(CELL.points),
            Self::Alarm(_) => Style::heavy(CELL.points).in_color(Color::ALARM),
            Self::Cells(_) => CELL,
        }
    }
}

/// Pieces for columns of one width.
#[derive(Debug)]
pub struct Flow {
    width: f64,
    /// How many times as large as usual its text is.
    lettering: f64,
    /// The number of its first element, and how many it has.
    elements: (u32, u32),
    pieces: Vec<Piece>,
}

impl Flow {
    /// Nothing yet, for columns of a width, millimeters.
    pub const fn new(width: f64) -> Self {
        Self::lettered(width, 1.0)
    }

    /// The same, its text so many times as large as usual.
    pub const fn lettered(width: f64, lettering: f64) -> Self {
        Self {
            width,
            lettering,
            elements: (0, 0),
            pieces: Vec::new(),
        }
    }

    /// The same, its elements numbered from a number on, so that none of another flow has it.
    #[must_use]
    pub const fn numbered(mut self, first: u32) -> Self {
        self.elements.0 = first;
        self
    }

    /// The number of a new element.
    pub fn element(&mut self) -> u32 {
        self.elements.1 += 1;
        self.elements.0 + self.elements.1
    }

    /// Their width as its text meets it: what is laid out within it grows afterwards.
    pub fn text_width(&self) -> f64 {
        self.width / self.lettering
    }

    /// Adds a piece that was laid out within the width of text.
    fn push(&mut self, piece: Piece) {
        self.pieces.push(piece.grown(self.lettering));
    }

    /// The width of its columns.
    pub const fn width(&self) -> f64 {
        self.width
    }

    /// Whether there is nothing in it.
    pub fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }

    /// A heading, which stays with what follows.
    pub fn heading(&mut self, text: &str) {
        let width = self.text_width();
        let lines = HEADING.face.wrapped(text, HEADING.size(), width);
        let last = lines.len();
        let element = self.element();
        for (i, line) in lines.iter().enumerate() {
            let mut pen = Pen::default();
            let base = HEADING.size();
            pen.text(Point::new(0.0, base), Lean::Left, line, HEADING);
            pen.told(Role::Heading, element);
            let rule = i + 1 == last;
            if rule {
                let y = base + 1.2;
                pen.line(
                    Point::new(0.0, y),
                    Point::new(width, y),
                    Stroke::full(Color::BLACK, 0.35),
                );
            }
            self.push(Piece {
                above: if i == 0 { 4.5 } else { 0.0 },
                height: if rule { base + 2.4 } else { HEADING.leading() },
                marks: pen.marks,
                with_next: true,
                titles: None,
            });
        }
    }

    /// A paragraph.
    pub fn paragraph(&mut self, text: &str, style: Style) {
        self.lines(text, style, 0.0, None);
    }

    /// A paragraph with a mark before it: a dot, or the number of a step.
    pub fn item(&mut self, mark: &str, text: &str, style: Style) {
        self.lines(
            text,
            style,
            INDENT.max(style.length(mark) + 1.4),
            Some(mark),
        );
    }

    fn lines(&mut self, text: &str, style: Style, indent: f64, mark: Option<&str>) {
        let width = self.text_width();
        let lines = style.face.wrapped(text, style.size(), width - indent);
        let count = lines.len();
        let element = self.element();
        for (i, line) in lines.iter().enumerate() {
            let mut pen = Pen::default();
            if let Some(mark) = mark.filter(|_| i == 0) {
                pen.text(Point::new(0.0, style.size()), Lean::Left, mark, style);
            }
            pen.text(Point::new(indent, style.size()), Lean::Left, line, style);
            pen.told(Role::Paragraph, element);
            self.push(Piece {
                above: if i == 0 { 1.2 } else { 0.0 },
                height: style.leading(),
                marks: pen.marks,
                // Neither the first nor the last line stands alone.
                with_next: count > 1 && (i == 0 || i + 2 == count),
                titles: None,
            });
        }
    }

    /// Something drawn, of a height; its marks from its upper left corner. It stays as large as it is; its text is a
    /// paragraph to whoever has it read out.
    pub fn drawn(&mut self, height: f64, mut pen: Pen) {
        pen.told(Role::Paragraph, self.element());
        self.pieces.push(Piece {
            above: 2.0,
            height,
            marks: pen.marks,
            with_next: false,
            titles: None,
        });
    }

    /// A row of something drawn within the width of text, close to the one above; it grows with the text.
    pub fn row(&mut self, height: f64, mut pen: Pen) {
        pen.told(Role::Paragraph, self.element());
        self.push(Piece {
            above: 0.0,
            height,
            marks: pen.marks,
            with_next: false,
            titles: None,
        });
    }

    /// Marks that stay together, laid out within the width of text from their upper left corner, of a height; each is an
    /// element already.
    pub fn whole(&mut self, height: f64, marks: Vec<Mark>) {
        self.push(Piece {
            above: 2.0,
            height,
            marks,
            with_next: false,
            titles: None,
        });
    }

    /// A table; nothing without rows. A column without a single cell is left out, and a table is no wider than its
    /// figures can be read across.
    pub fn table(&mut self, columns: &[Column], rows: &[Row]) {
        let filled = |k: &usize| {
            let mut cells = rows.iter().filter_map(|row| row.cells().get(*k));
            cells.any(|cell| !cell.is_empty())
        };
        let kept: Vec<usize> = (0..columns.len()).filter(filled).collect();
        let columns: Vec<&Column> = kept.iter().filter_map(|k| columns.get(*k)).collect();
        if columns.is_empty() {
            return;
        }
        let cells = |row: &Row| -> Vec<String> {
            let cells = kept.iter().filter_map(|k| row.cells().get(*k));
            cells.cloned().collect()
        };
        let grid = Grid::new(&columns, rows, &cells, self.text_width());
        let titles: Vec<String> = columns.iter().map(|it| it.title.clone()).collect();
        let table = self.element();
        let mut head = grid.row(&titles, TITLE, Role::ColumnTitle);
        let again = Rc::new({
            // Said again on the next page, titles are ornament.
            let mut piece = grid.row(&titles, TITLE, Role::ColumnTitle).bare();
            let y = piece.height;
            rule(&mut piece, y, grid.width, Stroke::full(Color::BLACK, 0.25));
            piece.grown(self.lettering)
        });
        head.told(table, self.element());
        let y = head.height;
        rule(&mut head, y, grid.width, Stroke::full(Color::BLACK, 0.25));
        head.with_next = true;
        head.above = 1.6;
        self.push(head);
        for (i, it) in rows.iter().enumerate() {
            let mut piece = match it {
                Row::Group(name) => {
                    let mut piece = grid.group(name, it.style());
                    piece.with_next = i + 1 < rows.len();
                    piece
                }
                _ => grid.row(&cells(it), it.style(), Role::Cell),
            };
            piece.told(table, self.element());
            if matches!(it, Row::Sum(_)) {
                rule(&mut piece, 0.0, grid.width, Stroke::full(Color::BLACK, 0.2));
            }
            let y = piece.height;
            rule(&mut piece, y, grid.width, Stroke::full(Color::RULE, 0.1));
            piece.titles = Some(Rc::clone(&again));
            self.push(piece);
        }
    }

    /// Puts the pieces into columns: `column(k)` is the page and the place of column k. Returns the marks of each piece
    /// with its page, and what is left of the last column used.
    pub fn pour(
        &self,
        column: impl Fn(usize) -> (usize, Area),
        first: usize,
    ) -> (Vec<(usize, Vec<Mark>)>, Poured) {
        let mut out = Vec::new();
        let mut at = first;
        let (mut page, mut area) = column(at);
        let mut y = area.y;
        for (i, piece) in self.pieces.iter().enumerate() {
            let fresh = y <= area.y;
            let needed = if fresh { 0.0 } else { piece.above } + self.kept_height(i);
            if !fresh && y + needed > area.bottom() + 1e-9 {
                at += 1;
                (page, area) = column(at);
                y = area.y;
                if let Some(titles) = &piece.titles {
                    out.push((page, placed(titles, area.x, y)));
                    y += titles.height;
                }
            } else if !fresh {
                y += piece.above;
            }
            out.push((page, placed(piece, area.x, y)));
            y += piece.height;
        }
        (out, Poured { column: at, y })
    }

    /// How high the pieces are that begin here and stay together.
    fn kept_height(&self, first: usize) -> f64 {
        let mut height = 0.0;
        for (i, piece) in self.pieces.iter().enumerate().skip(first) {
            height += piece.height + if i > first { piece.above } else { 0.0 };
            if !piece.with_next {
                break;
            }
        }
        height
    }
}

/// Where a flow ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Poured {
    /// In which column.
    pub column: usize,
    /// How far down the page, millimeters.
    pub y: f64,
}

fn placed(piece: &Piece, x: f64, y: f64) -> Vec<Mark> {
    let by = Vector::new(x, y);
    piece.marks.iter().map(|mark| mark.moved(by)).collect()
}

fn rule(piece: &mut Piece, y: f64, width: f64, stroke: Stroke) {
    let mut pen = Pen::default();
    pen.path(
        [Point::new(0.0, y), Point::new(width, y)],
        false,
        Ink::line(stroke),
    );
    piece.marks.extend(pen.marks);
}

#[allow(clippy::cast_precision_loss)] // Lines and columns of a page.
fn count(many: usize) -> f64 {
    many as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    fn columns(page: usize) -> (usize, Area) {
        let area = Area {
            x: 10.0,
            y: 10.0,
            width: 60.0,
            height: 50.0,
        };
        (page, area)
    }

    fn cells(words: &[&str]) -> Row {
        Row::Cells(words.iter().map(|it| (*it).to_owned()).collect())
    }

    #[test]
    fn a_table_that_goes_on_says_its_titles_again_and_stays_in_its_columns() {
        let mut flow = Flow::new(60.0);
        flow.heading("Stakes");
        let rows: Vec<Row> = (0..30)
            .map(|i| {
                cells(&[
                    &format!("H{i}"),
                    "12 ft 3 1/4 in",
                    "a corner of the hole that has a long name",
                ])
            })
            .collect();
        let titles = [
            Column::words("Name"),
            Column::figures("Tape A"),
            Column::words("What"),
        ];
        flow.table(&titles, &rows);
        let (marks, end) = flow.pour(columns, 0);
        assert!(end.column >= 2);
        for page in 0..=end.column {
            let (_, area) = columns(page);
            let on = marks.iter().filter(|(at, _)| *at == page);
            let texts: Vec<_> = on
                .flat_map(|(_, it)| it.iter().flat_map(Mark::texts))
                .collect();
            assert_eq!(texts.iter().filter(|it| it.words == "Tape A").count(), 1);
            for text in texts {
                for p in text.corners() {
                    assert!(
                        p.x >= area.x - 1e-6 && p.x <= area.right() + 1e-6,
                        "{text:?}"
                    );
                    assert!(p.y >= area.y && p.y <= area.bottom(), "{text:?}");
                }
            }
        }
    }

    #[test]
    fn a_heading_is_never_left_alone_at_the_foot_of_a_column() {
        let mut flow = Flow::new(60.0);
        for _ in 0..12 {
            flow.paragraph("a line", BODY);
        }
        flow.heading("Levels");
        flow.paragraph(
            "what it says, in more than one line of text so that it has to be broken somewhere",
            BODY,
        );
        let (marks, _) = flow.pour(columns, 0);
        let page_of = |word: &str| {
            let found = marks.iter().find(|(_, it)| {
                let mut texts = it.iter().flat_map(Mark::texts);
                texts.any(|text| text.words.starts_with(word))
            });
            found.map(|(page, _)| *page)
        };
        assert_eq!(page_of("Levels"), page_of("what it says"));
    }
}
