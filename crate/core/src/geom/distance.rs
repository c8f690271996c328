//! Distance between two figures, with the two points it was measured between.
//!
//! Distances are exact for the straight edges they are given: the nearest points of two
//! boundaries that do not cross lie at a vertex of one of them. What flattening took from an
//! arc (see [`super::flatten`]) is the only error: at most its tolerance for each figure.

use super::boundary::Boundary;
use super::point::Point;
use super::region::Region;

/// Two distances that differ by less than this are the same, meters.
const TIE: f64 = 1e-9;

/// The nearest pair of points of two figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    /// Distance, meters; negative when the figures overlap (how deep, see the function).
    pub distance: f64,
    /// The point on the first figure (site meters).
    pub from: Point,
    /// The point on the second figure (site meters).
    pub to: Point,
}

impl Nearest {
    fn between(from: Point, to: Point) -> Self {
        Self {
            distance: from.distance(to),
            from,
            to,
        }
    }

    /// The same pair told as a depth.
    fn sunk(self) -> Self {
        Self {
            distance: -self.distance,
            ..self
        }
    }

    /// The same measurement taken from the second figure to the first.
    fn swapped(self) -> Self {
        Self {
            from: self.to,
            to: self.from,
            ..self
        }
    }

    /// The lesser of two measurements; the first when they are equal.
    fn lesser(self, other: Self) -> Self {
        if other.distance < self.distance {
            other
        } else {
            self
        }
    }
}

/// A figure to measure to or from, flattened already.
#[derive(Debug, Clone, Copy)]
pub enum Figure<'a> {
    /// An area: being inside it counts as overlapping.
    Area(&'a Region),
    /// A chain of straight edges with nothing inside.
    Chain(&'a [Point]),
}

/// A figure made ready to be measured against one after another.
pub struct Measurable<'a> {
    figure: Figure<'a>,
    edges: Boundary,
}

impl Figure<'_> {
    /// Whether the point lies inside; nothing is inside a chain.
    fn holds(&self, p: Point) -> bool {
        match self {
            Self::Area(region) => region.contains(p),
            Self::Chain(_) => false,
        }
    }

    fn centroid(&self) -> Option<Point> {
        match self {
            Self::Area(region) => region.centroid(),
            Self::Chain(_) => None,
        }
    }
}

/// Nearest points of two figures: [`Measurable::nearest`] for a pair measured once.
pub fn nearest(a: Figure<'_>, b: Figure<'_>) -> Option<Nearest> {
    Measurable::of(a).nearest(&Measurable::of(b))
}

/// Nearest points of an area that should lie inside `inside` (the lot) and one `side` of it:
/// [`Within::nearest`] for a pair measured once.
pub fn nearest_inside(area: &Region, inside: &Region, side: &[Point]) -> Option<Nearest> {
    let lot = Measurable::of(Figure::Area(inside));
    Measurable::of(Figure::Area(area))
        .within(&lot)
        .nearest(side)
}

impl<'a> Measurable<'a> {
    /// The figure, made ready.
    pub fn of(figure: Figure<'a>) -> Self {
        Self {
            figure,
            edges: match figure {
                Figure::Area(region) => Boundary::of_rings(region.rings()),
                Figure::Chain(points) => Boundary::of_chain(points),
            },
        }
    }

    /// Distance between the upright boxes round the two figures, meters; 0 where they meet. The
    /// figures are no nearer.
    pub fn boxes_apart(&self, other: &Measurable<'_>) -> f64 {
        self.edges.boxes_apart(&other.edges)
    }

    /// Nearest points of this figure and another. `None` when either is empty or none of its
    /// coordinates is finite.
    ///
    /// Where they overlap the distance is negative: how deep the deepest place of one lies inside
    /// the other, `from` and `to` being that place and the nearest point of the other's boundary.
    /// The places looked at are the vertices, the middles of the stretches between vertices and
    /// crossings, and the centroids. Two chains that cross are 0 apart.
    pub fn nearest(&self, other: &Measurable<'_>) -> Option<Nearest> {
        let (a, b) = (&self.edges, &other.edges);
        let (from, to) = a.nearest(b)?;
        let apart = Nearest::between(from, to);
        if !a.box_meets(b) {
            return Some(apart);
        }
        let crossing = a.first_crossing(b);
        let clear = crossing.is_none() && apart.distance > TIE;
        let nested =
            || a.any_start(|p| other.figure.holds(p)) || b.any_start(|p| self.figure.holds(p));
        if clear && !nested() {
            return Some(apart);
        }
        let from_a = self.deepest(other);
        let from_b = other.deepest(self).map(Nearest::swapped);
        let overlap = from_a.into_iter().chain(from_b).reduce(Nearest::lesser);
        let touch = crossing.map(|p| Nearest::between(p, p));
        Some(overlap.or(touch).unwrap_or(apart))
    }

    /// The place of this figure that lies deepest inside another, and the point of the other
    /// nearest to it.
    fn deepest(&self, other: &Measurable<'_>) -> Option<Nearest> {
        let places = self.edges.places(&other.edges).into_iter();
        places
            .chain(self.figure.centroid())
            .filter(|p| other.figure.holds(*p))
            .filter_map(|p| Some(Nearest::between(p, other.edges.nearest_to(p)?).sunk()))
            .reduce(Nearest::lesser)
    }

    /// This figure as one that should lie inside another (the lot).
    pub fn within<'b>(&'b self, lot: &'b Measurable<'b>) -> Within<'b> {
        let crosses =
            self.edges.box_meets(&lot.edges) && self.edges.first_crossing(&lot.edges).is_some();
        Within {
            area: &self.edges,
            lot,
            whole: !crosses && self.edges.all_starts(|p| lot.figure.holds(p)),
        }
    }
}

/// An area that should lie inside another.
pub struct Within<'a> {
    area: &'a Boundary,
    lot: &'a Measurable<'a>,
    /// Whether all of it does.
    whole: bool,
}

impl Within<'_> {
    /// Whether the area lies inside and is certain to stay farther than `by` meters from a side:
    /// told by boxes alone, so `false` says nothing.
    pub fn is_clear_of(&self, side: &[Point], by: f64) -> bool {
        self.whole && self.area.boxes_apart(&Boundary::of_chain(side)) > by
    }

    /// Nearest points of the area and one side of the other. `None` when the area or the side is
    /// empty.
    ///
    /// Positive while the area stays on the inner side; negative when the area reaches over this
    /// side: then how far the farthest place of its boundary beyond it has gone. A place outside
    /// belongs to the side it is nearest to (at a corner to both), so reaching over one side does
    /// not count against another; a side that is crossed without such a place leaves 0. The places
    /// looked at are the vertices and the middles of the stretches between vertices and crossings.
    pub fn nearest(&self, side: &[Point]) -> Option<Nearest> {
        let (area, lot) = (self.area, self.lot);
        let side = Boundary::of_chain(side);
        let (from, to) = area.nearest(&side)?;
        let apart = Nearest::between(from, to);
        if self.whole {
            return Some(apart);
        }
        let beyond = area
            .places(&lot.edges)
            .into_iter()
            .filter(|p| !lot.figure.holds(*p))
            .filter_map(|p| {
                let gone = Nearest::between(p, side.nearest_to(p)?);
                let to_lot = p.distance(lot.edges.nearest_to(p)?);
                (gone.distance <= to_lot + TIE).then(|| gone.sunk())
            })
            .reduce(Nearest::lesser);
        let touch = || area.first_crossing(&side).map(|p| Nearest::between(p, p));
        Some(beyond.or_else(touch).unwrap_or(apart))
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::geom::Ring;

    /// An upright block by its lower left corner and its size.
    pub fn block(x: f64, y: f64, w: f64, h: f64) -> Region {
        Region::from_ring(Ring(vec![
            Point::new(x, y),
            Point::new(x + w, y),
            Point::new(x + w, y + h),
            Point::new(x, y + h),
        ]))
    }

    fn between(a: &Region, b: &Region) -> Nearest {
        nearest(Figure::Area(a), Figure::Area(b)).unwrap()
    }

    fn assert_near(n: Nearest, distance: f64, from: [f64; 2], to: [f64; 2]) {
        assert!((n.distance - distance).abs() < 1e-12, "{n:?}");
        assert!(n.from.distance(from.into()) < 1e-12, "{n:?}");
        assert!(n.to.distance(to.into()) < 1e-12, "{n:?}");
    }

    #[test]
    fn apart_they_are_measured_corner_to_corner() {
        let n = between(&block(0., 0., 2., 1.), &block(5., 5., 1., 1.));
        assert_near(n, 5.0, [2., 1.], [5., 5.]);
    }

    #[test]
    fn a_wall_is_measured_square() {
        let chain = [Point::new(3.0, -9.0), Point::new(3.0, 9.0)];
        let n = nearest(Figure::Area(&block(0., 0., 2., 1.)), Figure::Chain(&chain)).unwrap();
        assert_near(n, 1.0, [2., 0.], [3., 0.]);
    }

    #[test]
    fn overlap_is_told_as_depth() {
        let n = between(&block(0., 0., 4., 4.), &block(3., 1.5, 4., 1.));
        assert_near(n, -1.0, [4., 1.5], [3., 1.5]);
        let n = between(&block(0., 0., 4., 4.), &block(3.5, 1., 4., 2.));
        assert!((n.distance + 0.5).abs() < 1e-12);
    }

    #[test]
    fn one_inside_the_other_is_told_as_depth() {
        let (small, large) = (block(4., 4., 1., 1.), block(0., 0., 10., 10.));
        let n = between(&small, &large);
        assert!(n.distance <= -4.5, "{n:?}");
        let back = between(&large, &small);
        assert!((back.distance - n.distance).abs() < 1e-12);
    }

    #[test]
    fn bars_that_cross_without_a_corner_inside_overlap() {
        let n = between(&block(-5., 0., 10., 1.), &block(0., -5., 1., 10.));
        assert!((n.distance + 0.5).abs() < 1e-12, "{n:?}");
    }

    #[test]
    fn the_same_area_twice_overlaps_and_neighbours_only_touch() {
        let a = block(0., 0., 4., 2.);
        assert!((between(&a, &a).distance + 1.0).abs() < 1e-12);
        assert_eq!(between(&a, &block(4., 0., 3., 2.)).distance, 0.0);
        assert_eq!(between(&a, &block(4., 2., 3., 2.)).distance, 0.0);
    }

    #[test]
    fn a_wire_over_the_middle_is_deep_and_wires_cross_at_nothing() {
        let wire = [Point::new(-9., 1.), Point::new(9., 1.)];
        let n = nearest(Figure::Chain(&wire), Figure::Area(&block(0., 0., 4., 2.))).unwrap();
        assert!((n.distance + 1.0).abs() < 1e-12, "{n:?}");
        let pipe = [Point::new(1., -9.), Point::new(1., 9.)];
        let n = nearest(Figure::Chain(&wire), Figure::Chain(&pipe)).unwrap();
        assert_near(n, 0.0, [1., 1.], [1., 1.]);
    }

    #[test]
    fn a_hole_is_outside() {
        let mut yard = block(0., 0., 10., 10.);
        yard.polygons[0].holes = vec![block(3., 3., 4., 4.).polygons[0].outer.reversed()];
        let n = between(&block(4.5, 4.5, 1., 1.), &yard);
        assert!((n.distance - 1.5).abs() < 1e-12);
    }

    #[test]
    fn nothing_is_near_to_nothing() {
        let a = block(0., 0., 1., 1.);
        assert!(nearest(Figure::Area(&a), Figure::Chain(&[])).is_none());
        assert!(nearest(Figure::Area(&Region::default()), Figure::Area(&a)).is_none());
        let spoilt = [Point::new(f64::NAN, 0.0)];
        assert!(nearest(Figure::Area(&a), Figure::Chain(&spoilt)).is_none());
        let point = [Point::new(3.0, 0.5)];
        let n = nearest(Figure::Area(&a), Figure::Chain(&point)).unwrap();
        assert_near(n, 2.0, [1., 0.5], [3., 0.5]);
    }

    /// An L-shaped lot and its sides.
    fn lot() -> (Region, Vec<[Point; 2]>) {
        let ring = Ring(
            [
                [0., 0.],
                [20., 0.],
                [20., 10.],
                [10., 10.],
                [10., 20.],
                [0., 20.],
            ]
            .map(Point::from)
            .to_vec(),
        );
        let sides = ring.edges().map(|(a, b)| [a, b]).collect();
        (Region::from_ring(ring), sides)
    }

    fn rooms(area: &Region) -> Vec<f64> {
        let (lot, sides) = lot();
        let room = |side: &[Point; 2]| nearest_inside(area, &lot, side).unwrap().distance;
        sides.iter().map(room).collect()
    }

    /// What boxes alone tell is never more than what is measured.
    #[test]
    fn an_area_is_clear_of_a_side_only_where_it_is() {
        let (lot, sides) = lot();
        let whole = Measurable::of(Figure::Area(&lot));
        for (x, y) in [(2., 3.), (0.5, 3.), (-1., 3.), (30., 40.)] {
            let area = block(x, y, 4., 4.);
            let area = Measurable::of(Figure::Area(&area));
            let within = area.within(&whole);
            for (side, by) in sides
                .iter()
                .flat_map(|side| [0.4, 2.5, 9.0].map(|by| (side, by)))
            {
                let room = within.nearest(side).unwrap().distance;
                assert!(
                    !within.is_clear_of(side, by) || room > by,
                    "{x} {side:?} {by}"
                );
            }
        }
        let area = block(2., 3., 4., 4.);
        let area = Measurable::of(Figure::Area(&area));
        assert!(area.within(&whole).is_clear_of(&sides[0], 2.5));
        let far = block(9., 7., 1., 1.);
        assert_eq!(area.boxes_apart(&Measurable::of(Figure::Area(&far))), 3.0);
    }

    #[test]
    fn inside_the_lot_every_side_has_its_own_room() {
        let rooms = rooms(&block(2., 3., 4., 4.));
        for (room, expected) in rooms.iter().zip([3.0, 14.0, 5.0, 5.0, 13.0, 2.0]) {
            assert!((room - expected).abs() < 1e-9, "{rooms:?}");
        }
    }

    #[test]
    fn reaching_over_one_side_does_not_count_against_another() {
        let rooms = rooms(&block(2., -1.5, 4., 4.));
        assert!((rooms[0] + 1.5).abs() < 1e-12, "{rooms:?}");
        assert!(rooms[1..].iter().all(|room| *room > 0.0), "{rooms:?}");
    }

    #[test]
    fn over_a_corner_both_sides_are_short() {
        let rooms = rooms(&block(-1., -2., 4., 4.));
        let corner = 5f64.sqrt();
        assert!((rooms[0] + corner).abs() < 1e-12, "{rooms:?}");
        assert!((rooms[5] + corner).abs() < 1e-12, "{rooms:?}");
    }

    #[test]
    fn wholly_off_the_lot_the_nearest_side_tells() {
        let (lot, sides) = lot();
        let n = nearest_inside(&block(5., -4., 2., 1.), &lot, &sides[0]).unwrap();
        assert!((n.distance + 4.0).abs() < 1e-12);
        assert!(n.to.y.abs() < 1e-12 && (n.from.y + 4.0).abs() < 1e-12);
    }

    #[test]
    fn a_side_that_is_crossed_leaves_no_room() {
        // Over both sides of the notch, its far corner nearer to the upright one.
        let points = [[10.6, 9.0], [10.1, 11.0], [9.0, 9.5]].map(Point::from);
        let rooms = rooms(&Region::from_ring(Ring(points.to_vec())));
        assert!(rooms[3] < -0.1, "{rooms:?}");
        assert_eq!(rooms[2], 0.0, "{rooms:?}");
    }

    #[test]
    fn the_notch_of_an_l_counts() {
        let rooms = rooms(&block(7., 7., 4., 3.5));
        assert!(rooms[2] < 0.0 || rooms[3] < 0.0, "{rooms:?}");
        // The corner (11, 10.5) is half a meter beyond the level side.
        assert!((rooms[2] + 0.5).abs() < 1e-12, "{rooms:?}");
    }
}
