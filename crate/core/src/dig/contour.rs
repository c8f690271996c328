//! Exact contours of the hole, and its volume under level ground from them.
//!
//! Every contour is widened from the bottom itself, never from another contour: the part that
//! lies at least as deep, every vertex of its edge widened by the reach and by the run of the
//! side from that vertex up, all united at once. Pieces that meet have one edge (see
//! [`super::skin`]); of those steeper than the side, the ones that no other holds have their own.

use super::bottom::Bottom;
use super::piece::{Piece, deep_part, without_holes};
use crate::geom::boolean::positive_winding;
use crate::geom::offset::raw_tapered;
use crate::geom::{Point, Region, Ring};

/// Chord error of contours that volumes are taken from, meters: a fifth of the usual, because
/// the sagittas of all arcs of a contour fall on one side.
pub(super) const FINE: f64 = 0.000_05;

/// The highest step of a quadrature, meters: between the breaks the area of a contour is
/// quadratic in its depth as long as no arc appears or goes, which this bounds.
const STEP: f64 = 0.1;

/// Steps at least through a layer in which a piece tilts: its contour there ends on curved
/// walls, and its area is no longer quadratic.
const TILTED: f64 = 4.0;

/// Corners this near to each other, or to where a piece begins or ends, make no break of their
/// own, and a layer so thin takes one step, meters: facets that meet are rounded apart by less.
const SLIVER: f64 = 1e-6;

/// Cosine of the least turn that counts as a corner: more than the chords of a wall's arcs turn.
const CORNER: f64 = 0.98;

/// The area within which the hole is at least `depth` below the rim, shell frame.
pub(super) fn contour(bottom: &Bottom, depth: f64, tolerance: f64) -> Region {
    positive_winding(&wound(bottom, depth, tolerance))
}

/// Rings that wind a positive number of times about the points of that area, and about no other.
pub(super) fn wound(bottom: &Bottom, depth: f64, tolerance: f64) -> Vec<Ring> {
    let radius = |at: f64| bottom.reach + bottom.slope * (at - depth).max(0.0);
    let (mut gathered, mut rings) = (Vec::new(), Vec::<Vec<(Point, f64)>>::new());
    let skin = bottom.skin();
    let mut by_itself = skin.steep.clone();
    for group in &skin.groups {
        match group.edge(depth) {
            Some(edges) => gathered.extend(edges.iter().map(|ring| {
                let corners = ring.iter();
                corners.map(|c| (c.at, radius(c.depth))).collect()
            })),
            // A group with a hole.
            None => by_itself.extend(&group.members),
        }
    }
    for piece in by_itself.iter().filter_map(|i| bottom.pieces.get(*i)) {
        for ring in without_holes(deep_part(piece, depth)) {
            let corners = ring.0.iter();
            rings.push(
                corners
                    .map(|p| (*p, radius(piece.plane.depth(*p))))
                    .collect(),
            );
        }
    }
    raw_tapered(&gathered, &rings, tolerance)
}

/// Volumes of the hole below each of some depths under the rim, m3, from contours.
pub(super) fn volumes_below(bottom: &Bottom, depths: &[f64]) -> Vec<f64> {
    let pieces: Vec<&Piece> = bottom.pieces.iter().collect();
    let top = depths.iter().copied().fold(f64::INFINITY, f64::min);
    let layers = layers_of(&pieces, depths, bottom.slope > 0.0, top);
    integrals(&layers, depths, |depth| contour(bottom, depth, FINE).area())
}

/// The integral of the area below each of some depths, m3; no layer may reach across one of them.
///
/// Between the depths where pieces begin and end the area is integrated by two-point Gauss
/// quadrature, exact for the cubic and below.
pub(super) fn integrals(layers: &[Layer], depths: &[f64], area: impl Fn(f64) -> f64) -> Vec<f64> {
    let mut volumes = vec![0.0; depths.len()];
    for layer in layers {
        for (depth, weight) in layer.gauss() {
            let slab = area(depth) * weight;
            for (volume, from) in volumes.iter_mut().zip(depths) {
                if *from <= layer.top {
                    *volume += slab;
                }
            }
        }
    }
    volumes
}

/// A layer of the hole between two depths within which no piece begins or ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Layer {
    pub top: f64,
    pub bottom: f64,
}

impl Layer {
    /// The two depths at which the layer is sampled, each with its weight, meters.
    pub fn gauss(self) -> [(f64, f64); 2] {
        let (middle, half) = (
            (self.top + self.bottom) / 2.0,
            (self.bottom - self.top) / 2.0,
        );
        let off = half / 3.0_f64.sqrt();
        [(middle - off, half), (middle + off, half)]
    }
}

/// The layers from a depth down to the deepest bottom.
pub(super) fn layers(bottom: &Bottom, top: f64) -> Vec<Layer> {
    let pieces: Vec<&Piece> = bottom.pieces.iter().collect();
    layers_of(&pieces, &[], bottom.slope > 0.0, top)
}

/// The layers from a depth down to the deepest of some pieces; none reaches across one of the
/// borders. `sloping`: whether any side is.
pub(super) fn layers_of(pieces: &[&Piece], borders: &[f64], sloping: bool, top: f64) -> Vec<Layer> {
    let deepest = pieces.iter().map(|p| p.greatest).fold(top, f64::max);
    let borders = borders.iter().copied().filter(|depth| *depth < deepest);
    let ends = pieces.iter().flat_map(|p| [p.least, p.greatest]);
    let breaks = breaks(ends.chain(borders), top, 0.0);
    let mut layers = Vec::new();
    for (&top, &end) in breaks.iter().zip(breaks.iter().skip(1)) {
        if end - top <= SLIVER {
            layers.push(Layer { top, bottom: end });
            continue;
        }
        let by_height = ((end - top) / STEP).ceil();
        let mut corners = vec![end];
        let mut steps = if sloping { by_height } else { 1.0 };
        for piece in pieces.iter().filter(|p| p.least < end && p.greatest > top) {
            steps = by_height.max(TILTED);
            push_corners(piece, &mut corners);
        }
        // Where a wall ends at a corner of a tilted piece the area bends, or jumps: no step
        // reaches across.
        corners.retain(|depth| *depth < end - SLIVER || *depth == end);
        let parts = self::breaks(corners.into_iter(), top, SLIVER);
        for (&from, &to) in parts.iter().zip(parts.iter().skip(1)) {
            let steps = (steps * (to - from) / (end - top) - SLIVER).ceil().max(1.0);
            let at = |k: f64| from + (to - from) * k / steps;
            layers.extend((0..steps as u32).map(f64::from).map(|k| Layer {
                top: at(k),
                bottom: at(k + 1.0),
            }));
        }
    }
    layers
}

/// A depth and those below it, in order, more than `apart` from each other.
fn breaks(depths: impl Iterator<Item = f64>, top: f64, apart: f64) -> Vec<f64> {
    let mut breaks: Vec<f64> = depths.filter(|depth| *depth > top).collect();
    breaks.push(top);
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|below, above| *below - *above <= apart);
    breaks
}

/// Adds the depths of a piece's corners.
fn push_corners(piece: &Piece, depths: &mut Vec<f64>) {
    for ring in piece.region.rings() {
        let mut before = ring.edges().last().map(|(a, b)| b - a).unwrap_or_default();
        for (a, b) in ring.edges() {
            let after = b - a;
            if before.dot(after) < CORNER * before.length() * after.length() {
                depths.push(piece.plane.depth(a));
            }
            before = after;
        }
    }
}

#[cfg(test)]
mod pieces;

#[cfg(test)]
mod tests {
    use super::super::influence::depth_at;
    use super::*;
    use crate::geom::{Polygon, Vector};
    use crate::shell::DepthPlane;

    fn square(half: f64) -> Ring {
        let corners = [(-half, -half), (half, -half), (half, half), (-half, half)];
        Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec())
    }

    /// Prismoidal formula, sections 1,504, 1,860 and 2,240 ft2 over 100 ft: 6,904 yd3 (Hicks,
    /// Handbook of Civil Engineering Calculations, read). Sections that are quadratic along
    /// the solid are what a layer takes exactly.
    #[test]
    fn a_layer_takes_quadratic_sections_exactly() {
        let section = |x: f64| {
            let t = x / 50.0 - 1.0;
            1860.0 + (2240.0 - 1504.0) / 2.0 * t + (2240.0 + 1504.0 - 2.0 * 1860.0) / 2.0 * t * t
        };
        let layer = Layer {
            top: 0.0,
            bottom: 100.0,
        };
        let volume: f64 = layer.gauss().iter().map(|(x, w)| section(*x) * w).sum();
        let prismoid = 100.0 / 6.0 * (1504.0 + 4.0 * 1860.0 + 2240.0);
        assert!((volume - prismoid).abs() < 1e-9);
        assert!((volume / 27.0 - 6903.7).abs() < 0.05);
    }

    /// A floor that falls 0.1 m per meter, of an outline whose walls jump and turn half way: the
    /// volume is that of its two trapezoids, whose areas are quadratic in the depth.
    #[test]
    fn no_step_reaches_across_a_corner_of_a_tilted_floor() {
        let corners = [
            (0.0, 0.0),
            (4.3, 0.0),
            (4.3, -1.1),
            (9.0, 0.2),
            (9.0, 2.0),
            (3.7, 2.9),
            (0.0, 2.0),
        ];
        let outline = Ring(corners.map(|(x, y)| Point::new(x, y)).to_vec());
        let plan = Region::from_ring(outline);
        let plane = DepthPlane {
            at_origin: 1.0,
            gradient: Vector::new(0.1, 0.0),
        };
        let exact = plan.area() * plane.depth(plan.centroid().unwrap());
        let bottom = Bottom::of(plan.clone(), [(plan, plane)], 0.0, 0.0, 0.0);
        let volume: f64 = volumes_below(&bottom, &[0.0]).iter().sum();
        assert!(
            (volume - exact).abs() < 1e-6 * exact,
            "{volume} is not {exact}"
        );
    }

    /// A shelf all round a basin, with an island in the basin: pieces with holes.
    fn basin() -> Bottom {
        let ring_of = |outer: f64, hole: f64| Region {
            polygons: vec![Polygon {
                outer: square(outer),
                holes: vec![square(hole).reversed()],
            }],
        };
        let tilted = DepthPlane {
            at_origin: 1.2,
            gradient: Vector::new(0.2, 0.1),
        };
        let pieces = [
            (ring_of(4.0, 2.5), DepthPlane::level(0.4)),
            (ring_of(2.5, 1.0), tilted),
            (Region::from_ring(square(1.0)), DepthPlane::level(0.6)),
        ];
        let plan = Region::from_ring(square(4.0));
        Bottom::of(plan, pieces, 0.1, 0.05, 0.3)
    }

    #[test]
    fn pieces_with_holes_are_cut_apart_not_filled() {
        let bottom = basin();
        for depth in [-0.2, 0.45, 0.55, 0.9, 1.3, 1.7] {
            let contour = contour(&bottom, depth, 1e-4);
            for k in 0..900 {
                let p = Point::new(
                    f64::from(k % 30) * 0.31 - 4.6,
                    f64::from(k / 30) * 0.31 - 4.6,
                );
                let exact = depth_at(&bottom, p);
                if (exact - depth).abs() > 0.002 {
                    assert_eq!(contour.contains(p), exact > depth, "{p:?} {exact} {depth}");
                }
            }
        }
    }

    #[test]
    fn a_level_below_the_bottom_and_no_bottom_at_all_hold_nothing() {
        assert!(contour(&basin(), 3.0, 1e-4).is_empty());
        assert_eq!(volumes_below(&basin(), &[3.0]), [0.0]);
        let none = Bottom::of(Region::default(), [], 0.1, 0.2, 1.0);
        assert_eq!(volumes_below(&none, &[-1.0]), [0.0]);
    }
}
