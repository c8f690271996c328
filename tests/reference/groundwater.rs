//! Uplift against published and independently computed figures.
//!
//! Published figures reckon with 62.4 lb/ft3; the project with 1,000 kg/m3 (62.43 lb/ft3), water
//! at its densest. Expected values are turned by that ratio, which is exact.

use batterboard_core::dig::Dig;
use batterboard_core::geom::PathRecord;
use batterboard_core::geom::path::VertexRecord;
use batterboard_core::groundwater::{LeastWater, Level, Uplift, WATER_DENSITY};
use batterboard_core::shell::ShellRecord;
use batterboard_core::site::ConstructionSettings;
use batterboard_core::takeoff::{Inputs, Measured, takeoff};
use batterboard_core::units::constants::{CUBIC_FOOT, FOOT, INCH, POUND};

use super::close;
use super::shell::{checked, level};
use super::takeoff::value;

/// Tables' water, kg/m3: 62.4 lb/ft3.
const TABLES: f64 = 62.4 * POUND / CUBIC_FOOT;

/// 62.4 lb/ft3 turned into the project's water, kilograms from pounds.
fn heavier(pounds: f64) -> f64 {
    pounds * POUND * WATER_DENSITY / TABLES
}

/// A quarter turn to the left.
fn quarter() -> f64 {
    2.0_f64.sqrt() - 1.0
}

/// A circle, diameter in feet.
fn circle(diameter: f64) -> PathRecord {
    let r = diameter / 2.0 * FOOT;
    let arc = |x: f64, y: f64| VertexRecord::Arc([x * r, y * r, quarter()]);
    PathRecord(vec![
        arc(1.0, 0.0),
        arc(0.0, 1.0),
        arc(-1.0, 0.0),
        arc(0.0, -1.0),
    ])
}

/// 30 x 14 ft with corners of 3 ft radius.
fn rounded() -> PathRecord {
    let (x, y, r) = (15.0 * FOOT, 7.0 * FOOT, 3.0 * FOOT);
    let line = |x: f64, y: f64| VertexRecord::Line([x, y]);
    let arc = |x: f64, y: f64| VertexRecord::Arc([x, y, quarter()]);
    PathRecord(vec![
        line(-x + r, -y),
        arc(x - r, -y),
        line(x, -y + r),
        arc(x, y - r),
        line(x - r, y),
        arc(-x + r, y),
        line(-x, y - r),
        arc(-x, -y + r),
    ])
}

/// 62.4 lb/ft3 = 999.55 kg/m3, half a part in a thousand less than the project's water.
#[test]
fn the_water_is_heavier_than_the_tables_by_less_than_a_part_in_two_thousand() {
    close("lb/ft3", WATER_DENSITY / POUND * CUBIC_FOOT, 62.43, 0.005);
    let ratio: f64 = WATER_DENSITY / TABLES;
    assert!(ratio > 1.0 && ratio < 1.0005);
}

/// Computed independently: 412.2743 ft2 in plan, so that each foot of head lifts 25,726 lb; a shell
/// of 2,500 lb balances 1.2 in of it.
#[test]
fn each_foot_of_head_on_a_shell_of_thirty_by_fourteen() {
    let record = ShellRecord {
        weight: Some(2_500.0 * POUND),
        ..level(rounded(), 5.0 * FOOT)
    };
    let shell = checked(&record);
    let at = |head: f64| Uplift::of(&shell, 0.0, Level::Stated((head - 5.0) * FOOT));
    for head in [1.0, 2.0, 3.0, 4.0] {
        let step = at(head).net(0.0) - at(head - 1.0).net(0.0);
        close("lb", step, heavier(25_726.0), 0.5);
    }
    // What its own weight balances, found by halving, against 1.2 in.
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..50 {
        let middle = (low + high) / 2.0;
        if at(middle).floats_empty() {
            high = middle;
        } else {
            low = middle;
        }
    }
    close("in", high * FOOT / INCH * WATER_DENSITY / TABLES, 1.2, 0.05);
    assert_eq!(at(0.09).least, LeastWater::None);
    // Filled to the level outside, nothing but its weight is left to hold it.
    let LeastWater::Standing { depth, .. } = at(3.0).least else {
        panic!("three feet of head lift it");
    };
    close("ft", depth / FOOT, 3.0 - 1.2 / 12.0, 0.005);
}

/// The same two figures as the takeoff tells them: 25,726 lb to a foot, and 2,500 lb balancing 0.097
/// ft, 1.2 in (computed independently).
#[test]
fn the_lines_of_a_shell_of_thirty_by_fourteen() {
    let record = ShellRecord {
        weight: Some(2_500.0 * POUND),
        ..level(rounded(), 5.0 * FOOT)
    };
    let (shell, works, dig) = (
        checked(&record),
        ConstructionSettings::default(),
        Dig::default(),
    );
    let (measured, uplift) = (
        Measured::new(&shell, &works),
        Uplift::of(&shell, 0.0, Level::AtRim),
    );
    let taken = takeoff(&Inputs {
        uplift: Some(&uplift),
        ..Inputs::new(&works, &measured, &dig)
    });
    let foot = value(&taken, "uplift-of-a-foot");
    close("lb", foot, heavier(25_726.0), 0.5);
    let head = value(&taken, "weight-balances") * WATER_DENSITY / TABLES;
    close("ft", head / FOOT, 0.097, 0.0005);
    close("in", head / INCH, 1.2, 0.05);
    // Empty, groundwater at the rim: five feet of head less its weight.
    let empty = value(&taken, "uplift-empty");
    close(
        "empty, lb",
        empty,
        heavier(5.0 * 25_726.0) - 2_500.0 * POUND,
        2.0,
    );
}

/// American Concrete Pipe Association, Design Data 41, Manhole Flotation (1996), its example as read
/// in a spreadsheet that follows it: outer diameter 6 ft, 23 ft deep, of 34,514 lb. Buoyancy is
/// 40,579 lb; by weight alone the factor of safety is 0.85: it floats. A quarter of its height
/// is taken here, a shell goes no deeper, with a quarter of its weight.
#[test]
fn a_manhole_floats_by_its_weight_alone() {
    let record = ShellRecord {
        weight: Some(34_514.0 * POUND / 4.0),
        ..level(circle(6.0), 23.0 / 4.0 * FOOT)
    };
    let shell = checked(&record);
    let uplift = Uplift::of(&shell, 0.0, Level::AtRim);
    let buoyancy = uplift.displaced * WATER_DENSITY * 4.0;
    close("buoyancy", buoyancy, heavier(40_579.0), 2.0);
    let weight = 4.0 * uplift.weight.unwrap();
    close(
        "factor",
        weight / buoyancy * WATER_DENSITY / TABLES,
        0.85,
        0.005,
    );
    assert!(uplift.floats_empty());
    close(
        "net",
        4.0 * uplift.net(0.0),
        heavier(40_579.0) - weight,
        2.0,
    );
}
