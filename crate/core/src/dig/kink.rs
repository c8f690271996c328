//! The mean of a cut over one cell in which it changes sign.

use crate::geom::Vector;

/// Below this share of the larger one a slope counts as none: it would only add rounding.
const FLAT: f64 = 1e-6;

/// For a cut that is `middle` at the centre of a cell and changes by `slope` per cell along
/// its two sides: the mean of its positive part over the cell, and the share of the cell where
/// it is positive. Exact for a plane.
pub(super) fn open_cell(middle: f64, slope: Vector) -> (f64, f64) {
    let (p, q) = (slope.x.abs() / 2.0, slope.y.abs() / 2.0);
    let (a, b) = (p.max(q), p.min(q));
    // Integrals of the positive part, by repeated integration of the ramp.
    let ramp = |v: f64| v.max(0.0);
    if a <= 0.0 {
        return (ramp(middle), if middle > 0.0 { 1.0 } else { 0.0 });
    }
    if b <= FLAT * a {
        let square = |v: f64| ramp(v) * ramp(v) / 2.0;
        let mean = (square(middle + a) - square(middle - a)) / (2.0 * a);
        let share = (ramp(middle + a) - ramp(middle - a)) / (2.0 * a);
        return (mean, share);
    }
    let over = |f: fn(f64) -> f64| {
        f((middle + a + b).max(0.0)) - f((middle + a - b).max(0.0)) - f((middle - a + b).max(0.0))
            + f((middle - a - b).max(0.0))
    };
    let scale = 4.0 * a * b;
    (
        over(|v| v * v * v / 6.0) / scale,
        over(|v| v * v / 2.0) / scale,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_closed_form_is_the_mean_of_many_places() {
        let slopes = [
            (0.3, 0.1),
            (-0.2, 0.2),
            (0.0, 0.5),
            (0.4, 1e-9),
            (1e-3, -0.7),
        ];
        for (sx, sy) in slopes {
            for middle in [-0.3, -0.1, -0.01, 0.0, 0.05, 0.2, 0.6] {
                let (mean, share) = open_cell(middle, Vector::new(sx, sy));
                let n = 400;
                let (mut sum, mut open) = (0.0, 0.0);
                for i in 0..n * n {
                    let at = |k: i32| (f64::from(k) + 0.5) / f64::from(n) - 0.5;
                    let value = middle + sx * at(i % n) + sy * at(i / n);
                    sum += f64::max(value, 0.0);
                    open += if value > 0.0 { 1.0 } else { 0.0 };
                }
                let count = f64::from(n * n);
                assert!((mean - sum / count).abs() < 1e-5, "{mean} {}", sum / count);
                assert!((share - open / count).abs() < 5e-3, "{share}");
            }
        }
    }
}
