//! A length, or a run per unit of rise, to each side of the hole.

use crate::geom::Vector;

/// A value to each of the four sides of the hole, in the shell's frame: meters, or meters of run
/// per meter of rise. Between two sides it goes over along a quarter of an ellipse, so that a
/// hole's corner is rounded from the one side's slope into the other's.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BySide {
    /// Toward +x, beyond the deep end.
    pub ahead: f64,
    /// Toward +y.
    pub left: f64,
    /// Toward -x.
    pub behind: f64,
    /// Toward -y.
    pub right: f64,
}

impl BySide {
    /// The same to every side.
    pub const fn all(value: f64) -> Self {
        Self {
            ahead: value,
            left: value,
            behind: value,
            right: value,
        }
    }

    /// The four values: ahead, left, behind, right.
    pub fn values(self) -> [f64; 4] {
        [self.ahead, self.left, self.behind, self.right]
    }

    /// From the four values, in the same order.
    pub fn from_values([ahead, left, behind, right]: [f64; 4]) -> Self {
        Self {
            ahead,
            left,
            behind,
            right,
        }
    }

    /// The greatest value.
    pub fn greatest(self) -> f64 {
        self.values().into_iter().fold(0.0, f64::max)
    }

    /// The least value.
    pub fn least(self) -> f64 {
        self.values().into_iter().fold(f64::INFINITY, f64::min)
    }

    /// The value of a side that faces in a direction (of unit length, shell frame): how far a
    /// wall that faces there runs out.
    pub fn towards(self, direction: Vector) -> f64 {
        let pick = |c: f64, on: f64, off: f64| if c >= 0.0 { on * c } else { off * c };
        let x = pick(direction.x, self.ahead, self.behind);
        let y = pick(direction.y, self.left, self.right);
        (x * x + y * y).sqrt()
    }

    /// The value, when every side has the same.
    pub(super) fn even(self) -> Option<f64> {
        (self == Self::all(self.ahead)).then_some(self.ahead)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wall_across_an_axis_goes_by_its_own_side_and_others_by_the_ellipse() {
        let runs = BySide {
            ahead: 2.0,
            left: 1.0,
            behind: 0.0,
            right: 0.5,
        };
        assert_eq!(runs.towards(Vector::new(1.0, 0.0)), 2.0);
        assert_eq!(runs.towards(Vector::new(-1.0, 0.0)), 0.0);
        assert_eq!(runs.towards(Vector::new(0.0, -1.0)), 0.5);
        let slant = runs.towards(Vector::new(0.6, 0.8));
        assert!((slant - (1.44_f64 + 0.64).sqrt()).abs() < 1e-12);
        assert_eq!((runs.greatest(), runs.least()), (2.0, 0.0));
        assert_eq!(runs.even(), None);
        assert_eq!(BySide::all(0.7).even(), Some(0.7));
    }
}
