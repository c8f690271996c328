//! What a new job starts with.

use std::sync::Arc;

use super::{ConstructionSettings, FORMAT, Site, VERSION, rule};
use crate::geom::Vertex;
use crate::ground::GroundRecord;
use crate::lot::{LineKind, LotRecord};
use crate::units::System;
use crate::units::constants::FOOT;

/// A blank rectangular lot, 100 ft wide and 140 ft deep, its front to the south, with the
/// example rules.
pub fn blank_lot() -> Site {
    let (width, depth) = (100.0 * FOOT, 140.0 * FOOT);
    let corners = [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)];
    let vertices: Vec<Vertex> = corners.iter().map(|&(x, y)| Vertex::line(x, y)).collect();
    let kinds = [
        LineKind::Front,
        LineKind::Side,
        LineKind::Rear,
        LineKind::Side,
    ];
    Site {
        format: FORMAT.to_owned(),
        version: VERSION,
        name: "New job".to_owned(),
        note: String::new(),
        display: System::Feet,
        lot: Arc::new(LotRecord::from_outline(&vertices, &kinds)),
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
        rates: Vec::new(),
        section: None,
        alternatives: Vec::new(),
    }
}
