//! Cut, fill and banks against closed forms.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Ring};
use crate::ground::GroundRecord;
use crate::math::TURN;
use crate::shell::{FacetKind, FacetRecord, ShellRecord};

const PI: f64 = core::f64::consts::PI;

/// Width of the coping.
const COPING: f64 = 0.25;

/// 8 m by 4 m at the water's edge, 1.5 m deep.
fn shell() -> Shell {
    let square = PathRecord(vec![
        VertexRecord::Line([-4.0, -2.0]),
        VertexRecord::Line([4.0, -2.0]),
        VertexRecord::Line([4.0, 2.0]),
        VertexRecord::Line([-4.0, 2.0]),
    ]);
    let record = ShellRecord {
        name: "Plain".to_owned(),
        note: String::new(),
        outline: square.clone(),
        floor: vec![FacetRecord {
            kind: FacetKind::Deep,
            outline: square,
            depths: vec![1.5; 4],
        }],
        coping_width: COPING,
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

/// Collar 0.3 m wide with its underside 0.4 m down; deck 1.2 m wide, slab and bed 0.2 m.
fn works() -> ConstructionSettings {
    let mut works = ConstructionSettings::default();
    works.dig.side_slope = Some(0.0);
    works.dig.over_dig = 0.2;
    works.collar.width = 0.3;
    works.collar.depth = 0.3;
    works.collar.top_below_rim = 0.1;
    works.deck.width = 1.2;
    works.deck.thickness = 0.1;
    works.deck.bed = 0.1;
    works.deck.fall = 0.02;
    works.grading.bank_slope = 3.0;
    works
}

fn level(elevation: f64) -> Ground {
    Ground::check(&GroundRecord::Level { elevation }).unwrap().0
}

fn plane(elevation: f64, fall: f64) -> Ground {
    let record = GroundRecord::Plane {
        at: Point::default(),
        elevation,
        fall,
        towards: TURN / 4.0,
    };
    Ground::check(&record).unwrap().0
}

fn pose() -> Pose {
    Pose::new(Point::default(), TURN / 4.0, false)
}

/// The grading with the rim at 10 m.
fn at_ten(works: &ConstructionSettings, drawn: &Drawn, ground: &Ground, pose: &Pose) -> Grading {
    let mut kept = Cache::default();
    let none = Region::default();
    graded(
        &shell(),
        works,
        drawn,
        (ground, pose, 10.0),
        &none,
        &mut kept,
    )
}

fn plain(works: &ConstructionSettings, ground: &Ground) -> Grading {
    at_ten(works, &Drawn::default(), ground, &pose())
}

/// The sum over the ring from `from` to `to` meters outside the rim of a height that is a
/// straight line in the distance: the ring at `d` is as long as the rectangle and a circle.
fn ring(from: f64, to: f64, height: impl Fn(f64) -> f64) -> f64 {
    let length = |d: f64| 24.0 + 2.0 * PI * (COPING + d);
    let middle = (from + to) / 2.0;
    let at = |d: f64| length(d) * height(d);
    // Simpson's rule, exact for the square of a straight line.
    (to - from) / 6.0 * (at(from) + 4.0 * at(middle) + at(to))
}

#[track_caller]
fn near(value: f64, expected: f64) {
    let off = (value - expected).abs();
    assert!(
        off <= 1e-3 * expected.abs() + 1e-9,
        "{value}, not {expected}"
    );
}

#[test]
fn deck_and_collar_are_cut_into_level_ground_at_the_rim() {
    let graded = plain(&works(), &level(10.0));
    near(
        graded.deck_cut,
        ring(0.0, 0.3, |_| 0.4) + ring(0.3, 1.2, |d| 0.2 + 0.02 * d),
    );
    // The ground stands 24 mm above the deck's edge: a bank 72 mm wide.
    near(graded.lies.unwrap().height, 0.024);
    assert!(graded.stands.is_none() && graded.closed);
    let bank = ring(1.2, 1.272, |d| 0.024 - (d - 1.2) / 3.0);
    assert!(
        (graded.bank_cut - bank).abs() < 0.01,
        "{} {bank}",
        graded.bank_cut
    );
    assert_eq!(graded.fill(), 0.0);
}

#[test]
fn a_deck_above_level_ground_is_filled_and_its_banks_run_to_the_ground() {
    let graded = plain(&works(), &level(9.4));
    // The rim stands 0.6 m up: the collar's underside 0.2 m, the deck's edge 0.576 m.
    near(
        graded.deck_fill,
        ring(0.0, 0.3, |_| 0.2) + ring(0.3, 1.2, |d| 0.4 - 0.02 * d),
    );
    let run = 3.0 * 0.576;
    near(
        graded.bank_fill,
        ring(1.2, 1.2 + run, |d| 0.576 - (d - 1.2) / 3.0),
    );
    assert_eq!(graded.cut(), 0.0);
    near(graded.stands.unwrap().height, 0.576);
    assert!((graded.toe.reach - run).abs() < 0.1, "{}", graded.toe.reach);
    assert_eq!(graded.toe.lines.len(), 1);
    let rim = crate::geom::Edges::of_region(&shell().rim);
    for p in &graded.toe.lines[0] {
        let at = pose().shell_from_site(*p);
        assert!((rim.distance(at) - 1.2 - run).abs() < 0.01, "{at:?}");
    }
}

/// Vertical sides 0.76 m outside the rim in level ground at the rim: between collar and side the
/// earth above the stone is put back.
#[test]
fn the_wedge_above_the_stone_is_filled() {
    let mut works = works();
    works.dig.over_dig = 1.0;
    let graded = plain(&works, &level(10.0));
    let side = 1.01 - COPING;
    near(graded.hole_fill, ring(0.3, side, |d| 0.4 - 0.2 - 0.02 * d));
    near(graded.deck_cut, ring(side, 1.2, |d| 0.2 + 0.02 * d));
    assert_eq!(graded.deck_fill, 0.0);
}

/// A hole that opens wider than the deck: the stone stops at the collar's underside, and earth
/// fills the rest up to the ground.
#[test]
fn the_opening_beyond_the_deck_is_filled_to_the_ground() {
    let mut works = works();
    works.dig.over_dig = 2.0;
    works.deck.fall = 0.0;
    let graded = plain(&works, &level(10.0));
    let side = 2.01 - COPING;
    near(
        graded.hole_fill,
        ring(0.3, 1.2, |_| 0.2) + ring(1.2, side, |_| 0.4),
    );
    assert_eq!(graded.cut(), 0.0);
}

#[test]
fn on_a_slope_the_low_edge_stands_and_the_high_edge_lies() {
    let mut works = works();
    works.deck.fall = 0.0;
    // Falls east, 1 in 10; the deck's edge lies 5.45 m east and west of the middle.
    let graded = plain(&works, &plane(10.0, 0.1));
    let (stands, lies) = (graded.stands.unwrap(), graded.lies.unwrap());
    near(stands.height, 0.545);
    near(lies.height, 0.545);
    assert!(stands.at.x > 5.4 && lies.at.x < -5.4);
    assert!(graded.deck_cut > 0.0 && graded.deck_fill > 0.0);
    // Low side: the bank falls 1 in 3 and the ground 1 in 10.
    assert!((graded.toe.reach - 0.545 / (1.0 / 3.0 - 0.1)).abs() < 0.15);
    assert!(graded.closed);
}

#[test]
fn banks_that_do_not_come_out_are_told() {
    let mut works = works();
    works.grading.bank_slope = 12.0;
    assert!(!plain(&works, &plane(10.0, 0.1)).closed);
    // Upright banks run nowhere.
    works.grading.bank_slope = 0.0;
    let upright = plain(&works, &plane(10.0, 0.1));
    assert!(upright.closed && upright.toe.lines.is_empty());
    assert_eq!((upright.bank_cut, upright.bank_fill), (0.0, 0.0));
}

/// A ditch beyond the bank's foot is not filled, however deep it is.
#[test]
fn a_bank_ends_where_it_first_meets_the_ground() {
    let mut works = works();
    works.deck.fall = 0.0;
    let mut spots = vec![];
    for y in [-60.0, 60.0] {
        for (x, z) in [
            (-60.0, 10.0),
            (6.5, 10.0),
            (7.0, 8.0),
            (7.5, 10.0),
            (60.0, 10.0),
        ] {
            spots.push([x, y, z]);
        }
    }
    let ground = Ground::check(&GroundRecord::of_spots(spots)).unwrap().0;
    let graded = plain(&works, &ground);
    assert!(graded.fill() < 1e-9, "{}", graded.fill());
    assert!(graded.toe.lines.is_empty());
}

fn drawn(decks: &[[f64; 4]], openings: &[[f64; 4]]) -> Drawn {
    let all = |boxes: &[[f64; 4]]| {
        let regions = boxes.iter().map(|[x, y, w, h]| {
            let corners = [(*x, *y), (x + w, *y), (x + w, y + h), (*x, y + h)];
            Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()))
        });
        regions.fold(Region::default(), |a, b| {
            crate::geom::boolean::union(&a, &b)
        })
    };
    Drawn::within(&all(decks), all(openings))
}

/// A level deck of 4 x 3 m that begins within the band round the rim, less an opening of 1 m2.
#[test]
fn a_drawn_deck_continues_the_band() {
    let mut works = works();
    works.deck.fall = 0.0;
    works.grading.bank_slope = 0.0;
    let ground = level(9.4);
    let band = plain(&works, &ground).deck_fill;
    let own = drawn(&[[5.0, -1.5, 4.0, 3.0]], &[[7.0, -0.5, 1.0, 1.0]]);
    for mirrored in [false, true] {
        let pose = Pose::new(Point::default(), TURN / 4.0, mirrored);
        let graded = at_ten(&works, &own, &ground, &pose);
        // From x = 5.45 to 9, 3 m wide, 0.4 m high.
        let more = (3.55 * 3.0 - 1.0) * 0.4;
        near(graded.deck_fill, band + more);
        near(graded.stands.unwrap().height, 0.6);
    }
}

/// Its banks run from its own edges, at the height that its fall leaves there.
#[test]
fn a_drawn_deck_has_banks_of_its_own() {
    let works = works();
    let own = drawn(&[[5.0, -1.5, 4.0, 3.0]], &[]);
    let graded = at_ten(&works, &own, &level(9.4), &pose());
    // The far edge lies 4.75 m from the rim: 0.505 m above the ground.
    let far = 0.6 - 0.02 * 4.75;
    let toe = graded.toe.lines.iter().flatten();
    let farthest = toe.map(|p| p.x).fold(0.0, f64::max);
    assert!((farthest - 9.0 - 3.0 * far).abs() < 0.03, "{farthest}");
    assert!(graded.bank_fill > plain(&works, &level(9.4)).bank_fill);
}

#[test]
fn what_is_kept_changes_nothing() {
    let (works, shell, none) = (works(), shell(), Region::default());
    let mut kept = Cache::default();
    for elevation in [9.0, 10.0, 9.7, 8.5, 9.0] {
        let ground = level(elevation);
        let at = (&ground, &pose(), 10.0);
        let again = graded(&shell, &works, &Drawn::default(), at, &none, &mut kept);
        assert_eq!(again, plain(&works, &ground));
    }
}
