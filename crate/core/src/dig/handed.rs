//! A cut as bare numbers, handed from one module to another that holds the same site.
//!
//! In the browser the plan and the desk are modules of their own with nothing in common but
//! numbers. The plan cuts the hole in every frame of a drag; handed over, it need not be cut again.

use super::{BySide, Dig};
use crate::geom::{Point, Polygon, Ring};

impl Dig {
    /// The cut as numbers: its figures one after another, then its lines, each with how many
    /// points follow. Nothing is rounded.
    pub fn to_numbers(&self) -> Vec<f64> {
        let mut copy = self.clone();
        let mut numbers: Vec<f64> = copy.figures().into_iter().map(|it| *it).collect();
        numbers.push(if self.closed { 1.0 } else { 0.0 });
        put_count(&mut numbers, self.top_edge.polygons.len());
        for polygon in &self.top_edge.polygons {
            put_count(&mut numbers, polygon.holes.len());
            put_points(&mut numbers, &polygon.outer.0);
            for hole in &polygon.holes {
                put_points(&mut numbers, &hole.0);
            }
        }
        put_count(&mut numbers, self.daylight.len());
        for chain in &self.daylight {
            put_points(&mut numbers, chain);
        }
        numbers
    }

    /// The cut that was written as these numbers; `None` of anything else.
    pub fn from_numbers(numbers: &[f64]) -> Option<Self> {
        let mut left = Left(numbers);
        let mut dig = Self::default();
        for figure in dig.figures() {
            *figure = left.number()?;
        }
        dig.closed = left.number()? > 0.0;
        for _ in 0..left.count()? {
            let holes = left.count()?;
            let outer = Ring(left.points()?);
            let holes = (0..holes).map(|_| left.points().map(Ring));
            dig.top_edge.polygons.push(Polygon {
                outer,
                holes: holes.collect::<Option<_>>()?,
            });
        }
        let chains = left.count()?;
        dig.daylight = (0..chains).map(|_| left.points()).collect::<Option<_>>()?;
        left.0.is_empty().then_some(dig)
    }

    /// Every figure that is one number, in a fixed order.
    fn figures(&mut self) -> [&mut f64; 18] {
        let Self {
            bank_volume,
            unsurveyed_volume,
            unsurveyed_area,
            volume_below_cap,
            top_area,
            top_edge: _,
            floor_area,
            side_slope,
            steepest,
            slopes:
                BySide {
                    ahead,
                    left,
                    behind,
                    right,
                },
            upright_toe,
            greatest_depth,
            bottom_elevation,
            rim_above_ground,
            ground_above_rim,
            area_above_ground,
            daylight: _,
            closed: _,
        } = self;
        [
            bank_volume,
            unsurveyed_volume,
            unsurveyed_area,
            volume_below_cap,
            top_area,
            floor_area,
            side_slope,
            steepest,
            ahead,
            left,
            behind,
            right,
            upright_toe,
            greatest_depth,
            bottom_elevation,
            rim_above_ground,
            ground_above_rim,
            area_above_ground,
        ]
    }
}

fn put_count(numbers: &mut Vec<f64>, count: usize) {
    numbers.push(count as f64);
}

fn put_points(numbers: &mut Vec<f64>, points: &[Point]) {
    put_count(numbers, points.len());
    numbers.extend(points.iter().flat_map(|p| [p.x, p.y]));
}

/// The numbers that were not read yet.
struct Left<'a>(&'a [f64]);

impl Left<'_> {
    fn number(&mut self) -> Option<f64> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(*first)
    }

    /// How many of something follow: no more than there are numbers.
    fn count(&mut self) -> Option<usize> {
        let count = self.number()? as usize;
        (count <= self.0.len()).then_some(count)
    }

    fn points(&mut self) -> Option<Vec<Point>> {
        let count = self.count()?;
        let (points, rest) = self.0.split_at_checked(2 * count)?;
        self.0 = rest;
        let (pairs, _) = points.as_chunks::<2>();
        Some(pairs.iter().map(|[x, y]| Point::new(*x, *y)).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Region;

    /// A cut whose every figure differs, with a hole in its edge and two lines of daylight.
    fn dig() -> Dig {
        let corners = |by: f64| [(0.0, 0.1), (by, 0.3), (by, by)].map(|(x, y)| Point::new(x, y));
        let mut dig = Dig {
            top_edge: Region {
                polygons: vec![Polygon {
                    outer: Ring(corners(9.0).to_vec()),
                    holes: vec![Ring(corners(1.0).to_vec()).reversed()],
                }],
            },
            daylight: vec![corners(2.0).to_vec(), corners(3.0)[..2].to_vec()],
            closed: true,
            ..Dig::default()
        };
        for (k, figure) in dig.figures().into_iter().enumerate() {
            *figure = (k as f64 + 1.0) / 7.0;
        }
        dig
    }

    #[test]
    fn a_cut_comes_back_as_it_was() {
        for dig in [dig(), Dig::default()] {
            assert_eq!(Dig::from_numbers(&dig.to_numbers()), Some(dig));
        }
    }

    #[test]
    fn what_is_no_cut_is_refused() {
        let numbers = dig().to_numbers();
        for short in 0..numbers.len() {
            assert_eq!(
                Dig::from_numbers(&numbers[..short]),
                None,
                "{short} numbers"
            );
        }
        let long = [&numbers[..], &[0.0]].concat();
        assert_eq!(Dig::from_numbers(&long), None);
        for at in 19..numbers.len() {
            for nonsense in [f64::NAN, f64::INFINITY, -1.0, 1e300] {
                let mut numbers = numbers.clone();
                numbers[at] = nonsense;
                // It may be a coordinate; it must not be taken for a count.
                let read = Dig::from_numbers(&numbers);
                assert!(read.is_none_or(|it| it.to_numbers().len() <= numbers.len()));
            }
        }
    }
}
