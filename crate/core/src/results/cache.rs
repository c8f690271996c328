//! What depends on the shell and the settings of the work alone, kept while the shell moves.

use std::sync::Arc;

use crate::dig::{DigShape, foot};
use crate::geom::flatten::{ChordSide, flatten};
use crate::geom::offset::widen;
use crate::geom::{DRAWING_TOLERANCE, Region};
use crate::shell::Shell;
use crate::site::{DigSettings, Works};

/// How many shapes of the hole are kept, one to each headroom: enough for a drag up and down
/// a steep lot.
const SHAPES: usize = 6;

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
    fn new(shell: &Shell, works: &Works) -> Self {
        let water = flatten(&shell.outline, DRAWING_TOLERANCE, ChordSide::Inscribed);
        let waters_edge = Region::from_ring(water);
        let out = |by: f64| widen(&waters_edge, by, DRAWING_TOLERANCE);
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

/// Kept parts of earlier results. It changes how soon results come, never what they are.
#[derive(Debug, Default)]
pub struct Cache {
    kept: Option<Kept>,
}

/// What was made for one shell and one set of settings.
#[derive(Debug)]
pub(super) struct Kept {
    /// Held, so that no other shell can come to lie at the same address.
    shell: Arc<Shell>,
    works: Arc<Works>,
    /// The work round the shell.
    pub rings: Arc<ShellRings>,
    shapes: Vec<DigShape>,
}

impl Cache {
    /// The parts kept for this shell and these settings, made anew for others.
    pub(super) fn of(&mut self, shell: &Arc<Shell>, works: &Arc<Works>) -> &mut Kept {
        let same = |kept: &Kept| Arc::ptr_eq(&kept.shell, shell) && kept.works == *works;
        let kept = self.kept.take().filter(same).unwrap_or_else(|| Kept {
            shell: Arc::clone(shell),
            works: Arc::clone(works),
            rings: Arc::new(ShellRings::new(shell, works)),
            shapes: Vec::new(),
        });
        self.kept.insert(kept)
    }
}

impl Kept {
    /// The hole with exactly this headroom.
    pub(super) fn shape(&mut self, shell: &Shell, dig: &DigSettings, headroom: f64) -> &DigShape {
        let known = self.shapes.iter().position(|s| s.headroom() == headroom);
        let shape = match known {
            // The shape last used goes to the end; the front one is forgotten first.
            Some(i) => self.shapes.remove(i),
            None => DigShape::new(shell, dig, headroom),
        };
        if self.shapes.len() >= SHAPES {
            self.shapes.remove(0);
        }
        self.shapes.push_mut(shape)
    }
}
