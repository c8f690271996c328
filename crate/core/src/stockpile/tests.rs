//! Where a pile goes on lots that can be thought through.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::{Value, json};

use super::*;
use crate::clearance::WorkFigures;
use crate::geom::Ring;
use crate::math::TURN;
use crate::site::Site;

/// A lot of 30 x 40 m with these features and settings for the spoil.
fn site(features: &Value, spoil: &Value) -> CheckedSite {
    let course = |quarters: f64, length: f64| {
        json!({ "kind": "side",
                "shape": { "line": { "bearing": quarters * TURN / 4.0, "distance": length } } })
    };
    let document = json!({
        "format": "batterboard-site", "version": 3, "name": "test",
        "lot": { "courses": [course(1.0, 30.0), course(0.0, 40.0), course(3.0, 30.0), course(2.0, 40.0)] },
        "features": features,
        "works": { "spoil": spoil },
    });
    let site: Site = serde_json::from_value(document).unwrap();
    CheckedSite::check(site, None).unwrap()
}

fn block(x: f64, y: f64, w: f64, h: f64) -> Region {
    let corners = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)];
    Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()))
}

/// A dig of 12 x 8 m about the middle of the lot.
fn work() -> Work {
    let figures = WorkFigures {
        waters_edge: block(11.0, 18.0, 8.0, 4.0),
        rim: 0.3,
        deck_edge: 1.5,
        equipment: None,
        dig: block(9.0, 16.0, 12.0, 8.0),
        drawn_decks: Region::default(),
        ..WorkFigures::default()
    };
    Work::of(&figures, 0.61, Point::new(15.0, 20.0))
}

fn piled(features: &Value, spoil: &Value, loose: f64) -> Stockpile {
    let site = site(features, spoil);
    let records = &site.site().features;
    let obstacles = Obstacles::of(site.lot(), site.features(), records);
    stockpile(&site, loose, &obstacles, &work()).unwrap()
}

fn says(pile: &Stockpile) -> Vec<&'static str> {
    pile.findings.iter().map(|f| f.code).collect()
}

fn thing(kind: &str, x: f64, y: f64, w: f64, h: f64) -> Value {
    json!({ "id": format!("{kind}{x}{y}"), "kind": kind,
            "shape": { "area": [[x, y], [x + w, y], [x + w, y + h], [x, y + h]] } })
}

/// A cone of 18.85 m3 has a radius of 3 m: on an empty lot it lies beside the long side of the
/// dig, 0.61 m off.
#[test]
fn on_an_empty_lot_it_lies_beside_the_dig() {
    let pile = piled(&json!([]), &json!({ "most_height": 3.0 }), 18.849_556);
    let at = pile.at.unwrap();
    assert!((pile.heap.radius - 3.0).abs() < 1e-6);
    assert!(
        (at.x - 15.0).abs() < 0.3 && ((at.y - 20.0).abs() - 7.61).abs() < 0.03,
        "{at:?}"
    );
    assert!(says(&pile).is_empty() && pile.chosen == Chosen::Nearest);
    assert!((pile.footprint().area() - 9.0 * core::f64::consts::PI).abs() < 0.02);
}

#[test]
fn it_gives_way_to_what_stands_there_and_sooner_to_a_driveway_than_to_none() {
    let spoil = json!({ "most_height": 3.0 });
    // Both long sides are taken; a drive lies at one end.
    let taken = |drive: bool| {
        let mut all = vec![
            thing("house", 0.0, 25.0, 30.0, 15.0),
            thing("septic-field", 0.0, 0.0, 30.0, 15.0),
        ];
        if drive {
            all.push(thing("driveway", 21.0, 15.0, 9.0, 10.0));
        }
        json!(all)
    };
    let east_or_west = piled(&taken(false), &spoil, 18.85).at.unwrap();
    assert!((east_or_west.x - 15.0).abs() > 9.6);
    let pile = piled(&taken(true), &spoil, 18.85);
    assert!(pile.at.unwrap().x < 9.0 && says(&pile).is_empty());
    // Too large for the west: the drive is taken, and a note says so.
    let mut both = taken(true).as_array().unwrap().clone();
    both.push(thing("outbuilding", 0.0, 15.0, 4.0, 10.0));
    let pile = piled(&json!(both), &spoil, 18.85);
    assert!(pile.at.unwrap().x > 21.0);
    assert_eq!(says(&pile), ["pile-better-elsewhere"]);
}

#[test]
fn where_it_fits_nowhere_the_most_that_does_is_told() {
    let all = json!([
        thing("house", 0.0, 26.0, 30.0, 14.0),
        thing("easement", 0.0, 0.0, 30.0, 14.0),
    ]);
    let pile = piled(&all, &json!({}), 200.0);
    assert_eq!(pile.at, None);
    assert_eq!(says(&pile), ["pile-fits-nowhere"]);
    assert!(pile.footprint().is_empty());
    // East and west 9 m by 12 m are left, less 0.61 m: a radius of 4.19 m.
    let site = site(&all, &json!({}));
    let obstacles = Obstacles::of(site.lot(), site.features(), &site.site().features);
    let best = greatest(&obstacles, &work()).unwrap();
    assert!((best.radius - (9.0 - 0.61) / 2.0).abs() < 0.06, "{best:?}");
}

#[test]
fn a_place_by_hand_is_kept_and_what_it_breaks_is_told() {
    let features = json!([
        thing("tree", 3.0, 3.0, 2.0, 2.0),
        { "id": "gas", "kind": "buried-line", "shape": { "track": [[0, 9], [30, 9]] } },
    ]);
    let spoil = json!({ "at": [6.0, 10.0], "most_height": 3.0, "back": 0.65 });
    let pile = piled(&features, &spoil, 60.0);
    assert_eq!(
        (pile.at, pile.chosen),
        (Some(Point::new(6.0, 10.0)), Chosen::ByHand)
    );
    assert_eq!(says(&pile), ["pile-over-line"]);
    let close = piled(
        &features,
        &json!({ "at": [8.0, 14.0], "most_height": 3.0 }),
        60.0,
    );
    assert!(says(&close).contains(&"pile-in-the-way"));
    let over = piled(
        &features,
        &json!({ "at": [2.0, 2.0], "most_height": 3.0 }),
        60.0,
    );
    let messages: Vec<&str> = over.findings.iter().map(|f| f.message.as_str()).collect();
    assert!(
        messages[0].contains("over the lot line") && messages[1].contains("tree"),
        "{messages:?}"
    );
    assert_eq!(over.findings[0].pointer, "/works/spoil/at");
}

#[test]
fn drawn_room_is_used_and_told_when_it_is_too_small() {
    let room = |w: f64| json!([thing("spoil-space", 1.0, 28.0, w, 10.0)]);
    let spoil = json!({ "most_height": 3.0 });
    let pile = piled(&room(12.0), &spoil, 18.85);
    let at = pile.at.unwrap();
    assert!(
        at.y > 31.0 && at.x < 10.1 && pile.chosen == Chosen::InSpace,
        "{at:?}"
    );
    assert!(says(&pile).is_empty());
    let tight = piled(&room(4.0), &spoil, 18.85);
    assert!((tight.at.unwrap().x - 3.0).abs() < 0.1);
    assert_eq!(says(&tight), ["pile-too-large"]);
}

#[test]
fn no_spoil_makes_no_pile() {
    let site = site(&json!([]), &json!({}));
    let obstacles = Obstacles::of(site.lot(), site.features(), &site.site().features);
    assert!(stockpile(&site, 0.0, &obstacles, &work()).is_none());
}
