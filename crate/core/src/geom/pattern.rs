//! Hatches and ticks for drawings. The only module that names the `lyon` crate.
//!
//! lyon's paths are single precision: figures go in and come out relative to a local origin,
//! and nothing here reaches a number in a report. A figure is turned with our own sine and
//! cosine before it is hatched level, so that native and wasm draw the same lines. A ring with
//! a coordinate that is not finite is left out.

use lyon::algorithms::hatching::{HatchSegment, Hatcher, HatchingOptions, RegularHatchingPattern};
use lyon::algorithms::walk::{RegularPattern, WalkerEvent, walk_along_path};
use lyon::math::Point as LocalPoint;
use lyon::path::{Path, Polygon as Loop};
use lyon::tessellation::{
    BuffersBuilder, FillOptions, FillRule, FillTessellator, FillVertex, VertexBuffers,
};

use super::flatten::turned;
use super::point::{Point, Vector};
use super::region::{Region, Ring, bounds};
use crate::math::{cos, sin};

/// The most lines of one hatch and the most ticks of one ring: more would be a gray smear, and
/// stands for a spacing that nobody meant.
const MOST_MARKS: f64 = 10_000.0;

/// Figures narrower than this are a point in single precision, meters.
const SMALLEST_FIGURE: f64 = 1e-6;

/// Coordinates beyond this are not drawn, meters: a hundred times what the door lets in.
const LARGEST_FIGURE: f64 = 1e6;

/// Curves are straight edges already; lyon asks for a tolerance all the same.
const UNUSED_TOLERANCE: f32 = 0.1;

/// Parallel lines across a region: `spacing` meters apart, at `angle` radians counter-clockwise
/// from +x, each as its two ends. Nothing where the spacing is not positive.
pub fn hatch(region: &Region, angle: f64, spacing: f64) -> Vec<(Point, Point)> {
    let (cos, sin) = (cos(angle), sin(angle));
    let rings = drawable(region.rings());
    let Some(frame) = Frame::level_with(&rings, cos, sin) else {
        return Vec::new();
    };
    if !marks_fit(frame.height, spacing) {
        return Vec::new();
    }
    let path = frame.path(&rings);
    let mut lines = Vec::new();
    let mut pattern = RegularHatchingPattern {
        interval: spacing as f32,
        callback: &mut |line: &HatchSegment| {
            lines.push((frame.site(line.a.position), frame.site(line.b.position)));
        },
    };
    let mut options = HatchingOptions::DEFAULT;
    options.compute_tangents = false;
    Hatcher::new().hatch_path(path.iter(), &options, &mut pattern);
    lines
}

/// A tick on a path: where, and the unit normal to its left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tick {
    /// Position, meters.
    pub at: Point,
    /// Unit direction to the left of travel.
    pub left: Vector,
}

/// Places within a region in rows set off against each other, `apart` from each other, each with a figure from
/// 0 to 3 by which neighbors differ: where the small marks of stone and concrete stand. Of the first 400 rows and
/// columns alone.
pub fn scattered(region: &Region, apart: f64) -> Vec<(Point, u8)> {
    let Some((low, high)) = region.bounds() else {
        return Vec::new();
    };
    let rows = ((high.y - low.y) / apart).ceil().clamp(0.0, 400.0) as u32;
    let columns = ((high.x - low.x) / apart).ceil().clamp(0.0, 400.0) as u32;
    let mut places = Vec::new();
    for row in 0..rows {
        for column in 0..columns {
            let turn = ((row * 7 + column * 3) % 4) as u8;
            let off = f64::from(row % 2) * 0.5 + f64::from(turn) * 0.08;
            let at = Point::new(
                low.x + (f64::from(column) + off + 0.25) * apart,
                low.y + (f64::from(row) + 0.5 - f64::from(turn) * 0.06) * apart,
            );
            if region.contains(at) {
                places.push((at, turn));
            }
        }
    }
    places
}

/// Ticks along a closed ring (slope hachures, tie rods), evenly spread and no farther apart
/// than `spacing` meters. Nothing where the spacing is not positive.
pub fn ticks_along(ring: &Ring, spacing: f64) -> Vec<Tick> {
    let length = ring.perimeter();
    let rings = drawable(core::iter::once(ring));
    let Some(frame) = Frame::level_with(&rings, 1.0, 0.0) else {
        return Vec::new();
    };
    if !marks_fit(length, spacing) {
        return Vec::new();
    }
    let count = (length / spacing).ceil();
    let interval = (length / count) as f32;
    let path = frame.path(&rings);
    let mut ticks = Vec::new();
    let mut pattern = RegularPattern {
        interval,
        callback: &mut |event: WalkerEvent<'_>| {
            let along = Vector::new(f64::from(event.tangent.x), f64::from(event.tangent.y));
            ticks.extend(along.unit().map(|unit| Tick {
                at: frame.site(event.position),
                left: unit.left(),
            }));
            true
        },
    };
    // Half an interval in, so that rounding neither drops nor doubles the last one.
    walk_along_path(path.iter(), interval / 2.0, UNUSED_TOLERANCE, &mut pattern);
    ticks
}

/// Triangles that fill a region, for shaded drawings: vertices and index triples.
pub fn triangles(region: &Region) -> (Vec<Point>, Vec<[u32; 3]>) {
    let rings = drawable(region.rings());
    let Some(frame) = Frame::level_with(&rings, 1.0, 0.0) else {
        return (Vec::new(), Vec::new());
    };
    let path = frame.path(&rings);
    let mut buffers: VertexBuffers<Point, u32> = VertexBuffers::new();
    let mut builder =
        BuffersBuilder::new(&mut buffers, |v: FillVertex<'_>| frame.site(v.position()));
    let options = FillOptions::DEFAULT.with_fill_rule(FillRule::NonZero);
    let filled = FillTessellator::new().tessellate_path(&path, &options, &mut builder);
    if filled.is_err() {
        return (Vec::new(), Vec::new());
    }
    let (triples, _) = buffers.indices.as_chunks::<3>();
    (buffers.vertices, triples.to_vec())
}

/// Whether marks every `spacing` meters over `length` meters are a sensible number.
fn marks_fit(length: f64, spacing: f64) -> bool {
    spacing > 0.0 && length > 0.0 && length / spacing <= MOST_MARKS
}

/// A local frame in which a drawing direction is level.
struct Frame {
    origin: Point,
    cos: f64,
    sin: f64,
    /// Height of the figure across the drawing direction, meters.
    height: f64,
}

impl Frame {
    /// The frame whose x axis has the direction of the given cosine and sine, its origin at the
    /// first point of the rings; `None` when they enclose no box.
    fn level_with(rings: &[&Ring], cos: f64, sin: f64) -> Option<Self> {
        let points = || rings.iter().flat_map(|ring| &ring.0);
        let mut frame = Self {
            origin: *points().next()?,
            cos,
            sin,
            height: 0.0,
        };
        let (low, high) = bounds(points().map(|p| frame.turn(*p)))?;
        frame.height = high.y - low.y;
        (frame.height > SMALLEST_FIGURE && high.x - low.x > SMALLEST_FIGURE).then_some(frame)
    }

    fn turn(&self, p: Point) -> Point {
        let v = turned(p - self.origin, self.cos, -self.sin);
        Point::new(v.x, v.y)
    }

    fn local(&self, p: Point) -> LocalPoint {
        let p = self.turn(p);
        LocalPoint::new(p.x as f32, p.y as f32)
    }

    fn site(&self, p: LocalPoint) -> Point {
        let v = Vector::new(f64::from(p.x), f64::from(p.y));
        self.origin + turned(v, self.cos, self.sin)
    }

    fn path(&self, rings: &[&Ring]) -> Path {
        let mut builder = Path::builder();
        for ring in rings {
            let points: Vec<LocalPoint> = ring.0.iter().map(|p| self.local(*p)).collect();
            builder.add_polygon(Loop {
                points: &points,
                closed: true,
            });
        }
        builder.build()
    }
}

/// The rings that can be drawn at all.
fn drawable<'a>(rings: impl Iterator<Item = &'a Ring>) -> Vec<&'a Ring> {
    let fits = |p: &Point| p.x.abs() < LARGEST_FIGURE && p.y.abs() < LARGEST_FIGURE;
    rings
        .filter(|ring| ring.0.len() >= 3 && ring.0.iter().all(fits))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::TURN;

    /// 10 x 6 far from the origin, with a 2 x 2 hole.
    fn slab() -> Region {
        let ring = |x: f64, y: f64, w: f64, h: f64| {
            Ring(vec![
                Point::new(5000.0 + x, y),
                Point::new(5000.0 + x + w, y),
                Point::new(5000.0 + x + w, y + h),
                Point::new(5000.0 + x, y + h),
            ])
        };
        let mut region = Region::from_ring(ring(0.0, 0.0, 10.0, 6.0));
        region.polygons[0].holes = vec![ring(4.0, 2.0, 2.0, 2.0).reversed()];
        region
    }

    #[test]
    fn hatch_lines_cover_the_area_once() {
        for angle in [0.0, TURN / 8.0, TURN / 3.0, -1.0] {
            let spacing = 0.05;
            let lines = hatch(&slab(), angle, spacing);
            let area: f64 = lines.iter().map(|(a, b)| a.distance(*b) * spacing).sum();
            assert!((area - 56.0).abs() < 0.6, "{area} at {angle}");
            let along = Vector::at_angle(angle);
            for (a, b) in lines {
                assert!((b - a).cross(along).abs() < 1e-4);
                assert!(slab().contains(a.midpoint(b)));
            }
        }
    }

    #[test]
    fn ticks_are_even_and_point_left() {
        let ring = &slab().polygons[0].outer;
        let ticks = ticks_along(ring, 0.61);
        assert_eq!(ticks.len(), (32.0f64 / 0.61).ceil() as usize);
        for tick in ticks {
            assert!(slab().contains(tick.at + tick.left * 0.01));
            assert!(!slab().contains(tick.at + tick.left * -0.01));
            assert!((tick.left.length() - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn triangles_fill_the_area() {
        let (vertices, triples) = triangles(&slab());
        let corner = |i: u32| vertices[i as usize];
        let area: f64 = triples
            .iter()
            .map(|&[a, b, c]| (corner(b) - corner(a)).cross(corner(c) - corner(a)).abs() / 2.0)
            .sum();
        assert!((area - 56.0).abs() < 1e-3, "{area}");
    }

    #[test]
    fn foolish_input_draws_nothing() {
        let slab = slab();
        for spacing in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e-9] {
            assert!(hatch(&slab, 0.0, spacing).len() < 2);
            assert!(ticks_along(&slab.polygons[0].outer, spacing).len() < 2);
        }
        assert!(hatch(&slab, f64::NAN, 1.0).is_empty());
        let mut spoilt = slab.clone();
        spoilt.polygons[0].outer.0[1].x = f64::NAN;
        let _ = hatch(&spoilt, 0.3, 1.0);
        let _ = triangles(&spoilt);
        for width in [1e-60, 1e-9] {
            let speck = Ring(vec![
                Point::new(0.0, 0.0),
                Point::new(width, 0.0),
                Point::new(0.0, width),
            ]);
            assert!(hatch(&Region::from_ring(speck), 0.0, width).is_empty());
        }
        let flat = Ring(vec![Point::new(1.0, 1.0); 4]);
        assert!(ticks_along(&flat, 1.0).is_empty());
        assert!(hatch(&Region::from_ring(flat), 0.0, 1.0).is_empty());
        assert!(triangles(&Region::default()).0.is_empty());
    }
}
