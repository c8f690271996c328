//! How long to make the scale bar.

use crate::units::System;
use crate::units::constants::FOOT;

/// A scale bar: a round length that suits the view.
#[derive(Debug, Clone, PartialEq)]
pub struct ScaleBar {
    /// Its length, meters.
    pub length: f64,
    /// How many equal parts it is divided into.
    pub parts: u8,
    /// What its end is marked with.
    pub text: String,
}

/// The longest bar of a round length that is no longer than `longest` meters (at the least
/// one foot or one meter).
pub fn scale_bar(longest: f64, system: System) -> ScaleBar {
    let (unit, symbol) = match system {
        System::Feet => (FOOT, "ft"),
        System::Metres => (1.0, "m"),
    };
    let (mut count, mut parts) = (1.0, 4);
    for decade in [1.0, 10.0, 100.0] {
        for (step, divided) in [(1.0, 4), (2.0, 4), (5.0, 5)] {
            let candidate: f64 = decade * step;
            if candidate * unit <= longest {
                (count, parts) = (candidate, divided);
            }
        }
    }
    ScaleBar {
        length: count * unit,
        parts,
        text: format!("{count} {symbol}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_is_round_and_not_too_long() {
        let bar = scale_bar(17.0, System::Feet);
        assert_eq!(bar.text, "50 ft");
        assert!(bar.length <= 17.0);
        assert_eq!(scale_bar(17.0, System::Metres).text, "10 m");
        assert_eq!(scale_bar(0.1, System::Metres).text, "1 m");
    }
}
