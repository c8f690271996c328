//! Low and high of a quantity, and what they come from.

use serde::{Deserialize, Serialize};

use crate::units::Measure;

/// Something that nobody knows exactly before the hole is dug.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Doubt {
    /// How much the spoil swells.
    Swell,
    /// How wide the hole is really dug.
    OverDig,
    /// How high the ground really lies: all of it as much too high or too low.
    Ground,
}

impl Doubt {
    /// What it is called.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Swell => "swell of the spoil",
            Self::OverDig => "width of the over-dig",
            Self::Ground => "height of the ground",
        }
    }
}

/// What one doubt does to a quantity: the value worked out again at both of its ends.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Cause {
    /// The doubt.
    pub doubt: Doubt,
    /// The value with the least swell, the narrowest over-dig, the lowest ground.
    pub less: f64,
    /// The value at the other end.
    pub more: f64,
}

/// Low and high of a quantity.
///
/// The doubts do not depend on each other, so their shares are put together by the root of the
/// sum of their squares: it is unlikely that all of them fall out the same way at once.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "QuantityRange")
)]
pub struct Range {
    /// The low, SI units.
    pub low: f64,
    /// The high, SI units.
    pub high: f64,
    /// What it comes from; each is told by itself.
    pub causes: Vec<Cause>,
    /// Whether part of the ground is unknown: nobody can say how far the quantity is out there,
    /// and low and high leave it out.
    pub open: bool,
}

impl Range {
    /// The range of a value; `None` where nothing moves it.
    pub fn of(value: f64, measure: Measure, causes: Vec<Cause>, open: bool) -> Option<Self> {
        if causes.is_empty() && !open {
            return None;
        }
        let (low, high) = spread(value, &causes);
        let (low, high) = match measure {
            Measure::Count => (low.floor(), high.ceil()),
            _ => (low, high),
        };
        let low = if value >= 0.0 && measure != Measure::Elevation {
            low.max(0.0)
        } else {
            low
        };
        Some(Self {
            low,
            high,
            causes,
            open,
        })
    }
}

/// Low and high of a value whose causes do not depend on each other.
pub fn spread(value: f64, causes: &[Cause]) -> (f64, f64) {
    let root = |off: fn(f64, &Cause) -> f64| {
        let squares = causes.iter().map(|cause| {
            let off = off(value, cause).max(0.0);
            off * off
        });
        squares.sum::<f64>().sqrt()
    };
    let low = root(|value, cause| value - cause.less.min(cause.more));
    let high = root(|value, cause| cause.less.max(cause.more) - value);
    (value - low, value + high)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    /// 3 and 4 make 5, and a cause that only adds leaves the low alone.
    #[test]
    fn causes_are_put_together_by_their_squares() {
        let cause = |doubt, less, more| Cause { doubt, less, more };
        let causes = vec![
            cause(Doubt::Swell, 97.0, 103.0),
            cause(Doubt::Ground, 104.0, 96.0),
        ];
        let range = Range::of(100.0, Measure::Mass, causes, false).unwrap();
        assert_eq!((range.low, range.high), (95.0, 105.0));
        let adds = vec![cause(Doubt::OverDig, 100.0, 102.0)];
        assert_eq!(spread(100.0, &adds), (100.0, 102.0));
        assert_eq!(Range::of(100.0, Measure::Mass, Vec::new(), false), None);
    }

    #[test]
    fn pieces_are_rounded_outward_and_nothing_falls_below_none() {
        let causes = |less, more| {
            vec![Cause {
                doubt: Doubt::Swell,
                less,
                more,
            }]
        };
        let pieces = Range::of(10.0, Measure::Count, causes(9.4, 10.2), false).unwrap();
        assert_eq!((pieces.low, pieces.high), (9.0, 11.0));
        let area = Range::of(1.0, Measure::Area, causes(-2.0, 3.0), false).unwrap();
        assert_eq!(area.low, 0.0);
    }
}
