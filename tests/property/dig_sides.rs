//! Holes whose sides are not all alike, their volume reached a second way: level slices, each
//! the contour at its depth cut with the ground that stands above it, triangle by triangle.

use batterboard_core::dig::{DigShape, excavate};
use batterboard_core::exchange;
use batterboard_core::geom::boolean::intersection;
use batterboard_core::geom::{Point, Pose, Region, Ring, Vector};
use batterboard_core::ground::{Facet, Ground, GroundRecord};
use batterboard_core::shell::{FacetKind, Shell, catalogue};
use batterboard_core::site::{
    BaseZone, Bench, DigSettings, HoleSide, SideSettings, SoilClass, SoilLayer,
};
use proptest::prelude::*;

/// The part of a triangle that stands above a level.
fn above(facet: &Facet, level: f64) -> Option<Ring> {
    let corners: Vec<(Point, f64)> = facet.corners.into_iter().zip(facet.elevations).collect();
    let mut kept = Vec::new();
    for (i, (a, za)) in corners.iter().enumerate() {
        let (b, zb) = corners[(i + 1) % 3];
        if *za >= level {
            kept.push(*a);
        }
        if (*za < level) != (zb < level) {
            kept.push(*a + (b - *a) * ((level - za) / (zb - za)));
        }
    }
    (kept.len() >= 3).then_some(Ring(kept))
}

/// Volume of a hole by level slices, m3.
fn by_slices(shape: &DigShape, ground: &Ground, pose: &Pose, rim: f64) -> f64 {
    let size = Vector::new(18.0, 18.0);
    let facets: Vec<Facet> = ground
        .facets_near(pose.at - size, pose.at + size)
        .copied()
        .collect();
    let section = |depth: f64| {
        let contour = shape.contour(depth).posed(pose);
        let rings = facets.iter().filter_map(|f| above(f, rim - depth));
        let polygons = rings.flat_map(|ring| Region::from_ring(ring).polygons);
        let ground = Region {
            polygons: polygons.collect(),
        };
        intersection(&contour, &ground).area()
    };
    // Thin where the ground itself has relief within the hole, and at every break of the hole.
    let edge = shape.contour(-shape.headroom()).posed(pose);
    let heights = edge.rings().flat_map(|ring| &ring.0);
    let heights = heights
        .chain([&pose.at])
        .map(|p| ground.height(*p).elevation);
    let (low, high) = heights.fold((f64::MAX, f64::MIN), |(l, h), z| (l.min(z), h.max(z)));
    let relief = (rim - high - 0.1, rim - low + 0.1);
    let mut breaks = vec![relief.0, rim - high, rim - low, relief.1, shape.deepest()];
    breaks.extend(shape.breaks().into_iter().filter(|d| *d > relief.0));
    breaks.retain(|depth| *depth <= shape.deepest());
    breaks.sort_by(f64::total_cmp);
    let mut volume = 0.0;
    for pair in breaks.windows(2).filter(|pair| pair[1] - pair[0] > 1e-9) {
        let step = if pair[0] < relief.1 { 0.015 } else { 0.1 };
        let steps = ((pair[1] - pair[0]) / step).ceil().max(2.0);
        let half = (pair[1] - pair[0]) / steps / 2.0;
        let off = half / 3.0_f64.sqrt();
        for k in 0..steps as u32 {
            let middle = pair[0] + half * (2.0 * f64::from(k) + 1.0);
            volume += (section(middle - off) + section(middle + off)) * half;
        }
    }
    volume
}

fn side(side: HoleSide, over_dig: Option<f64>, slope: Option<f64>) -> SideSettings {
    SideSettings {
        side,
        over_dig,
        slope,
        note: "as the test wants it".into(),
    }
}

/// A wall to the left, a ramp behind, layers, a bench, a thicker base under the deep end.
fn odd(base: &DigSettings) -> DigSettings {
    DigSettings {
        soil: SoilClass::A,
        side_slope: None,
        sides: vec![
            side(HoleSide::Left, Some(0.1), Some(0.0)),
            side(HoleSide::Behind, None, Some(2.5)),
            side(HoleSide::Right, Some(0.35), None),
        ],
        bases: vec![BaseZone {
            kind: FacetKind::Deep,
            thickness: base.base_thickness + 0.1,
        }],
        layers: vec![SoilLayer {
            down_to: 0.5,
            soil: SoilClass::B,
            slope: None,
        }],
        upright_below: Some(1.5),
        bench: Some(Bench {
            depth: 0.8,
            width: 0.3,
        }),
        ..base.clone()
    }
}

fn near(what: &str, value: f64, expected: f64, part: f64) {
    let off = (value - expected).abs() / expected.abs();
    assert!(
        off <= part,
        "{what}: {value}, not {expected}: off by {off:e}"
    );
}

/// Every demo site as it is and with every setting of the sides at once: 0.05 %.
#[test]
fn slices_on_every_demo_site() {
    for text in [
        include_str!("../../demo-sites/creek-side-deed.json"),
        include_str!("../../demo-sites/level-suburban.json"),
        include_str!("../../demo-sites/sloping-hillside.json"),
        include_str!("../../demo-sites/wedge-cul-de-sac.json"),
    ] {
        let site = exchange::open(text).unwrap().site;
        let Some((shell, placement)) = site.placed_shell() else {
            continue;
        };
        let own = &site.site().works.dig;
        for settings in [own.clone(), odd(own)] {
            let shape = DigShape::new(shell, &settings, 2.0);
            let (pose, rim) = (placement.pose(), placement.coping_elevation);
            let dig = excavate(&shape, site.ground(), &pose, rim, 0.4);
            assert!(dig.closed);
            let slices = by_slices(&shape, site.ground(), &pose, rim);
            near(&site.site().name, dig.bank_volume, slices, 5e-4);
        }
    }
}

fn random() -> impl Strategy<Value = DigSettings> {
    let slope = || prop::option::of(prop_oneof![Just(0.0), 0.2..3.0_f64]);
    let over_dig = || prop::option::of(0.0..0.5_f64);
    let soil = || prop_oneof![Just(SoilClass::A), Just(SoilClass::B), Just(SoilClass::C)];
    (
        [slope(), slope(), slope(), slope()],
        [over_dig(), over_dig(), over_dig(), over_dig()],
        prop::collection::vec((0.1..1.6_f64, soil()), 0..3),
        prop::option::of(1.0..1.8_f64),
        prop::option::of((0.3..1.4_f64, 0.1..0.8_f64)),
        0.0..0.4_f64,
    )
        .prop_map(|(slopes, over_digs, layers, upright, bench, thick)| {
            let sides = [
                HoleSide::Ahead,
                HoleSide::Left,
                HoleSide::Behind,
                HoleSide::Right,
            ];
            let sides = sides.into_iter().zip(over_digs).zip(slopes);
            DigSettings {
                sides: sides.map(|((s, o), r)| side(s, o, r)).collect(),
                layers: layers
                    .into_iter()
                    .map(|(down_to, soil)| SoilLayer {
                        down_to,
                        soil,
                        slope: None,
                    })
                    .collect(),
                bases: vec![BaseZone {
                    kind: FacetKind::Slope,
                    thickness: thick,
                }],
                soil: SoilClass::B,
                upright_below: upright,
                bench: bench.map(|(depth, width)| Bench { depth, width }),
                ..DigSettings::default()
            }
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4))]

    /// Random sides, layers, benches and zones, in level ground and in ground that falls.
    #[test]
    fn slices_of_random_sides(
        index in 0..40usize,
        settings in random(),
        (x, y, heading, mirrored) in (-9.0..9.0_f64, -9.0..9.0_f64, 0.0..6.3_f64, any::<bool>()),
        (fall, towards) in (0.0..0.05_f64, 0.0..6.3_f64),
    ) {
        let all = catalogue::all();
        let shell = Shell::check(&all[index % all.len()]).unwrap().0;
        let shape = DigShape::new(&shell, &settings, 1.0);
        let pose = Pose::new(Point::new(x, y), heading, mirrored);
        let level = Ground::check(&GroundRecord::Level { elevation: 0.1 }).unwrap().0;
        let dig = excavate(&shape, &level, &pose, 0.0, 0.4);
        near("level", dig.bank_volume, shape.level_volume(0.1), 2e-4);
        near("below the cap", dig.volume_below_cap, shape.level_volume(-0.4), 2e-4);
        let record = GroundRecord::Plane { at: pose.at, elevation: 0.1, fall, towards };
        let plane = Ground::check(&record).unwrap().0;
        let dig = excavate(&shape, &plane, &pose, 0.0, 0.4);
        if dig.closed {
            near("plane", dig.bank_volume, by_slices(&shape, &plane, &pose, 0.0), 5e-4);
        }
    }
}
