//! The section on its own canvas, and its line on the plan.
//!
//! Hatches follow drafting convention as far as it goes: ground in slanted lines, stone in small
//! angular marks, concrete in dots, water in level lines. Every hatch is named in the key.

use batterboard_core::geom::pattern::{hatch, scattered};
use batterboard_core::geom::{Point, Region};
use batterboard_core::section::{Piece, Section, ticks};
use batterboard_core::site::SectionLine;
use batterboard_core::units::{Measure, System};

use super::View;
use super::ink::section::{
    ASSUMED, DIMENSION, ENDS, FINISHED, GRID, GROUND, GROUNDWATER, HEAD, KNOB, LEVEL, LINE, Marks,
    ON_PLAN, SHEET, SLANTED, SPECKLED, STONES, TEXT, WATER, look,
};
use super::ink::{BLACK, Ink};
use super::pen::{Pen, Place};

/// How far from the edges the section is drawn, CSS pixels: left, right, top, bottom.
const MARGIN: [f64; 4] = [66.0, 18.0, 20.0, 30.0];

/// Least distance between marks on the axes, CSS pixels.
const APART: (f64, f64) = (70.0, 34.0);

/// Height of a row of the key, CSS pixels.
const KEY_ROW: f64 = 22.0;

/// Width of a character, as a part of the text's size.
const CHARACTER: f64 = 0.58;

/// Where the section lies on its canvas.
struct Sheet {
    left: f64,
    base: f64,
    across: f64,
    up: f64,
    lowest: f64,
}

impl Sheet {
    /// The section as large as it goes, heights exaggerated, above the rows of the key.
    fn fitted(view: &View, section: &Section, exaggeration: f64, key: f64) -> Self {
        let [left, right, top, bottom] = MARGIN;
        let (low, high) = section.elevations();
        let (low, high) = (low - 0.4, high + 0.3);
        let wide = (view.width - left - right).max(40.0);
        let tall = (view.height - top - bottom - key).max(30.0);
        let across = (wide / section.length).min(tall / ((high - low) * exaggeration));
        let up = across * exaggeration;
        Self {
            left: left + (wide - across * section.length) / 2.0,
            base: top + (tall + (high - low) * up) / 2.0,
            across,
            up,
            lowest: low,
        }
    }

    /// A place of the section, CSS pixels.
    fn place(&self, p: Point) -> Place {
        (
            self.left + p.x * self.across,
            self.base - (p.y - self.lowest) * self.up,
        )
    }

    /// A region of the section in CSS pixels, upward.
    fn region(&self, region: &Region) -> Region {
        let mut region = region.clone();
        let polygons = region.polygons.iter_mut();
        let rings = polygons.flat_map(|p| core::iter::once(&mut p.outer).chain(&mut p.holes));
        for point in rings.flat_map(|ring| &mut ring.0) {
            let (x, y) = self.place(*point);
            *point = Point::new(x, -y);
        }
        region
    }
}

/// Paints a section, heights drawn `exaggeration` times as large as lengths.
pub fn paint(pen: &mut Pen<'_>, view: &View, section: &Section, exaggeration: f64, system: System) {
    pen.clear(SHEET);
    let rows = key_rows(section, view.width);
    let sheet = Sheet::fitted(view, section, exaggeration, KEY_ROW * rows.len() as f64);
    let mut written = Written::default();
    axes(pen, view, &sheet, section, system, &mut written);
    for (piece, region) in &section.pieces {
        fill(pen, &sheet.region(region), look(*piece));
    }
    surfaces(pen, &sheet, section);
    let (top, ends) = (12.0, [0.0, section.length]);
    for (s, name) in ends.into_iter().zip(["A", "A'"]) {
        let (x, _) = sheet.place(Point::new(s, 0.0));
        written.write(pen, (x, top), name, &ENDS);
    }
    if let Some(level) = section.groundwater {
        let (x, y) = sheet.place(Point::new(0.0, level));
        written.write(pen, (x + 80.0, y - 9.0), "groundwater", &WATER);
    }
    names(pen, &sheet, section, &mut written);
    dimensions(pen, view, &sheet, section, &mut written);
    key(pen, view, &rows);
}

/// The bearing along which text runs from left to right.
const UPRIGHT: f64 = core::f64::consts::FRAC_PI_2;

/// A region in pixels, upward, with its marks.
fn fill(pen: &mut Pen<'_>, region: &Region, (ink, marks): (Ink, Marks)) {
    let rings = region
        .rings()
        .map(|ring| ring.0.iter().map(|p| (p.x, -p.y)));
    pen.area(rings, &ink);
    let down = |(a, b): (Point, Point)| ((a.x, -a.y), (b.x, -b.y));
    match marks {
        Marks::None => {}
        Marks::Slanted(angle) => {
            pen.lines(hatch(region, angle, 11.0).into_iter().map(down), &SLANTED);
        }
        Marks::Level => {
            pen.lines(hatch(region, 0.0, 11.0).into_iter().map(down), &LEVEL);
        }
        Marks::Dots => {
            for (at, turn) in scattered(region, 7.0) {
                pen.disc((at.x, -at.y), if turn == 0 { 1.4 } else { 0.8 }, &SPECKLED);
            }
        }
        Marks::Angular(apart) => {
            for (at, turn) in scattered(region, apart) {
                let (x, y, r) = (at.x, -at.y, apart * 0.3);
                let lean = f64::from(turn) * 0.22 * r;
                pen.shape(
                    &[
                        (x - r + lean, y + r * 0.7),
                        (x + r, y + lean),
                        (x - lean, y - r),
                    ],
                    &STONES,
                );
            }
        }
    }
}

/// Stations along the foot, elevations up the side.
fn axes(
    pen: &mut Pen<'_>,
    view: &View,
    sheet: &Sheet,
    section: &Section,
    system: System,
    written: &mut Written,
) {
    let (low, high) = section.elevations();
    let (bottom, top) = (low - 0.4, high + 0.3);
    for tick in ticks(Measure::Elevation, bottom, top, APART.1 / sheet.up, system) {
        let from = sheet.place(Point::new(0.0, tick.at));
        let to = sheet.place(Point::new(section.length, tick.at));
        pen.line(from, to, &GRID);
        let half = half_width(&tick.text);
        pen.text(
            ((from.0 - half - 6.0).max(half + 2.0), from.1),
            UPRIGHT,
            &tick.text,
            &TEXT,
        );
    }
    for tick in ticks(
        Measure::LongLength,
        0.0,
        section.length,
        APART.0 / sheet.across,
        system,
    ) {
        let (x, y) = sheet.place(Point::new(tick.at, bottom));
        pen.line((x, y), (x, y + 5.0), &LINE);
        let half = half_width(&tick.text);
        let x = x.clamp(half, (view.width - half).max(half));
        written.write(pen, (x, y + 14.0), &tick.text, &TEXT);
    }
    let (from, to) = (Point::new(0.0, bottom), Point::new(section.length, bottom));
    pen.line(sheet.place(from), sheet.place(to), &LINE);
}

/// Ground, water and groundwater as lines.
fn surfaces(pen: &mut Pen<'_>, sheet: &Sheet, section: &Section) {
    let ground = || section.ground.iter().zip(section.ground.iter().skip(1));
    let assumed = |x: f64| section.assumed.iter().any(|(a, b)| *a <= x && x <= *b);
    for (a, b) in ground() {
        let at = |s: f64| sheet.place(Point::new(s, a.y + (b.y - a.y) * (s - a.x) / (b.x - a.x)));
        let ink = match assumed((a.x + b.x) / 2.0) {
            true => ASSUMED,
            false => GROUND,
        };
        // Where it is dug away or graded a thin dashed line tells where it was.
        let gone = Ink {
            width: 1.25,
            dash: &[5.0, 4.0],
            ..ink
        };
        pen.line(at(a.x), at(b.x), &gone);
        for (from, to) in &section.stays {
            let (from, to) = (from.max(a.x), to.min(b.x));
            if to > from {
                pen.line(at(from), at(to), &ink);
            }
        }
    }
    for bank in &section.banks {
        for (a, b) in bank.iter().zip(bank.iter().skip(1)) {
            pen.line(sheet.place(*a), sheet.place(*b), &FINISHED);
        }
        let (Some(from), Some(to)) = (bank.first(), bank.last()) else {
            continue;
        };
        let (from, to) = (sheet.place(*from), sheet.place(*to));
        if to.0 - from.0 > 44.0 {
            let middle = ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0 - 12.0);
            pen.text(middle, UPRIGHT, "finished", &FINISHED);
        }
    }
    if let Some((level, stretches)) = &section.water {
        for (a, b) in stretches {
            let ends = [*a, *b].map(|s| sheet.place(Point::new(s, *level)));
            pen.line(ends[0], ends[1], &WATER);
            mark(pen, ((ends[0].0 + ends[1].0) / 2.0, ends[0].1), &WATER);
        }
    }
    if let Some(level) = section.groundwater {
        let ends = [0.0, section.length].map(|s| sheet.place(Point::new(s, level)));
        pen.line(ends[0], ends[1], &GROUNDWATER);
        mark(pen, (ends[0].0 + 16.0, ends[0].1), &WATER);
    }
}

/// The sign of a water's surface: a triangle on its point.
fn mark(pen: &mut Pen<'_>, (x, y): Place, ink: &Ink) {
    let ink = Ink {
        fill: SHEET,
        ..*ink
    };
    pen.shape(&[(x - 6.0, y - 10.0), (x + 6.0, y - 10.0), (x, y)], &ink);
}

/// What is written already: the middle of each text and half its width.
#[derive(Default)]
struct Written(Vec<(Place, f64)>);

impl Written {
    /// Whether a text half so wide has room about a place.
    fn has_room(&self, (x, y): Place, half: f64) -> bool {
        let clear = |((u, v), wide): &(Place, f64)| {
            (x - u).abs() > half + wide + 4.0 || (y - v).abs() > 15.0
        };
        self.0.iter().all(clear)
    }

    /// Writes a text about a place.
    fn write(&mut self, pen: &mut Pen<'_>, at: Place, text: &str, ink: &Ink) {
        pen.text(at, UPRIGHT, text, ink);
        self.0.push((at, half_width(text)));
    }
}

/// Half the width of a text, CSS pixels.
fn half_width(text: &str) -> f64 {
    text.chars().count() as f64 * TEXT.text_size * CHARACTER / 2.0
}

/// Names within the larger pieces.
fn names(pen: &mut Pen<'_>, sheet: &Sheet, section: &Section, written: &mut Written) {
    for (piece, region) in &section.pieces {
        if *piece != Piece::Water {
            continue;
        }
        let (Some((low, high)), Some(middle)) = (region.bounds(), region.centroid()) else {
            continue;
        };
        if (high.x - low.x) * sheet.across > 60.0 && (high.y - low.y) * sheet.up > 30.0 {
            written.write(pen, sheet.place(middle), piece.words(), &WATER);
        }
    }
}

/// Dimension lines with ticks and their figures, those that find room.
fn dimensions(
    pen: &mut Pen<'_>,
    view: &View,
    sheet: &Sheet,
    section: &Section,
    written: &mut Written,
) {
    for dimension in &section.dimensions {
        let (from, to) = (sheet.place(dimension.from), sheet.place(dimension.to));
        let upright = dimension.from.x == dimension.to.x;
        let (dx, dy) = if upright { (4.0, 0.0) } else { (0.0, 4.0) };
        pen.line(from, to, &DIMENSION);
        for (x, y) in [from, to] {
            pen.line((x - dx, y - dy), (x + dx, y + dy), &DIMENSION);
        }
        let half = half_width(&dimension.text);
        let middle = ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0);
        let beside = if upright {
            (half + 8.0, 0.0)
        } else {
            (0.0, 12.0)
        };
        let spots = [
            (middle.0 + beside.0, middle.1 + beside.1),
            (middle.0 - beside.0, middle.1 - beside.1),
            (middle.0 + beside.0, middle.1 + beside.1 + 16.0),
            (middle.0 - beside.0, middle.1 - beside.1 - 16.0),
        ];
        let free = |(x, y): &&Place| {
            *x > half
                && *x < view.width - half
                && *y > 8.0
                && *y < view.height - 8.0
                && written.has_room((*x, *y), half)
        };
        if let Some(spot) = spots.iter().find(free).copied() {
            written.write(pen, spot, &dimension.text, &DIMENSION);
        }
    }
}

/// The pieces of the key, row by row, each with where it begins.
fn key_rows(section: &Section, width: f64) -> Vec<Vec<(Piece, f64)>> {
    let mut rows: Vec<Vec<(Piece, f64)>> = Vec::new();
    let mut x = f64::INFINITY;
    for (piece, _) in &section.pieces {
        let wide = 34.0 + piece.words().len() as f64 * TEXT.text_size * CHARACTER + 10.0;
        if x + wide > width - 8.0 {
            rows.push(Vec::new());
            x = 10.0;
        }
        if let Some(row) = rows.last_mut() {
            row.push((*piece, x));
        }
        x += wide;
    }
    rows
}

/// What every hatch stands for, along the lower edge.
fn key(pen: &mut Pen<'_>, view: &View, rows: &[Vec<(Piece, f64)>]) {
    for (row, pieces) in rows.iter().enumerate() {
        let y = view.height - KEY_ROW * (rows.len() - row) as f64 + KEY_ROW / 2.0;
        for (piece, x) in pieces {
            let corners = [(0.0, -7.0), (26.0, -7.0), (26.0, 7.0), (0.0, 7.0)];
            let ring = corners.map(|(dx, dy)| Point::new(x + dx, dy - y));
            let swatch = Region::from_ring(batterboard_core::geom::Ring(ring.to_vec()));
            let (ink, marks) = look(*piece);
            let framed = Ink {
                stroke: if ink.stroke.is_empty() {
                    BLACK
                } else {
                    ink.stroke
                },
                width: ink.width.max(1.0),
                ..ink
            };
            fill(pen, &swatch, (framed, marks));
            let half = half_width(piece.words());
            pen.text((x + 34.0 + half, y), UPRIGHT, piece.words(), &TEXT);
        }
    }
}

/// Half the side of what the sign at an end of the section's line covers, with its letter, CSS pixels.
pub const END_ROOM: f64 = 22.0;

/// The ends of the section's line on the plan.
pub fn ends_on_plan(view: &View, line: &SectionLine) -> impl Iterator<Item = (f64, f64)> {
    [view.place(line.from), view.place(line.to)].into_iter()
}

/// The section's line on the plan, with its knobs and the letters of its ends.
pub fn on_plan(pen: &mut Pen<'_>, view: &View, line: &SectionLine) {
    let (from, to) = (view.place(line.from), view.place(line.to));
    pen.line(from, to, &ON_PLAN);
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = (dx * dx + dy * dy).sqrt().max(1.0);
    let (ux, uy) = (dx / length, dy / length);
    for (end, way, name) in [(from, -1.0, "A"), (to, 1.0, "A'")] {
        // Looked at along the arrows: with A at the left.
        let tip = (end.0 + uy * 20.0, end.1 - ux * 20.0);
        pen.line(
            end,
            tip,
            &Ink {
                dash: &[],
                ..ON_PLAN
            },
        );
        pen.shape(
            &[
                (tip.0 - ux * 6.0, tip.1 - uy * 6.0),
                (tip.0 + ux * 6.0, tip.1 + uy * 6.0),
                (tip.0 + uy * 10.0, tip.1 - ux * 10.0),
            ],
            &HEAD,
        );
        pen.disc(end, 9.0, &KNOB);
        pen.text(
            (end.0 + ux * way * 22.0, end.1 + uy * way * 22.0),
            UPRIGHT,
            name,
            &ON_PLAN,
        );
    }
}
