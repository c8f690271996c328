//! The hole of unlike sides against closed forms, the even hole, and plain sampling.

use super::super::bottom::Bottom;
use super::super::excavate;
use super::super::hole::Hole;
use super::super::profile::{Profile, SideLayer, Stand};
use super::super::shape::DigShape;
use super::super::sides::BySide;
use super::*;
use crate::geom::distance::{Figure, nearest};
use crate::geom::{Point, Pose, Ring, Vector};
use crate::ground::{Ground, GroundRecord};
use crate::math::TURN;
use crate::shell::{DepthPlane, Shell, catalogue};
use crate::site::DigSettings;

fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Region {
    let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)];
    Region::from_ring(Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec()))
}

/// A level floor, a slope and a ledge, sharing edges; 8 m by 4 m.
fn floor() -> Bottom {
    let slope = DepthPlane {
        at_origin: 1.5,
        gradient: Vector::new(0.3, 0.0),
    };
    let pieces = [
        (rectangle(-4.0, -2.0, -1.0, 1.2), DepthPlane::level(1.2)),
        (rectangle(-1.0, -2.0, 2.0, 1.2), slope),
        (rectangle(2.0, -2.0, 4.0, 1.2), DepthPlane::level(2.1)),
        (rectangle(-4.0, 1.2, 4.0, 2.0), DepthPlane::level(0.4)),
    ];
    Bottom::of(rectangle(-4.0, -2.0, 4.0, 2.0), pieces, 0.0, 0.0, 0.0)
}

fn layer(down_to: f64, run: [f64; 4]) -> SideLayer {
    SideLayer {
        down_to,
        run: BySide::from_values(run),
    }
}

/// Every way a side can stand, at once.
fn odd() -> Profile {
    Profile {
        reach: BySide::from_values([0.2, 0.3, 0.1, 0.0]),
        layers: vec![
            layer(0.5, [1.5, 0.0, 1.0, 2.0]),
            layer(1.4, [1.0, 0.0, 1.0, 0.8]),
            layer(f64::INFINITY, [0.0; 4]),
        ],
        bench: Some((0.9, 0.4)),
    }
}

fn level(elevation: f64) -> Ground {
    Ground::check(&GroundRecord::Level { elevation }).unwrap().0
}

fn pose() -> Pose {
    Pose::new(Point::new(0.4, -0.7), 0.6, true)
}

fn near(what: &str, value: f64, expected: f64, part: f64) {
    let off = (value - expected).abs() / expected.abs();
    assert!(off <= part, "{what}: {value}, not {expected}: off {off:e}");
}

/// A box floor of `length` by `width`, `depth` deep, sides by side.
fn boxed(length: f64, width: f64, depth: f64, profile: Profile, headroom: f64) -> DigShape {
    let plan = rectangle(-length / 2.0, -width / 2.0, length / 2.0, width / 2.0);
    let bottom = Bottom::of(
        plan.clone(),
        [(plan, DepthPlane::level(depth))],
        0.0,
        0.0,
        0.0,
    );
    DigShape::over(Hole::new(bottom, profile), Stand::default(), headroom)
}

/// V = A h + (L (left + right) + W (ahead + behind)) h^2 / 2 + the corners' quarter cones
/// pi / 12 (a b + b c + c d + d a) h^3 (closed form).
#[test]
fn a_box_with_a_slope_to_each_side() {
    let (length, width, h) = (8.0, 4.0, 1.8_f64);
    let runs = [1.5, 0.5, 1.0, 0.0];
    let [a, b, c, d] = runs;
    let profile = Profile {
        layers: vec![layer(f64::INFINITY, runs)],
        ..Profile::even(0.0, 0.0)
    };
    let plain = length * width * h;
    let sides = (length * (b + d) + width * (a + c)) * h * h / 2.0;
    let corners = TURN / 24.0 * (a * b + b * c + c * d + d * a) * h * h * h;
    let exact = plain + sides + corners;
    let shape = boxed(length, width, h, profile, 0.0);
    near("contours", shape.level_volume(0.0), exact, 1e-4);
    let dig = excavate(&shape, &level(0.0), &pose(), 0.0, 0.3);
    near("grid", dig.bank_volume, exact, 1e-4);
    near(
        "below the cap",
        dig.volume_below_cap,
        shape.level_volume(-0.3),
        5e-5,
    );
    near("opening", dig.top_area, shape.contour(0.0).area(), 5e-4);
    near("edge", dig.top_edge.area(), dig.top_area, 2e-3);
    near("floor", dig.floor_area, length * width, 1e-9);
    assert_eq!(dig.slopes, BySide::from_values(runs));
    assert!(dig.closed);
}

/// Layers, an upright part below and a bench, all round alike: the sections are widened
/// rectangles, A + P r + pi r^2, and the volume is the sum of three prismoids.
#[test]
fn layers_a_bench_and_an_upright_part_below() {
    let (length, width, depth) = (8.0, 4.0, 2.2);
    let profile = Profile {
        reach: BySide::all(0.2),
        layers: vec![
            layer(0.6, [1.5; 4]),
            layer(1.5, [1.0; 4]),
            layer(f64::INFINITY, [0.0; 4]),
        ],
        bench: Some((1.0, 0.5)),
    };
    let area = |r: f64| length * width + 2.0 * (length + width) * r + TURN / 2.0 * r * r;
    let part = |h: f64, from: f64, to: f64| {
        h / 6.0 * (area(from) + 4.0 * area((from + to) / 2.0) + area(to))
    };
    let exact =
        part(0.7, 0.2, 0.2) + part(0.5, 0.2, 0.7) + part(0.4, 1.2, 1.6) + part(0.6, 1.6, 2.5);
    let shape = boxed(length, width, depth, profile, 0.0);
    near("contours", shape.level_volume(0.0), exact, 5e-5);
    let dig = excavate(&shape, &level(0.0), &pose(), 0.0, 0.3);
    near("grid", dig.bank_volume, exact, 5e-5);
    near("opening", dig.top_area, area(2.5), 3e-4);
    assert_eq!(dig.slopes, BySide::all(1.0));
}

#[test]
fn even_sides_are_the_same_either_way() {
    for (index, slope) in [(0, 1.5), (3, 0.75), (7, 1.0), (11, 0.0)] {
        let all = catalogue::all();
        let shell = Shell::check(&all[index % all.len()]).unwrap().0;
        let settings = DigSettings {
            side_slope: Some(slope),
            ..DigSettings::default()
        };
        let plain = DigShape::new(&shell, &settings, 0.6);
        let bottom = Bottom::new(&shell, &settings);
        let reach = plain.hole.bottom.reach;
        let profile = Profile::even(reach, slope).settled(bottom.deepest());
        let other = DigShape::over(Hole::of_facets(bottom, profile), Stand::default(), 0.6);
        for depth in [-0.3, 0.1, 0.8, 1.3] {
            let exact = contour::contour(&plain.hole.bottom, depth, contour::FINE);
            near("section", other.contour(depth).area(), exact.area(), 1e-4);
        }
        near(
            "contours",
            other.level_volume(0.2),
            plain.level_volume(0.2),
            1e-4,
        );
        let record = GroundRecord::Plane {
            at: Point::default(),
            elevation: 0.1,
            fall: 0.04,
            towards: 1.0,
        };
        let ground = Ground::check(&record).unwrap().0;
        let cut = |shape: &DigShape| excavate(shape, &ground, &pose(), 0.0, 0.4);
        let (one, two) = (cut(&other), cut(&plain));
        near("bank", one.bank_volume, two.bank_volume, 2e-4);
        near(
            "below the cap",
            one.volume_below_cap,
            two.volume_below_cap,
            2e-4,
        );
        near("opening", one.top_area, two.top_area, 5e-4);
        near("edge", one.top_edge.area(), two.top_edge.area(), 1e-3);
        near("floor", one.floor_area, two.floor_area, 2e-4);
        // The one takes a cell astride the floor's edge, the other its middle: 4 % of a cell.
        near("depth", one.greatest_depth, two.greatest_depth, 2e-3);
    }
}

/// A point is in the hole at a level when it is in the body of some place of the bottom; bodies
/// by their own definition, in every direction.
#[test]
fn contours_hold_what_some_place_of_the_bottom_reaches() {
    let bottom = floor();
    let profile = odd().settled(bottom.deepest());
    let hole = NonUniformSides::new(&bottom, profile.clone());
    let directions: Vec<Vector> = (0..72)
        .map(|i| Vector::at_angle(TURN * f64::from(i) / 72.0))
        .collect();
    let tops: Vec<f64> = std::iter::once(f64::NEG_INFINITY)
        .chain(profile.layers.iter().map(|l| l.down_to))
        .collect();
    let support = |n: Vector, depth: f64, z: f64| {
        let mut sum = profile.reach.towards(n);
        for (layer, top) in profile.layers.iter().zip(&tops) {
            let thick = depth.min(layer.down_to) - z.max(*top);
            sum += thick.max(0.0) * layer.run.towards(n);
        }
        if let Some((bench, width)) = profile.bench
            && depth > bench
            && z < bench
        {
            sum += width;
        }
        sum
    };
    let mut places = Vec::new();
    for piece in &bottom.pieces {
        let (low, high) = piece.region.bounds().unwrap();
        for i in 0..=12 {
            for j in 0..=12 {
                let mix = |a: f64, b: f64, t: i32| a + (b - a) * f64::from(t) / 12.0;
                let p = Point::new(mix(low.x, high.x, i), mix(low.y, high.y, j));
                places.push((p, piece.plane.depth(p)));
            }
        }
    }
    for z in [-0.4, 0.2, 0.7, 1.1, 1.7] {
        let contour = hole.contour(z);
        let reached = |p: Point, slack: f64| {
            let inside = |(q, depth): &(Point, f64)| {
                *depth >= z
                    && directions
                        .iter()
                        .all(|n| n.dot(p - *q) <= support(*n, *depth, z) + slack)
            };
            places.iter().any(inside)
        };
        for k in 0..225 {
            let p = Point::new(
                f64::from(k % 15) * 1.01 - 7.3,
                f64::from(k / 15) * 0.77 - 5.6,
            );
            // Places stand up to 0.67 m apart.
            let (surely, maybe) = (reached(p, -1e-3), reached(p, 0.36));
            let found = contour.contains(p);
            assert!(found || !surely, "{p:?} at {z} is reached");
            assert!(!found || maybe, "{p:?} at {z} is not reached");
        }
    }
}

#[test]
fn grid_and_contours_agree_whatever_the_sides() {
    let shape = DigShape::over(Hole::new(floor(), odd()), Stand::default(), 0.5);
    for surface in [-0.1, 0.0, 0.37] {
        let dig = excavate(&shape, &level(surface), &pose(), 0.0, 0.3);
        near("bank", dig.bank_volume, shape.level_volume(surface), 1e-4);
        near(
            "below the cap",
            dig.volume_below_cap,
            shape.level_volume(-0.3),
            1e-4,
        );
        let top = shape.contour(-surface);
        near("opening", dig.top_area, top.area(), 1e-3);
        near("edge", dig.top_edge.area(), top.area(), 3e-3);
        assert!(dig.closed);
        // The edge stands within 5 mm of the contour, but for sharp corners, which the grid
        // cuts off by less than a cell.
        let exact: Vec<Vec<Point>> = top.posed(&pose()).rings().map(closed).collect();
        let off = |p: &Point| {
            let chain = [*p];
            let to_edge = |ring: &Vec<Point>| nearest(Figure::Chain(ring), Figure::Chain(&chain));
            let distances = exact.iter().filter_map(to_edge).map(|pair| pair.distance);
            distances.fold(f64::INFINITY, f64::min)
        };
        let points = dig.top_edge.rings().flat_map(|ring| &ring.0);
        let far: Vec<f64> = points.map(off).filter(|off| *off > 0.005).collect();
        assert!(
            far.len() <= 16 && far.iter().all(|off| *off < 0.05),
            "{far:?}"
        );
    }
    // A point's own depth, narrowed down.
    let p = Point::new(4.6, 0.1);
    let depth = shape.depth(p);
    assert!(shape.contour(depth - 1e-3).contains(p) && !shape.contour(depth + 1e-3).contains(p));
}

fn closed(ring: &Ring) -> Vec<Point> {
    let mut points = ring.0.clone();
    points.extend(ring.0.first());
    points
}
