//! The facets of a whole hole: what has to be made of its floors and its rings.

use super::cells::Cells;
use super::facets::{Facets, Maker};
use super::grid::Grid;
use super::non_uniform::{NonUniformSides, Part};
use super::piece::{Piece, without_holes};
use super::relief::{Cell, Floor, Relief};
use super::skin::{Beyond, Corner, FaceEdge};
use super::swept::{Edge, outward};
use crate::geom::{Point, Region, Vector};

/// Where so much of a cell's depth lies above the rim that no slope could bring it about, a side
/// that is all but upright passes, meters: of a slope it is less than half of this.
const STEEP: f64 = 0.1;

/// A cell with a greater share than this is whole.
pub(super) const WHOLE: f64 = 1.0 - 1e-9;

impl NonUniformSides {
    /// The hole as a grid, followed up to so far above the rim, meters; with the part below a cap
    /// where one is told.
    pub fn fill(&self, grid: &Grid, above: f64, cap_depth: Option<f64>) -> Cells {
        let (facets, floors) = self.surface(-above);
        let levels = [-above, 0.0, cap_depth.unwrap_or(f64::INFINITY)];
        let cells = Relief::new(*grid, &facets, &floors, levels).cells();
        let settled = |[whole, below_rim, _]: &Cell| {
            // Where a side that is all but upright passes, the share still changes from level to
            // level: what it is at the rim counts, near which the ground is.
            let lost = below_rim.1 - whole.1;
            let steep = whole.0 < WHOLE || lost > STEEP;
            *(if below_rim.0 > 0.0 && steep {
                below_rim
            } else {
                whole
            })
        };
        let below = || cells.iter().map(|[.., capped]| *capped).unzip();
        Cells::of(
            cells.iter().map(settled).unzip(),
            cap_depth.map(|depth| (depth, below())),
        )
    }

    /// The surface of the hole from its bottom up to a depth above all of it: the sides and what
    /// the reach holds as facets, and the floors.
    pub(super) fn surface(&self, up_to: f64) -> (Facets, Vec<Floor>) {
        let bodies = self.bodies(f64::INFINITY);
        let ends = self.profile.layers.iter().map(|layer| layer.down_to);
        let mut maker = Maker {
            bodies: &bodies,
            reach: &self.reach,
            bench: self.bench.as_ref(),
            tops: core::iter::once(f64::NEG_INFINITY).chain(ends).collect(),
            up_to,
            facets: Facets::default(),
        };
        let mut floors = Vec::new();
        for part in &self.parts {
            self.floors(&part.piece, &mut floors);
        }
        for group in &self.skin.groups {
            if let Some(rings) = group.outline() {
                for ring in rings {
                    maker.ring(ring);
                }
                self.reach_of(&group.face_edges(), &mut maker);
            } else {
                for part in group.members.iter().filter_map(|i| self.parts.get(*i)) {
                    self.by_itself(part, &mut maker);
                }
            }
        }
        for part in self.skin.steep.iter().filter_map(|i| self.parts.get(*i)) {
            self.by_itself(part, &mut maker);
        }
        (maker.facets, floors)
    }

    /// A piece's floor, and the same moved uphill by the reach.
    fn floors(&self, piece: &Piece, floors: &mut Vec<Floor>) {
        let mut add = |shift: Vector| {
            let mut plane = piece.plane;
            plane.at_origin -= plane.gradient.dot(shift);
            floors.push(Floor {
                region: piece.region.clone(),
                shift,
                plane,
            });
        };
        add(Vector::default());
        if let Some(line) = piece
            .plane
            .gradient
            .unit()
            .map(|down| self.level_line(down))
        {
            add(self.reach.vertex(line.level));
        }
    }

    /// A level line of a floor, the deeper part to its left.
    fn level_line(&self, down: Vector) -> Edge {
        let along = -down.left();
        Edge {
            along,
            level: outward(&self.fan, along, 0),
            lean: 0,
            widened: true,
        }
    }

    /// What the reach holds along the edges and round the corners of some faces.
    fn reach_of(&self, edges: &[FaceEdge], maker: &mut Maker<'_>) {
        if self.profile.reach.greatest() <= 0.0 {
            return;
        }
        for FaceEdge {
            from,
            to,
            down,
            beyond,
        } in edges
        {
            maker.reach_round(from);
            let line = self.level_line(*down);
            let tilted = *down != Vector::default();
            if tilted {
                maker.reach_beside(from, to, line.level);
            }
            let other = match *beyond {
                Beyond::Outside { widened: false } => continue,
                Beyond::Outside { widened: true } => {
                    let edge = maker.bodies.edge(from, to, 0);
                    maker.reach_beside(from, to, edge.index());
                    edge
                }
                // Of two faces the one to the left of the way down tells of both.
                Beyond::Face(_) if from.depth >= to.depth => continue,
                Beyond::Face(down) => self.level_line(down),
            };
            if tilted && from.depth < to.depth {
                maker.reach_along(from, to, &line, &other);
            } else if tilted && from.depth > to.depth {
                maker.reach_along(to, from, &other, &line);
            }
        }
    }

    /// A part that is widened by itself.
    fn by_itself(&self, part: &Part, maker: &mut Maker<'_>) {
        let plane = part.piece.plane;
        for ring in without_holes(Region::clone(&part.piece.region)) {
            let corner = |p: &Point| Corner {
                at: *p,
                depth: plane.depth(*p),
                layer: part.layer,
                widened: true,
            };
            let ring: Vec<Corner> = ring.0.iter().map(corner).collect();
            let next = ring.iter().cycle().skip(1);
            let pairs = ring.iter().zip(next);
            if !part.gentle {
                pairs.for_each(|(a, b)| maker.hull(a, b));
                continue;
            }
            maker.ring(&ring);
            let edges = pairs.map(|(from, to)| FaceEdge {
                from: *from,
                to: *to,
                down: plane.gradient.unit().unwrap_or_default(),
                beyond: Beyond::Outside { widened: true },
            });
            self.reach_of(&edges.collect::<Vec<_>>(), maker);
        }
    }
}
