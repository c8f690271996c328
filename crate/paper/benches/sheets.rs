//! What a sheet takes once its job is worked out: composed, and written as PDF and SVG; and what the first sheet of a
//! job takes, which waits for the hole's edges or for low and high.
#![allow(missing_docs, clippy::unwrap_used)]

use std::hint::black_box;

use batterboard_core::exchange;
use batterboard_paper::{Job, SheetKind, SheetWish, make, pdf, svg};
use criterion::{BatchSize, Criterion, criterion_group, criterion_main};

fn sheets(c: &mut Criterion) {
    for name in ["creek-side-deed", "sloping-hillside", "wedge-cul-de-sac"] {
        let text = std::fs::read_to_string(format!(
            "{}/../../demo-sites/{name}.json",
            env!("CARGO_MANIFEST_DIR")
        ))
        .unwrap();
        let open = || Job::of(exchange::open(&text).unwrap(), None);
        let job = open();
        for kind in SheetKind::ALL {
            let wish = SheetWish::new(kind);
            let Ok((document, _)) = make(&job, &wish) else {
                continue;
            };
            let of = |what: &str| format!("{name}/{}/{what}", kind.name());
            c.bench_function(&of("first"), |b| {
                b.iter_batched(open, |job| make(&job, &wish), BatchSize::PerIteration);
            });
            c.bench_function(&of("make"), |b| b.iter(|| black_box(make(&job, &wish))));
            c.bench_function(&of("pdf"), |b| b.iter(|| black_box(pdf::of(&document))));
            c.bench_function(&of("svg"), |b| b.iter(|| black_box(svg::of(&document, 0))));
        }
    }
}

criterion_group!(benches, sheets);
criterion_main!(benches);
