//! A layout on a blank lot, read by hand.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]
use std::sync::Arc;

use super::*;
use crate::analysis::{self, Cache, Detail, Scenario};
use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Vector};
use crate::ground::GroundRecord;
use crate::shell::fixture::box_record;
use crate::shell::{FacetKind, FacetRecord, ShellRecord};
use crate::site::{
    Benchmark, FeatureKind, FixedPair, FixedPoint, Placement, ShapeRecord, ShellChoice, Site,
    TapedPoint, starter,
};

/// A level box of 8 m by 4 m and 1.5 m deep, its length pointing east, on a level lot at 30.48 m.
fn boxed() -> Site {
    let shell = ShellRecord {
        coping_width: 0.3,
        waterline: 0.1,
        ..box_record()
    };
    let mut site = starter::blank_lot();
    site.ground = Arc::new(GroundRecord::Level { elevation: 30.48 });
    site.benchmark = Some(Benchmark {
        name: "step".into(),
        at: None,
        elevation: 31.0,
        assumed: true,
    });
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Own(shell)),
        at: Point::new(15.0, 25.0),
        heading: crate::math::TURN / 4.0,
        mirrored: false,
        coping_elevation: 30.6,
    });
    let mark = |x: f64| FixedPoint::Marked {
        name: format!("nail {x}"),
        at: Point::new(x, 15.0),
    };
    site.stakeout = Some(Arc::new(StakeoutRecord {
        fixed: Some(FixedPair {
            a: mark(5.0),
            b: mark(25.0),
        }),
        backsight: Some(1.2),
        ..StakeoutRecord::default()
    }));
    site
}

/// The layout of a site, handed to a test.
fn laid<T>(site: Site, look: impl FnOnce(&StakeoutPlan<'_>) -> T) -> T {
    let site = CheckedSite::check(site, None).unwrap();
    let scenario = Scenario::of(&site);
    let analysis = analysis::run(&scenario, Detail::Clearances, &mut Cache::default());
    look(&StakeoutPlan::of(&site, &analysis).unwrap())
}

fn record(site: &mut Site) -> &mut StakeoutRecord {
    Arc::make_mut(site.stakeout.as_mut().unwrap())
}

fn has(plan: &StakeoutPlan<'_>, code: &str) -> bool {
    plan.findings.iter().any(|it| it.code == code)
}

fn reading(of: ReadingOf) -> YardReading {
    YardReading {
        of,
        when: "noon".into(),
        by: "Vale".into(),
    }
}

fn rod(x: f64, y: f64, rod: f64) -> RodReading {
    RodReading {
        place: format!("{x} {y}"),
        at: Point::new(x, y),
        rod,
        backsight: 1.2,
    }
}

#[test]
fn a_box_is_staked_at_its_corners() {
    laid(boxed(), |plan| {
        let hole: Vec<&Stake> = (plan.stakes.iter())
            .filter(|it| it.line == StakedLine::Hole)
            .collect();
        let names: Vec<&str> = hole.iter().map(|it| it.name.as_str()).collect();
        assert_eq!(names, ["H1", "H2", "H3", "H4"]);
        // 8 m by 4 m, wall and over-dig all round: 0.01 + 0.2032.
        let out = 0.2132;
        assert!(hole[0].at.distance(Point::new(19.0 + out, 27.0 + out)) < 1e-6);
        assert!(hole[1].at.distance(Point::new(11.0 - out, 27.0 + out)) < 1e-6);
        let bottom = 30.6 - 1.5 - 0.01 - 0.1016;
        assert!((hole[0].bottom.unwrap() - bottom).abs() < 1e-9);
        let across = crate::math::hypot(8.0 + 2.0 * out, 4.0 + 2.0 * out);
        assert!(
            plan.diagonals[0]
                .lengths
                .iter()
                .all(|it| (it - across).abs() < 1e-6)
        );
        // Straights of the rim end where the coping begins to turn.
        let end = Point::new(19.3, 27.0);
        let rim = plan.stakes.iter().filter(|it| it.line == StakedLine::Rim);
        assert!(
            rim.clone().any(|it| it.at.distance(end) < 1e-3),
            "{:?}",
            rim.collect::<Vec<_>>()
        );
        let chords = plan.lines.iter().filter(|it| it.line != StakedLine::Top);
        assert!(
            chords
                .clone()
                .all(|it| it.chord <= plan.settings.chord && it.count >= 4)
        );
    });
}

#[test]
fn offset_stakes_are_square_clear_and_tell_their_cut() {
    laid(boxed(), |plan| {
        let corners = plan.offsets.iter().filter(|it| it.serves.starts_with('H'));
        assert_eq!(corners.count(), 8);
        let site = CheckedSite::check(boxed(), None).unwrap();
        let analysis = analysis::run(
            &Scenario::of(&site),
            Detail::Clearances,
            &mut Cache::default(),
        );
        let top = crate::geom::Edges::of_region(&analysis.dig.as_ref().unwrap().top_edge);
        for stake in &plan.offsets {
            let way = stake.at - stake.edge;
            assert!(way.x.abs() < 1e-6 || way.y.abs() < 1e-6, "{stake:?}");
            let clear = top.distance(stake.at);
            assert!((clear - plan.settings.offset).abs() < 2e-3, "{clear}");
            let cut = 30.48 - (30.6 - 1.5 - 0.01 - 0.1016);
            assert!((stake.cut().unwrap() - cut).abs() < 1e-9);
        }
    });
}

#[test]
fn levels_read_from_one_set_up() {
    laid(boxed(), |plan| {
        assert_eq!(plan.setup.as_ref().unwrap().instrument, 32.2);
        assert!((plan.rod(plan.coping).unwrap() - 1.6).abs() < 1e-12);
        let names: Vec<&str> = plan.stations.iter().map(|it| it.name.as_str()).collect();
        assert_eq!(names, ["S1", "S2"]);
        assert!((plan.stations[1].along - 8.0).abs() < 1e-6);
        assert!(!has(plan, "rod-out-of-reach"));
    });
    let mut low = boxed();
    record(&mut low).rod_length = 3.0;
    laid(low, |plan| assert!(has(plan, "rod-out-of-reach")));
    let mut sunk = boxed();
    record(&mut sunk).backsight = Some(-3.0);
    laid(sunk, |plan| assert!(has(plan, "rod-out-of-reach")));
    let mut nowhere = boxed();
    nowhere.benchmark = None;
    laid(nowhere, |plan| {
        assert!(plan.setup.is_none() && has(plan, "no-benchmark"));
    });
}

#[test]
fn poor_angles_long_tapes_and_walls_are_told() {
    laid(boxed(), |plan| {
        assert!(!has(plan, "stake-angle") && !has(plan, "stake-tape-long"));
        assert!(!has(plan, "stake-tape-blocked"));
        assert!(has(plan, "stakes-edge") && has(plan, "stakes-locating"));
    });
    let mut near = boxed();
    record(&mut near).fixed = Some(FixedPair {
        a: FixedPoint::Marked {
            name: String::new(),
            at: Point::new(14.0, 2.0),
        },
        b: FixedPoint::Marked {
            name: "b".into(),
            at: Point::new(16.0, 2.0),
        },
    });
    record(&mut near).tape_length = 24.0;
    laid(near, |plan| {
        assert!(has(plan, "stake-angle") && has(plan, "stake-tape-long"));
    });
    let mut walled = boxed();
    let shed = [(10.0, 17.0), (13.0, 17.0), (13.0, 19.0), (10.0, 19.0)];
    let shed = PathRecord(shed.map(|(x, y)| VertexRecord::Line([x, y])).to_vec());
    let shed = Feature::of("shed", FeatureKind::Outbuilding, ShapeRecord::Area(shed));
    walled.features = Arc::new(vec![shed]);
    laid(walled, |plan| {
        let told = plan
            .findings
            .iter()
            .find(|it| it.code == "stake-tape-blocked");
        assert!(
            told.unwrap()
                .message
                .contains("nail 5 is blocked by outbuilding")
        );
        let site = CheckedSite::check(boxed(), None).unwrap();
        assert!(named(&site, &FixedPoint::Lot(9)).is_none());
    });
}

#[test]
fn tapes_along_a_face_are_free_and_through_it_are_not() {
    let mut site = boxed();
    let house = [(5.0, 5.0), (25.0, 5.0), (25.0, 15.0), (5.0, 15.0)];
    let house = PathRecord(house.map(|(x, y)| VertexRecord::Line([x, y])).to_vec());
    let house = Feature::of("house", FeatureKind::House, ShapeRecord::Area(house));
    site.features = Arc::new(vec![house]);
    let corner = |corner| FixedPoint::Corner {
        feature: "house".into(),
        corner,
    };
    record(&mut site).fixed = Some(FixedPair {
        a: corner(3),
        b: corner(2),
    });
    laid(site.clone(), |plan| {
        let base = plan.base.as_ref().unwrap();
        assert_eq!(base.points[0].name, "house corner 4 (northwest)");
        assert!(plan.blocked.iter().flatten().all(Option::is_none));
    });
    record(&mut site).fixed = Some(FixedPair {
        a: corner(3),
        b: corner(0),
    });
    laid(site.clone(), |plan| {
        // The shell lies north of the house, its southwest corner behind it.
        assert!(plan.blocked.iter().any(|it| it[1].is_some()));
        assert!(plan.blocked.iter().all(|it| it[0].is_none()));
    });
    record(&mut site).fixed = None;
    laid(site, |plan| {
        let base = plan.base.as_ref().unwrap();
        assert!(base.proposed && plan.best.as_ref().unwrap().unfit == 0);
        assert_eq!(base.points[0].name, "house corner 3 (northeast)");
    });
}

#[test]
fn a_bottom_is_cut_where_it_is_high_and_filled_where_it_is_low() {
    let grade = 30.6 - 1.5 - 0.01 - 0.1016;
    let mut site = boxed();
    // From 32.2: 5 cm high over the half toward the shallow end, 2 cm low over the other.
    let high = rod(-2.0, 0.0, 32.2 - grade - 0.05);
    let wrong = rod(2.0, 0.01, 1.0);
    let low = rod(2.0, 0.0, 32.2 - grade + 0.02);
    record(&mut site).readings = [high, wrong, low]
        .map(|it| reading(ReadingOf::Bottom(it)))
        .to_vec();
    laid(site, |plan| {
        let dug = plan.as_dug.as_ref().unwrap();
        // The one read over counts no more.
        let indices: Vec<usize> = dug.places.iter().map(|it| it.read.index).collect();
        assert_eq!(indices, [0, 2]);
        let grades: Vec<GradeWork> = dug.places.iter().map(|it| it.grade).collect();
        assert_eq!(grades, [GradeWork::Cut, GradeWork::Fill]);
        let half = dug.places[0].share;
        assert!((half - dug.places[1].share).abs() < 1e-9);
        // 8.4264 by 4.4264 less what the rounded corners lack.
        let out = 0.2132_f64;
        let whole = 8.4264 * 4.4264 - (4.0 - core::f64::consts::PI) * out * out;
        assert!((2.0 * half - whole).abs() < 1e-3, "{half}");
        assert!((dug.cut() - half * 0.05).abs() < 1e-9);
        assert!((dug.fill() - half * 0.02).abs() < 1e-9);
        assert!((dug.stone_as_it_lies() + half * 0.03).abs() < 1e-9);
    });
}

#[test]
fn a_rim_says_which_end_to_lift() {
    let mut site = boxed();
    // The shallow end is 30 mm low, the right side 10 mm: over the rim's 8.6 m and 4.6 m.
    let spots = [
        (-4.3, -2.3),
        (0.0, -2.3),
        (4.3, -2.3),
        (4.3, 2.3),
        (0.0, 2.3),
        (-4.3, 2.3),
    ];
    let plane = |x: f64, y: f64| 30.6 + 0.030 * x / 8.6 + 0.010 * y / 4.6;
    let rods = |site: &mut Site| {
        let readings = spots.map(|(x, y)| reading(ReadingOf::Rim(rod(x, y, 32.2 - plane(x, y)))));
        record(site).readings = readings.to_vec();
    };
    rods(&mut site);
    laid(site.clone(), |plan| {
        let rim = plan.as_set.as_ref().unwrap();
        assert!((rim.out_of_level - 0.040).abs() < 1e-9);
        assert!(rim.above_plan.unwrap().abs() < 1e-9);
        let tilt = rim.tilt.as_ref().unwrap();
        assert!(tilt.twist < 1e-9);
        let [(end, by), (side, across)] = tilt.lifts[..] else {
            panic!("{tilt:?}");
        };
        assert_eq!((end, side), (ShellEnd::Shallow, ShellEnd::Right));
        assert!((by - 0.030).abs() < 1e-9 && (across - 0.010).abs() < 1e-9);
        assert!(has(plan, "rim-out-of-level") && !has(plan, "rim-readings"));
    });
    site.placement.as_mut().unwrap().mirrored = true;
    laid(site.clone(), |plan| {
        let rim = plan.as_set.as_ref().unwrap();
        assert_eq!(rim.tilt.as_ref().unwrap().lifts[1].0, ShellEnd::Left);
    });
    // Without a benchmark level is told all the same, height is not.
    site.benchmark = None;
    record(&mut site).backsight = None;
    record(&mut site).readings.truncate(2);
    record(&mut site).rim_limit = 0.03;
    laid(site, |plan| {
        let rim = plan.as_set.as_ref().unwrap();
        assert!(rim.above_plan.is_none() && rim.tilt.is_none());
        assert!(has(plan, "rim-readings") && !has(plan, "rim-out-of-level"));
    });
}

#[test]
fn a_hole_is_narrow_where_its_stakes_lie_inside() {
    let mut site = boxed();
    let from = [Point::new(5.0, 15.0), Point::new(25.0, 15.0)];
    let tapes = |p: Point| from.map(|it| it.distance(p));
    let at = Point::new(15.0, 27.0 + 0.2132 - 0.06);
    let taped = |stake: &str, line, tapes| {
        reading(ReadingOf::Taped(TapedPoint {
            stake: stake.into(),
            line,
            from,
            tapes,
        }))
    };
    let h1 = Point::new(19.2132, 27.2132) + Vector::new(0.03, -0.04);
    record(&mut site).readings = vec![
        taped("north edge", StakedLine::Bottom, tapes(at)),
        taped("H1", StakedLine::Hole, tapes(h1)),
        taped("B2", StakedLine::Bottom, [5.0, 6.0]),
    ];
    laid(site, |plan| {
        let fixes: Vec<Fix> = plan.taped.iter().map(|it| it.fix).collect();
        let [Fix::At(edge), Fix::At(corner), Fix::Apart(by)] = fixes[..] else {
            panic!("{fixes:?}");
        };
        assert!(edge.at.distance(at) < 1e-9 && edge.miss.is_none());
        assert!((edge.narrower.unwrap() - 0.06).abs() < 1e-6);
        assert!((edge.over_dig.unwrap() - (0.2032 - 0.06)).abs() < 1e-6);
        let miss = corner.miss.unwrap();
        assert!((miss.x - 0.03).abs() < 1e-6 && (miss.y + 0.04).abs() < 1e-6);
        assert!((corner.narrower.unwrap() + 0.03).abs() < 1e-6);
        assert!((by - 9.0).abs() < 1e-12);
        for code in ["hole-narrow", "taped-apart", "stake-unknown"] {
            assert!(has(plan, code), "{code}");
        }
    });
}

#[test]
fn before_a_shell_is_placed_there_is_nothing_to_stake() {
    let site = CheckedSite::check(starter::blank_lot(), None).unwrap();
    let analysis = analysis::run(
        &Scenario::of(&site),
        Detail::Clearances,
        &mut Cache::default(),
    );
    assert!(StakeoutPlan::of(&site, &analysis).is_none());
    assert_eq!(candidates(&site).len(), site.site().lot.courses.len());
}

#[test]
fn at_a_step_there_is_a_station_on_either_side() {
    let mut site = boxed();
    let half = |x: f64, depth: f64, kind| {
        let corners = [(x, -2.0), (x + 4.0, -2.0), (x + 4.0, 2.0), (x, 2.0)];
        FacetRecord {
            kind,
            outline: PathRecord(corners.map(|(x, y)| VertexRecord::Line([x, y])).to_vec()),
            depths: vec![depth; 4],
        }
    };
    let placement = site.placement.as_mut().unwrap();
    let ShellChoice::Own(shell) = Arc::make_mut(&mut placement.shell) else {
        panic!("it is told in full");
    };
    shell.floor = vec![
        half(0.0, 1.8, FacetKind::Deep),
        half(-4.0, 0.9, FacetKind::Shallow),
    ];
    laid(site, |plan| {
        let stations = plan.stations.iter();
        let told: Vec<(f64, f64)> = stations.map(|it| (it.in_shell.x, it.floor.depth)).collect();
        let expected = [(-4.0, 0.9), (-0.1016, 0.9), (0.1016, 1.8), (4.0, 1.8)];
        for ((x, depth), (x_is, depth_is)) in told.iter().zip(expected) {
            assert!(
                (x - x_is).abs() < 1e-3 && (depth - depth_is).abs() < 1e-9,
                "{told:?}"
            );
        }
        assert_eq!(told.len(), 4);
        // Where the step lies two offset stakes serve, not four.
        assert_eq!(plan.offsets.len(), 8 + 2);
    });
}
