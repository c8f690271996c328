//! Closed forms of plane geometry.
//!
//! Source of every figure: computed independently from the formula written beside it (Steiner's
//! for widened convex figures, the sector and segment of a circle), numbers worked out to four
//! decimals outside this project. Lengths are read as meters; the figures hold in any unit.

use batterboard_core::geom::flatten::{ChordSide, flatten};
use batterboard_core::geom::path::bulge_of_angle;
use batterboard_core::geom::{
    DRAWING_TOLERANCE, Outline, Point, Region, Ring, Segment, VOLUME_TOLERANCE, Vertex, boolean,
    offset,
};
use batterboard_core::math::TURN;

use super::close;

const PI: f64 = TURN / 2.0;

/// Fine enough that four decimals of an area of 1,000 stand.
const FINE: f64 = 1e-6;

fn ring(points: &[[f64; 2]]) -> Ring {
    Ring(points.iter().copied().map(Point::from).collect())
}

fn rectangle(w: f64, h: f64) -> Region {
    Region::from_ring(ring(&[[0., 0.], [w, 0.], [w, h], [0., h]]))
}

/// The right triangle of sides 3, 4 and 5.
fn triangle() -> Region {
    Region::from_ring(ring(&[[0., 0.], [4., 0.], [0., 3.]]))
}

/// A rectangle whose corners are quarter circles.
fn rounded_rectangle(w: f64, h: f64, r: f64) -> Outline {
    let quarter = bulge_of_angle(TURN / 4.0);
    Outline::check(vec![
        Vertex::line(r, 0.0),
        Vertex::arc(w - r, 0.0, quarter),
        Vertex::line(w, r),
        Vertex::arc(w, h - r, quarter),
        Vertex::line(w - r, h),
        Vertex::arc(r, h, quarter),
        Vertex::line(0.0, h - r),
        Vertex::arc(0.0, r, quarter),
    ])
    .unwrap()
}

/// Steiner: A + P r + pi r^2.
#[test]
fn widened_convex_figures() {
    let pool = rectangle(30.0, 14.0);
    close(
        "30 x 14 by 2",
        offset::offset_region(&pool, 2.0, FINE).area(),
        608.5664,
        1e-4,
    );
    close(
        "30 x 14 by 3",
        offset::offset_region(&pool, 3.0, FINE).area(),
        712.2743,
        1e-4,
    );
    close(
        "3-4-5 by 2",
        offset::offset_region(&triangle(), 2.0, FINE).area(),
        42.5664,
        1e-4,
    );
    let hexagon = (0..6).map(|i| {
        let angle = TURN * f64::from(i) / 6.0;
        Point::default() + batterboard_core::geom::Vector::at_angle(angle) * 10.0
    });
    let hexagon = Region::from_ring(Ring(hexagon.collect()));
    let wider = offset::offset_region(&hexagon, 3.0, FINE);
    close("hexagon of side 10 by 3", wider.area(), 468.0820, 1e-4);
    close("its length", wider.perimeter(), 60.0 + TURN * 3.0, 1e-4);
}

/// Mitred: A + P r + r^2 sum tan(theta / 2), 4 r^2 for a rectangle.
#[test]
fn widened_with_sharp_corners() {
    let corners = &rectangle(30.0, 14.0).polygons[0].outer;
    let wider = offset::offset_mitred(corners, 2.0);
    close("30 x 14 mitred by 2", wider.area(), 34.0 * 18.0, 1e-5);
    // The 3-4-5 triangle: tan(theta / 2) = cot(corner / 2) = 1, 2 and 3, which sum to P^2 / 4 A.
    let wider = offset::offset_mitred(&triangle().polygons[0].outer, 0.5);
    close(
        "3-4-5 mitred by 0.5",
        wider.area(),
        6.0 + 6.0 + 0.25 * 6.0,
        1e-6,
    );
}

/// The same pit widened level by level is the frustum's footprint, mitred or rounded.
#[test]
fn levels_of_a_sloped_pit() {
    // 32 x 16, side slope 1.5:1, 6 deep: the top is 9 wider all round.
    let floor = rectangle(32.0, 16.0);
    let mitred = offset::offset_mitred(&floor.polygons[0].outer, 9.0);
    close("mitred top", mitred.area(), 50.0 * 34.0, 1e-4);
    let rounded = offset::offset_region(&floor, 9.0, FINE);
    close(
        "rounded top",
        rounded.area(),
        512.0 + 96.0 * 9.0 + PI * 81.0,
        1e-3,
    );
}

/// Segment of a circle: R^2 (t - sin t) / 2, chord, sagitta and length of a quarter of radius 10.
#[test]
fn a_quarter_circle() {
    let bow = vec![
        Vertex::arc(10.0, 0.0, bulge_of_angle(TURN / 4.0)),
        Vertex::line(0.0, 10.0),
    ];
    let bow = Outline::check(bow).unwrap();
    close("area", bow.area(), 28.5398, 5e-5);
    let arc = bow.segments().next().unwrap();
    close("length", arc.length(), 15.7080, 5e-5);
    close("chord", arc.from().distance(arc.to()), 14.1421, 5e-5);
    let Segment::Arc { centre, radius, .. } = arc else {
        panic!("the first side is an arc")
    };
    let sagitta = radius - arc.from().midpoint(arc.to()).distance(centre);
    close("sagitta", sagitta, 2.9289, 5e-5);
    // R from chord c and sagitta m: c^2 / 8 m + m / 2.
    close(
        "radius",
        14.1421_f64 * 14.1421 / (8.0 * 2.9289) + 2.9289 / 2.0,
        radius,
        1e-3,
    );
}

/// An inscribed chord of step phi loses r^2 (phi - sin phi) / 2.
#[test]
fn what_chords_lose() {
    let disc = vec![Vertex::arc(-4.0, 0.0, 1.0), Vertex::arc(4.0, 0.0, 1.0)];
    let disc = Outline::check(disc).unwrap();
    for tolerance in [0.1, DRAWING_TOLERANCE, VOLUME_TOLERANCE] {
        let chords = flatten(&disc, tolerance, ChordSide::Inscribed);
        let count = chords.0.len() as f64;
        let step = TURN / count;
        let lost = count * 8.0 * (step - batterboard_core::math::sin(step));
        close("lost", disc.area() - chords.signed_area(), lost, 1e-9);
    }
}

/// L W - (4 - pi) r^2 and 2 (L + W) - (8 - 2 pi) r; a capsule is pi r^2 + 2 r l.
#[test]
fn rounded_rectangles_and_capsules() {
    let pool = rounded_rectangle(30.0, 14.0, 3.0);
    close("area", pool.area(), 412.2743, 5e-5);
    close("perimeter", pool.perimeter(), 82.8496, 5e-5);
    let chords = flatten(&pool, VOLUME_TOLERANCE, ChordSide::Centred);
    close(
        "area of centred chords",
        chords.signed_area(),
        412.2743,
        5e-5,
    );
    let wire = [Point::new(1.0, 1.0), Point::new(8.0, 1.0)];
    let capsule = offset::offset_chain(&wire, 2.0, FINE);
    close("capsule", capsule.area(), PI * 4.0 + 2.0 * 2.0 * 7.0, 1e-4);
}

/// Narrowing a figure that has an inscribed circle of radius rho: A (1 - r / rho)^2.
#[test]
fn narrowed_figures() {
    let narrower = offset::offset_region(&triangle(), -0.25, FINE);
    close("3-4-5 by 0.25", narrower.area(), 3.375, 1e-6);
    assert!(offset::offset_region(&triangle(), -1.0, FINE).area() < 1e-6);
    assert!(offset::offset_region(&triangle(), -1.01, FINE).is_empty());
    let yard = offset::offset_region(&rectangle(30.0, 14.0), -2.5, FINE);
    close("30 x 14 by 2.5", yard.area(), 25.0 * 9.0, 1e-5);
}

/// Narrowed then widened, a right-angled corner loses r^2 (1 - pi / 4); widened then narrowed, an
/// inner one gains as much, and a convex figure is itself again.
#[test]
fn opened_and_closed_corners() {
    let (r, coarse) = (1.5, 1e-4);
    let corner = r * r * (1.0 - PI / 4.0);
    // Two thirds of the tolerance along the round corners, each time they are made.
    let allowed = 2.0 * coarse * (2.0 / 3.0) * TURN * r;
    let opened = |region: &Region| {
        offset::offset_region(&offset::offset_region(region, -r, coarse), r, coarse)
    };
    let closed = |region: &Region| {
        offset::offset_region(&offset::offset_region(region, r, coarse), -r, coarse)
    };
    let pool = rectangle(30.0, 14.0);
    close(
        "opened",
        opened(&pool).area(),
        420.0 - 4.0 * corner,
        allowed,
    );
    close("closed", closed(&pool).area(), 420.0, allowed);
    let l = [
        [0., 0.],
        [20., 0.],
        [20., 8.],
        [8., 8.],
        [8., 20.],
        [0., 20.],
    ];
    let l = Region::from_ring(ring(&l));
    close("closed L", closed(&l).area(), l.area() + corner, allowed);
}

/// Two 30 x 14 rectangles crossed square: 2 x 420 - 14^2 and 14^2.
#[test]
fn crossed_rectangles() {
    let along = rectangle(30.0, 14.0);
    let across = Region::from_ring(ring(&[[8., -8.], [22., -8.], [22., 22.], [8., 22.]]));
    close("union", boolean::union(&along, &across).area(), 644.0, 1e-5);
    close(
        "overlap",
        boolean::intersection(&along, &across).area(),
        196.0,
        1e-5,
    );
    let arms = boolean::difference(&along, &across);
    assert_eq!(arms.polygons.len(), 2);
    close("arms", arms.area(), 224.0, 1e-5);
}
