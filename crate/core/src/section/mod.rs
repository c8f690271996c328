//! The section: ground, hole, shell and what lies round it, cut along a line of the plan.
//!
//! The *section frame* has stations along the line, meters from its left end, as x and
//! elevations, meters above the datum, as y: a [`Point`] here is one of them. Everything cut is
//! a [`Region`] or a chain of points in that frame, made of one [`Piece`] each; figures worth
//! reading are [`Dimension`]s.
//!
//! | part | what it does |
//! |---|---|
//! | `line` | where the section is cut when nobody says, and how a line meets what stands on the plan |
//! | `hole` | the edges of the hole, level by level, and the hole along a line from them |
//! | `cut` | every region put together: what is dug, what stands in it, what stays |
//! | `ground` | the existing ground |
//! | `placed`, `moulding`, `paving` | the shell along the line; its faces; collar, deck and bed |
//! | `chain` | chains of elevations, and regions under them |
//! | `finish` | the finished ground: under the deck, down and up its banks |
//! | [`drag`] | the line as it is dragged on the plan |
//! | `dimension` | depths, widths and heights to read |
//! | `axis` | even stations and elevations with their texts |
//!
//! # Accuracy
//! Ground bends where the line crosses an edge of its surface, exactly. The hole is joined from
//! its exact edges, at most `hole::STEP` apart and on either side of every bend: exact where the
//! line crosses a straight side, within a few millimetres where it runs round a corner; where it
//! runs lengthwise over a side, the bottom there is drawn up to one `hole::STEP` too high. Shell,
//! deck and finished ground are sampled until they bend by less than 1 mm between samples.
//!
//! A deck that was drawn stands in it as it is poured: openings left out, falling away from the
//! rim like the ring. Of steps the slab under their treads is shown; nobody has told which way
//! they climb.
//!
//! Deliberately absent: treads of steps; pipes.

mod axis;
mod chain;
mod cut;
mod dimension;
pub mod drag;
mod finish;
mod ground;
mod hole;
mod line;
mod moulding;
mod paving;
mod placed;
#[cfg(test)]
mod tests;

pub use axis::{Tick, ticks};
pub use dimension::Dimension;
pub use hole::Edges;
pub use line::standard;

use crate::analysis::Analysis;
use crate::geom::{Point, Region};
use crate::site::{CheckedSite, SectionLine};

/// What a part of the section is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Piece {
    /// Ground that stays.
    Soil,
    /// The hole below the ground: what is dug out.
    Dig,
    /// Earth filled in: above the stone in the hole, under the deck, in banks.
    Fill,
    /// The stone under the floor.
    Base,
    /// The stone beside the shell.
    Backfill,
    /// The moulded wall, floor and coping.
    Shell,
    /// The water.
    Water,
    /// The concrete collar.
    Collar,
    /// The deck's slab.
    Deck,
    /// The slab under the treads of steps.
    Steps,
    /// The stone under deck and steps.
    DeckBed,
}

impl Piece {
    /// What it is called.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Soil => "ground",
            Self::Dig => "dig",
            Self::Fill => "fill",
            Self::Base => "base",
            Self::Backfill => "backfill",
            Self::Shell => "shell",
            Self::Water => "water",
            Self::Collar => "collar",
            Self::Deck => "deck",
            Self::Steps => "steps",
            Self::DeckBed => "deck bed",
        }
    }
}

/// Everything cut along a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The line, site frame.
    pub line: SectionLine,
    /// Its length, meters.
    pub length: f64,
    /// The existing ground from end to end.
    pub ground: Vec<Point>,
    /// The stretches of it that nobody surveyed, as stations from and to.
    pub assumed: Vec<(f64, f64)>,
    /// The finished ground along each bank, from where it begins to where it ends.
    pub banks: Vec<Vec<Point>>,
    /// The stretches whose ground stays as it is, neither graded nor dug away, stations.
    pub stays: Vec<(f64, f64)>,
    /// What is cut, lowest first: what comes later lies over what came before.
    pub pieces: Vec<(Piece, Region)>,
    /// Elevation of the water's surface, and where the line crosses it, stations.
    pub water: Option<(f64, Vec<(f64, f64)>)>,
    /// Elevation to which groundwater stands, where it is known.
    pub groundwater: Option<f64>,
    /// Figures to read.
    pub dimensions: Vec<Dimension>,
}

impl Section {
    /// The section of a site along a line. `analysis` must have been computed from the
    /// same site and `edges` made for its shell and settings (see [`Edges::of`]). `None` for a line of no
    /// length.
    pub fn along(
        site: &CheckedSite,
        analysis: &Analysis,
        edges: Option<&Edges>,
        line: SectionLine,
    ) -> Option<Self> {
        cut::section(site, analysis, edges, line)
    }

    /// Lowest and highest elevation of everything drawn, meters.
    pub fn elevations(&self) -> (f64, f64) {
        let pieces = self
            .pieces
            .iter()
            .filter(|(piece, _)| *piece != Piece::Soil);
        let corners = pieces.flat_map(|(_, region)| region.rings().flat_map(|ring| &ring.0));
        let water = self.groundwater.map(|z| Point::new(0.0, z));
        let all = corners.chain(&self.ground).chain(&water).map(|p| p.y);
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), z| {
            (l.min(z), h.max(z))
        })
    }

    /// The regions of one piece together.
    pub fn region(&self, piece: Piece) -> Option<&Region> {
        self.pieces
            .iter()
            .find(|(p, _)| *p == piece)
            .map(|(_, region)| region)
    }
}
