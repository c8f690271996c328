//! A drawing of the core in a window of the paper: its lines in the inks of paper, its labels placed so that none lies on
//! another.
//!
//! The core places labels in units of 1/96 in; everything else here is in millimeters of paper.

use std::collections::BTreeSet;

use batterboard_core::drawing::layout::{Layout, Moving};
use batterboard_core::drawing::lettering::{Frame, Lettering, TextLook, lettering, obstacles};
use batterboard_core::drawing::placement::{Guard, Obstacle, Placed, Shape, Size, TextBox};
use batterboard_core::drawing::{Drawing, Item, Layer};
use batterboard_core::geom::{Point, Vector};
use batterboard_core::lot::MonumentState;
use batterboard_core::math::TURN;

use crate::face::Face;
pub use crate::ink::Palette;
use crate::ink::{ink, letters};
use crate::mark::{Area, Color, Ink, Mark, Outline, Stroke};
use crate::pen::{Lean, Pen, Style, outline};
use crate::scale::Scale;

/// The unit in which the core places labels, millimeters.
const UNIT: f64 = 25.4 / 96.0;

/// What part of the site a window of the paper shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Where it is on the paper.
    pub area: Area,
    /// The point of the site at its middle, meters.
    pub centre: Point,
    /// How large the site is drawn.
    pub scale: Scale,
    /// How many times as large as usual its lettering is.
    pub lettering: f64,
}

impl Window {
    /// Millimeters of paper to a meter.
    pub fn per_meter(&self) -> f64 {
        1000.0 / self.scale.ratio
    }

    /// Where a point of the site lies on the paper.
    pub fn place(&self, p: Point) -> Point {
        let k = self.per_meter();
        Point::new(
            self.area.x + self.area.width / 2.0 + (p.x - self.centre.x) * k,
            self.area.y + self.area.height / 2.0 - (p.y - self.centre.y) * k,
        )
    }

    /// Whether all between two corners of the site is inside.
    pub fn holds(&self, (low, high): (Point, Point)) -> bool {
        let (a, b) = (self.place(low), self.place(high));
        let area = self.area.inset(-1e-6);
        a.x >= area.x && b.x <= area.right() && b.y >= area.y && a.y <= area.bottom()
    }

    /// The unit in which the core places labels here, millimeters: letters are as many of them high on every paper.
    fn unit(&self) -> f64 {
        UNIT * self.lettering
    }

    /// The window as the core places labels in it.
    fn frame(&self) -> Frame {
        let unit = self.unit();
        Frame {
            size: Size {
                width: self.area.width / unit,
                height: self.area.height / unit,
            },
            centre: self.centre,
            scale: self.per_meter() / unit,
        }
    }

    /// From the core's units in the window to the paper.
    fn paper(&self, p: Point) -> Point {
        let unit = self.unit();
        Point::new(self.area.x + p.x * unit, self.area.y + p.y * unit)
    }
}

/// A plan as it stands in its window.
#[derive(Debug, Default)]
pub struct Plan {
    /// Its marks.
    pub marks: Vec<Mark>,
    /// The layers that it shows, each with what its ink depends on.
    pub layers: Vec<Layer>,
    /// Labels that found no room.
    pub left_out: Vec<String>,
}

/// Draws a drawing in a window, keeping its labels off `furniture`.
pub fn draw(drawing: &Drawing, window: &Window, palette: Palette, furniture: &[Area]) -> Plan {
    let mut pen = Pen::default();
    let mut layers: Vec<Layer> = Vec::new();
    for item in &drawing.items {
        let layer = item.layer();
        if !matches!(item, Item::Label { .. }) && is_in(window, item) && !layers.contains(&layer) {
            layers.push(layer);
        }
        put(&mut pen, window, palette, item);
    }
    let (placed, left_out) = labels(drawing, window, furniture);
    write(&mut pen, window, &placed);
    Plan {
        marks: vec![Mark::Within(window.area, pen.marks)],
        layers,
        left_out,
    }
}

/// Whether any of an item lies in the window.
fn is_in(window: &Window, item: &Item) -> bool {
    let points: Vec<Point> = match item {
        Item::Area { region, .. } => region.rings().flat_map(|ring| ring.0.clone()).collect(),
        Item::Path { segments, .. } => segments
            .iter()
            .flat_map(|s| [s.from(), s.point_at(0.5), s.to()])
            .collect(),
        Item::Lines { lines, .. } => lines.iter().flat_map(|(a, b)| [*a, *b]).collect(),
        Item::Dot { at, .. } => vec![*at],
        Item::Measured { from, to, .. } => vec![*from, *to],
        Item::Label { .. } => Vec::new(),
    };
    let bounds = batterboard_core::geom::region::bounds(points);
    bounds.is_some_and(|(low, high)| {
        let (a, b, area) = (window.place(low), window.place(high), window.area);
        a.x <= area.right() && b.x >= area.x && b.y <= area.bottom() && a.y >= area.y
    })
}

fn put(pen: &mut Pen, window: &Window, palette: Palette, item: &Item) {
    let place = |p: Point| window.place(p);
    match item {
        Item::Area { layer, region } => {
            let rings = region.rings();
            let rings =
                rings.filter_map(|ring| Outline::through(ring.0.iter().map(|p| place(*p)), true));
            pen.marks
                .push(Mark::Shape(rings.collect(), ink(*layer, palette)));
        }
        Item::Path {
            layer,
            segments,
            closed,
        } => {
            let path = outline(segments, *closed, place, window.per_meter());
            let stroke = ink(*layer, palette).stroke;
            let ink = Ink { fill: None, stroke };
            pen.marks
                .extend(path.map(|path| Mark::Shape(vec![path], ink)));
        }
        Item::Lines { layer, lines } => {
            let stroke = ink(*layer, palette).stroke;
            let outlines = joined(lines.iter().map(|(a, b)| (place(*a), place(*b))));
            pen.marks
                .push(Mark::Shape(outlines, Ink { fill: None, stroke }));
        }
        Item::Dot { layer, at } => dot(pen, place(*at), *layer, palette),
        Item::Measured {
            layer, from, to, ..
        } => {
            if let Some(stroke) = ink(*layer, palette).stroke {
                dimension(pen, place(*from), place(*to), &stroke);
            }
        }
        Item::Label { .. } => {}
    }
}

/// Lines as outlines, those that follow each other as one, so that dashes run on round a curve.
fn joined(lines: impl Iterator<Item = (Point, Point)>) -> Vec<Outline> {
    let mut outlines: Vec<Outline> = Vec::new();
    let mut last = None;
    for (from, to) in lines {
        match outlines.last_mut().filter(|_| last == Some(from)) {
            Some(outline) => outline.steps.push(crate::mark::Step::Line(to)),
            None => outlines.extend(Outline::through([from, to], false)),
        }
        last = Some(to);
    }
    outlines
}

/// A dimension's line, with a slanted tick at each end.
pub fn dimension(pen: &mut Pen, from: Point, to: Point, stroke: &Stroke) {
    pen.line(from, to, stroke.clone());
    let along = (to - from).unit().unwrap_or(Vector::new(1.0, 0.0));
    let slant = (along + along.left()) * 0.9;
    let tick = Stroke::full(stroke.color, stroke.width.max(0.3));
    for end in [from, to] {
        pen.line(end + slant, end - slant, tick.clone());
    }
}

fn dot(pen: &mut Pen, at: Point, layer: Layer, palette: Palette) {
    let look = ink(layer, palette);
    match layer {
        // Full where it was found, with a dot where it was set, crossed where it was not found, open where nobody has
        // looked.
        Layer::Monument(state) => {
            let fill = match state {
                MonumentState::Found => Color::BLACK,
                _ => Color::WHITE,
            };
            let ring = Ink {
                fill: Some(fill),
                ..look
            };
            pen.disc(at, 1.0, ring);
            if state == MonumentState::Set {
                pen.disc(at, 0.35, Ink::filled(Color::BLACK));
            }
            if state == MonumentState::NotFound {
                for slant in [Vector::new(1.3, 1.3), Vector::new(1.3, -1.3)] {
                    pen.line(at + slant, at - slant, Stroke::full(Color::BLACK, 0.25));
                }
            }
        }
        Layer::BaseLine => pen.disc(at, 1.1, look),
        Layer::Benchmark => pen.disc(at, 1.0, look),
        Layer::Stake => pen.disc(at, 0.75, look),
        _ => pen.disc(at, 0.4, look),
    }
}

fn look(layer: Layer) -> TextLook {
    TextLook {
        size: letters(layer).points * 96.0 / 72.0,
        from_scale: 0.0,
    }
}

fn style(layer: Layer) -> Style {
    let letters = letters(layer);
    Style {
        face: if letters.heavy {
            Face::SemiBold
        } else {
            Face::Regular
        },
        points: letters.points,
        color: letters.color,
    }
}

/// Every label with its place, and those that found none.
fn labels(
    drawing: &Drawing,
    window: &Window,
    furniture: &[Area],
) -> (Vec<(Lettering, Placed)>, Vec<String>) {
    let frame = window.frame();
    // The core asks for the length of a text of a size; which face it stands in follows from the layer, and the
    // heavier one is the longer.
    let length = |text: &str, size: f64| Face::SemiBold.length(text, size);
    let wanted = lettering(drawing.items.iter(), &frame, look, length);
    // What is said over and over along a line or all over the ground is not missed once.
    let repeated = |layer: Layer| {
        matches!(
            layer,
            Layer::Mark(_) | Layer::OverheadMark | Layer::Spot | Layer::Contour { .. }
        )
    };
    let all: BTreeSet<(String, u64)> = wanted
        .iter()
        .filter(|it| !repeated(it.layer))
        .map(|it| (it.text.clone(), it.label.key))
        .collect();
    let boxes = furniture.iter().map(|area| {
        let unit = window.unit();
        let at = |p: Point| Point::new((p.x - window.area.x) / unit, (p.y - window.area.y) / unit);
        let [low, _, high, _] = area.corners().map(at);
        Obstacle {
            shape: Shape::Box(TextBox::between(low, high)),
            guard: Guard::Always,
            of: None,
        }
    });
    let mut layout = Layout::default();
    layout.set_still(frame, wanted, obstacles(&drawing.items, &frame));
    let moving = Moving {
        furniture: boxes.collect(),
        ..Moving::default()
    };
    layout.lay(moving, false);
    let inside = |it: &Placed| {
        let corners = it.text.corners();
        let within = |p: &Point| {
            p.x >= 0.0 && p.y >= 0.0 && p.x <= frame.size.width && p.y <= frame.size.height
        };
        corners.iter().all(within)
    };
    let placed: Vec<(Lettering, Placed)> = (layout.still())
        .filter(|(_, place)| inside(place))
        .map(|(it, place)| (it.clone(), place.clone()))
        .collect();
    let written: BTreeSet<u64> = placed.iter().map(|(it, _)| it.label.key).collect();
    let missing = all.into_iter().filter(|(_, key)| !written.contains(key));
    (placed, missing.map(|(text, _)| text).collect())
}

/// Labels with their leaders below all of them.
fn write(pen: &mut Pen, window: &Window, placed: &[(Lettering, Placed)]) {
    for (it, place) in placed {
        if let Some((from, to)) = place.leader {
            let color = letters(it.layer).color;
            let (from, to) = (window.paper(from), window.paper(to));
            pen.line(from, to, Stroke::full(color, 0.15));
            pen.disc(to, 0.4, Ink::filled(color));
        }
    }
    for (it, place) in placed {
        let usual = style(it.layer);
        let style = Style {
            points: usual.points * window.lettering,
            ..usual
        };
        let turn = place.text.bearing() - TURN / 4.0;
        let along = Vector::at_angle(turn);
        let down = Vector::new(-along.y, along.x);
        let at = window.paper(place.text.centre) + down * (style.size() * Face::CAPITAL / 2.0);
        pen.turned(at, Lean::Middle, turn, &it.text, style, true);
    }
}
