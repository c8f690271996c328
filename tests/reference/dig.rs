//! Digs against closed forms, printed examples and other people's worked answers.
//!
//! Figures are in feet, as the sources give them.

use batterboard_core::dig::{Dig, DigShape, excavate};
use batterboard_core::geom::offset::offset_mitred;
use batterboard_core::geom::{PathRecord, Point, Pose, Ring, Vertex};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::math::TURN;
use batterboard_core::shell::{FacetKind, FacetRecord, Shell, ShellRecord};
use batterboard_core::site::DigSettings;
use batterboard_core::units::constants::{CUBIC_FOOT, CUBIC_YARD, FOOT, SQUARE_FOOT};

use crate::close;

const PI: f64 = TURN / 2.0;

/// A closed path given in feet.
fn path(vertices: &[Vertex]) -> PathRecord {
    let metres = |v: &Vertex| Vertex::arc(v.at.x * FOOT, v.at.y * FOOT, v.bulge);
    PathRecord::from(vertices.iter().map(metres).collect::<Vec<_>>().as_slice())
}

pub fn lines(corners: &[(f64, f64)]) -> Vec<Vertex> {
    corners.iter().map(|(x, y)| Vertex::line(*x, *y)).collect()
}

/// A rectangle about the origin.
pub fn rectangle(length: f64, width: f64) -> Vec<Vertex> {
    let (x, y) = (length / 2.0, width / 2.0);
    lines(&[(-x, -y), (x, -y), (x, y), (-x, y)])
}

/// A disc about the origin, as two half circles.
fn disc(radius: f64) -> Vec<Vertex> {
    vec![
        Vertex::arc(-radius, 0.0, 1.0),
        Vertex::arc(radius, 0.0, 1.0),
    ]
}

/// A shell of the given outline and floor pieces with their depths, walls of no thickness.
fn shell(outline: &[Vertex], floor: &[(Vec<Vertex>, Vec<f64>)]) -> Shell {
    let record = ShellRecord {
        name: "Test".into(),
        note: String::new(),
        outline: path(outline),
        floor: floor
            .iter()
            .map(|(outline, depths)| FacetRecord {
                kind: FacetKind::Deep,
                outline: path(outline),
                depths: depths.iter().map(|depth| depth * FOOT).collect(),
            })
            .collect(),
        coping_width: 0.3,
        waterline: 0.1,
        wall_thickness: 0.0,
        draft: 0.0,
        cove: 0.0,
        stations: Vec::new(),
        drain: None,
        weight: None,
    };
    Shell::check(&record).unwrap().0
}

/// A shell with a level floor.
pub fn level_floor(outline: &[Vertex], depth: f64) -> Shell {
    shell(outline, &[(outline.to_vec(), vec![depth; outline.len()])])
}

/// No over-dig, no base: the floor is the bottom.
pub fn bare(slope: f64) -> DigSettings {
    DigSettings {
        over_dig: 0.0,
        base_thickness: 0.0,
        side_slope: Some(slope),
        ..DigSettings::default()
    }
}

/// The dig with its rim at elevation `rim`, feet, in a frame turned and moved at random.
pub fn cut(shape: &DigShape, ground: &Ground, rim: f64) -> Dig {
    excavate(shape, ground, &pose(), rim * FOOT, 1.0 * FOOT)
}

pub fn pose() -> Pose {
    Pose::new(Point::new(3.217, -8.453), 1.234, false)
}

pub fn level(elevation: f64) -> Ground {
    let elevation = elevation * FOOT;
    Ground::check(&GroundRecord::Level { elevation }).unwrap().0
}

/// Ground of spots told in the shell's frame, feet, so that the shell stands upright in it.
pub fn spots(spots: &[[f64; 3]]) -> Ground {
    let spots = spots
        .iter()
        .map(|[x, y, z]| {
            let p = pose().site_from_shell(Point::new(x * FOOT, y * FOOT));
            [p.x, p.y, z * FOOT]
        })
        .collect();
    Ground::check(&GroundRecord::of_spots(spots)).unwrap().0
}

pub fn feet3(volume: f64) -> f64 {
    volume / CUBIC_FOOT
}

/// Volume of a solid whose section is quadratic along it: the prismoidal formula.
fn prismoid(length: f64, first: f64, middle: f64, last: f64) -> f64 {
    length / 6.0 * (first + 4.0 * middle + last)
}

/// Rounded corners: V = A h + P s h^2/2 + pi s^2 h^3/3, for 32 ft by 16 ft, 6 ft deep, at
/// every slope (closed form; figures in cubic yards computed independently).
#[test]
fn a_rectangular_dig_with_rounded_corners() {
    let shell = level_floor(&rectangle(32.0, 16.0), 6.0);
    for (slope, yards) in [
        (0.5, 147.872),
        (0.75, 166.490),
        (1.0, 186.155),
        (1.5, 228.627),
        (0.0, 113.778),
    ] {
        let (a, p, h) = (512.0, 96.0, 6.0_f64);
        let exact = (a * h + p * slope * h * h / 2.0 + PI / 3.0 * slope * slope * h * h * h) / 27.0;
        close("closed form", exact, yards, 0.0005);
        let shape = DigShape::new(&shell, &bare(slope), 0.0);
        let dig = cut(&shape, &level(0.0), 0.0);
        let name = format!("slope {slope}, yd3");
        close(&name, dig.bank_volume / CUBIC_YARD, exact, 1e-4 * exact);
        close("depth", dig.greatest_depth / FOOT, 6.0, 1e-9);
        let run = slope * h;
        let top = a + p * run + PI * run * run;
        close("top", dig.top_area / SQUARE_FOOT, top, 2e-4 * top);
        close("edge", dig.top_edge.area() / SQUARE_FOOT, top, 2e-3 * top);
        assert!(dig.closed);
        let contours = shape.level_volume(0.0) / CUBIC_YARD;
        close("contours", contours, exact, 2e-5 * exact);
    }
}

/// Mitred corners: L W h + (L + W) s h^2 + 4/3 s^2 h^3, and what average end areas make of it
/// (closed form; figures in cubic yards computed independently). Once by widened rectangles,
/// once as an upright dig of a floor that is the whole pit.
#[test]
fn a_rectangular_dig_with_mitred_corners() {
    let (length, width, h) = (32.0, 16.0, 6.0);
    let corners = rectangle(length, width).iter().map(|v| v.at).collect();
    let floor = Ring(corners);
    for (slope, yards, end_areas) in [
        (0.5, 148.444, 149.778),
        (0.75, 167.778, 170.778),
        (1.0, 188.444, 193.778),
        (1.5, 233.778, 245.778),
    ] {
        let section = |z: f64| offset_mitred(&floor, slope * z).area();
        let (first, middle, last) = (section(0.0), section(h / 2.0), section(h));
        let volume = prismoid(h, first, middle, last) / 27.0;
        close(&format!("slope {slope}"), volume, yards, 0.0006);
        let ends = h * (first + last) / 2.0 / 27.0;
        close("average end areas", ends, end_areas, 0.0006);

        let pit = pit(length, width, h, [slope; 4]);
        let dig = cut(&DigShape::new(&pit, &bare(0.0), 0.0), &level(0.0), 0.0);
        close("as a floor", dig.bank_volume / CUBIC_YARD, yards, 0.001);
    }
}

/// A floor that is a pit: level at the bottom, sides rising `runs` per unit of rise toward
/// +x, +y, -x and -y.
pub fn pit(length: f64, width: f64, depth: f64, runs: [f64; 4]) -> Shell {
    let (x, y) = (length / 2.0, width / 2.0);
    let [east, north, west, south] = runs.map(|run| run * depth);
    let inner = [(-x, -y), (x, -y), (x, y), (-x, y)];
    let outer = [
        (-x - west, -y - south),
        (x + east, -y - south),
        (x + east, y + north),
        (-x - west, y + north),
    ];
    let mut floor = vec![(lines(&inner), vec![depth; 4])];
    for i in 0..4 {
        let j = (i + 1) % 4;
        let side = [outer[i], outer[j], inner[j], inner[i]];
        floor.push((lines(&side), vec![0.0, 0.0, depth, depth]));
    }
    shell(&lines(&outer), &floor)
}

/// The excavated-pond example of USDA NRCS Agriculture Handbook 590, "Ponds" (1997; the example
/// from memory, its arithmetic computed): bottom 40 ft by 100 ft, 12 ft deep, one end 4:1, the
/// other sides 2:1. V = (A + 4 B + C) / 6 x D / 27 = 53,952 / 6 x 12 / 27 = 3,996 yd3.
#[test]
fn the_pond_of_handbook_590() {
    let sum = 15_136.0 + 34_816.0 + 4_000.0;
    close("sum", sum, 53_952.0, 0.0);
    let yards = sum / 6.0 * 12.0 / 27.0;
    close("printed", yards, 3_996.44, 0.005);

    let pond = pit(100.0, 40.0, 12.0, [4.0, 2.0, 2.0, 2.0]);
    let shape = DigShape::new(&pond, &bare(0.0), 0.0);
    let dig = cut(&shape, &level(0.0), 0.0);
    close("dug", dig.bank_volume / CUBIC_YARD, yards, 1e-5 * yards);
    close("top", dig.top_area / SQUARE_FOOT, 15_136.0, 0.2);
    close(
        "contours",
        shape.level_volume(0.0) / CUBIC_YARD,
        yards,
        0.01,
    );

    // The finished pond surveyed: spots along every break, and the room below its rim.
    let corners = |z: f64| {
        let (up, x, y) = (12.0 - z, 50.0, 20.0);
        let (low, high) = (-x - 2.0 * up, x + 4.0 * up);
        let side = y + 2.0 * up;
        [(low, -side), (high, -side), (high, side), (low, side)]
    };
    let mut survey = Vec::new();
    for step in 0..=24 {
        let z = f64::from(step) / 2.0;
        survey.extend(corners(z).map(|(x, y)| [x, y, -z]));
    }
    for z in [0.0, 12.0] {
        let ring = corners(z);
        for i in 0..4 {
            let (a, b) = (ring[i], ring[(i + 1) % 4]);
            survey.extend((1..40).map(|k| f64::from(k) / 40.0).map(|t| {
                let mix = |a: f64, b: f64| a + (b - a) * t;
                [mix(a.0, b.0), mix(a.1, b.1), -z]
            }));
        }
    }
    let room = -spots(&survey).surveyed_volume_above(0.0) / CUBIC_YARD;
    close("surveyed", room, yards, 0.01);
}

/// A cutting with base 20 ft and sides 1.5:1, cuts 0, 5, 10, 15 and 0 ft at stations 50 ft apart
/// (Vose, Handbook of Railroad Construction, 1857, article 108, read; its end areas 137, 350
/// and 637 are rounded). Exact: 52,500 ft3. Average end areas give 56,250, 7.1 % too much.
#[test]
fn the_railroad_cutting_of_vose() {
    let area = |cut: f64| 20.0 * cut + 1.5 * cut * cut;
    let cuts = [0.0, 5.0, 10.0, 15.0, 0.0];
    let pairs = || cuts.iter().zip(&cuts[1..]);
    let ends: f64 = pairs().map(|(a, b)| 25.0 * (area(*a) + area(*b))).sum();
    close("average end areas", ends, 56_250.0, 1e-9);
    let middle = |a: f64, b: f64| area((a + b) / 2.0);
    let exact: f64 = pairs()
        .map(|(a, b)| prismoid(50.0, area(*a), middle(*a, *b), area(*b)))
        .sum();
    close("prismoids", exact, 52_500.0, 1e-9);

    // The same as a dig: formation 1 ft below the rim, ground along the stations.
    let shell = level_floor(&rectangle(200.0, 20.0), 1.0);
    let shape = DigShape::new(&shell, &bare(1.5), 15.0);
    let mut survey = Vec::new();
    for (i, cut) in (0..).zip(cuts) {
        let x = 50.0 * f64::from(i) - 100.0;
        survey.extend([-60.0, 0.0, 60.0].map(|y| [x, y, cut]));
    }
    // Beyond both ends the ground stays at formation level.
    survey.extend([-160.0, 160.0].map(|x| [x, -60.0, 0.0]));
    survey.extend([-160.0, 160.0].map(|x| [x, 60.0, 0.0]));
    let dig = cut(&shape, &spots(&survey), 1.0);
    assert!(dig.closed);
    close("dug, ft3", feet3(dig.bank_volume), exact, 2e-4 * exact);
    close("deepest, ft", dig.greatest_depth / FOOT, 15.0, 0.15);
}

/// A trench in side-hill ground: base 20 ft, 6 ft deep on the center line, sides 1:1, ground
/// 1 in 5. Closed form A = [s b^2/4 + m^2 (b h + s h^2)] / (m^2 - s^2) = 166.667 ft2, catch
/// points (b/2 + s h) / (1 -/+ s/m) = 20.000 and 13.333 ft from the center line.
#[test]
fn a_side_hill_section() {
    let (b, h, s, m) = (20.0, 6.0, 1.0, 5.0);
    let area = (s * b * b / 4.0 + m * m * (b * h + s * h * h)) / (m * m - s * s);
    close("closed form", area, 166.667, 0.0005);
    let ground = spots(&[
        [-300.0, -100.0, -20.0],
        [300.0, -100.0, -20.0],
        [300.0, 100.0, 20.0],
        [-300.0, 100.0, 20.0],
    ]);
    // Two lengths of the same trench: their difference has no ends.
    let dug = |length: f64| {
        let shell = level_floor(&rectangle(length, b), h);
        cut(&DigShape::new(&shell, &bare(s), 6.0), &ground, 0.0)
    };
    let (short, long) = (dug(60.0), dug(80.0));
    let section = feet3(long.bank_volume - short.bank_volume) / 20.0;
    close("section, ft2", section, area, 2e-4 * area);
    let edge = long.top_edge.rings().flat_map(|ring| &ring.0);
    let across = edge.map(|p| pose().shell_from_site(*p).y / FOOT);
    let (low, high) = across.fold((0.0, 0.0), |(l, h): (f64, f64), y| (l.min(y), h.max(y)));
    close("low side, ft", -low, 13.333, 0.03);
    close("high side, ft", high, 20.0, 0.03);
}

/// Upright walls under plane ground, closed form: V = area x depth at the centroid, for any plan.
#[test]
fn a_prism_under_a_plane() {
    let plan = [
        (-20.0, -8.0),
        (20.0, -8.0),
        (20.0, 3.0),
        (4.0, 9.0),
        (4.0, 3.0),
        (-20.0, 3.0),
    ];
    let shell = level_floor(&lines(&plan), 5.0);
    let shape = DigShape::new(&shell, &bare(0.0), 0.0);
    let plane = |x: f64, y: f64| 0.7 + 0.08 * x - 0.05 * y;
    let corners = [(-70.0, -60.0), (80.0, -50.0), (60.0, 70.0), (-50.0, 40.0)];
    let ground = spots(&corners.map(|(x, y)| [x, y, plane(x, y)]));
    let dig = cut(&shape, &ground, 0.0);
    let centroid = shell.footprint.centroid().unwrap();
    let depth = 5.0 + plane(centroid.x / FOOT, centroid.y / FOOT);
    let exact = shell.footprint.area() / SQUARE_FOOT * depth;
    // In a cell that the wall divides the ground is taken at the cell's middle.
    close("ft3", feet3(dig.bank_volume), exact, 1e-5 * exact);
}

/// Frustum of a cone: pi h / 3 (R1^2 + R1 R2 + R2^2) with h = 8, R = 5 and 7 ft: 913.1563 ft3
/// (computed).
#[test]
fn a_round_dig() {
    let shape = DigShape::new(&level_floor(&disc(5.0), 8.0), &bare(0.25), 0.0);
    let dig = cut(&shape, &level(0.0), 0.0);
    close("ft3", feet3(dig.bank_volume), 913.1563, 0.09);
    close("contours", feet3(shape.level_volume(0.0)), 913.1563, 0.09);
}

/// Ungula: half a cylinder cut through its diameter, 2/3 r^2 h with r = 3 and h = 6 ft: 36 ft3;
/// and a whole one cut by the same plane 6 ft above the floor on its axis: pi r^2 6 (computed).
#[test]
fn cylinders_cut_by_a_plane() {
    let plane = |level: f64| {
        let corners = [(-20.0, -20.0), (20.0, -20.0), (20.0, 20.0), (-20.0, 20.0)];
        spots(&corners.map(|(x, y)| [x, y, 2.0 * y + level]))
    };
    let half = [Vertex::line(-3.0, 0.0), Vertex::arc(3.0, 0.0, 1.0)];
    let shape = DigShape::new(&level_floor(&half, 1.0), &bare(0.0), 0.0);
    let dig = cut(&shape, &plane(-1.0), 0.0);
    // So small a figure under so steep a plane: the cells along the diameter tell (0.05 %).
    close("half, ft3", feet3(dig.bank_volume), 36.0, 0.018);
    let shape = DigShape::new(&level_floor(&disc(3.0), 1.0), &bare(0.0), 0.0);
    let dig = cut(&shape, &plane(5.0), 0.0);
    close("whole, ft3", feet3(dig.bank_volume), PI * 54.0, 0.002);
}

/// Pyramids: frustum h/3 (A1 + A2 + sqrt(A1 A2)) with h = 8 ft, 100 and 400 ft2: 1,866.667 ft3;
/// and where the two rectangles are not alike, 180 ft by 20 ft to 202 ft by 25 ft in 15 ft, the
/// prismoidal 64,600 ft3 (computed; a homework answer of 64,569, read, used the rule for
/// similar figures).
#[test]
fn pits_that_are_pyramids() {
    let dug = |pit: &Shell| {
        let shape = DigShape::new(pit, &bare(0.0), 0.0);
        feet3(cut(&shape, &level(0.0), 0.0).bank_volume)
    };
    let square = pit(10.0, 10.0, 8.0, [5.0 / 8.0; 4]);
    close("square", dug(&square), 1866.667, 0.002);
    let unlike = pit(
        180.0,
        20.0,
        15.0,
        [11.0 / 15.0, 1.0 / 6.0, 11.0 / 15.0, 1.0 / 6.0],
    );
    close("unlike", dug(&unlike), 64_600.0, 0.1);
}
