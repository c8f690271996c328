//! What every plan carries: north arrow, scale bar; and the turning handle.

use core::f64::consts::FRAC_PI_2;

use crate::paint::View;
use crate::paint::ink::sign::{ARROW, FREE, HOLLOW, KNOB, LINE, RING, SOLID, STALK};
use crate::paint::pen::{Pen, Place};
use crate::paint::sign::{at, axes, direction};
use batterboard_core::drawing;
use batterboard_core::drawing::placement::TextBox;
use batterboard_core::geom::{Point, Vector};
use batterboard_core::lot::{Basis, North};
use batterboard_core::session::TurnRing;
use batterboard_core::units::System;

/// How far inside the ring its free headings run, CSS pixels.
const FREE_INSIDE: f64 = 24.0;

/// From the north arrow to the second one, CSS pixels.
const SECOND_NORTH: f64 = 62.0;

/// Half the side of what a turning handle's knob covers, CSS pixels.
pub const KNOB_ROOM: f64 = 16.0;

/// Distance of north arrow and scale bar from the canvas's edges, CSS pixels.
const MARGIN: f64 = 22.0;

/// The handle that turns the shell: a knob on a stalk, with two small arrowheads on it.
pub fn handle(pen: &mut Pen<'_>, rim: Place, knob: Place) {
    pen.line(rim, knob, &STALK);
    pen.disc(knob, 13.0, &KNOB);
    let (along, across) = axes(rim, knob);
    for side in [1.0, -1.0] {
        let tip = at(knob, across, side * 8.0);
        let tail = at(knob, across, side * 2.5);
        let arrow = [tip, at(tail, along, 4.0), at(tail, along, -4.0)];
        pen.shape(&arrow, &ARROW);
    }
}

/// The ring round the shell while it is turned, with a pointer at its heading and the figure of that.
pub fn turn_ring(pen: &mut Pen<'_>, view: &View, ring: &TurnRing) {
    let middle = view.place(ring.middle);
    let radius = ring.radius * view.scale;
    pen.disc(middle, radius, &RING);
    let marks = ring.marks.iter();
    let ends = marks.map(|(a, b)| (view.place(*a), view.place(*b)));
    pen.lines(ends, &STALK);
    // Inside the ring, beside its marks: where the shell may be turned to.
    let free = (ring.radius - FREE_INSIDE / view.scale).max(0.0);
    for range in &ring.free {
        let at = |heading: f64| view.place(on_ring(ring, heading, free));
        let along = range.points();
        let ends = along.clone().zip(along.skip(1));
        pen.lines(ends.map(|(from, to)| (at(from), at(to))), &FREE);
    }
    let along = direction(ring.heading);
    pen.line(middle, at(middle, along, radius), &RING);
    pen.text(beyond(view, ring), FRAC_PI_2, &ring.text, &RING);
}

/// A place inside the ring, in the direction of a heading.
fn on_ring(ring: &TurnRing, heading: f64, radius: f64) -> Point {
    ring.middle + Vector::along_bearing(heading) * radius
}

/// Where the ring's figure stands: beyond the handle.
fn beyond(view: &View, ring: &TurnRing) -> Place {
    let along = direction(ring.heading);
    let out = ring.radius * view.scale + 26.0 + 22.0 * along.0.abs();
    let (x, y) = at(view.place(ring.middle), along, out);
    (
        x.clamp(40.0, (view.width - 40.0).max(40.0)),
        y.clamp(14.0, (view.height - 14.0).max(14.0)),
    )
}

/// What the ring's figure covers.
pub fn ring_text(view: &View, ring: &TurnRing) -> TextBox {
    let (x, y) = beyond(view, ring);
    TextBox::between(
        Point::new(x - 42.0, y - 12.0),
        Point::new(x + 42.0, y + 12.0),
    )
}

/// What is written under the north arrow.
fn north_name(basis: &Basis) -> &'static str {
    match basis.north {
        North::Unspecified => "N",
        North::True => "N, true",
        North::Grid => "N, grid",
        North::Magnetic => "N, magnetic",
        North::Assumed => "N, assumed",
        North::Record => "N, of record",
    }
}

/// The tip of the north arrow. Long names are set to the left, so that they stay on the canvas.
#[allow(clippy::cast_precision_loss)] // A name has few characters.
fn north_tip(view: &View, basis: &Basis) -> Place {
    let aside = 3.4 * (north_name(basis).len() - 1) as f64;
    (view.width - MARGIN - 10.0 - aside, MARGIN)
}

/// The bearing of true north, where a second arrow shows it.
fn second_north(basis: &Basis) -> Option<f64> {
    basis.true_north.filter(|_| basis.north != North::True)
}

/// What north arrow and scale bar cover, with their text.
pub fn covered(view: &View, basis: &Basis, system: System) -> [TextBox; 2] {
    let (x, top) = north_tip(view, basis);
    let right = view.width - MARGIN + 10.0;
    // Its name is centerd under the arrow.
    let left = 2.0 * x - right;
    let left = match second_north(basis) {
        Some(_) => left.min(x - (right - x) - SECOND_NORTH) - 24.0,
        None => left,
    };
    let (bar, part) = bar(view, system);
    let end = MARGIN + part * f64::from(bar.parts);
    let base = view.height - MARGIN;
    let between = |a: Place, b: Place| TextBox::between(Point::new(a.0, a.1), Point::new(b.0, b.1));
    [
        between((left.min(x - 14.0), top - 4.0), (view.width, top + 58.0)),
        // Half of the text at its end reaches beyond it.
        between((0.0, base - 27.0), (end + 26.0, base + 4.0)),
    ]
}

/// The bar that suits a view, and how long each part of it is, CSS pixels.
fn bar(view: &View, system: System) -> (drawing::ScaleBar, f64) {
    let longest = (view.width / 3.0).min(200.0) / view.scale;
    let bar = drawing::scale_bar(longest, system);
    let part = bar.length * view.scale / f64::from(bar.parts);
    (bar, part)
}

/// The north of the bearings is always up; the arrow says so, and which north that is. Where
/// true north is known and lies elsewhere, a thin arrow shows it.
pub fn north_arrow(pen: &mut Pen<'_>, view: &View, basis: &Basis) {
    let name = north_name(basis);
    let (x, top) = north_tip(view, basis);
    let tip = (x, top);
    let notch = (x, top + 27.0);
    pen.shape(&[tip, (x + 10.0, top + 36.0), notch], &SOLID);
    pen.shape(&[tip, (x - 10.0, top + 36.0), notch], &HOLLOW);
    pen.text((x, top + 48.0), FRAC_PI_2, name, &LINE);
    if let Some(bearing) = second_north(basis) {
        let aside = view.width - MARGIN - 10.0 - x;
        let root = (x - SECOND_NORTH - aside, top + 36.0);
        let (dx, dy) = direction(bearing);
        let head = at(root, (dx, dy), 34.0);
        pen.line(root, head, &LINE);
        let back = at(head, (dx, dy), -10.0);
        let wings = [head, at(back, (-dy, dx), 4.0), at(back, (dy, -dx), 4.0)];
        pen.shape(&wings, &SOLID);
        pen.text((root.0, top + 48.0), FRAC_PI_2, "true N", &LINE);
    }
}

/// A bar of a round length, in parts of two tones.
pub fn scale_bar(pen: &mut Pen<'_>, view: &View, system: System) {
    let (bar, part) = bar(view, system);
    let (left, base) = (MARGIN, view.height - MARGIN);
    for i in 0..bar.parts {
        let x = left + part * f64::from(i);
        let corners = [
            (x, base),
            (x + part, base),
            (x + part, base - 7.0),
            (x, base - 7.0),
        ];
        pen.shape(&corners, if i % 2 == 0 { &SOLID } else { &HOLLOW });
    }
    let end = left + part * f64::from(bar.parts);
    pen.text((left, base - 17.0), FRAC_PI_2, "0", &LINE);
    pen.text((end, base - 17.0), FRAC_PI_2, &bar.text, &LINE);
}
