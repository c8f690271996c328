//! What every plan carries: north arrow, scale bar, dimension lines; and the turning handle.

use core::f64::consts::FRAC_PI_2;

use batterboard_core::drawing;
use batterboard_core::geom::Vector;
use batterboard_core::lot::{Basis, MonumentState, North};
use batterboard_core::units::System;

use super::View;
use super::ink::{BLACK, Ink};
use super::pen::{Pen, Place};

const LINE: Ink = Ink {
    fill: "",
    stroke: BLACK,
    width: 1.5,
    dash: &[],
    text: BLACK,
    text_size: 12.0,
    text_from_scale: 0.0,
};
const SOLID: Ink = Ink {
    fill: BLACK,
    ..LINE
};
const HOLLOW: Ink = Ink {
    fill: "#fbf8ee",
    ..LINE
};
const KNOB: Ink = Ink {
    fill: "#ffffff",
    stroke: "#0b7a75",
    width: 3.0,
    ..LINE
};
const STALK: Ink = Ink {
    stroke: "#0b7a75",
    width: 2.5,
    ..LINE
};

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
        pen.shape(
            &arrow,
            &Ink {
                fill: "#0b7a75",
                stroke: "",
                ..LINE
            },
        );
    }
}

/// The north of the bearings is always up; the arrow says so, and which north that is. Where
/// true north is known and lies elsewhere, a thin arrow shows it.
pub fn north_arrow(pen: &mut Pen<'_>, view: &View, basis: &Basis) {
    let name = match basis.north {
        North::Unspecified => "N",
        North::True => "N, true",
        North::Grid => "N, grid",
        North::Magnetic => "N, magnetic",
        North::Assumed => "N, assumed",
        North::Record => "N, of record",
    };
    // Long names are set to the left, so that they stay on the canvas.
    #[allow(clippy::cast_precision_loss)] // A name has few characters.
    let aside = 3.4 * (name.len() - 1) as f64;
    let (x, top) = (view.width - MARGIN - 10.0 - aside, MARGIN);
    let tip = (x, top);
    let notch = (x, top + 27.0);
    pen.shape(&[tip, (x + 10.0, top + 36.0), notch], &SOLID);
    pen.shape(&[tip, (x - 10.0, top + 36.0), notch], &HOLLOW);
    pen.text((x, top + 48.0), FRAC_PI_2, name, &LINE);
    let off = basis.true_north.filter(|_| basis.north != North::True);
    if let Some(bearing) = off {
        let root = (x - 62.0 - aside, top + 36.0);
        let (dx, dy) = direction(bearing);
        let head = at(root, (dx, dy), 34.0);
        pen.line(root, head, &LINE);
        let back = at(head, (dx, dy), -10.0);
        let wings = [head, at(back, (-dy, dx), 4.0), at(back, (dy, -dx), 4.0)];
        pen.shape(&wings, &SOLID);
        pen.text((root.0, top + 48.0), FRAC_PI_2, "true N", &LINE);
    }
}

/// A mark at a corner: full where it was found, with a dot where it was set, crossed out where
/// it was not found, open where nobody has looked.
pub fn monument(pen: &mut Pen<'_>, place: Place, state: MonumentState) {
    const RADIUS: f64 = 5.5;
    let ring = if state == MonumentState::Found {
        &SOLID
    } else {
        &HOLLOW
    };
    pen.disc(place, RADIUS, ring);
    match state {
        MonumentState::Set => pen.disc(place, 1.8, &SOLID),
        MonumentState::NotFound => {
            let reach = RADIUS * 1.3;
            for slant in [(1.0, 1.0), (1.0, -1.0)] {
                pen.line(at(place, slant, reach), at(place, slant, -reach), &LINE);
            }
        }
        MonumentState::Found | MonumentState::NotSearched => {}
    }
}

/// A bar of a round length, in parts of two tones.
pub fn scale_bar(pen: &mut Pen<'_>, view: &View, system: System) {
    let longest = (view.width / 3.0).min(200.0) / view.scale;
    let bar = drawing::scale_bar(longest, system);
    let (left, base) = (MARGIN, view.height - MARGIN);
    let part = bar.length * view.scale / f64::from(bar.parts);
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

/// A dimension's line, with a slanted tick at each end.
pub fn dimension_line(pen: &mut Pen<'_>, from: Place, to: Place, ink: &Ink) {
    pen.line(from, to, ink);
    let (along, across) = axes(from, to);
    for end in [from, to] {
        let (a, b) = (
            at(at(end, along, 4.5), across, 4.5),
            at(at(end, along, -4.5), across, -4.5),
        );
        pen.line(a, b, ink);
    }
}

/// Where a dimension's text goes and the bearing it runs along: beside its line where the line
/// is long enough, level above it otherwise.
pub fn dimension_place(from: Place, to: Place) -> (Place, f64) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let middle = (from.0 + dx / 2.0, from.1 + dy / 2.0);
    let span = Vector::new(dx, -dy);
    if span.length() < 64.0 {
        return ((middle.0, middle.1 - 13.0), FRAC_PI_2);
    }
    // Read from the bottom or the right: the bearing that points rightwards.
    let along = if dx < 0.0 {
        (-span).bearing()
    } else {
        span.bearing()
    };
    let lift = Vector::along_bearing(along - FRAC_PI_2) * 11.0;
    ((middle.0 + lift.x, middle.1 - lift.y), along)
}

/// The direction on the canvas of a bearing.
pub fn direction(bearing: f64) -> Place {
    let along = Vector::along_bearing(bearing);
    (along.x, -along.y)
}

/// The unit vectors along and across a line on the canvas; along x for a line of no length.
fn axes(from: Place, to: Place) -> (Place, Place) {
    let along = Vector::new(to.0 - from.0, to.1 - from.1)
        .unit()
        .unwrap_or(Vector::new(1.0, 0.0));
    ((along.x, along.y), (-along.y, along.x))
}

fn at(from: Place, direction: Place, distance: f64) -> Place {
    (
        from.0 + direction.0 * distance,
        from.1 + direction.1 * distance,
    )
}
