//! Sections, end areas and prismoids of earthwork books, dug: sides that are not alike, ends upright.
//!
//! Figures are in feet, as the sources give them.

use batterboard_core::dig::DigShape;
use batterboard_core::dig::small::against_level;
use batterboard_core::geom::boolean::difference;
use batterboard_core::geom::{DRAWING_TOLERANCE, Point, Region, Ring, Vertex};
use batterboard_core::math::{TURN, tan};
use batterboard_core::shell::Shell;
use batterboard_core::site::{DigSettings, HoleSide, SideSettings};
use batterboard_core::units::constants::{CUBIC_FOOT, CUBIC_YARD, FOOT, SQUARE_FOOT};

use super::close;
use super::dig::{bare, cut, feet3, level, level_floor, lines, rectangle, spots};

const PI: f64 = TURN / 2.0;

/// No over-dig and no base; the sides ahead, left, behind and right at these slopes.
fn by_side(slopes: [f64; 4]) -> DigSettings {
    let sides = [
        HoleSide::Ahead,
        HoleSide::Left,
        HoleSide::Behind,
        HoleSide::Right,
    ];
    let side = |(side, slope)| SideSettings {
        side,
        over_dig: None,
        slope: Some(slope),
        note: String::new(),
    };
    DigSettings {
        sides: sides.into_iter().zip(slopes).map(side).collect(),
        ..bare(0.0)
    }
}

/// The excavated-pond example of USDA NRCS Agriculture Handbook 590, "Ponds" (1997; the example
/// from memory, its arithmetic computed), dug side by side: bottom 40 ft by 100 ft, 12 ft deep, the
/// ramp at one end 4:1, the other sides 2:1. V = (A + 4 B + C) / 6 x D / 27 with A = 88 x 172 =
/// 15,136, B = 64 x 136 = 8,704 and C = 4,000 ft2: 107,904 ft3, 3,996 yd3.
///
/// The handbook's pond has mitred corners, ours are rounded: where sides of s : 1 and t : 1 meet, a
/// section z ft above the bottom has a quarter of an ellipse, pi/4 s t z^2, in place of the
/// rectangle s z by t z. What lies between them is (1 - pi/4) s t z^2, and in depth D altogether
/// (1 - pi/4) D^3 / 3 x (4x2 + 2x2 + 2x2 + 2x4) = 2,967 ft3, exactly. That much less is dug: 3,887 yd3.
#[test]
fn the_pond_of_handbook_590_side_by_side() {
    let depth = 12.0_f64;
    let shape = DigShape::new(
        &level_floor(&rectangle(100.0, 40.0), depth),
        &by_side([4.0, 2.0, 2.0, 2.0]),
        0.0,
    );
    let corners = (1.0 - PI / 4.0) * (4.0 * 2.0 + 2.0 * 2.0 + 2.0 * 2.0 + 2.0 * 4.0);
    for (up, area) in [(0.0, 4_000.0), (6.0, 8_704.0), (12.0, 15_136.0)] {
        let section = shape.contour((depth - up) * FOOT).area() / SQUARE_FOOT;
        let mitred = section + corners * up * up;
        close("section with its corners, ft2", mitred, area, 1e-4 * area);
    }
    let missing = corners * depth * depth * depth / 3.0;
    close("corners, ft3", missing, 2_966.7, 0.05);
    let printed = 53_952.0 / 6.0 * depth;
    let dig = cut(&shape, &level(0.0), 0.0);
    let dug = feet3(dig.bank_volume);
    close(
        "dug with its corners, ft3",
        dug + missing,
        printed,
        1e-4 * printed,
    );
    close("yd3", (dug + missing) / 27.0, 3_996.44, 0.4);
    close("dug, yd3", dug / 27.0, 3_886.57, 0.4);
    let contours = feet3(shape.level_volume(0.0));
    close("contours", contours + missing, printed, 1e-4 * printed);
    close("deepest, ft", dig.greatest_depth / FOOT, depth, 1e-9);
    // The ramp runs out 48 ft, the other sides 24 ft.
    let edge: Vec<Point> = shape
        .contour(0.0)
        .rings()
        .flat_map(|r| r.0.clone())
        .collect();
    let far = |of: fn(&Point) -> f64| edge.iter().map(of).fold(0.0, f64::max) / FOOT;
    close("ramp", far(|p| p.x), 50.0 + 48.0, 0.005);
    close("other end", far(|p| -p.x), 50.0 + 24.0, 0.005);
    close("left", far(|p| p.y), 20.0 + 24.0, 0.005);
    close("right", far(|p| -p.y), 20.0 + 24.0, 0.005);
}

/// The prismoid of the Handbook of Civil Engineering Calculations (Hicks, read): sections of 1,504,
/// 1,860 and 2,240 ft2 in 100 ft are 6,904 yd3; average end areas would make it 6,933.3 (computed).
///
/// Dug: a formation of even width under a plane that rises along it, sides 3:1, ends upright. Width
/// and cuts follow from the three sections (b c + 3 c^2 each). A quarter of its size, so a 64th of
/// its volume.
#[test]
fn the_prismoid_of_hicks() {
    let [first, middle, last] = [1_504.0, 1_860.0, 2_240.0_f64];
    let slope = 3.0;
    // Second differences give the rise along it, the middle section its mean cut, the first the width.
    let rise = ((2.0 * (first + last) - 4.0 * middle) / slope).sqrt();
    let sum = (last - first) / rise;
    let cut_between = (sum - (sum * sum - 4.0 * slope * middle).sqrt()) / (2.0 * slope);
    let width = sum - 2.0 * slope * cut_between;
    let section = |cut: f64| width * cut + slope * cut * cut;
    let cuts = [cut_between - rise / 2.0, cut_between + rise / 2.0];
    close("first, ft2", section(cuts[0]), first, 1e-6);
    close("middle, ft2", section(cut_between), middle, 1e-6);
    close("last, ft2", section(cuts[1]), last, 1e-6);

    let size = 0.25;
    let shell = level_floor(&rectangle(100.0 * size, width * size), 1.0);
    let shape = DigShape::new(&shell, &by_side([0.0, slope, 0.0, slope]), 4.0 * FOOT);
    let plane = |x: f64| size * cut_between + rise * x / 100.0 - 1.0;
    let corners = [(-60.0, -60.0), (60.0, -60.0), (60.0, 60.0), (-60.0, 60.0)];
    let ground = spots(&corners.map(|(x, y)| [x, y, plane(x)]));
    let dig = cut(&shape, &ground, 0.0);
    assert!(dig.closed);
    let yards = dig.bank_volume / CUBIC_YARD / (size * size * size);
    close("yd3", yards, 6_903.7, 5e-4 * 6_903.7);
    assert!(yards < 6_933.3 - 20.0, "no average of end areas: {yards}");
}

/// Navy manuals (NAVEDTRA 14080 and 14081, read): cubic yards are (A1 + A2) x 1.85 x the distance in
/// hundreds of feet. 1.85 stands for 100/54 = 1.85185 (computed): the manual's is 0.1 % low. Of two
/// trenches that differ by 100 ft of an even section the difference has no ends.
#[test]
fn the_navys_factor_for_end_areas() {
    let dug = |length: f64| {
        let shape = DigShape::new(&level_floor(&rectangle(length, 20.0), 6.0), &bare(1.0), 0.0);
        cut(&shape, &level(0.0), 0.0).bank_volume / CUBIC_YARD
    };
    let section = 20.0 * 6.0 + 6.0 * 6.0;
    let factor = (dug(150.0) - dug(50.0)) / (section + section);
    close("factor", factor, 1.851_85, 2e-4);
    close("the manual's", factor / 1.85, 1.001, 2e-4);
}

/// Sections of a dig follow Steiner's formula A + P r + pi r^2, computed independently: 30 x 14 ft
/// by 2 and 3 ft, a triangle with sides 3, 4, 5 by 2 (dug at four times its size, so sixteen times
/// its area), a regular hexagon of side 10 by 3. The chords of a section's arcs lie inside them by the
/// drawing tolerance at most, two thirds of it in the mean; they make a full turn.
#[test]
fn sections_of_a_dig_follow_steiner() {
    let section = |outline: &[Vertex], run: f64| {
        // Sides 1:1, the floor 9 ft down: `run` ft above it a section is so much wider.
        let shape = DigShape::new(&level_floor(outline, 9.0), &bare(1.0), 0.0);
        shape.contour((9.0 - run) * FOOT).area() / SQUARE_FOOT
    };
    let high = 75.0_f64.sqrt();
    let hexagon = lines(&[
        (10.0, 0.0),
        (5.0, high),
        (-5.0, high),
        (-10.0, 0.0),
        (-5.0, -high),
        (5.0, -high),
    ]);
    let triangle = lines(&[(0.0, 0.0), (16.0, 0.0), (0.0, 12.0)]);
    let pool = rectangle(30.0, 14.0);
    for (name, outline, run, area) in [
        ("30 x 14 by 2", &pool, 2.0, 608.566_4),
        ("30 x 14 by 3", &pool, 3.0, 712.274_3),
        ("3-4-5 by 2", &triangle, 8.0, 16.0 * 42.566_4),
        ("hexagon by 3", &hexagon, 3.0, 468.082_0),
    ] {
        let short = area - section(outline, run);
        let most = TURN * run * DRAWING_TOLERANCE / FOOT * 2.0 / 3.0;
        assert!(
            (-1e-3..most).contains(&short),
            "{name}: short by {short} ft2, of {most}"
        );
    }
}

/// 30 x 14 ft with corners of 3 ft: 412.2743 ft2 and 82.8496 ft round it (computed independently).
/// Dug 6 ft deep with sides 1:1: V = A h + P s h^2 / 2 + pi s^2 h^3 / 3 = 4,191.13 ft3.
#[test]
fn a_dig_round_a_rectangle_with_round_corners() {
    let quarter = tan(TURN / 16.0);
    let (x, y, r) = (15.0, 7.0, 3.0);
    let line = Vertex::line;
    let arc = |x: f64, y: f64| Vertex::arc(x, y, quarter);
    let outline = [
        line(-x + r, -y),
        arc(x - r, -y),
        line(x, -y + r),
        arc(x, y - r),
        line(x - r, y),
        arc(-x + r, y),
        line(-x, y - r),
        arc(-x, -y + r),
    ];
    let exact = 412.274_3 * 6.0 + 82.849_6 * 18.0 + PI * 72.0;
    close("closed form, ft3", exact, 4_191.13, 0.005);
    let shape = DigShape::new(&level_floor(&outline, 6.0), &bare(1.0), 0.0);
    let dig = cut(&shape, &level(0.0), 0.0);
    close("dug, ft3", feet3(dig.bank_volume), exact, 1e-4 * exact);
    close(
        "contours, ft3",
        feet3(shape.level_volume(0.0)),
        exact,
        2e-5 * exact,
    );
}

/// Upright walls under plane ground, closed form: area times the depth at the centroid, for any
/// plan, one with a hole in it too; where the plane passes the level it is cut less fill.
#[test]
fn a_plan_with_a_hole_under_a_plane() {
    let ring = |points: &[(f64, f64)]| {
        let points = points.iter().map(|(x, y)| Point::new(x * FOOT, y * FOOT));
        Region::from_ring(Ring(points.collect()))
    };
    let outer = ring(&[
        (-20.0, -8.0),
        (25.0, -10.0),
        (18.0, 9.0),
        (2.0, 14.0),
        (-16.0, 7.0),
    ]);
    let inner = ring(&[(-4.0, -3.0), (9.0, -2.0), (3.0, 5.0)]);
    let plan = difference(&outer, &inner);
    assert_eq!(plan.polygons[0].holes.len(), 1);
    let plane = |x: f64, y: f64| 3.0 + 0.09 * x - 0.06 * y;
    let corners = [(-70.0, -60.0), (80.0, -50.0), (60.0, 70.0), (-50.0, 40.0)];
    let record = corners.map(|(x, y)| [x * FOOT, y * FOOT, plane(x, y) * FOOT]);
    let ground = batterboard_core::ground::GroundRecord::of_spots(record.to_vec());
    let ground = batterboard_core::ground::Ground::check(&ground).unwrap().0;
    let (area, middle) = (plan.area() / SQUARE_FOOT, plan.centroid().unwrap());
    let at_middle = plane(middle.x / FOOT, middle.y / FOOT);
    for bottom in [-1.0, 2.5, 3.0, 3.6, 8.0] {
        let taken = against_level(&plan, &ground, bottom * FOOT);
        let net = (taken.cut - taken.fill) / CUBIC_FOOT;
        close("ft3", net, area * (at_middle - bottom), 1e-3);
        close(
            "ft2",
            (taken.cut_area + taken.fill_area) / SQUARE_FOOT,
            area,
            1e-3,
        );
        assert_eq!(taken.fill < 1e-9, bottom < 0.0, "{taken:?}");
        assert_eq!(taken.cut < 1e-9, bottom > 7.0, "{taken:?}");
    }
    // Triangular column A (h1 + h2 + h3) / 3.
    let column = against_level(&inner, &ground, -FOOT);
    let heights = [plane(-4.0, -3.0), plane(9.0, -2.0), plane(3.0, 5.0)].map(|z| z + 1.0);
    let exact = inner.area() / SQUARE_FOOT * heights.iter().sum::<f64>() / 3.0;
    close("column, ft3", column.cut / CUBIC_FOOT, exact, 1e-3);
}

/// Of the shell above, for other checks: bottom 32 x 16 ft, 6 ft deep, sides 1:1, corners mitred,
/// 188.444 yd3 (closed form, computed independently).
pub fn mitred_pit() -> Shell {
    super::dig::pit(32.0, 16.0, 6.0, [1.0; 4])
}
