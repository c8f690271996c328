//! What stands on the lot, against published distances.

use std::sync::Arc;

use batterboard_core::analysis::{Cache, Detail, Scenario, run};
use batterboard_core::geom::Point;
use batterboard_core::site::facts::usual_protection;
use batterboard_core::site::starter::blank_lot;
use batterboard_core::site::{
    CheckedSite, Feature, FeatureKind, LineClass, MeasuredTo, Placement, ShellChoice, rule,
};
use batterboard_core::units::constants::{FOOT, INCH};

/// Whether the crane is spoken of where a wire runs this far east of the rim, feet.
fn spoken_of(feet: f64) -> bool {
    // The shell of 20 x 10 ft lies north and south; its coping is 10 in wide.
    let rim = 15.0 + (5.0 * 12.0 + 10.0) * 0.0254;
    let x = rim + feet * 0.3048;
    let track = format!(r#"{{"track": [[{x}, 0], [{x}, 40]]}}"#);
    let mut wire = Feature::of(
        "wire",
        FeatureKind::OverheadLine,
        serde_json::from_str(&track).unwrap(),
    );
    wire.facts.line_class = Some(LineClass::UpTo15Kv);
    let mut site = blank_lot();
    site.features = Arc::new(vec![wire]);
    site.placement = Some(Placement {
        shell: Arc::new(ShellChoice::Catalogue("Pignut".to_owned())),
        at: Point::new(15.0, 20.0),
        heading: 0.0,
        mirrored: false,
        coping_elevation: 0.1,
    });
    let site = CheckedSite::check(site, None).unwrap();
    let analysis = run(
        &Scenario::of(&site),
        Detail::Complete,
        &mut Cache::default(),
    );
    analysis
        .findings
        .iter()
        .any(|it| it.code == "crane-near-line")
}

/// 29 CFR 1926.1408(a) (read in a mirror of the CFR): the work zone is assessed where any part
/// of the crane, the load line or the load could come within 20 ft of a line up to 350 kV.
#[test]
fn a_crane_is_spoken_of_within_twenty_feet_of_a_line() {
    for (feet, spoken) in [(10.0, true), (19.95, true), (20.05, false), (40.0, false)] {
        assert_eq!(spoken_of(feet), spoken, "{feet} ft");
    }
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
