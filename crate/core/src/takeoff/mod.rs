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
use crate::finding::Finding;
use crate::site::Works;

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
    taken
}

#[cfg(test)]
mod tests;
