//! The finished ground at any one place, exactly: what layouts hold cell by cell.

use super::drawn::{Drawn, Signed, Stretches, into_shell};
use super::levels::Levels;
use crate::geom::{Edges, Point, Pose, Region};
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// How far apart a bank's way back to the deck's edge is looked at, meters.
const STEP: f64 = 0.25;

/// What becomes of the ground at a place; rises are meters above the rim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finish {
    /// It stays as it is: within the rim, in an opening, beyond every bank.
    Left,
    /// Deck or collar cover it, and earth is brought to this rise.
    Paved(f64),
    /// A bank lies there, its surface at this rise.
    Bank(f64),
}

/// The finished ground round a shell at one pose, shell frame.
pub struct Finished {
    levels: Levels,
    rim: Edges,
    within: Region,
    decks: Region,
    openings: Region,
    signed: Signed,
    stretches: Stretches,
}

impl Finished {
    /// Of a shell with what was drawn of its deck.
    pub fn new(shell: &Shell, works: &ConstructionSettings, drawn: &Drawn, pose: &Pose) -> Self {
        let levels = Levels::of(works);
        let rim = Edges::of_region(&shell.rim);
        let decks = into_shell(&drawn.decks, pose);
        Self {
            stretches: Stretches::of(&decks, &levels, &rim),
            signed: Signed::of(&decks),
            openings: into_shell(&drawn.openings, pose),
            within: shell.rim.clone(),
            decks,
            rim,
            levels,
        }
    }

    /// The areas at whose edges it steps or bends, but for rim, collar and the deck's ring.
    pub fn drawn(&self) -> [&Region; 2] {
        [&self.decks, &self.openings]
    }

    /// What becomes of a place. `ground`: the rise of the ground at any place.
    pub fn at(&self, p: Point, ground: &dyn Fn(Point) -> f64) -> Finish {
        let levels = &self.levels;
        let foot = self.rim.nearest(p).filter(|_| !self.within.contains(p));
        let Some(foot) = foot else {
            return Finish::Left;
        };
        let out = foot.distance;
        if out < levels.collar {
            return Finish::Paved(-levels.cap);
        }
        if self.openings.contains(p) {
            return Finish::Left;
        }
        let mut run = out - levels.edge();
        let signed = self.signed.at(p, run.max(0.0));
        if run < 0.0 || signed < 0.0 {
            return Finish::Paved(levels.subgrade(out));
        }
        let (mut top, mut edge) = (levels.top(levels.edge()), p + foot.way * run);
        if signed < run
            && let Some((height, at)) = self.stretches.nearest(p)
        {
            (run, top, edge) = (signed, height, at);
        }
        let (here, rise) = (ground(p), run * levels.bank);
        let (bank, way) = if top - rise > here {
            (top - rise, -1.0)
        } else if here > top + rise {
            (top + rise, 1.0)
        } else {
            return Finish::Left;
        };
        // Not where it met the ground before, on its way from the edge.
        let mut left = run - STEP;
        while left > 0.0 {
            let between = edge + (p - edge) * (left / run);
            if way * (ground(between) - (top + way * left * levels.bank)) <= 0.0 {
                return Finish::Left;
            }
            left -= STEP;
        }
        Finish::Bank(bank)
    }
}
