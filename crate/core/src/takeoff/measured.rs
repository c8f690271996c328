//! What the takeoff needs to know of a shell and the work round it, wherever it stands.

use crate::geom::VOLUME_TOLERANCE;
use crate::geom::offset::offset_region;
use crate::geom::parallel::offset_measure;
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// Areas, lengths and volumes that depend on the shell and the settings alone. Worth keeping
/// for as long as those stay the same: the rings cost more than all lines together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// Area of the water's surface, arcs exact, m2.
    pub water_area: f64,
    /// Length of the water's edge, arcs exact, meters.
    pub waters_edge: f64,
    /// Volume of water to the waterline, m3.
    pub water_volume: f64,
    /// Depth of the water's surface below the rim, meters.
    pub waterline: f64,
    /// Length of the rim, the outer edge of the coping, arcs exact, meters.
    pub rim_length: f64,
    /// Area of the collar in plan, arcs exact, m2.
    pub collar_area: f64,
    /// Length round the outer edge of the collar, arcs exact, meters.
    pub collar_edge: f64,
    /// Length of the line in the middle of the collar, arcs exact, meters.
    pub collar_middle: f64,
    /// Area of the deck from the rim to its outer edge, m2.
    pub deck_area: f64,
    /// Area of the deck beyond the collar, where a bed lies under it, m2.
    pub deck_bed_area: f64,
    /// Area of the bottom: floor, wall and over-dig in plan, m2.
    pub bottom_area: f64,
    /// Volume of the shell's body below the collar's underside, m3.
    pub body_below_collar: f64,
    /// Whether the wall leans inward, so that backfill stands between it and the plumb side.
    pub leaning_wall: bool,
    /// Thickness of the shell's wall, meters.
    pub wall_thickness: f64,
    /// Greatest depth of the floor's underside below the rim, wall thickness included, meters.
    pub underside: f64,
}

impl Measured {
    /// Measures a shell under the given settings.
    pub fn new(shell: &Shell, works: &ConstructionSettings) -> Self {
        let coping = shell.record.coping_width;
        let thickness = shell.record.wall_thickness;
        // Every ring is widened from the outline itself, never from another ring.
        let out = |by: f64| offset_measure(&shell.outline, by);
        let rim = out(coping);
        let to_collar = out(coping + works.collar.width);
        let to_deck = out(coping + works.deck.width);
        let reach = thickness + works.dig.over_dig;
        Self {
            water_area: shell.water_area(),
            waters_edge: shell.outline.perimeter(),
            water_volume: shell.water_volume(),
            waterline: shell.record.waterline,
            rim_length: rim.length,
            collar_area: (to_collar.area - rim.area).max(0.0),
            collar_edge: to_collar.length,
            collar_middle: out(coping + works.collar.width / 2.0).length,
            deck_area: (to_deck.area - rim.area).max(0.0),
            deck_bed_area: (to_deck.area - to_collar.area).max(0.0),
            bottom_area: offset_region(&shell.footprint, reach, VOLUME_TOLERANCE).area(),
            body_below_collar: shell.displacement_below(works.collar.underside()),
            leaning_wall: shell.record.draft > 0.0,
            wall_thickness: thickness,
            underside: shell.deepest() + thickness,
        }
    }
}
