//! Drawing by hand: each result reached a second way, by sampling, by another formula, or by
//! repeated projection.

use batterboard_core::geom::{Point, Segment, Vector, Vertex};
use batterboard_core::math::TURN;
use batterboard_core::sketch::catch::{Rail, Scene, Stroke, catch};
use batterboard_core::sketch::square::square_up;
use batterboard_core::sketch::{Sketch, arc, walk};
use batterboard_core::units::System;
use batterboard_core::units::constants::{DEGREE, FOOT};
use proptest::prelude::*;

use crate::shapes::star;

fn point() -> impl Strategy<Value = Point> {
    (-20.0..20.0, -20.0..20.0).prop_map(|(x, y)| Point::new(x, y))
}

fn sketch() -> impl Strategy<Value = Sketch> {
    let spoke = (0.5..1.5f64, 4.0..15.0f64, -0.2..0.2f64);
    prop::collection::vec(spoke, 4..9).prop_map(|spokes| {
        let plain: Vec<(f64, f64)> = spokes.iter().map(|s| (s.0, s.1)).collect();
        let vertices = star(Point::new(3.0, -2.0), &plain)
            .into_iter()
            .zip(&spokes)
            .map(|(at, s)| Vertex {
                at,
                bulge: if s.2 < 0.0 { 0.0 } else { s.2 },
            })
            .collect();
        Sketch::new(vertices, true)
    })
}

/// Points along a stretch, a millimetre or so apart at the scale of these sketches.
fn sampled(segment: &Segment) -> impl Iterator<Item = Point> + '_ {
    (0..=10_000).map(|i| segment.point_at(f64::from(i) / 10_000.0))
}

/// The center of the circle through three points, by the determinants of the school book.
fn centre(a: Point, b: Point, c: Point) -> Point {
    let square = |p: Point| p.x * p.x + p.y * p.y;
    let d = 2.0 * (a.x * (b.y - c.y) + b.x * (c.y - a.y) + c.x * (a.y - b.y));
    Point::new(
        (square(a) * (b.y - c.y) + square(b) * (c.y - a.y) + square(c) * (a.y - b.y)) / d,
        (square(a) * (c.x - b.x) + square(b) * (a.x - c.x) + square(c) * (b.x - a.x)) / d,
    )
}

proptest! {
    #[test]
    fn an_arc_lies_on_the_circle_through_its_three_points(a in point(), b in point(), c in point()) {
        let flat = (b - a).cross(c - a).abs() < 0.5;
        prop_assume!(!flat && a.distance(c) > 0.5);
        let Ok(vertex) = arc::arc_through(a, b, c) else {
            // Refused only where all but the whole circle would be the arc.
            let seen = (a - b).unit().unwrap().dot((c - b).unit().unwrap());
            prop_assert!(seen > 0.9);
            return Ok(());
        };
        let Segment::Arc { centre: found, radius, .. } = Segment::between(vertex, c) else {
            return Err(TestCaseError::fail("an arc"));
        };
        let expected = centre(a, b, c);
        let far = expected.distance(a);
        prop_assert!(found.distance(expected) < 1e-6 * (1.0 + far * far));
        prop_assert!((radius - far).abs() < 1e-6 * (1.0 + far * far));
        let nearest = sampled(&Segment::between(vertex, c))
            .map(|p| p.distance(b))
            .fold(f64::INFINITY, f64::min);
        prop_assert!(nearest < 1e-3 * radius, "the arc passes through its second point");
    }

    #[test]
    fn a_corner_added_changes_nothing_and_goes_again(it in sketch(), edge in 0usize..4, near in point()) {
        let more = it.with_corner(edge, near);
        prop_assume!(more.check().is_empty() && it.check().is_empty());
        prop_assert!((more.area().unwrap() - it.area().unwrap()).abs() < 1e-9);
        let less = more.without_corner(edge + 1);
        for (a, b) in less.vertices.iter().zip(&it.vertices) {
            prop_assert_eq!(a.at, b.at);
            prop_assert!((a.bulge - b.bulge).abs() < 1e-9);
        }
    }

    #[test]
    fn an_edge_that_moves_stays_parallel_and_passes_through_the_hand(
        it in sketch(),
        edge in 0usize..4,
        hand in point(),
    ) {
        let before = it.edge(edge).unwrap();
        let moved = it.with_edge_through(edge, hand);
        let after = moved.edge(edge).unwrap();
        match (before, after) {
            (Segment::Line { from, to }, Segment::Line { from: a, to: b }) => {
                let way = (to - from).unit().unwrap();
                prop_assert!((b - a).cross(way).abs() < 1e-6 * (1.0 + (b - a).length()));
                prop_assert!((hand - a).cross(way).abs() < 1e-6 * (1.0 + (hand - a).length()));
            }
            (Segment::Arc { .. }, Segment::Arc { .. }) => {
                let off = sampled(&after).map(|p| p.distance(hand)).fold(f64::INFINITY, f64::min);
                prop_assert!(off < 0.05 || moved == it);
            }
            _ => {}
        }
        // Straight neighbors keep their lines.
        for i in [edge + 1, edge + it.vertices.len() - 1] {
            let i = i % it.vertices.len();
            if let (Some(Segment::Line { from, to }), Some(Segment::Line { from: a, to: b })) =
                (it.edge(i), moved.edge(i))
                && (to - from).unit().unwrap().cross((before.to() - before.from()).unit().unwrap()).abs() > 0.06
            {
                let way = (to - from).unit().unwrap();
                prop_assert!((b - a).cross(way).abs() < 1e-6 * (1.0 + (b - a).length()));
            }
        }
    }

    #[test]
    fn a_hand_is_led_to_what_sampling_finds_nearest(it in sketch(), hand in point()) {
        let reach = 0.4;
        let rails: Vec<Rail> = (0..it.edges())
            .map(|i| Rail {
                segment: it.edge(i).unwrap(),
                name: format!("edge {i}"),
                owner: "it".to_owned(),
            })
            .collect();
        let scene = Scene { rails, marks: Vec::new() };
        let caught = catch(hand, reach, &scene, &Stroke::FREE);
        prop_assert_eq!(&caught, &catch(hand, reach, &scene, &Stroke::FREE));
        let corner = it
            .vertices
            .iter()
            .map(|v| v.at.distance(hand))
            .fold(f64::INFINITY, f64::min);
        let on_edge = scene
            .rails
            .iter()
            .map(|rail| sampled(&rail.segment).map(|p| p.distance(hand)).fold(f64::INFINITY, f64::min))
            .fold(f64::INFINITY, f64::min);
        match caught {
            Some(caught) => {
                prop_assert!(caught.at.distance(hand) <= reach);
                if corner <= reach {
                    prop_assert!((caught.at.distance(hand) - corner).abs() < 1e-9);
                    prop_assert_eq!(caught.reason, "corner of it");
                } else if caught.reason.starts_with("on edge") && !caught.reason.contains(" and ") {
                    prop_assert!((caught.at.distance(hand) - on_edge).abs() < 2e-3);
                }
            }
            None => prop_assert!(corner > reach && on_edge > reach - 2e-3),
        }
    }

    /// Cyclic projection onto one constraint after the other comes to the nearest point that
    /// satisfies them all (von Neumann; Halperin 1962): the same least movement, another way.
    #[test]
    fn square_up_is_the_nearest_square_figure(
        sides in prop::collection::vec((3.0..12.0f64, 3.0..12.0f64), 2..4),
        slips in prop::collection::vec((-0.15..0.15f64, -0.15..0.15f64), 16),
        turn in 0.0..TURN,
    ) {
        // A flight of stairs and back: every corner is square before the slips.
        let mut corners = vec![(0.0, 0.0)];
        let (mut x, mut y) = (0.0, 0.0);
        for (dx, dy) in &sides {
            x += dx;
            corners.push((x, y));
            y += dy;
            corners.push((x, y));
        }
        corners.push((0.0, y));
        let along = Vector::at_angle(turn);
        let vertices: Vec<Vertex> = corners
            .iter()
            .zip(&slips)
            .map(|((x, y), (sx, sy))| Vertex {
                at: Point::default() + along * (x + sx) + along.left() * (y + sy),
                bulge: 0.0,
            })
            .collect();
        let it = Sketch::new(vertices, true);
        let squared = square_up(&it, 12.0 * DEGREE).unwrap();
        prop_assert_eq!(squared.edges, corners.len());
        let u = Vector::along_bearing(squared.bearing);
        let v = u.left();
        let frame = |p: Point, axis: Vector| Vector::new(p.x, p.y).dot(axis);
        let mut us: Vec<f64> = it.vertices.iter().map(|p| frame(p.at, u)).collect();
        let mut vs: Vec<f64> = it.vertices.iter().map(|p| frame(p.at, v)).collect();
        let count = us.len();
        let level: Vec<bool> = (0..count)
            .map(|i| {
                let j = (i + 1) % count;
                (us[i] - us[j]).abs() > (vs[i] - vs[j]).abs()
            })
            .collect();
        for _ in 0..400 {
            for (i, level) in level.iter().enumerate() {
                let j = (i + 1) % count;
                let it = if *level { &mut vs } else { &mut us };
                let mean = (it[i] + it[j]) / 2.0;
                it[i] = mean;
                it[j] = mean;
            }
        }
        for (i, vertex) in squared.sketch.vertices.iter().enumerate() {
            prop_assert!((frame(vertex.at, u) - us[i]).abs() < 1e-6);
            prop_assert!((frame(vertex.at, v) - vs[i]).abs() < 1e-6);
            prop_assert!(vertex.at.distance(it.vertices[i].at) <= squared.greatest_move + 1e-12);
        }
    }

    #[test]
    fn a_walk_written_down_is_walked_again(
        walls in prop::collection::vec((1u32..4000, -170i32..170), 1..12),
        facing in 0.0..TURN,
        style in 0usize..3,
    ) {
        let mut at = Point::new(1.0, 2.0);
        let mut bearing = facing;
        let mut corners = vec![at];
        let mut words = Vec::new();
        for (hundredths, turn) in &walls {
            let feet = f64::from(*hundredths) / 100.0;
            at = at + Vector::along_bearing(bearing) * (feet * FOOT);
            corners.push(at);
            bearing += f64::from(*turn) * DEGREE;
            let side = if *turn < 0 { "left" } else { "right" };
            let turn = turn.abs();
            words.push(match style {
                0 => format!("forward {feet:.2} ft, {side} {turn}°"),
                1 => format!("f {feet:.2} ft\n{} {turn}", &side[..1]),
                _ => format!("fwd {feet:.2} ft {side} {turn} degrees"),
            });
        }
        let text = words.join(if style == 2 { " " } else { "; " });
        let read = walk::read(&text, Point::new(1.0, 2.0), facing, System::Metres);
        prop_assert!(read.findings.iter().all(|f| f.code != "walk-unread"), "{text}: {:?}", read.findings);
        for (vertex, corner) in read.sketch.vertices.iter().zip(&corners) {
            prop_assert!(vertex.at.distance(*corner) < 1e-6);
        }
        let closed = usize::from(read.sketch.closed);
        prop_assert_eq!(read.sketch.vertices.len() + closed, corners.len());
    }

    #[test]
    fn any_text_of_a_walk_is_read_to_its_end(
        scraps in prop::collection::vec(prop::sample::select(vec![
            "forward", "f", "back", "right", "left", "r", "l", "turn", "arc", "radius", "angle", "length", "close",
            "bearing", "N 10 E", "24'", "6\"", "90", "90°", "12.5 ft", ",", ";", "\n", ".", "=", "é", "½", "(", "1/2",
            "around", "face", "east", "m", "999999999999",
        ]), 0..30),
        metres in any::<bool>(),
    ) {
        let text = scraps.join(" ");
        let system = if metres { System::Metres } else { System::Feet };
        let read = walk::read(&text, Point::default(), 0.0, system);
        let mut at = 0;
        for piece in &read.pieces {
            prop_assert_eq!(piece.from, at);
            prop_assert!(piece.to > at);
            at = piece.to;
        }
        prop_assert_eq!(at, text.chars().count());
        for finding in &read.findings {
            prop_assert!(!finding.message.is_empty() && !finding.remedy.is_empty());
        }
        let _ = read.sketch.check();
    }
}
