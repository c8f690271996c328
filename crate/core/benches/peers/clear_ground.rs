//! Lots of 12 edges with 10 to 1,000 obstacles, and a shell that keeps off all of it.

use batterboard_core::analysis::Cache;
use batterboard_core::clear_ground::{Bounds, Cause, ClearGround};
use batterboard_core::exchange::open;
use batterboard_core::geom::{Point, Pose, Region};
use batterboard_core::math::{self, TURN};
use batterboard_core::site::CheckedSite;
use serde::Serialize;
use serde_json::{Value, json};

use crate::scene;

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

/// The heading that is asked about, radians.
pub const HEADING: f64 = TURN * 0.2375;

/// A lot, what stands on it, and the shell's outline at [`HEADING`] about its own origin. Meters.
#[derive(Serialize)]
pub struct Scene {
    lot: Vec<Point>,
    lot_apart: f64,
    obstacles: Vec<Obstacle>,
    figure: Vec<Point>,
    #[serde(skip)]
    site: CheckedSite,
}

/// Something to keep off.
#[derive(Serialize)]
struct Obstacle {
    apart: f64,
    ring: Vec<Point>,
    #[serde(skip)]
    kind: &'static str,
}

impl Scene {
    /// A scene of so many obstacles. As many to an acre in each: the lot grows with them.
    pub fn of(count: usize) -> Self {
        let wide = (count as f64 / 10.0).sqrt();
        let lot = LOT.map(|[x, y]| Point::new(x * wide, y * wide)).to_vec();
        let obstacles: Vec<Obstacle> = (0..count).map(|i| obstacle(i, wide)).collect();
        let site = site(&lot, &obstacles);
        let [water, _] = stands(&site).figures().clone();
        let turned = water.posed(&Pose::new(Point::default(), HEADING, false));
        Self {
            lot,
            lot_apart: LOT_APART,
            obstacles,
            figure: turned.polygons[0].outer.0.clone(),
            site,
        }
    }

    /// The same with everything ready that no heading changes: of the water alone and the rules alone, so that another library
    /// has as much to do.
    pub fn ready(&self) -> ClearGround {
        let bounds = stands(&self.site);
        let [water, _] = bounds.figures().clone();
        let causes = bounds.all().iter().map(|it| it.cause);
        let rules: Vec<Cause> = causes.filter(|it| matches!(it, Cause::Rule(..))).collect();
        let bounds = bounds.with_figures([water, Region::default()]).only(&rules);
        ClearGround::of(&bounds)
    }
}

fn stands(site: &CheckedSite) -> Bounds<'_> {
    Bounds::where_it_stands(site, &mut Cache::default()).unwrap()
}

/// A quadrangle 6 m by 4 m, askew.
fn obstacle(i: usize, wide: f64) -> Obstacle {
    let halton = |base| scene::halton(i + 1, base);
    let (x, y) = (
        wide * (8.0 + 76.0 * halton(2)),
        wide * (8.0 + 58.0 * halton(3)),
    );
    let angle = TURN * halton(5);
    let (sin, cos) = (math::sin(angle), math::cos(angle));
    let corners = [(-3.0, -2.0), (3.0, -2.0), (2.4, 2.0), (-3.0, 1.6)];
    let placed = corners.map(|(u, v)| Point::new(x + u * cos - v * sin, y + u * sin + v * cos));
    let (kind, apart) = APART[i % APART.len()];
    Obstacle {
        apart,
        ring: placed.to_vec(),
        kind,
    }
}

fn site(lot: &[Point], obstacles: &[Obstacle]) -> CheckedSite {
    let text = include_str!("../../../../demo-sites/level-suburban.json");
    let mut file: Value = serde_json::from_str(text).unwrap();
    let next = lot.iter().cycle().skip(1);
    let courses = lot.iter().zip(next).map(|(from, to)| {
        let along = *to - *from;
        json!({ "kind": "side", "shape": { "line": { "bearing": along.bearing(), "distance": along.length() } } })
    });
    file["lot"] = json!({ "start": lot[0], "courses": courses.collect::<Vec<_>>() });
    let feature = |(at, it): (usize, &Obstacle)| json!({ "id": format!("obstacle {at}"), "kind": it.kind, "shape": { "area": it.ring } });
    file["features"] = obstacles.iter().enumerate().map(feature).collect();
    let rule = |to: Value, apart: f64| json!({ "name": "held off", "from": "waters-edge", "to": to, "distance": apart, "source": "made up" });
    let mut rules = vec![rule(json!({ "lot-line": {} }), LOT_APART)];
    rules.extend(APART.map(|(kind, apart)| rule(json!({ "feature": { "kind": kind } }), apart)));
    file["rules"] = json!(rules);
    let opened = open(&file.to_string()).unwrap();
    let mut site = opened.site.site().as_ref().clone();
    scene::put_shell(&mut site, OUTLINE);
    scene::checked(site)
}
