//! The elementary functions that every machine must compute alike.
//!
//! The platform's `sin` and friends differ in the last digit between native and
//! WebAssembly builds, and so would reports. These come from the pure-Rust `libm`
//! crate, which gives the same bits everywhere. The inherent `f64` methods are
//! banned by name in `clippy.toml`; arithmetic and `sqrt` are exact by IEEE 754 and
//! need no wrapper.

use libm::Libm;

/// A full turn in radians.
pub const TURN: f64 = core::f64::consts::TAU;

/// Sine of an angle in radians.
pub fn sin(angle: f64) -> f64 {
    Libm::<f64>::sin(angle)
}

/// Cosine of an angle in radians.
pub fn cos(angle: f64) -> f64 {
    Libm::<f64>::cos(angle)
}

/// Tangent of an angle in radians.
pub fn tan(angle: f64) -> f64 {
    Libm::<f64>::tan(angle)
}

/// Arc sine in radians; the argument is clamped to -1..=1, so rounding never yields NaN.
pub fn asin(ratio: f64) -> f64 {
    Libm::<f64>::asin(ratio.clamp(-1.0, 1.0))
}

/// Arc cosine in radians; the argument is clamped to -1..=1, so rounding never yields NaN.
pub fn acos(ratio: f64) -> f64 {
    Libm::<f64>::acos(ratio.clamp(-1.0, 1.0))
}

/// Arc tangent in radians.
pub fn atan(ratio: f64) -> f64 {
    Libm::<f64>::atan(ratio)
}

/// The angle of the vector (x, y) from +x, counter-clockwise, in -pi..=pi.
pub fn atan2(y: f64, x: f64) -> f64 {
    Libm::<f64>::atan2(y, x)
}

/// Length of the vector (x, y).
///
/// Plain arithmetic: coordinates are bounded at the door (see `geom::validate`), so
/// the overflow that a careful `hypot` guards against cannot occur.
pub fn hypot(x: f64, y: f64) -> f64 {
    (x * x + y * y).sqrt()
}

/// `base` raised to `exponent`.
pub fn powf(base: f64, exponent: f64) -> f64 {
    Libm::<f64>::pow(base, exponent)
}

/// An angle brought into `0..TURN`.
pub fn wrap_turn(angle: f64) -> f64 {
    let turns = (angle / TURN).floor();
    let wrapped = angle - turns * TURN;
    if !(0.0..TURN).contains(&wrapped) {
        0.0
    } else {
        wrapped
    }
}

/// An angle brought into `-pi..=pi`.
pub fn wrap_half_turn(angle: f64) -> f64 {
    let wrapped = wrap_turn(angle);
    if wrapped > TURN / 2.0 {
        wrapped - TURN
    } else {
        wrapped
    }
}

/// The lesser of two numbers, the first of equals. A plain comparison: `f64::min`, which also has
/// to look for what is no number, is a call in WebAssembly.
pub(crate) fn lesser(a: f64, b: f64) -> f64 {
    if b < a { b } else { a }
}

/// The greater of two numbers, the first of equals; see [`lesser`].
pub(crate) fn greater(a: f64, b: f64) -> f64 {
    if b > a { b } else { a }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrapping_keeps_angles_in_range() {
        for angle in [-1e-18, -7.0, -TURN, 0.0, 3.0, TURN, 1e6] {
            let wrapped = wrap_turn(angle);
            assert!((0.0..TURN).contains(&wrapped), "{angle} -> {wrapped}");
            assert!((sin(wrapped) - sin(angle)).abs() < 1e-9);
            assert!(wrap_half_turn(angle).abs() <= TURN / 2.0);
        }
    }

    #[test]
    fn inverse_functions_survive_rounding() {
        assert_eq!(acos(1.0 + 1e-15), 0.0);
        assert!((asin(-1.0 - 1e-15) + TURN / 4.0).abs() < 1e-15);
    }
}
