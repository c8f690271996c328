//! How each layer looks on the screen.
//!
//! Made for a tablet in sunlight: dark ink on pale paper, and nothing told by color alone
//! (every kind of line also has its own dash, every hatch its own slant, every shortfall its
//! own words). The boundary is drawn long dash and two short, as drafting convention has it.
//! Buried lines have the colors of the APWA uniform color code, and are named besides.
//!
//! Colors are written down once, for light paper. What another [`theme`] makes of them is worked out when the pen sets them.
//! Inks of what is no layer of the drawing stand in [`sign`], [`hand`] and [`section`].

pub mod color;
pub mod hand;
pub mod section;
pub mod sign;
pub mod theme;

use batterboard_core::drawing::Layer;
use batterboard_core::site::{FeatureKind, Utility};

/// The canvas outside the lot.
pub const PAPER: &str = "#e7e2d3";

/// The ground of the lot.
pub const LOT: &str = "#fbf8ee";

/// The halo round text, so that it reads over lines.
pub const HALO: &str = "rgba(252, 249, 240, 0.88)";

/// Plain ink.
pub const BLACK: &str = "#1c2428";

/// The look of one layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ink {
    /// Color of areas; empty for none.
    pub fill: &'static str,
    /// Color of lines; empty for none.
    pub stroke: &'static str,
    /// Width of lines, CSS pixels.
    pub width: f64,
    /// Dashes and gaps, CSS pixels; empty for a full line.
    pub dash: &'static [f64],
    /// Color of text.
    pub text: &'static str,
    /// Size of text, CSS pixels.
    pub text_size: f64,
    /// The scale (CSS pixels per meter) from which text is shown.
    pub text_from_scale: f64,
}

const PLAIN: Ink = Ink {
    fill: "",
    stroke: BLACK,
    width: 1.25,
    dash: &[],
    text: BLACK,
    text_size: 12.0,
    text_from_scale: 5.0,
};

const SOLID_LINE: &[f64] = &[];
const LONG_TWO_SHORT: &[f64] = &[22.0, 5.0, 5.0, 5.0, 5.0, 5.0];
const DASHED: &[f64] = &[9.0, 6.0];
const SHORT_DASHED: &[f64] = &[4.0, 4.0];
const DOTTED: &[f64] = &[1.5, 4.5];
const DASH_DOT: &[f64] = &[12.0, 4.0, 2.0, 4.0];
const DASH_TWO_DOTS: &[f64] = &[14.0, 4.0, 2.0, 4.0, 2.0, 4.0];

/// The look of a layer.
pub fn ink(layer: Layer) -> Ink {
    match layer {
        Layer::Lot => Ink {
            fill: LOT,
            stroke: "",
            ..PLAIN
        },
        Layer::LotLine => Ink {
            width: 2.5,
            dash: LONG_TWO_SHORT,
            text_size: 13.0,
            text_from_scale: 3.0,
            ..PLAIN
        },
        Layer::SideKind => Ink {
            text: "#3c484d",
            text_size: 11.5,
            text_from_scale: 5.0,
            ..PLAIN
        },
        Layer::Monument(_) => Ink {
            text_size: 11.5,
            text_from_scale: 6.0,
            ..PLAIN
        },
        Layer::Setback => Ink {
            stroke: "rgba(106, 61, 143, 0.62)",
            width: 1.0,
            text: "#55307a",
            dash: DASH_DOT,
            text_size: 11.0,
            text_from_scale: 9.0,
            ..PLAIN
        },
        Layer::Feature(kind) => feature(kind),
        Layer::Hatch(kind) => Ink {
            fill: "",
            width: 0.7,
            dash: SOLID_LINE,
            ..feature(kind)
        },
        Layer::Buried(utility) => buried(utility),
        Layer::Mark(utility) => Ink {
            text: letter(utility),
            text_size: 12.0,
            text_from_scale: 4.0,
            ..PLAIN
        },
        Layer::OverheadMark => Ink {
            text_size: 11.0,
            text_from_scale: 4.0,
            ..PLAIN
        },
        Layer::Gap => Ink {
            stroke: LOT,
            width: 6.0,
            ..PLAIN
        },
        Layer::Swing => Ink {
            width: 1.25,
            ..PLAIN
        },
        Layer::Trunk => Ink {
            fill: "#6b4a2b",
            stroke: "#3b2715",
            width: 1.0,
            ..PLAIN
        },
        Layer::Protection => Ink {
            stroke: "#3d6130",
            width: 1.5,
            dash: SHORT_DASHED,
            ..PLAIN
        },
        Layer::Spot => Ink {
            fill: "#5d6b70",
            stroke: "",
            text: "#4a575c",
            text_size: 10.5,
            text_from_scale: 11.0,
            ..PLAIN
        },
        Layer::Contour { index } => Ink {
            stroke: "#8a6a3c",
            width: if index { 1.5 } else { 0.75 },
            text: "#5f4521",
            text_size: if index { 11.5 } else { 10.5 },
            text_from_scale: 7.0,
            ..PLAIN
        },
        Layer::Breakline => Ink {
            stroke: "#5f4521",
            width: 2.0,
            dash: &[10.0, 3.0, 3.0, 3.0],
            ..PLAIN
        },
        Layer::UnknownGround => Ink {
            stroke: "rgba(60, 66, 70, 0.42)",
            width: 0.8,
            dash: &[7.0, 5.0],
            text: "#3c4246",
            text_size: 12.0,
            text_from_scale: 3.5,
            ..PLAIN
        },
        Layer::Benchmark => Ink {
            fill: BLACK,
            width: 1.75,
            text_size: 11.5,
            ..PLAIN
        },
        Layer::ClearGround => Ink {
            fill: "rgba(74, 140, 63, 0.20)",
            stroke: "#2f6b27",
            width: 1.75,
            dash: DASH_DOT,
            text: "#24541e",
            text_size: 12.0,
            text_from_scale: 4.0,
        },
        Layer::Dig => Ink {
            fill: "rgba(168, 107, 48, 0.20)",
            stroke: "",
            ..PLAIN
        },
        Layer::DigEdge => Ink {
            stroke: "#8a4d12",
            width: 1.75,
            ..PLAIN
        },
        Layer::Hachure => Ink {
            stroke: "rgba(138, 77, 18, 0.75)",
            width: 0.9,
            ..PLAIN
        },
        Layer::OverDig => Ink {
            stroke: "#8a4d12",
            width: 1.0,
            dash: SHORT_DASHED,
            ..PLAIN
        },
        Layer::Deck => Ink {
            fill: "rgba(203, 199, 188, 0.82)",
            stroke: "#77736a",
            width: 1.0,
            ..PLAIN
        },
        Layer::Collar => Ink {
            stroke: "#77736a",
            width: 1.0,
            dash: DOTTED,
            ..PLAIN
        },
        Layer::Coping => Ink {
            fill: "#f3ecd9",
            stroke: BLACK,
            width: 1.5,
            ..PLAIN
        },
        Layer::Water { shade } => Ink {
            fill: water(shade),
            stroke: "",
            text: "#08303f",
            text_size: 11.5,
            text_from_scale: 14.0,
            ..PLAIN
        },
        Layer::FloorBreak => Ink {
            stroke: "rgba(8, 48, 63, 0.45)",
            width: 0.8,
            ..PLAIN
        },
        Layer::Equipment => Ink {
            fill: "#d5dbdd",
            stroke: BLACK,
            width: 1.5,
            text_size: 11.0,
            text_from_scale: 16.0,
            ..PLAIN
        },
        Layer::Bank => Ink {
            stroke: "#7a4310",
            width: 1.75,
            dash: DASH_TWO_DOTS,
            text: "#5f330a",
            text_size: 11.5,
            text_from_scale: 6.0,
            ..PLAIN
        },
        Layer::Pile => Ink {
            fill: "rgba(140, 95, 45, 0.28)",
            stroke: "#6b3d12",
            width: 1.75,
            dash: SHORT_DASHED,
            text: "#4a2908",
            text_size: 12.0,
            text_from_scale: 4.0,
        },
        Layer::Joint => Ink {
            stroke: "rgba(28, 36, 40, 0.55)",
            width: 0.9,
            ..PLAIN
        },
        Layer::Tie => Ink {
            stroke: "#5a2a12",
            width: 1.1,
            ..PLAIN
        },
        // To the pump dashed, from it full; each is named besides.
        Layer::Pipe { suction } => Ink {
            stroke: "#20306b",
            width: 2.2,
            dash: if suction { DASHED } else { SOLID_LINE },
            text: "#16224f",
            text_size: 12.0,
            text_from_scale: 8.0,
            ..PLAIN
        },
        Layer::Strap => Ink {
            fill: "#20306b",
            stroke: "#20306b",
            ..PLAIN
        },
        Layer::Standpipe => Ink {
            fill: "#f3f7f8",
            stroke: "#08303f",
            width: 2.0,
            text: "#08303f",
            text_size: 11.0,
            text_from_scale: 22.0,
            ..PLAIN
        },
        Layer::Axis => Ink {
            stroke: "rgba(8, 48, 63, 0.55)",
            width: 1.0,
            dash: DASH_DOT,
            ..PLAIN
        },
        Layer::Focus => Ink {
            fill: "rgba(240, 173, 0, 0.38)",
            stroke: "#b97900",
            width: 4.0,
            ..PLAIN
        },
        Layer::FocusLine => Ink {
            stroke: "rgba(240, 173, 0, 0.7)",
            width: 10.0,
            ..PLAIN
        },
        Layer::Stake => Ink {
            fill: "#16222b",
            stroke: "#ffffff",
            width: 1.0,
            text: "#16222b",
            text_size: 11.0,
            text_from_scale: 0.0,
            ..PLAIN
        },
        Layer::BaseLine => Ink {
            fill: "#7a1f5c",
            stroke: "#7a1f5c",
            width: 1.5,
            dash: &[9.0, 4.0],
            text: "#7a1f5c",
            text_size: 15.0,
            text_from_scale: 0.0,
        },
        Layer::Tape => Ink {
            stroke: "#7a1f5c",
            text: "#7a1f5c",
            width: 2.0,
            dash: &[9.0, 4.0],
            text_size: 13.0,
            text_from_scale: 0.0,
            ..PLAIN
        },
        Layer::Clearance => Ink {
            stroke: "#0d5c3a",
            text: "#0d5c3a",
            width: 1.5,
            text_size: 13.0,
            text_from_scale: 0.0,
            ..PLAIN
        },
        Layer::Shortfall => Ink {
            stroke: "#b0121b",
            text: "#b0121b",
            width: 3.0,
            text_size: 14.0,
            text_from_scale: 0.0,
            ..PLAIN
        },
    }
}

/// Water, from shallow to deep.
fn water(shade: u8) -> &'static str {
    match shade {
        0 => "#c4e8ea",
        1 => "#9fd6df",
        2 => "#78c0d1",
        3 => "#4da3bd",
        _ => "#2c84a4",
    }
}

fn feature(kind: FeatureKind) -> Ink {
    use FeatureKind as K;
    match kind {
        K::House => Ink {
            fill: "#e2dccb",
            width: 2.5,
            text_size: 13.0,
            ..PLAIN
        },
        K::Outbuilding => Ink {
            fill: "#e9e4d6",
            width: 1.75,
            ..PLAIN
        },
        K::Wall => Ink {
            fill: "#bdb7a8",
            width: 4.0,
            ..PLAIN
        },
        K::Fence => Ink {
            width: 1.5,
            dash: &[14.0, 3.0, 3.0, 3.0],
            text_size: 11.0,
            text_from_scale: 9.0,
            ..PLAIN
        },
        K::Deck | K::DeckSteps => Ink {
            fill: "rgba(214, 205, 183, 0.75)",
            stroke: "#6f6a5c",
            text_size: 11.0,
            ..PLAIN
        },
        K::DeckOpening => Ink {
            fill: "#dfe6d5",
            stroke: "#6f6a5c",
            text_size: 11.0,
            ..PLAIN
        },
        K::PipeTrench => Ink {
            stroke: "#5b4a2f",
            width: 2.0,
            dash: DASHED,
            text_size: 11.0,
            ..PLAIN
        },
        K::SpoilSpace => Ink {
            fill: "rgba(150, 111, 51, 0.10)",
            stroke: "#6b4b16",
            dash: DASHED,
            text_size: 11.0,
            ..PLAIN
        },
        K::Driveway | K::Walk => Ink {
            fill: "#ebe7dc",
            stroke: "#8b877c",
            text_size: 11.0,
            ..PLAIN
        },
        K::Tree => Ink {
            fill: "rgba(92, 132, 74, 0.28)",
            stroke: "#3d6130",
            text: "#2f4c25",
            text_size: 11.0,
            text_from_scale: 9.0,
            ..PLAIN
        },
        K::Easement => Ink {
            fill: "rgba(120, 90, 150, 0.07)",
            stroke: "#6b5780",
            text: "#4d3b60",
            dash: DASHED,
            ..PLAIN
        },
        K::SepticTank => Ink {
            fill: "#dfe6d5",
            stroke: "#4c5b34",
            text: "#3c4828",
            text_size: 11.0,
            ..PLAIN
        },
        K::SepticField => Ink {
            fill: "rgba(128, 146, 90, 0.16)",
            stroke: "#4c5b34",
            text: "#3c4828",
            dash: DASHED,
            ..PLAIN
        },
        K::Well => Ink {
            fill: "#cfe3f2",
            stroke: "#1d5c93",
            text: "#1d5c93",
            width: 2.0,
            ..PLAIN
        },
        K::BuriedLine => buried(None),
        K::OverheadLine => Ink {
            stroke: "#5b5b5b",
            dash: &[2.0, 5.0, 10.0, 5.0],
            width: 2.0,
            text_size: 11.0,
            ..PLAIN
        },
        K::Equipment => Ink {
            fill: "#d5dbdd",
            text_size: 11.0,
            ..PLAIN
        },
        K::Watercourse => Ink {
            fill: "rgba(90, 150, 190, 0.25)",
            stroke: "#2b6b94",
            text: "#2b6b94",
            ..PLAIN
        },
        K::StreetEdge => Ink {
            stroke: "#3c3c3c",
            width: 2.0,
            ..PLAIN
        },
        K::Other => Ink {
            fill: "rgba(120, 120, 120, 0.15)",
            ..PLAIN
        },
    }
}

/// The color of a letter on a buried line: that of the line, dark enough to be read.
fn letter(utility: Option<Utility>) -> &'static str {
    match utility {
        Some(Utility::Electric) => "#a00015",
        Some(Utility::Gas) => "#5f4e00",
        Some(Utility::Communication) => "#8a3d00",
        Some(Utility::Water) => "#0d4a91",
        Some(Utility::Reclaimed) => "#5c1f7c",
        Some(Utility::Sewer) => "#0f5a24",
        None => BLACK,
    }
}

/// The APWA uniform color code: red electric, yellow gas, orange communication, blue
/// drinking water, purple reclaimed water, green sewer; darkened to be seen on paper.
fn buried(utility: Option<Utility>) -> Ink {
    let stroke = match utility {
        Some(Utility::Electric) => "#d0021b",
        Some(Utility::Gas) => "#d9b400",
        Some(Utility::Communication) => "#e8730c",
        Some(Utility::Water) => "#1667c5",
        Some(Utility::Reclaimed) => "#7a2fa0",
        Some(Utility::Sewer) => "#1d8a3a",
        None => "#444444",
    };
    Ink {
        stroke,
        width: 2.25,
        dash: &[16.0, 6.0],
        text_size: 11.0,
        text_from_scale: 7.0,
        ..PLAIN
    }
}
