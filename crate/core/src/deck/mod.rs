//! The deck: the slab round the rim and what was drawn of it, its steps, joints, ties and forms.
//!
//! A [`DeckPlan`] lies in the shell's frame. Without anything drawn it depends on the shell and
//! the settings alone; what is drawn stands on the site and moves in that frame with the shell.
//!
//! | part | what it knows |
//! |---|---|
//! | `drawn` | the planned decks, openings and steps of a site, and the equipment pad |
//! | `joints` | control joints: across the ring, and as a grid in what was drawn beyond it |
//! | `ties` | the rods between coping and deck |
//! | `forms` | the edges that want a form |
//!
//! # What counts
//! The slab is the ring between the rim and its offset by the deck's width, united with every
//! drawn deck, less the rim, the openings, the equipment pad (a slab of its own) and the steps
//! (which are thicker). So nothing is poured twice. Collar and slab lie above each other: the
//! collar's top is below the deck.
//!
//! # Accuracy
//! Arcs are chords within `VOLUME_TOLERANCE`; of the plain ring, area and edge are exact (see
//! [`crate::geom::parallel`]).

mod drawn;
mod forms;
mod joints;
#[cfg(test)]
mod tests;
mod ties;

pub use drawn::{Drawn, Flight};
pub use forms::STAKE_SPACING;
pub use joints::{LONGEST_PANEL, SHORTEST_PANEL};
pub use ties::Tie;

use crate::geom::boolean::{difference, union};
use crate::geom::clip::{length, lines_through};
use crate::geom::offset::offset_region;
use crate::geom::parallel::offset_measure;
use crate::geom::{Point, Region, VOLUME_TOLERANCE, Vector};
use crate::shell::Shell;
use crate::site::ConstructionSettings;

/// The deck of one shell, shell frame.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DeckPlan {
    /// The slab.
    pub slab: Region,
    /// The part of it beyond the collar, where a bed lies under it.
    pub bed: Region,
    /// The steps.
    pub steps: Vec<Flight>,
    /// The control joints, each a chain of points.
    pub joints: Vec<Vec<Point>>,
    /// The rods between coping and deck.
    pub ties: Vec<Tie>,
    /// The edges that want a form, each a chain of points; a closed one ends where it began.
    pub forms: Vec<Vec<Point>>,
    /// What of it is measured.
    pub figures: DeckFigures,
}

/// Areas, lengths and counts of a deck.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DeckFigures {
    /// Area of the slab, m2.
    pub area: f64,
    /// The part of it outside the ring round the rim: what only a drawn deck adds, m2.
    pub drawn_area: f64,
    /// Area of the slab beyond the collar, m2.
    pub bed_area: f64,
    /// Area of the steps in plan, m2.
    pub steps_area: f64,
    /// Area of each flight times half its rise, summed, m3: what the treads hold above a slab of
    /// even thickness.
    pub treads: f64,
    /// Length of all control joints, meters.
    pub joints: f64,
    /// Ties.
    pub ties: u32,
    /// Length of the edges of slab, openings and steps that want a form, meters.
    pub forms: f64,
    /// Length of reinforcing rods both ways, laps not counted, meters.
    pub rods: f64,
    /// Whether anything was drawn that changes the ring.
    pub as_drawn: bool,
    /// The first steps whose rise nobody told: index of the feature in the site's list.
    pub unknown_rise: Option<usize>,
}

impl DeckPlan {
    /// The deck of a shell with what was drawn of it.
    pub fn new(shell: &Shell, works: &ConstructionSettings, drawn: &Drawn) -> Self {
        let settings = &works.deck;
        let rim = shell.record.coping_width;
        // Every ring is widened from the footprint itself, never from another ring.
        let out = |by: f64| offset_region(&shell.footprint, rim + by, VOLUME_TOLERANCE);
        let within = out(settings.width);
        let ring = difference(&within, &shell.rim);
        let steps = drawn.steps_clear_of(&shell.rim);
        let whole = drawn.decks.iter().fold(ring, |all, deck| union(&all, deck));
        let away = drawn.openings.iter().chain(&drawn.pad);
        let away = away.chain(steps.iter().map(|flight| &flight.region));
        let slab = away.fold(difference(&whole, &shell.rim), |left, it| {
            difference(&left, it)
        });
        let bed = difference(&slab, &out(works.collar.width));
        let beyond = difference(&slab, &within);

        let joints = joints::set(shell, settings, &within, &beyond, &slab);
        let ties = ties::set(shell, works.ties.spacing, &slab);
        let forms = forms::edges(shell, drawn, &slab, &steps);
        let mut figures = DeckFigures {
            area: slab.area(),
            drawn_area: beyond.area(),
            bed_area: bed.area(),
            steps_area: steps.iter().map(|flight| flight.region.area()).sum(),
            treads: steps.iter().map(Flight::treads).sum(),
            joints: joints.iter().map(|joint| length(joint)).sum(),
            ties: ties.len() as u32,
            forms: forms.iter().map(|form| length(form)).sum(),
            rods: rods(&slab, settings.rod_spacing),
            as_drawn: !drawn.is_empty(),
            unknown_rise: steps.iter().find(|f| f.rise <= 0.0).map(|f| f.feature),
        };
        if drawn.is_empty() && settings.width > 0.0 {
            let edge = offset_measure(&shell.outline, rim + settings.width);
            let inner = offset_measure(&shell.outline, rim);
            let collar = offset_measure(&shell.outline, rim + works.collar.width);
            figures.area = edge.area - inner.area;
            figures.bed_area = (edge.area - collar.area).max(0.0);
            figures.forms = edge.length;
        }
        Self {
            slab,
            bed,
            steps,
            joints,
            ties,
            forms,
            figures,
        }
    }
}

/// Length of rods both ways in a slab: along the shell's length and across it.
fn rods(slab: &Region, spacing: f64) -> f64 {
    if spacing <= 0.0 {
        return 0.0;
    }
    let along = Vector::new(1.0, 0.0);
    lines_through(slab, along, spacing) + lines_through(slab, along.left(), spacing)
}
