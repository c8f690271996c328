//! What stands on the lot, against published distances.

use batterboard_core::analysis::CRANE_NEAR_LINE;
use batterboard_core::site::facts::usual_protection;
use batterboard_core::site::{FeatureKind, MeasuredTo, rule};
use batterboard_core::units::constants::{FOOT, INCH};

/// 29 CFR 1926.1408(a) (read in a mirror of the CFR): the work zone is assessed where any part
/// of the crane, the load line or the load could come within 20 ft of a line up to 350 kV.
#[test]
fn a_crane_is_spoken_of_within_twenty_feet_of_a_line() {
    assert!((CRANE_NEAR_LINE - 6.096).abs() < 1e-12);
}

/// Distances of town codes and of the private sewage code (read): 15 ft from pool to tank and
/// to field, 10 ft sideways from overhead power, 5 ft to a fence line. They come as examples.
#[test]
fn examples_follow_the_distances_that_were_read() {
    let examples = rule::examples();
    for (kind, feet) in [
        (FeatureKind::SepticTank, 15.0),
        (FeatureKind::SepticField, 15.0),
        (FeatureKind::OverheadLine, 10.0),
        (FeatureKind::Fence, 5.0),
    ] {
        let to = MeasuredTo::Feature { kind };
        let rule = examples.iter().find(|r| r.to == to).unwrap();
        assert!((rule.distance - feet * FOOT).abs() < 1e-12, "{}", rule.name);
        assert!(rule.source.starts_with("example only"), "{}", rule.name);
    }
}

/// Common practice, no source: a foot of radius to the inch of trunk.
#[test]
fn a_tree_of_eighteen_inches_is_kept_clear_by_eighteen_feet() {
    assert!((usual_protection(18.0 * INCH) - 18.0 * FOOT).abs() < 1e-12);
}
