//! The geometry of a site as other forms write it: straight edges alone.
//!
//! What writes a map or a list needs the figures and the document, not validation: so the page's
//! module for text does without it.

use serde::{Deserialize, Serialize};

use crate::geom::distance::Figure;
use crate::geom::{Point, Region, Vector};
use crate::site::CheckedSite;

/// Polygons, each its outer ring and its holes, site meters; no ring repeats its first point.
pub type Areas = Vec<Vec<Vec<Point>>>;

/// Every figure of a site, curves as chords that stay within 1 mm inside them
/// ([`crate::geom::DRAWING_TOLERANCE`]); site meters.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Figures {
    /// The lot.
    pub lot: Areas,
    /// What stands on it, in the order of the document.
    pub features: Vec<FeatureFigure>,
    /// The edge of the shell, once placed.
    pub shell: Areas,
    /// Where the sides of the dig meet the ground.
    pub dig: Areas,
}

/// The figure of one feature: areas, or a line.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct FeatureFigure {
    /// Its areas.
    pub areas: Areas,
    /// Its line, where it has no area.
    pub line: Vec<Point>,
}

impl Figures {
    /// The figures of a site; `dig_edge` is that of its dig ([`crate::dig::Dig::top_edge`]).
    pub fn of(site: &CheckedSite, dig_edge: Option<&Region>) -> Self {
        let feature = |figure: Figure<'_>| match figure {
            Figure::Area(region) => FeatureFigure {
                areas: areas(region),
                line: Vec::new(),
            },
            Figure::Chain(chain) => FeatureFigure {
                areas: Vec::new(),
                line: chain.to_vec(),
            },
        };
        let shell = site.placed_shell();
        Self {
            lot: areas(&site.lot().region),
            features: site
                .features()
                .iter()
                .map(|f| feature(f.shape.figure()))
                .collect(),
            shell: shell.map_or(Vec::new(), |(shell, placement)| {
                areas(&shell.footprint.posed(&placement.pose()))
            }),
            dig: dig_edge.map(areas).unwrap_or_default(),
        }
    }
}

fn areas(region: &Region) -> Areas {
    let rings = |p: &crate::geom::Polygon| {
        let all = core::iter::once(&p.outer).chain(&p.holes);
        all.map(|ring| ring.0.clone()).collect()
    };
    region.polygons.iter().map(rings).collect()
}

/// A chain without the points that lie within a tolerance (meters) of the straight line between
/// those that stay: first and last stay, and of the rest the farthest off, as often as needed
/// (Douglas and Peucker 1973).
pub fn thinned(chain: &[Point], tolerance: f64) -> Vec<Point> {
    let mut stays = vec![false; chain.len()];
    let mut open = vec![(0, chain.len().saturating_sub(1))];
    while let Some((from, to)) = open.pop() {
        for end in [from, to] {
            if let Some(stay) = stays.get_mut(end) {
                *stay = true;
            }
        }
        let (Some(&a), Some(&b)) = (chain.get(from), chain.get(to)) else {
            continue;
        };
        let between = chain.iter().enumerate().take(to).skip(from + 1);
        let farthest = between
            .map(|(i, p)| (i, off(*p, a, b - a)))
            .max_by(|x, y| x.1.total_cmp(&y.1));
        if let Some((i, distance)) = farthest
            && distance > tolerance
        {
            open.push((from, i));
            open.push((i, to));
        }
    }
    let kept = chain.iter().zip(stays).filter(|(_, stay)| *stay);
    kept.map(|(p, _)| *p).collect()
}

/// How far a point lies off a straight stretch.
fn off(p: Point, from: Point, along: Vector) -> f64 {
    let square = along.dot(along);
    let part = if square > 0.0 {
        ((p - from).dot(along) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    p.distance(from + along * part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_straight_is_thinned_and_corners_stay() {
        let chain: Vec<Point> = [
            [0.0, 0.0],
            [1.0, 0.01],
            [2.0, 0.0],
            [2.0, 5.0],
            [2.01, 6.0],
            [2.0, 9.0],
        ]
        .map(Point::from)
        .to_vec();
        let thin = thinned(&chain, 0.02);
        assert_eq!(thin, [[0.0, 0.0], [2.0, 0.0], [2.0, 9.0]].map(Point::from));
        assert_eq!(thinned(&chain, 0.001).len(), 6);
        assert_eq!(thinned(&chain[..1], 1.0).len(), 1);
        assert!(thinned(&[], 1.0).is_empty());
    }

    #[test]
    fn a_closed_ring_keeps_its_shape() {
        let circle: Vec<Point> = (0..360)
            .map(|i| Point::default() + Vector::at_angle(f64::from(i).to_radians()) * 3.0)
            .collect();
        let thin = thinned(&circle, 0.0254);
        assert!((12..40).contains(&thin.len()), "{}", thin.len());
        for p in &circle {
            let sides = thin.iter().zip(thin.iter().cycle().skip(1));
            let near = sides
                .map(|(a, b)| off(*p, *a, *b - *a))
                .fold(f64::INFINITY, f64::min);
            assert!(near <= 0.0254 + 1e-9, "{near}");
        }
    }
}
