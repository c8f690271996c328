//! Inks of the section, and of its line on the plan.

use batterboard_core::section::Piece;

use super::{BLACK, Ink};

/// Nothing but text.
pub const TEXT: Ink = Ink {
    fill: "",
    stroke: "",
    width: 1.0,
    dash: &[],
    text: BLACK,
    text_size: 12.0,
    text_from_scale: 0.0,
};

/// Paper of the section.
pub const SHEET: &str = "#fcf9f0";

/// Axes and their marks.
pub const LINE: Ink = Ink {
    stroke: BLACK,
    ..TEXT
};

/// The ground's surface as it is.
pub const GROUND: Ink = Ink {
    stroke: "#4a3417",
    width: 2.5,
    ..TEXT
};

/// The same where nobody surveyed it.
pub const ASSUMED: Ink = Ink {
    stroke: "#9c2f1f",
    dash: &[6.0, 5.0],
    width: 2.5,
    ..TEXT
};

/// The finished ground along banks.
pub const FINISHED: Ink = Ink {
    stroke: "#1d4a1f",
    text: "#173c19",
    width: 3.5,
    ..TEXT
};

/// What groundwater and the water's surface are drawn in.
pub const WATER: Ink = Ink {
    stroke: "#14597a",
    text: "#0d4058",
    width: 1.5,
    ..TEXT
};

/// Groundwater.
pub const GROUNDWATER: Ink = Ink {
    dash: &[14.0, 5.0, 3.0, 5.0],
    width: 2.0,
    ..WATER
};

/// Dimension lines and their figures.
pub const DIMENSION: Ink = Ink {
    stroke: "#7a1f5c",
    text: "#5e1446",
    width: 1.25,
    ..TEXT
};

/// Faint lines behind everything.
pub const GRID: Ink = Ink {
    stroke: "#ddd6c2",
    ..TEXT
};

/// The section's line on the plan.
pub const ON_PLAN: Ink = Ink {
    stroke: "#7a1f5c",
    text: "#5e1446",
    width: 2.5,
    dash: &[16.0, 4.0, 4.0, 4.0],
    text_size: 16.0,
    ..TEXT
};

/// The names of the line's ends.
pub const ENDS: Ink = Ink {
    text_size: 16.0,
    ..DIMENSION
};

/// What the line is pulled by.
pub const KNOB: Ink = Ink {
    fill: SHEET,
    dash: &[],
    ..ON_PLAN
};

/// The arrows at its ends.
pub const HEAD: Ink = Ink {
    fill: "#7a1f5c",
    dash: &[],
    ..ON_PLAN
};

/// The lines of ground.
pub const SLANTED: Ink = Ink {
    stroke: "#a08d5e",
    ..LINE
};

/// The lines of water.
pub const LEVEL: Ink = Ink {
    stroke: "#6fb3c4",
    dash: &[18.0, 9.0],
    ..LINE
};

/// The dots of concrete.
pub const SPECKLED: Ink = Ink {
    fill: BLACK,
    ..TEXT
};

/// The angular marks of stone.
pub const STONES: Ink = Ink {
    stroke: "#4c5358",
    ..LINE
};

/// All of these but the pieces' own ([`look`]).
#[cfg(test)]
#[allow(dead_code)] // The tests of inks are a crate of their own.
pub const ALL: [Ink; 17] = [
    TEXT,
    LINE,
    GROUND,
    ASSUMED,
    FINISHED,
    WATER,
    GROUNDWATER,
    DIMENSION,
    GRID,
    ON_PLAN,
    ENDS,
    KNOB,
    HEAD,
    SLANTED,
    LEVEL,
    SPECKLED,
    STONES,
];

/// The angle of the lines that ground is hatched with, radians.
const RISING: f64 = 0.785;

/// How a piece is drawn: its color, its line, and its marks.
pub fn look(piece: Piece) -> (Ink, Marks) {
    let (fill, width, marks) = match piece {
        Piece::Soil => ("#e6dcc3", 0.0, Marks::Slanted(RISING)),
        Piece::Dig => ("#fcf9f0", 1.5, Marks::None),
        Piece::Fill => ("#f1e6b8", 1.0, Marks::Slanted(-RISING)),
        Piece::Base => ("#d7d9d3", 1.0, Marks::Angular(9.0)),
        Piece::Backfill => ("#e3e4df", 1.0, Marks::Angular(13.0)),
        Piece::DeckBed => ("#e3e4df", 1.0, Marks::Angular(9.0)),
        Piece::Deck | Piece::Steps | Piece::Collar => ("#cfd2d6", 1.5, Marks::Dots),
        Piece::Water => ("#bfe3ea", 0.0, Marks::Level),
        Piece::Shell => ("#22343f", 1.5, Marks::None),
    };
    let stroke = match piece {
        Piece::Soil | Piece::Water => "",
        Piece::Dig => "#9c2f1f",
        _ => BLACK,
    };
    let dash: &[f64] = if piece == Piece::Dig {
        &[7.0, 4.0]
    } else {
        &[]
    };
    let ink = Ink {
        fill,
        stroke,
        width,
        dash,
        ..TEXT
    };
    (ink, marks)
}

/// What fills a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Marks {
    /// Nothing.
    None,
    /// Lines at an angle, radians.
    Slanted(f64),
    /// Level lines.
    Level,
    /// Dots, large and small.
    Dots,
    /// Small triangles, so many pixels apart.
    Angular(f64),
}
