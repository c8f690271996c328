//! What a new job starts with.

use std::sync::Arc;

use super::{ConstructionSettings, FORMAT, Site, VERSION, rule};
use crate::geom::Vertex;
use crate::ground::GroundRecord;
use crate::lot::{LineKind, LotRecord};
use crate::units::System;
use crate::units::constants::FOOT;

/// What a new job is called.
const NAME: &str = "New job";

/// A blank rectangular lot, 100 ft wide and 140 ft deep, its front to the south, with the
/// example rules.
pub fn blank_lot() -> Site {
    Site {
        format: FORMAT.to_owned(),
        version: VERSION,
        name: NAME.to_owned(),
        note: String::new(),
        display: System::Feet,
        lot: Arc::new(rectangle()),
        features: Arc::default(),
        ground: Arc::new(GroundRecord::default()),
        benchmark: None,
        origin: None,
        grid: None,
        picture: None,
        contours: None,
        placement: None,
        equipment: None,
        works: Arc::new(ConstructionSettings::default()),
        rules: Arc::new(rule::examples()),
        shares: Vec::new(),
        barrier: None,
        rates: Vec::new(),
        currency: None,
        section: None,
        alternatives: Vec::new(),
        taken: Vec::new(),
        tapes: Vec::new(),
        lift: None,
        stakeout: None,
        photographs: Arc::default(),
    }
}

/// Whether nobody has entered a lot yet: it is the rectangle that a new job starts with, under the
/// name that a new job has.
pub fn is_untouched(site: &Site) -> bool {
    site.name == NAME && *site.lot == rectangle()
}

/// The lot of a new job.
fn rectangle() -> LotRecord {
    let (width, depth) = (100.0 * FOOT, 140.0 * FOOT);
    let corners = [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)];
    let vertices: Vec<Vertex> = corners.iter().map(|&(x, y)| Vertex::line(x, y)).collect();
    let kinds = [
        LineKind::Front,
        LineKind::Side,
        LineKind::Rear,
        LineKind::Side,
    ];
    LotRecord::from_outline(&vertices, &kinds)
}
