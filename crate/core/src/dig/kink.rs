//! Cells in which a cut changes sign: found, and taken as a plane.

use super::fill::UNREACHED;
use crate::geom::Vector;
use crate::math::{greater, lesser};

/// How many cells are asked at a time whether any is near zero.
const BLOCK: usize = 8;

/// Below this share of the larger one a slope counts as none: it would only add rounding.
const FLAT: f64 = 1e-6;

/// Finds the cells of the middle row in which a field changes sign, and tells how much the
/// sum of its positive part and its positive share change when it is taken as a plane there.
pub(super) fn crossings(
    rows: [&Vec<f64>; 3],
    near_zero: f64,
    mut tell: impl FnMut(usize, f64, f64),
) {
    let [before, here, after] = rows;
    for (block, cells) in here.chunks(BLOCK).enumerate() {
        if !cells.iter().any(|v| v.abs() < near_zero) {
            continue;
        }
        for (i, &value) in cells.iter().enumerate() {
            if value.abs() >= near_zero {
                continue;
            }
            let column = block * BLOCK + i;
            let beside = column.checked_sub(1).and_then(|left| {
                let (left, right) = (here.get(left)?, here.get(column + 1)?);
                Some((*left, *right, *before.get(column)?, *after.get(column)?))
            });
            let Some((left, right, down, up)) = beside else {
                continue;
            };
            // Beside a cell that the sides were not followed to there is no slope to speak of.
            if lesser(lesser(left, right), lesser(down, up)) < UNREACHED / 2.0 {
                continue;
            }
            let slope = Vector::new((right - left) / 2.0, (up - down) / 2.0);
            if value.abs() < (slope.x.abs() + slope.y.abs()) / 2.0 {
                let (mean, share) = open_cell(value, slope);
                let (counted, open) = if value > 0.0 {
                    (value, 1.0)
                } else {
                    (0.0, 0.0)
                };
                tell(column, mean - counted, share - open);
            }
        }
    }
}

/// For a cut that is `middle` at the center of a cell and changes by `slope` per cell along
/// its two sides: the mean of its positive part over the cell, and the share of the cell where
/// it is positive. Exact for a plane.
fn open_cell(middle: f64, slope: Vector) -> (f64, f64) {
    let (p, q) = (slope.x.abs() / 2.0, slope.y.abs() / 2.0);
    let (a, b) = (greater(p, q), lesser(p, q));
    // Integrals of the positive part, by repeated integration of the ramp.
    let ramp = |v: f64| greater(v, 0.0);
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
        f(ramp(middle + a + b)) - f(ramp(middle + a - b)) - f(ramp(middle - a + b))
            + f(ramp(middle - a - b))
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
