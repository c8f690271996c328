//! The surface of a hole at single points, many of them, and the lines along which it bends or steps.
//!
//! Sides that are all alike have a closed form ([`super::influence`]); any others are plane facets of which the deepest
//! counts ([`super::facets`]). Either is exact; no grid is filled.

use super::facets::Facets;
use super::hole::{Form, Hole};
use super::influence;
use super::relief::Floor;
use super::shape::depths;
use crate::geom::region::bounds;
use crate::geom::{Point, Region, Vector};
use crate::shell::{DepthPlane, Shell};
use crate::site::DigSettings;

/// Side of the squares in which facets are looked up, meters.
const SQUARE: f64 = 0.5;

/// The surface of a hole, shell frame.
pub struct Depths {
    hole: Hole,
    above: f64,
    facets: Option<Faceted>,
}

/// Facets and floors, found by where they are.
struct Faceted {
    facets: Facets,
    floors: Vec<(Region, Vector, DepthPlane)>,
    /// Lower left corner of the squares, and how many there are in a row.
    corner: Point,
    columns: usize,
    /// The facets that may lie over each square.
    squares: Vec<Vec<u32>>,
}

impl Depths {
    /// The hole of a shell, followed up to `headroom` meters above its rim.
    pub fn of(shell: &Shell, settings: &DigSettings, headroom: f64) -> Self {
        let (hole, _) = Hole::of(shell, settings);
        let above = headroom.max(0.0);
        let facets = match hole.form() {
            Form::Cones(_) => None,
            Form::Facets(sides) => {
                let (facets, floors) = sides.surface(-above);
                Some(Faceted::of(facets, floors))
            }
        };
        Self {
            hole,
            above,
            facets,
        }
    }

    /// Depth below the rim at a point, meters (negative above it); minus infinity where there is no hole.
    pub fn at(&self, p: Point) -> f64 {
        match &self.facets {
            None => influence::depth_at(&self.hole.bottom, p),
            Some(facets) => facets.at(p),
        }
    }

    /// The edges of the hole from its headroom down to its bottom, no more than `step` meters apart in height and on
    /// either side of every bend: along each the depth is the same. With upright sides all round there are none between.
    pub fn contours(&self, step: f64) -> Vec<(f64, Region)> {
        let step = match self.hole.is_upright() {
            true => f64::INFINITY,
            false => step,
        };
        let depths = depths(&self.hole, self.above, step).into_iter();
        depths
            .map(|depth| (depth, self.hole.contour(depth)))
            .collect()
    }

    /// The foot of the sides and the pieces of the bottom: where the surface bends besides.
    pub fn bottom(&self) -> Vec<Region> {
        let mut all = vec![self.hole.floor()];
        all.extend(self.hole.bottom.pieces.iter().map(|it| it.region.clone()));
        all
    }

    /// The edge of the hole at a depth below the rim, meters (see [`super::DigShape::contour`]).
    pub fn contour(&self, depth: f64) -> Region {
        self.hole.contour(depth)
    }

    /// Whether any side slopes, or steps, so that the hole opens wider at the ground than at its foot.
    pub fn is_sloping(&self) -> bool {
        !self.hole.is_upright()
    }

    /// Greatest depth below the rim, meters.
    pub fn deepest(&self) -> f64 {
        self.hole.deepest()
    }
}

impl Faceted {
    fn of(facets: Facets, floors: Vec<Floor>) -> Self {
        let corners = facets.all.iter().flat_map(|it| facets.outline(it));
        let (low, high) = bounds(corners.copied()).unwrap_or_default();
        // A hole is tens of meters across.
        let count = |from: f64, to: f64| ((to - from) / SQUARE).ceil().clamp(1.0, 1000.0) as usize;
        let (columns, rows) = (count(low.x, high.x), count(low.y, high.y));
        let mut squares = vec![Vec::new(); columns * rows];
        for (number, facet) in facets.all.iter().enumerate() {
            let Some((from, to)) = bounds(facets.outline(facet).iter().copied()) else {
                continue;
            };
            let span = |a: f64, b: f64, first: f64, count: usize| {
                let at = |v: f64| ((v - first) / SQUARE).floor().max(0.0) as usize;
                at(a).min(count - 1)..=at(b).min(count - 1)
            };
            for row in span(from.y, to.y, low.y, rows) {
                for column in span(from.x, to.x, low.x, columns) {
                    if let Some(square) = squares.get_mut(row * columns + column) {
                        square.push(number as u32);
                    }
                }
            }
        }
        let floors = floors.into_iter();
        Self {
            floors: floors.map(|it| (it.region, it.shift, it.plane)).collect(),
            facets,
            corner: low,
            columns,
            squares,
        }
    }

    fn at(&self, p: Point) -> f64 {
        let off = p - self.corner;
        let (column, row) = ((off.x / SQUARE).floor(), (off.y / SQUARE).floor());
        let within = column >= 0.0 && row >= 0.0 && (column as usize) < self.columns;
        let square = within
            .then(|| {
                self.squares
                    .get(row as usize * self.columns + column as usize)
            })
            .flatten();
        let over = square.into_iter().flatten().filter_map(|number| {
            let facet = self.facets.all.get(*number as usize)?;
            holds(self.facets.outline(facet), p).then(|| facet.depth(p))
        });
        let floors = self.floors.iter();
        let floors = floors.filter(|(region, shift, _)| region.contains(p + -*shift));
        let floors = floors.map(|(_, _, plane)| plane.depth(p));
        over.chain(floors).fold(f64::NEG_INFINITY, f64::max)
    }
}

/// Whether a convex outline, whichever way it runs, holds a point.
fn holds(outline: &[Point], p: Point) -> bool {
    let edges = outline.iter().zip(outline.iter().cycle().skip(1));
    let (mut left, mut right) = (false, false);
    for (a, b) in edges {
        let turn = (*b - *a).cross(p - *a);
        left |= turn > 0.0;
        right |= turn < 0.0;
    }
    !(left && right)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dig::DigShape;
    use crate::shell::catalogue;
    use crate::site::{HoleSide, SideSettings};

    /// Both ways to a depth agree with the one that asks contours, or every edge.
    #[test]
    fn depths_are_those_of_the_hole() {
        for (name, by_side) in [("Knapweed", false), ("Pignut", true), ("Knapweed", true)] {
            let (shell, _) = Shell::check(catalogue::find(name).unwrap()).unwrap();
            let mut settings = DigSettings {
                over_dig: 0.2,
                side_slope: Some(0.75),
                ..DigSettings::default()
            };
            if by_side {
                settings.sides = vec![SideSettings {
                    side: HoleSide::Left,
                    over_dig: Some(0.4),
                    slope: Some(1.25),
                    note: String::new(),
                }];
            }
            let depths = Depths::of(&shell, &settings, 0.5);
            let shape = DigShape::new(&shell, &settings, 0.5);
            let (low, high) = shape.contour(-0.3).bounds().unwrap();
            for i in 0..12 {
                for k in 0..7 {
                    let share = |n: i32, of: f64| (f64::from(n) + 0.37) / of;
                    let p = Point::new(
                        low.x + (high.x - low.x) * share(i, 12.0),
                        low.y + (high.y - low.y) * share(k, 7.0),
                    );
                    let (found, exact) = (depths.at(p), shape.depth(p));
                    if exact > -0.3 {
                        assert!(
                            (found - exact).abs() < 2e-3,
                            "{name} {p:?}: {found} {exact}"
                        );
                    }
                }
            }
            assert!((depths.deepest() - shape.deepest()).abs() < 1e-12);
        }
    }
}
