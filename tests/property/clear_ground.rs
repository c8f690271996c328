//! Clear ground against direct measurement, place by place and heading by heading.

use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::clear_ground::{Bounds, Cause, ClearGround, EDGE_SLACK, EdgeByCut, Ruler};
use batterboard_core::exchange::open;
use batterboard_core::finding::Topic;
use batterboard_core::geom::{DRAWING_TOLERANCE, Point, Pose};
use batterboard_core::math;
use batterboard_core::site::{
    CheckedSite, FeatureKind, MeasuredFrom, MeasuredTo, Placement, Rule, RuleConditions,
};
use proptest::prelude::*;
use serde_json::{Value, json};

/// How near to the edge of clear ground a place may be told wrong, meters: the chords of the figure, of
/// the figure widened, and of what it is held off from.
const EDGE: f64 = 3.0 * DRAWING_TOLERANCE;

const DEMOS: [&str; 4] = [
    include_str!("../../demo-sites/level-suburban.json"),
    include_str!("../../demo-sites/sloping-hillside.json"),
    include_str!("../../demo-sites/wedge-cul-de-sac.json"),
    include_str!("../../demo-sites/creek-side-deed.json"),
];

/// Numbers that look random, the same in every run, each in 0 to 1.
fn numbers(seed: u64) -> impl FnMut() -> f64 {
    let mut state = seed;
    move || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// Holds clear ground at some headings against the room measured at random places; how many were
/// clear.
fn agrees(site: &CheckedSite, headings: usize, places: usize) -> usize {
    let bounds = Bounds::where_it_stands(site, &mut Cache::default()).unwrap();
    let (ground, ruler) = (ClearGround::of(&bounds), Ruler::of(&bounds));
    let (low, high) = site.lot().region.bounds().unwrap();
    let mut number = numbers(7);
    let mut clear = 0;
    for turn in 0..headings {
        let heading = std::f64::consts::TAU * (turn as f64 + number()) / headings as f64;
        let mirrored = turn % 2 == 1;
        let region = ground.region(heading, mirrored);
        for _ in 0..places {
            let at = Point::new(
                low.x + (high.x - low.x) * number(),
                low.y + (high.y - low.y) * number(),
            );
            let room = ruler.tightest(&Pose::new(at, heading, mirrored)).unwrap();
            let inside = region.contains(at);
            clear += usize::from(inside);
            if room.room.abs() > EDGE {
                assert_eq!(
                    inside,
                    room.room > 0.0,
                    "{at:?} {heading} {mirrored} {room:?}"
                );
            }
        }
    }
    clear
}

#[test]
fn every_place_on_the_demos_is_told_as_it_measures() {
    for (demo, text) in DEMOS.iter().enumerate() {
        let site = open(text).unwrap().site;
        let clear = agrees(&site, 24, 300);
        assert!(clear > 0, "demo {demo} has no clear ground at any heading");
    }
}

/// With fewer corners nothing is told clear that is not, and little is missing.
#[test]
fn thinned_clear_ground_lies_inside() {
    for text in DEMOS {
        let site = open(text).unwrap().site;
        let bounds = Bounds::where_it_stands(&site, &mut Cache::default()).unwrap();
        let (exact, thin) = (
            ClearGround::of(&bounds),
            ClearGround::thinned(&bounds, 0.005),
        );
        for degree in (0..360).step_by(15) {
            let heading = std::f64::consts::TAU * f64::from(degree) / 360.0;
            let (exact, thin) = (exact.region(heading, false), thin.region(heading, false));
            let beyond = batterboard_core::geom::boolean::difference(&thin, &exact).area();
            assert!(
                beyond < 1e-3,
                "{}: {beyond} m2 at {degree}",
                site.site().name
            );
            // 3 times 5 mm and the chords, all round.
            let missing = exact.area() - thin.area();
            assert!(
                missing <= 0.022 * exact.perimeter() + 1e-3,
                "{missing} at {degree}"
            );
        }
    }
}

/// The same against the whole analysis, which knows nothing of clear ground: no clearance short
/// and nothing built where it cannot be. On level ground, where the dig goes along unchanged.
#[test]
fn clear_ground_is_where_the_analysis_finds_nothing_short() {
    let mut site = with_special_rules(&open(DEMOS[0]).unwrap().site);
    let mut cache = Cache::default();
    let mut number = numbers(11);
    let mut clear = 0;
    for turn in 0..8 {
        let heading = std::f64::consts::TAU * number();
        let placed = |at: Point| {
            Scenario::with(&site, |next| {
                let placement = next.placement.as_mut().unwrap();
                (placement.at, placement.heading, placement.mirrored) =
                    (at, heading, turn % 2 == 1);
            })
            .unwrap()
        };
        let (low, high) = site.lot().region.bounds().unwrap();
        let here = placed(low.midpoint(high));
        let bounds = Bounds::where_it_stands(here.site(), &mut cache).unwrap();
        assert!(here.site().site().ground.is_level());
        let region = bounds.region(heading, turn % 2 == 1);
        let ruler = Ruler::of(&bounds);
        let mut checked = 0;
        while checked < 25 {
            let at = Point::new(
                low.x + (high.x - low.x) * number(),
                low.y + (high.y - low.y) * number(),
            );
            let room = ruler
                .tightest(&Pose::new(at, heading, turn % 2 == 1))
                .unwrap()
                .room;
            // Most places are hopeless: those near the edge tell more.
            if room.abs() < EDGE || room < -3.0 {
                continue;
            }
            checked += 1;
            let scenario = placed(at);
            let found = analysis::run(&scenario, Detail::Complete, &mut cache);
            let moved = |it: &&analysis::Analysis| {
                let mut all = it.clearances.iter();
                all.all(|c| c.room >= 0.0 || !c.from.goes_with_shell())
            };
            let short = moved(&&found);
            let barred = found.findings.iter().any(|it| {
                it.is_fault() && it.topic == Topic::Verdict && !it.code.starts_with("equipment")
            });
            let inside = region.contains(at);
            clear += usize::from(inside);
            assert_eq!(inside, short && !barred, "{at:?} {heading} room {room}");
        }
        site = here.site().clone();
    }
    assert!(clear > 10, "{clear}");
}

/// Clear ground of the shell as it stands, and its edge held against the cut.
fn edge_of(site: &CheckedSite) -> (EdgeByCut, Placement) {
    let mut cache = Cache::default();
    let (_, placement) = site.placed_shell().unwrap();
    let bounds = Bounds::where_it_stands(site, &mut cache).unwrap();
    let region = bounds.region(placement.heading, placement.mirrored);
    (EdgeByCut::of(site, &region, &mut cache), placement.clone())
}

/// On level ground every dig is the same: the cut finds the edge where the region has it.
#[test]
fn the_cut_finds_the_edge_of_level_ground_where_it_is() {
    let (edge, _) = edge_of(&open(DEMOS[0]).unwrap().site);
    assert!(edge.places().count() > 20);
    assert_eq!((edge.short_by(), edge.room_beyond()), (None, None));
    assert!(edge.short_stretches().is_empty());
}

/// Nothing on the lot, ground that rises evenly to the north, and one rule, from the dig to the lot's lines. Uphill by `d` the
/// ground at the dig's top is higher by its rise times `d` and what the top itself goes farther out: with sides of 1 to 1 and a
/// rise of `s`, the top goes out by `d s / (1 - s)`, and by so much the north edge falls short. Downhill, to the south, as much
/// room is left beyond the edge as the top draws in: `d s / (1 + s)`.
#[test]
fn uphill_the_edge_falls_short_by_what_the_top_of_the_dig_goes_out() {
    let rise = 0.08;
    let mut file: Value = serde_json::from_str(DEMOS[0]).unwrap();
    file["ground"] = json!({ "plane": { "at": [0.0, 0.0], "elevation": 29.5, "fall": rise, "towards": std::f64::consts::PI } });
    file["features"] = json!([]);
    file["rules"] = json!([{
        "name": "Dig to any line", "from": "dig", "to": { "lot-line": {} }, "distance": 3.0, "source": "made up",
    }]);
    let site = open(&file.to_string()).unwrap().site;
    let (edge, placement) = edge_of(&site);
    let north = edge
        .places()
        .max_by(|a, b| a.at.y.total_cmp(&b.at.y))
        .unwrap();
    let south = edge
        .places()
        .min_by(|a, b| a.at.y.total_cmp(&b.at.y))
        .unwrap();
    let short = (north.at.y - placement.at.y) * rise / (1.0 - rise);
    assert!(
        short > 0.2 && (north.room + short).abs() < EDGE,
        "{north:?} {short}"
    );
    let beyond = (placement.at.y - south.at.y) * rise / (1.0 + rise);
    assert!(
        beyond > 0.2 && (south.room - beyond).abs() < EDGE,
        "{south:?} {beyond}"
    );
    assert!((edge.short_by().unwrap() - short).abs() < EDGE);
    // At the sides, along the contour, the top draws in by `d s`, a little more than to the south.
    let most = edge.room_beyond().unwrap();
    let along_contour = (placement.at.y - south.at.y) * rise;
    assert!(
        most > beyond - EDGE && most < along_contour + EDGE,
        "{most}"
    );
    // Along the north edge, and up the sides from where the shell stands.
    let stretches = edge.short_stretches();
    assert_eq!(stretches.len(), 1, "{stretches:?}");
    assert!(stretches[0].contains(&north.at) && !stretches[0].contains(&south.at));
}

/// The room told at a place is never more than the least that the whole analysis measures there, and where a rule is what
/// holds it is that.
#[test]
fn along_the_edge_the_room_is_what_the_analysis_measures_there() {
    let mut short = 0;
    for text in &DEMOS[1..] {
        let site = open(text).unwrap().site;
        let (edge, placement) = edge_of(&site);
        let mut cache = Cache::default();
        let mut by_rule = 0;
        for place in edge.places().step_by(3) {
            let moved =
                Scenario::with(&site, |next| next.placement.as_mut().unwrap().at = place.at);
            let moved = moved.unwrap();
            let found = analysis::run(&moved, Detail::Complete, &mut cache);
            let rooms = found
                .clearances
                .iter()
                .filter(|it| it.from.goes_with_shell())
                .map(|it| it.room);
            let least = rooms.fold(f64::INFINITY, f64::min);
            assert!(
                place.room <= least + EDGE,
                "{place:?} {least} {placement:?}"
            );
            by_rule += usize::from((place.room - least).abs() < EDGE);
            if place.room < -EDGE_SLACK {
                short += 1;
                let barred = found
                    .findings
                    .iter()
                    .any(|it| it.is_fault() && it.topic == Topic::Verdict);
                assert!(least < 0.0 || barred, "{place:?}");
            }
        }
        assert!(by_rule > 3, "{}: {by_rule}", site.site().name);
    }
    assert!(short > 0);
}

/// The site with rules that are measured aslant, apply only under conditions, or measure from what stays where it is.
fn with_special_rules(site: &CheckedSite) -> CheckedSite {
    let changed = Scenario::with(site, |next| {
        let wires = std::sync::Arc::make_mut(&mut next.features).iter_mut();
        for wire in wires.filter(|it| it.kind == FeatureKind::OverheadLine) {
            wire.facts.height = Some(2.2);
        }
        let rules = std::sync::Arc::make_mut(&mut next.rules);
        for rule in rules.iter_mut() {
            rule.slant = true;
        }
        let rule = |from, to, distance, only| Rule {
            name: "special".to_owned(),
            from,
            to,
            distance,
            source: "a test".to_owned(),
            slant: false,
            only,
        };
        let any = RuleConditions::default();
        let line = MeasuredTo::LotLine { kind: None };
        let fence = MeasuredTo::Feature {
            kind: FeatureKind::Fence,
        };
        rules.extend([
            // Nobody digs so deep, and no lot is so small: these hold nothing off.
            rule(
                MeasuredFrom::Rim,
                line,
                9.0,
                RuleConditions {
                    dig_deeper_than: Some(9.0),
                    ..any
                },
            ),
            rule(
                MeasuredFrom::Rim,
                line,
                9.0,
                RuleConditions {
                    lot_smaller_than: Some(9.0),
                    ..any
                },
            ),
            rule(
                MeasuredFrom::Rim,
                line,
                5.5,
                RuleConditions {
                    on_street_side: true,
                    ..any
                },
            ),
            rule(
                MeasuredFrom::Dig,
                fence,
                1.0,
                RuleConditions {
                    dig_deeper_than: Some(0.5),
                    ..any
                },
            ),
            rule(MeasuredFrom::SpoilPile, line, 1.0, any),
        ]);
    });
    changed.unwrap().site().clone()
}

/// What leaves nothing is found by halving; here by taking one cause away after the other, from the first on.
#[test]
fn what_leaves_nothing_is_what_cannot_be_taken_away() {
    let mut met = 0;
    for text in DEMOS {
        let site = open(text).unwrap().site;
        let scenario = Scenario::with(&site, |next| {
            let mut rules = next.rules.to_vec();
            for rule in &mut rules {
                rule.distance += 9.0;
            }
            next.rules = rules.into();
        })
        .unwrap();
        let bounds = Bounds::where_it_stands(scenario.site(), &mut Cache::default()).unwrap();
        for degree in [0, 75, 160] {
            let heading = std::f64::consts::TAU * f64::from(degree) / 360.0;
            let none_left = |kept: &[Cause]| bounds.only(kept).region(heading, false).is_empty();
            let mut kept: Vec<Cause> = bounds.all().iter().map(|it| it.cause).collect();
            kept.retain(|it| !matches!(it, Cause::LotLine(_)));
            kept.sort_unstable();
            kept.dedup();
            if !none_left(&kept) {
                assert_eq!(bounds.what_leaves_nothing(heading, false), []);
                continue;
            }
            for cause in kept.clone() {
                let fewer: Vec<Cause> = kept.iter().filter(|it| **it != cause).copied().collect();
                if none_left(&fewer) {
                    kept = fewer;
                }
            }
            assert_eq!(bounds.what_leaves_nothing(heading, false), kept);
            met += 1;
        }
    }
    assert!(met > 3, "{met}");
}

#[test]
fn headings_are_told_as_they_measure() {
    for text in DEMOS {
        let site = open(text).unwrap().site;
        let (_, placement) = site.placed_shell().unwrap();
        let bounds = Bounds::where_it_stands(&site, &mut Cache::default()).unwrap();
        let ruler = Ruler::of(&bounds);
        let ranges = bounds.headings(placement.at, placement.mirrored);
        let near = std::f64::consts::TAU / 360.0 / 10.0;
        for degree in 0..720 {
            let heading = std::f64::consts::TAU * f64::from(degree) / 720.0;
            let room = ruler.tightest(&Pose::new(placement.at, heading, placement.mirrored));
            let room = room.unwrap().room;
            let told = ranges.iter().any(|range| range.holds(heading));
            if room.abs() > near * ruler.reach() {
                assert_eq!(
                    told,
                    room > 0.0,
                    "{} at {degree}/2: {room}",
                    site.site().name
                );
            }
        }
    }
}

/// A lot with a bend in it, and things on it, somewhere.
fn site(corner: [f64; 2], things: &[(u8, f64, f64, f64, f64)], apart: f64) -> CheckedSite {
    let [x, y] = corner;
    let corners = [
        [0.0, 0.0],
        [40.0, 0.0],
        [40.0, 30.0],
        [x, y],
        [22.0, 45.0],
        [0.0, 45.0],
    ];
    let course = |i: usize| {
        let (from, to) = (corners[i], corners[(i + 1) % corners.len()]);
        let along = [to[0] - from[0], to[1] - from[1]];
        let kind = ["front", "side", "rear"][i % 3];
        json!({ "kind": kind, "shape": { "line": {
            "bearing": math::wrap_turn(math::atan2(along[0], along[1])),
            "distance": math::hypot(along[0], along[1]) } } })
    };
    let courses: Vec<Value> = (0..corners.len()).map(course).collect();
    let features: Vec<Value> = things
        .iter()
        .enumerate()
        .map(|(i, (kind, x, y, size, bulge))| {
            let mut feature = match kind {
                // An L whose inner corner is an arc.
                0 => json!({ "kind": "house", "shape": { "area": [
                    [x, y], [x + size, y], [x + size, y + size / 3.0], [x + size / 3.0, y + size / 3.0, bulge],
                    [x + size / 3.0, y + size], [x, y + size]] } }),
                1 => json!({ "kind": "fence", "shape":
                    { "track": [[x, y], [x + size, y, bulge], [x, y + size]] } }),
                2 => json!({ "kind": "tree", "facts": { "protection": size / 4.0 }, "shape":
                    { "disc": { "at": [x, y], "radius": size / 3.0 } } }),
                _ => json!({ "kind": "buried-line", "shape": { "track": [[x, y], [x + size, y + size]] } }),
            };
            feature["id"] = json!(format!("f{i}"));
            feature
        })
        .collect();
    let rule = |from: &str, to: Value, distance: f64| json!({ "name": from, "from": from, "to": to, "distance": distance, "source": "test" });
    let rules = [
        rule(
            "waters-edge",
            json!({ "lot-line": { "kind": "front" } }),
            2.0 * apart,
        ),
        rule(
            "waters-edge",
            json!({ "lot-line": { "kind": "rear" } }),
            apart,
        ),
        rule("rim", json!({ "feature": { "kind": "house" } }), apart),
        rule(
            "dig",
            json!({ "feature": { "kind": "fence" } }),
            apart / 2.0,
        ),
        rule(
            "deck-edge",
            json!({ "feature": { "kind": "buried-line" } }),
            0.3,
        ),
        rule("dig", json!({ "part": { "part": "tree-protection" } }), 0.0),
    ];
    let shell = batterboard_core::shell::catalogue::all();
    let document = json!({ "format": "batterboard-site", "version": 3, "name": "bent",
        "lot": { "courses": courses }, "features": features, "rules": rules,
        "placement": { "shell": { "catalogue": shell[things.len() % shell.len()].name },
            "at": [18.0, 20.0], "heading": 0.4, "mirrored": false, "coping_elevation": 0.1 } });
    open(&document.to_string()).unwrap().site
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn every_place_on_a_bent_lot_is_told_as_it_measures(
        x in 21.0..39.0, y in 20.0..29.0,
        things in proptest::collection::vec(
            (0..4u8, 1.0..36.0, 1.0..40.0, 2.0..9.0, -0.4..0.4), 1..5),
        apart in 0.0..4.0,
    ) {
        let Ok(site) = std::panic::catch_unwind(|| site([x, y], &things, apart)) else {
            return Ok(());
        };
        agrees(&site, 4, 120);
    }
}
