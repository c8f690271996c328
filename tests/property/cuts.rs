//! Lines and places against areas: cut, wound, thinned, hatched and searched, each held against walking in small steps,
//! against counting crossings, or against an area that was had otherwise.

use batterboard_core::geom::inside::Inside;
use batterboard_core::geom::pattern::hatch;
use batterboard_core::geom::pole::poles;
use batterboard_core::geom::{Point, Region, Segment, Vector, boolean};
use batterboard_core::geom::{clip, stretches, thin, winding};
use batterboard_core::math::TURN;
use proptest::prelude::*;

use crate::geom::{curved, inside_all, places, star, to_edge, to_rings, to_segment, wander};

/// Two stars as one area, often with a notch between them, sometimes in two parts.
fn area() -> impl Strategy<Value = Region> {
    (star(), star()).prop_map(|(a, b)| {
        let [a, b] = [a, b].map(Region::from_ring);
        boolean::union(&a, &b)
    })
}

/// Steps of a walk along a chain, each with its length.
fn walk(chain: &[Point], steps: u32) -> Vec<(Point, f64)> {
    let edges = chain.iter().zip(chain.iter().skip(1));
    let on = edges.flat_map(|(a, b)| {
        let long = a.distance(*b) / f64::from(steps);
        (0..steps).map(move |k| {
            (
                *a + (*b - *a) * ((f64::from(k) + 0.5) / f64::from(steps)),
                long,
            )
        })
    });
    on.collect()
}

proptest! {
    /// Inside and outside make up the chain, and hold what a walk finds there.
    #[test]
    fn a_chain_is_cut_where_a_walk_crosses_the_edge(region in area(), chain in wander()) {
        let (within, without) = (clip::inside(&chain, &region), clip::outside(&chain, &region));
        let long = |parts: &[Vec<Point>]| parts.iter().map(|it| clip::length(it)).sum::<f64>();
        let whole = clip::length(&chain);
        prop_assert!((long(&within) + long(&without) - whole).abs() < 1e-6 * whole.max(1.0));
        let steps = 400;
        let found: f64 = walk(&chain, steps)
            .into_iter()
            .filter(|(p, _)| inside_all(*p, &region))
            .map(|(_, long)| long)
            .sum();
        // At every crossing the walk is off by half a step at most.
        let crossings: usize = within.iter().chain(&without).count() + 1;
        let step = 5.0 / f64::from(steps);
        prop_assert!((long(&within) - found).abs() <= step * crossings as f64, "{} {found}", long(&within));
        for (part, side) in within.iter().map(|it| (it, true)).chain(without.iter().map(|it| (it, false))) {
            for (p, _) in walk(part, 5) {
                if to_rings(p, &region) > 1e-6 {
                    prop_assert_eq!(inside_all(p, &region), side, "{:?}", p);
                }
            }
        }
    }

    /// What winds about the points of a line is what their union holds of it.
    #[test]
    fn a_line_through_rings_is_that_through_their_union(
        rings in prop::collection::vec(star(), 1..5),
        from in places(),
        turn in 0.0..TURN,
    ) {
        let along = Vector::at_angle(turn);
        let found = winding::stretches(from[0], along, &rings);
        let united = boolean::positive_winding(&rings);
        let ends = [from[0] + along * -40.0, from[0] + along * 40.0];
        let within = clip::inside(&ends, &united);
        let long: f64 = found.iter().map(|(a, b)| b - a).sum();
        let other: f64 = within.iter().map(|it| clip::length(it)).sum();
        prop_assert!((long - other).abs() < 1e-4, "{long} {other}");
        for (a, b) in found {
            let middle = from[0] + along * ((a + b) / 2.0);
            prop_assert!(rings.iter().any(|ring| ring.winding(middle) > 0));
        }
    }

    /// Places asked for in blocks of edges are inside where a level ray crosses an odd number of edges.
    #[test]
    fn many_places_are_inside_where_a_ray_says_so(region in area(), places in places()) {
        let inside = Inside::of(&region);
        for p in places {
            prop_assert_eq!(inside.contains(p), inside_all(p, &region), "{:?}", p);
        }
    }

    /// A thinned ring keeps corners of its own, and every corner that it drops lies near it.
    #[test]
    fn thinned_rings_pass_near_every_corner(outline in curved(), within in 0.001..0.2f64) {
        let ring = outline.region(0.002).polygons[0].outer.clone();
        let thinned = thin::thinned(&ring, within);
        prop_assert!(thinned.0.len() <= ring.0.len());
        for corner in &thinned.0 {
            prop_assert!(ring.0.contains(corner));
        }
        for p in &ring.0 {
            let far = thinned.edges().map(|(a, b)| to_edge(*p, a, b)).fold(f64::INFINITY, f64::min);
            prop_assert!(far <= within + 1e-9, "{far}");
        }
    }

    /// No place lies deeper than the pole, to the 5 mm that it is found within.
    #[test]
    fn no_random_place_lies_deeper_than_the_pole(region in area(), places in places()) {
        let poles = poles(&region);
        prop_assert_eq!(poles.len(), region.polygons.len());
        for pole in &poles {
            prop_assert!(inside_all(pole.at, &region));
            prop_assert!((to_rings(pole.at, &region) - pole.depth).abs() < 1e-9);
        }
        for p in places.into_iter().filter(|p| inside_all(*p, &region)) {
            prop_assert!(to_rings(p, &region) <= poles[0].depth + 0.005 + 1e-9);
        }
    }

    /// Hatches stay inside, and lines so far apart cover what the area is.
    #[test]
    fn hatches_cover_the_area(region in area(), angle in 0.0..TURN) {
        // lyon works in single precision; figures here are some 20 m wide.
        let near = 1e-3;
        let spacing = 0.05;
        let lines = hatch(&region, angle, spacing);
        let long: f64 = lines.iter().map(|(a, b)| a.distance(*b)).sum();
        let off = (long * spacing - region.area()).abs();
        prop_assert!(off < spacing * region.perimeter() * 0.6, "{off}");
        for (a, b) in &lines {
            let middle = *a + (*b - *a) * 0.5;
            prop_assert!(inside_all(middle, &region) || to_rings(middle, &region) < near);
        }
    }

    /// The distance of two curved outlines is that of the nearest of many places on them, and no place is nearer.
    #[test]
    fn curved_outlines_are_as_far_apart_as_their_nearest_places(
        a in curved(),
        b in curved(),
        east in 14.0..40.0f64,
    ) {
        let a: Vec<Segment> = a.segments().collect();
        let b: Vec<Segment> = b.segments().map(|it| carried(&it, east)).collect();
        let found = stretches::nearest(&a, &b).unwrap();
        prop_assert!((found.from.distance(found.to) - found.distance.abs()).abs() < 1e-9);
        let far = |p: Point, all: &[Segment]| {
            all.iter().map(|it| to_segment(p, it)).fold(f64::INFINITY, f64::min)
        };
        prop_assert!(far(found.from, &a) < 1e-9 && far(found.to, &b) < 1e-9);
        let steps = 200;
        let on = |it: &Segment| (0..=steps).map(|k| it.point_at(f64::from(k) / f64::from(steps))).collect::<Vec<_>>();
        let walked = a.iter().flat_map(on).map(|p| far(p, &b)).fold(f64::INFINITY, f64::min);
        prop_assert!(found.distance <= walked + 1e-9, "{} {walked}", found.distance);
        // A step is 6 m of arc in 200 parts at most; beside a place that lies square to the other it is off by far less.
        prop_assert!(walked <= found.distance + 0.06, "{} {walked}", found.distance);
    }
}

/// A stretch carried to the east.
fn carried(segment: &Segment, east: f64) -> Segment {
    let by = Vector::new(east, 0.0);
    match *segment {
        Segment::Line { from, to } => Segment::Line {
            from: from + by,
            to: to + by,
        },
        Segment::Arc {
            from,
            to,
            centre,
            radius,
            start_angle,
            sweep,
        } => Segment::Arc {
            from: from + by,
            to: to + by,
            centre: centre + by,
            radius,
            start_angle,
            sweep,
        },
    }
}
