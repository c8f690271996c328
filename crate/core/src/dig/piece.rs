//! A planar piece of the bottom, and its parts.

use crate::geom::boolean::intersection;
use crate::geom::{Point, Polygon, Region, Ring, Vector};
use crate::shell::DepthPlane;

/// Depths nearer to each other than this are one, meters: rounding of facets that meet.
const SAME_DEPTH: f64 = 1e-6;

/// A planar piece of the bottom, shell frame.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    /// Where it is.
    pub region: Region,
    /// Depth of the bottom below the rim.
    pub plane: DepthPlane,
    /// Least depth, meters.
    pub least: f64,
    /// Greatest depth, meters.
    pub greatest: f64,
}

impl Piece {
    /// A piece of a region; `None` where it has no depth.
    pub fn new(region: Region, plane: DepthPlane) -> Option<Self> {
        let depths = region.rings().flat_map(|r| &r.0).map(|p| plane.depth(*p));
        let (least, greatest) = depths.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, g), d| {
            (l.min(d), g.max(d))
        });
        (least.is_finite() && greatest.is_finite()).then_some(Self {
            region,
            plane,
            least,
            greatest,
        })
    }

    /// The part of the piece whose depths lie between two borders, `None` where it has none. A
    /// level piece that lies on a border belongs to the layer above it.
    pub fn between(&self, top: f64, bottom: f64) -> Option<Self> {
        if self.least >= self.greatest - SAME_DEPTH {
            let middle = (self.least + self.greatest) / 2.0;
            return (middle > top && middle <= bottom).then(|| self.clone());
        }
        if self.least >= top && self.greatest <= bottom {
            return Some(self.clone());
        }
        if self.least >= bottom - SAME_DEPTH || self.greatest <= top + SAME_DEPTH {
            return None;
        }
        let steepness = self.plane.gradient.length();
        let down = self.plane.gradient.unit()?;
        let origin = self.region.bounds()?.0;
        let at = |depth: f64| origin + down * ((depth - self.plane.depth(origin)) / steepness);
        let mut region = self.region.clone();
        if self.least < top {
            region = half_of(&region, at(top), down);
        }
        if self.greatest > bottom {
            region = half_of(&region, at(bottom), -down);
        }
        let piece = Self::new(region, self.plane)?;
        // The cut's own rounding must not carry the piece across the border again.
        Some(Self {
            least: piece.least.max(top),
            greatest: piece.greatest.min(bottom),
            ..piece
        })
    }

    /// Corners of the piece with their depths.
    pub fn corners(&self) -> impl Iterator<Item = (Point, f64)> + '_ {
        let points = self.region.rings().flat_map(|ring| &ring.0);
        points.map(|p| (*p, self.plane.depth(*p)))
    }

    /// The piece's interior as it governs the hole: moved uphill by the reach, because the
    /// deepest point within the reach stands straight downhill. The plane is lowered to match.
    pub fn shifted(&self, reach: f64) -> (Vector, DepthPlane) {
        let steepness = self.plane.gradient.length();
        match self.plane.gradient.unit() {
            Some(down) => (down * -reach, lowered(self.plane, steepness * reach)),
            None => (Vector::default(), self.plane),
        }
    }
}

/// A plane of depth so much deeper, meters.
pub(super) fn lowered(plane: DepthPlane, by: f64) -> DepthPlane {
    DepthPlane {
        at_origin: plane.at_origin + by,
        gradient: plane.gradient,
    }
}

/// The part of a piece that lies at least `depth` below the rim.
pub(super) fn deep_part(piece: &Piece, depth: f64) -> Region {
    if piece.least >= depth {
        return piece.region.clone();
    }
    let Some(down) = piece.plane.gradient.unit() else {
        return Region::default();
    };
    if piece.greatest < depth {
        return Region::default();
    }
    let Some((low, high)) = piece.region.bounds() else {
        return Region::default();
    };
    let middle = low.midpoint(high);
    let away = (depth - piece.plane.depth(middle)) / piece.plane.gradient.length();
    half_of(&piece.region, middle + down * away, down)
}

/// The part of a region on the side of a line that `towards` (a unit vector) points to.
fn half_of(region: &Region, on_line: Point, towards: Vector) -> Region {
    let Some((low, high)) = region.bounds() else {
        return Region::default();
    };
    // No larger than need be: the overlay's grid follows the figures' extent.
    let size = low.distance(high) + on_line.distance(low.midpoint(high));
    let side = towards.left() * size;
    let ring = vec![
        on_line + side,
        on_line - side,
        on_line - side + towards * (2.0 * size),
        on_line + side + towards * (2.0 * size),
    ];
    intersection(region, &Region::from_ring(Ring(ring)))
}

/// The region as rings without holes: polygons with holes are cut apart through them.
pub(super) fn without_holes(region: Region) -> Vec<Ring> {
    let mut open = region.polygons;
    let mut rings = Vec::new();
    while let Some(Polygon { outer, holes }) = open.pop() {
        let Some(hole) = holes.first() else {
            rings.push(outer);
            continue;
        };
        let xs = hole.0.iter().map(|p| p.x);
        let (low, high) = xs.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| {
            (l.min(x), h.max(x))
        });
        let through = Point::new((low + high) / 2.0, 0.0);
        let whole = Region {
            polygons: vec![Polygon { outer, holes }],
        };
        for towards in [Vector::new(1.0, 0.0), Vector::new(-1.0, 0.0)] {
            open.extend(half_of(&whole, through, towards).polygons);
        }
    }
    rings
}
