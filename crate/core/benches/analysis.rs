//! One frame of a drag without painting, on ground of 500 spots: move, check, all clearances, the
//! cut, all quantities and findings. And its parts: what the plan shows, and clearances alone.
#![allow(missing_docs)]

mod scene;

use std::hint::black_box;

use batterboard_core::analysis::{self, Cache, Detail, Scenario};
use batterboard_core::clearance::measure;
use criterion::{Criterion, criterion_group, criterion_main};
use scene::{frame, moved, rest, site};

/// Spots of the ground.
const SPOTS: usize = 500;

fn drag(c: &mut Criterion) {
    let start = site(SPOTS);
    let mut kept = Cache::default();
    let mut step = 0;
    c.bench_function("drag step: everything", |b| {
        b.iter(|| {
            step += 1;
            black_box(frame(&start, step, &mut kept))
        });
    });
    c.bench_function("at rest: with low and high", |b| {
        b.iter(|| {
            step += 1;
            black_box(rest(&start, step, &mut kept))
        });
    });
    let mut cache = Cache::default();
    c.bench_function("drag step: hole and clearances", |b| {
        b.iter(|| {
            step += 1;
            let site = moved(&start, step);
            let scenario = Scenario::of(&site);
            black_box(analysis::run(&scenario, Detail::Clearances, &mut cache))
        });
    });
    let site = moved(&start, 1);
    let work = analysis::run(&Scenario::of(&site), Detail::Clearances, &mut cache).work;
    c.bench_function("drag step: clearances alone", |b| {
        b.iter(|| black_box(measure(&site, &work)));
    });
}

criterion_group!(benches, drag);
criterion_main!(benches);
