//! Layout: ties led back to their stakes, expected errors thrown out by chance, the best pair by
//! trying all, the rim's plane by its normal equations, and every part of the bottom counted once.

use std::sync::Arc;

use batterboard_core::analysis::{self, Analysis, Cache, Detail, Scenario};
use batterboard_core::exchange;
use batterboard_core::geom::path::VertexRecord;
use batterboard_core::geom::{PathRecord, Point, Vector};
use batterboard_core::ground::GroundRecord;
use batterboard_core::math::{TURN, acos, cos, sin};
use batterboard_core::shell::{FacetKind, FacetRecord, ShellRecord};
use batterboard_core::site::{
    Benchmark, CheckedSite, Feature, FeatureKind, FixedPair, Placement, ReadingOf, RodReading,
    ShapeRecord, ShellChoice, Site, StakeoutRecord, YardReading, starter,
};
use batterboard_core::stakeout::{
    BaseLine, FixedCandidate, GradeWork, Meeting, StakeoutPlan, candidates,
};
use proptest::prelude::*;

const DEMOS: [&str; 4] = [
    "creek-side-deed",
    "level-suburban",
    "sloping-hillside",
    "wedge-cul-de-sac",
];

fn demo(name: &str) -> CheckedSite {
    let path = format!(
        "{}/../../demo-sites/{name}.json",
        env!("CARGO_MANIFEST_DIR")
    );
    exchange::open(&std::fs::read_to_string(path).unwrap())
        .unwrap()
        .site
}

fn analyzed(site: &CheckedSite) -> Analysis {
    analysis::run(
        &Scenario::of(site),
        Detail::Clearances,
        &mut Cache::default(),
    )
}

/// Where circles about the ends of a base line meet on one of its sides, by the law of cosines at
/// its first end.
fn circles([a, b]: [Point; 2], [p, q]: [f64; 2], left: bool) -> Point {
    let c = a.distance(b);
    let turn = acos((p * p + c * c - q * q) / (2.0 * p * c));
    let along = (b - a).angle();
    let angle = if left { along + turn } else { along - turn };
    a + Vector::at_angle(angle) * p
}

#[test]
fn circles_lead_back_to_every_stake_of_every_demo_site() {
    for name in DEMOS {
        let site = demo(name);
        let analysis = analyzed(&site);
        let plan = StakeoutPlan::of(&site, &analysis).unwrap();
        assert!(plan.stakes.len() > 20 && plan.offsets.len() >= 8, "{name}");
        let known = &plan.candidates;
        let mut held = 0;
        for (i, a) in known.iter().enumerate() {
            for b in known.iter().skip(i + 1).step_by(3) {
                let Some(base) = BaseLine::new(a.at, b.at) else {
                    continue;
                };
                for (stake, at) in plan.places() {
                    let tie = base.tie(at);
                    if tie.error(1.0).is_none() {
                        continue;
                    }
                    held += 1;
                    let back = circles(base.ends(), tie.tapes, tie.off >= 0.0);
                    assert!(back.distance(at) < 1e-3, "{name} {stake} {}", a.name);
                }
            }
        }
        assert!(held > 1000, "{name}: {held}");
    }
}

/// Numbers that look random, the same ones every time (a 64-bit congruence; Knuth's constants).
struct Chance(u64);

impl Chance {
    fn even(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Of mean 0 and deviation 1: the sum of twelve even ones less six.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even()).sum::<f64>() - 6.0
    }
}

#[test]
fn expected_errors_are_those_of_ten_thousand_random_tapes() {
    let (mut chance, sigma, throws) = (Chance(7), 0.00635, 10_000);
    let base = BaseLine::new(Point::new(3.0, 1.0), Point::new(15.0, 4.0)).unwrap();
    for at in [
        Point::new(9.0, 9.0),
        Point::new(4.0, 12.0),
        Point::new(20.0, 14.0),
        Point::new(8.0, -1.0),
        Point::new(30.0, 30.0),
    ] {
        let tie = base.tie(at);
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        for _ in 0..throws {
            let tapes = tie.tapes.map(|tape| tape + sigma * chance.normal());
            let Meeting::At { left, right } = base.meet(tapes) else {
                panic!("they meet");
            };
            let off = if tie.off >= 0.0 {
                left - at
            } else {
                right - at
            };
            xx += off.x * off.x;
            xy += off.x * off.y;
            yy += off.y * off.y;
        }
        let n = f64::from(throws);
        let (xx, xy, yy) = (xx / n, xy / n, yy / n);
        let thrown = (xx + yy).sqrt();
        let expected = tie.error(sigma).unwrap();
        assert!(
            (thrown / expected - 1.0).abs() < 0.03,
            "{thrown} is not {expected}"
        );
        // The greater eigenvalue of the covariance.
        let half = (xx - yy) / 2.0;
        let long = ((xx + yy) / 2.0 + (half * half + xy * xy).sqrt()).sqrt();
        let expected = tie.long_axis(sigma).unwrap();
        assert!(
            (long / expected - 1.0).abs() < 0.03,
            "{long} is not {expected}"
        );
    }
}

/// A level box of 8 m by 4 m, 1.5 m deep, on level ground.
fn boxed(at: Point, heading: f64, mirrored: bool) -> Site {
    let corners = [(-4.0, -2.0), (4.0, -2.0), (4.0, 2.0), (-4.0, 2.0)];
    let outline = PathRecord(corners.map(|(x, y)| VertexRecord::Line([x, y])).to_vec());
    let shell = ShellRecord {
        name: "Box".into(),
        note: String::new(),
        floor: vec![FacetRecord {
            kind: FacetKind::Deep,
            outline: outline.clone(),
            depths: vec![1.5; 4],
        }],
        outline,
        coping_width: 0.3,
        waterline: 0.1,
        wall_thickness: 0.0,
        draft: 0.0,
        cove: 0.0,
        stations: Vec::new(),
        drain: None,
        weight: None,
    };
    Site {
        ground: Arc::new(GroundRecord::Level { elevation: 30.48 }),
        benchmark: Some(Benchmark {
            name: String::new(),
            at: None,
            elevation: 31.0,
            assumed: true,
        }),
        placement: Some(Placement {
            shell: Arc::new(ShellChoice::Own(shell)),
            at,
            heading,
            mirrored,
            coping_elevation: 30.6,
        }),
        ..starter::blank_lot()
    }
}

fn rod(p: (f64, f64), rod: f64) -> RodReading {
    RodReading {
        place: String::new(),
        at: Point::new(p.0, p.1),
        rod,
        backsight: 1.2,
    }
}

fn with_readings(mut site: Site, readings: impl Iterator<Item = ReadingOf>) -> CheckedSite {
    let reading = |of| YardReading {
        of,
        when: String::new(),
        by: String::new(),
    };
    site.stakeout = Some(Arc::new(StakeoutRecord {
        readings: readings.map(reading).collect(),
        ..StakeoutRecord::default()
    }));
    CheckedSite::check(site, None).unwrap()
}

/// The worst error from a pair by the law of cosines at the stakes.
fn worst(a: &FixedCandidate, b: &FixedCandidate, stakes: &[Point], sigma: f64) -> f64 {
    let c = a.at.distance(b.at);
    let error = |p: &Point| {
        let (s, t) = (p.distance(a.at), p.distance(b.at));
        let turn = (s * s + t * t - c * c) / (2.0 * s * t);
        2.0_f64.sqrt() * sigma / (1.0 - turn * turn).max(0.0).sqrt()
    };
    stakes.iter().map(error).fold(0.0, f64::max)
}

/// On the demo sites each pair in turn is chosen, and what its layout says of it is compared.
#[test]
fn no_other_pair_of_a_demo_site_is_better() {
    for name in ["sloping-hillside", "creek-side-deed"] {
        let site = demo(name);
        let analysis = analyzed(&site);
        let best = StakeoutPlan::of(&site, &analysis).unwrap().best.unwrap();
        let firm: Vec<_> = candidates(&site).into_iter().filter(|it| it.firm).collect();
        assert!(firm.len() > 5, "{name}");
        let mut least = (usize::MAX, f64::INFINITY);
        for (i, a) in firm.iter().enumerate() {
            for b in firm.iter().skip(i + 1) {
                let mut document = Site::clone(site.site());
                let mut record = StakeoutRecord::default();
                let (a, b) = (a.point.clone(), b.point.clone());
                record.fixed = Some(FixedPair { a, b });
                document.stakeout = Some(Arc::new(record));
                let chosen = CheckedSite::check(document, Some(&site)).unwrap();
                let plan = StakeoutPlan::of(&chosen, &analysis).unwrap();
                let Some(base) = &plan.base else { continue };
                let mut unfit = 0;
                for ((_, at), blocked) in plan.places().zip(&plan.blocked) {
                    let tie = base.line.tie(at);
                    let barred = tie.tapes.iter().any(|tape| *tape > 30.48);
                    let barred = barred || blocked.iter().any(Option::is_some);
                    unfit += usize::from(barred || !tie.is_sound());
                }
                let error = plan.worst_error().unwrap_or(f64::INFINITY);
                if (unfit, error) < least {
                    least = (unfit, error);
                }
            }
        }
        assert_eq!((best.unfit, best.worst.unwrap()), least, "{name}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn circles_lead_back_to_a_point(
        a in (-30.0..30.0, -30.0..30.0), b in (-30.0..30.0, -30.0..30.0), p in (-30.0..30.0, -30.0..30.0),
    ) {
        let [a, b, p] = [a, b, p].map(|(x, y)| Point::new(x, y));
        if let Some(base) = BaseLine::new(a, b) {
            let tie = base.tie(p);
            prop_assert!(tie.crossing.is_finite());
            if tie.error(1.0).is_some() {
                let back = circles([a, b], tie.tapes, tie.off >= 0.0);
                prop_assert!(back.distance(p) < 1e-3);
                let Meeting::At { left, right } = base.meet(tie.tapes) else {
                    return Err(TestCaseError::fail("they meet"));
                };
                let near = if tie.off >= 0.0 { left } else { right };
                prop_assert!(near.distance(p) < 1e-3);
            }
        }
    }

    #[test]
    fn the_best_pair_is_the_best_of_all(
        wells in proptest::collection::vec((0.0..30.0, 0.0..8.0), 2..7), heading in 0.0..TURN,
    ) {
        let mut site = boxed(Point::new(15.0, 26.0), heading, false);
        let well = |(i, (x, y)): (usize, &(f64, f64))| {
            let at = Point::new(*x, *y);
            Feature::of(format!("w{i}"), FeatureKind::Well, ShapeRecord::Disc { at, radius: 0.1 })
        };
        site.features = Arc::new(wells.iter().enumerate().map(well).collect());
        let site = CheckedSite::check(site, None).unwrap();
        let analysis = analyzed(&site);
        let plan = StakeoutPlan::of(&site, &analysis).unwrap();
        let firm: Vec<_> = plan.candidates.iter().filter(|it| it.firm).collect();
        let stakes: Vec<Point> = plan.places().map(|it| it.1).collect();
        let told = |a: &FixedCandidate, b: &FixedCandidate| {
            let angles = stakes.iter().map(|p| {
                let turn = (a.at - *p).angle() - (b.at - *p).angle();
                let turn = turn.abs();
                turn.min(TURN - turn)
            });
            let unfit = stakes.iter().zip(angles).filter(|(p, turn)| {
                let far = p.distance(a.at).max(p.distance(b.at)) > 30.48;
                far || *turn < TURN / 12.0 || *turn > TURN * 5.0 / 12.0
            });
            (unfit.count(), worst(a, b, &stakes, 0.00635))
        };
        let mut least = (usize::MAX, f64::INFINITY);
        for (i, a) in firm.iter().enumerate() {
            for b in firm.iter().skip(i + 1) {
                let it = told(a, b);
                if a.at.distance(b.at) >= 0.5 && (it.0, it.1) < least {
                    least = it;
                }
            }
        }
        match &plan.best {
            None => prop_assert_eq!(least.0, usize::MAX),
            Some(best) => {
                let found = told(&best.a, &best.b);
                prop_assert_eq!((best.unfit, found.0), (least.0, least.0));
                // Near the base line the two ways to the angle differ in their last digits.
                prop_assert!(found.1 <= least.1 * (1.0 + 1e-6), "{:?} is more than {:?}", found, least);
                if let Some(error) = best.worst {
                    prop_assert!((error / found.1 - 1.0).abs() < 1e-6);
                }
            }
        }
    }

    #[test]
    fn the_plane_of_a_rim_solves_its_normal_equations(
        spots in proptest::collection::vec((-4.3..4.3, -2.3..2.3, -0.02..0.02), 6..12),
        mirrored in any::<bool>(),
    ) {
        // Readings at one place would count once.
        let apart = |i: usize| spots.iter().skip(i + 1).all(|q| {
            Point::new(spots[i].0, spots[i].1).distance(Point::new(q.0, q.1)) > 0.06
        });
        prop_assume!((0..spots.len()).all(apart));
        let readings = spots.iter().map(|(x, y, z)| ReadingOf::Rim(rod((*x, *y), 1.6 - z)));
        let site = with_readings(boxed(Point::new(15.0, 25.0), 0.4, mirrored), readings);
        let analysis = analyzed(&site);
        let plan = StakeoutPlan::of(&site, &analysis).unwrap();
        let set = plan.as_set.as_ref().unwrap();
        let Some(tilt) = &set.tilt else { return Ok(()) };
        let sum = |f: &dyn Fn(f64, f64, f64) -> f64| spots.iter().map(|(x, y, z)| f(*x, *y, *z)).sum::<f64>();
        let n = spots.len() as f64;
        let (x, y, z) = (sum(&|x, _, _| x), sum(&|_, y, _| y), sum(&|_, _, z| z));
        let (xx, xy, yy) = (sum(&|x, _, _| x * x), sum(&|x, y, _| x * y), sum(&|_, y, _| y * y));
        let (xz, yz) = (sum(&|x, _, z| x * z), sum(&|_, y, z| y * z));
        let det = |m: [[f64; 3]; 3]| {
            m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
                - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
                + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0])
        };
        let whole = det([[xx, xy, x], [xy, yy, y], [x, y, n]]);
        let gx = det([[xz, xy, x], [yz, yy, y], [z, y, n]]) / whole;
        let gy = det([[xx, xz, x], [xy, yz, y], [x, z, n]]) / whole;
        let c = det([[xx, xy, xz], [xy, yy, yz], [x, y, z]]) / whole;
        prop_assert!((tilt.rise[0] - gx).abs() < 1e-9 && (tilt.rise[1] - gy).abs() < 1e-9);
        let off = spots.iter().map(|(x, y, z)| z - c - gx * x - gy * y);
        let (low, high) = off.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        prop_assert!((tilt.twist - (high - low)).abs() < 1e-9);
        let heights = spots.iter().map(|it| it.2);
        let (low, high) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        prop_assert!((set.out_of_level - (high - low)).abs() < 1e-9);
    }

    #[test]
    fn every_part_of_the_bottom_is_counted_once_and_signs_are_right(
        spots in proptest::collection::vec((-4.2..4.2, -2.2..2.2, -0.05..0.05_f64), 1..9), turn in 0.0..TURN,
    ) {
        let apart = |i: usize| spots.iter().skip(i + 1).all(|q| {
            Point::new(spots[i].0, spots[i].1).distance(Point::new(q.0, q.1)) > 0.06
        });
        prop_assume!((0..spots.len()).all(apart));
        let grade = 30.6 - 1.5 - 0.1016;
        let readings = spots.iter().map(|(x, y, z)| ReadingOf::Bottom(rod((*x, *y), 32.2 - grade - z)));
        let at = Point::new(15.0 + sin(turn), 25.0 + cos(turn));
        let site = with_readings(boxed(at, turn, false), readings);
        let analysis = analyzed(&site);
        let plan = StakeoutPlan::of(&site, &analysis).unwrap();
        let dug = plan.as_dug.as_ref().unwrap();
        let shares: f64 = dug.places.iter().map(|it| it.share).sum();
        let bottom = analysis.rings.as_ref().unwrap().over_dig.area();
        prop_assert!((shares - bottom).abs() < 1e-9, "{} of {}", shares, bottom);
        let mut stone = 0.0;
        for (place, (_, _, z)) in dug.places.iter().zip(&spots) {
            prop_assert!((place.high - *z).abs() < 1e-9 && place.share > 0.0);
            let grade = if *z > 0.0127 { GradeWork::Cut } else if *z < -0.0127 { GradeWork::Fill } else { GradeWork::OnGrade };
            prop_assert_eq!(place.grade, grade);
            stone -= z * place.share;
        }
        prop_assert!((dug.stone_as_it_lies() - stone).abs() < 1e-9);
        prop_assert!((dug.fill() - dug.cut() - stone).abs() < 1e-9);
    }
}
