//! Deeds of any text: never a panic, every character in a piece; written courses come back.

use batterboard_core::lot::deed;
use batterboard_core::lot::{CourseShape, Lot, LotRecord};
use batterboard_core::math::wrap_half_turn;
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
