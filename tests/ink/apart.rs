//! What is told apart by its color on light paper stays apart in every theme.

use batterboard_core::drawing::Layer;

use crate::every::UTILITIES;
use crate::ink::color::{Color, Tone};
use crate::ink::ink;
use crate::ink::theme::{Purpose, Theme};

/// Layers that lie beside each other and mean different things.
const MEANING: [Layer; 9] = [
    Layer::Clearance,
    Layer::Shortfall,
    Layer::Setback,
    Layer::DigEdge,
    Layer::Tape,
    Layer::LotLine,
    Layer::ClearGround,
    Layer::Pipe { suction: true },
    Layer::Focus,
];

/// How far apart two colors lie in Oklab.
pub fn distance(a: Tone, b: Tone) -> f32 {
    let parts = [a.light - b.light, a.red - b.red, a.yellow - b.yellow];
    parts.iter().map(|it| it * it).sum::<f32>().sqrt()
}

fn line(theme: Theme, layer: Layer) -> Tone {
    Color::read(&theme.ink(ink(layer).stroke, Purpose::Line))
        .unwrap()
        .tone()
}

#[test]
fn colors_that_differ_in_light_differ_in_every_theme() {
    let buried = UTILITIES.map(Layer::Buried);
    for group in [&buried[..], &MEANING[..]] {
        for (i, a) in group.iter().enumerate() {
            for b in &group[i + 1..] {
                let written = |layer: &Layer| Color::read(ink(*layer).stroke).unwrap().tone();
                if distance(written(a), written(b)) < 0.1 {
                    continue;
                }
                for theme in Theme::ALL {
                    let apart = distance(line(theme, *a), line(theme, *b));
                    assert!(
                        apart > 0.06,
                        "{theme:?}: {a:?} and {b:?} are {apart:.3} apart"
                    );
                }
            }
        }
    }
}

#[test]
fn a_theme_keeps_the_hue() {
    for utility in UTILITIES.into_iter().flatten() {
        let layer = Layer::Buried(Some(utility));
        let base = Color::read(ink(layer).stroke).unwrap().tone();
        for theme in Theme::ALL {
            let now = line(theme, layer);
            let along = (base.red * now.red + base.yellow * now.yellow)
                / (base.off_gray() * now.off_gray());
            assert!(
                along > 0.98,
                "{theme:?} {utility:?}: the hue turned, cosine {along:.3}"
            );
        }
    }
}

#[test]
fn the_five_depths_of_water_stay_in_order() {
    for theme in Theme::ALL {
        let shades = [0, 1, 2, 3, 4].map(|shade| {
            let fill = theme.ink(ink(Layer::Water { shade }).fill, Purpose::Fill);
            Color::read(&fill).unwrap().tone().light
        });
        let steps = shades.windows(2).map(|it| it[1] - it[0]);
        let steps: Vec<f32> = steps.collect();
        let one_way = steps.iter().all(|it| *it > 0.015) || steps.iter().all(|it| *it < -0.015);
        assert!(one_way, "{theme:?}: {shades:?}");
    }
}
