//! Signs of a fixed size on the screen: dimension lines and marks at corners.

use batterboard_core::geom::Vector;
use batterboard_core::lot::MonumentState;

use super::ink::Ink;
use super::ink::sign::{HOLLOW, LINE, SOLID};
use super::pen::{Pen, Place};

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

/// A tape's line, with a ring at each end.
pub fn tape(pen: &mut Pen<'_>, from: Place, to: Place, ink: &Ink) {
    pen.line(from, to, ink);
    let ring = Ink {
        fill: HOLLOW.fill,
        dash: &[],
        ..*ink
    };
    for end in [from, to] {
        pen.disc(end, 4.0, &ring);
    }
}

/// The direction on the canvas of a bearing.
pub fn direction(bearing: f64) -> Place {
    let along = Vector::along_bearing(bearing);
    (along.x, -along.y)
}

/// The unit vectors along and across a line on the canvas; along x for a line of no length.
pub fn axes(from: Place, to: Place) -> (Place, Place) {
    let along = Vector::new(to.0 - from.0, to.1 - from.1)
        .unit()
        .unwrap_or(Vector::new(1.0, 0.0));
    ((along.x, along.y), (-along.y, along.x))
}

/// The place so many CSS pixels from another in a direction.
pub fn at(from: Place, direction: Place, distance: f64) -> Place {
    (
        from.0 + direction.0 * distance,
        from.1 + direction.1 * distance,
    )
}
