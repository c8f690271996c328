//! A color as the canvas takes it, and its lightness and hue in Oklab, where equal steps look equal.
//!
//! Contrast is that of WCAG 2 (relative luminance of sRGB, from memory): 1 for the same color, 21 for black on white.

use core::fmt;

use batterboard_core::math::powf;
use oklab::{Oklab, Rgb, linear_srgb_to_oklab, oklab_to_linear_srgb};

/// A color in sRGB, each part from 0 to 1, and how much of it covers what lies under it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Color {
    /// Red, green and blue.
    pub parts: [f32; 3],
    /// 0 for nothing to see, 1 for what covers all.
    pub cover: f32,
}

/// A color by its lightness (0 black, 1 white) and its way off gray toward red and toward yellow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tone {
    /// Lightness.
    pub light: f32,
    /// Toward red, or green where negative.
    pub red: f32,
    /// Toward yellow, or blue where negative.
    pub yellow: f32,
}

impl Color {
    /// Reads `#rrggbb` or `rgba(r, g, b, a)`; `None` for any other text.
    pub fn read(text: &str) -> Option<Self> {
        if let Some(digits) = text.strip_prefix('#') {
            let number = u32::from_str_radix(digits, 16).ok()?;
            let [_, parts @ ..] = number.to_be_bytes();
            return (digits.len() == 6).then_some(Self::opaque(parts.map(share)));
        }
        let inside = text.strip_prefix("rgba(")?.strip_suffix(')')?;
        let mut figures = inside.split(',').map(str::trim);
        let mut byte = || figures.next()?.parse::<u8>().ok();
        let parts = [byte()?, byte()?, byte()?].map(share);
        // Hundredths, as all inks have them: the text of a float would bring much code along.
        let hundredths = figures.next()?.strip_prefix("0.")?;
        let tenth = if hundredths.len() == 1 { 10 } else { 1 };
        let cover = f32::from(hundredths.parse::<u8>().ok()? * tenth) / 100.0;
        (hundredths.len() <= 2).then_some(Self { parts, cover })
    }

    const fn opaque(parts: [f32; 3]) -> Self {
        Self { parts, cover: 1.0 }
    }

    /// Where it lies in Oklab.
    pub fn tone(self) -> Tone {
        let [r, g, b] = self.linear();
        let Oklab { l, a, b } = linear_srgb_to_oklab(Rgb { r, g, b });
        Tone {
            light: l,
            red: a,
            yellow: b,
        }
    }

    /// What is seen where it lies on a ground.
    pub fn over(self, ground: Self) -> Self {
        let [r, g, b] = self.parts;
        let [x, y, z] = ground.parts;
        let mixed = |top: f32, under: f32| under + (top - under) * self.cover;
        Self::opaque([mixed(r, x), mixed(g, y), mixed(b, z)])
    }

    /// The contrast of what is seen on a ground against that ground.
    pub fn contrast(self, ground: Self) -> f32 {
        let (a, b) = (self.over(ground).luminance(), ground.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    fn luminance(self) -> f32 {
        let [r, g, b] = self.linear();
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    /// The amounts of light.
    pub fn linear(self) -> [f32; 3] {
        self.parts.map(|part| {
            if part <= 0.040_45 {
                part / 12.92
            } else {
                power((part + 0.055) / 1.055, 2.4)
            }
        })
    }
}

/// A power, by the arithmetic that the core has anyway.
#[allow(clippy::cast_possible_truncation)] // A part of a color.
fn power(base: f32, exponent: f64) -> f32 {
    powf(f64::from(base), exponent) as f32
}

/// The share that a byte is of the most.
fn share(byte: u8) -> f32 {
    f32::from(byte) / 255.0
}

impl Tone {
    /// How far it is off gray.
    pub fn off_gray(self) -> f32 {
        (self.red * self.red + self.yellow * self.yellow).sqrt()
    }

    /// The same hue, so many times as far off gray.
    pub fn dyed(self, times: f32) -> Self {
        Self {
            light: self.light,
            red: self.red * times,
            yellow: self.yellow * times,
        }
    }

    /// The same hue in another lightness.
    pub fn lit(self, light: f32) -> Self {
        Self {
            light: light.clamp(0.0, 1.0),
            ..self
        }
    }

    /// The color, as far off gray as a screen can show it.
    pub fn color(self, cover: f32) -> Color {
        const STEPS: u8 = 12;
        let shows = |tone: Self| {
            let shown = |part: &f32| (-0.002..=1.002).contains(part);
            tone.linear().iter().all(shown)
        };
        let mut tone = self;
        if !shows(tone) {
            let (mut low, mut high) = (0.0, 1.0);
            for _ in 0..STEPS {
                let middle = (low + high) / 2.0;
                if shows(self.dyed(middle)) {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            tone = self.dyed(low);
        }
        let parts = tone.linear().map(|part| {
            if part <= 0.003_130_8 {
                part.max(0.0) * 12.92
            } else {
                1.055 * power(part.min(1.0), 1.0 / 2.4) - 0.055
            }
        });
        Color { parts, cover }
    }

    /// The amounts of light, below 0 or above 1 for what no screen shows.
    fn linear(self) -> [f32; 3] {
        let Rgb { r, g, b } = oklab_to_linear_srgb(Oklab {
            l: self.light,
            a: self.red,
            b: self.yellow,
        });
        [r, g, b]
    }
}

impl fmt::Display for Color {
    /// As the canvas reads it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // From 0 to 255.
        let whole = |share: f32, most: f32| (share.clamp(0.0, 1.0) * most + 0.5) as u8;
        let [r, g, b] = self.parts.map(|part| whole(part, 255.0));
        match whole(self.cover, 100.0) {
            100 => write!(f, "#{r:02x}{g:02x}{b:02x}"),
            cover => write!(f, "rgba({r}, {g}, {b}, 0.{cover:02})"),
        }
    }
}
