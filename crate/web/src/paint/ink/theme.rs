//! The themes of the plan. Every ink is written down once, for light paper; a theme is what it makes of any color.
//!
//! Dark turns lightness round and keeps the hue. Strong contrast and sunlight push lines and letters away from the paper
//! and widen them; sunlight has no pale tints at all. In every theme a line or a letter is pushed on until it
//! reads against the paper, inside the lot and outside ([`Theme::least`]).

use super::color::{Color, Tone};
use super::{LOT, PAPER};

/// How the page is colored.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Theme {
    /// Dark ink on warm paper, as the inks are written down.
    #[default]
    Light,
    /// Light ink on dark paper.
    Dark,
    /// Heavy dark ink on white, tints kept pale.
    Strong,
    /// For a screen outdoors: near black on near white, no pale tints.
    Sunlight,
}

/// What a color is put on for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Purpose {
    /// An area.
    Fill,
    /// A line.
    Line,
    /// Text.
    Letter,
}

/// Lightness of the paper that the inks are written down for, and of its darkest ink (Oklab).
const PAPER_LIGHT: f32 = 0.98;
const INK_LIGHT: f32 = 0.25;

/// The same in the dark.
const NIGHT_LIGHT: f32 = 0.215;
const CHALK_LIGHT: f32 = 0.95;

/// The warm tint of paper, and the cool one that stands in its place in the dark: toward red, toward yellow.
const WARM: (f32, f32) = (-0.001, 0.014);
const COOL: (f32, f32) = (-0.009, -0.016);

/// From this lightness on a color counts as paper or a tint of it, and takes the tint of the theme's paper.
const TINT: f32 = 0.72;

/// Fainter washes than this are left out in sunlight: nobody sees them there (common practice, no source).
const FAINT: f32 = 0.35;

/// A line that is told from the paper less than this hides what lies under it, and stays as light as the paper.
const HIDES: f32 = 1.25;

/// How far lightness moves at once until a color reads.
const STEP: f32 = 0.01;

impl Theme {
    /// All of them.
    #[cfg(test)]
    #[allow(dead_code)] // The tests of inks are a crate of their own.
    pub const ALL: [Self; 4] = [Self::Light, Self::Dark, Self::Strong, Self::Sunlight];

    /// By the name that the page has for it; light for any other.
    pub fn named(name: &str) -> Self {
        match name {
            "dark" => Self::Dark,
            "strong" => Self::Strong,
            "sunlight" => Self::Sunlight,
            _ => Self::Light,
        }
    }

    /// The least contrast against the paper: WCAG 2 asks 3 of lines and 4.5 of text (from memory); the rest is our choice.
    pub fn least(self, purpose: Purpose) -> f32 {
        match (self, purpose) {
            (_, Purpose::Fill) => 1.0,
            (Self::Light | Self::Dark, Purpose::Line) => 3.05,
            (Self::Light | Self::Dark, Purpose::Letter) => 4.6,
            (Self::Strong, Purpose::Line) => 4.6,
            (Self::Strong | Self::Sunlight, Purpose::Letter) => 7.1,
            (Self::Sunlight, Purpose::Line) => 5.5,
        }
    }

    /// How wide a line is that is so wide on light paper, CSS pixels.
    pub fn width(self, width: f64) -> f64 {
        let more = match self {
            Self::Light => 0.0,
            Self::Dark => 0.1,
            Self::Strong => 0.4,
            Self::Sunlight => 0.6,
        };
        // What is broad already need not grow as much.
        width + width.min(2.5) * more
    }

    /// The weight of letters, as fonts have it.
    pub fn weight(self) -> u16 {
        match self {
            Self::Light | Self::Dark => 600,
            Self::Strong | Self::Sunlight => 700,
        }
    }

    /// What becomes of a color of light paper. What is no color that can be read stays as it is.
    pub fn ink(self, base: &str, purpose: Purpose) -> String {
        match Color::read(base) {
            Some(color) => self.color(color, purpose).to_string(),
            None => base.to_owned(),
        }
    }

    /// The paper outside the lot, and inside.
    pub fn grounds(self) -> [Color; 2] {
        [PAPER, LOT].map(|base| {
            let base = Color::read(base).unwrap_or(Color {
                parts: [1.0; 3],
                cover: 1.0,
            });
            self.moved(base, Purpose::Fill)
        })
    }

    /// The same of a color.
    pub fn color(self, base: Color, purpose: Purpose) -> Color {
        let hides = || {
            Theme::Light
                .grounds()
                .iter()
                .any(|paper| base.contrast(*paper) < HIDES)
        };
        if purpose == Purpose::Line && hides() {
            return self.moved(base, Purpose::Fill);
        }
        self.pushed(self.moved(base, purpose), purpose)
    }

    /// A color moved to where the theme has it, whether it reads there or not.
    fn moved(self, base: Color, purpose: Purpose) -> Color {
        let tone = base.tone();
        let fill = purpose == Purpose::Fill;
        match self {
            Self::Light => base,
            Self::Dark => turned_round(tone).color(base.cover),
            Self::Strong if !fill => tone.lit(tone.light * 0.8).dyed(1.1).color(base.cover),
            Self::Strong if tone.light > 0.6 => {
                let light = 1.0 - (1.0 - tone.light) * 0.6;
                let pale = tone.off_gray() < 0.03;
                tone.lit(light)
                    .dyed(if pale { 0.3 } else { 1.0 })
                    .color(base.cover)
            }
            Self::Sunlight if !fill => tone.lit(tone.light * 0.7).dyed(1.2).color(base.cover),
            Self::Sunlight if base.cover < FAINT => Color { cover: 0.0, ..base },
            Self::Sunlight if tone.light > TINT && tone.off_gray() < 0.035 => {
                tone.lit(0.99).dyed(0.2).color(base.cover)
            }
            Self::Sunlight if tone.light > 0.6 => {
                tone.lit(tone.light - 0.12).dyed(1.5).color(base.cover)
            }
            Self::Strong | Self::Sunlight => tone.lit(tone.light * 0.75).color(base.cover),
        }
    }

    /// A color pushed away from the paper until it reads there; what still lets too much through then covers more.
    fn pushed(self, color: Color, purpose: Purpose) -> Color {
        let grounds = self.grounds();
        let least = self.least(purpose);
        let reads = |it: Color| grounds.iter().all(|paper| it.contrast(*paper) >= least);
        let away = if self == Self::Dark { STEP } else { -STEP };
        let mut color = color;
        while !reads(color) {
            let tone = color.tone();
            let light = tone.light + away;
            if (0.12..0.97).contains(&light) {
                color = tone.lit(light).color(color.cover);
            } else if color.cover < 1.0 {
                color.cover = (color.cover + 0.04).min(1.0);
            } else {
                break;
            }
        }
        color
    }
}

/// Dark for light and light for dark; what was a tint of warm paper is one of cool night.
fn turned_round(tone: Tone) -> Tone {
    let along = (PAPER_LIGHT - tone.light) / (PAPER_LIGHT - INK_LIGHT);
    let light = (NIGHT_LIGHT + along * (CHALK_LIGHT - NIGHT_LIGHT)).clamp(NIGHT_LIGHT, 0.97);
    let share = ((tone.light - TINT) / (0.9 - TINT)).clamp(0.0, 1.0);
    Tone {
        light,
        red: tone.red + share * (COOL.0 - WARM.0),
        yellow: tone.yellow + share * (COOL.1 - WARM.1),
    }
}
