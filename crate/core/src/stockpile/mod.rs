//! The spoil that stays on the lot a while: how large a pile it makes, and where it fits.
//!
//! | part | what it knows |
//! |---|---|
//! | `heap` | the pile's shape from its volume |
//! | `obstacles` | what keeps a pile away, and how near it may come |
//! | `place` | the nearest place where it fits: a search that cannot miss one by more than 1 cm |
//! | `cautions` | what is said of the place |
//!
//! The pile is taken as a cone on level ground, or as a cone without its top where it would stand
//! higher than wanted. Nearest means: its middle nearest to the middle of the shell.

mod cautions;
mod heap;
mod obstacles;
mod place;
#[cfg(test)]
mod tests;

pub use heap::Heap;
pub use obstacles::{Obstacles, Work};
pub use place::{Greatest, greatest, nearest_fit};

use crate::finding::Finding;
use crate::geom::{DRAWING_TOLERANCE, Outline, Point, Region, Vertex};
use crate::site::CheckedSite;

/// Who chose the place of a pile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Chosen {
    /// The settings name its middle.
    ByHand,
    /// It lies in room that was drawn for it.
    InSpace,
    /// It is the nearest place where it fits.
    Nearest,
}

/// A pile of spoil on the plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Stockpile {
    /// Its shape.
    pub heap: Heap,
    /// Its middle, site meters; `None` where it fits nowhere.
    pub at: Option<Point>,
    /// Who chose the place.
    pub chosen: Chosen,
    /// What is said of it.
    pub findings: Vec<Finding>,
}

impl Stockpile {
    /// Its footprint, site frame; empty where it has no place.
    pub fn footprint(&self) -> Region {
        let round = |at: Point| {
            let r = self.heap.radius;
            Outline::check(vec![
                Vertex::arc(at.x - r, at.y, 1.0),
                Vertex::arc(at.x + r, at.y, 1.0),
            ])
        };
        let outline = self.at.and_then(|at| round(at).ok());
        outline.map_or_else(Region::default, |it| it.region(DRAWING_TOLERANCE))
    }
}

/// The pile that so much loose spoil makes, and where it goes. `None` of no spoil.
pub fn stockpile(
    site: &CheckedSite,
    loose: f64,
    obstacles: &Obstacles,
    work: &Work,
) -> Option<Stockpile> {
    let spoil = &site.site().works.spoil;
    let heap = Heap::of(loose, spoil.repose, spoil.most_height)?;
    let (at, chosen) = match (spoil.at, obstacles.spaces()) {
        (Some(at), _) => (Some(at), Chosen::ByHand),
        (None, []) => (nearest_fit(obstacles, work, heap.radius), Chosen::Nearest),
        (None, spaces) => (
            place::in_space(obstacles, work, spaces, heap.radius),
            Chosen::InSpace,
        ),
    };
    let findings = cautions::findings(site, &heap, at, chosen, obstacles, work);
    Some(Stockpile {
        heap,
        at,
        chosen,
        findings,
    })
}
