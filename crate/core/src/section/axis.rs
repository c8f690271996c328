//! Even stations and elevations along the axes of a section.

use crate::units::constants::FOOT;
use crate::units::{Measure, System, show};

/// A mark on an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Where it stands, meters.
    pub at: f64,
    /// What is written at it.
    pub text: String,
}

/// Marks between two figures, at whole steps of 1, 2 or 5 tenths, ones or tens of the unit that
/// is read, so that no two stand nearer than `least` meters.
pub fn ticks(measure: Measure, low: f64, high: f64, least: f64, system: System) -> Vec<Tick> {
    let unit = match system {
        System::Feet => FOOT,
        System::Metres => 1.0,
    };
    let mut step = 0.1 * unit;
    for factor in [2.0, 2.5, 2.0].into_iter().cycle().take(18) {
        if step >= least {
            break;
        }
        step *= factor;
    }
    let (first, last) = ((low / step).ceil(), (high / step).floor());
    // Far more than ever stand on a screen.
    let count = (last - first + 1.0).clamp(0.0, 500.0) as u32;
    (0..count)
        .map(|k| {
            let at = (first + f64::from(k)) * step;
            let text = show(measure, at, system).text;
            Tick { at, text }
        })
        .collect()
}
