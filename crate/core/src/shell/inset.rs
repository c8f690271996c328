//! What of a facet lies some distance inside the outline.
//!
//! Of a convex outline that is the part on the inner side of every edge moved in by the distance:
//! a facet has a few corners and hardly an edge cuts it, so one pass over the edges costs far
//! less than an overlay. Any other outline is drawn in, and overlaid.

use super::checked::{Facet, Shell};
use crate::geom::boolean::intersection;
use crate::geom::offset::offset_region;
use crate::geom::{Point, Region, VOLUME_TOLERANCE, Vector};

/// Corners that turn to the right by less than this sine are straight.
const STRAIGHT: f64 = 1e-9;

/// The outline of a shell, drawn in by any distance.
pub(super) enum Insets<'a> {
    /// A place on every edge, and the unit vector inward.
    Convex(Vec<(Point, Vector)>),
    /// The outline, and what was made of it by distance.
    Any(&'a Region, Vec<(f64, Region)>),
}

impl<'a> Insets<'a> {
    pub fn of(shell: &'a Shell) -> Self {
        match convex(&shell.footprint) {
            Some(edges) => Self::Convex(edges),
            None => Self::Any(&shell.footprint, Vec::new()),
        }
    }

    /// The part of a facet at least `by` meters inside the outline. Its rings may run along
    /// themselves where nothing lies between: they enclose it all the same.
    pub fn part(&mut self, facet: &Facet, by: f64) -> Region {
        if by <= 0.0 {
            return facet.region.clone();
        }
        match self {
            Self::Convex(edges) => clipped(&facet.region, edges, by),
            Self::Any(outline, made) => {
                let at = made.iter().position(|(d, _)| *d == by).unwrap_or_else(|| {
                    made.push((by, offset_region(outline, -by, VOLUME_TOLERANCE)));
                    made.len() - 1
                });
                let inset = made.get(at).map(|(_, inset)| inset);
                inset.map_or_else(Region::default, |inset| intersection(&facet.region, inset))
            }
        }
    }
}

/// The edges of a convex region; `None` when it is not.
fn convex(region: &Region) -> Option<Vec<(Point, Vector)>> {
    let mut rings = region.rings();
    let ring = rings.next().filter(|_| rings.next().is_none())?;
    let edges = ring.edges();
    let edges: Vec<(Point, Vector)> = edges
        .filter_map(|(a, b)| Some((a, (b - a).unit()?)))
        .collect();
    let after = edges.iter().cycle().skip(1);
    let turns_left = |(a, b): (&(Point, Vector), &(Point, Vector))| a.1.cross(b.1) > -STRAIGHT;
    edges.iter().zip(after).all(turns_left).then_some(())?;
    Some(edges.iter().map(|(a, along)| (*a, along.left())).collect())
}

/// The part of a region at least `by` meters inward of every edge.
fn clipped(region: &Region, edges: &[(Point, Vector)], by: f64) -> Region {
    let mut region = region.clone();
    let rings = region
        .polygons
        .iter_mut()
        .flat_map(|polygon| core::iter::once(&mut polygon.outer).chain(&mut polygon.holes));
    for ring in rings {
        for (on, inward) in edges {
            let within = |p: Point| inward.dot(p - *on) - by;
            if ring.0.iter().any(|p| within(*p) < 0.0) {
                *ring = ring.where_positive(within);
            }
        }
    }
    region
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shell::catalogue;

    /// Both ways, on every shell of the catalogue that is convex: drawn in and overlaid, or cut
    /// edge by edge.
    #[test]
    fn cut_edge_by_edge_is_drawn_in() {
        let mut seen = 0;
        for record in catalogue::all() {
            let shell = Shell::check(record).unwrap().0;
            let mut quick = Insets::of(&shell);
            if !matches!(quick, Insets::Convex(_)) {
                continue;
            }
            seen += 1;
            let mut plain = Insets::Any(&shell.footprint, Vec::new());
            for by in [0.0, 0.05, 0.3, 1.1] {
                for facet in &shell.facets {
                    let (a, b) = (quick.part(facet, by).area(), plain.part(facet, by).area());
                    assert!((a - b).abs() < 1e-6, "{}: {a} is not {b}", record.name);
                }
            }
        }
        assert!(seen > 3, "{seen}");
    }

    #[test]
    fn a_waist_makes_an_outline_that_is_not_convex() {
        let kidneys = catalogue::all();
        let bent = kidneys.iter().filter(|record| {
            let shell = Shell::check(record).unwrap().0;
            matches!(Insets::of(&shell), Insets::Any(..))
        });
        assert!(bent.count() > 0);
    }
}
