//! Clear ground at one heading on lots of 12 edges with 10 to 1,000 obstacles: the scenes that other libraries are asked the
//! same about, and what the core takes.
//!
//! Prints one line of JSON for each scene, meters and milliseconds; `cargo xtask bench --only peers` hands them on. A
//! plain program rather than a criterion bench, as the scenes go with the times.
#![allow(missing_docs)]
// A panic here fails the bench.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

mod scene;

use std::hint::black_box;
use std::time::Instant;

use batterboard_core::analysis::Cache;
use batterboard_core::clear_ground::{Bounds, Cause, ClearGround};
use batterboard_core::exchange::open;
use batterboard_core::geom::{Point, Pose, Region};
use batterboard_core::math::{self, TURN};
use batterboard_core::site::CheckedSite;
use serde_json::{Value, json};

/// The lot of ten obstacles, meters: 12 edges, two corners of them turned in.
const LOT: [[f64; 2]; 12] = [
    [0.0, 0.0],
    [38.0, -2.0],
    [70.0, 1.0],
    [100.0, 0.0],
    [104.0, 30.0],
    [88.0, 33.0],
    [90.0, 60.0],
    [101.0, 75.0],
    [60.0, 78.0],
    [30.0, 74.0],
    [2.0, 76.0],
    [-3.0, 40.0],
];

/// Kinds of obstacles in turn, each with how far the water's edge is held off, meters.
const APART: [(&str, f64); 2] = [("house", 3.0), ("outbuilding", 2.0)];
const LOT_APART: f64 = 3.0;

/// Vertices of the shell's outline.
const OUTLINE: usize = 160;

/// How far corners may lie off the edges that take their place while a hand turns the shell, meters: as in the session.
const UNDER_TURNING: f64 = 0.005;

/// Headings that are asked about, one after the other.
const HEADINGS: u32 = 8;

/// How often a heading is worked out in the smallest scene, and how often at least; the median of all counts.
const ROUNDS: usize = 25;
const LEAST_ROUNDS: usize = 2;

fn main() {
    for count in [10, 32, 100, 316, 1_000] {
        println!("{}", measured(count));
    }
}

/// A scene and what it takes. As many obstacles to an acre in each: the lot grows with them.
fn measured(count: usize) -> Value {
    let wide = (count as f64 / 10.0).sqrt();
    let lot = LOT.map(|[x, y]| Point::new(x * wide, y * wide));
    let obstacles: Vec<(usize, Vec<Point>)> = (0..count).map(|i| obstacle(i, wide)).collect();
    let site = site(&lot, &obstacles);
    let bounds = Bounds::where_it_stands(&site, &mut Cache::default()).unwrap();
    // The water alone and the rules alone, so that another library has as much to do.
    let [water, _] = bounds.figures().clone();
    let rules: Vec<Cause> = bounds
        .all()
        .iter()
        .map(|it| it.cause)
        .filter(|it| matches!(it, Cause::Rule(..)))
        .collect();
    let bounds = bounds
        .with_figures([water.clone(), Region::default()])
        .only(&rules);
    let start = Instant::now();
    let ground = ClearGround::of(&bounds);
    let make_ready = start.elapsed().as_secs_f64() * 1e3;
    let headings: Vec<f64> = (0..HEADINGS)
        .map(|i| TURN * (f64::from(i) + 0.3) / f64::from(HEADINGS))
        .collect();
    let areas: Vec<f64> = headings
        .iter()
        .map(|it| ground.region(*it, false).area())
        .collect();
    let one_heading = median(&ground, &headings, count);
    let turning = median(
        &ClearGround::thinned(&bounds, UNDER_TURNING),
        &headings,
        count,
    );
    // On a lot with a thousand obstacles nobody waits for that.
    let every_degree = (count <= 100).then(|| {
        let start = Instant::now();
        for degree in 0..360 {
            black_box(ground.region(TURN * f64::from(degree) / 360.0, false));
        }
        start.elapsed().as_secs_f64() * 1e3
    });
    let turned = |heading: &f64| {
        let posed = water.posed(&Pose::new(Point::default(), *heading, false));
        posed.polygons.into_iter().next().map(|it| it.outer.0)
    };
    let held = obstacles
        .iter()
        .map(|(kind, ring)| json!({ "apart": APART[*kind].1, "ring": ring }));
    json!({
        "count": count,
        "lot": lot,
        "lot_apart": LOT_APART,
        "obstacles": held.collect::<Vec<_>>(),
        "figures": headings.iter().map(turned).collect::<Vec<Option<Vec<Point>>>>(),
        "areas": areas,
        "make_ready_ms": make_ready,
        "one_heading_ms": one_heading,
        "turning_ms": turning,
        "every_degree_ms": every_degree,
    })
}

/// What one heading takes, milliseconds.
fn median(ground: &ClearGround, headings: &[f64], count: usize) -> f64 {
    let rounds = (ROUNDS * 10 / count).max(LEAST_ROUNDS);
    let mut times = Vec::new();
    for heading in headings {
        for _ in 0..rounds {
            let start = Instant::now();
            black_box(ground.region(black_box(*heading), false));
            times.push(start.elapsed().as_secs_f64() * 1e3);
        }
    }
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

/// A quadrangle 6 m by 4 m, askew.
fn obstacle(i: usize, wide: f64) -> (usize, Vec<Point>) {
    let halton = |base: usize| {
        let (mut rest, mut part, mut sum) = (i + 1, 1.0, 0.0);
        while rest > 0 {
            part /= base as f64;
            sum += part * (rest % base) as f64;
            rest /= base;
        }
        sum
    };
    let (x, y) = (
        wide * (8.0 + 76.0 * halton(2)),
        wide * (8.0 + 58.0 * halton(3)),
    );
    let angle = TURN * halton(5);
    let (sin, cos) = (math::sin(angle), math::cos(angle));
    let corners = [(-3.0, -2.0), (3.0, -2.0), (2.4, 2.0), (-3.0, 1.6)];
    let placed = corners.map(|(u, v)| Point::new(x + u * cos - v * sin, y + u * sin + v * cos));
    (i % APART.len(), placed.to_vec())
}

fn site(lot: &[Point], obstacles: &[(usize, Vec<Point>)]) -> CheckedSite {
    let text = include_str!("../../../demo-sites/level-suburban.json");
    let mut file: Value = serde_json::from_str(text).unwrap();
    let next = lot.iter().cycle().skip(1);
    let courses = lot.iter().zip(next).map(|(from, to)| {
        let along = *to - *from;
        json!({ "kind": "side", "shape": { "line": { "bearing": along.bearing(), "distance": along.length() } } })
    });
    file["lot"] = json!({ "start": lot[0], "courses": courses.collect::<Vec<_>>() });
    let feature = |(at, (kind, ring)): (usize, &(usize, Vec<Point>))| json!({ "id": format!("obstacle {at}"), "kind": APART[*kind].0, "shape": { "area": ring } });
    file["features"] = obstacles.iter().enumerate().map(feature).collect();
    let rule = |to: Value, apart: f64| json!({ "name": "held off", "from": "waters-edge", "to": to, "distance": apart, "source": "made up" });
    let mut rules = vec![rule(json!({ "lot-line": {} }), LOT_APART)];
    rules.extend(APART.map(|(kind, apart)| rule(json!({ "feature": { "kind": kind } }), apart)));
    file["rules"] = json!(rules);
    let mut site = open(&file.to_string())
        .unwrap()
        .site
        .site()
        .as_ref()
        .clone();
    scene::put_shell(&mut site, OUTLINE);
    scene::checked(site)
}
