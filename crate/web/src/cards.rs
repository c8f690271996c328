//! The catalogue as cards: figures and a small picture for each shell.

use batterboard_core::geom::Region;
use batterboard_core::shell::{FacetKind, Shell, ShellRecord, catalogue};
use batterboard_core::units::{Measure, Shown, System, show};
use serde::Serialize;
use tsify::Tsify;

/// A shell of the catalogue as the page shows it.
#[derive(Debug, Serialize, Tsify)]
pub struct ShellCard {
    name: String,
    note: String,
    length: Shown,
    width: Shown,
    shallowest: Shown,
    deepest: Shown,
    area: Shown,
    water: Shown,
    outline: Vec<f64>,
    facets: Vec<FacetPicture>,
}

/// One facet of the picture.
#[derive(Debug, Serialize, Tsify)]
pub struct FacetPicture {
    kind: FacetKind,
    depth: f64,
    points: Vec<f64>,
}

/// Every shell of the catalogue.
pub fn all(system: System) -> Vec<ShellCard> {
    catalogue::all()
        .iter()
        .filter_map(|record| of(record, system))
        .collect()
}

/// A shell that its door lets pass.
pub fn of(record: &ShellRecord, system: System) -> Option<ShellCard> {
    let (shell, _) = Shell::check(record).ok()?;
    Some(card(&shell, system))
}

fn card(shell: &Shell, system: System) -> ShellCard {
    let (length, width) = shell
        .footprint
        .bounds()
        .map_or((0.0, 0.0), |(low, high)| (high.x - low.x, high.y - low.y));
    ShellCard {
        name: shell.record.name.clone(),
        note: shell.record.note.clone(),
        length: show(Measure::Length, length, system),
        width: show(Measure::Length, width, system),
        shallowest: show(Measure::Length, shell.shallowest(), system),
        deepest: show(Measure::Length, shell.deepest(), system),
        area: show(Measure::Area, shell.outline.area(), system),
        water: show(Measure::WaterVolume, shell.water_volume(), system),
        outline: flat(&shell.footprint),
        facets: shell
            .facets
            .iter()
            .map(|facet| FacetPicture {
                kind: facet.kind,
                depth: facet
                    .region
                    .centroid()
                    .map_or(0.0, |p| facet.plane.depth(p)),
                points: flat(&facet.region),
            })
            .collect(),
    }
}

/// The outer rings as flat x, y pairs.
fn flat(region: &Region) -> Vec<f64> {
    region
        .polygons
        .iter()
        .flat_map(|polygon| polygon.outer.0.iter().flat_map(|p| [p.x, p.y]))
        .collect()
}
