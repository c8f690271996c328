//! The columns of a table: how wide each is, and its rows.

use batterboard_core::geom::Point;

use super::{Column, Piece, Row, TITLE, count};
use crate::mark::{Mark, Role};
use crate::pen::{Lean, Pen, Style};

/// Between two columns of a table, millimeters.
const GUTTER: f64 = 3.2;
/// The most of it: farther apart a row is lost on the way across.
const WIDEST_GUTTER: f64 = 9.0;
/// Above what the rows of a group have in common, millimeters.
const ABOVE_GROUP: f64 = 1.2;
/// Above and below the text of a row, millimeters.
const PADDING: f64 = 0.75;

/// The columns of a table with their widths.
pub(super) struct Grid<'a> {
    columns: &'a [&'a Column],
    widths: Vec<f64>,
    /// Between two columns, millimeters.
    gutter: f64,
    /// From the left edge of the first column to the right edge of the last.
    pub width: f64,
}

impl<'a> Grid<'a> {
    /// Columns as wide as they need where there is room; else the widest give way, none below its longest word.
    pub fn new(
        columns: &'a [&'a Column],
        rows: &[Row],
        cells: &impl Fn(&Row) -> Vec<String>,
        room: f64,
    ) -> Self {
        let mut widths = vec![0.0_f64; columns.len()];
        let mut floors = widths.clone();
        let mut meet = |texts: &[String], style: Style| {
            for ((width, floor), text) in widths.iter_mut().zip(&mut floors).zip(texts) {
                *width = width.max(style.length(text));
                let words = text.split_whitespace().map(|word| style.length(word));
                *floor = words.fold(*floor, f64::max);
            }
        };
        let titles: Vec<String> = columns.iter().map(|it| it.title.clone()).collect();
        meet(&titles, TITLE);
        rows.iter().for_each(|it| meet(&cells(it), it.style()));
        let gaps = count(columns.len().saturating_sub(1));
        shrink(&mut widths, &floors, room - GUTTER * gaps);
        let spare = room - widths.iter().sum::<f64>();
        let gutter = (spare / gaps.max(1.0)).clamp(0.0, WIDEST_GUTTER);
        let width = widths.iter().sum::<f64>() + gutter * gaps;
        Self {
            columns,
            widths,
            gutter,
            width,
        }
    }

    /// A row of cells, each broken into lines within its column.
    pub fn row(&self, cells: &[String], style: Style, role: Role) -> Piece {
        let mut marks = Vec::new();
        let mut most = 1;
        let mut x = 0.0;
        let places = self.columns.iter().zip(&self.widths).zip(cells);
        for (number, ((column, width), cell)) in (0..).zip(places) {
            let mut pen = Pen::default();
            let lines = style.face.wrapped(cell, style.size(), *width + 1e-6);
            most = most.max(lines.len());
            let at = match column.lean {
                Lean::Left => x,
                Lean::Middle => x + width / 2.0,
                Lean::Right => x + width,
            };
            for (k, line) in (0_u32..).zip(&lines) {
                let y = PADDING + style.size() * 0.92 + f64::from(k) * style.leading();
                pen.text(Point::new(at, y), column.lean, line, style);
            }
            marks.push(Mark::Element(role.clone(), number, pen.marks));
            x += width + self.gutter;
        }
        Piece {
            above: 0.0,
            height: style.leading() * count(most) + 2.0 * PADDING,
            marks,
            with_next: false,
            titles: None,
        }
    }

    /// What the rows below have in common, across all columns.
    pub fn group(&self, name: &str, style: Style) -> Piece {
        let mut pen = Pen::default();
        let lines = style.face.wrapped(name, style.size(), self.width);
        for (k, line) in (0_u32..).zip(&lines) {
            let y = ABOVE_GROUP + style.size() + f64::from(k) * style.leading();
            pen.text(Point::new(0.0, y), Lean::Left, line, style);
        }
        Piece {
            above: 0.0,
            height: ABOVE_GROUP + style.leading() * count(lines.len()) + PADDING,
            marks: vec![Mark::Element(Role::Cell, 0, pen.marks)],
            with_next: false,
            titles: None,
        }
    }
}

/// Makes widths fit into a room: the widest gives way first, down to the next one or to its longest word.
fn shrink(widths: &mut [f64], floors: &[f64], room: f64) {
    let mut over = widths.iter().sum::<f64>() - room;
    while over > 1e-9 {
        let open = widths.iter().zip(floors).enumerate();
        let mut open: Vec<(usize, f64)> = open
            .filter(|(_, (width, floor))| **width > **floor + 1e-9)
            .map(|(k, (width, _))| (k, *width))
            .collect();
        open.sort_by(|a, b| b.1.total_cmp(&a.1));
        let Some((widest, width)) = open.first().copied() else {
            break;
        };
        let next = open.get(1).map_or(0.0, |it| it.1);
        let floor = floors.get(widest).copied().unwrap_or_default();
        let down = (width - next.max(floor))
            .max(0.5)
            .min(width - floor)
            .min(over);
        if let Some(it) = widths.get_mut(widest) {
            *it -= down;
        }
        over -= down;
    }
    if over > 1e-9 {
        // Not even the longest words fit: all give way alike, and words are broken.
        let part = room / (room + over);
        widths.iter_mut().for_each(|it| *it *= part);
    }
}
