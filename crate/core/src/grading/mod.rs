//! The ground once it is finished: deck, banks, what is cut and what is filled.
//!
//! At a distance `t` outside the rim the deck's top stands at `coping - fall x t`, whether it
//! belongs to the band round the rim or to a drawn deck: a surface like a cone. Slab and bed
//! below it, the *subgrade* is what earth is brought to; under the collar, its underside. From
//! the deck's edge a bank runs out at the bank's slope, down as fill or up as cut, to where it
//! meets the ground. Inside the hole's opening stone reaches to the collar's underside, and earth
//! fills what is left above it.
//!
//! | part | what it knows |
//! |---|---|
//! | `levels` | the heights of the finished ground, from the rim |
//! | `layout` | the finished ground round a shell, cell by cell, before it meets any ground |
//! | `drawn` | the same with decks and openings that were drawn |
//! | `finished` | the finished ground at any one place |
//! | `drape` | the ground under a layout, and how banks run over it |
//! | `grade` | cut and fill between ground and layout at one placement |
//! | `lines` | where banks meet the ground |
//! | `against` | the coping against floors, doors, ground and the lot line |
//! | `cautions` | what belongs beside the numbers |
//! | `balance` | the coping at which cut and fill are even |
//!
//! # Accuracy
//! Volumes within 0.1 % of exact prisms under ground without cliffs (tests hold them to it).
//! Banks start from the nearest place of the edge. An opening is taken to lie within its deck:
//! what is left open is neither cut nor filled and has no banks of its own.
//!
//! Deliberately absent: swales, walls and steps; where water goes once it has left the deck.

mod against;
pub mod balance;
mod cautions;
mod drape;
mod drawn;
mod finished;
mod grade;
mod layout;
mod levels;
mod lines;
#[cfg(test)]
mod tests;

pub use against::{Against, against};
pub use cautions::findings;
pub use drawn::Drawn;
pub use finished::{Finish, Finished};
pub use layout::Layout;
pub use levels::Levels;

use crate::dig::DigShape;
use crate::geom::region::bounds;
use crate::geom::{Point, Pose, Region};
use crate::ground::Ground;
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// How far from the deck's edge layouts reach, meters, and the side of their cells, meters.
/// Banks that run farther than the last are told as not closed.
const REACHES: [(f64, f64); 8] = [
    (1.5, 0.1),
    (3.0, 0.1),
    (4.5, 0.15),
    (6.0, 0.15),
    (8.5, 0.2),
    (12.0, 0.2),
    (17.0, 0.3),
    (24.0, 0.3),
];

/// How far above the rim the hole's sides are followed, meters: ground that stands higher is cut by
/// the hole or by the banks all the same.
const HEADROOM: f64 = 3.0;

/// Cut, fill and banks at one placement.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Grading {
    /// Ground taken out under deck and collar beyond the hole, m3, bank.
    pub deck_cut: f64,
    /// Ground taken out by banks that rise from the deck's edge, m3, bank.
    pub bank_cut: f64,
    /// Earth above the stone inside the hole's opening, m3, compacted.
    pub hole_fill: f64,
    /// Earth under deck and collar beside the hole, m3, compacted.
    pub deck_fill: f64,
    /// Earth in the banks that fall from the deck's edge, m3, compacted.
    pub bank_fill: f64,
    /// The part of all of these on ground that nobody surveyed, m3.
    pub unsurveyed: f64,
    /// Where the deck's edge stands highest above the ground, if it does anywhere.
    pub stands: Option<Height>,
    /// Where the ground stands highest above the deck's edge, if it does anywhere.
    pub lies: Option<Height>,
    /// Where the fill's banks meet the ground.
    pub toe: Bank,
    /// Where the cut's banks meet the ground.
    pub crest: Bank,
    /// Whether every bank was followed to the ground. When not, volumes fall short.
    pub closed: bool,
}

/// A height between deck and ground at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Height {
    /// How far apart they stand, meters.
    pub height: f64,
    /// Where, site meters.
    pub at: Point,
}

/// The banks of one kind.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bank {
    /// Where they meet the ground, site meters: open lines that begin and end at the deck's edge
    /// or closed ones round it, within 1 cm where the ground has no cliffs.
    pub lines: Vec<Vec<Point>>,
    /// How far from the deck's edge they run at most, meters (to half a cell).
    pub reach: f64,
    /// Where that is, site meters.
    pub at: Point,
}

impl Grading {
    /// Everything cut beyond the hole, m3, bank.
    pub fn cut(&self) -> f64 {
        self.deck_cut + self.bank_cut
    }

    /// Everything filled with earth, m3, compacted.
    pub fn fill(&self) -> f64 {
        self.hole_fill + self.deck_fill + self.bank_fill
    }
}

/// Layouts of one shell under one set of settings, made when they are first needed.
#[derive(Debug, Default)]
pub struct Cache {
    layouts: [Option<Layout>; REACHES.len()],
    hole: Option<DigShape>,
}

impl Cache {
    /// The layout with the reach of this number.
    fn layout(
        &mut self,
        shell: &Shell,
        works: &ConstructionSettings,
        number: usize,
    ) -> Option<&Layout> {
        let (reach, cell) = *REACHES.get(number)?;
        let hole = &mut self.hole;
        let layout = self.layouts.get_mut(number)?;
        Some(layout.get_or_insert_with(|| {
            let hole = hole.get_or_insert_with(|| DigShape::new(shell, &works.dig, HEADROOM));
            Layout::new(shell, works, Some(hole), reach, cell)
        }))
    }
}

/// Cut, fill and banks of a shell at a placement. `opening`: the hole's edge at the ground, site
/// frame, a hint of how far the layout has to reach. `kept` must stem from the same shell and
/// settings; it changes nothing but the time taken. The reach of the layout is chosen by the
/// site alone, so that every kept state gives the same figures.
pub fn graded(
    shell: &Shell,
    works: &ConstructionSettings,
    drawn: &Drawn,
    (ground, pose, coping): (&Ground, &Pose, f64),
    opening: &Region,
    kept: &mut Cache,
) -> Grading {
    let far = drawn
        .farthest(shell, pose)
        .max(around(shell, pose, opening));
    let far = far - Levels::of(works).edge();
    let mut number = REACHES.iter().take_while(|(reach, _)| *reach < far).count();
    let last = REACHES.len() - 1;
    number = number.min(last);
    while let Some(layout) = kept.layout(shell, works, number) {
        // Most of the layouts that are too small are known to be without grading them.
        let rise = |p| ground.height(pose.site_from_shell(p)).elevation - coping;
        if number < last && layout.is_outrun(rise) {
            number += 1;
            continue;
        }
        let graded = layout.grade(drawn, ground, pose, coping);
        if graded.closed || number == last {
            return graded;
        }
        number += 1;
    }
    Grading::default()
}

/// How far an area of the site reaches beyond the rectangle round the rim, meters.
fn around(shell: &Shell, pose: &Pose, area: &Region) -> f64 {
    let points = area.rings().flat_map(|ring| &ring.0);
    let posed = points.map(|p| pose.shell_from_site(*p));
    let (Some((low, high)), Some((from, to))) = (shell.rim.bounds(), bounds(posed)) else {
        return 0.0;
    };
    let beyond = [low.x - from.x, low.y - from.y, to.x - high.x, to.y - high.y];
    beyond.into_iter().fold(0.0, f64::max)
}
