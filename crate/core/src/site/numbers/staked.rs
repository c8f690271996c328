//! The ranges of how the work is staked and of what was read back.

use super::{Faults, ranges};
use crate::site::{FixedPoint, ReadingOf, StakeoutRecord};

/// Every figure that is out of range.
pub(super) fn check(record: &StakeoutRecord, faults: &mut Faults) {
    ranges! { faults, "/stakeout", record;
        tape_error: "The error of a tape", Length, 0.0001..=0.3;
        tape_length: "The length of the tape", Length, 1.0..=500.0;
        chord: "The distance of a string from its line", Length, 0.005..=0.5;
        // Farther than 2 ft from the edge, where nothing may lie (29 CFR 1926.651(j)(2)); the last
        // digits are rounding of 2 ft.
        offset: "The distance of the offset stakes", Length, 0.609_599..=30.0;
        backsight: "The reading on the benchmark", Length, -10.0..=10.0;
        rod_length: "The length of the rod", Length, 0.5..=10.0;
        bottom_limit: "The limit of the bottom", Length, 0.0..=0.3;
        rim_limit: "The limit of the rim", Length, 0.0..=0.3;
    }
    if let Some(pair) = &record.fixed {
        for (name, point) in [("a", &pair.a), ("b", &pair.b)] {
            if let FixedPoint::Marked { at, .. } = point {
                faults.position(&format!("/stakeout/fixed/{name}/marked/at"), *at);
            }
        }
    }
    for (i, reading) in record.readings.iter().enumerate() {
        let place = format!("/stakeout/readings/{i}/of");
        match &reading.of {
            ReadingOf::Bottom(it) | ReadingOf::Rim(it) => {
                let kind = match reading.of {
                    ReadingOf::Bottom(_) => "bottom",
                    _ => "rim",
                };
                let place = format!("{place}/{kind}");
                faults.position(&format!("{place}/at"), it.at);
                ranges! { faults, place, it;
                    rod: "A rod reading", Length, -10.0..=10.0;
                    backsight: "The reading on the benchmark", Length, -10.0..=10.0;
                }
            }
            ReadingOf::Taped(it) => {
                let place = format!("{place}/taped");
                for (k, (from, tape)) in it.from.into_iter().zip(it.tapes).enumerate() {
                    faults.position(&format!("{place}/from/{k}"), from);
                    let place = format!("{place}/tapes/{k}");
                    let measure = crate::units::Measure::Length;
                    faults.within(&place, "A tape", measure, tape, 0.0..=1000.0);
                }
            }
        }
    }
}
