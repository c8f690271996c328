//! The ground against slower ways to know it.

use batterboard_core::geom::{Point, Vector};
use batterboard_core::ground::{Ground, GroundRecord};
use proptest::prelude::*;

fn spots() -> impl Strategy<Value = Vec<[f64; 3]>> {
    prop::collection::vec([-50.0..50.0_f64, -50.0..50.0_f64, 95.0..105.0_f64], 3..40)
}

fn ground(spots: &[[f64; 3]]) -> Option<Ground> {
    let spots = spots.to_vec();
    Ground::check(&GroundRecord::of_spots(spots))
        .ok()
        .map(|g| g.0)
}

/// The nearest place of a segment and how far along it that is.
fn nearest(p: Point, a: Point, b: Point) -> (f64, f64) {
    let along = b - a;
    let t = ((p - a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
    (p.distance(a + along * t), t)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Inside the spots: the plane of the one surveyed triangle round the point, by its shares.
    /// Outside: the elevation at the nearest place of the surveyed area's edge.
    #[test]
    fn heights_are_those_of_the_nearest_known_ground(
        spots in spots(),
        x in -120.0..120.0_f64,
        y in -120.0..120.0_f64,
    ) {
        let Some(ground) = ground(&spots) else { return Ok(()) };
        let p = Point::new(x, y);
        let height = ground.height(p);
        let surveyed = ground.surveyed().unwrap();
        let edge = &surveyed.polygons[0].outer;
        let elevation = |at: Point| {
            let same = |s: &&[f64; 3]| s[0] == at.x && s[1] == at.y;
            spots.iter().find(same).unwrap()[2]
        };
        let by_edge = edge
            .edges()
            .map(|(a, b)| {
                let (distance, t) = nearest(p, a, b);
                (distance, elevation(a) * (1.0 - t) + elevation(b) * t)
            })
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .unwrap();
        if by_edge.0 < 1e-6 {
            return Ok(());
        }
        prop_assert_eq!(height.known, surveyed.contains(p));
        if height.known {
            let facet = ground.surveyed_facets().find_map(|f| {
                let [a, b, c] = f.corners;
                let whole = (b - a).cross(c - a);
                let shares = [(b, c), (c, a), (a, b)].map(|(u, v)| (u - p).cross(v - p) / whole);
                let inside = shares.iter().all(|s| *s >= -1e-12);
                inside.then(|| f.elevations.iter().zip(shares).map(|(z, s)| z * s).sum::<f64>())
            });
            prop_assert!((height.elevation - facet.unwrap()).abs() < 1e-6);
        } else {
            // Two edges may be equally near; a tenth of a millimetre decides nothing there.
            let near = height.elevation - by_edge.1;
            prop_assert!(near.abs() < 1e-6, "{} {}", height.elevation, by_edge.1);
        }
    }

    /// Triangles tile the plane: their areas add up, and each place lies in one of them.
    #[test]
    fn the_triangles_tile_the_surveyed_area(spots in spots()) {
        let Some(ground) = ground(&spots) else { return Ok(()) };
        let sum: f64 = ground.surveyed_facets().map(|f| f.plan_area()).sum();
        let area = ground.surveyed().unwrap().area();
        prop_assert!((sum - area).abs() < 1e-9 * area.max(1.0));
        prop_assert!(ground.facets().iter().all(|f| f.plan_area() >= 0.0));
    }

    /// Looking near a window finds every triangle that has a corner in it or covers it.
    #[test]
    fn no_triangle_near_a_window_is_missed(spots in spots(), x in -60.0..60.0_f64, y in -60.0..60.0_f64) {
        let Some(ground) = ground(&spots) else { return Ok(()) };
        let half = Vector::new(4.0, 3.0);
        let middle = Point::new(x, y);
        let (low, high) = (middle - half, middle + half);
        let near: Vec<_> = ground.facets_near(low, high).collect();
        for facet in ground.facets() {
            let within = |p: &Point| (low.x..high.x).contains(&p.x) && (low.y..high.y).contains(&p.y);
            let [a, b, c] = facet.corners;
            let covers = [(a, b), (b, c), (c, a)].iter().all(|(u, v)| (*v - *u).cross(middle - *u) > 0.0);
            if covers || facet.corners.iter().any(within) {
                prop_assert!(near.contains(&facet));
            }
        }
    }

    /// Whatever comes in, an answer comes out.
    #[test]
    fn any_spots_are_answered(spots in prop::collection::vec([any::<f64>(), any::<f64>(), any::<f64>()], 0..12)) {
        match Ground::check(&GroundRecord::of_spots(spots)) {
            Ok((ground, _)) => prop_assert!(ground.height(Point::new(1.0, 1.0)).elevation.is_finite()),
            Err(faults) => prop_assert!(!faults.is_empty() && faults.iter().all(|f| f.is_fault())),
        }
    }
}
