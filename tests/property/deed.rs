//! Deeds of any text: never a panic, every character in a piece; written courses come back.

use batterboard_core::lot::deed;
use batterboard_core::lot::{CourseShape, Lot, LotRecord};
use batterboard_core::math::{sin, tan, wrap_half_turn};
use batterboard_core::units::constants::{DEGREE, FOOT};
use batterboard_core::units::{System, format_bearing};
use proptest::prelude::*;

/// Words, numbers and marks of deeds in any order.
fn scraps() -> impl Strategy<Value = String> {
    let scrap = prop::sample::select(vec![
        "thence",
        "N",
        "S",
        "E",
        "W",
        "north",
        "due",
        "45",
        "89-15-30",
        "°",
        "'",
        "\"",
        "-",
        "120.00",
        "feet",
        "m",
        "gon",
        "chains",
        "chs.",
        "25 lks.",
        "varas",
        "arpents",
        "to the beginning",
        "curve",
        "left",
        "right",
        "radius",
        "arc",
        "chord",
        "bearing",
        "delta",
        "tangent",
        "=",
        "R",
        "L",
        "of",
        "to",
        "point of beginning",
        "commencing",
        "0.32 acres",
        ";",
        ",",
        ".",
        "\n",
        "(",
        ")",
        "1",
        "999999999999",
        "½",
        "é",
        "non-",
    ]);
    prop::collection::vec(scrap, 0..40).prop_map(|all| all.join(" "))
}

fn whole(text: &str) -> Result<(), TestCaseError> {
    for system in [System::Feet, System::Metres] {
        let reading = deed::read(text, system);
        let mut at = 0;
        for piece in &reading.pieces {
            prop_assert_eq!(piece.from, at);
            prop_assert!(piece.to > at);
            at = piece.to;
            if let deed::Understood::Course(index) = piece.understood {
                prop_assert!(index < reading.courses.len());
            }
        }
        prop_assert_eq!(at, text.chars().count());
        for finding in &reading.findings {
            prop_assert!(!finding.remedy.is_empty() && !finding.message.is_empty());
        }
        // What was read can go through the door, whatever it is.
        let record = reading.record(&LotRecord::default());
        let _ = Lot::check(&record);
        let _ = deed::Summary::of(&record);
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_text_is_read_to_its_end(text in "(?s).{0,120}") {
        whole(&text)?;
    }

    #[test]
    fn any_scraps_of_a_deed_are_read_to_their_end(text in scraps()) {
        whole(&text)?;
    }

    #[test]
    fn courses_written_down_come_back(
        courses in prop::collection::vec((0.0..360.0f64, 1u32..100_000, any::<bool>()), 1..9),
        prose in any::<bool>(),
    ) {
        let written: Vec<String> = courses
            .iter()
            .map(|(bearing, hundredths, curved)| {
                let bearing = format_bearing(bearing * DEGREE);
                let feet = f64::from(*hundredths) / 100.0;
                if *curved {
                    format!("curve to the left, radius {feet:.2}', chord bearing {bearing}, chord {feet:.2}'")
                } else {
                    format!("{bearing} {feet:.2}'")
                }
            })
            .collect();
        let text = if prose {
            format!("Beginning at a stone; thence {}", written.join("; thence "))
        } else {
            written.join("\n")
        };
        let reading = deed::read(&text, System::Metres);
        prop_assert_eq!(&reading.findings, &[]);
        prop_assert_eq!(reading.courses.len(), courses.len());
        for (course, (bearing, hundredths, curved)) in reading.courses.iter().zip(&courses) {
            let feet = f64::from(*hundredths) / 100.0;
            let (read, length) = match course.shape {
                CourseShape::Line { bearing, distance } => (bearing, distance),
                CourseShape::Curve { chord_bearing, chord, radius, .. } => {
                    prop_assert!((radius / FOOT - feet).abs() < 1e-9 && *curved);
                    (chord_bearing, chord)
                }
            };
            prop_assert!((length / FOOT - feet).abs() < 1e-9);
            // To the half second that was written.
            prop_assert!(wrap_half_turn(read - bearing * DEGREE).abs() < 0.500_01 / 3600.0 * DEGREE);
        }
    }
}

const ONES: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 10] = [
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
];

/// A whole number in words, as a clerk writes it.
fn words(number: u32) -> String {
    let rest = |number: u32| {
        if number == 0 {
            String::new()
        } else {
            format!(" {}", words(number))
        }
    };
    match number {
        0..20 => ONES[number as usize].to_owned(),
        20..100 if number.is_multiple_of(10) => TENS[(number / 10) as usize].to_owned(),
        20..100 => format!("{}-{}", TENS[(number / 10) as usize], words(number % 10)),
        100..1000 => format!("{} hundred{}", words(number / 100), rest(number % 100)),
        _ => format!("{} thousand{}", words(number / 1000), rest(number % 1000)),
    }
}

/// A bearing of whole seconds, 0 to 1,296,000, in one of the usual forms.
fn bearing_text(seconds: u32, form: u8) -> String {
    let quarter = 90 * 3600;
    let (first, angle, last) = match seconds / quarter {
        0 => ("North", seconds, "East"),
        1 => ("South", 2 * quarter - seconds, "East"),
        2 => ("South", seconds - 2 * quarter, "West"),
        _ => ("North", 4 * quarter - seconds, "West"),
    };
    let parts = |all: u32| (all / 3600, all / 60 % 60, all % 60);
    let (d, m, s) = parts(angle);
    let (n, e) = (&first[..1], &last[..1]);
    match form {
        0 => format!("{n} {d}°{m:02}'{s:02}\" {e}"),
        1 => format!("{n}{d}-{m:02}-{s:02}{e}"),
        2 => format!("{first} {d} degrees, {m} minutes, and {s} seconds {last}"),
        3 => format!(
            "{first} {} degrees {} minutes {} seconds {last}",
            words(d),
            words(m),
            words(s)
        ),
        4 => format!(
            "{first} {} ({d}) degrees {} ({m}) minutes {s} seconds {last}",
            words(d),
            words(m)
        ),
        5 => {
            let (d, m, s) = parts(seconds);
            format!("azimuth {d}°{m:02}'{s:02}\"")
        }
        6 => format!("azimuth of {:.9} gon", f64::from(seconds) / 3240.0),
        _ => format!("{n}{:.9}{e}", f64::from(angle) / 3600.0),
    }
}

/// A length of hundredths of a unit in one of the usual units, and what it is in meters.
fn length_text(hundredths: u32, form: u8) -> (String, f64) {
    let count = f64::from(hundredths) / 100.0;
    let foot = 0.3048;
    match form {
        0 => (format!("{count:.2} feet"), count * foot),
        1 => (format!("{count:.2}'"), count * foot),
        2 => (
            format!("{count:.2} U.S. survey feet"),
            count * 1200.0 / 3937.0,
        ),
        3 => (format!("{count:.2} chains"), count * 66.0 * foot),
        4 => (format!("{count:.2} rods"), count * 16.5 * foot),
        5 => (
            format!("{} chains {} links", hundredths / 100, hundredths % 100),
            count * 66.0 * foot,
        ),
        6 => (format!("{count:.2} m"), count),
        7 => (format!("{count:.2} poles"), count * 16.5 * foot),
        10 => (
            format!("{} chs. {} lks.", hundredths / 100, hundredths % 100),
            count * 66.0 * foot,
        ),
        8 => {
            let (whole, part) = (words(hundredths / 100), words(hundredths % 100));
            let text = format!("{whole} and {part} hundredths feet");
            (text, count * foot)
        }
        _ => {
            let text = format!(
                "{} and {}/100 feet",
                words(hundredths / 100),
                hundredths % 100
            );
            (text, count * foot)
        }
    }
}

/// The figures of a curve of this radius (feet) and central angle in one of the usual pairs.
fn figures_text(radius: f64, delta: f64, form: u8) -> String {
    let half = delta / 2.0;
    let arc = radius * delta;
    let chord = 2.0 * radius * sin(half);
    let tangent = radius * tan(half);
    let angle = delta.to_degrees();
    match form {
        0 => format!("having a radius of {radius:.6} feet and a central angle of {angle:.9}°"),
        1 => format!("R={radius:.6}' L={arc:.6}'"),
        2 => format!("radius {radius:.6} feet, chord distance {chord:.6} feet"),
        3 => format!("delta {angle:.9}°, arc length {arc:.6} feet"),
        4 => format!("central angle {angle:.9}°, tangent length {tangent:.6} feet"),
        _ => format!("chord {chord:.6} feet, delta {angle:.9}°"),
    }
}

proptest! {
    /// Straight courses in every form come back, in prose and as a list.
    #[test]
    fn lots_written_in_many_forms_come_back(
        courses in prop::collection::vec((0u32..1_296_000, 100u32..900_000, 0u8..8, 0u8..11), 1..7),
        prose in any::<bool>(),
    ) {
        let written: Vec<(String, f64, f64)> = courses
            .iter()
            .map(|(seconds, hundredths, bearing_form, length_form)| {
                let (length, metres) = length_text(*hundredths, *length_form);
                let text = format!("{}, {length}", bearing_text(*seconds, *bearing_form));
                (text, f64::from(*seconds) / 3600.0 * DEGREE, metres)
            })
            .collect();
        let lines: Vec<&str> = written.iter().map(|(text, ..)| text.as_str()).collect();
        let text = if prose {
            format!("BEGINNING at a stone; thence {} to the point of beginning", lines.join("; thence "))
        } else {
            lines.join("\n")
        };
        let reading = deed::read(&text, System::Feet);
        prop_assert_eq!(&reading.findings, &[], "{}", text);
        prop_assert_eq!(reading.courses.len(), courses.len(), "{}", text);
        for (course, (line, angle, metres)) in reading.courses.iter().zip(&written) {
            let CourseShape::Line { bearing, distance } = course.shape else {
                return Err(TestCaseError::fail(format!("{line} is a curve")));
            };
            prop_assert!((distance - metres).abs() < 1e-6, "{}: {}", line, distance);
            prop_assert!(wrap_half_turn(bearing - angle).abs() < 1e-9, "{}: {}", line, bearing);
        }
    }

    /// A curve told in any way between two straight courses is the same curve: by any two of
    /// its figures; by chord bearing, tangency, the bearing of its radius or of its tangent.
    #[test]
    fn curves_told_in_many_ways_come_back(
        set_out in 0.0..360.0f64,
        radius in 10.0..500.0f64,
        delta in 8.0..170.0f64,
        left in any::<bool>(),
        figures in 0u8..6,
        way in 0u8..5,
    ) {
        let delta = delta.to_radians();
        let half = delta.to_degrees() / 2.0 * if left { -1.0 } else { 1.0 };
        let centre = (set_out + if left { -90.0 } else { 90.0 }).rem_euclid(360.0);
        let chord_bearing = (set_out + half).rem_euclid(360.0);
        let azimuth = |degrees: f64| format!("azimuth {:.9}°", degrees.rem_euclid(360.0));
        let direction = match way {
            0 => format!("the chord of which bears {:.9}°", chord_bearing),
            1 => "tangent to the last course".to_owned(),
            2 => format!("whose centre bears {centre:.9}°"),
            3 => format!("a radial line to said point bears {:.9}°", (centre + 180.0).rem_euclid(360.0)),
            _ => format!("the tangent of which bears {:.9}°", set_out.rem_euclid(360.0)),
        };
        let turn = if left { "left" } else { "right" };
        let text = format!(
            "Beginning at a pin; thence {}, 100.00 feet; thence along a curve to the {turn}, {direction}, {}; \
             thence {}, 50.00 feet",
            azimuth(set_out),
            figures_text(radius, delta, figures),
            azimuth(set_out + 2.0 * half),
        );
        let reading = deed::read(&text, System::Metres);
        prop_assert_eq!(&reading.findings, &[], "{}", text);
        prop_assert_eq!(reading.courses.len(), 3, "{}", text);
        let CourseShape::Curve { chord_bearing: read, chord, radius: r, long_way, .. } =
            reading.courses[1].shape
        else {
            return Err(TestCaseError::fail(text));
        };
        prop_assert!(!long_way);
        // Near a half circle the chord hardly tells the angle: rounding to 1e-6 ft grows.
        prop_assert!((r / FOOT - radius).abs() < 2e-4 * radius, "{}: {}", text, r / FOOT);
        prop_assert!((chord / FOOT - 2.0 * radius * sin(delta / 2.0)).abs() < 1e-3);
        prop_assert!(wrap_half_turn(read - chord_bearing * DEGREE).abs() < 1e-4, "{}", text);
    }
}
