//! Two tapes and check diagonals against arithmetic done outside.
//!
//! Values marked *computed independently* were worked out by hand and with other software from the
//! closed forms x = (a^2 - b^2 + c^2) / 2c and sx^2 + sy^2 = 2 sigma^2 / sin^2 gamma (propagation of
//! variances, as texts on the adjustment of observations have it; from memory).

use batterboard_core::geom::Point;
use batterboard_core::stakeout::{BaseLine, LEAST_CROSSING, Meeting, Tie, off_square};
use batterboard_core::units::constants::{DEGREE, FOOT, INCH};
use batterboard_core::units::{LengthStyle, format_length};

use super::close;

fn base(length: f64) -> BaseLine {
    BaseLine::new(Point::new(0.0, 0.0), Point::new(length, 0.0)).unwrap()
}

/// The point on the left where tapes of these lengths meet, and how it hangs on the base line.
fn met(base: &BaseLine, tapes: [f64; 2]) -> (Point, Tie) {
    let Meeting::At { left, .. } = base.meet(tapes) else {
        panic!("tapes of {tapes:?} meet");
    };
    (left, base.tie(left))
}

/// Points, crossing angles and factors (computed independently). 40, 40 over 10 is a point so far
/// off its base line that tapes read to 1/4 in leave it 1.4 in in doubt.
#[test]
fn two_tapes_fix_a_point() {
    let right_angle = base(5.0);
    let (at, tie) = met(&right_angle, [3.0, 4.0]);
    close("x of 3, 4 over 5", at.x, 1.8, 1e-12);
    close("y of 3, 4 over 5", at.y, 2.4, 1e-12);
    close("factor", tie.error(1.0).unwrap(), 2.0_f64.sqrt(), 1e-12);

    let wide = base(30.0);
    let (at, tie) = met(&wide, [20.0, 26.0]);
    close("x of 20, 26 over 30", at.x, 10.4, 1e-12);
    close("y of 20, 26 over 30", at.y, 17.0833, 5e-5);
    close("factor", tie.error(1.0).unwrap(), 1.4349, 5e-5);

    let narrow = base(10.0);
    let (at, tie) = met(&narrow, [40.0, 40.0]);
    close("x of 40, 40 over 10", at.x, 5.0, 1e-12);
    close("y of 40, 40 over 10", at.y, 39.6863, 5e-5);
    close("crossing", tie.crossing / DEGREE, 14.36, 5e-3);
    close("factor", tie.error(1.0).unwrap(), 5.70, 5e-3);
    // Symmetric about x = 5, so the long half-axis lies along the base line: sx.
    close("long half-axis", tie.long_axis(1.0).unwrap(), 5.657, 5e-4);
    close(
        "1/4 in tapes, in",
        tie.error(0.25 * INCH).unwrap() / INCH,
        1.4,
        0.05,
    );
    assert!(!tie.is_sound());
}

/// The span of good angles (30 to 150 degrees; from memory of common practice) bounds the factor by
/// the square root of 2 over sin 30 degrees, 2.83 (computed independently).
#[test]
fn angles_between_30_and_150_degrees_are_sound() {
    close("least crossing", LEAST_CROSSING / DEGREE, 30.0, 1e-12);
    let line = base(10.0);
    for (degrees, sound) in [(29.9, false), (30.1, true), (149.9, true), (150.1, false)] {
        // A point above the middle: half the base over the tangent of half the angle.
        let half: f64 = degrees / 2.0 * DEGREE;
        let y = 5.0 / batterboard_core::math::tan(half);
        let tie = line.tie(Point::new(5.0, y));
        close("crossing", tie.crossing / DEGREE, degrees, 1e-9);
        assert_eq!(tie.is_sound(), sound, "{degrees}");
        assert!(!sound || tie.error(1.0).unwrap() <= 2.83);
    }
}

/// Tapes that cannot meet (a + b < c, or one longer than the other and c): an answer, never NaN.
#[test]
fn tapes_that_cannot_meet_are_told() {
    assert_eq!(base(10.0).meet([3.0, 4.0]), Meeting::TooShort(3.0));
    assert_eq!(base(10.0).meet([15.0, 4.0]), Meeting::TooLong(1.0));
}

/// Diagonals of rectangles in feet, and how far off square 14 by 30 is when one diagonal is an inch
/// longer: 0.188 degrees or 1.2 in over 30 ft (computed independently).
#[test]
fn check_diagonals() {
    for (a, b, diagonal) in [
        (14.0, 30.0, 33.1059),
        (12.0, 24.0, 26.8328),
        (16.0, 40.0, 43.0813),
        (9.0, 12.0, 15.0),
    ] {
        let long = Point::new(0.0, 0.0).distance(Point::new(a, b));
        close("diagonal, ft", long, diagonal, 5e-5);
        assert_eq!(off_square([a, b], [long, long]), 0.0);
    }
    let quarters = LengthStyle::FeetInches { denominator: 4 };
    assert_eq!(format_length(33.1059 * FOOT, quarters), "33'-1 1/4\"");
    let long = 33.1059;
    let off = off_square([14.0, 30.0], [long + 0.5 / 12.0, long - 0.5 / 12.0]);
    close("off square, degrees", off / DEGREE, 0.188, 5e-4);
    close("over 30 ft, in", off * 30.0 * 12.0, 1.2, 0.02);
}
