//! Areas, lengths and volumes of shells against closed forms, worked out independently.

use batterboard_core::geom::path::VertexRecord;
use batterboard_core::geom::{PathRecord, VOLUME_TOLERANCE};
use batterboard_core::shell::{
    FacetKind, FacetRecord, Shell, ShellRecord, StationRecord, catalogue,
};
use batterboard_core::units::constants::{CUBIC_FOOT, CUBIC_YARD, FOOT, POUND, SQUARE_FOOT};

use super::close;

/// A path of straight lines through points in feet.
fn polygon(points: &[(f64, f64)]) -> PathRecord {
    let vertex = |(x, y): &(f64, f64)| VertexRecord::Line([x * FOOT, y * FOOT]);
    PathRecord(points.iter().map(vertex).collect())
}

/// A rectangle about the origin, in feet.
pub fn rectangle(length: f64, width: f64) -> PathRecord {
    let (x, y) = (length / 2.0, width / 2.0);
    polygon(&[(-x, -y), (x, -y), (x, y), (-x, y)])
}

fn facet(kind: FacetKind, outline: PathRecord, depths: &[f64]) -> FacetRecord {
    FacetRecord {
        kind,
        outline,
        depths: depths.iter().map(|d| d * FOOT).collect(),
    }
}

fn record(outline: PathRecord, floor: Vec<FacetRecord>) -> ShellRecord {
    ShellRecord {
        name: "Reference".to_owned(),
        note: String::new(),
        outline,
        floor,
        coping_width: 0.0,
        waterline: 0.0,
        wall_thickness: 0.0,
        draft: 0.0,
        cove: 0.0,
        stations: Vec::new(),
        drain: None,
        weight: None,
    }
}

/// A shell without coping or wall, its floor level at a depth in meters.
pub fn level(outline: PathRecord, depth: f64) -> ShellRecord {
    let depths = vec![depth; outline.0.len()];
    let floor = FacetRecord {
        kind: FacetKind::Deep,
        outline: outline.clone(),
        depths,
    };
    record(outline, vec![floor])
}

/// The shell, which must pass the door.
pub fn checked(record: &ShellRecord) -> Shell {
    Shell::check(record).unwrap().0
}

/// A pit as a shell: a bottom of `length` by `width` feet, `depth` feet down, its four sides
/// rising at `run` per unit of rise with mitred corners.
fn pit(length: f64, width: f64, depth: f64, run: f64) -> Shell {
    let (x, y) = (length / 2.0, width / 2.0);
    let (u, v) = (x + run * depth, y + run * depth);
    let mut floor = vec![facet(
        FacetKind::Deep,
        rectangle(length, width),
        &[depth; 4],
    )];
    if run > 0.0 {
        for side in [
            [(-u, -v), (u, -v), (x, -y), (-x, -y)],
            [(u, -v), (u, v), (x, y), (x, -y)],
            [(u, v), (-u, v), (-x, y), (x, y)],
            [(-u, v), (-u, -v), (-x, -y), (-x, y)],
        ] {
            let depths = [0.0, 0.0, depth, depth];
            floor.push(facet(FacetKind::Slope, polygon(&side), &depths));
        }
    }
    checked(&record(rectangle(2.0 * u, 2.0 * v), floor))
}

/// Closed form L W h + (L + W) s h^2 + 4/3 s^2 h^3, computed: 32 x 16 ft, 6 ft deep.
#[test]
fn pits_with_mitred_corners() {
    for (run, cubic_yards) in [
        (0.0, 113.778),
        (0.5, 148.444),
        (0.75, 167.778),
        (1.0, 188.444),
        (1.5, 233.778),
    ] {
        let volume = pit(32.0, 16.0, 6.0, run).volume_below(0.0) / CUBIC_YARD;
        close(&format!("run {run}, yd3"), volume, cubic_yards, 0.001);
    }
    let cubic_feet = pit(32.0, 16.0, 6.0, 1.0).volume_below(0.0) / CUBIC_FOOT;
    close("run 1, ft3", cubic_feet, 5_088.0, 0.01);
}

/// Frustum of a pyramid, 8 high between 100 and 400: 1,866.667 (computed).
#[test]
fn a_frustum_of_a_pyramid() {
    let volume = pit(10.0, 10.0, 8.0, 5.0 / 8.0).volume_below(0.0) / CUBIC_FOOT;
    close("ft3", volume, 1_866.667, 0.001);
}

/// The part of the same pit below half its depth, by the same closed form: bottom 32 x 16,
/// sides 1:1, 3 ft high.
#[test]
fn the_lower_part_of_a_pit() {
    let expected = 32.0 * 16.0 * 3.0 + 48.0 * 9.0 + 4.0 / 3.0 * 27.0;
    let volume = pit(32.0, 16.0, 6.0, 1.0).volume_below(3.0 * FOOT) / CUBIC_FOOT;
    close("ft3", volume, expected, 0.01);
}

/// Ungula: half a cylinder of radius 3 cut through its diameter, 6 high: 2/3 r^2 h = 36; and a
/// cylinder cut by a plane: pi r^2 times the height on the axis (computed). Chords of the
/// volume tolerance, centerd on the arc.
#[test]
fn floors_that_slope_under_arcs() {
    let half = PathRecord(vec![
        VertexRecord::Line([0.0, 3.0 * FOOT]),
        VertexRecord::Arc([0.0, -3.0 * FOOT, 1.0]),
    ]);
    // The plane is told by a facet that reaches over the outline.
    let slope = facet(
        FacetKind::Slope,
        polygon(&[(0.0, -4.0), (4.0, -4.0), (4.0, 4.0), (0.0, 4.0)]),
        &[0.0, 8.0, 8.0, 0.0],
    );
    let ungula = checked(&record(half, vec![slope]));
    let slack = 10.0 * VOLUME_TOLERANCE;
    close(
        "ungula, ft3",
        ungula.volume_below(0.0) / CUBIC_FOOT,
        36.0,
        slack,
    );

    let disc = PathRecord(vec![
        VertexRecord::Arc([-3.0 * FOOT, 0.0, 1.0]),
        VertexRecord::Arc([3.0 * FOOT, 0.0, 1.0]),
    ]);
    let slope = facet(FacetKind::Slope, rectangle(8.0, 8.0), &[1.0, 5.0, 5.0, 1.0]);
    let cut = checked(&record(disc, vec![slope]));
    let expected = core::f64::consts::PI * 9.0 * 3.0;
    close(
        "cut cylinder, ft3",
        cut.volume_below(0.0) / CUBIC_FOOT,
        expected,
        slack,
    );
}

/// Rounded rectangle: L W - (4 - pi) r^2 and 2 (L + W) - (8 - 2 pi) r. 30 x 14 ft, corners of
/// 3 ft: 412.2743 ft2, 82.8496 ft (computed). The catalogue has that outline.
#[test]
fn a_rectangle_with_round_corners() {
    let shell = checked(catalogue::find("Comfrey").unwrap());
    close(
        "area, ft2",
        shell.outline.area() / SQUARE_FOOT,
        412.2743,
        5e-5,
    );
    close(
        "perimeter, ft",
        shell.outline.perimeter() / FOOT,
        82.8496,
        5e-5,
    );
    // Flattened for volumes its area is the same to a hundredth of a square foot.
    close(
        "footprint, ft2",
        shell.footprint.area() / SQUARE_FOOT,
        412.2743,
        0.01,
    );
}

/// Steiner: a convex outline widened by r has the area A + P r + pi r^2 and the perimeter
/// P + 2 pi r. 30 x 14 with a rim 2 ft out: 608.5664 ft2; 3 ft out: 712.2743 ft2 (computed).
/// The rim's arcs are chords inside the true ones, so it may fall short by the length of the
/// arcs times the volume tolerance.
#[test]
fn rims_round_a_rectangle() {
    for (width, area) in [(2.0, 608.5664), (3.0, 712.2743)] {
        let mut record = level(rectangle(30.0, 14.0), 5.0 * FOOT);
        record.coping_width = width * FOOT;
        let rim = checked(&record).rim;
        let short = core::f64::consts::TAU * width * VOLUME_TOLERANCE / FOOT;
        close("area, ft2", rim.area() / SQUARE_FOOT, area, short);
        let perimeter = 88.0 + core::f64::consts::TAU * width;
        close("perimeter, ft", rim.perimeter() / FOOT, perimeter, 0.01);
    }
}

/// Each foot of groundwater lifts a 30 x 14 ft shell with 3 ft corners by 25,726 lb, at
/// 62.4 lb/ft3 (computed): what the body displaces, here without its wall.
#[test]
fn a_foot_of_groundwater() {
    let mut record = catalogue::find("Comfrey").unwrap().clone();
    record.wall_thickness = 0.0;
    record.floor = level(record.outline.clone(), 6.0 * FOOT).floor;
    let shell = checked(&record);
    let foot = shell.displacement_below(3.0 * FOOT) - shell.displacement_below(4.0 * FOOT);
    close("lb", foot / CUBIC_FOOT * 62.4, 25_726.0, 1.0);
    // A shell of 2,500 lb balances 0.097 ft of it.
    let weight = 2_500.0 * POUND;
    let head = weight / (foot / FOOT / CUBIC_FOOT * 62.4 * POUND);
    close("head, ft", head / FOOT, 0.097, 0.0005);
}

/// A basin that leans inward is the same figure as a pit with mitred corners: floor 32 x 16 ft,
/// 6 ft deep, run 1/2: 148.444 cubic yards (computed).
#[test]
fn a_drafted_basin_is_a_pit_with_mitred_corners() {
    let mut record = level(rectangle(38.0, 22.0), 6.0 * FOOT);
    record.draft = 0.5;
    let volume = checked(&record).volume_below(0.0) / CUBIC_YARD;
    close("yd3", volume, 148.444, 0.001);
}

/// Frustum of a cone, 8 high between radii of 5 and 7: pi h / 3 (R^2 + R r + r^2) = 913.1563
/// (computed). Chords of the volume tolerance, centerd on the arc.
#[test]
fn a_drafted_disc_is_a_frustum() {
    let disc = PathRecord(vec![
        VertexRecord::Arc([-7.0 * FOOT, 0.0, 1.0]),
        VertexRecord::Arc([7.0 * FOOT, 0.0, 1.0]),
    ]);
    let mut record = level(disc, 8.0 * FOOT);
    record.draft = 0.25;
    let volume = checked(&record).volume_below(0.0) / CUBIC_FOOT;
    close("ft3", volume, 913.1563, 0.05);
}

/// A right-angled corner rounded with radius r loses r^2 (1 - pi / 4) of its area (computed):
/// along 20 ft of both walls a cove of 6 in takes 20 x 2 x 0.0536504 ft3.
#[test]
fn a_cove_along_a_wall() {
    let lost = |length: f64| {
        let mut record = level(rectangle(length, 14.0), 5.0 * FOOT);
        record.cove = 0.5 * FOOT;
        (length * 14.0 * 5.0) - checked(&record).volume_below(0.0) / CUBIC_FOOT
    };
    close("ft3", lost(40.0) - lost(20.0), 40.0 * 0.053_650_459, 1e-4);
}

/// A floor that narrows and falls between two stations, its sides on the diagonals: Simpson's
/// rule over its sections is exact to cubics (closed form; sections by hand, feet). Half
/// sections: foot of the wall 3 ft deep; floor 4 ft deep and 10 wide, then 6 ft deep and 4 wide.
#[test]
fn a_floor_by_stations_by_simpsons_rule() {
    let station = |at: f64, depth: f64, width: f64| StationRecord {
        at: at * FOOT,
        depth: depth * FOOT,
        width: Some(width * FOOT),
        wall: Some(3.0 * FOOT),
    };
    let mut told = record(rectangle(16.0, 14.0), Vec::new());
    told.stations = vec![station(-8.0, 4.0, 10.0), station(8.0, 6.0, 4.0)];
    let first = 4.0 * 5.0 + 3.5 * 2.0;
    // The shorter diagonal runs from the wider floor's edge to the foot beyond.
    let middle = 5.0 * 3.5 + (5.0 + 3.5) / 2.0 * 2.5 + (3.5 + 3.0) / 2.0 * 1.0;
    let last = 6.0 * 2.0 + 4.5 * 5.0;
    let expected = 2.0 * 16.0 / 6.0 * (first + 4.0 * middle + last);
    let volume = checked(&told).volume_below(0.0) / CUBIC_FOOT;
    close("ft3", volume, expected, 0.001);
}
