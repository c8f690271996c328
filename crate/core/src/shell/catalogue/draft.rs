//! From a length profile and platforms to a shell record.
//!
//! The drawing board works in feet, as the trade names shells; the record is in meters.
//! Facets are cut from the upright frame round the outline, so that they share their edges
//! to the last digit; where they reach over the outline, validation cuts them away.

use crate::geom::boolean::{difference, intersection, union};
use crate::geom::flatten::{ChordSide, flatten};
use crate::geom::{Outline, Point, Region, Ring, Vertex};
use crate::shell::plane::DepthPlane;
use crate::shell::record::{FacetKind, FacetRecord, ShellRecord};
use crate::units::constants::{FOOT, INCH, POUND};

/// How far facets reach over the outline, meters.
const REACH: f64 = 0.1;

/// Chord error of the curved edges of steps, meters. They are floor, not wall: drawing only.
const EDGE_TOLERANCE: f64 = 0.002;

/// Facet coordinates are written to the micrometre, a millionth of a meter: below that is
/// noise of the cutting.
const WRITTEN: f64 = 1e6;

/// Pieces smaller than this are what the cutting left over, m2.
const CRUMB: f64 = 1e-4;

/// A shell on the drawing board. Lengths in feet, depths in feet below the rim.
pub(super) struct Draft {
    name: &'static str,
    note: &'static str,
    outline: Vec<Vertex>,
    stations: Vec<(f64, f64, FacetKind)>,
    platforms: Vec<(FacetKind, f64, Vec<Vertex>)>,
    pounds: f64,
}

impl Draft {
    /// Begins a shell.
    pub fn new(name: &'static str, note: &'static str, outline: Vec<Vertex>) -> Self {
        Self {
            name,
            note,
            outline,
            stations: Vec::new(),
            platforms: Vec::new(),
            pounds: 0.0,
        }
    }

    /// The floor along the length: at each station x, the depth and the kind of the stretch
    /// that begins there. The last station ends the floor.
    pub fn floor(mut self, stations: &[(f64, f64, FacetKind)]) -> Self {
        self.stations = stations.to_vec();
        self
    }

    /// The common floor: shallow, break, slope, deep. Four stations of x and depth.
    pub fn three_part_floor(self, [a, b, c, d]: [(f64, f64); 4]) -> Self {
        self.floor(&[
            (a.0, a.1, FacetKind::Shallow),
            (b.0, b.1, FacetKind::Slope),
            (c.0, c.1, FacetKind::Deep),
            (d.0, d.1, FacetKind::Deep),
        ])
    }

    /// A level platform on the floor. One named earlier stands on those named later.
    pub fn platform(mut self, kind: FacetKind, depth: f64, path: Vec<Vertex>) -> Self {
        self.platforms.push((kind, depth, path));
        self
    }

    /// Stair treads, highest first, each with its depth.
    pub fn steps(self, treads: impl IntoIterator<Item = (f64, Vec<Vertex>)>) -> Self {
        treads.into_iter().fold(self, |draft, (depth, path)| {
            draft.platform(FacetKind::Step, depth, path)
        })
    }

    /// Finishes the shell; its weight in pounds.
    ///
    /// Invented, but in the usual range (common practice, no source): a coping of 10 in, the
    /// water 6 in below the rim, a wall of 10 mm.
    pub fn weighing(mut self, pounds: f64) -> ShellRecord {
        self.pounds = pounds;
        ShellRecord {
            name: self.name.to_owned(),
            note: self.note.to_owned(),
            outline: metres(&self.outline).as_slice().into(),
            floor: self.facets(),
            coping_width: 10.0 * INCH,
            waterline: 6.0 * INCH,
            wall_thickness: 0.010,
            draft: 0.0,
            cove: 0.0,
            stations: Vec::new(),
            drain: None,
            weight: Some(self.pounds * POUND),
        }
    }

    fn facets(&self) -> Vec<FacetRecord> {
        let frame = self.frame();
        let mut records = Vec::new();
        let mut taken = Region::default();
        for (kind, depth, path) in &self.platforms {
            // Cut by its neighbors first and by the frame last: two cuts along one line
            // would leave hairs there.
            let whole = area(path);
            let open = intersection(&difference(&whole, &taken), &frame);
            records.extend(written(*kind, DepthPlane::level(depth * FOOT), &open));
            taken = union(&taken, &whole);
        }
        let last = self.stations.len().saturating_sub(2);
        for (i, (from, to)) in self
            .stations
            .iter()
            .zip(self.stations.iter().skip(1))
            .enumerate()
        {
            let (x0, x1) = (from.0 * FOOT, to.0 * FOOT);
            let plane = DepthPlane::through(&[
                (Point::new(x0, 0.0), from.1 * FOOT),
                (Point::new(x1, 0.0), to.1 * FOOT),
            ]);
            // The first and the last stretch run on to the frame.
            let left = if i == 0 { f64::NEG_INFINITY } else { x0 };
            let right = if i == last { f64::INFINITY } else { x1 };
            let strip = slice(&frame, left, right);
            records.extend(written(from.2, plane, &difference(&strip, &taken)));
        }
        records
    }

    /// The upright rectangle round the outline, a little larger.
    fn frame(&self) -> Region {
        match area(&self.outline).bounds() {
            Some((low, high)) => upright(
                Point::new(low.x - REACH, low.y - REACH),
                Point::new(high.x + REACH, high.y + REACH),
            ),
            None => Region::default(),
        }
    }
}

/// The part of an upright rectangle between two values of x.
fn slice(frame: &Region, left: f64, right: f64) -> Region {
    match frame.bounds() {
        Some((low, high)) => upright(
            Point::new(low.x.max(left), low.y),
            Point::new(high.x.min(right), high.y),
        ),
        None => Region::default(),
    }
}

fn upright(low: Point, high: Point) -> Region {
    Region::from_ring(Ring(vec![
        low,
        Point::new(high.x, low.y),
        high,
        Point::new(low.x, high.y),
    ]))
}

fn metres(path: &[Vertex]) -> Vec<Vertex> {
    path.iter()
        .map(|v| Vertex {
            at: Point::new(v.at.x * FOOT, v.at.y * FOOT),
            bulge: v.bulge,
        })
        .collect()
}

/// The area inside a path in feet; empty when the path is not one.
fn area(path: &[Vertex]) -> Region {
    Outline::check(metres(path)).map_or_else(
        |_| Region::default(),
        |outline| Region::from_ring(flatten(&outline, EDGE_TOLERANCE, ChordSide::Inscribed)),
    )
}

/// The pieces of a facet as records. A platform never leaves a hole: it reaches the wall.
fn written(
    kind: FacetKind,
    plane: DepthPlane,
    region: &Region,
) -> impl Iterator<Item = FacetRecord> {
    region
        .polygons
        .iter()
        .filter(|piece| piece.outer.signed_area() > CRUMB)
        .map(move |piece| {
            let round = |value: f64| (value * WRITTEN).round() / WRITTEN;
            let vertices: Vec<Vertex> = piece
                .outer
                .0
                .iter()
                .map(|p| Vertex::line(round(p.x), round(p.y)))
                .collect();
            FacetRecord {
                kind,
                depths: vertices.iter().map(|v| round(plane.depth(v.at))).collect(),
                outline: vertices.as_slice().into(),
            }
        })
}

/// A rectangle between two corners, in feet.
pub(super) fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<Vertex> {
    vec![
        Vertex::line(x0, y0),
        Vertex::line(x1, y0),
        Vertex::line(x1, y1),
        Vertex::line(x0, y1),
    ]
}

/// A disc, in feet; steps and seats take its part inside the shell.
pub(super) fn disc(x: f64, y: f64, radius: f64) -> Vec<Vertex> {
    vec![
        Vertex::arc(x - radius, y, 1.0),
        Vertex::arc(x + radius, y, 1.0),
    ]
}
