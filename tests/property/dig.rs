//! The dig reached a second way: contours, slices, prisms and plain sampling.

use batterboard_core::dig::{Dig, DigShape, excavate};
use batterboard_core::geom::boolean::intersection;
use batterboard_core::geom::{Point, Pose, Region, Ring, Vector};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::shell::{Shell, catalogue};
use batterboard_core::site::DigSettings;
use proptest::prelude::*;

fn shell(index: usize) -> Shell {
    let all = catalogue::all();
    Shell::check(&all[index % all.len()]).unwrap().0
}

fn settings() -> impl Strategy<Value = DigSettings> {
    let slopes = prop_oneof![Just(0.0), Just(0.75), Just(1.0), Just(1.5), 0.06..3.0_f64];
    (slopes, 0.0..0.6_f64, 0.0..0.3_f64).prop_map(|(slope, over_dig, base)| DigSettings {
        side_slope: Some(slope),
        over_dig,
        base_thickness: base,
        ..DigSettings::default()
    })
}

fn poses() -> impl Strategy<Value = Pose> {
    (-9.0..9.0_f64, -9.0..9.0_f64, 0.0..6.3_f64, any::<bool>())
        .prop_map(|(x, y, heading, mirrored)| Pose::new(Point::new(x, y), heading, mirrored))
}

/// Spots over rolling ground round the origin, elevations about 0.
fn rolling() -> impl Strategy<Value = Ground> {
    let spot = [-30.0..30.0_f64, -30.0..30.0_f64, -0.35..0.35_f64];
    let fall = [-0.06..0.06_f64, -0.06..0.06_f64];
    let spots = (prop::collection::vec(spot, 4..14), fall);
    spots.prop_filter_map("spots too near to each other", |(mut spots, [fx, fy])| {
        // Wide corners, so that the dig stays on surveyed ground.
        spots.extend(
            [(-60.0, -60.0), (60.0, -61.0), (62.0, 60.0), (-59.0, 63.0)].map(|(x, y)| [x, y, 0.0]),
        );
        for spot in &mut spots {
            spot[2] += fx * spot[0] + fy * spot[1];
        }
        let (ground, _) = Ground::check(&GroundRecord::of_spots(spots)).ok()?;
        // No cliffs: where the ground jumps within a cell, the cell's middle decides.
        let steepest = ground.surveyed_facets().filter_map(|f| f.gradient());
        let steepest = steepest.map(Vector::length).fold(0.0, f64::max);
        (steepest < 0.5).then_some(ground)
    })
}

fn level(elevation: f64) -> Ground {
    Ground::check(&GroundRecord::Level { elevation }).unwrap().0
}

/// The dig with headroom to spare.
fn dug(shell: &Shell, settings: &DigSettings, ground: &Ground, pose: &Pose, rim: f64) -> Dig {
    let shape = DigShape::new(shell, settings, 4.0);
    excavate(&shape, ground, pose, rim, 0.4)
}

fn near(what: &str, value: f64, expected: f64, part: f64) -> Result<(), TestCaseError> {
    let off = (value - expected).abs() / expected.abs().max(1e-9);
    prop_assert!(
        off <= part,
        "{what}: {value} is not {expected}, off by {off:e}"
    );
    Ok(())
}

/// The triangles of the ground over a square about a point, as regions with their planes.
fn pieces(ground: &Ground, middle: Point, half: f64) -> Vec<(Region, impl Fn(Point) -> f64)> {
    let size = Vector::new(half, half);
    let facets = ground.facets_near(middle - size, middle + size);
    facets
        .map(|f| {
            let [a, ..] = f.corners;
            let (z, gradient) = (f.elevations[0], f.gradient().unwrap());
            let region = Region::from_ring(Ring(f.corners.to_vec()));
            (region, move |p: Point| z + gradient.dot(p - a))
        })
        .collect()
}

/// The part of a triangle whose plane lies above a level.
fn above(triangle: &Region, plane: impl Fn(Point) -> f64, level: f64) -> Option<Region> {
    let ring = &triangle.polygons[0].outer;
    let mut kept = Vec::new();
    for (a, b) in ring.edges() {
        let (za, zb) = (plane(a) - level, plane(b) - level);
        if za >= 0.0 {
            kept.push(a);
        }
        if (za < 0.0) != (zb < 0.0) {
            kept.push(a + (b - a) * (za / (za - zb)));
        }
    }
    (kept.len() >= 3).then(|| Region::from_ring(Ring(kept)))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Under level ground: the grid against the integral of exact contours, every catalogue
    /// shell, every slope, rim above and below the ground.
    #[test]
    fn grid_and_contours_agree_under_level_ground(
        index in 0..40usize,
        settings in settings(),
        pose in poses(),
        surface in -0.3..0.8_f64,
    ) {
        let shell = shell(index);
        let shape = DigShape::new(&shell, &settings, 1.0);
        let dig = excavate(&shape, &level(surface), &pose, 0.0, 0.4);
        prop_assert!(dig.closed);
        near("bank", dig.bank_volume, shape.level_volume(surface), 1e-4)?;
        near("below the cap", dig.volume_below_cap, shape.level_volume(-0.4), 1e-4)?;
        let top = shape.contour(-surface);
        near("top", dig.top_area, top.area(), 5e-4)?;
        near("edge", dig.top_edge.area(), top.area(), 2e-3)?;
        near("depth", dig.greatest_depth, shape.deepest() + surface, 1e-9)?;
        near("bottom", dig.bottom_elevation, -shape.deepest(), 1e-9)?;
        prop_assert!(dig.unsurveyed_volume == 0.0);
    }

    /// The closed form of the depth at a point against membership in the exact contour.
    #[test]
    fn depth_and_contour_agree(
        index in 0..40usize,
        settings in settings(),
        depth in -0.5..2.2_f64,
        places in prop::collection::vec([-9.0..9.0_f64, -6.0..6.0_f64], 20),
    ) {
        let shape = DigShape::new(&shell(index), &settings, 1.0);
        let contour = shape.contour(depth);
        let scale = settings.slope().max(0.06);
        for p in places.into_iter().map(Point::from) {
            let here = shape.depth(p);
            // Chords of the contour stand off by up to a millimetre, along its slope.
            if (here - depth).abs() > 0.003 / scale && settings.slope() > 0.0 {
                prop_assert_eq!(here >= depth, contour.contains(p), "{} {:?}", here, p);
            }
        }
    }

    /// Upright walls: the volume is that under level ground plus, for each triangle of the
    /// ground, the floor's part under it times the rise at that part's centroid.
    #[test]
    fn prisms_under_rolling_ground(
        index in 0..40usize,
        settings in settings(),
        pose in poses(),
        ground in rolling(),
    ) {
        let shell = shell(index);
        let upright = DigSettings { side_slope: Some(0.0), ..settings };
        let shape = DigShape::new(&shell, &upright, 0.0);
        let dig = excavate(&shape, &ground, &pose, -0.2, 0.4);
        let floor = shape.floor().posed(&pose);
        let (mut rises, mut lowest) = (0.0, f64::INFINITY);
        for (triangle, plane) in pieces(&ground, pose.at, 12.0) {
            let part = intersection(&floor, &triangle);
            rises += part.centroid().map_or(0.0, |c| part.area() * (plane(c) + 0.2));
            let corners = part.rings().flat_map(|ring| &ring.0);
            lowest = corners.map(|p| plane(*p) + 0.2).fold(lowest, f64::min);
        }
        // Nothing of the shallowest ledge may stand in the air for this: neither under the cap
        // nor, where the ledge is shallower than that, between the cap and the ledge.
        let ledge = shell.shallowest() + settings.base_thickness;
        if dig.area_above_ground == 0.0 && lowest >= -ledge {
            near("bank", dig.bank_volume, shape.level_volume(0.0) + rises, 1e-4)?;
        }
    }

    /// Upright walls and no over-dig: the volume under the floor's own planes.
    #[test]
    fn prisms_on_the_floor_itself(index in 0..40usize, base in 0.0..0.3_f64, pose in poses()) {
        let shell = shell(index);
        let plain = DigSettings {
            side_slope: Some(0.0),
            over_dig: -shell.record.wall_thickness,
            base_thickness: base - shell.record.wall_thickness,
            ..DigSettings::default()
        };
        let dig = dug(&shell, &plain, &level(0.0), &pose, 0.0);
        let under = |f: &batterboard_core::shell::Facet| {
            f.region.area() * f.region.centroid().map_or(0.0, |c| f.plane.depth(c) + base)
        };
        let exact: f64 = shell.facets.iter().map(under).sum();
        near("bank", dig.bank_volume, exact, 2e-5)?;
    }

    /// Turned or mirrored, a dig in level ground stays the same to the last digit that matters;
    /// moved along with its plane, too.
    #[test]
    fn turning_everything_changes_nothing(
        index in 0..40usize,
        settings in settings(),
        pose in poses(),
        fall in 0.0..0.12_f64,
        towards in 0.0..6.2_f64,
    ) {
        let shell = shell(index);
        let shape = DigShape::new(&shell, &settings, 4.0);
        let cut = |pose: Pose, towards: f64| {
            let record = GroundRecord::Plane { at: pose.at, elevation: 0.1, fall, towards };
            excavate(&shape, &Ground::check(&record).unwrap().0, &pose, 0.0, 0.4)
        };
        let upright = Pose::new(Point::default(), 0.0, pose.mirrored);
        let (one, two) = (cut(upright, towards), cut(pose, towards + pose.heading));
        near("bank", one.bank_volume, two.bank_volume, 1e-9)?;
        near("top", one.top_area, two.top_area, 1e-7)?;
        near("edge", one.top_edge.area(), two.top_edge.area(), 1e-3)?;
    }

    /// More headroom than needed changes nothing, and too little is always told.
    #[test]
    fn headroom_is_enough_or_the_dig_says_so(
        index in 0..40usize,
        settings in settings(),
        pose in poses(),
        ground in rolling(),
        headroom in 0.0..2.0_f64,
    ) {
        let shell = shell(index);
        let shape = DigShape::new(&shell, &settings, headroom);
        let dig = excavate(&shape, &ground, &pose, -0.4, 0.4);
        // As much as grids of the same cells can hold.
        let ample = DigShape::new(&shell, &settings, 2.0);
        let ample = excavate(&ample, &ground, &pose, -0.4, 0.4);
        let told = batterboard_core::dig::safety::findings(&dig).iter().any(|f| f.code == "dig-not-closed");
        prop_assert_eq!(told, !dig.closed);
        if dig.closed && ample.closed {
            near("bank", dig.bank_volume, ample.bank_volume, 1e-6)?;
            near("top", dig.top_area, ample.top_area, 1e-6)?;
        }
    }

    /// Digging wider, deeper or flatter never takes out less.
    #[test]
    fn more_is_more(
        index in 0..40usize,
        settings in settings(),
        pose in poses(),
        ground in rolling(),
        more in 0.01..0.4_f64,
    ) {
        let shell = shell(index);
        let volume = |settings: &DigSettings| dug(&shell, settings, &ground, &pose, 0.3).bank_volume;
        let plain = volume(&settings);
        let wider = DigSettings { over_dig: settings.over_dig + more, ..settings.clone() };
        let deeper = DigSettings { base_thickness: settings.base_thickness + more, ..settings.clone() };
        let flatter = DigSettings { side_slope: Some(settings.slope() + more), ..settings };
        for other in [wider, deeper, flatter] {
            prop_assert!(volume(&other) > plain);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3))]

    /// Sloping sides under rolling ground: the volume by level slices, each the contour at its
    /// depth cut with the ground that stands above it.
    #[test]
    fn slices_under_rolling_ground(
        index in 0..40usize,
        settings in settings(),
        pose in poses(),
        ground in rolling(),
    ) {
        let shell = shell(index);
        let sloped = DigSettings { side_slope: Some(settings.slope().max(0.4)), ..settings };
        let shape = DigShape::new(&shell, &sloped, 4.0);
        let dig = excavate(&shape, &ground, &pose, 0.0, 0.4);
        prop_assert!(dig.closed);
        // The ground over the hole, and between which elevations it lies there.
        let size = Vector::new(20.0, 20.0);
        let (low, high) = (pose.at - size, pose.at + size);
        let corners = [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
        let window = Region::from_ring(Ring(corners.to_vec()));
        let pieces: Vec<_> = pieces(&ground, pose.at, 20.0)
            .into_iter()
            .map(|(triangle, plane)| (intersection(&triangle, &window), plane))
            .filter(|(part, _)| !part.is_empty())
            .collect();
        let corners = pieces.iter().flat_map(|(part, plane)| part.polygons[0].outer.0.iter().map(|p| plane(*p)));
        let (lowest, highest) = corners.fold((f64::MAX, f64::MIN), |(l, h), z| (l.min(z), h.max(z)));
        let section = |depth: f64| -> f64 {
            let contour = shape.contour(depth).posed(&pose);
            let parts = pieces.iter().filter_map(|(part, plane)| above(part, plane, -depth));
            parts.map(|part| intersection(&contour, &part).area()).sum()
        };
        // The section jumps where a level piece of the floor begins, and falls off fast within
        // the ground's own relief: layers end there, and are thin in the relief.
        let lower = sloped.base_thickness + shell.record.wall_thickness;
        let ends = shell.facets.iter().flat_map(|f| [f.depths().0, f.depths().1]);
        let mut breaks: Vec<f64> = ends.map(|depth| depth + lower).collect();
        breaks.extend([-highest, -lowest].map(|depth| depth.min(shape.deepest())));
        breaks.sort_by(f64::total_cmp);
        let layers = breaks.iter().zip(&breaks[1..]);
        let slices = layers.filter(|(top, bottom)| bottom > top).flat_map(|(top, bottom)| {
            let step = if *top < -lowest { 0.012 } else { 0.08 };
            let steps = ((bottom - top) / step).ceil().max(3.0);
            let half = (bottom - top) / steps / 2.0;
            let off = half / 3.0_f64.sqrt();
            let middles = (0..steps as u32).map(move |k| top + half * (2.0 * f64::from(k) + 1.0));
            middles.flat_map(move |middle| [(middle - off, half), (middle + off, half)])
        });
        let slices = slices.map(|(depth, height)| section(depth) * height);
        near("bank", dig.bank_volume, slices.sum(), 5e-4)?;
    }
}

/// A dig of odd settings is a dig all the same: nothing panics, nothing is not a number.
#[test]
fn odd_settings_are_answered() {
    let shell = shell(3);
    let odd = [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e-12, 4.0, 1e300];
    for value in odd {
        for headroom in odd {
            let settings = DigSettings {
                side_slope: Some(value.min(10.0)),
                over_dig: if value < 10.0 { value } else { 0.1 },
                ..DigSettings::default()
            };
            if headroom > 50.0 && value > 1.0 {
                continue;
            }
            let shape = DigShape::new(&shell, &settings, headroom);
            let dig = excavate(
                &shape,
                &level(0.0),
                &Pose::new(Point::default(), 0.0, false),
                0.0,
                0.4,
            );
            assert!(!dig.bank_volume.is_nan(), "{value} {headroom}");
        }
    }
}
