//! A plan parted along every line at which something bends or steps, and surfaces sampled on its triangles.
//!
//! Lines may lie off by the half millimeter that noding moves them, and a surface may step at one. So each triangle asks a
//! little inside its own corners and carries what it finds out to them: exact where a surface is plane
//! within the triangle, whatever happens beyond its edges.

use super::column::{Column, closed};
use super::mesh::Mesh;
use crate::geom::thin::{thinned, thinned_chain};
use crate::geom::{Point, Pose, Region, Vector};
use crate::ground::PlanMesh;
use crate::site::SectionLine;

/// How far inside its corners a triangle asks at least, meters: beyond what noding moves a line.
const WITHIN: f64 = 0.002;

/// The share of the way to its middle at which it asks otherwise.
const SHARE: f64 = 0.02;

/// The largest share: near the middle of a narrow triangle there is nothing to tell its corners apart by.
const MOST_SHARE: f64 = 0.4;

/// Triangles smaller than this are rounding, m2.
const NOTHING: f64 = 1e-8;

/// Lines along which a plan is to be parted, gathered.
#[derive(Debug, Clone, Default)]
pub(super) struct Lines {
    lines: Vec<Vec<Point>>,
    points: Vec<Point>,
}

impl Lines {
    /// A chain, its corners thinned by so much, meters.
    pub fn chain(&mut self, chain: &[Point], thin: f64) {
        self.lines.push(thinned_chain(chain, thin));
    }

    /// The edges of a region of the site's frame.
    pub fn region(&mut self, region: &Region, thin: f64) {
        for ring in region.rings() {
            self.lines.push(thinned(ring, thin).closed());
        }
    }

    /// The edges of a region of the shell's frame.
    pub fn shell_region(&mut self, region: &Region, pose: &Pose, thin: f64) {
        self.region(&region.posed(pose), thin);
    }

    /// A place that is to be a corner.
    pub fn point(&mut self, at: Point) {
        self.points.push(at);
    }

    /// The plan parted along them, and along the line of a section right through.
    pub fn part(mut self, section: Option<&SectionLine>) -> Plan {
        let corners = self.lines.iter().flatten().chain(&self.points);
        let bounds = crate::geom::region::bounds(corners.copied());
        let cut = section.and_then(|line| Some((line.from, (line.to - line.from).unit()?)));
        if let (Some((from, along)), Some((low, high))) = (cut, bounds) {
            let ends = [
                low,
                high,
                Point::new(low.x, high.y),
                Point::new(high.x, low.y),
            ];
            let stations = ends.map(|p| (p - from).dot(along));
            let first = stations.into_iter().fold(f64::INFINITY, f64::min);
            let last = stations.into_iter().fold(f64::NEG_INFINITY, f64::max);
            self.lines
                .push(vec![from + along * first, from + along * last]);
        }
        let mesh = PlanMesh::along(&self.points, &self.lines);
        Plan { mesh, cut }
    }
}

/// A plan parted into triangles.
pub(super) struct Plan {
    mesh: PlanMesh,
    cut: Option<(Point, Vector)>,
}

/// What stands over a place: from which elevation up to which, meters; `None` where nothing does.
pub(super) type Layer = Option<(f64, f64)>;

impl Plan {
    /// The bodies of some layers, each told at any place of the plan.
    pub fn bodies<const N: usize>(&self, layers: impl Fn(Point) -> [Layer; N]) -> [Mesh; N] {
        let mut columns: [Vec<Column>; N] = [const { Vec::new() }; N];
        for triangle in &self.mesh.triangles {
            let corners = self.mesh.corners(triangle);
            let [a, b, c] = corners;
            let twice = (b - a).cross(c - a);
            if twice < 2.0 * NOTHING {
                continue;
            }
            let Some(middle) = Point::mean(corners) else {
                continue;
            };
            let longest = a.distance(b).max(b.distance(c)).max(c.distance(a));
            // Each edge lies at least a third of the least height from the middle.
            let inward = twice / longest / 3.0;
            let share = (WITHIN / inward).clamp(SHARE, MOST_SHARE);
            let at_middle = layers(middle);
            let at_corners = corners.map(|p| layers(p + (middle - p) * share));
            for (number, of) in columns.iter_mut().enumerate() {
                let Some(Some(usual)) = at_middle.get(number).copied() else {
                    continue;
                };
                let found = at_corners.map(|it| it.get(number).copied().flatten().unwrap_or(usual));
                let bottom = carried(found.map(|it| it.0), share);
                let top = carried(found.map(|it| it.1), share);
                // Two surfaces that meet in a corner may have been carried past each other.
                let [(p, q), (r, s), (t, u)] = meet(bottom, top);
                of.push(Column {
                    plan: *triangle,
                    bottom: [p, r, t],
                    top: [q, s, u],
                    before: self.is_before(middle),
                });
            }
        }
        columns.map(|of| closed(&self.mesh.points, of))
    }

    /// Whether a cut takes a place away: what lies to the right of its line.
    fn is_before(&self, at: Point) -> bool {
        self.cut
            .is_some_and(|(from, along)| along.cross(at - from) < 0.0)
    }
}

/// Values a little inside the corners of a triangle, carried out to them.
fn carried(values: [f64; 3], share: f64) -> [f64; 3] {
    let mean = values.iter().sum::<f64>() / 3.0;
    values.map(|value| mean + (value - mean) / (1.0 - share))
}

fn meet([a, b, c]: [f64; 3], [d, e, f]: [f64; 3]) -> [(f64, f64); 3] {
    [(a, d), (b, e), (c, f)].map(|(bottom, top)| {
        if bottom <= top {
            (bottom, top)
        } else {
            let middle = f64::midpoint(bottom, top);
            (middle, middle)
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Ring;

    fn block(x: f64, y: f64, w: f64, h: f64) -> Region {
        let p = Point::new;
        Region::from_ring(Ring(vec![
            p(x, y),
            p(x + w, y),
            p(x + w, y + h),
            p(x, y + h),
        ]))
    }

    #[test]
    fn surfaces_that_step_along_a_line_are_exact_on_both_sides() {
        let (outer, inner) = (block(0.0, 0.0, 6.0, 4.0), block(1.0, 1.0, 2.0, 2.0));
        let mut lines = Lines::default();
        lines.region(&outer, 0.0);
        lines.region(&inner, 0.0);
        let section = SectionLine {
            from: Point::new(0.5, 2.0),
            to: Point::new(1.0, 2.1),
        };
        let plan = lines.part(Some(&section));
        let [mesh] = plan.bodies(|p| {
            let within = outer.contains(p);
            let top = if inner.contains(p) {
                5.0
            } else {
                1.0 + 0.5 * p.x
            };
            [within.then_some((0.0, top))]
        });
        assert!(mesh.is_closed(mesh.whole()) && mesh.is_closed(mesh.cut()));
        let exact = 24.0 + 0.5 * 3.0 * 24.0 + 4.0 * (5.0 - 2.0);
        assert!(
            (mesh.volume() - exact).abs() < 1e-6 * exact,
            "{}",
            mesh.volume()
        );
        assert!(mesh.volume_of(mesh.cut()) < exact);
        assert!(mesh.wall() > 0);
    }
}
