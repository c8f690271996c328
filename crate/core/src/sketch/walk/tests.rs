//! Walks as people write them, and what is wrong with them.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::geom::path::bulge_of_angle;
use crate::units::constants::{DEGREE, FOOT};

fn walk(text: &str) -> Walk {
    read(text, Point::default(), TURN / 4.0, System::Feet)
}

fn feet(walk: &Walk) -> Vec<[f64; 2]> {
    let round = |v: f64| (v / FOOT * 1e4).round() / 1e4 + 0.0;
    let corners = walk.sketch.vertices.iter();
    corners.map(|v| [round(v.at.x), round(v.at.y)]).collect()
}

const ELL: [[f64; 2]; 6] = [
    [0.0, 0.0],
    [24.0, 0.0],
    [24.0, -12.5],
    [36.0, -12.5],
    [36.0, -30.0],
    [0.0, -30.0],
];

#[test]
fn a_house_is_walked_in_every_usual_way() {
    for text in [
        "forward 24', right 90°, forward 12'6\", left 90, forward 12', right 90, forward 17'6\", right 90, forward 36', close",
        "F 24\nR\nF 12.5 ft\nL\nF 12\nR\nF 17' 6\"\nR\nF 36\nright 90\nF 30",
        "fwd 24' rt 90 fwd 12'-6\" lt 90 fwd 12 rt 90 fwd 17.5' rt fwd 36 close",
        "24'; turn right; 12'6\"; turn left; 12 ft; turn right 90 degrees; 17.5 ft; right; 36'; close.",
        "go 24', face south, go 12'6, face east, go 12, bearing S 0 E, go 17'6\", face west, go 36', close",
    ] {
        let walk = walk(text);
        assert_eq!(walk.findings, [], "{text}");
        assert_eq!(feet(&walk), ELL, "{text}");
        assert!(walk.sketch.closed && walk.sketch.check().is_empty());
        assert!(walk.pieces.iter().all(|p| p.taken != Taken::Unread));
    }
}

#[test]
fn back_goes_back_and_keeps_the_direction() {
    let walk = walk("f 10', r, f 5', back 2', l, f 1'");
    assert_eq!(
        feet(&walk),
        [
            [0.0, 0.0],
            [10.0, 0.0],
            [10.0, -5.0],
            [10.0, -3.0],
            [11.0, -3.0]
        ]
    );
}

#[test]
fn a_curved_wall_leaves_the_last_one_smoothly() {
    for text in [
        "f 10', arc left radius 5' angle 90°, f 3'",
        "f 10' curve l r 5' 90° f 3'",
        "f 10'\narc to the left, radius 5', angle 90\nf 3'",
        "f 10', arc left, angle 90, radius 5', f 3'",
        "f 10', arc left r=5' length 7.853981634 ft, f 3'",
    ] {
        let walk = walk(text);
        assert_eq!(
            feet(&walk),
            [[0.0, 0.0], [10.0, 0.0], [15.0, 5.0], [15.0, 8.0]],
            "{text} {:?}",
            walk.findings
        );
        let bulge = walk.sketch.vertices[1].bulge;
        assert!((bulge - bulge_of_angle(90.0 * DEGREE)).abs() < 1e-6);
    }
    let right = walk("f 10', arc right radius 5' angle 90°, f 3'");
    assert_eq!(feet(&right)[3], [15.0, -8.0]);
}

#[test]
fn what_does_not_fit_is_told_with_its_line() {
    for (text, line, words) in [
        ("forward 24'\nright 12'6\"", "line 2", "A length stands"),
        ("forward\nright", "line 1", "A length above zero"),
        ("forward 24' 6", "line 1", "A number stands here"),
        ("90 right", "line 1", "A number stands here"),
        (
            "forward 24'\nalong the porch 5'",
            "line 2",
            "not part of a walk",
        ),
        ("right 400", "line 1", "between 0 and 360"),
        ("arc left radius 5'", "line 1", "A curved wall needs"),
        ("face purple", "line 1", "A bearing belongs"),
    ] {
        let walk = walk(text);
        let found = walk.findings.iter().find(|f| f.pointer == line);
        assert!(
            found
                .is_some_and(|f| f.is_fault() && f.message.contains(words) && !f.remedy.is_empty()),
            "{text}: {:?}",
            walk.findings
        );
        assert!(walk.pieces.iter().any(|p| p.taken == Taken::Unread));
    }
}

#[test]
fn the_return_is_told() {
    let open = walk("f 20', r, f 10', r, f 20'");
    let told = open.findings.last().unwrap();
    assert!(
        told.is_fault()
            && told.message.contains("10'-0\"")
            && told.message.contains("N 0°00'00\" E")
    );
    let loose = walk("f 20', r, f 10', r, f 20'1\", r, f 10'");
    assert_eq!(loose.findings.len(), 1);
    assert!(!loose.findings[0].is_fault() && loose.findings[0].message.contains("0'-1\""));
    assert_eq!(loose.sketch.vertices.len(), 4);
    let exact = walk("f 20', r, f 10', r, f 20', r, f 10'");
    assert!(exact.findings.is_empty() && exact.sketch.closed);
    assert!(walk("").back.is_none() && walk("").findings.is_empty());
}

#[test]
fn every_character_is_in_a_piece() {
    for text in [
        "f 20', r, é ½ f 10'  ",
        "",
        " \n ",
        "close",
        "arc",
        "right 90 90 90",
    ] {
        let walk = walk(text);
        let mut at = 0;
        for piece in &walk.pieces {
            assert_eq!(piece.from, at, "{text}");
            at = piece.to;
        }
        assert_eq!(at, text.chars().count(), "{text}");
    }
}
