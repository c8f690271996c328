//! The work round the shell, flattened for drawing.

use crate::dig::foot;
use crate::geom::flatten::{ChordSide, flatten};
use crate::geom::offset::offset_region;
use crate::geom::{DRAWING_TOLERANCE, Region};
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// The work round the shell, in the shell's own frame, flattened for drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct ShellRings {
    /// The water's edge.
    pub waters_edge: Region,
    /// Everything inside the outer edge of the deck.
    pub deck: Region,
    /// Everything inside the outer edge of the collar.
    pub collar: Region,
    /// Everything inside the over-dig at the bottom of the hole.
    pub over_dig: Region,
}

impl ShellRings {
    pub(super) fn new(shell: &Shell, works: &ConstructionSettings) -> Self {
        let water = flatten(&shell.outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
        let waters_edge = Region::from_ring(water);
        let out = |by: f64| offset_region(&waters_edge, by, DRAWING_TOLERANCE);
        let rim = shell.record.coping_width;
        let by_side = works.dig.sides.iter().any(|side| side.over_dig.is_some());
        Self {
            deck: out(rim + works.deck.width),
            collar: out(rim + works.collar.width),
            over_dig: if by_side {
                foot(shell, &works.dig)
            } else {
                out(shell.record.wall_thickness + works.dig.over_dig)
            },
            waters_edge,
        }
    }
}
