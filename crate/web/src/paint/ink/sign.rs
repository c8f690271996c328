//! Inks of signs, of the north arrow and the scale bar, and of what turns the shell.

use super::{BLACK, Ink, LOT};

/// The color of what turns the shell, and of what it has snapped to.
pub const TURNS: &str = "#0b7a75";

/// A plain thin line.
pub const LINE: Ink = Ink {
    fill: "",
    stroke: BLACK,
    width: 1.5,
    dash: &[],
    text: BLACK,
    text_size: 12.0,
    text_from_scale: 0.0,
};

/// The same, its shapes filled with ink.
pub const SOLID: Ink = Ink {
    fill: BLACK,
    ..LINE
};

/// The same, its shapes filled with paper.
pub const HOLLOW: Ink = Ink { fill: LOT, ..LINE };

/// The knob of a turning handle.
pub const KNOB: Ink = Ink {
    fill: "#ffffff",
    stroke: TURNS,
    width: 3.0,
    ..LINE
};
/// Its stalk, and the marks of the ring.
pub const STALK: Ink = Ink {
    stroke: TURNS,
    width: 2.5,
    ..LINE
};

/// The ring of headings, with its figure.
pub const RING: Ink = Ink {
    stroke: TURNS,
    width: 1.5,
    text: "#084f4c",
    text_size: 16.0,
    ..LINE
};

/// A range of headings at which nothing falls short.
pub const FREE: Ink = Ink {
    stroke: "#2f6b27",
    width: 7.0,
    ..LINE
};

/// The arrowheads on the knob.
pub const ARROW: Ink = Ink {
    fill: TURNS,
    stroke: "",
    ..LINE
};

/// All of these.
#[cfg(test)]
#[allow(dead_code)] // The tests of inks are a crate of their own.
pub const ALL: [Ink; 8] = [LINE, SOLID, HOLLOW, KNOB, STALK, RING, FREE, ARROW];
