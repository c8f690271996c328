//! The section on paper, true to scale: what is dug, what stands in it, what stays, with its lifts of stone.

use batterboard_core::drawing::{Anchor, Drawing, Item, Layer};
use batterboard_core::geom::pattern::{hatch, scattered};
use batterboard_core::geom::{Point, Region, Ring};
use batterboard_core::section::{Piece, Section, ticks};
use batterboard_core::units::{Measure, System};

use crate::ink::Palette;
use crate::mark::{Area, Color, Ink, Mark, Outline, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::plan::{self, Window};
use crate::scale::Scale;
use crate::words::Language;

/// Room beside the section for elevations and below it for stations, millimeters.
pub const LEFT: f64 = 15.0;
pub const BELOW: f64 = 7.0;

/// What is shown above the highest and below the lowest, meters.
const ABOVE: f64 = 0.5;
const UNDER: f64 = 0.3;

/// What a section is drawn with besides itself.
#[derive(Debug, Clone, Default)]
pub struct Extras {
    /// Elevations of the tops of the lifts of stone, meters above the datum.
    pub lifts: Vec<f64>,
    /// Whether names, figures and what nobody sees who looks at a pool are written.
    pub figures: bool,
    /// The names of its two ends.
    pub ends: Option<[&'static str; 2]>,
}

/// The scale at which a section just fills the width of an area that has no axes, usual or not.
pub fn filling(section: &Section, area: Area) -> Scale {
    let (low, high) = section.elevations();
    let across = section.length / area.width;
    let up = (high - low + ABOVE + UNDER) / area.height;
    Scale {
        ratio: across.max(up) * 1000.0,
    }
}

/// The usual scale at which a section fits an area.
pub fn scale(section: &Section, area: Area, system: System) -> Scale {
    let (low, high) = section.elevations();
    let site = (section.length, high - low + ABOVE + UNDER);
    Scale::fitting(system, site, (area.width - LEFT, area.height - BELOW))
}

/// How high a section is drawn at a scale, its axes included, millimeters.
pub fn height(section: &Section, scale: Scale) -> f64 {
    let (low, high) = section.elevations();
    (high - low + ABOVE + UNDER) * 1000.0 / scale.ratio + BELOW
}

/// Draws a section at a scale into an area, level with its upper edge.
pub fn draw(
    pen: &mut Pen,
    section: &Section,
    area: Area,
    scale: Scale,
    (system, language): (System, Language),
    extras: &Extras,
) {
    let (low, high) = section.elevations();
    let (low, high) = (low - UNDER, high + ABOVE);
    let per_meter = 1000.0 / scale.ratio;
    let shown = Area {
        x: area.x + LEFT,
        y: area.y,
        width: (section.length * per_meter).min(area.width - LEFT),
        height: (high - low) * per_meter,
    };
    let window = Window {
        area: shown,
        centre: Point::new(section.length / 2.0, (low + high) / 2.0),
        scale,
        lettering: 1.0,
    };
    let mut inside = Pen::default();
    if extras.figures {
        axes(pen, &mut inside, &window, section, (low, high), system);
    }
    for (piece, region) in &section.pieces {
        fill(&mut inside, &window, *piece, region);
    }
    for lift in &extras.lifts {
        // Only across the stone beside the shell.
        if let Some(region) = section.region(Piece::Backfill) {
            let across = across(region, *lift);
            for (a, b) in across {
                let [a, b] = [a, b].map(|s| window.place(Point::new(s, *lift)));
                inside.line(
                    a,
                    b,
                    Stroke {
                        color: Color::BLACK,
                        width: 0.25,
                        dash: &[1.2, 0.7],
                    },
                );
            }
        }
    }
    surfaces(&mut inside, &window, section, extras.figures);
    if !extras.figures {
        pen.marks.push(Mark::Within(shown, inside.marks));
        return;
    }
    let labels = labels(section, language, extras);
    inside
        .marks
        .extend(plan::draw(&labels, &window, Palette::Drafting, &[]).marks);
    pen.marks.push(Mark::Within(shown, inside.marks));
}

/// The stretches of a level line within a region.
fn across(region: &Region, level: f64) -> Vec<(f64, f64)> {
    let edges = region.rings().flat_map(Ring::edges);
    let mut found: Vec<f64> = edges
        .filter(|(a, b)| (a.y > level) != (b.y > level))
        .map(|(a, b)| a.x + (b.x - a.x) * (level - a.y) / (b.y - a.y))
        .collect();
    found.sort_by(f64::total_cmp);
    found
        .as_chunks::<2>()
        .0
        .iter()
        .map(|[a, b]| (*a, *b))
        .collect()
}

/// Elevations up the side and stations along the foot.
fn axes(
    pen: &mut Pen,
    inside: &mut Pen,
    window: &Window,
    section: &Section,
    (low, high): (f64, f64),
    system: System,
) {
    let style = Style::plain(6.0).in_color(Color::GRAY);
    let area = window.area;
    let least = 5.0 / window.per_meter();
    for tick in ticks(Measure::Elevation, low, high, least, system) {
        let y = window.place(Point::new(0.0, tick.at)).y;
        if y < area.y + 1.5 || y > area.bottom() - 1.0 {
            continue;
        }
        let (from, to) = (Point::new(area.x, y), Point::new(area.right(), y));
        inside.line(from, to, Stroke::full(Color(0xe2, 0xe5, 0xe6), 0.13));
        pen.text(
            Point::new(area.x - 1.0, y + 0.75),
            Lean::Right,
            &tick.text,
            style,
        );
    }
    let least = 16.0 / window.per_meter();
    for tick in ticks(Measure::LongLength, 0.0, section.length, least, system) {
        let x = window.place(Point::new(tick.at, 0.0)).x;
        let foot = Point::new(x, area.bottom());
        pen.line(
            foot,
            Point::new(x, area.bottom() + 1.0),
            Stroke::full(Color::GRAY, 0.2),
        );
        let half = style.length(&tick.text) / 2.0;
        let x = x.clamp(area.x + half, (area.right() - half).max(area.x + half));
        pen.text(
            Point::new(x, area.bottom() + 3.6),
            Lean::Middle,
            &tick.text,
            style,
        );
    }
    let foot = area.bottom();
    let (from, to) = (Point::new(area.x, foot), Point::new(area.right(), foot));
    pen.line(from, to, Stroke::full(Color::GRAY, 0.2));
}

/// How a piece is drawn: its color, the width of its line, and its marks.
fn look(piece: Piece) -> (Color, Option<Stroke>, Marks) {
    let line = |width| Some(Stroke::full(Color::BLACK, width));
    match piece {
        Piece::Soil => (Color(0xf1, 0xea, 0xda), None, Marks::Slanted(0.785)),
        Piece::Dig => {
            let stroke = Stroke {
                color: Color(0x7a, 0x43, 0x10),
                width: 0.35,
                dash: &[1.8, 1.0],
            };
            (Color::WHITE, Some(stroke), Marks::None)
        }
        Piece::Fill => (Color(0xf6, 0xef, 0xd2), line(0.25), Marks::Slanted(-0.785)),
        Piece::Base => (Color(0xe4, 0xe6, 0xe2), line(0.25), Marks::Angular(1.6)),
        Piece::Backfill => (Color(0xee, 0xef, 0xec), line(0.25), Marks::Angular(2.4)),
        Piece::DeckBed => (Color(0xee, 0xef, 0xec), line(0.25), Marks::Angular(1.6)),
        Piece::Deck | Piece::Steps | Piece::Collar => {
            (Color(0xd8, 0xdb, 0xde), line(0.3), Marks::Dots)
        }
        Piece::Water => (Color(0xcd, 0xe8, 0xee), None, Marks::Level),
        Piece::Shell => (Color(0x22, 0x34, 0x3f), line(0.3), Marks::None),
    }
}

/// What fills a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Marks {
    None,
    /// Lines at an angle, radians.
    Slanted(f64),
    Level,
    Dots,
    /// Small triangles, so many millimeters apart.
    Angular(f64),
}

fn fill(pen: &mut Pen, window: &Window, piece: Piece, region: &Region) {
    let (color, stroke, marks) = look(piece);
    let place = |p: Point| window.place(p);
    let rings = region.rings();
    let outlines = rings.filter_map(|r| Outline::through(r.0.iter().map(|p| place(*p)), true));
    let ink = Ink {
        fill: Some(color),
        stroke,
    };
    pen.marks.push(Mark::Shape(outlines.collect(), ink));
    // Apart on paper, whatever the scale.
    let apart = |millimeters: f64| millimeters / window.per_meter();
    let mut lines = |angle: f64, spacing: f64, stroke: Stroke| {
        let lines = hatch(region, angle, apart(spacing)).into_iter();
        let outlines = lines.filter_map(|(a, b)| Outline::through([place(a), place(b)], false));
        let mark = Mark::Shape(outlines.collect(), Ink::line(stroke));
        pen.marks.push(mark);
    };
    match marks {
        Marks::None => {}
        Marks::Slanted(angle) => lines(angle, 2.6, Stroke::full(Color(0xc3, 0xb4, 0x8c), 0.13)),
        Marks::Level => {
            let stroke = Stroke {
                color: Color(0x86, 0xbf, 0xcd),
                width: 0.15,
                dash: &[4.0, 2.0],
            };
            lines(0.0, 2.8, stroke);
        }
        Marks::Dots => {
            for (at, turn) in scattered(region, apart(1.5)) {
                let radius = if turn == 0 { 0.22 } else { 0.13 };
                pen.disc(place(at), radius, Ink::filled(Color::BLACK));
            }
        }
        Marks::Angular(spacing) => {
            let mut stones = Vec::new();
            for (at, turn) in scattered(region, apart(spacing)) {
                let (p, r) = (place(at), spacing * 0.3);
                let lean = f64::from(turn) * 0.22 * r;
                let corners = [
                    Point::new(p.x - r + lean, p.y + r * 0.7),
                    Point::new(p.x + r, p.y + lean),
                    Point::new(p.x - lean, p.y - r),
                ];
                stones.extend(Outline::through(corners, true));
            }
            let ink = Ink::line(Stroke::full(Color(0x6a, 0x72, 0x76), 0.12));
            pen.marks.push(Mark::Shape(stones, ink));
        }
    }
}

/// Ground, water and groundwater as lines.
fn surfaces(pen: &mut Pen, window: &Window, section: &Section, groundwater: bool) {
    let place = |p: &Point| window.place(*p);
    let ground = Stroke {
        color: Color(0x4a, 0x34, 0x17),
        width: 0.25,
        dash: &[1.6, 1.0],
    };
    pen.path(section.ground.iter().map(place), false, Ink::line(ground));
    let height = |s: f64| {
        let pair = section.ground.windows(2).find_map(|it| match it {
            [a, b] if a.x <= s && s <= b.x => Some((*a, *b)),
            _ => None,
        });
        pair.map(|(a, b)| a.y + (b.y - a.y) * (s - a.x) / (b.x - a.x).max(1e-9))
    };
    for (from, to) in &section.stays {
        let between = section.ground.iter().filter(|p| p.x > *from && p.x < *to);
        let ends = [*from, *to].map(|s| height(s).map(|z| Point::new(s, z)));
        let [first, last] = ends;
        let points = first.iter().chain(between).chain(last.iter()).map(place);
        let stroke = Stroke::full(Color(0x4a, 0x34, 0x17), 0.5);
        pen.path(points.collect::<Vec<_>>(), false, Ink::line(stroke));
    }
    for bank in &section.banks {
        let stroke = Stroke::full(Color(0x1d, 0x4a, 0x1f), 0.5);
        pen.path(bank.iter().map(place), false, Ink::line(stroke));
    }
    let water = Color(0x14, 0x59, 0x7a);
    if let Some((level, stretches)) = &section.water {
        for (a, b) in stretches {
            let [from, to] = [*a, *b].map(|s| window.place(Point::new(s, *level)));
            pen.line(from, to, Stroke::full(water, 0.3));
            surface(pen, from.midpoint(to));
        }
    }
    if let Some(level) = section.groundwater.filter(|_| groundwater) {
        let [from, to] = [0.0, section.length].map(|s| window.place(Point::new(s, level)));
        let stroke = Stroke {
            color: water,
            width: 0.35,
            dash: &[3.4, 1.0, 0.6, 1.0],
        };
        pen.line(from, to, stroke);
        surface(pen, Point::new(from.x + 4.0, from.y));
    }
}

/// The sign of a water's surface: a triangle on its point.
fn surface(pen: &mut Pen, at: Point) {
    let corners = [(-1.2, -2.0), (1.2, -2.0), (0.0, 0.0)];
    let corners = corners.map(|(x, y)| Point::new(at.x + x, at.y + y));
    let ink = Ink {
        fill: Some(Color::WHITE),
        stroke: Some(Stroke::full(Color(0x14, 0x59, 0x7a), 0.25)),
    };
    pen.path(corners, true, ink);
}

/// A place well inside a region: its centroid, or where that lies outside (a U round the shell) the middle of its longest
/// level stretch.
fn middle(region: &Region) -> Option<Point> {
    const LEVELS: f64 = 8.0;
    let centroid = region.centroid()?;
    if region.contains(centroid) {
        return Some(centroid);
    }
    let (low, high) = region.bounds()?;
    let stretches = hatch(region, 0.0, (high.y - low.y) / LEVELS);
    let longest = stretches.into_iter().max_by(|a, b| {
        let length = |(from, to): &(Point, Point)| from.distance(*to);
        length(a).total_cmp(&length(b))
    });
    longest.map(|(from, to)| from.midpoint(to))
}

/// The names of what is cut and the figures to read, as the core places labels.
fn labels(section: &Section, language: Language, extras: &Extras) -> Drawing {
    let mut drawing = Drawing::default();
    let names = [
        Piece::Water,
        Piece::Backfill,
        Piece::Base,
        Piece::Fill,
        Piece::Deck,
    ];
    for piece in names {
        let region = section.region(piece);
        let largest = region.and_then(|region| {
            let parts = region.polygons.iter();
            parts.max_by(|a, b| a.outer.signed_area().total_cmp(&b.outer.signed_area()))
        });
        let Some(part) = largest else { continue };
        let alone = Region {
            polygons: vec![part.clone()],
        };
        let Some(at) = middle(&alone) else { continue };
        drawing.items.push(Item::Label {
            layer: Layer::Equipment,
            anchor: Anchor::Area {
                ring: part.outer.0.clone(),
                at,
                along: core::f64::consts::FRAC_PI_2,
            },
            text: language.piece(piece).to_owned(),
        });
    }
    if let Some(level) = section.groundwater {
        drawing.items.push(Item::Label {
            layer: Layer::Water { shade: 4 },
            anchor: Anchor::Point {
                at: Point::new(section.length * 0.12, level),
                toward: 0.0,
            },
            text: language.say("groundwater", "agua freática").to_owned(),
        });
    }
    for (key, it) in (0_u64..).zip(&section.dimensions) {
        drawing.items.push(Item::Measured {
            layer: Layer::Clearance,
            from: it.from,
            to: it.to,
            text: it.text.clone(),
            key,
            focused: false,
        });
    }
    if let (Some([a, b]), Some(first), Some(last)) =
        (extras.ends, section.ground.first(), section.ground.last())
    {
        for (name, at, toward) in [(a, first, 0.7), (b, last, -0.7)] {
            drawing.items.push(Item::Label {
                layer: Layer::BaseLine,
                anchor: Anchor::Point { at: *at, toward },
                text: name.to_owned(),
            });
        }
    }
    drawing
}
