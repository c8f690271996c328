//! Demo sites written and read back, files of others, and files that are wrong.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

mod found;
mod refused;
mod written;

use super::{Choice, Moment, NAMESPACE, Survey, read, write};
use crate::analysis::{Analysis, Cache, Detail, Scenario, run};
use crate::exchange::import::{Changes, Role, Settings};
use crate::finding::Finding;
use crate::site::{CheckedSite, starter};

const DEMOS: [(&str, &str); 4] = [
    (
        "level",
        include_str!("../../../../../../demo-sites/level-suburban.json"),
    ),
    (
        "hillside",
        include_str!("../../../../../../demo-sites/sloping-hillside.json"),
    ),
    (
        "creek",
        include_str!("../../../../../../demo-sites/creek-side-deed.json"),
    ),
    (
        "wedge",
        include_str!("../../../../../../demo-sites/wedge-cul-de-sac.json"),
    ),
];

fn analysis(site: &CheckedSite) -> Analysis {
    run(
        &Scenario::of(site),
        Detail::Clearances,
        &mut Cache::default(),
    )
}

fn written(site: &CheckedSite, choice: Choice) -> String {
    write(
        site,
        &analysis(site),
        choice,
        &Moment::of_unix(1_790_000_000),
    )
}

/// What a file brings onto a blank site, with its proposed roles.
fn brought(text: &str) -> (Survey, Changes) {
    let survey = read(text).unwrap();
    let site = starter::blank_lot();
    let settings = Settings {
        keep_spots: false,
        ..survey.draft.proposed
    };
    let roles: Vec<Role> = survey.draft.items.iter().map(|it| it.proposed).collect();
    let mut changes = Changes::of(&survey.draft, &settings, &roles, &site).unwrap();
    survey.complete(&mut changes, &settings, &roles, &site);
    (survey, changes)
}

fn codes(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|it| it.code).collect()
}

fn faults(text: &str) -> Vec<&'static str> {
    let found = read(text).unwrap_err();
    assert!(found.iter().any(Finding::is_fault));
    assert!(
        found
            .iter()
            .all(|it| !it.is_fault() || !it.remedy.is_empty())
    );
    codes(&found)
}

/// A file with this under its root.
fn file(inside: &str) -> String {
    format!(
        "<?xml version=\"1.0\"?>\n<LandXML xmlns=\"{NAMESPACE}\" version=\"1.2\">\n\
         <Units><Metric areaUnit=\"squareMeter\" linearUnit=\"meter\"/></Units>\n{inside}\n</LandXML>"
    )
}

fn parcel(geometry: &str) -> String {
    file(&format!(
        "<Parcels><Parcel name=\"Lot 4\"><CoordGeom>{geometry}</CoordGeom></Parcel></Parcels>"
    ))
}

fn line(from: &str, to: &str) -> String {
    format!("<Line><Start>{from}</Start><End>{to}</End></Line>")
}

/// The places of the first thing, northing and easting.
fn places(survey: &Survey) -> Vec<[f64; 2]> {
    let all = survey.draft.items[0].shape.positions();
    all.iter().map(|p| [p.first, p.second]).collect()
}
