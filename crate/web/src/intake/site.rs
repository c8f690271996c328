//! The parts of an open site that maps and lists are read against and written from.
//!
//! The planner has checked the site and the page hands over its text. Only these parts are read again,
//! and of what stands on the lot only how it is called: readers of all the others would weigh more
//! than everything else here. What is not read is handed back as it came ([`Document::edited`]).

use std::sync::Arc;

use batterboard_core::exchange;
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::ground::GroundRecord;
use batterboard_core::lot::LotRecord;
use batterboard_core::site::{
    Benchmark, Facts, Feature, FeatureKind, GeoOrigin, Grid, Placement, ShapeRecord, ShellChoice,
    Site, starter,
};
use batterboard_core::units::System;
use serde::Deserialize;
use serde_json::Value;

/// The parts, by the names they have in a site file.
#[derive(Deserialize)]
struct Parts {
    name: String,
    display: System,
    lot: LotRecord,
    features: Vec<Value>,
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

/// An open site as far as it was read.
pub struct Document {
    /// The site; its features stand where nothing stands, and which shell it has is not told.
    pub site: Site,
    /// The features as they came.
    features: Vec<Value>,
}

impl Document {
    /// Reads the parts of a site; everything else is that of a blank one.
    ///
    /// # Errors
    /// The member that cannot be read.
    pub fn read(text: &str) -> Result<Self, Vec<Finding>> {
        let parts: Parts = exchange::read_value(text).map_err(|fault| vec![fault])?;
        let site = Site {
            name: parts.name,
            display: parts.display,
            lot: Arc::new(parts.lot),
            features: Arc::new(parts.features.iter().map(called).collect()),
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
        };
        Ok(Self {
            site,
            features: parts.features,
        })
    }

    /// The features after an edit: those that were there as they came, with the kind and the shape
    /// that the edit gave them, and the new ones.
    pub fn edited(&self, features: Vec<Feature>) -> Vec<Value> {
        let edited = features.into_iter().enumerate().map(|(i, feature)| {
            let before = self.features.get(i).cloned();
            if before.is_some() && feature.shape == NOWHERE {
                return before.unwrap_or_default();
            }
            let now = serde_json::to_value(feature).unwrap_or_default();
            let Some(mut before) = before else {
                return now;
            };
            for member in ["kind", "shape"] {
                if let (Some(slot), Some(value)) = (before.get_mut(member), now.get(member)) {
                    *slot = value.clone();
                }
            }
            before
        });
        edited.collect()
    }
}

/// The shape of a feature whose own was not read; no door would let it in.
const NOWHERE: ShapeRecord = ShapeRecord::Disc {
    at: Point::new(0.0, 0.0),
    radius: 0.0,
};

/// A feature by its name alone.
fn called(value: &Value) -> Feature {
    let text = |member: &str| {
        let text = value.get(member).and_then(Value::as_str);
        text.unwrap_or_default().to_owned()
    };
    let kind = value.get("kind").cloned().unwrap_or_default();
    Feature {
        id: text("id"),
        kind: serde_json::from_value(kind).unwrap_or(FeatureKind::Other),
        name: text("name"),
        shape: NOWHERE,
        hidden: false,
        locked: false,
        facts: Facts::default(),
        note: String::new(),
    }
}
