//! The coping at which what is dug and what is filled are even.

/// How far up and down from the present coping it is looked for, meters: 5 ft (our choice).
pub const RANGE: f64 = 1.524;

/// Steps in which the range is looked through before it is narrowed down.
const STEPS: i32 = 12;

/// How near the coping is found, meters: half a millimetre, less than a level shows.
const NEAR: f64 = 0.000_5;

/// What was found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Even {
    /// At this coping nothing is left over and nothing is short, meters.
    At(f64),
    /// At no coping in the range. It comes nearest at one end of it.
    Nowhere {
        /// The coping that comes nearest, meters.
        nearest: f64,
        /// What is left over there (short of, when negative), m3 bank.
        left: f64,
    },
}

impl Even {
    /// The coping, where there is one.
    pub fn coping(self) -> Option<f64> {
        match self {
            Self::At(coping) => Some(coping),
            Self::Nowhere { .. } => None,
        }
    }
}

/// Looks for the coping at which `surplus` (m3 bank left over when positive, short when
/// negative) is 0, within `RANGE` of `present`.
///
/// Raising the coping digs less and fills more, so there is one such coping at most on ordinary
/// ground. Where there are more, the one nearest to the present is told: every step of the range
/// is looked at, and every change of sign is seen that is wider than a step.
pub fn even(present: f64, mut surplus: impl FnMut(f64) -> f64) -> Even {
    let at = |k: i32| present + RANGE * f64::from(k) / f64::from(STEPS);
    let sampled: Vec<(i32, f64)> = (-STEPS..=STEPS).map(|k| (k, surplus(at(k)))).collect();
    let pairs = sampled.iter().zip(sampled.iter().skip(1));
    let brackets = pairs.filter(|((_, a), (_, b))| (*a >= 0.0) != (*b >= 0.0));
    // The bracket whose middle lies nearest to the present.
    let from_present = |k: i32| (2 * k + 1).abs();
    let nearest = brackets.fold(None, |best: Option<(i32, f64)>, ((k, a), _)| match best {
        Some((other, _)) if from_present(other) <= from_present(*k) => best,
        _ => Some((*k, *a)),
    });
    let Some((k, first)) = nearest else {
        let least = sampled
            .iter()
            .fold(None, |best: Option<(i32, f64)>, next| match best {
                Some((_, left)) if left.abs() <= next.1.abs() => best,
                _ => Some(*next),
            });
        let (k, left) = least.unwrap_or((0, 0.0));
        return Even::Nowhere {
            nearest: at(k),
            left,
        };
    };
    let (mut low, mut high) = (at(k), at(k + 1));
    while high - low > NEAR {
        let middle = (low + high) / 2.0;
        if (surplus(middle) >= 0.0) == (first >= 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Even::At((low + high) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_surplus_is_even_where_it_crosses() {
        let found = even(100.0, |coping| 40.0 - 80.0 * (coping - 100.0));
        let coping = found.coping().unwrap();
        assert!((coping - 100.5).abs() < NEAR, "{coping}");
    }

    #[test]
    fn of_several_the_nearest_to_the_present_is_told() {
        // Crosses 1 m below, 0.3 m above and 1.1 m above.
        let surplus = |z: f64| -(z + 1.0) * (z - 0.3) * (z - 1.1);
        let coping = even(0.0, surplus).coping().unwrap();
        assert!((coping - 0.3).abs() < NEAR, "{coping}");
    }

    #[test]
    fn where_there_is_none_the_nearest_end_is_told() {
        let Even::Nowhere { nearest, left } = even(10.0, |z| 90.0 - 10.0 * (z - 10.0)) else {
            panic!("there is none");
        };
        assert!((nearest - 10.0 - RANGE).abs() < 1e-12);
        assert!((left - (90.0 - 10.0 * RANGE)).abs() < 1e-9);
    }
}
