//! The way in of a yard worked out by hand, in feet.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::sync::Arc;

use super::*;
use crate::analysis::{self, Cache, Detail, Scenario};
use crate::geom::{PathRecord, Vertex};
use crate::shell::catalogue;
use crate::site::starter::blank_lot;
use crate::site::{Feature, FeatureKind, Lift, Opening, Placement, ShapeRecord, ShellChoice, Site};
use crate::units::constants::FOOT;

fn path(corners: &[[f64; 2]]) -> PathRecord {
    let corners = corners
        .iter()
        .map(|c| Vertex::line(c[0] * FOOT, c[1] * FOOT));
    PathRecord::from(&corners.collect::<Vec<Vertex>>()[..])
}

/// A lot of 100 by 140 with the street to the south; a house that leaves 10 to the left line and 22
/// to the right one; a fence on either side of it, the right one with a gate of 12.
fn yard() -> Site {
    let mut site = blank_lot();
    let house = [[10., 40.], [78., 40.], [78., 70.], [10., 70.]];
    let fence = |id: &str, ends: [[f64; 2]; 2]| {
        Feature::of(id, FeatureKind::Fence, ShapeRecord::Track(path(&ends)))
    };
    let mut right = fence("right fence", [[78., 60.], [100., 60.]]);
    right.name = "right fence".to_owned();
    right.facts.openings.push(Opening {
        at: Point::new(89. * FOOT, 60. * FOOT),
        width: 12. * FOOT,
        name: "drive gate".to_owned(),
        window: false,
    });
    site.features = Arc::new(vec![
        Feature::of("house", FeatureKind::House, ShapeRecord::Area(path(&house))),
        fence("left fence", [[0., 60.], [10., 60.]]),
        right,
    ]);
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue(catalogue::all()[0].name.clone())),
        at: Point::new(50. * FOOT, 105. * FOOT),
        heading: core::f64::consts::FRAC_PI_2,
        mirrored: false,
        coping_elevation: 0.1,
    });
    site
}

fn found(edit: impl FnOnce(&mut Site)) -> WayIn {
    let mut site = yard();
    edit(&mut site);
    let site = CheckedSite::check(site, None).unwrap();
    let work = analysis::run(
        &Scenario::of(&site),
        Detail::Clearances,
        &mut Cache::default(),
    )
    .work;
    way_in(&site, &work)
}

fn feet(way: Option<&Way>) -> f64 {
    way.unwrap().width() / FOOT
}

fn has(found: &WayIn, code: &str) -> bool {
    found.findings.iter().any(|it| it.code == code)
}

#[test]
fn the_gate_is_the_way_and_is_named() {
    let found = found(|_| {});
    let way = found.to_dig.as_ref().unwrap();
    assert!((feet(Some(way)) - 12.0).abs() < 1e-6);
    let pinch = way.pinch.as_ref().unwrap();
    assert_eq!(pinch.gate.as_deref(), Some("drive gate"));
    assert_eq!(pinch.features, [Some(2); 2]);
    // The line begins on the front line, ends at the dig, passes the gate, and is nowhere much
    // narrower than the way.
    let (first, last) = (way.line[0], *way.line.last().unwrap());
    assert!(first.y.abs() < 1e-3, "{first:?}");
    // It ends at the edge of the dig, which reaches out a few feet round a shell of 28 by 14.
    let from_shell = last - Point::new(50. * FOOT, 105. * FOOT);
    assert!(from_shell.length() > 6.0 * FOOT && from_shell.length() < 30.0 * FOOT);
    assert!(way.length > 80.0 * FOOT && way.length < 150.0 * FOOT);
    assert!(way.narrowest <= way.width() + 1e-9 && way.narrowest > 0.9 * way.width());
}

#[test]
fn a_panel_beside_the_gate_widens_it_by_its_length() {
    let found = found(|_| {});
    // The fence goes on for 5 on either side of the gate: a panel is no longer than that.
    let panel = &found.removals[0];
    assert!(!panel.whole && panel.feature == 2);
    assert!((panel.length / FOOT - 5.0).abs() < 1e-6);
    assert!((panel.width / FOOT - 17.0).abs() < 1e-6);
    let whole = &found.removals[1];
    assert!(whole.whole && (whole.width / FOOT - 22.0).abs() < 1e-6);
    assert_eq!(whole.pinch.as_ref().unwrap().between.len(), 2);
}

#[test]
fn a_fence_without_a_gate_closes_the_yard() {
    let found = found(|site| {
        let features = Arc::make_mut(&mut site.features);
        features[2].facts.openings.clear();
    });
    let way = found.to_dig.as_ref().unwrap();
    assert!(way.is_closed() && way.line.is_empty());
    assert!(has(&found, "way-closed"));
    // A panel of 8 opens either side; all of the right fence gives 22.
    let panels: Vec<&Removal> = found.removals.iter().filter(|it| !it.whole).collect();
    assert_eq!(panels.len(), 2);
    assert!(panels.iter().all(|it| (it.width / FOOT - 8.0).abs() < 1e-6));
    assert!(!found.passages.iter().any(Passage::fits));
}

#[test]
fn what_is_low_bars_those_that_are_taller() {
    // Eaves reach out by 12 at a height of 8: for the excavator of 8.5 the gap of 10 on the left is
    // closed, and of the gate from 83 to 95 what lies beyond 90 is left. The skid loader of 6.75, with
    // 1 above it, passes under them.
    let found = found(|site| {
        let features = Arc::make_mut(&mut site.features);
        features[0].facts.clear_height = Some(8.0 * FOOT);
        features[0].facts.overhang = Some(12.0 * FOOT);
    });
    let of = |who| found.passages.iter().find(|it| it.who == who).unwrap();
    let excavator = of(Passenger::Excavator);
    assert!(excavator.low && (feet(excavator.way.as_ref()) - 5.0).abs() < 1e-6);
    assert!(!excavator.fits());
    let loader = of(Passenger::SkidLoader);
    assert!(!loader.low && (feet(loader.way.as_ref()) - 12.0).abs() < 1e-6);
    // 5.5 wide and 6 inches on either side.
    assert!((loader.room().unwrap() / FOOT - 5.5).abs() < 1e-6);
    assert!(loader.fits());
}

#[test]
fn a_wire_and_branches_bar_only_where_their_height_is_known() {
    let low = |height: Option<f64>| {
        found(|site| {
            let ends = [[-10., 20.], [110., 20.]];
            let shape = ShapeRecord::Track(path(&ends));
            let mut wire = Feature::of("wire", FeatureKind::OverheadLine, shape);
            wire.facts.height = height.map(|it| it * FOOT);
            Arc::make_mut(&mut site.features).push(wire);
        })
    };
    let of = |found: &WayIn, who| {
        let it = found.passages.iter().find(|it| it.who == who).cloned();
        it.unwrap()
    };
    let hung = low(Some(10.0));
    assert!(of(&hung, Passenger::Truck).way.unwrap().is_closed());
    assert!(of(&hung, Passenger::Excavator).fits());
    assert!(has(&hung, "way-wire"));
    let unknown = low(None);
    assert!(of(&unknown, Passenger::Truck).fits() && has(&unknown, "way-wire"));
}

#[test]
fn the_way_tells_what_it_crosses() {
    let found = found(|site| {
        let features = Arc::make_mut(&mut site.features);
        let band = [[80., 80.], [98., 80.], [98., 86.], [40., 86.], [40., 80.]];
        let shape = ShapeRecord::Area(path(&band));
        features.push(Feature::of("field", FeatureKind::SepticField, shape));
        let ends = [[70., 20.], [100., 20.]];
        let shape = ShapeRecord::Track(path(&ends));
        features.push(Feature::of("gas", FeatureKind::BuriedLine, shape));
        let ends = [[0., 20.], [20., 20.]];
        let shape = ShapeRecord::Track(path(&ends));
        features.push(Feature::of("water", FeatureKind::BuriedLine, shape));
        features.push(Feature::of(
            "oak",
            FeatureKind::Tree,
            ShapeRecord::Disc {
                at: Point::new(99. * FOOT, 75. * FOOT),
                radius: 3.0,
            },
        ));
    });
    for code in [
        "way-septic",
        "way-roots",
        "way-branches",
        "way-trunk-assumed",
        "way-ground",
    ] {
        assert!(has(&found, code), "{code}");
    }
    let lines = found.findings.iter().filter(|it| it.code == "way-buried");
    assert!(lines.count() <= 1, "the water line lies on the other side");
}

#[test]
fn the_shell_goes_to_where_it_is_laid_down() {
    let found = found(|site| {
        site.lift = Some(Lift {
            set_down: Some(Point::new(50. * FOOT, 20. * FOOT)),
            ..Lift::default()
        });
    });
    // Before the house: the room there holds, 20 to the house, not the gate.
    assert!((feet(found.to_set_down.as_ref()) - 40.0).abs() < 1e-6);
    assert!(
        found
            .to_set_down
            .as_ref()
            .unwrap()
            .pinch
            .as_ref()
            .unwrap()
            .at_goal
    );
    let flat = found
        .passages
        .iter()
        .find(|it| it.who == Passenger::ShellFlat);
    assert!(flat.unwrap().fits());
}

#[test]
fn without_a_street_or_a_shell_it_says_so() {
    let nowhere = found(|site| {
        let lot = Arc::make_mut(&mut site.lot);
        for course in &mut lot.courses {
            course.kind = crate::lot::LineKind::Unspecified;
        }
    });
    assert!(nowhere.to_dig.is_none() && has(&nowhere, "way-no-street"));
    let bare = found(|site| site.placement = None);
    assert!(bare.to_dig.is_none() && has(&bare, "way-no-shell"));
    // A driveway that reaches a side tells the street.
    let driven = found(|site| {
        let lot = Arc::make_mut(&mut site.lot);
        for course in &mut lot.courses {
            course.kind = crate::lot::LineKind::Unspecified;
        }
        let drive = [[80., 0.], [95., 0.], [95., 40.], [80., 40.]];
        let shape = ShapeRecord::Area(path(&drive));
        let features = Arc::make_mut(&mut site.features);
        features.push(Feature::of("drive", FeatureKind::Driveway, shape));
    });
    assert!((feet(driven.to_dig.as_ref()) - 12.0).abs() < 1e-6);
    assert!(has(&driven, "way-street-assumed"));
}

#[test]
fn a_gate_through_a_thick_wall_is_cut_square() {
    let found = found(|site| {
        let features = Arc::make_mut(&mut site.features);
        let wall = ShapeRecord::Strip {
            path: path(&[[78., 60.], [100., 60.]]),
            width: 2.0 * FOOT,
        };
        let gate = features[2].facts.openings.clone();
        features[2] = Feature::of("wall", FeatureKind::Wall, wall);
        features[2].facts.openings = gate;
    });
    let way = found.to_dig.as_ref().unwrap();
    assert!((feet(Some(way)) - 12.0).abs() < 1e-3, "{:?}", way.pinch);
    assert_eq!(
        way.pinch.as_ref().unwrap().gate.as_deref(),
        Some("drive gate")
    );
}
