//! How long clear ground and the fit search take.
//!
//! `cargo bench -p batterboard-core --bench clear_ground`
#![allow(missing_docs)]
// A panic here fails the bench.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use std::f64::consts::TAU;
use std::hint::black_box;

use batterboard_core::analysis::Cache;
use batterboard_core::clear_ground::{Bounds, ClearGround};
use batterboard_core::exchange::open;
use batterboard_core::fit::{FitWish, Search};
use batterboard_core::geom::pole::poles;
use batterboard_core::site::CheckedSite;
use criterion::{Criterion, criterion_group, criterion_main};

fn demos() -> [(&'static str, CheckedSite); 4] {
    [
        (
            "level",
            include_str!("../../../demo-sites/level-suburban.json"),
        ),
        (
            "hillside",
            include_str!("../../../demo-sites/sloping-hillside.json"),
        ),
        (
            "wedge",
            include_str!("../../../demo-sites/wedge-cul-de-sac.json"),
        ),
        (
            "creek-side",
            include_str!("../../../demo-sites/creek-side-deed.json"),
        ),
    ]
    .map(|(name, text)| (name, open(text).unwrap().site))
}

fn clear_ground(c: &mut Criterion) {
    for (name, site) in demos() {
        let (_, placement) = site.placed_shell().unwrap();
        let bounds = Bounds::where_it_stands(&site, &mut Cache::default()).unwrap();
        c.bench_function(
            &format!("{name}: make ready, {} bounds", bounds.all().len()),
            |b| {
                b.iter(|| ClearGround::of(black_box(&bounds)));
            },
        );
        let ground = ClearGround::of(&bounds);
        let mut heading = 0.0;
        c.bench_function(&format!("{name}: clear ground at one heading"), |b| {
            b.iter(|| {
                heading += TAU / 360.0;
                ground.region(black_box(heading), false)
            });
        });
        let thin = ClearGround::thinned(&bounds, 0.005);
        c.bench_function(&format!("{name}: the same within 5 mm"), |b| {
            b.iter(|| {
                heading += TAU / 360.0;
                thin.region(black_box(heading), false)
            });
        });
        let region = ground.region(placement.heading, placement.mirrored);
        c.bench_function(&format!("{name}: deepest places"), |b| {
            b.iter(|| poles(black_box(&region)));
        });
        c.bench_function(&format!("{name}: headings that work"), |b| {
            b.iter(|| bounds.headings(black_box(placement.at), placement.mirrored));
        });
    }
}

fn search(c: &mut Criterion) {
    let mut group = c.benchmark_group("the whole catalogue");
    group.sample_size(10);
    for (name, site) in demos() {
        group.bench_function(format!("{name}, every 10 degrees"), |b| {
            b.iter(|| {
                let wish = FitWish {
                    step: 10,
                    ..FitWish::default()
                };
                let mut search = Search::new(site.clone(), wish).unwrap();
                while !search.step().is_done() {}
                search.found().len()
            });
        });
    }
}

criterion_group!(benches, clear_ground, search);
criterion_main!(benches);
