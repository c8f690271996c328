//! The placed shell in figures.

use serde::Serialize;

use super::Figure;
use crate::geom::Point;
use crate::shell::{AtDepth, Shell};
use crate::site::Placement;
use crate::units::constants::FOOT;
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
    /// How far the wall leans inward, run per unit of depth; none where it stands upright.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub draft: Option<Figure>,
    /// Radius of the rounding between wall and floor, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cove: Option<Figure>,
    /// Area and volumes by depth, from the rim to the deepest floor.
    pub by_depth: Vec<DepthFigures>,
    /// Weight of the empty shell, where known.
    pub weight: Option<Figure>,
    /// Where its middle stands, site meters.
    pub at: Point,
    /// Where its length points, shallow end to deep end.
    pub heading: Figure,
    /// Whether it is the mirror image of its drawing.
    pub mirrored: bool,
    /// Elevation of the rim.
    pub coping_elevation: Figure,
}

/// The shell at one depth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DepthFigures {
    /// Depth below the rim.
    pub depth: Figure,
    /// Area inside at that depth.
    pub area: Figure,
    /// Water that stands below it.
    pub water: Figure,
    /// Volume of the body below it, wall and floor included: what groundwater is pushed aside
    /// by.
    pub body: Figure,
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
            draft: (record.draft > 0.0).then(|| figure(Measure::Slope, record.draft)),
            cove: (record.cove > 0.0).then(|| length(record.cove)),
            by_depth: by_depth(shell, system),
            weight: record.weight.map(|kg| figure(Measure::Weight, kg)),
            at: placement.at,
            heading: figure(Measure::Heading, placement.heading),
            mirrored: placement.mirrored,
            coping_elevation: figure(Measure::Elevation, placement.coping_elevation),
        }
    }
}

/// Every foot, or every quarter of a meter.
fn by_depth(shell: &Shell, system: System) -> Vec<DepthFigures> {
    let step = match system {
        System::Feet => FOOT,
        System::Metres => 0.25,
    };
    let figure = |measure, value| Figure::new(measure, value, system);
    let row = |at: AtDepth| DepthFigures {
        depth: figure(Measure::Length, at.depth),
        area: figure(Measure::Area, at.area),
        water: figure(Measure::WaterVolume, at.volume),
        body: figure(Measure::EarthVolume, at.displacement),
    };
    shell.by_depth(step).into_iter().map(row).collect()
}
