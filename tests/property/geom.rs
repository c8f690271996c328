//! Plane geometry: every area and distance reached a second way.

use batterboard_core::geom::distance::{Figure, nearest, nearest_inside};
use batterboard_core::geom::flatten::{ChordSide, flatten};
use batterboard_core::geom::{
    DRAWING_TOLERANCE, Outline, Point, Pose, Region, Ring, Segment, Vector, Vertex, boolean,
    offset, path::bulge_of_angle, validate,
};
use batterboard_core::math::TURN;
use proptest::prelude::*;

const PI: f64 = TURN / 2.0;

/// A star-shaped ring about (x, y): counter-clockwise, often concave.
pub fn star() -> impl Strategy<Value = Ring> {
    let radii = prop::collection::vec(1.0..6.0f64, 5..20);
    (radii, -8.0..8.0f64, -8.0..8.0f64).prop_map(|(radii, x, y)| {
        let step = TURN / radii.len() as f64;
        let spokes = radii.iter().enumerate();
        Ring(
            spokes
                .map(|(i, r)| Point::new(x, y) + Vector::at_angle(step * i as f64) * *r)
                .collect(),
        )
    })
}

/// A convex ring: corners of an ellipse at random angles.
fn convex() -> impl Strategy<Value = Ring> {
    let angles = prop::collection::btree_set(0u32..360, 3..14);
    (angles, 2.0..6.0f64, 1.0..3.0f64).prop_filter_map("wide enough", |(angles, a, b)| {
        let at = |degrees: &u32| {
            let turn = Vector::at_angle(TURN * f64::from(*degrees) / 360.0);
            Point::new(a * turn.x, b * turn.y)
        };
        let ring = Ring(angles.iter().map(at).collect());
        (ring.signed_area() > 0.05).then_some(ring)
    })
}

/// A star whose sides are arcs turning up to 60 degrees either way, if it does not cross itself.
pub fn curved() -> impl Strategy<Value = Outline> {
    (star(), prop::collection::vec(-1.0..1.0f64, 20)).prop_filter_map("simple", |(ring, turns)| {
        let vertices = ring.0.iter().zip(turns);
        let arcs = vertices.map(|(p, turn)| Vertex::arc(p.x, p.y, bulge_of_angle(turn * PI / 3.0)));
        Outline::check(arcs.collect()).ok()
    })
}

/// A line that wanders, often round itself.
pub fn wander() -> impl Strategy<Value = Vec<Point>> {
    let legs = prop::collection::vec((0.5..5.0f64, -0.3..0.4f64), 3..14);
    legs.prop_map(|legs| {
        let (mut at, mut heading) = (Point::default(), 0.0);
        let mut line = vec![at];
        for (length, turn) in legs {
            heading += turn * TURN;
            at = at + Vector::at_angle(heading) * length;
            line.push(at);
        }
        line
    })
}

/// Random places about the origin.
pub fn places() -> impl Strategy<Value = Vec<Point>> {
    prop::collection::vec((-16.0..16.0f64, -16.0..16.0f64), 40)
        .prop_map(|places| places.into_iter().map(|(x, y)| Point::new(x, y)).collect())
}

fn area_of(ring: &Ring) -> Region {
    Region::from_ring(ring.clone())
}

/// Distance from a point to the edge between two others, by the foot of the perpendicular.
pub fn to_edge(p: Point, a: Point, b: Point) -> f64 {
    let along = b - a;
    let fraction = (p - a).dot(along) / along.dot(along);
    p.distance(a + along * fraction.clamp(0.0, 1.0))
}

fn to_ring(p: Point, ring: &Ring) -> f64 {
    let distances = ring.edges().map(|(a, b)| to_edge(p, a, b));
    distances.fold(f64::INFINITY, f64::min)
}

pub fn to_rings(p: Point, region: &Region) -> f64 {
    let distances = region.rings().map(|ring| to_ring(p, ring));
    distances.fold(f64::INFINITY, f64::min)
}

pub fn inside_all(p: Point, region: &Region) -> bool {
    region.rings().filter(|ring| inside(p, ring)).count() % 2 == 1
}

/// Inside by counting the crossings of a level ray, independent of winding numbers.
fn inside(p: Point, ring: &Ring) -> bool {
    let crossings = ring.edges().filter(|(a, b)| {
        let x = a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x);
        (a.y > p.y) != (b.y > p.y) && x > p.x
    });
    crossings.count() % 2 == 1
}

/// How far the point lies inside the nearest disc of any edge whose radius runs from end to end:
/// the edge is walked in small steps (an error of at most a step's length).
fn deepest_disc(p: Point, ring: &[(Point, f64)], steps: u32) -> f64 {
    let edges = ring.iter().zip(ring.iter().cycle().skip(1));
    edges
        .flat_map(|((a, r), (b, s))| {
            (0..=steps).map(move |k| {
                let t = f64::from(k) / f64::from(steps);
                r + (s - r) * t - p.distance(*a + (*b - *a) * t)
            })
        })
        .fold(f64::NEG_INFINITY, f64::max)
}

proptest! {
    /// Steiner: A + P r + pi r^2 for every convex outline.
    #[test]
    fn widening_a_convex_outline_follows_steiner(ring in convex(), r in 0.05..4.0f64) {
        let widened = offset::offset_region(&area_of(&ring), r, DRAWING_TOLERANCE);
        let expected = ring.signed_area() + ring.perimeter() * r + PI * r * r;
        let short = expected - widened.area();
        let allowed = DRAWING_TOLERANCE * TURN * r;
        prop_assert!((-1e-5..=allowed + 1e-5).contains(&short), "short by {short}");
        prop_assert_eq!(widened.polygons.len(), 1);
    }

    /// A place belongs to the widened outline when it is inside or near enough, and to the
    /// narrowed one when it is inside and far enough from the edge.
    #[test]
    fn widening_is_a_matter_of_distance(ring in star(), r in 0.05..5.0f64, places in places()) {
        let region = area_of(&ring);
        let wider = offset::offset_region(&region, r, DRAWING_TOLERANCE);
        let narrower = offset::offset_region(&region, -r, DRAWING_TOLERANCE);
        for p in places.into_iter().chain(ring.0.iter().copied()) {
            let (within, to_edge) = (inside(p, &ring), to_ring(p, &ring));
            if (to_edge - r).abs() > DRAWING_TOLERANCE {
                prop_assert_eq!(wider.contains(p), within || to_edge < r, "wider at {:?}", p);
                prop_assert_eq!(narrower.contains(p), within && to_edge > r, "narrower at {:?}", p);
            }
        }
    }

    /// The same on a strip along a wandering line: hooks, pockets and holes with narrow mouths,
    /// round corners of many vertices, distances far beyond their radii.
    #[test]
    fn widening_a_strip_is_a_matter_of_distance(
        line in wander(),
        half in 0.1..0.8f64,
        r in 0.05..5.0f64,
        places in places(),
    ) {
        let strip = offset::offset_chain(&line, half, 0.01);
        let wider = offset::offset_region(&strip, r, DRAWING_TOLERANCE);
        let narrower = offset::offset_region(&strip, -r / 5.0, DRAWING_TOLERANCE);
        let to_line = |p: Point| {
            let edges = line.iter().zip(line.iter().skip(1));
            edges.map(|(a, b)| to_edge(p, *a, *b)).fold(f64::INFINITY, f64::min)
        };
        for p in places.into_iter().chain(line.iter().copied()) {
            prop_assert_eq!(strip.contains(p), inside_all(p, &strip));
            if (to_line(p) - half).abs() > 0.011 {
                prop_assert_eq!(strip.contains(p), to_line(p) < half, "strip at {:?}", p);
            }
            let (within, to_edge) = (inside_all(p, &strip), to_rings(p, &strip));
            if (to_edge - r).abs() > DRAWING_TOLERANCE {
                prop_assert_eq!(wider.contains(p), within || to_edge < r, "wider at {:?}", p);
            }
            if (to_edge - r / 5.0).abs() > DRAWING_TOLERANCE {
                prop_assert_eq!(narrower.contains(p), within && to_edge > r / 5.0, "narrower at {:?}", p);
            }
        }
    }

    /// The same on curved outlines, flattened.
    #[test]
    fn widening_curves_is_a_matter_of_distance(outline in curved(), r in 0.05..8.0f64, places in places()) {
        let region = outline.region(0.005);
        let wider = offset::offset_region(&region, r, DRAWING_TOLERANCE);
        for p in places {
            let (within, to_edge) = (inside_all(p, &region), to_rings(p, &region));
            if (to_edge - r).abs() > DRAWING_TOLERANCE {
                prop_assert_eq!(wider.contains(p), within || to_edge < r, "wider at {:?}", p);
            }
        }
    }

    /// A widened outline holds the original, and widening in two goes is widening once.
    #[test]
    fn widening_holds_the_original_and_adds_up(ring in star(), r in 0.05..2.0f64, s in 0.05..2.0f64) {
        let region = area_of(&ring);
        let once = offset::offset_region(&region, r + s, 1e-5);
        let twice = offset::offset_region(&offset::offset_region(&region, r, 1e-5), s, 1e-5);
        prop_assert!(boolean::difference(&region, &once).area() < 1e-6);
        let apart = once.area() - twice.area();
        prop_assert!(apart.abs() < 3e-5 * once.perimeter(), "{apart}");
    }

    /// A hole is the outside of its outline: widening the one narrows the other.
    #[test]
    fn a_hole_narrows_as_its_outline_widens(ring in star(), r in 0.05..4.0f64) {
        let frame = Ring([[-40., -40.], [40., -40.], [40., 40.], [-40., 40.]].map(Point::from).to_vec());
        let yard = boolean::difference(&area_of(&frame), &area_of(&ring));
        let narrower = offset::offset_region(&yard, -r, DRAWING_TOLERANCE);
        let taken = offset::offset_region(&area_of(&ring), r, DRAWING_TOLERANCE).area();
        let side = 80.0 - 2.0 * r;
        prop_assert!((narrower.area() - (side * side - taken)).abs() < 1e-4);
        let wider = offset::offset_region(&yard, r, DRAWING_TOLERANCE);
        let left = offset::offset_region(&area_of(&ring), -r, DRAWING_TOLERANCE).area();
        let outer = offset::offset_region(&area_of(&frame), r, DRAWING_TOLERANCE).area();
        prop_assert!((wider.area() - (outer - left)).abs() < 1e-4);
    }

    /// Tapered widening against the discs themselves, wild radii included.
    #[test]
    fn tapered_widening_is_the_union_of_discs(
        ring in star(),
        radii in prop::collection::vec(0.0..5.0f64, 20),
        places in places(),
    ) {
        let tapered: Vec<(Point, f64)> = ring.0.iter().copied().zip(radii).collect();
        let widened = offset::offset_tapered(&tapered, DRAWING_TOLERANCE);
        for p in places {
            let depth = deepest_disc(p, &tapered, 400);
            // A step along an edge of up to 12 m, with its change of radius, moves the walk by 4 cm.
            if depth.abs() > 0.045 {
                let expected = inside(p, &ring) || depth > 0.0;
                prop_assert_eq!(widened.contains(p), expected, "at {:?}, {} deep", p, depth);
            }
        }
    }

    /// The same on a plane that falls gently, as a facet of a floor does: one ring suffices.
    #[test]
    fn a_gentle_plane_widens_to_the_union_of_discs(
        ring in star(),
        fall in 0.0..0.95f64,
        bearing in 0.0..TURN,
        places in places(),
    ) {
        let down = Vector::along_bearing(bearing) * fall;
        let heights = ring.0.iter().map(|p| down.dot(*p - Point::default()));
        let least = heights.clone().fold(f64::INFINITY, f64::min);
        let tapered: Vec<(Point, f64)> = ring.0.iter().copied().zip(heights.map(|h| h - least)).collect();
        let widened = offset::offset_tapered(&tapered, DRAWING_TOLERANCE);
        for p in places {
            let depth = deepest_disc(p, &tapered, 400);
            if depth.abs() > 0.045 {
                let expected = inside(p, &ring) || depth > 0.0;
                prop_assert_eq!(widened.contains(p), expected, "at {:?}, {} deep", p, depth);
            }
        }
    }

    /// Equal radii are plain widening; two rings at once are the union of each.
    #[test]
    fn tapered_widening_agrees_with_plain(a in star(), b in star(), r in 0.05..4.0f64) {
        let even = |ring: &Ring| -> Vec<(Point, f64)> { ring.0.iter().map(|p| (*p, r)).collect() };
        let plain = |ring: &Ring| offset::offset_region(&area_of(ring), r, DRAWING_TOLERANCE);
        let tapered = offset::offset_tapered(&even(&a), DRAWING_TOLERANCE);
        prop_assert!((tapered.area() - plain(&a).area()).abs() < 1e-5);
        let both = offset::offset_tapered_union(&[even(&a)], &[even(&b)], DRAWING_TOLERANCE);
        let united = boolean::union(&plain(&a), &plain(&b));
        prop_assert!((both.area() - united.area()).abs() < 1e-5);
    }

    /// |A| + |B| = |A or B| + |A and B|, and |A| = |A less B| + |A and B|.
    #[test]
    fn overlays_add_up(a in star(), b in star()) {
        let (a, b) = (area_of(&a), area_of(&b));
        let both = boolean::intersection(&a, &b).area();
        let either = boolean::union(&a, &b).area();
        let rest = boolean::difference(&a, &b).area();
        prop_assert!((a.area() + b.area() - either - both).abs() < 1e-5);
        prop_assert!((a.area() - rest - both).abs() < 1e-5);
    }

    /// Distances are the same both ways, their witnesses lie that far apart, and walking both
    /// edges in small steps finds nothing nearer and something as near.
    #[test]
    fn distances_agree_with_a_walk(a in star(), b in star(), east in 0.0..30.0f64) {
        let b = Ring(b.0.iter().map(|p| *p + Vector::new(east, 0.0)).collect());
        let (area_a, area_b) = (area_of(&a), area_of(&b));
        let there = nearest(Figure::Area(&area_a), Figure::Area(&area_b)).unwrap();
        let back = nearest(Figure::Area(&area_b), Figure::Area(&area_a)).unwrap();
        prop_assert!((there.distance - back.distance).abs() < 1e-12);
        prop_assert!((there.from.distance(there.to) - there.distance.abs()).abs() < 1e-12);
        let overlap = boolean::intersection(&area_a, &area_b).area();
        if there.distance > 0.0 {
            prop_assert!(overlap < 1e-9);
            prop_assert!(to_ring(there.from, &a) < 1e-9 && to_ring(there.to, &b) < 1e-9);
            let step = 0.02;
            let walk = a.edges().flat_map(|(p, q)| {
                let count = (p.distance(q) / step).ceil();
                (0..count as u32).map(move |k| p + (q - p) * (f64::from(k) / count))
            });
            let walked = walk.map(|p| to_ring(p, &b)).fold(f64::INFINITY, f64::min);
            prop_assert!(walked >= there.distance - 1e-9, "{walked} is nearer");
            prop_assert!(walked <= there.distance + step, "{walked} is farther");
        } else {
            prop_assert!(overlap > 0.0);
            prop_assert!(to_ring(there.from, &a) < 1e-9 || to_ring(there.to, &b) < 1e-9);
        }
    }

    /// Inside a convex lot each side's room is the least distance to it by corners and feet; over
    /// a side, the least room is how far the farthest corner has gone, and no side that it crosses
    /// has any left.
    #[test]
    fn rooms_to_the_sides_of_a_lot(lot in convex(), figure in star(), scale in 1.0..6.0f64) {
        let lot = Ring(lot.0.iter().map(|p| Point::new(p.x * scale, p.y * scale)).collect());
        let figure = Ring(figure.0.iter().map(|p| Point::new(p.x * 0.4, p.y * 0.4)).collect());
        let (area, inside_lot) = (area_of(&figure), area_of(&lot));
        let least = |a: Point, b: Point| {
            let feet = figure.0.iter().map(|p| to_edge(*p, a, b));
            feet.chain([to_ring(a, &figure), to_ring(b, &figure)]).fold(f64::INFINITY, f64::min)
        };
        let rooms: Vec<(f64, f64)> = lot
            .edges()
            .map(|(a, b)| {
                let room = nearest_inside(&area, &inside_lot, &[a, b]).unwrap();
                (room.distance, least(a, b))
            })
            .collect();
        let outside = figure.0.iter().filter(|p| !inside(**p, &lot));
        let farthest = outside.map(|p| to_ring(*p, &lot)).fold(0.0, f64::max);
        let shortest = rooms.iter().map(|(room, _)| *room).fold(f64::INFINITY, f64::min);
        let crosses = |a: Point, b: Point| figure.edges().any(|(p, q)| {
            let side = |x: Point, y: Point, z: Point| (y - x).cross(z - x) > 0.0;
            side(a, b, p) != side(a, b, q) && side(p, q, a) != side(p, q, b)
        });
        for ((a, b), (room, _)) in lot.edges().zip(&rooms) {
            prop_assert!(!crosses(a, b) || *room <= 0.0, "{room} left over a side it crosses");
        }
        if farthest > 0.0 {
            prop_assert!((shortest + farthest).abs() < 1e-9, "{shortest} but {farthest} gone");
        }
        for (room, least) in rooms {
            let untouched = (room - least).abs() < 1e-9;
            prop_assert!(untouched || room <= 0.0 && farthest > 0.0, "{room}, {least}");
        }
    }

    /// Flattened points lie on their arcs or within the tolerance of them, and the area differs
    /// by no more than tolerance times length; centerd chords keep it.
    #[test]
    fn flattening_keeps_its_tolerance(outline in curved(), tolerance in 0.0001..0.2f64) {
        for side in [ChordSide::Inscribed, ChordSide::Centred] {
            let ring = flatten(&outline, tolerance, side);
            for (a, b) in ring.edges() {
                for p in [a, a.midpoint(b)] {
                    let off = outline.segments().map(|s| to_segment(p, &s)).fold(f64::INFINITY, f64::min);
                    prop_assert!(off <= tolerance + 1e-9, "{off} off at {tolerance}");
                }
            }
            let lost = (ring.signed_area() - outline.area()).abs();
            prop_assert!(lost <= tolerance * outline.perimeter());
            if side == ChordSide::Centred {
                prop_assert!(lost < 1e-9, "{lost}");
            }
        }
    }

    /// Carried onto the site a figure keeps its area and its distances, and comes back.
    #[test]
    fn posing_is_rigid(
        outline in curved(),
        x in -500.0..500.0f64,
        y in -500.0..500.0f64,
        heading in -7.0..7.0f64,
        mirrored: bool,
    ) {
        let pose = Pose::new(Point::new(x, y), heading, mirrored);
        let posed = outline.posed(&pose);
        prop_assert!((posed.area() - outline.area()).abs() < 1e-7);
        prop_assert!((posed.perimeter() - outline.perimeter()).abs() < 1e-9);
        let region = outline.region(DRAWING_TOLERANCE);
        let carried = region.posed(&pose);
        prop_assert!((carried.area() - region.area()).abs() < 1e-7);
        let centre = pose.shell_from_site(carried.centroid().unwrap());
        prop_assert!(centre.distance(region.centroid().unwrap()) < 1e-8);
        // Flattened before or after, the figure is the same.
        prop_assert!((posed.region(DRAWING_TOLERANCE).area() - carried.area()).abs() < 1e-7);
    }

    /// Whatever the numbers are, the door answers, and what it lets in can be computed with.
    #[test]
    fn the_door_never_panics(raw in prop::collection::vec((any::<f64>(), any::<f64>(), any::<f64>()), 0..9)) {
        let vertices: Vec<Vertex> = raw.iter().map(|&(x, y, b)| Vertex::arc(x, y, b)).collect();
        let _ = validate::open_path(&vertices);
        if let Ok(outline) = Outline::check(vertices) {
            prop_assert!(outline.area() > 0.0);
        }
    }

    /// The same with numbers of a lot's size, many of them equal: touching, crossing, doubling back.
    #[test]
    fn the_door_lets_in_only_simple_outlines(raw in prop::collection::vec((0i8..5, 0i8..5, -2i8..3), 2..9)) {
        let vertices: Vec<Vertex> = raw
            .iter()
            .map(|&(x, y, b)| Vertex::arc(f64::from(x), f64::from(y), f64::from(b) / 4.0))
            .collect();
        if let Ok(outline) = Outline::check(vertices) {
            // A simple ring is its own positive winding: cleaning it changes nothing.
            let region = outline.region(DRAWING_TOLERANCE);
            let cleaned = boolean::positive_winding(&[region.polygons[0].outer.clone()]);
            prop_assert_eq!(cleaned.polygons.len(), 1);
            prop_assert!((cleaned.area() - region.area()).abs() < 1e-5);
        }
    }

    /// Nothing panics on a figure whose coordinates are not finite or absurd.
    #[test]
    fn spoilt_figures_do_no_harm(ring in star(), i in 0usize..5, bad in any::<f64>(), r in any::<f64>()) {
        let mut spoilt = ring.clone();
        spoilt.0[i].x = bad;
        let (good, spoilt) = (area_of(&ring), area_of(&spoilt));
        let _ = boolean::union(&good, &spoilt);
        let _ = nearest(Figure::Area(&good), Figure::Area(&spoilt));
        let _ = offset::offset_region(&spoilt, 1.0, DRAWING_TOLERANCE);
        let r = if r.abs() > 1e4 { f64::NAN } else { r };
        let _ = offset::offset_region(&good, r, DRAWING_TOLERANCE);
        let _ = offset::offset_mitred(&ring, r);
    }
}

/// Distance from a point to a line or an arc, by angles.
pub fn to_segment(p: Point, segment: &Segment) -> f64 {
    match *segment {
        Segment::Line { from, to } => to_edge(p, from, to),
        Segment::Arc {
            from,
            to,
            centre,
            radius,
            start_angle,
            sweep,
        } => {
            let turned = ((p - centre).angle() - start_angle) * sweep.signum();
            let within = turned.rem_euclid(TURN) <= sweep.abs();
            let to_ends = p.distance(from).min(p.distance(to));
            if within {
                (p.distance(centre) - radius).abs()
            } else {
                to_ends
            }
        }
    }
}
