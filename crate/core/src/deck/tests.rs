//! Decks worked out by hand.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Ring};
use crate::shell::{FacetKind, FacetRecord, ShellRecord};
use crate::units::constants::FOOT;

const PI: f64 = core::f64::consts::PI;

/// 8 m by 4 m, square corners, the rim 0.25 m outside the water's edge.
fn shell() -> Shell {
    let square = PathRecord(
        [[-4.0, -2.0], [4.0, -2.0], [4.0, 2.0], [-4.0, 2.0]]
            .map(VertexRecord::Line)
            .to_vec(),
    );
    let record = ShellRecord {
        name: "Plain".to_owned(),
        note: String::new(),
        outline: square.clone(),
        floor: vec![FacetRecord {
            kind: FacetKind::Deep,
            outline: square,
            depths: vec![1.5; 4],
        }],
        coping_width: 0.25,
        waterline: 0.15,
        wall_thickness: 0.01,
        draft: 0.0,
        cove: 0.0,
        stations: Vec::new(),
        drain: None,
        weight: None,
    };
    Shell::check(&record).unwrap().0
}

fn works(width: f64) -> ConstructionSettings {
    let mut works = ConstructionSettings::default();
    works.deck.width = width;
    works.deck.joint_spacing = 2.4;
    works.ties.spacing = 0.6;
    works.collar.width = 0.3;
    works
}

fn block(x: f64, y: f64, w: f64, h: f64) -> Region {
    let corners = [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
    Region::from_ring(Ring(corners.map(Point::from).to_vec()))
}

fn plan(width: f64, drawn: &Drawn) -> DeckPlan {
    DeckPlan::new(&shell(), &works(width), drawn)
}

fn widened_area(by: f64) -> f64 {
    32.0 + 24.0 * by + PI * by * by
}

fn near(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b}");
}

#[test]
fn the_plain_ring_is_exact() {
    let deck = plan(1.2, &Drawn::default());
    let figures = deck.figures;
    near(figures.area, widened_area(1.45) - widened_area(0.25), 1e-9);
    near(
        figures.bed_area,
        widened_area(1.45) - widened_area(0.55),
        1e-9,
    );
    near(figures.forms, 24.0 + 2.0 * PI * 1.45, 1e-9);
    near(deck.slab.area(), figures.area, 5e-3);
    near(deck.bed.area(), figures.bed_area, 5e-3);
    assert_eq!((figures.drawn_area, figures.steps_area), (0.0, 0.0));
    // As many rods as fit, both ways: about twice the area over the spacing.
    let by_area = 2.0 * figures.area / works(1.2).deck.rod_spacing;
    near(figures.rods, by_area, 0.08 * by_area);
}

#[test]
fn joints_cross_the_ring_square_to_the_rim() {
    let deck = plan(1.2, &Drawn::default());
    // Panels of 1.8 m at most (one and a half times 1.2 m), and a joint at each corner: along the
    // 33.11 m of the edge at least 19.
    assert!(
        deck.joints.len() >= 19 && deck.joints.len() <= 24,
        "{}",
        deck.joints.len()
    );
    for joint in &deck.joints {
        near(length(joint), 1.2, 2e-3);
    }
    let corner = Vector::new(1.0, 1.0).unit().unwrap() * 1.45;
    let at_corner = Point::new(4.0, 2.0) + corner;
    let near_corner = |j: &Vec<Point>| j.iter().any(|p| p.distance(at_corner) < 5e-3);
    assert!(deck.joints.iter().any(near_corner));
    near(deck.figures.joints, deck.joints.len() as f64 * 1.2, 0.05);
}

#[test]
fn a_wide_ring_has_joints_round_it_as_well() {
    let deck = plan(4.0, &Drawn::default());
    let round = deck.joints.iter().filter(|joint| joint.len() > 8).count();
    assert_eq!(round, 1, "4 m in rows of at most 2.4 m");
}

#[test]
fn what_is_drawn_is_not_poured_twice() {
    // Ten by four meters against the long side, over ring and shell.
    let drawn = Drawn {
        decks: vec![block(-5.0, 0.0, 10.0, 6.0)],
        ..Drawn::default()
    };
    let deck = plan(1.2, &drawn);
    let whole = offset_region(&shell().footprint, 1.45, 1e-4);
    let expected = union(&whole, &drawn.decks[0]).area() - widened_area(0.25);
    near(deck.figures.area, expected, 5e-3);
    let beyond = difference(&drawn.decks[0], &whole).area();
    near(deck.figures.drawn_area, beyond, 5e-3);
    // The edge of the ring inside the drawn slab is a joint, and the slab has a grid of its own.
    assert!(deck.joints.iter().any(|joint| length(joint) > 8.0));
    let across = deck.joints.iter().filter(|j| {
        let along = j[0] - j[j.len() - 1];
        along.x.abs() < 1e-6 && j[0].y.max(j[j.len() - 1].y) > 5.9
    });
    assert!(across.count() >= 4, "10 m in panels of at most 2.4 m");
}

#[test]
fn openings_steps_and_pad_leave_the_slab() {
    let drawn = Drawn {
        openings: vec![block(4.5, -0.5, 0.5, 1.0)],
        steps: vec![Flight {
            region: block(-0.5, 2.6, 1.0, 0.6),
            rise: 0.4,
            feature: 0,
        }],
        pad: Some(block(-1.0, -3.0, 1.0, 0.5)),
        ..Drawn::default()
    };
    let deck = plan(1.2, &drawn);
    let ring = widened_area(1.45) - widened_area(0.25);
    near(deck.figures.area, ring - 0.5 - 0.6 - 0.5, 5e-3);
    near(deck.figures.steps_area, 0.6, 1e-6);
    near(deck.figures.treads, 0.6 * 0.2, 1e-6);
    // A corner of the opening points into the slab: joints serve all four.
    for corner in [[4.5, -0.5], [5.0, -0.5], [5.0, 0.5], [4.5, 0.5]].map(Point::from) {
        let served = deck.joints.iter().any(|joint| {
            joint.iter().any(|p| p.distance(corner) < 0.06)
                || (joint[0].distance(corner) + corner.distance(joint[1]) - length(joint)).abs()
                    < 1e-3
        });
        assert!(served, "{corner:?}");
    }
    // Forms: the outer edge, the opening and the steps all round; none along the pad.
    near(deck.figures.forms, 24.0 + 2.0 * PI * 1.45 + 3.0 + 3.2, 0.02);
}

#[test]
fn ties_are_even_and_stay_out_of_openings() {
    let deck = plan(1.2, &Drawn::default());
    let rim = 24.0 + 2.0 * PI * 0.25;
    assert_eq!(deck.figures.ties, (rim / 0.6).ceil() as u32);
    for tie in &deck.ties {
        near(tie.out.length(), 1.0, 1e-9);
        assert!(!shell().rim.contains(tie.at + tie.out * 0.01));
    }
    let drawn = Drawn {
        openings: vec![block(4.2, -1.0, 1.0, 2.0)],
        ..Drawn::default()
    };
    let fewer = plan(1.2, &drawn);
    assert!(
        fewer
            .ties
            .iter()
            .all(|tie| !drawn.openings[0].contains(tie.at + tie.out * 0.05))
    );
    let lost = deck.ties.len() - fewer.ties.len();
    assert!((3..=4).contains(&lost), "2 m of opening at 0.6 m: {lost}");
    assert!(plan(0.0, &Drawn::default()).ties.is_empty());
}

#[test]
fn no_deck_is_nothing_and_a_drawn_one_stands_alone() {
    assert_eq!(plan(0.0, &Drawn::default()).figures, DeckFigures::default());
    let drawn = Drawn {
        decks: vec![block(10.0, 0.0, 12.0 * FOOT, 8.0 * FOOT)],
        ..Drawn::default()
    };
    let deck = plan(0.0, &drawn);
    near(deck.figures.area, 96.0 * FOOT * FOOT, 1e-5);
    near(deck.figures.forms, 40.0 * FOOT, 1e-5);
    // 12 ft in two panels of 6 ft, 8 ft in two of 4 ft: one joint each way, the panels square
    // enough.
    near(deck.figures.joints, 20.0 * FOOT, 1e-4);
}

#[test]
fn an_inner_corner_of_a_drawn_slab_has_a_joint() {
    let mut el = block(10.0, 0.0, 6.0, 5.0);
    el = difference(&el, &block(12.5, 2.0, 4.0, 4.0));
    let drawn = Drawn {
        decks: vec![el],
        ..Drawn::default()
    };
    let deck = plan(0.0, &drawn);
    let corner = Point::new(12.5, 2.0);
    assert!(
        deck.joints
            .iter()
            .any(|j| j.iter().any(|p| p.distance(corner) < 1e-3)
                || (j[0].distance(corner) + corner.distance(j[1]) - length(j)).abs() < 1e-6)
    );
}
