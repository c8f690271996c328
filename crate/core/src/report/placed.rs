//! The placed shell in figures.

use serde::Serialize;

use super::Figure;
use crate::geom::Point;
use crate::shell::Shell;
use crate::site::Placement;
use crate::units::{Measure, System};

/// The shell and where it stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShellFigures {
    /// What it is called.
    pub name: String,
    /// Its length at the water's edge.
    pub length: Figure,
    /// Its width at the water's edge.
    pub width: Figure,
    /// Area inside the water's edge, arcs exact.
    pub area: Figure,
    /// Length round the water's edge, arcs exact.
    pub perimeter: Figure,
    /// Greatest depth of the floor below the rim.
    pub deepest: Figure,
    /// Width of the coping outside the water's edge.
    pub coping_width: Figure,
    /// Weight of the empty shell, where known.
    pub weight: Option<Figure>,
    /// Where its middle stands, site metres.
    pub at: Point,
    /// Where its length points, shallow end to deep end.
    pub heading: Figure,
    /// Whether it is the mirror image of its drawing.
    pub mirrored: bool,
    /// Elevation of the rim.
    pub coping_elevation: Figure,
}

impl ShellFigures {
    pub(super) fn of(shell: &Shell, placement: &Placement, system: System) -> Self {
        let figure = |measure, value| Figure::new(measure, value, system);
        let length = |metres| figure(Measure::Length, metres);
        let (low, high) = shell.footprint.bounds().unwrap_or_default();
        let record = &shell.record;
        Self {
            name: record.name.clone(),
            length: length(high.x - low.x),
            width: length(high.y - low.y),
            area: figure(Measure::Area, shell.outline.area()),
            perimeter: length(shell.outline.perimeter()),
            deepest: length(shell.deepest()),
            coping_width: length(record.coping_width),
            weight: record.weight.map(|kg| figure(Measure::Weight, kg)),
            at: placement.at,
            heading: figure(Measure::Heading, placement.heading),
            mirrored: placement.mirrored,
            coping_elevation: figure(Measure::Elevation, placement.coping_elevation),
        }
    }
}
