//! The share of the water in sun against rays: from many points of the water toward the sun, against the prisms that
//! stand in the way, with no shade swept and no areas overlaid.

use std::sync::Arc;

use batterboard_core::geom::boolean::{intersection, positive_winding};
use batterboard_core::geom::{Point, Region, Ring, Vector};
use batterboard_core::math::{TURN, cos, sin};
use batterboard_core::shell::catalogue;
use batterboard_core::site::starter::blank_lot;
use batterboard_core::site::{
    CheckedSite, Feature, FeatureKind, GeoOrigin, Placement, ShapeRecord, ShellChoice, Site,
};
use batterboard_core::sun::{EarthPlace, Light, Solid, SunDay, sun_at, sun_on_water};
use proptest::prelude::*;

/// Of a share that areas of overlays give: what is less counts as nothing.
const ROUNDING: f64 = 2e-6;

/// A prism: a star-shaped footprint, from one height above the plane to another, meters.
#[derive(Debug, Clone)]
struct Prism {
    ring: Vec<Point>,
    low: f64,
    high: f64,
}

fn prism() -> impl Strategy<Value = Prism> {
    let spikes = proptest::collection::vec(0.4..4.0_f64, 3..9);
    let at = (-12.0..12.0_f64, -12.0..12.0_f64);
    (at, spikes, 0.0..TURN, -1.0..4.0_f64, 0.2..6.0_f64).prop_map(
        |((x, y), spikes, turn, low, tall)| {
            let count = spikes.len() as f64;
            let corner = |(i, out): (usize, &f64)| {
                Point::new(x, y) + Vector::at_angle(turn + TURN * i as f64 / count) * *out
            };
            Prism {
                ring: spikes.iter().enumerate().map(corner).collect(),
                low,
                high: low + tall,
            }
        },
    )
}

/// Whether a ray from a point of the plane toward the sun meets a prism: somewhere between the two heights it is over
/// the footprint. Its way there is cut at the edges of the footprint and the middle of each part tried.
fn meets(prism: &Prism, p: Point, toward: Vector, a_meter: f64) -> bool {
    let (from, to) = (prism.low.max(0.0) * a_meter, prism.high.max(0.0) * a_meter);
    if to <= from {
        return false;
    }
    let ring = Ring(prism.ring.clone());
    let mut cuts = vec![from, to];
    for (a, b) in ring.edges() {
        let edge = b - a;
        let across = toward.cross(edge);
        if across.abs() > 1e-12 {
            let along = (a - p).cross(edge) / across;
            if along > from && along < to {
                cuts.push(along);
            }
        }
    }
    cuts.sort_by(f64::total_cmp);
    let middles = cuts.array_windows().map(|[a, b]| (a + b) / 2.0);
    middles
        .into_iter()
        .any(|it| ring.winding(p + toward * it) > 0)
}

/// Points of a region, evenly: a grid of so many along each side of its bounds.
fn points(region: &Region, count: usize) -> Vec<Point> {
    let (low, high) = region.bounds().unwrap();
    let mut all = Vec::new();
    for i in 0..count {
        for k in 0..count {
            let at =
                |n: usize, from: f64, to: f64| from + (to - from) * (n as f64 + 0.5) / count as f64;
            let p = Point::new(at(i, low.x, high.x), at(k, low.y, high.y));
            if region.contains(p) {
                all.push(p);
            }
        }
    }
    all
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    /// Every point of the water is in the swept shade just where its ray meets a prism.
    #[test]
    fn shade_lies_where_rays_are_stopped(
        prisms in proptest::collection::vec(prism(), 1..5),
        sun in (0.0..TURN, 0.05..1.5_f64),
    ) {
        let water = Region::from_ring(Ring(vec![
            Point::new(-4.0, -2.0), Point::new(4.0, -2.0), Point::new(4.0, 2.0), Point::new(-4.0, 2.0),
        ]));
        let (bearing, altitude) = sun;
        let toward = Vector::along_bearing(bearing);
        let a_meter = cos(altitude) / sin(altitude);
        let light = Light { plane: 0.0, direction: -toward, a_meter: Some(a_meter), reach: 1000.0 };
        let shades: Vec<Region> = prisms.iter().map(|it| {
            let footprint = positive_winding(&[Ring(it.ring.clone())]);
            Solid::block(&footprint, |_| (it.low, it.high)).shade(&light)
        }).collect();
        let rings: Vec<Ring> = shades.iter().flat_map(|it| it.rings().cloned()).collect();
        let shaded = intersection(&water, &positive_winding(&rings));
        let all = points(&water, 60);
        let mut wrong = 0;
        for p in &all {
            let stopped = prisms.iter().any(|it| meets(it, *p, toward, a_meter));
            let near_edge = shaded.rings().flat_map(Ring::edges).any(|(a, b)| {
                let way = b - a;
                let share = ((*p - a).dot(way) / way.dot(way).max(1e-300)).clamp(0.0, 1.0);
                p.distance(a + way * share) < 1e-5
            });
            if stopped != shaded.contains(*p) && !near_edge {
                wrong += 1;
            }
        }
        prop_assert_eq!(wrong, 0, "of {}", all.len());
    }
}

/// A site with three random trees round the water: shares of the day against rays, and the hours against their sum.
fn grove(trees: &[(f64, f64, f64, f64, f64)]) -> Site {
    let mut site = blank_lot();
    site.origin = Some(GeoOrigin {
        longitude: -1.5,
        latitude: 0.7,
    });
    let tree = |(i, (x, y, radius, height, clear)): (usize, &(f64, f64, f64, f64, f64))| {
        let mut tree = Feature::of(
            format!("tree {i}"),
            FeatureKind::Tree,
            ShapeRecord::Disc {
                at: Point::new(15.0 + x, 30.0 + y),
                radius: *radius,
            },
        );
        tree.facts.height = Some(*height);
        tree.facts.clear_height = Some(clear * height);
        tree
    };
    site.features = Arc::new(trees.iter().enumerate().map(tree).collect());
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue(catalogue::all()[0].name.clone())),
        at: Point::new(15.0, 30.0),
        heading: 0.3,
        mirrored: false,
        coping_elevation: 0.2,
    });
    site
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, ..ProptestConfig::default() })]

    #[test]
    fn shares_of_the_day_are_those_of_rays(
        trees in proptest::collection::vec(
            (-14.0..14.0_f64, -14.0..14.0_f64, 1.0..4.0_f64, 2.0..12.0_f64, 0.0..0.6_f64), 3,
        ),
        day in 0_u8..12,
    ) {
        let site = CheckedSite::check(grove(&trees), None).unwrap();
        let day = SunDay {
            date: format!("2026-{:02}-15", day + 1).parse().unwrap(),
            offset: "-6".parse().unwrap(),
        };
        let (told, _) = sun_on_water(&site, &day);
        let told = told.unwrap();
        let (shell, placement) = site.placed_shell().unwrap();
        let water = shell.footprint.posed(&placement.pose());
        let plane = placement.coping_elevation - shell.record.waterline;
        let place = EarthPlace::of(site.site()).unwrap();
        let all = points(&water, 40);
        let mut alone_and_shared = 0.0_f64;
        for sample in told.samples.iter().step_by(7) {
            let sun = sun_at(&place, &day, sample.minutes);
            let Some(a_meter) = sun.shade_of_a_meter() else { continue };
            let toward = -sun.shade_direction(&place);
            // A disc by its own equation: the ray passes over it between two heights.
            let stopped = |p: Point| site.site().features.iter().any(|tree| {
                let ShapeRecord::Disc { at, radius } = &tree.shape else { return false };
                let ground = site.ground().height(*at).elevation - plane;
                let low = (ground + tree.facts.clear_height.unwrap()).max(0.0) * a_meter;
                let high = (ground + tree.facts.height.unwrap()).max(0.0) * a_meter;
                let off = (*at - p).dot(toward);
                let (near, half) = ((*at - p).cross(toward).abs(), radius * radius);
                let reach = half - near * near;
                if reach <= 0.0 || high <= low { return false; }
                let reach = reach.sqrt();
                off + reach > low && off - reach < high
            });
            let dark = all.iter().filter(|p| stopped(**p)).count() as f64 / all.len() as f64;
            prop_assert!((1.0 - dark - sample.share).abs() < 0.03, "{} {}", 1.0 - dark, sample.share);
            let by: f64 = sample.by.iter().map(|it| it.share).sum();
            let alone: f64 = sample.by.iter().map(|it| it.alone).sum();
            let dark = 1.0 - sample.share;
            prop_assert!(alone <= dark + ROUNDING && dark <= by + ROUNDING, "{} {} {}", alone, dark, by);
            alone_and_shared += by - alone;
        }
        prop_assert!(alone_and_shared >= 0.0);
        prop_assert!(told.in_sun <= told.daylight + 1e-6 && told.in_sun >= 0.0);
    }
}
