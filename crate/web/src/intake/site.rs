//! The parts of an open site that maps and lists are read against and written from.
//!
//! The planner has checked the site and the page hands over its text. Only these parts are read again:
//! readers of all the others would weigh more than everything else here.

use std::sync::Arc;

use batterboard_core::exchange;
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::ground::GroundRecord;
use batterboard_core::lot::LotRecord;
use batterboard_core::site::{
    Benchmark, Feature, GeoOrigin, Grid, Placement, ShellChoice, Site, starter,
};
use batterboard_core::units::System;
use serde::Deserialize;

/// The parts, by the names they have in a site file.
#[derive(Deserialize)]
struct Parts {
    name: String,
    display: System,
    lot: LotRecord,
    features: Vec<Feature>,
    ground: GroundRecord,
    benchmark: Option<Benchmark>,
    origin: Option<GeoOrigin>,
    grid: Option<Grid>,
    placement: Option<Standing>,
}

/// Where the shell stands.
#[derive(Deserialize)]
struct Standing {
    at: Point,
    coping_elevation: f64,
}

/// A site of those parts; everything else is that of a blank one, and which shell it is is not told.
///
/// # Errors
/// The member that cannot be read.
pub fn document(text: &str) -> Result<Site, Vec<Finding>> {
    let parts: Parts = exchange::read_value(text).map_err(|fault| vec![fault])?;
    Ok(Site {
        name: parts.name,
        display: parts.display,
        lot: Arc::new(parts.lot),
        features: Arc::new(parts.features),
        ground: Arc::new(parts.ground),
        benchmark: parts.benchmark,
        origin: parts.origin,
        grid: parts.grid,
        placement: parts.placement.map(|standing| Placement {
            shell: Arc::new(ShellChoice::Catalogue(String::new())),
            at: standing.at,
            heading: 0.0,
            mirrored: false,
            coping_elevation: standing.coping_elevation,
        }),
        ..starter::blank_lot()
    })
}
