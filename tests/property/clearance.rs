//! Clearances against sampling: points along both figures, compared pair by pair.

use batterboard_core::clearance::{Clearance, Subject, WorkFigures, measure};
use batterboard_core::exchange::open;
use batterboard_core::geom::flatten::{ChordSide, flatten};
use batterboard_core::geom::offset::offset_region;
use batterboard_core::geom::{DRAWING_TOLERANCE, Point, Pose, Region, Ring, Vector};
use batterboard_core::shell::{Shell, catalogue};
use batterboard_core::site::shape::PartPlace;
use batterboard_core::site::{CheckedShape, CheckedSite, MeasuredFrom};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Farthest apart of two neighboring samples, meters.
const SPACING: f64 = 0.04;

/// What sampling may overrate a distance by: half a spacing sideways on each figure.
const OVERRATED: f64 = SPACING;

/// What sampling may underrate it by: rounding, and the chord error of the widened outline.
const UNDERRATED: f64 = 1e-9 + 2.0 * DRAWING_TOLERANCE;

/// Points along a chain of straight edges.
fn along(chain: &[Point]) -> Vec<Point> {
    let mut points = Vec::new();
    for pair in chain.windows(2) {
        let steps = (pair[0].distance(pair[1]) / SPACING).ceil().max(1.0);
        for i in 0..=(steps as usize) {
            points.push(pair[0] + (pair[1] - pair[0]) * (i as f64 / steps));
        }
    }
    points
}

fn along_region(region: &Region) -> Vec<Point> {
    let closed = |Ring(points): &Ring| {
        let mut chain = points.clone();
        chain.extend(points.first());
        along(&chain)
    };
    region.rings().flat_map(closed).collect()
}

fn sampled(a: &[Point], b: &[Point]) -> f64 {
    let to_b = |p: &Point| {
        b.iter()
            .map(|q| p.distance(*q))
            .fold(f64::INFINITY, f64::min)
    };
    a.iter().map(to_b).fold(f64::INFINITY, f64::min)
}

/// A feature of every shape, with its parts, somewhere on or off a lot of 40 by 50 m.
fn features() -> impl Strategy<Value = Vec<Value>> {
    let shape = (0..6u8, 0.0..40.0, 0.0..50.0, 0.5..6.0, -0.3..0.3);
    let shape = shape.prop_map(
        |(kind, x, y, size, bulge): (u8, f64, f64, f64, f64)| {
            let square = |d: f64| {
                let (low, far) = ([x + d, y + d], size * 2.0 - 2.0 * d);
                json!([low, [low[0] + far, low[1]], [low[0] + far, low[1] + far],
                       [low[0], low[1] + far]])
            };
            let opening = json!({ "openings": [{ "at": [x + size / 2.0, y], "width": size / 3.0 }] });
            match kind {
                0 => json!({ "kind": "house", "facts": opening, "shape":
                    { "area": [[x, y, bulge], [x + size, y], [x + size, y + size]] } }),
                1 => json!({ "kind": "fence", "facts": opening, "shape":
                    { "track": [[x, y], [x + size, y, bulge], [x, y + size]] } }),
                2 => json!({ "kind": "tree", "facts": { "trunk": 0.3, "protection": size }, "shape":
                    { "disc": { "at": [x, y], "radius": size / 2.0 } } }),
                3 => json!({ "kind": "other", "shape":
                    { "strip": { "path": [[x, y], [x + size, y, bulge], [x, y + size]], "width": 0.7 } } }),
                4 => json!({ "kind": "other", "shape": { "compound": [
                    { "outer": square(0.0), "holes": [square(size * 0.3)] },
                    { "outer": square(size * 0.5) } ] } }),
                _ => json!({ "kind": "other", "shape": { "along": { "course": 2, "width": size } } }),
            }
        },
    );
    proptest::collection::vec(shape, 1..4)
}

/// The lot with these features and a rule from everywhere to everything.
fn site(features: &[Value], required: f64) -> CheckedSite {
    let quarter = std::f64::consts::FRAC_PI_2;
    let course = |i: usize| {
        let distance = if i.is_multiple_of(2) { 40.0 } else { 50.0 };
        json!({ "shape": { "line": { "bearing": quarter * (5 - i) as f64, "distance": distance } } })
    };
    let features: Vec<Value> = features
        .iter()
        .enumerate()
        .map(|(i, feature)| {
            let mut feature = feature.clone();
            feature["id"] = json!(format!("f{i}"));
            feature
        })
        .collect();
    let mut rules = Vec::new();
    for from in ["waters-edge", "rim", "deck-edge"] {
        for to in [
            json!({ "lot-line": {} }),
            json!({ "feature": { "kind": "other" } }),
            json!({ "feature": { "kind": "house" } }),
            json!({ "feature": { "kind": "fence" } }),
            json!({ "feature": { "kind": "tree" } }),
            json!({ "part": { "part": "door" } }),
            json!({ "part": { "part": "gate" } }),
            json!({ "part": { "part": "tree-trunk" } }),
            json!({ "part": { "part": "tree-protection" } }),
        ] {
            rules.push(json!({ "name": from, "from": from, "to": to, "distance": required, "source": "test" }));
        }
    }
    let document = json!({ "format": "batterboard-site", "version": 3, "name": "test",
        "lot": { "courses": [course(0), course(1), course(2), course(3)] },
        "features": features, "rules": rules });
    open(&document.to_string()).unwrap().site
}

fn work(shell: usize, pose: &Pose) -> WorkFigures {
    let all = catalogue::all();
    let (shell, _) = Shell::check(&all[shell % all.len()]).unwrap();
    let ring = flatten(&shell.outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
    WorkFigures {
        waters_edge: Region::from_ring(ring).posed(pose),
        rim: shell.record.coping_width,
        deck_edge: shell.record.coping_width + 1.2,
        ..WorkFigures::default()
    }
}

fn poses() -> impl Strategy<Value = Pose> {
    (8.0..32.0, 8.0..42.0, 0.0..6.3, any::<bool>())
        .prop_map(|(x, y, heading, mirrored)| Pose::new(Point::new(x, y), heading, mirrored))
}

/// Points along what a clearance was measured to.
fn target(site: &CheckedSite, clearance: &Clearance) -> Vec<Point> {
    match clearance.subject {
        Subject::Side(i) => along(&site.lot().sides[i]),
        Subject::Feature(i) => match &site.features()[i].shape {
            CheckedShape::Area(_, region) => along_region(region),
            CheckedShape::Track(_, chain) => along(chain),
        },
        Subject::Part { feature, part } => match &site.features()[feature].parts[part].place {
            PartPlace::Disc(region) => along_region(region),
            PartPlace::Opening(points) => along(points),
        },
    }
}

fn out(work: &WorkFigures, from: MeasuredFrom) -> f64 {
    match from {
        MeasuredFrom::Rim => work.rim,
        MeasuredFrom::DeckEdge => work.deck_edge,
        _ => 0.0,
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn distances_agree_with_sampling(shell in 0..40usize, pose in poses(), features in features()) {
        let site = site(&features, 1.0);
        let work = work(shell, &pose);
        for c in measure(&site, &work) {
            // The widened outline itself, made by another route than the measurement's.
            let widened = offset_region(&work.waters_edge, out(&work, c.from), DRAWING_TOLERANCE);
            let found = sampled(&along_region(&widened), &target(&site, &c));
            if c.distance > 0.0 {
                prop_assert!(found > c.distance - UNDERRATED, "{found} {c:?}");
                prop_assert!(found < c.distance + OVERRATED, "{found} {c:?}");
                let apart = c.from_point.distance(c.to_point);
                prop_assert!((apart - c.distance).abs() < 1e-9, "witnesses {apart} apart: {c:?}");
            } else if c.distance < -0.1 {
                let overlaps = match c.subject {
                    Subject::Side(_) => {
                        let mut edge = along_region(&widened).into_iter();
                        edge.any(|p| !site.lot().region.contains(p))
                    }
                    Subject::Feature(_) | Subject::Part { .. } => {
                        let mut feature = target(&site, &c).into_iter();
                        feature.any(|p| widened.contains(p)) || found < SPACING
                    }
                };
                prop_assert!(overlaps, "{c:?}");
            }
        }
    }

    #[test]
    fn room_is_slack_and_the_list_is_sorted(
        shell in 0..40usize, pose in poses(), features in features(), required in 0.0..6.0,
    ) {
        let site = site(&features, required);
        let all = measure(&site, &work(shell, &pose));
        // Three rules to four sides, three to each feature, three to each part: a tree has two,
        // a house and a fence have an opening each.
        let parts = |feature: &Value| match feature["kind"].as_str() {
            Some("tree") => 2,
            Some("other") => 0,
            _ => 1,
        };
        let parts: usize = features.iter().map(parts).sum();
        prop_assert_eq!(all.len(), 3 * (4 + features.len() + parts));
        for c in &all {
            prop_assert!((c.room - (c.distance - c.required)).abs() < 1e-6);
            prop_assert_eq!(c.falls_short(), c.room < 0.0);
            if c.distance > required + 1e-6 { prop_assert!(!c.falls_short()); }
            if c.distance < required - 1e-6 { prop_assert!(c.falls_short()); }
        }
        for pair in all.windows(2) {
            let key = |c: &Clearance| (c.rule, c.subject);
            let rising = pair[0].room < pair[1].room;
            prop_assert!(rising || pair[0].room == pair[1].room && key(&pair[0]) < key(&pair[1]));
        }
    }

    #[test]
    fn a_move_changes_no_distance_by_more_than_itself(
        shell in 0..40usize, pose in poses(), features in features(), dx in -3.0..3.0, dy in -3.0..3.0,
    ) {
        let site = site(&features, 1.0);
        let by = Vector::new(dx, dy);
        let moved = Pose::new(pose.at + by, pose.heading, pose.mirrored);
        let mut before = measure(&site, &work(shell, &pose));
        let mut after = measure(&site, &work(shell, &moved));
        let key = |c: &Clearance| (c.rule, c.subject);
        before.sort_by_key(key);
        after.sort_by_key(key);
        for (b, a) in before.iter().zip(&after) {
            prop_assert_eq!(key(b), key(a));
            if b.distance > 0.0 && a.distance > 0.0 {
                let change = (a.distance - b.distance).abs();
                prop_assert!(change <= by.length() + 1e-9, "{change} for {}: {b:?} {a:?}", by.length());
            }
        }
    }

    #[test]
    fn rim_and_deck_edge_are_nearer_by_their_width(shell in 0..40usize, pose in poses(), features in features()) {
        let site = site(&features, 1.0);
        let work = work(shell, &pose);
        let all = measure(&site, &work);
        for c in all.iter().filter(|c| c.from == MeasuredFrom::WatersEdge) {
            for other in all.iter().filter(|o| o.subject == c.subject) {
                let nearer = c.distance - other.distance;
                prop_assert!((nearer - out(&work, other.from)).abs() < 1e-12);
            }
        }
    }
}
