//! What stays assumed, put to the test: things carried as far as the list says they may be wrong.

use batterboard_core::analysis::{
    Analysis, Assumption, Cache, Detail, Scenario, Way, assumptions, run,
};
use batterboard_core::clearance::{Clearance, Subject};
use batterboard_core::exchange;
use batterboard_core::geom::Vector;
use batterboard_core::geom::path::VertexRecord;
use batterboard_core::site::{CheckedSite, FactKind, FeatureKind, KnownFrom, ShapeRecord, Site};
use batterboard_core::units::constants::FOOT;

/// Carries a shape along; false for one that lies where others say.
fn shift(shape: &mut ShapeRecord, by: Vector) -> bool {
    match shape {
        ShapeRecord::Area(path) | ShapeRecord::Track(path) | ShapeRecord::Strip { path, .. } => {
            for vertex in &mut path.0 {
                let (VertexRecord::Line([x, y]) | VertexRecord::Arc([x, y, _])) = vertex;
                (*x, *y) = (*x + by.x, *y + by.y);
            }
        }
        ShapeRecord::Disc { at, .. } => *at = *at + by,
        ShapeRecord::Along { .. } | ShapeRecord::Compound(_) => return false,
    }
    true
}

fn demo() -> CheckedSite {
    let text = include_str!("../../demo-sites/wedge-cul-de-sac.json");
    exchange::open(text).unwrap().site
}

fn list(site: &CheckedSite) -> (Analysis, Vec<Assumption>) {
    let analysis = run(&Scenario::of(site), Detail::Complete, &mut Cache::default());
    let all = assumptions(site, &analysis);
    (analysis, all)
}

#[test]
fn a_thing_moved_by_its_leeway_uses_up_the_room_and_no_more() {
    let site = demo();
    let (analysis, all) = list(&site);
    let mut tried = 0;
    for it in all.iter().filter_map(|it| it.leeway.as_ref()) {
        let Some(clearance) = analysis.clearances.get(it.clearance) else {
            continue;
        };
        let Subject::Feature(index) = clearance.subject else {
            continue;
        };
        if it.way != Way::Nearer || it.by <= 0.0 {
            continue;
        }
        // Carried straight toward the work, a little less and a little more than the leeway.
        let toward = (clearance.from_point - clearance.to_point).unit().unwrap();
        for (by, kept) in [(it.by - 0.01, true), (it.by + 0.01, false)] {
            let mut moved = Site::clone(site.site());
            let features = std::sync::Arc::make_mut(&mut moved.features);
            let Some(feature) = features.get_mut(index) else {
                continue;
            };
            if !shift(&mut feature.shape, toward * by) {
                continue;
            }
            tried += 1;
            let moved = CheckedSite::check(moved, None).unwrap();
            let (after, _) = list(&moved);
            let same = |c: &&Clearance| c.rule == clearance.rule && c.subject == clearance.subject;
            let room = after.clearances.iter().find(same).unwrap().room;
            assert_eq!(room >= 0.0, kept, "{}: {room}", clearance.name);
        }
    }
    assert!(tried > 1);
}

#[test]
fn what_was_settled_is_assumed_no_longer() {
    let site = demo();
    let before = list(&site).1.len();
    let mut settled = Site::clone(site.site());
    for feature in std::sync::Arc::make_mut(&mut settled.features) {
        if FactKind::of(feature.kind).contains(&FactKind::KnownFrom) {
            feature.facts.known_from = Some(KnownFrom::Marked);
        }
        if feature.kind == FeatureKind::OverheadLine {
            feature.facts.height = Some(20.0 * FOOT);
        }
    }
    let after = list(&CheckedSite::check(settled, None).unwrap()).1.len();
    assert!(after < before);
}
