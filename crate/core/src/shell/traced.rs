//! An outline that was drawn over a picture, brought into the shell's frame.
//!
//! A brochure shows a shell in plan. Laid under the plan of a lot and scaled, its water's edge is drawn
//! round like any shape; here the drawing becomes an outline in the shell's own frame: its length is
//! the longer side of the tightest rectangle round it, and the origin that rectangle's middle.

use serde::{Deserialize, Serialize};

use crate::finding::Finding;
use crate::geom::flatten::{ChordSide, flatten};
use crate::geom::{Outline, PathRecord, Point, Vector, Vertex};
use crate::order::put_in_order;

/// Arcs count as chords that leave them by this much at most where the rectangle is looked for, meters.
const CHORDS: f64 = 1e-4;

/// An outline as it was drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "TracedOutline")
)]
pub struct Traced {
    /// The water's edge, closed, site meters.
    pub path: PathRecord,
    /// By how much the drawing is larger than life is, turned over: 1 leaves it as it was drawn.
    pub scale: f64,
    /// Whether the deep end is the other end of the length.
    pub turned: bool,
}

/// A traced outline in the shell's frame.
#[derive(Debug, Clone, PartialEq)]
pub struct InFrame {
    /// The outline, counter-clockwise, its length along x.
    pub outline: Outline,
    /// Length along x and width along y, meters.
    pub length: f64,
    /// Width along y, meters.
    pub width: f64,
}

impl Traced {
    /// The outline in the shell's frame.
    ///
    /// # Errors
    /// What keeps the path from being an outline.
    pub fn in_frame(&self) -> Result<InFrame, Vec<Finding>> {
        let drawn = Outline::check(self.path.vertices())?;
        let points = flatten(&drawn, CHORDS, ChordSide::Inscribed).0;
        let Some(tight) = tightest(&points) else {
            return Err(vec![Finding::fault(
                "no-length",
                "The outline has no length.",
                "Draw it round once more.",
            )]);
        };
        let along = if self.turned {
            -tight.along
        } else {
            tight.along
        };
        let carry = |p: Point| {
            let v = (p - tight.middle) * self.scale;
            Point::new(v.dot(along), v.dot(along.left()))
        };
        let vertices: Vec<Vertex> = (drawn.vertices().iter())
            .map(|v| Vertex {
                at: carry(v.at),
                bulge: v.bulge,
            })
            .collect();
        Ok(InFrame {
            outline: Outline::check(vertices)?,
            length: tight.length * self.scale,
            width: tight.width * self.scale,
        })
    }
}

/// A rectangle round points.
struct Tight {
    middle: Point,
    /// Along its longer side.
    along: Vector,
    length: f64,
    width: f64,
}

/// The rectangle of least area round points: one of its sides lies along an edge of their convex hull.
fn tightest(points: &[Point]) -> Option<Tight> {
    let hull = convex_hull(points);
    let next = hull.iter().cycle().skip(1);
    let edges = hull.iter().zip(next).filter_map(|(a, b)| (*b - *a).unit());
    edges
        .map(|along| round(&hull, along))
        .min_by(|a, b| (a.length * a.width).total_cmp(&(b.length * b.width)))
}

/// The rectangle round points with a side along a direction.
fn round(points: &[Point], along: Vector) -> Tight {
    let origin = Point::new(0.0, 0.0);
    let span = |way: Vector| {
        points.iter().fold((f64::MAX, f64::MIN), |(low, high), p| {
            let t = (*p - origin).dot(way);
            (low.min(t), high.max(t))
        })
    };
    let across = along.left();
    let ((x0, x1), (y0, y1)) = (span(along), span(across));
    let middle = origin + along * ((x0 + x1) / 2.0) + across * ((y0 + y1) / 2.0);
    let (long, wide) = (x1 - x0, y1 - y0);
    if long >= wide {
        Tight {
            middle,
            along,
            length: long,
            width: wide,
        }
    } else {
        Tight {
            middle,
            along: across,
            length: wide,
            width: long,
        }
    }
}

/// The convex hull, counter-clockwise, by the monotone chain of A. M. Andrew (Information Processing
/// Letters 9, 1979; from memory).
fn convex_hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    put_in_order(&mut sorted, |a, b| {
        a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
    });
    let half = |points: &mut dyn Iterator<Item = &Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = chain.as_slice()
                && (*b - *a).cross(*p - *b) <= 0.0
            {
                chain.pop();
            }
            chain.push(*p);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut sorted.iter());
    hull.extend(half(&mut sorted.iter().rev()));
    hull
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::geom::Pose;
    use crate::shell::catalogue;

    fn traced(outline: &Outline) -> Traced {
        Traced {
            path: outline.record(),
            scale: 1.0,
            turned: false,
        }
    }

    #[test]
    fn every_shell_of_the_catalogue_drawn_anywhere_comes_back_at_its_size() {
        for record in catalogue::all() {
            let shell = Outline::check(record.outline.vertices()).unwrap();
            let plain = traced(&shell).in_frame().unwrap();
            for (heading, mirrored) in [(0.3, false), (2.0, true), (4.7, false)] {
                let pose = Pose::new(Point::new(31.0, -12.0), heading, mirrored);
                let there = traced(&shell.posed(&pose)).in_frame().unwrap();
                // The chords of a turned arc are the same ones: what is left is arithmetic.
                assert!(
                    (there.length - plain.length).abs() < 1e-9,
                    "{}",
                    record.name
                );
                assert!((there.width - plain.width).abs() < 1e-9, "{}", record.name);
                assert!(
                    (there.outline.area() - shell.area()).abs() < 1e-9,
                    "{}",
                    record.name
                );
                assert!(there.length >= there.width);
            }
        }
    }

    #[test]
    fn a_drawing_is_scaled_and_turned_end_for_end() {
        let ell = [
            (0.0, 0.0),
            (8.0, 0.0),
            (8.0, 4.0),
            (5.0, 4.0),
            (5.0, 3.0),
            (0.0, 3.0),
        ];
        let ell: Vec<Vertex> = ell.iter().map(|&(x, y)| Vertex::line(x, y)).collect();
        let plain = traced(&Outline::check(ell).unwrap());
        let there = plain.in_frame().unwrap();
        assert!((there.length - 8.0).abs() < 1e-12 && (there.width - 4.0).abs() < 1e-12);
        let larger = Traced {
            scale: 1.25,
            ..plain.clone()
        };
        assert!((larger.in_frame().unwrap().length - 10.0).abs() < 1e-12);
        let turned = Traced {
            turned: true,
            ..plain.clone()
        };
        let corner = |it: &Traced, x: f64| {
            let frame = it.in_frame().unwrap();
            let mut found = frame.outline.vertices().iter();
            found.any(|v| (v.at.x - x).abs() < 1e-9 && v.at.y.abs() < 2.0 - 1e-9)
        };
        // The inner corner lies 1 m beyond the middle of the length.
        assert!(corner(&plain, 1.0) != corner(&turned, 1.0));
        assert!(corner(&plain, -1.0) != corner(&turned, -1.0));
    }

    #[test]
    fn what_crosses_itself_is_no_outline() {
        let bow = [(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)];
        let bow: Vec<Vertex> = bow.iter().map(|&(x, y)| Vertex::line(x, y)).collect();
        let traced = Traced {
            path: PathRecord::from(bow.as_slice()),
            scale: 1.0,
            turned: false,
        };
        assert!(traced.in_frame().is_err());
    }
}
