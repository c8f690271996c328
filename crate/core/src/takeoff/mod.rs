//! The takeoff: every quantity to dig, haul, buy and place, with its working.
//!
//! [`Measured`] holds what depends on the shell and the settings alone; [`takeoff`] joins it
//! with the dig at one placement. Every [`Line`] carries its formula, its inputs with their
//! sources, waste, rounding and what it takes for granted. Values are exact: only pieces and
//! loads are rounded, up. What a line is worked out by is an [`Expression`], which is evaluated for
//! its value and printed for its working: the two cannot differ.
//!
//! | group | lines |
//! |---|---|
//! | dig, grading, haul | [`earth`] |
//! | stone | [`stone`], from what [`Fill`] knows of the hole |
//! | concrete | [`concrete`] |
//! | rods and forms | [`rods`] |
//! | pipe | [`pipe`] |
//! | water | [`fittings`], [`uplift`] |
//!
//! A new part is a module with a `take(inputs, taken)` and a call of it in [`takeoff`]; what it
//! measures comes as a member of [`Inputs`]. Its lines say their group, the geometry they were
//! measured on ([`MeasuredOn`]), and what is paid for by them.
//!
//! Deliberately absent: rates and prices (see `analysis::cost`).

mod concrete;
mod earth;
pub mod expression;
mod fill;
mod fittings;
mod line;
mod measured;
mod measured_on;
mod pipe;
mod range;
mod rods;
mod stone;
mod uplift;

pub use earth::{Earth, Moved, Refill, Yield};
pub use expression::{Expression, Input};
pub use fill::{Fill, Lift, Zone};
pub use line::{Group, Line, Working};
pub use measured::Measured;
pub use measured_on::MeasuredOn;
pub use range::{Cause, Doubt, Range, spread};

use crate::deck::DeckFigures;
use crate::dig::Dig;
use crate::finding::{Caveat, Finding};
use crate::groundwater::Uplift;
use crate::order::put_in_order_by;
use crate::pipe::{Dewatering, PipePlan};
use crate::site::ConstructionSettings;

/// The quantities that change with the ground under the dig.
const LEAN_ON_GROUND: &[&str] = &[
    "bank-cut",
    "dig-top-area",
    "dig-depth",
    "grading-cut",
    "cut",
    "fill",
    "fill-bank",
    "fill-from-spoil",
    "fill-import",
    "spoil-loose",
    "pile-loose",
    "pile-width",
    "pile-height",
    "haul-bank",
    "haul-loose",
    "haul-weight",
    "loads-by-volume",
    "loads-by-weight",
    "loads",
    "trips",
    "haul-time",
    "backfill-stone-volume",
    "backfill-stone",
    "stone-water",
    "stone",
];

/// Every quantity of a placed shell, and what was noticed about them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Takeoff {
    /// The quantities, in order.
    pub lines: Vec<Line>,
    /// Cautions and notes that belong beside them, placed in the site file.
    pub findings: Vec<Finding>,
}

/// What is taken off: all of one shell at one place, under the same settings.
#[derive(Debug, Clone, Copy)]
pub struct Inputs<'a> {
    /// The settings of the work.
    pub works: &'a ConstructionSettings,
    /// The shell and the work round it, wherever it stands.
    pub measured: &'a Measured,
    /// The hole.
    pub dig: &'a Dig,
    /// What is moved besides.
    pub moved: Moved<'a>,
    /// The stone in it; without it lifts and fabric are not taken off.
    pub fill: Option<&'a Fill>,
    /// The deck with what was drawn of it; without it the plain ring is taken off.
    pub deck: Option<&'a DeckFigures>,
    /// The runs of pipe.
    pub pipes: Option<&'a PipePlan>,
    /// The pipe that lowers groundwater; without it one beside the deepest floor is taken off.
    pub dewatering: Option<&'a Dewatering>,
    /// The equipment pad.
    pub pad: Option<Pad>,
    /// What groundwater does to the shell.
    pub uplift: Option<&'a Uplift>,
}

/// The slab that the equipment stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pad {
    /// Its area, m2.
    pub area: f64,
    /// Length of its edges, meters.
    pub edges: f64,
}

impl<'a> Inputs<'a> {
    /// The least there is to take off.
    pub fn new(works: &'a ConstructionSettings, measured: &'a Measured, dig: &'a Dig) -> Self {
        Self {
            works,
            measured,
            dig,
            moved: Moved::default(),
            fill: None,
            deck: None,
            pipes: None,
            dewatering: None,
            pad: None,
            uplift: None,
        }
    }
}

/// Takes off every quantity, group by group; within one in the order in which they were taken.
pub fn takeoff(inputs: &Inputs<'_>) -> Takeoff {
    let mut taken = Takeoff::default();
    earth::take(inputs, &mut taken);
    stone::take(inputs, &mut taken);
    concrete::take(inputs, &mut taken);
    rods::take(inputs, &mut taken);
    pipe::take(inputs, &mut taken);
    fittings::take(inputs, &mut taken);
    uplift::take(inputs, &mut taken);
    put_in_order_by(&mut taken.lines, |line| line.group);
    let dig = inputs.dig;
    let graded = inputs.moved.grading;
    if dig.unsurveyed_volume + graded.map_or(0.0, |g| g.unsurveyed) > 0.0 {
        let leans = |line: &&mut Line| LEAN_ON_GROUND.contains(&line.key);
        for line in taken.lines.iter_mut().filter(leans) {
            line.caveats.push(Caveat::UnknownGround);
        }
    }
    taken
}

#[cfg(test)]
mod tests;
