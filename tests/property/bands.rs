//! Bands along lot lines and round tracks, each reached a second way: point by point.

use batterboard_core::geom::band::along_side;
use batterboard_core::geom::flatten::{ChordSide, flatten};
use batterboard_core::geom::offset::offset_chain_square;
use batterboard_core::geom::span::on_chain;
use batterboard_core::geom::{
    DRAWING_TOLERANCE, Outline, Point, Region, Segment, Vector, Vertex, path::bulge_of_angle,
};
use batterboard_core::math::{TURN, asin, wrap_half_turn};
use proptest::prelude::*;

use super::shapes::star;

/// Places nearer than this to an edge may go either way, meters: the chord error, and a hair.
const HAIR: f64 = 2.0 * DRAWING_TOLERANCE;

/// A lot, often concave, some of its sides bent by up to 50 degrees either way.
fn lot() -> impl Strategy<Value = Outline> {
    let spokes = prop::collection::vec((0.5..1.5f64, 8.0..24.0f64), 4..9);
    let bends = prop::collection::vec(prop_oneof![Just(0.0), -0.14..0.14f64], 9);
    (spokes, bends).prop_filter_map("simple", |(spokes, bends)| {
        let corners = star(Point::new(3.0, -2.0), &spokes).into_iter().zip(bends);
        let vertices = corners.map(|(p, turn)| Vertex::arc(p.x, p.y, bulge_of_angle(turn * TURN)));
        Outline::check(vertices.collect()).ok()
    })
}

/// How far a place lies from a side to its left, and how far its foot lies beyond the side's
/// ends, meters along the side's own line or circle.
fn foot(side: &Segment, p: Point) -> (f64, f64) {
    match *side {
        Segment::Line { from, to } => {
            let along = (to - from).unit().unwrap();
            let station = along.dot(p - from);
            let beyond = (-station).max(station - from.distance(to));
            (along.cross(p - from), beyond)
        }
        Segment::Arc {
            centre,
            radius,
            start_angle,
            sweep,
            ..
        } => {
            let spoke = p - centre;
            let middle = start_angle + sweep / 2.0;
            let off_middle = wrap_half_turn(spoke.angle() - middle).abs();
            let left = (radius - spoke.length()) * sweep.signum();
            // A band goes no farther round than just short of its other end.
            let round = off_middle > 0.98 * TURN / 2.0;
            let beyond = (off_middle - sweep.abs() / 2.0) * radius;
            (left, if round { f64::INFINITY } else { beyond })
        }
    }
}

/// Places of a grid over a region.
fn grid(region: &Region, step: f64) -> (Vec<Point>, usize) {
    let (low, high) = region.bounds().unwrap();
    let across = ((high.x - low.x) / step).ceil() as usize + 1;
    let up = ((high.y - low.y) / step).ceil() as usize + 1;
    let at = |i: usize| Vector::new((i % across) as f64 * step, (i / across) as f64 * step);
    ((0..across * up).map(|i| low + at(i)).collect(), across)
}

fn near_edge(region: &Region, p: Point) -> bool {
    let off = |(a, b): (Point, Point)| {
        let along = b - a;
        let t = ((p - a).dot(along) / along.dot(along)).clamp(0.0, 1.0);
        p.distance(a + along * t)
    };
    region
        .rings()
        .flat_map(|r| r.edges())
        .any(|e| off(e) < HAIR)
}

/// The places of the band that can be walked to from beside the side's middle, grid step by
/// grid step.
fn reached(area: &Region, side: &Segment, width: f64, step: f64) -> (Vec<Point>, Vec<bool>) {
    let (places, across) = grid(area, step);
    let belongs: Vec<bool> = places
        .iter()
        .map(|p| {
            let (left, beyond) = foot(side, *p);
            area.contains(*p) && (0.0..=width).contains(&left) && beyond <= width
        })
        .collect();
    let mut reached = vec![false; places.len()];
    let middle = side.point_at(0.5);
    let mut open: Vec<usize> = (0..places.len())
        .filter(|i| belongs[*i] && places[*i].distance(middle) < 2.0 * step)
        .collect();
    while let Some(i) = open.pop() {
        if reached[i] || !belongs[i] {
            continue;
        }
        reached[i] = true;
        let column = i % across;
        open.extend((column > 0).then(|| i - 1));
        open.extend((column + 1 < across).then_some(i + 1));
        open.extend(i.checked_sub(across));
        open.extend((i + across < places.len()).then_some(i + across));
    }
    (places, reached)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn a_band_along_a_side_holds_what_is_near_the_side_and_nothing_else(
        outline in lot(), which in 0usize..9, width in prop_oneof![0.5..6.0f64, 20.0..90.0f64],
    ) {
        let area = Region::from_ring(flatten(&outline, DRAWING_TOLERANCE, ChordSide::Inscribed));
        let sides: Vec<Segment> = outline.segments().collect();
        let side = sides[which % sides.len()];
        let band = along_side(&area, &side, width, DRAWING_TOLERANCE);
        prop_assert_eq!(band.polygons.len(), 1);
        // The engine moves vertices by up to 3e-8 m.
        prop_assert!(band.area() <= area.area() + 1e-7 * area.perimeter());
        let (places, reached) = reached(&area, &side, width, 0.6);
        for (p, reached) in places.iter().zip(reached) {
            if near_edge(&band, *p) || near_edge(&area, *p) {
                continue;
            }
            if band.contains(*p) {
                let (left, beyond) = foot(&side, *p);
                prop_assert!(area.contains(*p), "{p:?} is off the lot");
                prop_assert!(left > -HAIR && left < width + HAIR, "{p:?} is {left} away");
                prop_assert!(beyond < width + HAIR, "{p:?} is {beyond} beyond");
            } else {
                prop_assert!(!reached, "{p:?} is missing");
            }
        }
    }

    #[test]
    fn a_wider_band_holds_a_narrower_one(outline in lot(), width in 0.5..8.0f64) {
        let area = Region::from_ring(flatten(&outline, DRAWING_TOLERANCE, ChordSide::Inscribed));
        let side = outline.segments().next().unwrap();
        let narrow = along_side(&area, &side, width, DRAWING_TOLERANCE);
        let wide = along_side(&area, &side, width * 1.7, DRAWING_TOLERANCE);
        for p in grid(&area, 0.9).0 {
            let settled = !near_edge(&narrow, p) && !near_edge(&wide, p);
            prop_assert!(!settled || !narrow.contains(p) || wide.contains(p), "{p:?}");
        }
    }

    #[test]
    fn a_strip_holds_what_is_beside_its_track(
        legs in prop::collection::vec((2.0..8.0f64, -0.3..0.3f64), 1..7), half in 0.3..2.5f64,
    ) {
        let (mut at, mut heading) = (Point::default(), 0.0);
        let mut chain = vec![at];
        for (length, turn) in &legs {
            heading += turn * TURN;
            at = at + Vector::at_angle(heading) * *length;
            chain.push(at);
        }
        let strip = offset_chain_square(&chain, half);
        for p in grid(&strip, 0.35).0 {
            if near_edge(&strip, p) {
                continue;
            }
            prop_assert_eq!(strip.contains(p), beside(&chain, half, p), "{:?}", p);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// The nearest place found by walking the edge in small steps; the stretch by its length
    /// and by lying on the edge.
    #[test]
    fn an_opening_is_set_into_the_nearest_place(
        spokes in prop::collection::vec((0.5..1.5f64, 3.0..9.0f64), 4..9), closed in any::<bool>(),
        x in -10.0..10.0f64, y in -10.0..10.0f64, width in 0.3..4.0f64,
    ) {
        let chain = star(Point::new(1.0, 2.0), &spokes);
        let at = Point::new(x, y);
        let found = on_chain(&chain, closed, at, width).unwrap();
        let mut walked = chain.clone();
        walked.extend(closed.then(|| chain[0]));
        let along = |k: u32| walked.windows(2).map(move |e| e[0] + (e[1] - e[0]) * (f64::from(k) / 400.0));
        let nearest = (0..=400).flat_map(along).map(|p| p.distance(at)).fold(f64::INFINITY, f64::min);
        prop_assert!(found.off <= nearest + 1e-9 && found.off > nearest - 0.05, "{} {nearest}", found.off);
        let length: f64 = found.points.windows(2).map(|e| e[0].distance(e[1])).sum();
        if found.fits {
            prop_assert!((length - width).abs() < 1e-9, "{length} {width}");
        } else {
            prop_assert!(length < width + 1e-9);
        }
        for p in &found.points {
            let on = on_chain(&chain, closed, *p, 0.1).unwrap();
            prop_assert!(on.off < 1e-9, "{p:?} is {} off", on.off);
        }
        let middle = on_chain(&found.points, false, found.middle, 0.1).unwrap();
        prop_assert!(middle.off < 1e-9);
    }
}

/// Whether a place lies beside an edge of the chain or in the mitre outside one of its corners.
fn beside(chain: &[Point], half: f64, p: Point) -> bool {
    let edges: Vec<(Point, Vector, f64)> = chain
        .windows(2)
        .map(|e| (e[0], (e[1] - e[0]).unit().unwrap(), e[0].distance(e[1])))
        .collect();
    let by_edge = edges.iter().any(|(from, along, length)| {
        let station = along.dot(p - *from);
        (0.0..=*length).contains(&station) && along.cross(p - *from).abs() <= half
    });
    by_edge
        || edges.windows(2).any(|pair| {
            let ((_, u, _), (corner, v, _)) = (pair[0], pair[1]);
            let to = p - corner;
            // Outside the turn, past the end of one edge and before the start of the other.
            let outside = if u.cross(v) >= 0.0 { -1.0 } else { 1.0 };
            let (a, b) = (u.cross(to) * outside, v.cross(to) * outside);
            let in_wedge = u.dot(to) >= 0.0 && v.dot(to) <= 0.0;
            // The mitre's tip lies at half / cos(turn / 2), at most four times as far.
            let tip = half / ((1.0 + u.dot(v)) / 2.0).sqrt();
            let square = a + b; // The chord from one edge's end to the other's, if cut off.
            let chord = half * (1.0 + u.dot(v));
            in_wedge
                && if tip <= 4.0 * half {
                    a <= half && b <= half
                } else {
                    square <= chord
                }
        })
}

/// A wedge: the front is an arc of a turning circle, the sides run apart. The band along the
/// rear fills the blunt corners up to the sides: its ends slope with them.
#[test]
fn a_wedge_has_its_rear_band_from_side_to_side() {
    let vertices = vec![
        Vertex::arc(-6.0, 0.0, -0.2),
        Vertex::line(6.0, 0.0),
        Vertex::line(20.0, 30.0),
        Vertex::line(-20.0, 30.0),
    ];
    let outline = Outline::check(vertices).unwrap();
    let area = outline.region(DRAWING_TOLERANCE);
    let sides: Vec<Segment> = outline.segments().collect();
    let rear = along_side(&area, &sides[2], 3.0, DRAWING_TOLERANCE);
    // A trapezium 3 m high; each side leans 14 in 30.
    let expected = 3.0 * (40.0 + 40.0 - 2.0 * 3.0 * 14.0 / 30.0) / 2.0;
    assert!((rear.area() - expected).abs() < 1e-5, "{}", rear.area());
    // The lot lies outside the front's circle: R = 12 / (4 * .2) * (1 + .04).
    let front = along_side(&area, &sides[0], 2.0, DRAWING_TOLERANCE);
    let (radius, half) = (15.6, 6.0 / 15.6);
    let sector = asin(half) * ((radius + 2.0) * (radius + 2.0) - radius * radius);
    assert!(front.area() > sector, "{} {sector}", front.area());
}

/// Where the boundary turns outward the band runs on by its own width and ends square.
#[test]
fn at_an_inward_corner_the_band_runs_on_by_its_width() {
    let corners = [
        (0.0, 0.0),
        (30.0, 0.0),
        (30.0, 10.0),
        (15.0, 10.0),
        (15.0, 25.0),
        (0.0, 25.0),
    ];
    let vertices = corners.iter().map(|c| Vertex::line(c.0, c.1)).collect();
    let outline = Outline::check(vertices).unwrap();
    let area = outline.region(DRAWING_TOLERANCE);
    let sides: Vec<Segment> = outline.segments().collect();
    let band = along_side(&area, &sides[2], 2.0, DRAWING_TOLERANCE);
    assert!((band.area() - 2.0 * 17.0).abs() < 1e-5, "{}", band.area());
    let whole = along_side(&area, &sides[0], 500.0, DRAWING_TOLERANCE);
    assert!((whole.area() - area.area()).abs() < 1e-5);
}
