//! The line of the section, and where it meets regions of the plan.

use crate::analysis::Analysis;
use crate::geom::{Point, Region, Vector};
use crate::site::{CheckedSite, SectionLine};

/// How far beyond hole, deck and banks the section reaches unless somebody draws it, meters (our choice).
const BEYOND: f64 = 1.5;

/// Floors this near to the deepest count as deepest, meters.
const NEAR: f64 = 1e-3;

/// A straight line with stations from 0 to its length, in any frame of the plan.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cut {
    pub from: Point,
    pub along: Vector,
    pub length: f64,
}

impl Cut {
    /// The line between two points; `None` where it has no length to speak of.
    pub fn between(from: Point, to: Point) -> Option<Self> {
        let length = from.distance(to);
        let along = (to - from).unit().filter(|_| length > NEAR)?;
        Some(Self {
            from,
            along,
            length,
        })
    }

    /// The point at a station.
    pub fn at(&self, station: f64) -> Point {
        self.from + self.along * station
    }

    /// Where the line, or what lies beyond its ends, crosses a straight edge.
    pub fn crossing(&self, a: Point, b: Point) -> Option<f64> {
        let off = |p: Point| self.along.cross(p - self.from);
        let (u, v) = (off(a), off(b));
        ((u > 0.0) != (v > 0.0)).then(|| {
            let on = a + (b - a) * (u / (u - v));
            (on - self.from).dot(self.along)
        })
    }

    /// Where the line crosses the edges of a region, in order, all along it and beyond its ends.
    pub fn crossings(&self, region: &Region) -> Vec<f64> {
        let edges = region.rings().flat_map(|ring| ring.edges());
        let mut found: Vec<f64> = edges.filter_map(|(a, b)| self.crossing(a, b)).collect();
        found.sort_by(f64::total_cmp);
        found
    }

    /// The stretches of the line, and of what lies beyond its ends, inside a region.
    pub fn inside(&self, region: &Region) -> Vec<(f64, f64)> {
        let found = self.crossings(region);
        found
            .as_chunks::<2>()
            .0
            .iter()
            .map(|[a, b]| (*a, *b))
            .collect()
    }
}

/// Where the section is cut when nobody says: along the shell's length through its deepest
/// point, from a little before hole, deck and banks to a little beyond them. `None` without a shell.
pub fn standard(site: &CheckedSite, analysis: &Analysis) -> Option<SectionLine> {
    let (shell, placement) = site.placed_shell()?;
    let pose = placement.pose();
    let deepest = shell.deepest() - NEAR;
    let corners = shell.facets.iter().flat_map(|facet| {
        let points = facet.region.rings().flat_map(|ring| &ring.0);
        points.filter(move |p| facet.plane.depth(**p) >= deepest)
    });
    let (low, high) = crate::geom::region::bounds(corners.copied())?;
    let middle = low.midpoint(high);
    let from = pose.site_from_shell(middle);
    let line = Cut {
        from,
        along: Vector::along_bearing(placement.heading),
        length: 0.0,
    };
    let mut reach = line.crossings(&shell.rim.posed(&pose));
    if let Some(dig) = &analysis.dig {
        reach.extend(line.crossings(&dig.top_edge));
    }
    if let Some(deck) = &analysis.deck {
        reach.extend(line.crossings(&deck.slab.posed(&pose)));
    }
    if let Some(grading) = &analysis.grading {
        for chain in grading.toe.lines.iter().chain(&grading.crest.lines) {
            let edges = chain.iter().zip(chain.iter().skip(1));
            reach.extend(edges.filter_map(|(a, b)| line.crossing(*a, *b)));
        }
    }
    let first = reach.iter().copied().fold(0.0, f64::min) - BEYOND;
    let last = reach.iter().copied().fold(0.0, f64::max) + BEYOND;
    Some(SectionLine {
        from: line.at(first),
        to: line.at(last),
    })
}
