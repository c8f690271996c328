//! The checked ground: a surface that has an elevation everywhere.

use super::breakline;
use super::facet::Facet;
use super::network::{self, Network, Node};
use super::record::GroundRecord;
use super::skirt;
use super::spots::{self, ONE_PLACE};
use super::tin::{Triangles, triangulate};
use super::tree::{Bounds, Tree};
use super::validate::{elevation_fault, left_out, notes, plane_faults};
use crate::finding::Finding;
use crate::geom::{COORDINATE_LIMIT, Point, Region, Ring, Vector, boolean};
use crate::order::put_in_order;

/// Half the side of the two triangles that carry level and evenly falling ground, meters:
/// everything within the coordinate limit and a hole beside it.
const EXTENT: f64 = 2.0 * COORDINATE_LIMIT;

/// Unknown ground narrower than about this is rounding along the lot's own line, meters.
const SLIVER: f64 = 0.01;

/// The elevation at a point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Height {
    /// Elevation, meters.
    pub elevation: f64,
    /// Whether it lies between surveyed spots.
    pub known: bool,
}

/// The ground before the dig.
#[derive(Debug, Clone, PartialEq)]
pub struct Ground {
    facets: Vec<Facet>,
    tree: Tree,
    surveyed: Option<Region>,
    breaklines: Vec<Vec<Point>>,
    range: Option<(f64, f64)>,
}

impl Ground {
    /// Checks the ground and builds its surface.
    ///
    /// # Errors
    /// Every fault: fewer than 3 spots, figures not finite or out of range, two elevations at
    /// one place, all spots on one line, breaklines of no length.
    pub fn check(record: &GroundRecord) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        match record {
            GroundRecord::Level { elevation } => {
                let faults = elevation_fault("/level/elevation", *elevation);
                faults.map_or_else(
                    || {
                        Ok((
                            Self::plane(Point::default(), *elevation, Vector::default()),
                            vec![],
                        ))
                    },
                    |fault| Err(vec![fault]),
                )
            }
            GroundRecord::Plane {
                at,
                elevation,
                fall,
                towards,
            } => {
                let faults = plane_faults(*at, *elevation, *fall, *towards);
                if faults.is_empty() {
                    let gradient = Vector::along_bearing(*towards) * -fall;
                    Ok((Self::plane(*at, *elevation, gradient), vec![]))
                } else {
                    Err(faults)
                }
            }
            GroundRecord::Spots { spots, breaklines } => Self::surveyed_by(spots, breaklines),
        }
    }

    /// The surface through spots and breaklines, each point `[x, y, elevation]` in meters.
    ///
    /// # Errors
    /// As [`Self::check`], placed in the record of spots.
    pub fn surveyed_by(
        spots: &[[f64; 3]],
        breaklines: &[Vec<[f64; 3]>],
    ) -> Result<(Self, Vec<Finding>), Vec<Finding>> {
        // Places are told inside the record: under its variant's name.
        let under = |found: Vec<Finding>| -> Vec<Finding> {
            found.into_iter().map(|f| f.under("/spots")).collect()
        };
        from_spots(spots, breaklines)
            .map(|(ground, found)| (ground, under(found)))
            .map_err(under)
    }

    /// The ground of one plane through a point, known everywhere.
    fn plane(at: Point, elevation: f64, gradient: Vector) -> Self {
        let corner = |x: f64, y: f64| {
            let p = Point::new(x * EXTENT, y * EXTENT);
            (p, elevation + gradient.dot(p - at))
        };
        let facet = |[a, b, c]: [(Point, f64); 3]| Facet {
            corners: [a.0, b.0, c.0],
            elevations: [a.1, b.1, c.1],
            known: true,
        };
        let [sw, se, ne, nw] = [
            corner(-1.0, -1.0),
            corner(1.0, -1.0),
            corner(1.0, 1.0),
            corner(-1.0, 1.0),
        ];
        Self::of(vec![facet([sw, se, ne]), facet([sw, ne, nw])], None)
    }

    fn of(facets: Vec<Facet>, surveyed: Option<Region>) -> Self {
        let boxes: Vec<Bounds> = facets.iter().map(|f| Bounds::of(&f.corners)).collect();
        let tree = Tree::new(&boxes);
        Self {
            facets,
            tree,
            surveyed,
            breaklines: Vec::new(),
            range: None,
        }
    }

    /// The breaklines as they lie in the surface: through every crossing and every spot on
    /// them. Each stretch is an edge of the surface (site meters).
    pub fn breaklines(&self) -> &[Vec<Point>] {
        &self.breaklines
    }

    /// The triangles. Together they cover every point within the coordinate limit.
    pub fn facets(&self) -> &[Facet] {
        &self.facets
    }

    /// The triangles that may meet the upright rectangle between two corners (site meters), in
    /// the order of [`Self::facets`]. It takes no longer for a large survey than for a small one.
    pub fn facets_near(&self, low: Point, high: Point) -> impl Iterator<Item = &Facet> {
        self.tree
            .near(&Bounds { low, high })
            .into_iter()
            .filter_map(|i| self.facets.get(i))
    }

    /// The elevation at a point of the site.
    pub fn height(&self, at: Point) -> Height {
        let best = self
            .facets_near(at, at)
            .map(|facet| (facet.share(at), facet))
            .filter(|(share, _)| share.is_finite())
            .max_by(|(a, _), (b, _)| a.total_cmp(b));
        // Beyond the coordinate limit there may be nothing; any triangle will do.
        let facet = best.map(|(_, facet)| facet).or(self.facets.first());
        facet.map_or(
            Height {
                elevation: 0.0,
                known: false,
            },
            |facet| Height {
                elevation: facet.elevation(at),
                known: facet.known,
            },
        )
    }

    /// The surveyed area; `None` where the ground is known everywhere (level, plane).
    pub fn surveyed(&self) -> Option<&Region> {
        self.surveyed.as_ref()
    }

    /// The part of an area that lies outside the surveyed one (site frame); empty where the
    /// ground is known everywhere. Slivers thinner than a spot's own place are left out.
    pub fn unknown_within(&self, area: &Region) -> Region {
        let Some(surveyed) = &self.surveyed else {
            return Region::default();
        };
        let mut unknown = boolean::difference(area, surveyed);
        unknown.polygons.retain(|p| {
            let size = Region {
                polygons: vec![p.clone()],
            };
            size.area() > SLIVER * size.perimeter()
        });
        unknown
    }

    /// Lowest and highest elevation of the surveyed ground, meters; `None` where there are no
    /// spots.
    pub fn surveyed_range(&self) -> Option<(f64, f64)> {
        self.range
    }

    /// Volume between the surveyed surface and a level, m3: ground above the level less room
    /// below it.
    pub fn surveyed_volume_above(&self, level: f64) -> f64 {
        self.surveyed_facets()
            .map(|f| {
                let [a, b, c] = f.elevations;
                f.plan_area() * ((a - level) + (b - level) + (c - level)) / 3.0
            })
            .sum()
    }

    /// Area of the sloping surface between the spots, m2.
    pub fn surveyed_surface_area(&self) -> f64 {
        self.surveyed_facets().map(Facet::surface_area).sum()
    }

    /// The triangles between spots.
    pub fn surveyed_facets(&self) -> impl Iterator<Item = &Facet> + Clone {
        let any = self.surveyed.is_some();
        self.facets.iter().filter(move |f| any && f.known)
    }
}

/// The surface of a list of spots and of breaklines.
fn from_spots(
    records: &[[f64; 3]],
    lines: &[Vec<[f64; 3]>],
) -> Result<(Ground, Vec<Finding>), Vec<Finding>> {
    let (spots, lines) = match (spots::check(records), breakline::check(lines)) {
        (Ok(spots), Ok(lines)) => (spots, lines),
        (spots, lines) => {
            let found = spots.err().into_iter().chain(lines.err());
            return Err(found.flatten().collect());
        }
    };
    let (network, cautions) = network::join(&spots, &lines)?;
    let nodes = &network.nodes;
    if nodes.len() < 3 {
        return Err(vec![spots::too_few(nodes.len())]);
    }
    let points: Vec<Point> = nodes.iter().map(|s| s.at).collect();
    let tin = triangulate(&points, &network.edges, ONE_PLACE);
    let corner = |i: usize| nodes.get(i);
    let edge: Vec<&Node> = tin.edge.iter().filter_map(|&i| corner(i)).collect();
    let ring = Ring(edge.iter().map(|s| s.at).collect());
    // An area narrower than two spots can be told apart is a line.
    if tin.faces.is_empty() || 2.0 * ring.signed_area() < ONE_PLACE * ring.perimeter() {
        return Err(vec![spots::on_one_line()]);
    }
    let faults = spots::shortened(disagreeing_neighbours(nodes, &tin));
    if !faults.is_empty() {
        return Err(faults);
    }
    let mut facets: Vec<Facet> = tin
        .faces
        .iter()
        .filter_map(|&[a, b, c]| {
            let (a, b, c) = (corner(a)?, corner(b)?, corner(c)?);
            Some(Facet {
                corners: [a.at, b.at, c.at],
                elevations: [a.elevation, b.elevation, c.elevation],
                known: true,
            })
        })
        .collect();
    let mut findings = cautions;
    findings.extend(left_out(&tin.left_out, &points));
    findings.extend(notes(&facets, records.len() - spots.len()));
    let edge: Vec<(Point, f64)> = edge.iter().map(|s| (s.at, s.elevation)).collect();
    facets.extend(skirt::skirt(&edge));
    let mut ground = Ground::of(facets, Some(Region::from_ring(ring)));
    ground.breaklines = chains(&network, &tin);
    let heights = nodes.iter().map(|n| n.elevation);
    ground.range = heights.fold(None, |range: Option<(f64, f64)>, z| {
        Some(range.map_or((z, z), |(low, high)| (low.min(z), high.max(z))))
    });
    Ok((ground, findings))
}

/// The lines of the network as points; without the rare stretch that was left out.
fn chains(network: &Network, tin: &Triangles) -> Vec<Vec<Point>> {
    let mut chains = Vec::with_capacity(network.lines.len());
    for line in &network.lines {
        let mut chain: Vec<Point> = Vec::with_capacity(line.len());
        let mut last = None;
        for &node in line {
            let gone = |from: usize| tin.left_out.contains(&[from.min(node), from.max(node)]);
            if last.is_some_and(gone) {
                chains.push(core::mem::take(&mut chain));
            }
            chain.extend(network.nodes.get(node).map(|n| n.at));
            last = Some(node);
        }
        chains.push(chain);
    }
    chains.retain(|chain| chain.len() > 1);
    chains
}

/// Spots that stand at one place (the nearest spot is always a neighbor) yet disagree.
fn disagreeing_neighbours(nodes: &[Node], tin: &Triangles) -> Vec<Finding> {
    let mut pairs = Vec::new();
    for &[a, b, c] in &tin.faces {
        for (i, j) in [(a, b), (b, c), (c, a)] {
            let (Some(p), Some(q)) = (nodes.get(i), nodes.get(j)) else {
                continue;
            };
            let near = p.at.distance(q.at) < ONE_PLACE;
            if near && (p.elevation - q.elevation).abs() > ONE_PLACE {
                pairs.push((i.min(j), i.max(j)));
            }
        }
    }
    // An inner edge is met from both sides.
    put_in_order(&mut pairs, Ord::cmp);
    pairs.dedup();
    // Points of lines were drawn to the spots so near to them: only spots are left.
    let spot = |i: usize| nodes.get(i).and_then(Node::as_spot);
    pairs
        .into_iter()
        .filter_map(|(i, j)| Some(spots::two_elevations(&spot(i)?, &spot(j)?)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::TURN;

    fn ground(spots: &[[f64; 3]]) -> Ground {
        Ground::check(&GroundRecord::of_spots(spots.to_vec()))
            .unwrap()
            .0
    }

    fn faults(record: &GroundRecord) -> Vec<(&'static str, String)> {
        let faults = Ground::check(record).unwrap_err();
        faults.into_iter().map(|f| (f.code, f.pointer)).collect()
    }

    #[test]
    fn level_ground_is_the_same_and_known_everywhere() {
        let record = GroundRecord::Level { elevation: 3.25 };
        let (ground, findings) = Ground::check(&record).unwrap();
        assert!(findings.is_empty() && ground.surveyed().is_none());
        for at in [(0.0, 0.0), (9e3, -9e3), (0.5, 0.5)] {
            let height = ground.height(Point::new(at.0, at.1));
            assert_eq!(
                height,
                Height {
                    elevation: 3.25,
                    known: true
                }
            );
        }
    }

    #[test]
    fn a_plane_falls_along_its_bearing() {
        let record = GroundRecord::Plane {
            at: Point::new(10.0, 20.0),
            elevation: 100.0,
            fall: 0.05,
            towards: TURN / 4.0,
        };
        let (ground, _) = Ground::check(&record).unwrap();
        let height = |x, y| ground.height(Point::new(x, y)).elevation;
        assert!((height(10.0, 20.0) - 100.0).abs() < 1e-9);
        assert!((height(30.0, 70.0) - 99.0).abs() < 1e-9);
        assert!((height(-10.0, -500.0) - 101.0).abs() < 1e-9);
    }

    #[test]
    fn inside_the_spots_the_ground_is_known_and_outside_it_is_carried_over() {
        let ground = ground(&[
            [0.0, 0.0, 1.0],
            [10.0, 0.0, 2.0],
            [10.0, 10.0, 4.0],
            [0.0, 10.0, 3.0],
        ]);
        let at = |x, y| ground.height(Point::new(x, y));
        let inside = at(4.0, 4.0);
        assert!(inside.known && (inside.elevation - 2.2).abs() < 1e-12);
        // Off an edge: the edge's own elevation; off a corner: the corner's.
        let beside = at(4.0, -50.0);
        assert!(!beside.known && (beside.elevation - 1.4).abs() < 1e-9);
        assert_eq!(at(15.0, 13.0).elevation, 4.0);
        assert_eq!(at(-9e3, -9e3).elevation, 1.0);
        assert!((ground.surveyed().unwrap().area() - 100.0).abs() < 1e-9);
    }

    #[test]
    fn every_fault_has_its_place() {
        let spots = |spots: &[[f64; 3]]| GroundRecord::of_spots(spots.to_vec());
        let line = [[0.0, 0.0, 1.0], [1.0, 1.0, 1.0], [5.0, 5.0, 2.0]];
        let told = faults(&spots(&line));
        assert_eq!(told, [("spots-on-a-line", "/spots/spots".to_string())]);
        let wobbly = [[0.0, 0.0, 1.0], [50.0, 1e-4, 1.0], [100.0, 0.0, 2.0]];
        assert_eq!(faults(&spots(&wobbly)), told);
        let twins = [
            [0.0, 0.0, 1.0],
            [5.0, 0.0, 1.0],
            [0.0, 5.0, 2.0],
            [5.0, 0.0005, 1.8],
        ];
        let told = faults(&spots(&twins));
        assert_eq!(told, [("two-elevations", "/spots/spots/3".to_string())]);
        let level = GroundRecord::Level {
            elevation: f64::NAN,
        };
        let told = faults(&level);
        assert_eq!(told, [("elevation", "/level/elevation".to_string())]);
        let plane = GroundRecord::Plane {
            at: Point::new(f64::NAN, 0.0),
            elevation: 1e5,
            fall: f64::INFINITY,
            towards: f64::NAN,
        };
        assert_eq!(faults(&plane).len(), 4);
    }

    #[test]
    fn a_slip_of_the_pen_is_noticed() {
        let spots = vec![
            [0.0, 0.0, 10.02],
            [5.0, 0.0, 10.02],
            [5.0, 5.0, 100.2],
            [0.0, 5.0, 10.02],
            [0.0, 5.0, 10.02],
        ];
        let (_, findings) = Ground::check(&GroundRecord::of_spots(spots)).unwrap();
        let checks: Vec<_> = findings.iter().map(|f| f.code).collect();
        assert_eq!(
            checks,
            ["ground-beyond-spots", "spots-merged", "steep-spots"]
        );
    }

    #[test]
    fn the_surface_does_not_depend_on_the_order_of_the_spots() {
        // A square grid: every four neighbors lie on a circle, so the diagonal is a choice.
        let mut spots: Vec<[f64; 3]> = (0..36)
            .map(|i| (f64::from(i % 6), f64::from(i / 6)))
            .map(|(x, y)| [x * 3.0, y * 3.0, x * y % 3.0])
            .collect();
        let one = ground(&spots);
        spots.reverse();
        spots.swap(3, 17);
        assert_eq!(one, ground(&spots));
    }
}
