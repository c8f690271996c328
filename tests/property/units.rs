//! Typed text: whatever it is, it is read or refused with its place; what is printed reads back.

use batterboard_core::math::{TURN, wrap_half_turn};
use batterboard_core::units::{
    LengthStyle, Measure, System, format_bearing, format_decimal, format_heading, format_length,
    format_slope, parse_bearing, parse_length, parse_measure, parse_slope, round_to, show,
};
use proptest::prelude::*;

const INCH: f64 = 0.0254;

const MEASURES: [Measure; 20] = [
    Measure::Length,
    Measure::LongLength,
    Measure::Elevation,
    Measure::Area,
    Measure::LandArea,
    Measure::EarthVolume,
    Measure::ConcreteVolume,
    Measure::WaterVolume,
    Measure::Mass,
    Measure::Weight,
    Measure::Density,
    Measure::Count,
    Measure::Ratio,
    Measure::Fraction,
    Measure::Slope,
    Measure::Bearing,
    Measure::Heading,
    Measure::Angle,
    Measure::Closing,
    Measure::Misclosure,
];

/// Lengths, bearings and slopes as people type them.
fn typed() -> impl Strategy<Value = String> {
    prop::sample::select(vec![
        "12'-6 1/2\"",
        "12′ 6½″",
        "12 ft 6 in",
        "12.54'",
        "150 in",
        "3.81 m",
        "3,810 mm",
        "-0'-3\"",
        "2 chains",
        "100 ftUS",
        "N 89°15'30\" E",
        "S12.25W",
        "N89-15-30E",
        "123°30'",
        "3/4:1",
        "1 1/2:1",
        "vertical",
        "50%",
        "2,500 lb",
        "1.35 short tons/cu yd",
    ])
    .prop_map(str::to_owned)
}

/// A typed text with one character changed, dropped or put in.
fn mutated() -> impl Strategy<Value = String> {
    let stray = prop::sample::select(
        "0123456789.,'\"′″½/-−+:%° \tnesWftinm²é\u{0}😀"
            .chars()
            .collect::<Vec<_>>(),
    );
    (typed(), any::<prop::sample::Index>(), stray, 0..3).prop_map(|(text, at, stray, what)| {
        let mut chars: Vec<char> = text.chars().collect();
        let at = at.index(chars.len());
        match what {
            0 => chars[at] = stray,
            1 => chars.insert(at, stray),
            _ => drop(chars.remove(at)),
        }
        chars.into_iter().collect()
    })
}

/// Reads a text as everything; every fault must point into it, every value must be finite.
fn read_as_everything(text: &str) -> Result<(), TestCaseError> {
    let characters = text.chars().count();
    for system in [System::Feet, System::Metres] {
        let mut results = vec![
            parse_length(text, system),
            parse_bearing(text),
            parse_slope(text),
        ];
        results.extend(MEASURES.map(|measure| parse_measure(text, measure, system)));
        for result in results {
            match result {
                Ok(parsed) => prop_assert!(parsed.value.is_finite()),
                Err(fault) => {
                    prop_assert!(fault.span.start <= fault.span.end);
                    prop_assert!(fault.span.end <= characters, "{:?} in {text:?}", fault.span);
                    prop_assert!(!fault.message.is_empty() && !fault.remedy.is_empty());
                }
            }
        }
    }
    Ok(())
}

/// The least angle between two bearings, radians.
fn apart(a: f64, b: f64) -> f64 {
    wrap_half_turn(a - b).abs()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn any_text_is_read_or_refused_with_its_place(text in ".*") {
        read_as_everything(&text)?;
    }

    #[test]
    fn nearly_right_text_is_read_or_refused_with_its_place(text in mutated()) {
        read_as_everything(&text)?;
    }

    #[test]
    fn printing_any_figure_is_safe(bits in any::<u64>()) {
        let value = f64::from_bits(bits);
        for measure in MEASURES {
            for system in [System::Feet, System::Metres] {
                let shown = show(measure, value, system);
                prop_assert!(!shown.text.is_empty());
                prop_assert!(!shown.text.contains("-0.0") || shown.value != 0.0);
                prop_assert!(value.is_finite() || !shown.text.contains("inf"));
            }
        }
    }

    #[test]
    fn a_tape_length_reads_back(metres in -5000.0..5000.0_f64, power in 0_u32..7) {
        let denominator = 1 << power;
        let text = format_length(metres, LengthStyle::FeetInches { denominator });
        let read = parse_length(&text, System::Metres).unwrap();
        prop_assert!(read.ambiguities.is_empty());
        let half = INCH / f64::from(denominator) / 2.0;
        prop_assert!((read.value - metres).abs() <= half + 1e-9, "{metres} m: {text}");
        // Twelve inches are never printed, and what was read prints the same again.
        prop_assert!(!text.contains("'-12"));
        prop_assert_eq!(format_length(read.value, LengthStyle::FeetInches { denominator }), text);
    }

    #[test]
    fn decimal_lengths_read_back(metres in -5000.0..5000.0_f64, decimals in 0_u32..5) {
        let half = (0..decimals).fold(0.5, |half, _| half / 10.0);
        let text = format_length(metres, LengthStyle::Metres { decimals });
        let read = parse_length(&text, System::Feet).unwrap().value;
        prop_assert!((read - metres).abs() <= half + 1e-9, "{metres} m: {text}");
        let text = format_length(metres, LengthStyle::DecimalFeet { decimals });
        let read = parse_length(&text, System::Metres).unwrap().value;
        prop_assert!((read - metres).abs() <= 0.3048 * half + 1e-9, "{metres} m: {text}");
    }

    #[test]
    fn feet_and_inches_add_up(feet in 0_u32..1000, inches in 0_u32..12, part in 0_u32..16) {
        // The same length by whole sixteenths, which no parser touched.
        let sixteenths = (feet * 12 + inches) * 16 + part;
        let expected = f64::from(sixteenths) * INCH / 16.0;
        for text in [
            format!("{feet}'-{inches} {part}/16\""),
            format!("{feet} ft {inches} {part}/16 in"),
            format!("{feet}′{}″", f64::from(inches * 16 + part) / 16.0),
        ] {
            let read = parse_length(&text, System::Metres).unwrap();
            prop_assert!((read.value - expected).abs() < 1e-9, "{text}");
            let negative = parse_length(&format!("-{text}"), System::Feet).unwrap();
            prop_assert_eq!(negative.value + 0.0, 0.0 - read.value);
        }
    }

    #[test]
    fn a_bearing_reads_back_within_half_a_second(bearing in -20.0..20.0_f64) {
        let text = format_bearing(bearing);
        prop_assert!(!text.contains("°60'") && !text.contains("'60\""), "{text}");
        let read = parse_bearing(&text).unwrap().value;
        let half_second = TURN / 1_296_000.0 / 2.0;
        prop_assert!(apart(read, bearing) <= half_second + 1e-12, "{bearing}: {text}");
        let heading = parse_bearing(&format_heading(bearing)).unwrap().value;
        prop_assert!(apart(heading, bearing) <= TURN / 7200.0 + 1e-12);
    }

    #[test]
    fn whole_seconds_print_as_they_were_typed(
        north in any::<bool>(), east in any::<bool>(),
        degrees in 0_u32..90, minutes in 0_u32..60, seconds in 1_u32..60,
    ) {
        let (first, last) = (if north { 'N' } else { 'S' }, if east { 'E' } else { 'W' });
        let text = format!("{first} {degrees}°{minutes:02}'{seconds:02}\" {last}");
        let read = parse_bearing(&text).unwrap().value;
        prop_assert_eq!(format_bearing(read), text);
    }

    #[test]
    fn a_quarter_slope_reads_back(quarters in 0_u32..100) {
        let slope = f64::from(quarters) / 4.0;
        prop_assert_eq!(parse_slope(&format_slope(slope)).unwrap().value, slope);
    }

    #[test]
    fn rounding_is_to_the_nearest(value in -1e9..1e9_f64, decimals in 0_u32..6) {
        let rounded = round_to(value, decimals);
        let step: f64 = format!("1e-{decimals}").parse().unwrap();
        prop_assert!((rounded - value).abs() <= step / 2.0 * (1.0 + 1e-6) + value.abs() * 1e-15);
        // The text without commas is the very number that was rounded to.
        let text = format_decimal(value, decimals).replace(',', "");
        prop_assert_eq!(text.parse::<f64>().unwrap(), rounded);
    }
}
