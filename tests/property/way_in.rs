//! The widest way by gaps against a second method: everything that stands in the way grown by half a
//! width into one region, and whether the land that is left still hangs together.

use batterboard_core::geom::boolean::{difference, positive_winding};
use batterboard_core::geom::gap::{Piece, clearance, widest};
use batterboard_core::geom::offset::offset_chain;
use batterboard_core::geom::{Outline, Point, Region, Ring, Vector, Vertex};
use batterboard_core::math::TURN;
use batterboard_core::way_in::least_width;
use proptest::prelude::*;

/// Both methods agree to this, meters: arcs of the grown region are flattened.
const AGREE: f64 = 0.002;

/// Chord error of the grown region, meters.
const FINE: f64 = 0.000_1;

/// The yard is so wide and so deep, meters.
const SIZE: (f64, f64) = (24.0, 32.0);

/// Something in the yard: a chain of points, or a disc.
#[derive(Debug, Clone)]
enum Thing {
    Chain(Vec<Point>),
    Disc(Point, f64),
}

fn spot() -> impl Strategy<Value = Point> {
    (0.5..SIZE.0 - 0.5, 2.0..SIZE.1 - 0.5).prop_map(|(x, y)| Point::new(x, y))
}

fn thing() -> impl Strategy<Value = Thing> {
    let block = (spot(), 0.0..TURN, 1.0..9.0_f64, 1.0..6.0_f64);
    let block = block.prop_map(|(at, turn, long, wide)| {
        let (a, b) = (
            Vector::at_angle(turn) * long,
            Vector::at_angle(turn).left() * wide,
        );
        Thing::Chain(vec![at, at + a, at + a + b, at + b, at])
    });
    let fence = proptest::collection::vec(spot(), 2..5).prop_map(Thing::Chain);
    let disc = (spot(), 0.1..2.0_f64).prop_map(|(at, radius)| Thing::Disc(at, radius));
    prop_oneof![block, fence, disc]
}

/// The yard, closed but for its street side, and what is in it.
fn all(things: &[Thing]) -> Vec<Thing> {
    let (wide, deep) = SIZE;
    let corners = [[0.0, 0.0], [0.0, deep], [wide, deep], [wide, 0.0]].map(Point::from);
    let yard = Thing::Chain(corners.to_vec());
    core::iter::once(yard)
        .chain(things.iter().cloned())
        .collect()
}

fn pieces(things: &[Thing]) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for (owner, thing) in all(things).iter().enumerate() {
        match thing {
            Thing::Chain(chain) => pieces.extend(chain.array_windows().map(|[from, to]| Piece {
                from: *from,
                to: *to,
                radius: 0.0,
                owner,
            })),
            Thing::Disc(at, radius) => pieces.push(Piece {
                from: *at,
                to: *at,
                radius: *radius,
                owner,
            }),
        }
    }
    pieces
}

/// Whether a disc of this width gets from far away to a point.
fn gets_there(things: &[Thing], width: f64, goal: Point) -> bool {
    let things = all(things);
    let grown = things.iter().map(|thing| match thing {
        Thing::Chain(chain) => offset_chain(chain, width / 2.0, FINE),
        Thing::Disc(at, radius) => {
            let r = radius + width / 2.0;
            let round = vec![
                Vertex::arc(at.x - r, at.y, 1.0),
                Vertex::arc(at.x + r, at.y, 1.0),
            ];
            Outline::check(round).unwrap().region(FINE)
        }
    });
    let rings: Vec<Ring> = grown
        .flat_map(|it| it.rings().cloned().collect::<Vec<Ring>>())
        .collect();
    let grown = positive_winding(&rings);
    let far = 100.0;
    let world = [[-far, -far], [far, -far], [far, far], [-far, far]].map(Point::from);
    let left = difference(&Region::from_ring(Ring(world.to_vec())), &grown);
    let street = Point::new(0.0, 1.0 - far);
    left.polygons.iter().any(|polygon| {
        let polygon = Region {
            polygons: vec![polygon.clone()],
        };
        polygon.contains(goal) && polygon.contains(street)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn a_disc_gets_through_up_to_the_widest_way_and_no_wider(
        things in proptest::collection::vec(thing(), 0..7),
        goal in spot(),
    ) {
        let pieces = pieces(&things);
        let room = clearance(&pieces, goal).0;
        prop_assume!(room > 0.05);
        let found = widest(&pieces, &[goal]).unwrap();
        let width = found.width();
        prop_assert!(width <= 2.0 * room + 1e-9);
        if width > AGREE {
            prop_assert!(gets_there(&things, width - AGREE, goal), "not at {}", width - AGREE);
        }
        prop_assert!(!gets_there(&things, width + AGREE, goal), "still at {}", width + AGREE);
        // The pinch is as long as the way is wide, and lies on what it was measured between.
        if let Some(gap) = found.pinch.filter(|_| !found.at_goal) {
            let [a, b] = gap.ends;
            prop_assert!((a.distance(b) - width).abs() < 1e-9);
            for (end, piece) in gap.ends.iter().zip(gap.pieces) {
                prop_assert!(pieces[piece].distance(*end).abs() < 1e-6 || width == 0.0);
            }
        }
    }

    #[test]
    fn the_best_of_many_goals_is_the_best_of_each(
        things in proptest::collection::vec(thing(), 1..6),
        goals in proptest::collection::vec(spot(), 1..6),
    ) {
        let pieces = pieces(&things);
        let one = |goal: &Point| widest(&pieces, &[*goal]).unwrap().width();
        let best = goals.iter().map(one).fold(0.0, f64::max);
        prop_assert!((widest(&pieces, &goals).unwrap().width() - best).abs() < 1e-12);
    }

    #[test]
    fn what_is_taken_out_never_narrows_the_way(
        things in proptest::collection::vec(thing(), 1..6),
        goal in spot(),
    ) {
        let with = pieces(&things);
        let without = pieces(&things[1..]);
        let way = |pieces: &[Piece]| widest(pieces, &[goal]).unwrap().width();
        prop_assert!(way(&without) >= way(&with) - 1e-9);
    }

    #[test]
    fn the_least_width_is_the_least_over_all_headings(
        points in proptest::collection::vec(spot(), 3..20),
    ) {
        let least = least_width(&points);
        let across = |turn: f64| {
            let way = Vector::at_angle(turn);
            let along = points.iter().map(|p| way.dot(*p - Point::default()));
            let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
                (low.min(it), high.max(it))
            });
            high - low
        };
        let tried = (0..3600).map(|i| across(f64::from(i) * TURN / 7200.0));
        let tried = tried.fold(f64::INFINITY, f64::min);
        // Never wider than any heading, and some heading of 3,600 comes near: the width changes by
        // no more than the diameter times the step.
        prop_assert!(least <= tried + 1e-9);
        prop_assert!(tried - least < 40.0 * TURN / 7200.0);
    }
}

/// The machinery above agrees with itself where the answer is plain: the second method alone on a
/// square opening.
#[test]
fn the_second_method_sees_a_gate() {
    let fence =
        |from: f64, to: f64| Thing::Chain(vec![Point::new(from, 10.0), Point::new(to, 10.0)]);
    let things = [fence(0.0, 8.0), fence(9.5, SIZE.0)];
    let goal = Point::new(12.0, 20.0);
    assert!(gets_there(&things, 1.498, goal) && !gets_there(&things, 1.502, goal));
}
