//! The job in three dimensions, for any shell, hole, heading and fall of the ground: every body closes, whole and cut; what
//! stays and what goes of the ground are together the ground; hole, base, water and concrete hold what the takeoff counts.

use std::sync::Arc;

use batterboard_core::analysis::{Cache, Detail, Scenario, run};
use batterboard_core::geom::Point;
use batterboard_core::geom::region::bounds;
use batterboard_core::ground::GroundRecord;
use batterboard_core::math::TURN;
use batterboard_core::scene::{Matter, Scene};
use batterboard_core::shell::catalogue;
use batterboard_core::site::starter::blank_lot;
use batterboard_core::site::{
    Bench, CheckedSite, HoleSide, Placement, SectionLine, ShellChoice, SideSettings, Site,
};
use proptest::prelude::*;

/// What bodies may differ from the takeoff by, of the figure.
const WITHIN: f64 = 2e-3;

/// What the ground may differ from the sum of its parts by, of the whole block: parts thinner than half a millimeter
/// are left out.
const ROUNDING: f64 = 5e-5;

#[derive(Debug, Clone)]
struct Job {
    shell: usize,
    heading: f64,
    mirrored: bool,
    slope: f64,
    over_dig: f64,
    fall: f64,
    towards: f64,
    rim: f64,
    side: Option<f64>,
    bench: bool,
}

fn job() -> impl Strategy<Value = Job> {
    let place = (0..64_usize, 0.0..TURN, any::<bool>());
    let slope = prop_oneof![Just(0.0), 0.3..1.6_f64];
    let hole = (
        slope,
        0.1..0.5_f64,
        prop::option::of(0.0..1.5_f64),
        prop::bool::weighted(0.2),
    );
    let ground = (0.0..0.08_f64, 0.0..TURN, -0.1..0.3_f64);
    (place, hole, ground).prop_map(
        |((shell, heading, mirrored), (slope, over_dig, side, bench), (fall, towards, rim))| Job {
            shell,
            heading,
            mirrored,
            slope,
            over_dig,
            fall,
            towards,
            rim,
            side,
            bench,
        },
    )
}

const MIDDLE: Point = Point::new(20.0, 20.0);

fn site(job: &Job) -> CheckedSite {
    let shells = catalogue::all();
    let mut site: Site = blank_lot();
    site.ground = Arc::new(GroundRecord::Plane {
        at: MIDDLE,
        elevation: 100.0,
        fall: job.fall,
        towards: job.towards,
    });
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue(
            shells[job.shell % shells.len()].name.clone(),
        )),
        at: MIDDLE,
        heading: job.heading,
        mirrored: job.mirrored,
        coping_elevation: 100.0 + job.rim,
    });
    let dig = &mut Arc::make_mut(&mut site.works).dig;
    dig.side_slope = Some(job.slope);
    dig.over_dig = job.over_dig;
    dig.sides.extend(job.side.map(|slope| SideSettings {
        side: HoleSide::Left,
        over_dig: None,
        slope: Some(slope),
        note: "as the test wants it".to_owned(),
    }));
    dig.bench = job.bench.then_some(Bench {
        depth: 0.8,
        width: 0.6,
    });
    site.section = Some(SectionLine {
        from: MIDDLE + batterboard_core::geom::Vector::new(-9.0, -4.0),
        to: MIDDLE + batterboard_core::geom::Vector::new(9.0, 5.0),
    });
    CheckedSite::check(site, None).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn bodies_close_and_hold_what_the_takeoff_counts(job in job()) {
        let site = site(&job);
        let analysis = run(&Scenario::of(&site), Detail::Complete, &mut Cache::default());
        let scene = Scene::of(&site, &analysis);
        for part in &scene.parts {
            let mesh = &part.mesh;
            prop_assert!(mesh.is_closed(mesh.whole()), "{:?}", part.matter);
            prop_assert!(mesh.is_closed(mesh.cut()), "{:?}, cut", part.matter);
            let (whole, half) = (mesh.volume(), mesh.volume_of(mesh.cut()));
            prop_assert!(half > -1e-6 && half < whole + 1e-6, "{:?}: {half} of {whole}", part.matter);
        }
        // The block of ground: a plane over a rectangle, down to its level underside.
        let corners = scene.parts.iter().filter(|it| it.matter == Matter::Ground);
        let corners: Vec<_> = corners.flat_map(|it| &it.mesh.corners).copied().collect();
        let (low, high) = bounds(corners.iter().map(|it| Point::new(it[0], it[1]))).unwrap();
        let underside = corners.iter().map(|it| it[2]).fold(f64::INFINITY, f64::min);
        let middle = site.ground().height(low.midpoint(high)).elevation;
        let block = (high.x - low.x) * (high.y - low.y) * (middle - underside);
        let parts = [Matter::Ground, Matter::Soil, Matter::Dig, Matter::GradingCut];
        let sum: f64 = parts.into_iter().map(|it| scene.volume(it)).sum();
        prop_assert!((sum - block).abs() < ROUNDING * block, "{sum} of {block}");

        let works = &site.site().works;
        let line = |key: &str| analysis.value(key).unwrap();
        for (matter, counted) in [
            (Matter::Dig, line("bank-cut")),
            (Matter::Base, line("base-stone-volume") / (1.0 + works.waste.stone)),
            (Matter::Water, line("water-volume")),
            (Matter::Collar, line("collar-concrete") / (1.0 + works.waste.concrete)),
            (Matter::Deck, line("deck-concrete") / (1.0 + works.waste.concrete)),
        ] {
            let found = scene.volume(matter);
            let off = (found - counted).abs() / counted;
            prop_assert!(off < WITHIN, "{matter:?}: {found}, counted {counted}: {:.3} %", off * 100.0);
        }
    }
}
