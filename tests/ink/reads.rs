//! Every ink reads on the paper of every theme. The contrast is worked out here a second time, from the text that the canvas is
//! given, by the formula of WCAG 2 (relative luminance of sRGB; 3:1 for lines, 4.5:1 for text; all from memory).

use batterboard_core::math::powf;

use crate::every::inks;
use crate::ink::theme::{Purpose, Theme};
use crate::ink::{BLACK, HALO, LOT, PAPER};

/// Lines that lie on the plan to hide what is under them, and so have the color of paper.
const HIDE: [&str; 4] = ["Gap", "Stake", "hand 5", "section 8"];

/// Red, green, blue from 0 to 1 and the cover, of a color as the canvas reads it.
pub fn read(text: &str) -> [f64; 4] {
    if let Some(digits) = text.strip_prefix('#') {
        let part = |i: usize| f64::from(u8::from_str_radix(&digits[i..i + 2], 16).unwrap()) / 255.0;
        return [part(0), part(2), part(4), 1.0];
    }
    let inside = text
        .strip_prefix("rgba(")
        .unwrap()
        .strip_suffix(')')
        .unwrap();
    let parts: Vec<f64> = inside
        .split(',')
        .map(|it| it.trim().parse().unwrap())
        .collect();
    [
        parts[0] / 255.0,
        parts[1] / 255.0,
        parts[2] / 255.0,
        parts[3],
    ]
}

fn luminance([r, g, b]: [f64; 3]) -> f64 {
    let linear = |part: f64| {
        if part <= 0.040_45 {
            part / 12.92
        } else {
            powf((part + 0.055) / 1.055, 2.4)
        }
    };
    0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)
}

/// The contrast of a color against a ground that it lies on.
pub fn contrast(color: &str, ground: &str) -> f64 {
    let ([r, g, b, cover], [x, y, z, _]) = (read(color), read(ground));
    let mixed = |top: f64, under: f64| under + (top - under) * cover;
    let (seen, under) = (
        luminance([mixed(r, x), mixed(g, y), mixed(b, z)]),
        luminance([x, y, z]),
    );
    (seen.max(under) + 0.05) / (seen.min(under) + 0.05)
}

fn papers(theme: Theme) -> [String; 2] {
    [PAPER, LOT].map(|paper| theme.ink(paper, Purpose::Fill))
}

#[test]
fn every_line_and_every_letter_reads_in_every_theme() {
    for theme in Theme::ALL {
        let papers = papers(theme);
        let mut lowest = [f64::INFINITY; 2];
        for (name, ink) in inks() {
            for paper in &papers {
                if !ink.text.is_empty() {
                    let text = contrast(&theme.ink(ink.text, Purpose::Letter), paper);
                    lowest[1] = lowest[1].min(text);
                    assert!(text >= 4.5, "{theme:?} {name}: letters at {text:.2}");
                }
                if ink.stroke.is_empty() || HIDE.contains(&name.as_str()) {
                    continue;
                }
                let line = contrast(&theme.ink(ink.stroke, Purpose::Line), paper);
                lowest[0] = lowest[0].min(line);
                assert!(line >= 3.0, "{theme:?} {name}: a line at {line:.2}");
            }
        }
        println!(
            "{theme:?}: lines {:.2}, letters {:.2}",
            lowest[0], lowest[1]
        );
    }
}

#[test]
fn what_hides_has_the_color_of_paper() {
    for theme in Theme::ALL {
        for (name, ink) in inks()
            .into_iter()
            .filter(|(name, _)| HIDE.contains(&name.as_str()))
        {
            let line = theme.ink(ink.stroke, Purpose::Line);
            let [_, lot] = papers(theme);
            let seen = contrast(&line, &lot);
            assert!(seen < 1.45, "{theme:?} {name}: {line} is seen at {seen:.2}");
        }
    }
}

#[test]
fn letters_read_on_their_own_halo() {
    for theme in Theme::ALL {
        let [_, lot] = papers(theme);
        let [r, g, b, _] = read(&theme.ink(HALO, Purpose::Fill));
        let [x, y, z, _] = read(&lot);
        for (halo, paper) in [(r, x), (g, y), (b, z)] {
            assert!(
                (halo - paper).abs() < 0.05,
                "{theme:?}: a halo off the paper"
            );
        }
    }
}

#[test]
fn the_dark_is_dark_and_the_sun_is_met_with_near_white() {
    let light = |theme: Theme, base: &str, purpose| {
        let [r, g, b, _] = read(&theme.ink(base, purpose));
        luminance([r, g, b])
    };
    assert!(light(Theme::Dark, LOT, Purpose::Fill) < 0.02);
    assert!(light(Theme::Dark, BLACK, Purpose::Letter) > 0.75);
    for theme in [Theme::Strong, Theme::Sunlight] {
        assert!(light(theme, LOT, Purpose::Fill) > 0.95, "{theme:?}");
        assert!(light(theme, BLACK, Purpose::Letter) < 0.02, "{theme:?}");
        assert!(theme.width(1.0) > 1.3, "{theme:?}: lines are heavier");
        assert!(
            theme.weight() > Theme::Light.weight(),
            "{theme:?}: so are letters"
        );
    }
}

#[test]
fn the_sun_leaves_no_pale_tint() {
    for (name, ink) in inks() {
        if ink.fill.is_empty() {
            continue;
        }
        let fill = Theme::Sunlight.ink(ink.fill, Purpose::Fill);
        let [r, g, b, cover] = read(&fill);
        let spread = r.max(g).max(b) - r.min(g).min(b);
        let white = r.min(g).min(b) > 0.93;
        let bold = cover > 0.35 && (spread > 0.12 || luminance([r, g, b]) < 0.6);
        assert!(
            cover == 0.0 || white || bold,
            "{name}: {} became {fill}",
            ink.fill
        );
    }
}

#[test]
fn light_paper_keeps_what_reads_as_it_is_written_down() {
    assert_eq!(Theme::Light.ink(BLACK, Purpose::Line), BLACK);
    assert_eq!(Theme::Light.ink("#b0121b", Purpose::Letter), "#b0121b");
    assert_eq!(Theme::Light.ink(PAPER, Purpose::Fill), PAPER);
    assert_eq!(Theme::Dark.ink("", Purpose::Fill), "");
    assert_eq!(Theme::Dark.ink("no color", Purpose::Fill), "no color");
    for broken in [
        "#12",
        "#gggggg",
        "rgba(1, 2)",
        "rgba(1, 2, 3, x)",
        "#fffffff",
    ] {
        assert_eq!(Theme::Dark.ink(broken, Purpose::Line), broken);
    }
}
