//! Where photographs were taken, on a plan: a dot at the place, a wedge the way it looks, and its number in a disc beside it.
//!
//! A disc stands behind its place, away from what the photograph shows, and where others stand there already it goes round
//! them and farther off, with a line to its place; so each number is read, however many were taken at one spot.

use batterboard_core::geom::{Point, Vector};
use batterboard_core::math::{self, TURN};
use batterboard_core::site::Photograph;

use crate::face::Face;
use crate::mark::{Area, Color, Ink, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::plan::Window;

/// The number in a disc, and the disc, millimeters before lettering grows them.
const NUMBER: Style = Style::heavy(7.0);
const RADIUS: f64 = 2.1;
/// Between two discs, millimeters.
const APART: f64 = 0.4;
/// How far a wedge reaches, and half of what it opens by, radians (our choice: about what a phone sees).
const REACH: f64 = 7.0;
const HALF_OPENING: f64 = TURN / 15.0;
/// How many ways from its place a disc may stand, and how many times farther off each.
const WAYS: u32 = 24;
const RINGS: u32 = 40;

const WEDGE: Color = Color(0xf2, 0xd3, 0x9a);
const EDGE: Color = Color(0x6b, 0x3d, 0x12);

/// Puts the pins of photographs over a plan; numbers count from 1 in their order.
pub fn put(pen: &mut Pen, window: &Window, photographs: &[Photograph]) {
    let grown = window.lettering;
    let places: Vec<Point> = photographs.iter().map(|it| window.place(it.at)).collect();
    let edge = Stroke::full(EDGE, 0.25 * grown);
    for (it, at) in photographs.iter().zip(&places) {
        let Some(bearing) = it.bearing else { continue };
        let side = |by: f64| *at + ahead(bearing + by) * (REACH * grown);
        let steps = [
            -HALF_OPENING,
            -HALF_OPENING / 2.0,
            0.0,
            HALF_OPENING / 2.0,
            HALF_OPENING,
        ];
        let round = steps.map(side);
        let ink = Ink {
            fill: Some(WEDGE),
            stroke: Some(edge.clone()),
        };
        pen.path(core::iter::once(*at).chain(round), true, ink);
    }
    let mut discs: Vec<Point> = Vec::new();
    for (number, (it, at)) in photographs.iter().zip(&places).enumerate() {
        let Some(disc) = free(window, *at, it.bearing, &discs) else {
            continue;
        };
        pen.line(*at, disc, edge.clone());
        pen.disc(*at, 0.7 * grown, Ink::filled(EDGE));
        let ink = Ink {
            fill: Some(Color::WHITE),
            stroke: Some(Stroke::full(EDGE, 0.35 * grown)),
        };
        pen.disc(disc, RADIUS * grown, ink);
        let style = Style {
            points: NUMBER.points * grown,
            ..NUMBER
        };
        let base = disc + Vector::new(0.0, style.size() * Face::CAPITAL / 2.0);
        pen.text(base, Lean::Middle, &(number + 1).to_string(), style);
        discs.push(disc);
    }
}

/// A unit vector of the paper along a bearing of the site, whose north is up.
fn ahead(bearing: f64) -> Vector {
    Vector::new(math::sin(bearing), -math::cos(bearing))
}

/// The first place for a disc that no other has: behind its point, then round it, then farther off.
fn free(window: &Window, at: Point, bearing: Option<f64>, taken: &[Point]) -> Option<Point> {
    let grown = window.lettering;
    let behind = bearing.unwrap_or_default() + TURN / 2.0;
    let apart = (2.0 * RADIUS + APART) * grown;
    let room = window.area.inset((RADIUS + APART) * grown);
    let holds = |p: Point, area: &Area| {
        p.x >= area.x && p.x <= area.right() && p.y >= area.y && p.y <= area.bottom()
    };
    for ring in 0..RINGS {
        let reach = (RADIUS + 1.2 + apart / grown * f64::from(ring)) * grown;
        for way in 0..WAYS {
            // To one side and the other by turns.
            let step = f64::from(way.div_ceil(2)) * TURN / f64::from(WAYS);
            let turn = if way % 2 == 0 { step } else { -step };
            let p = at + ahead(behind + turn) * reach;
            if holds(p, &room) && taken.iter().all(|it| it.distance(p) >= apart) {
                return Some(p);
            }
        }
    }
    None
}
