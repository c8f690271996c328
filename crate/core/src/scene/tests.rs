//! Every demo site in three dimensions, its volumes held against the takeoff.

use super::*;
use crate::analysis::{Cache, Detail, Scenario, run};
use crate::site::Site;

/// What meshes may differ from the takeoff by, of the figure.
const WITHIN: f64 = 1e-3;

fn demo(name: &str) -> (CheckedSite, Analysis) {
    let path = format!(
        "{}/../../demo-sites/{name}.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(path).unwrap();
    let site: Site = serde_json::from_str(&text).unwrap();
    let site = CheckedSite::check(site, None).unwrap();
    let analysis = run(
        &Scenario::of(&site),
        Detail::Complete,
        &mut Cache::default(),
    );
    (site, analysis)
}

/// More triangles than this are not to be sent to the page; of these a stage shows a quarter, what is buried left out.
const MOST_TRIANGLES: usize = 150_000;

const DEMOS: [&str; 4] = [
    "creek-side-deed",
    "level-suburban",
    "sloping-hillside",
    "wedge-cul-de-sac",
];

/// What the takeoff counts of a matter, before waste, m3.
fn counted(site: &CheckedSite, analysis: &Analysis) -> Vec<(Matter, f64)> {
    let works = &site.site().works;
    let (shell, _) = site.placed_shell().unwrap();
    let (dig, fill) = (
        analysis.dig.as_ref().unwrap(),
        analysis.fill.as_ref().unwrap(),
    );
    let line = |key: &str| analysis.value(key).unwrap();
    let body = shell.displacement_below(works.collar.underside());
    vec![
        (Matter::Dig, line("bank-cut")),
        (
            Matter::Base,
            line("base-stone-volume") / (1.0 + works.waste.stone),
        ),
        // Without the pipe that lies in it, which is no body of its own here.
        (
            Matter::Backfill,
            dig.volume_below_cap - body - fill.base_below,
        ),
        (Matter::Water, line("water-volume")),
        (
            Matter::Collar,
            line("collar-concrete") / (1.0 + works.waste.concrete),
        ),
        (
            Matter::Deck,
            line("deck-concrete") / (1.0 + works.waste.concrete),
        ),
    ]
}

#[test]
fn bodies_of_every_demo_site_hold_what_the_takeoff_counts() {
    let mut off = Vec::new();
    for name in DEMOS {
        let (site, analysis) = demo(name);
        let scene = Scene::of(&site, &analysis);
        for (matter, counted) in counted(&site, &analysis) {
            let found = scene.volume(matter);
            let out = (found - counted).abs();
            if out > WITHIN * counted {
                off.push((name, matter, found, counted));
            }
        }
        let triangles: usize = scene.parts.iter().map(|it| it.mesh.triangles.len()).sum();
        assert!(triangles < MOST_TRIANGLES, "{name}: {triangles} triangles");
    }
    assert!(off.is_empty(), "{off:?}");
}

#[test]
fn every_body_is_closed_whole_and_cut() {
    for name in DEMOS {
        let (site, analysis) = demo(name);
        let scene = Scene::of(&site, &analysis);
        assert!(scene.section.is_some());
        for part in &scene.parts {
            let mesh = &part.mesh;
            assert!(
                mesh.is_closed(mesh.whole()),
                "{name}: {} {}",
                part.matter.words(),
                part.name
            );
            assert!(
                mesh.is_closed(mesh.cut()),
                "{name}: {} {}, cut",
                part.matter.words(),
                part.name
            );
            let (whole, half) = (mesh.volume(), mesh.volume_of(mesh.cut()));
            assert!(
                half >= -1e-6 && half <= whole + 1e-6,
                "{name}: {}",
                part.name
            );
        }
    }
}

#[test]
fn a_lot_without_a_shell_is_ground_and_what_stands_on_it() {
    let (site, _) = demo("level-suburban");
    let bare = Scenario::with(&site, |next| next.placement = None).unwrap();
    let analysis = run(&bare, Detail::Complete, &mut Cache::default());
    let scene = Scene::of(bare.site(), &analysis);
    assert!(scene.volume(Matter::Ground) > 0.0 && scene.volume(Matter::Dig) == 0.0);
    assert!(scene.parts.iter().any(|part| part.matter == Matter::House));
    assert!(
        scene
            .parts
            .iter()
            .all(|part| part.mesh.is_closed(part.mesh.whole()))
    );
}

#[test]
fn a_height_that_nobody_entered_is_noted() {
    let (site, _) = demo("level-suburban");
    let name = |site: &CheckedSite| {
        let features = &site.site().features;
        features
            .iter()
            .find(|it| it.kind == crate::site::FeatureKind::House)
            .map(|it| it.label().to_owned())
    };
    let house = name(&site).unwrap();
    let blank = Scenario::with(&site, |next| {
        let mut features = Vec::clone(&next.features);
        for feature in &mut features {
            feature.facts.height = None;
        }
        next.features = features.into();
    })
    .unwrap();
    let analysis = run(&blank, Detail::Complete, &mut Cache::default());
    let scene = Scene::of(blank.site(), &analysis);
    let told = |note: &&String| note.to_lowercase().starts_with(&house.to_lowercase());
    let note = scene.notes.iter().find(told).unwrap();
    assert!(note.contains("no height entered, drawn"), "{note}");
}

#[test]
fn stages_follow_each_other() {
    assert!(Stage::ALL.is_sorted());
    for (number, stage) in Stage::ALL.into_iter().enumerate() {
        assert_eq!(usize::from(stage.number()), number);
        assert!(Span::ALWAYS.holds(stage));
    }
    let span = Span::between(Stage::Dug, Stage::Bed);
    assert!(span.holds(Stage::Dug) && span.holds(Stage::Bed) && !span.holds(Stage::Set));
}
