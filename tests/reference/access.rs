//! Cranes near power lines, and the load under an outrigger, against published figures.

use batterboard_core::crane::wire::{ZONE, ZONE_OVER_350, least_distance};
use batterboard_core::site::MachineSize;
use batterboard_core::units::constants::FOOT;
use batterboard_core::units::{Measure, System, parse_measure};
use batterboard_core::way_in::swept_width;

use super::close;

/// 29 CFR 1926.1408 Table A, as read in public copies of the 2024 text: "the value that follows 'to' is
/// up to and includes that value". Over 1,000 kV it is set by the utility or an engineer.
#[test]
fn approach_distances_by_voltage() {
    let rows = [
        (0.12, 10.0),
        (50.0, 10.0),
        (50.001, 15.0),
        (200.0, 15.0),
        (200.001, 20.0),
        (350.0, 20.0),
        (350.001, 25.0),
        (500.0, 25.0),
        (500.001, 35.0),
        (750.0, 35.0),
        (750.001, 45.0),
        (1000.0, 45.0),
    ];
    for (kilovolts, feet) in rows {
        let least = least_distance(kilovolts).unwrap_or(f64::NAN);
        close("least distance, ft", least / FOOT, feet, 1e-12);
    }
    assert_eq!(least_distance(1000.001), None);
    // 1926.1408(a): 20 ft up to 350 kV; 1926.1409: 50 ft above.
    close("zone, ft", ZONE / FOOT, 20.0, 1e-12);
    close("zone over 350 kV, ft", ZONE_OVER_350 / FOOT, 50.0, 1e-12);
}

/// A pound of force per square foot is 47.880 26 Pa (NIST SP 811, Appendix B; from memory).
#[test]
fn a_pound_per_square_foot_in_pascals() {
    let read = parse_measure("1000 lb/sq ft", Measure::Pressure, System::Feet).unwrap();
    close("1,000 lb/sq ft, Pa", read.value, 47_880.26, 0.01);
    let read = parse_measure("100 kPa", Measure::Pressure, System::Feet).unwrap();
    close("100 kPa, Pa", read.value, 100_000.0, 1e-9);
}

/// The triangle of 5, 12 and 13: a wheelbase of 5 on a radius of 13 has its rear axle on 12.
#[test]
fn swept_width_of_a_steady_turn() {
    let machine = MachineSize {
        width: 2.5,
        wheelbase: 5.0,
        turning_radius: 13.0,
        height: 3.0,
    };
    close("swept, m", swept_width(&machine), 3.5, 1e-12);
}
