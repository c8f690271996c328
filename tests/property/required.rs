//! Shares of ground against points counted one by one, and open places of a barrier against those it was made with.

use std::sync::Arc;

use batterboard_core::barrier::Barrier;
use batterboard_core::coverage::{Coverage, ground};
use batterboard_core::geom::{Point, Region, Ring};
use batterboard_core::site::{BarrierRule, CheckedSite, Cover, GroundPart, starter};
use proptest::prelude::*;
use serde_json::json;

/// An upright block by its lower left corner and its size, meters.
fn block([x, y, w, h]: [f64; 4]) -> [[f64; 2]; 4] {
    [[x, y], [x + w, y], [x + w, y + h], [x, y + h]]
}

fn region(corners: [[f64; 2]; 4]) -> Region {
    Region::from_ring(Ring(corners.map(Point::from).to_vec()))
}

fn site(features: serde_json::Value) -> CheckedSite {
    let mut site = starter::blank_lot();
    site.features = Arc::new(serde_json::from_value(features).unwrap());
    CheckedSite::check(site, None).unwrap()
}

fn any_block() -> impl Strategy<Value = [f64; 4]> {
    [-4.0..26.0, 2.0..36.0, 3.0..12.0, 3.0..9.0]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn a_share_is_that_of_points_on_a_grid(
        house in any_block(),
        walk in any_block(),
        shell in any_block(),
        deck in any_block(),
    ) {
        let site = site(json!([
            { "id": "house", "kind": "house", "shape": { "area": block(house) } },
            { "id": "walk", "kind": "walk", "shape": { "area": block(walk) } },
        ]));
        let coverage = Coverage::of(&site, region(block(shell)), &region(block(deck)));
        let lot = ground(&site, GroundPart::Lot).unwrap();
        let counts = [Cover::Structures, Cover::Paving, Cover::Shell, Cover::Deck];
        let share = coverage.share(&lot, &counts);
        // The starter's lot is upright, from the origin.
        let (_, far) = lot.bounds().unwrap();
        let side = 400;
        let within = |[x, y, w, h]: [f64; 4], p: Point| p.x > x && p.x < x + w && p.y > y && p.y < y + h;
        let mut counted = [0_u32; 2];
        for i in 0..side {
            for j in 0..side {
                let at = |k: i32, most: f64| (f64::from(k) + 0.5) / f64::from(side) * most;
                let p = Point::new(at(i, far.x), at(j, far.y));
                let before = within(house, p) || within(walk, p);
                counted[0] += u32::from(before);
                counted[1] += u32::from(before || within(shell, p) || within(deck, p));
            }
        }
        let all = f64::from(side * side);
        // Each edge of a block may take or leave half a row of points: 16 edges, each at most 40 % of a side.
        let near = 16.0 * 0.5 * 0.4 / f64::from(side);
        prop_assert!((share.share_before() - f64::from(counted[0]) / all).abs() < near);
        prop_assert!((share.share_after() - f64::from(counted[1]) / all).abs() < near);
    }

    #[test]
    fn a_barrier_is_open_where_it_was_left_open(
        left_open in prop::collection::vec((0.02_f64..2.5, 0.3_f64..0.7), 4),
    ) {
        // A fence 20 m square, each side with an opening of its own in its middle part; one of a few
        // millimeters up to the limit counts as closed.
        let corners = [[4.0, 8.0], [24.0, 8.0], [24.0, 28.0], [4.0, 28.0]];
        let limit = 0.1;
        let mut chains: Vec<[[f64; 2]; 3]> = Vec::new();
        let along = |a: [f64; 2], b: [f64; 2], share: f64| {
            [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]
        };
        let ends = |i: usize| {
            let (width, middle) = left_open[i];
            let half = width / 40.0;
            let (a, b) = (corners[i], corners[(i + 1) % 4]);
            (along(a, b, middle - half), along(a, b, middle + half))
        };
        for i in 0..4 {
            let next = (i + 1) % 4;
            chains.push([ends(i).1, corners[next], ends(next).0]);
        }
        let features: Vec<_> = chains.iter().enumerate().map(|(i, chain)| {
            json!({ "id": format!("fence {i}"), "kind": "fence", "shape": { "track": chain },
                    "facts": { "height": 1.5 } })
        }).collect();
        let site = site(json!(features));
        let rule = BarrierRule { least_height: 1.2, widest_gap: limit, source: String::new() };
        let found = Barrier::of(&site, &rule, Point::new(13.5, 18.5));
        let mut expected: Vec<f64> = left_open.iter().map(|it| it.0).filter(|it| *it > limit).collect();
        expected.sort_by(|a, b| b.total_cmp(a));
        let widths: Vec<f64> = found.openings.iter().map(|it| it.width).collect();
        prop_assert_eq!(widths.len(), expected.len());
        for (width, expected) in widths.iter().zip(&expected) {
            prop_assert!((width - expected).abs() < 1e-9, "{width} for {expected}");
        }
        prop_assert!(found.goes_round);
        prop_assert_eq!(found.is_closed(), expected.is_empty());
    }
}
