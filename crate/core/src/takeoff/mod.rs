//! The takeoff: every quantity to dig, haul, buy and place, with its working.
//!
//! [`Measured`] holds what depends on the shell and the settings alone; [`takeoff`] joins it
//! with the dig at one placement. Every [`Line`] carries its formula, its inputs with their
//! sources, waste, rounding and what it takes for granted. Values are exact: only pieces and
//! loads are rounded, up.
//!
//! | group | lines |
//! |---|---|
//! | dig, haul | [`earth`] |
//! | stone | [`stone`] |
//! | concrete | [`concrete`] |
//! | fittings, water | [`fittings`] |
//!
//! Deliberately absent: rates and prices; spoil kept back for use on the site; the fill that
//! a shell standing above the ground needs round it.

mod concrete;
mod earth;
mod fittings;
mod line;
mod measured;
mod stone;

pub use line::{Group, Input, Line, Working};
pub use measured::Measured;

use crate::dig::Dig;
use crate::finding::{Caveat, Finding};
use crate::site::Works;

/// The quantities that change with the ground under the dig.
const LEAN_ON_GROUND: [&str; 11] = [
    "bank-cut",
    "dig-top-area",
    "dig-depth",
    "spoil-loose",
    "spoil-weight",
    "loads-by-volume",
    "loads-by-weight",
    "loads",
    "backfill-stone-volume",
    "backfill-stone",
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

/// Takes off every quantity. `measured` must stem from the same shell and settings as `dig`.
pub fn takeoff(works: &Works, measured: &Measured, dig: &Dig) -> Takeoff {
    let mut taken = Takeoff::default();
    earth::take(works, dig, &mut taken);
    stone::take(works, measured, dig, &mut taken);
    concrete::take(works, measured, &mut taken);
    fittings::take(works, measured, &mut taken);
    if dig.unsurveyed_volume > 0.0 {
        let leans = |line: &&mut Line| LEAN_ON_GROUND.contains(&line.key);
        for line in taken.lines.iter_mut().filter(leans) {
            line.caveats.push(Caveat::UnknownGround);
        }
    }
    taken
}

#[cfg(test)]
mod tests;
