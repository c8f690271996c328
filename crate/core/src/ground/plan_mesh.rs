//! A part of the plan parted into triangles along given lines: what surfaces are sampled on that bend, or step, along
//! those lines.
//!
//! Lines are noded as breaklines are ([`super::noding`]): they may cross, touch and repeat each other, and bend by half
//! a millimeter at most where something lies on them. The triangles are those of a constrained Delaunay triangulation.

use super::breakline::Breakline;
use super::noding::Noded;
use super::spots::{ONE_PLACE, Spot};
use super::tin::triangulate;
use crate::geom::Point;
use crate::order::put_in_order;

/// Triangles of the plan whose edges run along given lines.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlanMesh {
    /// The corners, site meters.
    pub points: Vec<Point>,
    /// The triangles by their corners, counter-clockwise; together they cover the hull of the points.
    pub triangles: Vec<[usize; 3]>,
}

impl PlanMesh {
    /// The triangles over points and lines. Points nearer than a millimeter to each other are one; what is not finite
    /// is left out.
    pub fn along(points: &[Point], lines: &[Vec<Point>]) -> Self {
        let spot = |at: &Point| Spot {
            at: *at,
            elevation: 0.0,
            index: 0,
        };
        let mut spots: Vec<Spot> = points.iter().filter(|p| p.is_finite()).map(spot).collect();
        put_in_order(&mut spots, |a, b| {
            a.at.x.total_cmp(&b.at.x).then(a.at.y.total_cmp(&b.at.y))
        });
        spots.dedup_by(|b, a| a.at.distance(b.at) < ONE_PLACE);
        let line = |points: &Vec<Point>| {
            let mut points: Vec<Spot> = points.iter().filter(|p| p.is_finite()).map(spot).collect();
            points.dedup_by(|b, a| a.at.distance(b.at) < ONE_PLACE);
            (points.len() > 1).then_some(Breakline { index: 0, points })
        };
        let lines: Vec<Breakline> = lines.iter().filter_map(line).collect();
        let Noded { places, stretches } = Noded::of(&spots, &lines);
        let pairs = stretches
            .iter()
            .flat_map(|stretch| stretch.nodes.iter().zip(stretch.nodes.iter().skip(1)));
        let mut forced: Vec<[usize; 2]> = pairs.map(|(a, b)| [*a.min(b), *a.max(b)]).collect();
        put_in_order(&mut forced, Ord::cmp);
        forced.dedup();
        Self {
            triangles: triangulate(&places, &forced, ONE_PLACE).faces,
            points: places,
        }
    }

    /// The corners of a triangle.
    pub fn corners(&self, triangle: &[usize; 3]) -> [Point; 3] {
        triangle.map(|i| self.points.get(i).copied().unwrap_or_default())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Ring;

    #[test]
    fn lines_that_cross_part_the_plan_between_them() {
        let p = Point::new;
        let square = vec![
            p(0.0, 0.0),
            p(4.0, 0.0),
            p(4.0, 4.0),
            p(0.0, 4.0),
            p(0.0, 0.0),
        ];
        let across = vec![p(-1.0, 1.0), p(5.0, 3.0)];
        let mesh = PlanMesh::along(&[p(2.0, 0.5), p(2.0, 0.5)], &[square, across.clone()]);
        let area = |t: &[usize; 3]| Ring(mesh.corners(t).to_vec()).signed_area();
        assert!(mesh.triangles.iter().all(|t| area(t) > 0.0));
        // No triangle has corners on both sides of the line.
        let side = |q: Point| (across[1] - across[0]).cross(q - across[0]);
        for triangle in &mesh.triangles {
            let sides = mesh.corners(triangle).map(side);
            let (above, below) = (
                sides.iter().any(|s| *s > 1e-6),
                sides.iter().any(|s| *s < -1e-6),
            );
            assert!(!(above && below), "{sides:?}");
        }
        let inside: f64 = mesh
            .triangles
            .iter()
            .filter(|t| {
                let [a, b, c] = mesh.corners(t);
                let middle = Point::mean([a, b, c]).unwrap();
                middle.x > 0.0 && middle.x < 4.0 && middle.y > 0.0 && middle.y < 4.0
            })
            .map(area)
            .sum();
        assert!((inside - 16.0).abs() < 1e-9, "{inside}");
    }

    #[test]
    fn nothing_gives_nothing() {
        assert_eq!(PlanMesh::along(&[], &[]).triangles.len(), 0);
        let line = vec![Point::new(0.0, 0.0), Point::new(f64::NAN, 1.0)];
        assert_eq!(PlanMesh::along(&[], &[line]).triangles.len(), 0);
    }
}
