//! Nothing is told by color alone: where two inks of different meaning come near each other for an eye without one kind of
//! cone, a second sign tells them apart.
//!
//! Protanopia, deuteranopia and tritanopia are simulated by the matrices of Machado, Oliveira and Fernandes (2009) at full
//! severity, on linear sRGB (from memory).

use batterboard_core::drawing::Layer;
use batterboard_core::site::Utility;

use crate::apart::distance;
use crate::every::UTILITIES;
use crate::ink::color::{Color, Tone};
use crate::ink::ink;
use crate::ink::theme::{Purpose, Theme};

const EYES: [(&str, [[f32; 3]; 3]); 3] = [
    (
        "protanopia",
        [
            [0.152_286, 1.052_583, -0.204_868],
            [0.114_503, 0.786_281, 0.099_216],
            [-0.003_882, -0.048_116, 1.051_998],
        ],
    ),
    (
        "deuteranopia",
        [
            [0.367_322, 0.860_646, -0.227_968],
            [0.280_085, 0.672_501, 0.047_413],
            [-0.011_820, 0.042_940, 0.968_881],
        ],
    ),
    (
        "tritanopia",
        [
            [1.255_528, -0.076_749, -0.178_779],
            [-0.078_411, 0.930_809, 0.147_602],
            [0.004_733, 0.691_367, 0.303_900],
        ],
    ),
];

/// Nearer than this in Oklab two thin lines are not told apart by color (our choice; twice what a trained eye sees side by side).
const NEAR: f32 = 0.1;

fn seen(color: Color, eye: &[[f32; 3]; 3]) -> Tone {
    let light = color.linear();
    let cones = eye.map(|row| {
        let sum: f32 = row.iter().zip(light).map(|(a, b)| a * b).sum();
        sum.clamp(0.0, 1.0)
    });
    let oklab::Oklab { l, a, b } = oklab::linear_srgb_to_oklab(oklab::Rgb {
        r: cones[0],
        g: cones[1],
        b: cones[2],
    });
    Tone {
        light: l,
        red: a,
        yellow: b,
    }
}

/// The themes and eyes for which two layers' lines come too near each other.
fn confused(a: Layer, b: Layer) -> Vec<(Theme, &'static str)> {
    let line = |theme: Theme, layer: Layer| {
        Color::read(&theme.ink(ink(layer).stroke, Purpose::Line)).unwrap()
    };
    let all = Theme::ALL
        .into_iter()
        .flat_map(|theme| EYES.iter().map(move |eye| (theme, eye)));
    let near = all.filter(|(theme, (_, eye))| {
        distance(seen(line(*theme, a), eye), seen(line(*theme, b), eye)) < NEAR
    });
    near.map(|(theme, (name, _))| (theme, *name)).collect()
}

#[test]
fn a_gray_looks_the_same_to_every_eye() {
    let gray = Color::read("#808080").unwrap();
    for (name, eye) in &EYES {
        let apart = distance(seen(gray, eye), gray.tone());
        assert!(apart < 0.01, "{name}: a gray moved by {apart:.3}");
    }
}

#[test]
fn utilities_that_look_alike_to_some_eye_carry_different_letters() {
    let letter = |utility: Option<Utility>| utility.map_or("?", Utility::letter);
    let mut pairs = 0;
    for (i, a) in UTILITIES.iter().enumerate() {
        for b in &UTILITIES[i + 1..] {
            let alike = confused(Layer::Buried(*a), Layer::Buried(*b));
            pairs += usize::from(!alike.is_empty());
            assert_ne!(
                letter(*a),
                letter(*b),
                "{a:?} and {b:?} look alike: {alike:?}"
            );
        }
    }
    assert!(
        pairs > 0,
        "no eye confuses any two colors of the code: the simulation does nothing"
    );
    // The letters are big enough to be read and stand on the line itself.
    for utility in UTILITIES {
        assert!(ink(Layer::Mark(utility)).text_size >= 12.0);
    }
}

#[test]
fn what_holds_what_falls_short_and_what_nobody_measured_differ_in_more_than_color() {
    let (holds, short, unmeasured) = (
        ink(Layer::Clearance),
        ink(Layer::Shortfall),
        ink(Layer::UnknownGround),
    );
    let alike = confused(Layer::Clearance, Layer::Shortfall);
    // Nearly the same to an eye without one kind of cone or not: the line is twice as heavy, and its figure larger.
    for theme in Theme::ALL {
        let (heavy, plain) = (theme.width(short.width), theme.width(holds.width));
        assert!(
            heavy >= plain * 1.5,
            "{theme:?}: {heavy} beside {plain}; alike to {alike:?}"
        );
    }
    assert!(short.text_size > holds.text_size);
    assert!(holds.dash.is_empty() && short.dash.is_empty());
    assert!(
        !unmeasured.dash.is_empty(),
        "ground that nobody measured is hatched in dashes"
    );
    let free = ink(Layer::ClearGround);
    assert!(
        !free.dash.is_empty(),
        "the edge of clear ground is dashed, a clearance is not"
    );
}

#[test]
fn lines_that_look_alike_to_some_eye_have_another_dash_or_weight_or_are_named() {
    let told: [Layer; 8] = [
        Layer::LotLine,
        Layer::Setback,
        Layer::DigEdge,
        Layer::OverDig,
        Layer::Bank,
        Layer::ClearGround,
        Layer::Tape,
        Layer::Pipe { suction: true },
    ];
    for (i, a) in told.iter().enumerate() {
        for b in &told[i + 1..] {
            let alike = confused(*a, *b);
            let (x, y) = (ink(*a), ink(*b));
            let same_sign = x.dash == y.dash && (x.width - y.width).abs() < 0.5;
            assert!(
                alike.is_empty() || !same_sign,
                "{a:?} and {b:?} look alike ({alike:?}) and have the same dash and weight"
            );
        }
    }
}
