//! Surfaces of spots against surveys and worked examples.

use crate::close;
use batterboard_core::geom::Point;
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::units::constants::{CUBIC_FOOT, CUBIC_YARD, FOOT, SQUARE_FOOT};

/// The ground of spots told in feet.
fn ground_in_feet(spots: &[[f64; 3]]) -> Ground {
    let spots = spots.iter().map(|s| s.map(|c| c * FOOT)).collect();
    Ground::check(&GroundRecord::of_spots(spots)).unwrap().0
}

/// The spots of Davis (1973), feet.
fn davis() -> Vec<[f64; 3]> {
    include_str!("data/davis_1973_spots.csv")
        .lines()
        .filter(|line| !line.starts_with('#'))
        .skip(1)
        .map(|line| {
            let mut fields = line.split(',').map(|f| f.parse::<f64>().unwrap());
            let [x, y, z] = core::array::from_fn(|_| fields.next().unwrap());
            [50.0 * x, 50.0 * y, z]
        })
        .collect()
}

/// The 52 spots of Davis (1973): figures worked out with SciPy 1.17 (Qhull's Delaunay
/// triangulation); `tests/peers/check_terrain.py` works them out anew.
#[test]
fn the_survey_of_davis_has_the_surface_that_scipy_finds() {
    let spots = davis();
    assert_eq!(spots.len(), 52);
    let ground = ground_in_feet(&spots);
    assert_eq!(ground.surveyed_facets().count(), 87);
    let surveyed = ground.surveyed().unwrap();
    close("area", surveyed.area() / SQUARE_FOOT, 89_975.0, 0.01);
    close("edge", surveyed.perimeter() / FOOT, 1147.198, 0.001);
    let volume = ground.surveyed_volume_above(690.0 * FOOT);
    close("volume", volume / CUBIC_FOOT, 12_737_625.0, 1.0);
    close("yards", volume / CUBIC_YARD, 471_763.9, 0.1);
    let surface = ground.surveyed_surface_area();
    close("sloping area", surface / SQUARE_FOOT, 132_661.0, 0.1);
    let height = |x: f64, y: f64| ground.height(Point::new(x * FOOT, y * FOOT));
    for (x, y, z) in [(150.0, 150.0, 823.7028), (100.0, 200.0, 794.5918)] {
        assert!(height(x, y).known);
        close("height", height(x, y).elevation / FOOT, z, 1e-4);
    }
    assert!(!height(400.0, 150.0).known);
}

/// One 50 ft square with corners at 87.6, 87.6, 87.6 and 88.6 ft, filled to 90.0 ft: 2.15 ft
/// on the average, 199 yd3 (worked answer on an examination site). The rule of thumb is the
/// mean over the two ways to split the square; either way differs from it by
/// `area * (h1 + h3 - h2 - h4) / 12`, h counted round the square.
#[test]
fn a_borrow_pit_square_is_bracketed_by_its_two_diagonals() {
    let (side, level) = (50.0, 90.0);
    // A spot a hair off the square decides the diagonal.
    let fill = |nudge: f64| {
        let spots = [
            [0.0, 0.0, 87.6],
            [side, 0.0, 87.6],
            [side + nudge, side + nudge, 88.6],
            [0.0, side, 87.6],
        ];
        -ground_in_feet(&spots).surveyed_volume_above(level * FOOT) / CUBIC_YARD
    };
    let rule = side * side * (2.4 * 3.0 + 1.4) / 4.0 / 27.0;
    close("rule", rule, 199.07, 0.005);
    let split = side * side * (88.6 - 87.6) / 12.0 / 27.0;
    close("split", split, 7.716, 0.001);
    let (inward, outward) = (fill(-1e-4), fill(1e-4));
    close("larger", inward.max(outward), rule + split, 0.01);
    close("smaller", inward.min(outward), rule - split, 0.01);
}

/// The borrow-pit rule V = a / (4 * 27) * (1 S1 + 2 S2 + 3 S3 + 4 S4), where Sn is the sum of
/// the depths at corners that n squares share (surveying texts, from memory), is exact on a
/// plane, and so is area times the depth at the centroid.
#[test]
fn the_borrow_pit_rule_is_exact_on_a_plane() {
    let plane = |x: f64, y: f64| 358.0 + 0.031 * x - 0.022 * y + 4.0;
    let (side, columns, rows) = (20.0, 5, 3);
    let mut spots = Vec::new();
    let mut weighted = 0.0;
    for i in 0..=columns {
        for j in 0..=rows {
            let (x, y) = (side * f64::from(i), side * f64::from(j));
            let z = plane(x, y);
            spots.push([x, y, z]);
            let inner = |k: i32, n: i32| if k == 0 || k == n { 1.0 } else { 2.0 };
            weighted += inner(i, columns) * inner(j, rows) * (z - 358.0);
        }
    }
    let rule = side * side / (4.0 * 27.0) * weighted;
    let centroid = plane(side * 2.5, side * 1.5) - 358.0;
    close("rule", rule, side * side * 15.0 * centroid / 27.0, 1e-9);
    let volume = ground_in_feet(&spots).surveyed_volume_above(358.0 * FOOT) / CUBIC_YARD;
    close("volume", volume, rule, 1e-6);
}

/// A triangular column, closed form: area times the mean of its three heights.
#[test]
fn a_triangular_column_is_its_area_times_the_mean_height() {
    let spots = [[0.0, 0.0, 3.0], [12.0, 0.0, 4.5], [0.0, 9.0, 7.5]];
    let volume = ground_in_feet(&spots).surveyed_volume_above(0.0);
    close("column", volume / CUBIC_FOOT, 54.0 * 5.0, 1e-9);
}
