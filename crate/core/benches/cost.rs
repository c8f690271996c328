//! What a frame of a drag and its parts cost against the number of spots of the ground (10^2 to 10^6), of points of its
//! breaklines, of vertices of the shell's outline (10^2 to 10^5), and of features and rules (1 to 10^3), two sizes to the
//! decade. The task runner plots the runs and fits an exponent to each.
//!
//! What passes the door is measured as far as the door lets it; its parts go on beyond.
//! `BATTERBOARD_BENCH_MOST` names the largest size, for a look.
#![allow(missing_docs)]
// A panic here fails the bench.
#![allow(clippy::unwrap_used)]

mod scene;

use std::hint::black_box;
use std::time::Duration;

use batterboard_core::analysis::Cache;
use batterboard_core::dig::{DigShape, excavate};
use batterboard_core::geom::distance::{Figure, nearest};
use batterboard_core::geom::validate::VERTEX_LIMIT;
use batterboard_core::geom::{DRAWING_TOLERANCE, Point, Pose, Region, Ring, offset};
use batterboard_core::ground::Ground;
use batterboard_core::site::CheckedSite;
use batterboard_core::site::limits;
use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use scene::{
    bean, frame, ground, site, site_of_breaklines, site_of_features, site_of_outline, site_of_rules,
};

/// 10^2, 10^2.5 ... up to a size.
fn sizes(most: usize) -> Vec<usize> {
    sizes_from(100, most)
}

/// The same from a size on, 1 at least.
fn sizes_from(least: usize, most: usize) -> Vec<usize> {
    let named = std::env::var("BATTERBOARD_BENCH_MOST").ok();
    let most = named.map_or(most, |text| most.min(text.parse().unwrap()));
    let all = [
        1, 3, 10, 32, 100, 316, 1_000, 3_162, 10_000, 31_623, 100_000, 316_228, 1_000_000,
    ];
    let within = |size: &usize| (least..=most).contains(size);
    all.into_iter().filter(within).collect()
}

fn by_spots(c: &mut Criterion) {
    let mut group = c.benchmark_group("cost against spots");
    for count in sizes(limits::SPOTS) {
        let start = site(count);
        let (mut kept, mut step) = (Cache::default(), 0);
        group.bench_with_input(BenchmarkId::new("one frame", count), &(), |b, ()| {
            b.iter(|| {
                step += 1;
                black_box(frame(&start, step, &mut kept))
            });
        });
    }
    let start = site(100);
    let (shell, placement) = start.placed_shell().unwrap();
    let shape = DigShape::new(shell, &start.site().works.dig, 1.0);
    let cap = start.site().works.collar.underside();
    for count in sizes(1_000_000) {
        let record = ground(count);
        let (surface, _) = Ground::check(&record).unwrap();
        group.bench_with_input(BenchmarkId::new("the cut", count), &(), |b, ()| {
            let mut step = 0;
            b.iter(|| {
                step += 1;
                let along = f64::from(step % 100) * 0.03;
                let at = Point::new(15.0 + along, 24.0);
                let pose = Pose::new(at, placement.heading, placement.mirrored);
                excavate(&shape, &surface, &pose, placement.coping_elevation, cap)
            });
        });
        group.bench_with_input(BenchmarkId::new("ground anew", count), &(), |b, ()| {
            b.iter(|| Ground::check(black_box(&record)));
        });
    }
    group.finish();
}

fn by_vertices(c: &mut Criterion) {
    let mut group = c.benchmark_group("cost against vertices");
    for count in sizes(VERTEX_LIMIT) {
        let start = site_of_outline(count);
        let (mut kept, mut step) = (Cache::default(), 0);
        group.bench_with_input(BenchmarkId::new("one frame", count), &(), |b, ()| {
            b.iter(|| {
                step += 1;
                black_box(frame(&start, step, &mut kept))
            });
        });
        group.bench_with_input(BenchmarkId::new("first frame", count), &(), |b, ()| {
            b.iter(|| black_box(frame(&start, 1, &mut Cache::default())));
        });
    }
    let house = Region::from_ring(Ring(vec![
        Point::new(6.0, -8.0),
        Point::new(14.0, -8.0),
        Point::new(14.0, -2.0),
        Point::new(6.0, -2.0),
    ]));
    for count in sizes(100_000) {
        let outline = Region::from_ring(Ring(bean(count)));
        group.bench_with_input(BenchmarkId::new("one distance", count), &(), |b, ()| {
            b.iter(|| nearest(Figure::Area(black_box(&outline)), Figure::Area(&house)));
        });
        group.bench_with_input(BenchmarkId::new("one offset ring", count), &(), |b, ()| {
            b.iter(|| offset::offset_region(black_box(&outline), 1.2, DRAWING_TOLERANCE));
        });
    }
    group.finish();
}

/// A frame of a drag and the first one, on sites of growing size.
fn frames(c: &mut Criterion, group: &str, sizes: Vec<usize>, site: fn(usize) -> CheckedSite) {
    let mut group = c.benchmark_group(group);
    for count in sizes {
        let start = site(count);
        let (mut kept, mut step) = (Cache::default(), 0);
        group.bench_with_input(BenchmarkId::new("one frame", count), &(), |b, ()| {
            b.iter(|| {
                step += 1;
                black_box(frame(&start, step, &mut kept))
            });
        });
        group.bench_with_input(BenchmarkId::new("first frame", count), &(), |b, ()| {
            b.iter(|| black_box(frame(&start, 1, &mut Cache::default())));
        });
    }
    group.finish();
}

fn by_what_stands_on_it(c: &mut Criterion) {
    let features = sizes_from(1, limits::FEATURES);
    frames(c, "cost against features", features, site_of_features);
    let rules = sizes_from(1, limits::RULES);
    frames(c, "cost against rules", rules, site_of_rules);
    let points = sizes_from(10, limits::BREAKLINE_POINTS);
    frames(c, "cost against breaklines", points, site_of_breaklines);
}

/// Few and short samples: the largest sizes take seconds, and the picture spans decades.
fn brief() -> Criterion {
    Criterion::default()
        .sample_size(10)
        .warm_up_time(Duration::from_millis(500))
        .measurement_time(Duration::from_secs(2))
}

criterion_group! {
    name = benches;
    config = brief();
    targets = by_spots, by_vertices, by_what_stands_on_it
}
criterion_main!(benches);
