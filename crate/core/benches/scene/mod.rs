//! What the benches measure on: the hillside with a dozen features and every example rule, on
//! rolling ground of any number of spots, under a shell whose outline has any number of vertices;
//! and one frame of a drag.
#![allow(dead_code, reason = "each bench uses its part")]

use std::sync::Arc;

use batterboard_core::analysis::{self, Analysis, Cache, Detail, Scenario};
use batterboard_core::exchange::open;
use batterboard_core::geom::{PathRecord, Point, Vertex};
use batterboard_core::ground::GroundRecord;
use batterboard_core::math;
use batterboard_core::shell::{FacetKind, FacetRecord, ShellRecord};
use batterboard_core::site::{
    CheckedSite, Feature, FeatureKind, ShapeRecord, ShellChoice, Site, rule,
};

/// How many places the shell is dragged through.
const STEPS: usize = 64;

/// A number from 0 to 1 of Halton's sequence, which scatters evenly.
pub fn halton(index: usize, base: usize) -> f64 {
    let (mut i, mut part, mut sum) = (index, 1.0, 0.0);
    while i > 0 {
        part /= base as f64;
        sum += part * (i % base) as f64;
        i /= base;
    }
    sum
}

/// Spots scattered evenly over rolling ground, 60 m square round the lot.
pub fn ground(spots: usize) -> GroundRecord {
    let spot = |i: usize| {
        let (x, y) = (60.0 * halton(i, 2) - 8.0, 60.0 * halton(i, 3) - 4.0);
        let rolling = 0.15 * math::sin(x / 3.0) * math::cos(y / 4.0);
        [x, y, 30.0 - 0.02 * x - 0.025 * y + rolling]
    };
    GroundRecord::of_spots((1..=spots).map(spot).collect())
}

/// The hillside on ground of so many spots, with 14 rules and a dozen features in their reach.
pub fn site(spots: usize) -> CheckedSite {
    let mut site = hillside();
    site.ground = Arc::new(ground(spots));
    checked(site)
}

/// The same on ground of 100 spots, under a shell with so many vertices in its outline.
pub fn site_of_outline(vertices: usize) -> CheckedSite {
    let mut site = hillside();
    site.ground = Arc::new(ground(100));
    put_shell(&mut site, vertices);
    checked(site)
}

/// The same with so many trees, wells and tanks, the farther apart the more there are, all example rules measured to them.
pub fn site_of_features(count: usize) -> CheckedSite {
    let mut site = hillside();
    site.ground = Arc::new(ground(100));
    let kind = |i: usize| match i % 3 {
        0 => FeatureKind::Tree,
        1 => FeatureKind::Well,
        _ => FeatureKind::SepticTank,
    };
    let spread = 60.0 + 3.0 * (count as f64).sqrt();
    let feature = |i: usize| {
        let [x, y] = [halton(i + 1, 2), halton(i + 1, 3)].map(|it| (it - 0.5) * spread);
        let shape = ShapeRecord::Disc {
            at: Point::new(15.0 + x, 24.0 + y),
            radius: 0.4,
        };
        Feature::of(format!("feature {i}"), kind(i), shape)
    };
    site.features = Arc::new((0..count).map(feature).collect());
    checked(site)
}

/// The same with so many rules: the examples again and again, each farther than the last.
pub fn site_of_rules(count: usize) -> CheckedSite {
    let mut site = hillside();
    site.ground = Arc::new(ground(100));
    let examples = rule::examples();
    let rule = |(i, of): (usize, &rule::Rule)| {
        let mut rule = of.clone();
        rule.name = format!("{} {i}", of.name);
        rule.distance += 0.01 * i as f64;
        rule
    };
    let rules = examples.iter().cycle().take(count).enumerate().map(rule);
    site.rules = Arc::new(rules.collect());
    checked(site)
}

/// The same on ground of 100 spots with so many points in breaklines of ten points, which wind side by side.
pub fn site_of_breaklines(points: usize) -> CheckedSite {
    let mut site = hillside();
    let lines = (points / 10).max(1);
    let line = |l: usize| {
        let x = -7.0 + 58.0 * (l as f64 + 0.5) / lines as f64;
        let point = |i: usize| {
            let y = -3.0 + 56.0 * i as f64 / 9.0;
            let wide = 20.0 / lines as f64;
            let x = x + wide * math::sin(y / 5.0);
            [x, y, 30.0 - 0.02 * x - 0.025 * y + 0.1 * math::sin(y / 3.0)]
        };
        (0..10).map(point).collect()
    };
    if let GroundRecord::Spots { spots, .. } = ground(100) {
        let breaklines: Vec<Vec<[f64; 3]>> = (0..lines).map(line).collect();
        site.ground = Arc::new(GroundRecord::Spots { spots, breaklines });
    }
    checked(site)
}

/// Puts a shell with so many vertices in its outline where the last one stood.
pub fn put_shell(site: &mut Site, vertices: usize) {
    if let Some(placement) = &mut site.placement {
        placement.shell = Arc::new(ShellChoice::Own(shell(vertices)));
    }
}

fn hillside() -> Site {
    let text = include_str!("../../../../demo-sites/sloping-hillside.json");
    let Ok(opened) = open(text) else {
        unreachable!("the tests open every demo site")
    };
    let mut site = Site::clone(opened.site.site());
    let tank = |i: usize| {
        let shape = ShapeRecord::Disc {
            at: Point::new(3.0 + 3.0 * i as f64, 38.0),
            radius: 1.0,
        };
        Feature::of(format!("tank {i}"), FeatureKind::SepticTank, shape)
    };
    let mut features = site.features.as_ref().clone();
    features.extend((features.len()..12).map(tank));
    site.features = Arc::new(features);
    site.rules = Arc::new(rule::examples());
    site
}

/// A bean 9 m long, its outline straight from vertex to vertex.
pub fn bean(vertices: usize) -> Vec<Point> {
    let at = |i: usize| {
        let angle = math::TURN * i as f64 / vertices as f64;
        let waist = 1.0 - 0.18 * math::sin(angle);
        Point::new(
            4.5 * math::cos(angle),
            2.3 * math::sin(angle) * waist - 0.3 * math::cos(2.0 * angle),
        )
    };
    (0..vertices).map(at).collect()
}

fn shell(vertices: usize) -> ShellRecord {
    let path = |points: &[Point]| {
        let vertices: Vec<Vertex> = points.iter().map(|p| Vertex::line(p.x, p.y)).collect();
        PathRecord::from(vertices.as_slice())
    };
    let facet = |kind, from: f64, to: f64, depths: [f64; 2]| FacetRecord {
        kind,
        outline: path(&[
            Point::new(from, -4.0),
            Point::new(to, -4.0),
            Point::new(to, 4.0),
            Point::new(from, 4.0),
        ]),
        depths: vec![depths[0], depths[1], depths[1], depths[0]],
    };
    ShellRecord {
        name: format!("bean of {vertices} vertices"),
        note: String::new(),
        outline: path(&bean(vertices)),
        floor: vec![
            facet(FacetKind::Shallow, -5.0, 0.0, [1.1, 1.1]),
            facet(FacetKind::Slope, 0.0, 5.0, [1.1, 1.9]),
        ],
        coping_width: 0.3,
        waterline: 0.1,
        wall_thickness: 0.01,
        weight: None,
        draft: 0.0,
        cove: 0.0,
        drain: None,
        stations: Vec::new(),
    }
}

pub fn checked(site: Site) -> CheckedSite {
    match CheckedSite::check(site, None) {
        Ok(checked) => checked,
        Err(faults) => unreachable!("the site is valid: {faults:?}"),
    }
}

/// One frame of a drag without painting: move, check, all clearances, the cut, all quantities and
/// findings.
pub fn frame(start: &CheckedSite, step: usize, cache: &mut Cache) -> Analysis {
    analysis::run(&Scenario::of(&moved(start, step)), Detail::Complete, cache)
}

/// The same with low and high of every quantity, as when the hand lets go.
pub fn rest(start: &CheckedSite, step: usize, cache: &mut Cache) -> Analysis {
    analysis::run(&Scenario::of(&moved(start, step)), Detail::Ranges, cache)
}

/// The site with the shell a step farther.
pub fn moved(site: &CheckedSite, step: usize) -> CheckedSite {
    let mut next = Site::clone(site.site());
    if let Some(placement) = &mut next.placement {
        let by = (step % STEPS) as f64 / STEPS as f64;
        placement.at = Point::new(15.0 + 3.0 * by, 24.0 - 2.0 * by);
    }
    let Ok(checked) = CheckedSite::check(next, Some(site)) else {
        unreachable!("the place is within reach")
    };
    checked
}
