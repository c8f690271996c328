//! How long the dig takes: filling the shape (when shell or settings change) and cutting it
//! into grounds of 100, 500 and 5,000 spots (every frame of a drag).
#![allow(missing_docs, clippy::unwrap_used)]

use batterboard_core::dig::{DigShape, excavate};
use batterboard_core::geom::{Point, Pose};
use batterboard_core::ground::{Ground, GroundRecord};
use batterboard_core::shell::{Shell, catalogue};
use batterboard_core::site::{Bench, DigSettings, HoleSide, SideSettings, SoilClass, SoilLayer};
use criterion::{Criterion, criterion_group, criterion_main};

/// A lot of 60 m square with spots scattered evenly (Halton's sequence) over rolling ground.
fn ground(spots: u32) -> Ground {
    let halton = |index: u32, base: u32| {
        let (mut i, mut part, mut sum) = (index, 1.0, 0.0);
        while i > 0 {
            part /= f64::from(base);
            sum += part * f64::from(i % base);
            i /= base;
        }
        sum
    };
    let spot = |i: u32| {
        let (x, y) = (60.0 * halton(i, 2), 60.0 * halton(i, 3));
        [x, y, 100.0 + 0.04 * x - 0.02 * y + 0.3 * halton(i, 5)]
    };
    let spots = (1..=spots).map(spot).collect();
    Ground::check(&GroundRecord::of_spots(spots)).unwrap().0
}

fn largest_curved_shell() -> Shell {
    let arcs = |s: &Shell| {
        s.footprint
            .polygons
            .iter()
            .map(|p| p.outer.0.len())
            .sum::<usize>()
    };
    let shells = catalogue::all().iter();
    let shells = shells.map(|record| Shell::check(record).unwrap().0);
    shells.max_by_key(arcs).unwrap()
}

/// Sides by side, two layers of soil, a bench and an upright part below.
fn unlike() -> DigSettings {
    DigSettings {
        sides: vec![SideSettings {
            side: HoleSide::Left,
            over_dig: Some(0.2),
            slope: Some(0.5),
            note: String::new(),
        }],
        layers: vec![SoilLayer {
            down_to: 0.8,
            soil: SoilClass::C,
            slope: None,
        }],
        bench: Some(Bench {
            depth: 1.0,
            width: 0.5,
        }),
        upright_below: Some(1.4),
        ..DigSettings::default()
    }
}

/// The grid of a shape is filled when it is first cut.
fn first_cut(c: &mut Criterion, name: &str, shell: &Shell, settings: &DigSettings) {
    let (ground, pose) = (ground(100), Pose::new(Point::new(25.0, 30.0), 0.3, false));
    c.bench_function(&format!("fill the shape and cut, {name}"), |b| {
        b.iter(|| {
            let shape = DigShape::new(shell, settings, 1.0);
            excavate(&shape, &ground, &pose, 100.6, 0.4)
        });
    });
}

fn dig(c: &mut Criterion) {
    let shell = largest_curved_shell();
    println!("shell: {}", shell.record.name);
    for soil in [SoilClass::C, SoilClass::A, SoilClass::StableRock] {
        let settings = DigSettings {
            soil,
            ..DigSettings::default()
        };
        first_cut(c, &format!("soil {soil:?}"), &shell, &settings);
    }
    first_cut(c, "sides of unlike slope in layers", &shell, &unlike());
    let shape = DigShape::new(&shell, &DigSettings::default(), 1.0);
    for spots in [100, 500, 5_000] {
        let ground = ground(spots);
        let mut step = 0;
        c.bench_function(&format!("cut into {spots} spots"), |b| {
            b.iter(|| {
                step += 1;
                let along = f64::from(step % 100) * 0.05;
                let pose = Pose::new(Point::new(25.0 + along, 30.0), 0.3 + along / 9.0, false);
                excavate(&shape, &ground, &pose, 100.6, 0.4)
            });
        });
    }
    c.bench_function("level volume by contours", |b| {
        b.iter(|| shape.level_volume(0.0));
    });
}

criterion_group!(benches, dig);
criterion_main!(benches);
