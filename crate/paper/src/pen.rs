//! The hand that puts marks on a page: lines, shapes and lines of text, by what they are.

use batterboard_core::geom::{Point, Segment, Vector};
use batterboard_core::math::{self, TURN};

use crate::face::Face;
use crate::mark::{Area, Color, Ink, Mark, Outline, Role, Step, Stroke, Text};

/// A point of type, millimeters.
pub const POINT: f64 = 25.4 / 72.0;

/// How a line of text is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Style {
    /// The face.
    pub face: Face,
    /// Height of an em, points.
    pub points: f64,
    /// Its color.
    pub color: Color,
}

impl Style {
    /// Plain text of a size.
    pub const fn plain(points: f64) -> Self {
        Self {
            face: Face::Regular,
            points,
            color: Color::BLACK,
        }
    }

    /// Heavier text of a size.
    pub const fn heavy(points: f64) -> Self {
        Self {
            face: Face::SemiBold,
            ..Self::plain(points)
        }
    }

    /// The same in another color.
    pub const fn in_color(self, color: Color) -> Self {
        Self { color, ..self }
    }

    /// Height of an em, millimeters.
    pub fn size(&self) -> f64 {
        self.points * POINT
    }

    /// From one base line to the next, millimeters.
    pub fn leading(&self) -> f64 {
        self.size() * 1.3
    }

    /// How long a text is, millimeters.
    pub fn length(&self, text: &str) -> f64 {
        self.face.length(text, self.size())
    }
}

/// Where a text stands beside the place it is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lean {
    /// It begins there.
    Left,
    /// Its middle is there.
    Middle,
    /// It ends there.
    Right,
}

/// Marks as they are put down, lowest first.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Pen {
    /// The marks.
    pub marks: Vec<Mark>,
}

impl Pen {
    /// A straight line.
    pub fn line(&mut self, from: Point, to: Point, stroke: Stroke) {
        self.path([from, to], false, Ink::line(stroke));
    }

    /// A shape of straight edges.
    pub fn path(&mut self, places: impl IntoIterator<Item = Point>, closed: bool, ink: Ink) {
        if let Some(outline) = Outline::through(places, closed) {
            self.marks.push(Mark::Shape(vec![outline], ink));
        }
    }

    /// An upright rectangle.
    pub fn rectangle(&mut self, area: Area, ink: Ink) {
        self.path(area.corners(), true, ink);
    }

    /// A disc.
    pub fn disc(&mut self, at: Point, radius: f64, ink: Ink) {
        let from = at + Vector::new(radius, 0.0);
        let steps = arc(at, radius, 0.0, TURN);
        let outline = Outline {
            from,
            steps,
            closed: true,
        };
        self.marks.push(Mark::Shape(vec![outline], ink));
    }

    /// A level line of text whose base line lies at `at`; control characters are left out.
    pub fn text(&mut self, at: Point, lean: Lean, words: &str, style: Style) {
        self.turned(at, lean, 0.0, words, style, false);
    }

    /// A line of text that runs `turn` radians clockwise from the right.
    pub fn turned(
        &mut self,
        at: Point,
        lean: Lean,
        turn: f64,
        words: &str,
        style: Style,
        halo: bool,
    ) {
        let words: String = words.chars().filter(|c| !c.is_control()).collect();
        if words.trim().is_empty() {
            return;
        }
        let mut text = Text {
            at,
            turn,
            face: style.face,
            size: style.size(),
            color: style.color,
            halo,
            words,
        };
        let (along, _) = text.axes();
        let back = match lean {
            Lean::Left => 0.0,
            Lean::Middle => 0.5,
            Lean::Right => 1.0,
        };
        text.at = at - along * (text.length() * back);
        self.marks.push(Mark::Text(text));
    }

    /// Makes everything put down so far an element of the document's structure.
    pub fn told(&mut self, role: Role, number: u32) {
        let marks = core::mem::take(&mut self.marks);
        self.marks = vec![Mark::Element(role, number, marks)];
    }

    /// Takes over marks, moved.
    pub fn take(&mut self, marks: &[Mark], by: Vector) {
        self.marks.extend(marks.iter().map(|mark| mark.moved(by)));
    }
}

/// The curves of an arc on paper from an angle (radians clockwise from the right) over a sweep: within a ten
/// thousandth of its radius (four curves to a turn).
pub fn arc(centre: Point, radius: f64, start: f64, sweep: f64) -> Vec<Step> {
    let parts = (sweep.abs() / (TURN / 4.0) - 1e-9).ceil().max(1.0);
    let step = sweep / parts;
    let handle = radius * 4.0 / 3.0 * math::tan(step / 4.0);
    let on = |angle: f64| {
        let out = Vector::new(math::cos(angle), math::sin(angle));
        (centre + out * radius, Vector::new(-out.y, out.x) * handle)
    };
    let mut steps = Vec::new();
    let mut part = 0.0;
    while part < parts {
        let (from, ahead) = on(start + step * part);
        let (to, behind) = on(start + step * (part + 1.0));
        steps.push(Step::Curve(from + ahead, to - behind, to));
        part += 1.0;
    }
    steps
}

/// A path of the site as an outline on paper; `place` is where a point of the site lies, `scale` millimeters of paper
/// to a meter.
pub fn outline(
    segments: &[Segment],
    closed: bool,
    place: impl Fn(Point) -> Point,
    scale: f64,
) -> Option<Outline> {
    let from = place(segments.first()?.from());
    let mut steps = Vec::new();
    for segment in segments {
        match *segment {
            Segment::Line { to, .. } => steps.push(Step::Line(place(to))),
            // Paper's y runs down, so angles change sign.
            Segment::Arc {
                centre,
                radius,
                start_angle,
                sweep,
                ..
            } => steps.extend(arc(place(centre), radius * scale, -start_angle, -sweep)),
        }
    }
    Some(Outline {
        from,
        steps,
        closed,
    })
}
