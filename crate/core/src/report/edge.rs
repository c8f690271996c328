//! The edge of clear ground held against the cut, in words.

use serde::Serialize;

use crate::analysis::Cache;
use crate::clear_ground::{Bounds, EdgeByCut};
use crate::geom::{Point, Region};
use crate::site::CheckedSite;
use crate::units::{Measure, System, show};

/// How far the edge of clear ground is to be trusted.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct EdgeFigures {
    /// Whether every place of it holds.
    pub holds: bool,
    /// What there is to say of it; empty where there is no edge.
    pub words: String,
    /// The stretches along which clearances fall short by the cut made there, site meters.
    pub short: Vec<Vec<Point>>,
}

impl EdgeFigures {
    /// Those of clear ground of the shell as it stands, at its heading.
    pub fn of(site: &CheckedSite, system: System) -> Self {
        let mut cache = Cache::default();
        let region = site.placed_shell().and_then(|(_, placement)| {
            let bounds = Bounds::where_it_stands(site, &mut cache)?;
            Some(bounds.region(placement.heading, placement.mirrored))
        });
        Self::along(site, &region.unwrap_or_default(), system, &mut cache)
    }

    /// Those of clear ground that is known.
    pub fn along(site: &CheckedSite, region: &Region, system: System, cache: &mut Cache) -> Self {
        if site.site().ground.is_level() || region.is_empty() {
            return Self {
                holds: true,
                words: match region.is_empty() {
                    true => String::new(),
                    false => "The ground is level: the dig is the same everywhere, and the edge of clear ground is exact."
                        .to_owned(),
                },
                short: Vec::new(),
            };
        }
        let edge = EdgeByCut::of(site, region, cache);
        let text = |value| show(Measure::Length, value, system).text;
        let places = edge.places().count();
        let (short, short_by) = (edge.short_stretches(), edge.short_by());
        let mut words = match short_by {
            None => format!(
                "The edge of clear ground holds by the cut made at {places} places along it."
            ),
            Some(by) => {
                let stretches = match short.len() {
                    1 => "one stretch".to_owned(),
                    count => format!("{count} stretches"),
                };
                format!(
                    "The ground is not level, and the top of the dig moves with it. By the cut made at {places} places along the edge, \
                     clearances fall short on {stretches} of it, by {} at most: keep away from there.",
                    text(by)
                )
            }
        };
        if let Some(beyond) = edge.room_beyond() {
            words += &format!(
                " Elsewhere the shell may go past the edge: up to {} of room is left there.",
                text(beyond)
            );
        }
        Self {
            holds: short_by.is_none(),
            words,
            short,
        }
    }
}
