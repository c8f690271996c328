//! Inks of what a hand is at.

use super::sign::TURNS;
use super::{BLACK, Ink};

/// The ink of hands: dark on paper, unlike any other line of the plan.
const HAND: &str = "#6b1f66";

/// A path drawn, the length of a stretch.
pub const DRAWN: Ink = Ink {
    fill: "",
    stroke: HAND,
    width: 3.5,
    dash: &[],
    text: BLACK,
    text_size: 14.0,
    text_from_scale: 0.0,
};
/// The stretch that is in the hand.
pub const IN_HAND: Ink = Ink {
    dash: &[10.0, 5.0],
    ..DRAWN
};
/// The lines that show why a point is where it is.
pub const GUIDE: Ink = Ink {
    stroke: TURNS,
    width: 2.0,
    dash: &[3.0, 5.0],
    ..DRAWN
};
/// A corner's handle.
pub const CORNER: Ink = Ink {
    fill: "#ffffff",
    width: 3.0,
    ..DRAWN
};
/// The same, picked.
pub const PICKED: Ink = Ink {
    fill: HAND,
    ..CORNER
};
/// The edge of paper along a path, so that it reads over lines.
pub const PAPER_EDGE: Ink = Ink {
    stroke: "rgba(255, 255, 255, 0.9)",
    width: 7.5,
    ..DRAWN
};

/// All of these.
#[cfg(test)]
#[allow(dead_code)] // The tests of inks are a crate of their own.
pub const ALL: [Ink; 6] = [DRAWN, IN_HAND, GUIDE, CORNER, PICKED, PAPER_EDGE];
