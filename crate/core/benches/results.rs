//! One step of a drag without painting: move, check, all clearances, the cut on surveyed
//! ground, all quantities and findings. And clearances alone.
#![allow(missing_docs)]

use std::hint::black_box;
use std::sync::Arc;

use batterboard_core::clearance::measure;
use batterboard_core::exchange::open;
use batterboard_core::geom::Point;
use batterboard_core::ground::GroundRecord;
use batterboard_core::results::{Cache, Results};
use batterboard_core::site::{CheckedSite, Feature, FeatureKind, ShapeRecord, Site, rule};
use criterion::{Criterion, criterion_group, criterion_main};

/// How many places the shell is dragged through.
const STEPS: usize = 64;

/// The hillside with 100 spots, 14 rules and a dozen features in their reach.
fn site() -> CheckedSite {
    let text = include_str!("../../../demo-sites/sloping-hillside.json");
    let Ok(opened) = open(text) else {
        unreachable!("the tests open every demo site")
    };
    let mut site = Site::clone(opened.site.site());
    let spot = |i: i32| {
        let (x, y) = (f64::from(i % 10) * 4.5 - 2.0, f64::from(i / 10) * 5.5 - 2.0);
        [
            x,
            y,
            30.0 - 0.02 * x - 0.025 * y + 0.05 * f64::from(i * 7 % 5),
        ]
    };
    site.ground = Arc::new(GroundRecord::of_spots((0..100).map(spot).collect()));
    let tank = |i: usize| {
        let shape = ShapeRecord::Disc {
            at: Point::new(3.0 + 3.0 * i as f64, 38.0),
            radius: 1.0,
        };
        Feature::of(format!("tank {i}"), FeatureKind::SepticTank, shape)
    };
    let mut features = site.features.as_ref().clone();
    features.extend((features.len()..12).map(tank));
    site.features = Arc::new(features);
    site.rules = Arc::new(rule::examples());
    let Ok(checked) = CheckedSite::check(site, None) else {
        unreachable!("the site is valid")
    };
    checked
}

fn moved(site: &CheckedSite, step: usize) -> CheckedSite {
    let mut next = Site::clone(site.site());
    if let Some(placement) = &mut next.placement {
        let by = (step % STEPS) as f64 / STEPS as f64;
        placement.at = Point::new(15.0 + 3.0 * by, 24.0 - 2.0 * by);
    }
    let Ok(checked) = CheckedSite::check(next, Some(site)) else {
        unreachable!("the place is within reach")
    };
    checked
}

fn drag(c: &mut Criterion) {
    let start = site();
    let mut cache = Cache::default();
    let mut step = 0;
    c.bench_function("drag step: all results", |b| {
        b.iter(|| {
            step += 1;
            let site = moved(&start, step);
            black_box(Results::compute(&site, &mut cache))
        });
    });
    let site = moved(&start, 1);
    let work = Results::compute(&site, &mut cache).work;
    c.bench_function("drag step: clearances alone", |b| {
        b.iter(|| black_box(measure(&site, &work)));
    });
}

criterion_group!(benches, drag);
criterion_main!(benches);
