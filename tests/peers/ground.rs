//! Surfaces of spots against SciPy's, contours against Matplotlib's, and surfaces with breaklines
//! against Triangle's.
//!
//! Source: computed independently with the versions named in `ground_cases.json`, which
//! `make_ground.py` builds and `check_ground.py` keeps honest. SciPy triangulates the survey of Davis
//! (1973) and lot-sized windows of a real terrain, the Jacksboro fault (USGS). Matplotlib follows the contours
//! over Qhull's triangulation; Triangle (Shewchuk) triangulates the lines that Shapely has parted
//! at their crossings.

use batterboard_core::geom::Point;
use batterboard_core::ground::contour::contours;
use batterboard_core::ground::{Facet, Ground, GroundRecord};
use serde::Deserialize;

#[derive(Deserialize)]
struct Cases {
    source: String,
    davis: Contoured,
    surfaces: Vec<Surface>,
    terrains: Vec<Terrain>,
    broken: Vec<Broken>,
}

/// The length of every contour, each with the number of its level.
#[derive(Deserialize)]
struct Contoured {
    interval: f64,
    lengths: Vec<(i32, f64)>,
}

/// What SciPy makes of spots.
#[derive(Deserialize)]
struct Surface {
    spots: Vec<[f64; 3]>,
    triangles: usize,
    plan_area: f64,
    surface_area: f64,
    lowest: f64,
    /// Above the lowest spot.
    volume: f64,
    heights: Vec<[f64; 3]>,
    /// Places that lie beyond the spots.
    outside: Vec<[f64; 2]>,
}

#[derive(Deserialize)]
struct Terrain {
    spots: Vec<[f64; 3]>,
    interval: f64,
    lengths: Vec<(i32, f64)>,
}

#[derive(Deserialize)]
struct Broken {
    spots: Vec<[f64; 3]>,
    lines: Vec<Vec<[f64; 3]>>,
    triangles: usize,
    plan_area: f64,
    surface_area: f64,
    heights: Vec<[f64; 3]>,
}

fn cases() -> Cases {
    let cases: Cases = serde_json::from_str(include_str!("ground_cases.json")).unwrap();
    for library in ["scipy", "matplotlib", "triangle"] {
        assert!(cases.source.contains(library), "{library}");
    }
    cases
}

/// Triangle by triangle there is one Delaunay triangulation of each, so that all figures are the same
/// to rounding.
#[test]
fn surfaces_of_spots_are_those_of_scipy() {
    let surfaces = cases().surfaces;
    assert_eq!((surfaces.len(), surfaces[0].spots.len()), (5, 52));
    for (i, case) in surfaces.iter().enumerate() {
        let record = GroundRecord::of_spots(case.spots.clone());
        let (ground, _) = Ground::check(&record).unwrap();
        assert_eq!(ground.surveyed_facets().count(), case.triangles, "case {i}");
        let near = |what: &str, ours: f64, theirs: f64| {
            let off = (ours - theirs).abs() / theirs.abs().max(1.0);
            assert!(off < 1e-9, "case {i}, {what}: {ours}, SciPy {theirs}");
        };
        let plan: f64 = ground.surveyed_facets().map(Facet::plan_area).sum();
        near("plan", plan, case.plan_area);
        near("surface", ground.surveyed_surface_area(), case.surface_area);
        near(
            "volume",
            ground.surveyed_volume_above(case.lowest),
            case.volume,
        );
        for [x, y, z] in &case.heights {
            let height = ground.height(Point::new(*x, *y));
            assert!(height.known, "case {i}: {x}, {y}");
            near("height", height.elevation, *z);
        }
        for [x, y] in &case.outside {
            assert!(
                !ground.height(Point::new(*x, *y)).known,
                "case {i}: {x}, {y}"
            );
        }
    }
}

/// Every level's length, and nothing at any other level.
fn check_contours(name: &str, spots: &[[f64; 3]], interval: f64, lengths: &[(i32, f64)]) -> f64 {
    let (ground, _) = Ground::check(&GroundRecord::of_spots(spots.to_vec())).unwrap();
    let ours = contours(ground.surveyed_facets(), interval);
    let mut total = 0.0;
    for (level, theirs) in lengths {
        let elevation = f64::from(*level) * interval;
        let at_level = ours.iter().filter(|c| c.elevation == elevation);
        let length: f64 = at_level.map(|c| c.length()).sum();
        let off = (length - theirs).abs();
        assert!(
            off <= 1e-9 * theirs.max(1.0),
            "{name}, level {level}: {length}, Matplotlib {theirs}"
        );
        total += length;
    }
    let all: f64 = ours.iter().map(|c| c.length()).sum();
    assert!(
        (all - total).abs() < 1e-9 * total.max(1.0),
        "{name}: {all} {total}"
    );
    total
}

#[test]
fn contours_of_the_survey_of_davis_are_as_long_as_matplotlibs() {
    let spots: Vec<[f64; 3]> = include_str!("../reference/data/davis_1973_spots.csv")
        .lines()
        .filter(|line| !line.starts_with('#'))
        .skip(1)
        .map(|line| {
            let mut fields = line.split(',').map(|f| f.parse::<f64>().unwrap());
            let [x, y, z] = core::array::from_fn(|_| fields.next().unwrap());
            [50.0 * x, 50.0 * y, z]
        })
        .collect();
    let davis = cases().davis;
    let total = check_contours("Davis", &spots, davis.interval, &davis.lengths);
    assert!(total > 5000.0, "{total}");
}

#[test]
fn contours_of_random_spots_are_as_long_as_matplotlibs() {
    let cases = cases();
    for (i, case) in cases.terrains.iter().enumerate() {
        check_contours(
            &format!("terrain {i}"),
            &case.spots,
            case.interval,
            &case.lengths,
        );
    }
}

#[test]
fn surfaces_with_breaklines_are_those_of_triangle() {
    for (i, case) in cases().broken.iter().enumerate() {
        let (ground, found) = Ground::surveyed_by(&case.spots, &case.lines).unwrap();
        assert!(
            found.iter().all(|f| f.code != "breaklines-disagree"),
            "case {i}"
        );
        assert_eq!(ground.surveyed_facets().count(), case.triangles, "case {i}");
        let plan: f64 = ground.surveyed_facets().map(Facet::plan_area).sum();
        assert!((plan - case.plan_area).abs() < 1e-6, "case {i}");
        let surface = ground.surveyed_surface_area();
        assert!((surface - case.surface_area).abs() < 1e-6, "case {i}");
        for [x, y, z] in &case.heights {
            let height = ground.height(Point::new(*x, *y));
            assert!(
                height.known && (height.elevation - z).abs() < 1e-9,
                "case {i}"
            );
        }
    }
}
