//! How long plane geometry takes, with `geo`'s own buffer in the same run as a peer.
//!
//! `cargo bench -p batterboard-core --bench geom`
#![allow(missing_docs)]
// A panic here fails the bench.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::hint::black_box;

use batterboard_core::geom::distance::{Figure, nearest, nearest_inside};
use batterboard_core::geom::flatten::{ChordSide, flatten};
use batterboard_core::geom::{
    DRAWING_TOLERANCE, Outline, Point, Pose, Region, Ring, Vertex, boolean, offset,
};
use criterion::{Criterion, criterion_group, criterion_main};
use geo::algorithm::buffer::{Buffer, BufferStyle, LineJoin};

/// A kidney 9 m long whose waist is an inward arc.
fn kidney() -> Outline {
    Outline::check(vec![
        Vertex::arc(2.6, 2.0, -0.5),
        Vertex::arc(-2.6, 2.0, 0.95),
        Vertex::arc(-2.6, -2.0, 0.2),
        Vertex::arc(2.6, -2.0, 0.95),
    ])
    .unwrap()
}

fn block(x: f64, y: f64, w: f64, h: f64) -> Region {
    Region::from_ring(Ring(vec![
        Point::new(x, y),
        Point::new(x + w, y),
        Point::new(x + w, y + h),
        Point::new(x, y + h),
    ]))
}

fn flattening(c: &mut Criterion) {
    let kidney = kidney();
    c.bench_function("flatten a kidney at 1 mm", |b| {
        b.iter(|| flatten(black_box(&kidney), DRAWING_TOLERANCE, ChordSide::Inscribed));
    });
}

fn widening(c: &mut Criterion) {
    let region = kidney().region(DRAWING_TOLERANCE);
    let ring = &region.polygons[0].outer;
    let count = ring.0.len();
    for distance in [0.2, 2.0, 4.0, -0.3, -1.9] {
        c.bench_function(&format!("widen {count} vertices by {distance} m"), |b| {
            b.iter(|| offset::offset_region(black_box(&region), distance, DRAWING_TOLERANCE));
        });
        let coords: Vec<geo::Coord<f64>> = ring
            .0
            .iter()
            .map(|p| geo::Coord { x: p.x, y: p.y })
            .collect();
        let polygon = geo::Polygon::new(geo::LineString(coords), Vec::new());
        // The join angle that keeps its chords within the same tolerance.
        let angle = 1.886 * (DRAWING_TOLERANCE / distance.abs()).sqrt();
        let style = BufferStyle::new(distance).line_join(LineJoin::Round(angle));
        c.bench_function(&format!("peer: geo buffer by {distance} m"), |b| {
            b.iter(|| black_box(&polygon).buffer_with_style(style.clone()));
        });
    }
    let tapered: Vec<(Point, f64)> = ring.0.iter().map(|p| (*p, 1.2 + 0.1 * p.x)).collect();
    c.bench_function(&format!("widen {count} vertices tapering"), |b| {
        b.iter(|| offset::offset_tapered(black_box(&tapered), DRAWING_TOLERANCE));
    });
}

fn measuring(c: &mut Criterion) {
    let shell = kidney().region(DRAWING_TOLERANCE);
    let lot = block(-15.0, -20.0, 30.0, 40.0);
    let side = [Point::new(-15.0, -20.0), Point::new(15.0, -20.0)];
    let house = block(6.0, -8.0, 8.0, 6.0);
    c.bench_function("distance from a kidney to a house", |b| {
        b.iter(|| nearest(Figure::Area(black_box(&shell)), Figure::Area(&house)));
    });
    let near = block(3.0, 3.0, 8.0, 6.0);
    c.bench_function("distance from a kidney to a house whose boxes meet", |b| {
        b.iter(|| nearest(Figure::Area(black_box(&shell)), Figure::Area(&near)));
    });
    c.bench_function("room from a kidney to one side of a lot", |b| {
        b.iter(|| nearest_inside(black_box(&shell), &lot, &side));
    });
    let pose = Pose::new(Point::new(1.0, 2.0), 0.3, false);
    c.bench_function("carry a kidney onto the site", |b| {
        b.iter(|| black_box(&shell).posed(&pose));
    });
}

fn overlaying(c: &mut Criterion) {
    let shell = kidney().region(DRAWING_TOLERANCE);
    let house = block(0.0, 0.0, 8.0, 6.0);
    c.bench_function("union of a kidney and a house", |b| {
        b.iter(|| boolean::union(black_box(&shell), &house));
    });
}

criterion_group!(benches, flattening, widening, measuring, overlaying);
criterion_main!(benches);
