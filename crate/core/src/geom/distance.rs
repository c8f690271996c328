//! Distance between two figures, with the two points it was measured between.

use super::point::Point;
use super::region::Region;

/// The nearest pair of points of two figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nearest {
    /// Distance, metres; negative when the figures overlap (how deep, see the function).
    pub distance: f64,
    /// The point on the first figure (site metres).
    pub from: Point,
    /// The point on the second figure (site metres).
    pub to: Point,
}

/// A figure to measure to or from, flattened already.
#[derive(Debug, Clone, Copy)]
pub enum Figure<'a> {
    /// An area: being inside it counts as overlapping.
    Area(&'a Region),
    /// A chain of straight edges with nothing inside.
    Chain(&'a [Point]),
}

/// Nearest points of two figures. `None` when either is empty.
///
/// Where they overlap the distance is negative: the depth of the deepest vertex or crossing
/// of either boundary inside the other figure (0 for chains that cross).
pub fn nearest(a: Figure<'_>, b: Figure<'_>) -> Option<Nearest> {
    let _ = (a, b);
    unimplemented!()
}

/// Nearest points of an area that should lie inside `inside` (the lot) and one `side` of it.
///
/// Positive while the area stays on the inner side; negative when the area reaches over this
/// side: then how far the farthest point beyond it has gone.
pub fn nearest_inside(area: &Region, inside: &Region, side: &[Point]) -> Option<Nearest> {
    let _ = (area, inside, side);
    unimplemented!()
}
