//! How each layer of the plan looks on paper.
//!
//! Two palettes: drafting, which a copier in black and white keeps readable (dark lines of different weight and dash,
//! few and pale tints), and color, for the homeowner. Buried lines have the colors of the APWA uniform color code in
//! both, darkened to be seen on paper, and their letters besides.

use batterboard_core::drawing::Layer;
use batterboard_core::site::{FeatureKind, Utility};

use crate::mark::{Color, Ink, Stroke};

/// Which inks a plan is drawn in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Palette {
    /// For permit and yard.
    Drafting,
    /// For the homeowner.
    Color,
}

/// How a layer's text is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Letters {
    /// Height of an em, points.
    pub points: f64,
    /// Whether it is written in the heavier face.
    pub heavy: bool,
    /// Its color.
    pub color: Color,
}

const LONG_TWO_SHORT: &[f64] = &[5.6, 1.2, 1.2, 1.2, 1.2, 1.2];
const DASHED: &[f64] = &[2.2, 1.2];
const SHORT_DASHED: &[f64] = &[1.0, 0.9];
const DOTTED: &[f64] = &[0.3, 1.0];
const DASH_DOT: &[f64] = &[3.0, 0.9, 0.4, 0.9];
const FENCE: &[f64] = &[3.4, 0.8, 0.8, 0.8];

const BROWN: Color = Color(0x7a, 0x43, 0x10);
const PLUM: Color = Color(0x5e, 0x14, 0x46);

fn line(color: Color, width: f64, dash: &'static [f64]) -> Ink {
    Ink::line(Stroke { color, width, dash })
}

fn area(fill: Color, color: Color, width: f64, dash: &'static [f64]) -> Ink {
    Ink {
        fill: Some(fill),
        stroke: Some(Stroke { color, width, dash }),
    }
}

/// How a layer is drawn.
pub fn ink(layer: Layer, palette: Palette) -> Ink {
    const K: Color = Color::BLACK;
    let colored = palette == Palette::Color;
    match layer {
        Layer::Lot if colored => Ink::filled(Color(0xe3, 0xeb, 0xd2)),
        Layer::LotLine if colored => line(Color(0x5a, 0x62, 0x4c), 0.5, LONG_TWO_SHORT),
        Layer::Lot => Ink::default(),
        Layer::LotLine => line(K, 0.6, LONG_TWO_SHORT),
        Layer::SideKind | Layer::Mark(_) | Layer::OverheadMark => Ink::default(),
        Layer::Monument(_) => area(Color::WHITE, K, 0.3, &[]),
        Layer::Setback => line(Color(0x55, 0x30, 0x7a), 0.18, DASH_DOT),
        Layer::Feature(kind) if colored => colored_feature(kind),
        Layer::Feature(kind) => feature(kind),
        Layer::Hatch(_) => line(Color(0x8a, 0x92, 0x95), 0.1, &[]),
        Layer::Buried(utility) => line(buried(utility), 0.4, DASHED),
        Layer::Gap => line(Color::WHITE, 1.2, &[]),
        Layer::Swing => line(K, 0.2, &[]),
        Layer::Trunk => Ink::filled(Color(0x6b, 0x4a, 0x2b)),
        Layer::Protection => line(Color(0x3d, 0x61, 0x30), 0.25, SHORT_DASHED),
        Layer::Spot => Ink::filled(Color::GRAY),
        Layer::Contour { index } => {
            line(Color(0x8a, 0x6a, 0x3c), if index { 0.3 } else { 0.13 }, &[])
        }
        Layer::Breakline => line(Color(0x5f, 0x45, 0x21), 0.3, FENCE),
        Layer::UnknownGround => line(Color(0x9a, 0xa0, 0xa2), 0.13, &[1.6, 1.2]),
        Layer::Benchmark => area(K, K, 0.3, &[]),
        Layer::ClearGround => Ink::default(),
        Layer::Dig => Ink::filled(Color(0xf4, 0xe8, 0xd8)),
        Layer::DigEdge => line(BROWN, 0.4, &[]),
        Layer::Hachure => line(Color(0xa9, 0x81, 0x5c), 0.13, &[]),
        Layer::OverDig => line(BROWN, 0.25, SHORT_DASHED),
        Layer::Deck if colored => area(Color(0xe9, 0xdf, 0xcb), Color(0x9c, 0x90, 0x78), 0.25, &[]),
        Layer::Deck => area(Color(0xee, 0xed, 0xe9), Color(0x77, 0x73, 0x6a), 0.25, &[]),
        Layer::Collar => line(Color(0x77, 0x73, 0x6a), 0.2, DOTTED),
        Layer::Coping => area(Color(0xfb, 0xf7, 0xec), K, 0.4, &[]),
        Layer::Water { shade } => Ink::filled(water(shade)),
        Layer::FloorBreak => line(Color(0x5d, 0x86, 0x94), 0.13, &[]),
        Layer::Equipment => area(Color(0xdd, 0xe2, 0xe4), K, 0.3, &[]),
        Layer::Bank => line(BROWN, 0.35, DASH_DOT),
        Layer::Pile => area(
            Color(0xef, 0xe4, 0xd4),
            Color(0x6b, 0x3d, 0x12),
            0.35,
            SHORT_DASHED,
        ),
        Layer::Joint => line(Color(0x8c, 0x92, 0x94), 0.13, &[]),
        Layer::Tie => line(Color(0x5a, 0x2a, 0x12), 0.2, &[]),
        Layer::Pipe { suction } => line(
            Color(0x20, 0x30, 0x6b),
            0.4,
            if suction { DASHED } else { &[] },
        ),
        Layer::Strap => Ink::filled(Color(0x20, 0x30, 0x6b)),
        Layer::Standpipe => area(Color::WHITE, Color(0x08, 0x30, 0x3f), 0.35, &[]),
        Layer::Axis => line(Color(0x44, 0x62, 0x6e), 0.15, DASH_DOT),
        Layer::Focus | Layer::FocusLine => Ink::default(),
        Layer::Stake => area(K, Color::WHITE, 0.15, &[]),
        Layer::BaseLine => area(Color::WHITE, PLUM, 0.3, &[]),
        Layer::Tape => line(PLUM, 0.3, DASHED),
        Layer::Clearance => line(Color(0x0d, 0x5c, 0x3a), 0.25, &[]),
        Layer::Shortfall => line(Color::ALARM, 0.5, &[]),
    }
}

/// How a layer's text is written.
pub fn letters(layer: Layer) -> Letters {
    let (points, heavy, color) = match layer {
        Layer::LotLine => (7.5, true, Color::BLACK),
        Layer::Shortfall => (8.0, true, Color::ALARM),
        Layer::Clearance => (7.5, true, Color(0x0d, 0x5c, 0x3a)),
        Layer::Tape => (7.0, true, PLUM),
        Layer::BaseLine => (9.0, true, PLUM),
        Layer::Stake => (6.5, true, Color::BLACK),
        Layer::Feature(FeatureKind::House) => (8.0, true, Color::BLACK),
        Layer::Setback => (6.0, false, Color(0x55, 0x30, 0x7a)),
        Layer::Mark(utility) => (7.0, true, letter(utility)),
        Layer::Buried(utility) => (6.5, false, letter(utility)),
        Layer::Spot => (5.0, false, Color::GRAY),
        Layer::Contour { .. } => (5.5, false, Color(0x5f, 0x45, 0x21)),
        Layer::Water { .. } => (6.5, false, Color(0x08, 0x30, 0x3f)),
        Layer::Monument(_) | Layer::SideKind => (6.0, false, Color::GRAY),
        _ => (6.5, false, Color::BLACK),
    };
    Letters {
        points,
        heavy,
        color,
    }
}

/// Water, from shallow to deep: pale enough to letter on, and each darker than the last in gray too.
fn water(shade: u8) -> Color {
    match shade {
        0 => Color(0xdc, 0xef, 0xf2),
        1 => Color(0xc4, 0xe3, 0xea),
        2 => Color(0xa9, 0xd5, 0xe1),
        3 => Color(0x8a, 0xc4, 0xd6),
        _ => Color(0x6c, 0xb1, 0xc8),
    }
}

fn feature(kind: FeatureKind) -> Ink {
    use FeatureKind as F;
    const K: Color = Color::BLACK;
    const GREEN: Color = Color(0x3d, 0x61, 0x30);
    match kind {
        F::House => area(Color(0xed, 0xec, 0xe8), K, 0.5, &[]),
        F::Outbuilding => area(Color(0xf3, 0xf2, 0xee), K, 0.35, &[]),
        F::Wall => area(Color(0xc8, 0xc8, 0xc4), K, 0.3, &[]),
        F::Fence => line(K, 0.3, FENCE),
        F::Tree => line(GREEN, 0.25, &[]),
        F::Easement => line(Color(0x4d, 0x3b, 0x60), 0.25, DASHED),
        F::SepticField => line(Color(0x3c, 0x48, 0x28), 0.25, DASHED),
        F::SepticTank => area(Color(0xea, 0xef, 0xe4), Color(0x3c, 0x48, 0x28), 0.3, &[]),
        F::Well => area(Color(0xdd, 0xeb, 0xf6), Color(0x1d, 0x5c, 0x93), 0.4, &[]),
        F::BuriedLine => line(buried(None), 0.4, DASHED),
        F::OverheadLine => line(Color(0x44, 0x44, 0x44), 0.35, &[0.5, 1.2, 2.4, 1.2]),
        F::Watercourse => area(Color(0xdf, 0xec, 0xf3), Color(0x2b, 0x6b, 0x94), 0.3, &[]),
        F::StreetEdge => line(Color(0x3c, 0x3c, 0x3c), 0.4, &[]),
        F::PipeTrench => line(Color(0x5b, 0x4a, 0x2f), 0.3, DASHED),
        F::SpoilSpace => line(Color(0x6b, 0x4b, 0x16), 0.25, DASHED),
        F::Equipment => area(Color(0xdd, 0xe2, 0xe4), K, 0.3, &[]),
        F::DeckOpening => area(Color::WHITE, Color(0x77, 0x73, 0x6a), 0.2, &[]),
        F::Deck | F::DeckSteps => area(Color(0xee, 0xed, 0xe9), Color(0x77, 0x73, 0x6a), 0.25, &[]),
        F::Driveway | F::Walk | F::Other => line(Color(0x6e, 0x72, 0x70), 0.2, &[]),
    }
}

fn colored_feature(kind: FeatureKind) -> Ink {
    use FeatureKind as F;
    match kind {
        F::House => area(Color(0xd8, 0xc9, 0xb4), Color(0x4e, 0x42, 0x33), 0.5, &[]),
        F::Outbuilding => area(Color(0xe1, 0xd6, 0xc5), Color(0x4e, 0x42, 0x33), 0.35, &[]),
        F::Tree => area(Color(0xb4, 0xcf, 0x9c), Color(0x4d, 0x75, 0x3c), 0.25, &[]),
        F::Driveway | F::Walk => area(Color(0xdd, 0xda, 0xd2), Color(0xa5, 0xa1, 0x96), 0.2, &[]),
        F::Deck | F::DeckSteps => area(Color(0xe9, 0xdf, 0xcb), Color(0x9c, 0x90, 0x78), 0.25, &[]),
        F::DeckOpening => Ink::filled(Color(0xc7, 0xd9, 0xb1)),
        other => feature(other),
    }
}

/// The APWA uniform color code: red electric, yellow gas, orange communication, blue drinking water, purple reclaimed
/// water, green sewer.
fn buried(utility: Option<Utility>) -> Color {
    match utility {
        Some(Utility::Electric) => Color(0xc0, 0x02, 0x1b),
        Some(Utility::Gas) => Color(0xb8, 0x98, 0x00),
        Some(Utility::Communication) => Color(0xd6, 0x62, 0x00),
        Some(Utility::Water) => Color(0x16, 0x67, 0xc5),
        Some(Utility::Reclaimed) => Color(0x7a, 0x2f, 0xa0),
        Some(Utility::Sewer) => Color(0x1d, 0x8a, 0x3a),
        None => Color(0x44, 0x44, 0x44),
    }
}

/// The color of a letter on a buried line: that of the line, dark enough to be read.
fn letter(utility: Option<Utility>) -> Color {
    match utility {
        Some(Utility::Electric) => Color(0xa0, 0x00, 0x15),
        Some(Utility::Gas) => Color(0x5f, 0x4e, 0x00),
        Some(Utility::Communication) => Color(0x8a, 0x3d, 0x00),
        Some(Utility::Water) => Color(0x0d, 0x4a, 0x91),
        Some(Utility::Reclaimed) => Color(0x5c, 0x1f, 0x7c),
        Some(Utility::Sewer) => Color(0x0f, 0x5a, 0x24),
        None => Color::BLACK,
    }
}
