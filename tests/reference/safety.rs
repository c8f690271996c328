//! The excavation standard, 29 CFR 1926 Subpart P, as read in public copies of the 2024 text: at which
//! depth a caution speaks, how steep sides are listed, what stands back from the edge, and a
//! screen for footings, which is plain geometry (the standard gives no distance).

use batterboard_core::analysis::{Analysis, Cache, Detail, Scenario, run};
use batterboard_core::dig::safety::{SPOIL_BACK, findings};
use batterboard_core::dig::{Dig, DigShape};
use batterboard_core::exchange;
use batterboard_core::math::{TURN, atan};
use batterboard_core::site::{DigSettings, SoilClass};
use batterboard_core::units::constants::{DEGREE, FOOT};
use serde_json::{Value, json};

use super::close;
use super::dig::{bare, cut, level, level_floor, pose, rectangle};

/// A hole with upright sides, so many feet deep from the ground.
fn deep(feet: f64) -> Dig {
    // A shell goes no deeper than 6 m; the rest is ground above its rim.
    let shell = level_floor(&rectangle(20.0, 10.0), feet.min(10.0));
    let above = (feet - 10.0).max(0.0);
    let shape = DigShape::new(&shell, &bare(0.0), (above + 1.0) * FOOT);
    let dig = cut(&shape, &level(above), 0.0);
    close("depth, ft", dig.greatest_depth / FOOT, feet, 1e-9);
    dig
}

/// 1926.652(a)(1): exempt is less than 5 ft, so that 5.00 ft is not; App. F: more than 20 ft needs an
/// engineer, so that 20.00 ft does not yet; 1926.651(c)(2): a way out from 4 ft; 1926.501(b)(7): the
/// edge from 6 ft.
#[test]
fn every_limit_of_depth_at_its_own_foot() {
    let says = |feet: f64, check: &str| findings(&deep(feet)).iter().any(|f| f.code == check);
    for (check, below, at) in [
        ("way-out", 3.99, 4.0),
        ("protective-system", 4.99, 5.0),
        ("fall-protection", 5.99, 6.0),
        ("engineer", 20.0, 20.01),
    ] {
        assert!(!says(below, check), "{check} at {below} ft");
        assert!(says(at, check), "{check} at {at} ft");
    }
    assert!(says(4.99, "cave-in") && !says(5.0, "cave-in"));
    // Vertical sides in soil of Type C are steeper than listed; that is told once they are 5 ft high.
    assert!(says(5.0, "steep-sides") && !says(4.99, "steep-sides"));
    assert!(says(20.0, "protective-system"));
}

/// Table B-1: 3/4:1, 1:1 and 1 1/2:1 are 53, 45 and 34 degrees; stable rock is upright. A dig 6 ft
/// deep whose toe stands 2 ft outside the shell opens 4.5, 6 and 9 ft beyond the toe; spoil 2 ft
/// back (1926.651(j)(2)) is 6.5, 8 and 11 ft from it (computed).
#[test]
fn slopes_of_the_excavation_standard() {
    let shell = level_floor(&rectangle(30.0, 14.0), 6.0);
    for (soil, degrees, exact, stand_off, spoil) in [
        (SoilClass::A, 53.0, 53.13, 4.5, 6.5),
        (SoilClass::B, 45.0, 45.0, 6.0, 8.0),
        (SoilClass::C, 34.0, 33.69, 9.0, 11.0),
    ] {
        let settings = DigSettings {
            over_dig: 2.0 * FOOT,
            base_thickness: 0.0,
            soil,
            ..DigSettings::default()
        };
        let dig = cut(&DigShape::new(&shell, &settings, 0.0), &level(0.0), 0.0);
        let angle = atan(1.0 / dig.side_slope) / DEGREE;
        close("angle", angle, exact, 0.005);
        close("as printed", angle.round(), degrees, 0.0);
        let edge = dig.top_edge.rings().flat_map(|ring| &ring.0);
        let farthest = edge
            .map(|p| pose().shell_from_site(*p).x / FOOT)
            .fold(0.0, f64::max);
        let from_toe = farthest - 15.0 - 2.0;
        close(&format!("{soil:?}"), from_toe, stand_off, 0.02);
        close("spoil", from_toe + SPOIL_BACK / FOOT, spoil, 0.02);
    }
    assert_eq!(SoilClass::StableRock.side_slope(), 0.0);
}

/// Table B-1, its note: 1/2:1 (63 degrees) in Type A, open 24 hours at most, up to 12 ft deep.
#[test]
fn a_short_term_is_for_type_a_up_to_twelve_feet() {
    let slope = |feet: f64, soil: SoilClass| {
        let settings = DigSettings {
            over_dig: 0.0,
            base_thickness: 0.0,
            soil,
            short_term: true,
            ..DigSettings::default()
        };
        let shell = level_floor(&rectangle(20.0, 10.0), feet);
        cut(&DigShape::new(&shell, &settings, 0.0), &level(0.0), 0.0).side_slope
    };
    let angle = atan(1.0 / slope(12.0, SoilClass::A)) / DEGREE;
    close("angle", angle, 63.43, 0.005);
    assert_eq!(slope(12.0, SoilClass::A), 0.5);
    assert_eq!(slope(12.01, SoilClass::A), 0.75);
    assert_eq!(slope(6.0, SoilClass::B), 1.0);
    assert_eq!(slope(6.0, SoilClass::C), 1.5);
}

/// A level lot of 60 x 60 m; in its middle a shell of 30 x 14 ft lying east and west, its level floor
/// 6 ft down, the toe of its dig 2 ft outside it.
fn analysis(soil: &str, features: Value) -> Analysis {
    let course = |quarters: f64| {
        json!({ "kind": "side",
                "shape": { "line": { "bearing": quarters * TURN / 4.0, "distance": 60.0 } } })
    };
    let (x, y, depth) = (15.0 * FOOT, 7.0 * FOOT, 6.0 * FOOT);
    let outline = json!([[-x, -y], [x, -y], [x, y], [-x, y]]);
    let shell = json!({ "own": {
        "name": "Level", "outline": outline, "coping_width": 0.2, "waterline": 0.1,
        "floor": [{ "kind": "deep", "outline": outline, "depths": [depth, depth, depth, depth] }],
    } });
    let document = json!({
        "format": "batterboard-site", "version": 3, "name": "level",
        "lot": { "courses": [course(1.0), course(0.0), course(3.0), course(2.0)] },
        "placement": { "shell": shell, "at": [30, 30], "heading": TURN / 4.0,
                       "coping_elevation": 0.0 },
        "features": features,
        "works": { "dig": { "soil": soil, "over_dig": 2.0 * FOOT, "base_thickness": 0.0 } },
    });
    let site = exchange::open(&document.to_string()).unwrap().site;
    run(&Scenario::of(&site), Detail::Ranges, &mut Cache::default())
}

/// Where the toe runs along the long sides, north of the middle, meters.
const TOE: f64 = 9.0 * FOOT;

/// The pile on the plan keeps those 6.5, 8 and 11 ft from the toe. The search for its place
/// may come out up to 1 cm too far, never too near by more than the edge is drawn off (5 mm).
#[test]
fn a_pile_stands_back_from_the_edge() {
    for (soil, feet) in [("a", 6.5), ("b", 8.0), ("c", 11.0)] {
        let pile = analysis(soil, json!([])).stockpile.unwrap();
        let at = pile.at.unwrap();
        let off = ((at.y - 30.0).abs() - TOE - pile.heap.radius) / FOOT;
        assert!(
            (at.x - 30.0).abs() < 15.0 * FOOT,
            "beside a long side: {at:?}"
        );
        assert!((feet - 0.02..feet + 0.1).contains(&off), "{soil}: {off} ft");
    }
}

/// The bottom 6 ft below grade, a footing 2 ft below it, the toe d ft from it (plain geometry,
/// computed): the line of 1 1/2 : 1 from the toe reaches the footing's level at 6 ft, that of 1:1, a
/// rule of thumb, at 4 ft. Nearer than that an engineer is asked for; 1926.651(i) gives no distance.
#[test]
fn a_footing_within_the_line_of_influence() {
    let said = |feet: f64| {
        let y = 30.0 + TOE + feet * FOOT;
        let house = json!([{
            "id": "house", "kind": "house", "facts": { "footing_depth": 2.0 * FOOT },
            "shape": { "area": [[20, y], [40, y], [40, y + 6.0], [20, y + 6.0]] },
        }]);
        let analysis = analysis("c", house);
        let found = analysis
            .findings
            .iter()
            .find(|f| f.code == "dig-near-footing");
        found.map(|f| format!("{} {}", f.message, f.remedy))
    };
    assert_eq!(said(6.02), None);
    let (near, nearer) = (said(5.98).unwrap(), said(3.98).unwrap());
    assert!(near.contains("rises 1 1/2 : 1"), "{near}");
    assert!(said(4.02).unwrap().contains("rises 1 1/2 : 1"));
    assert!(nearer.contains("rises 1:1"), "{nearer}");
    for text in [near, nearer] {
        assert!(
            text.contains("1926.651(i)") && text.contains("engineer"),
            "{text}"
        );
        assert!(text.contains("where 4'-0\" is needed at 1:1"), "{text}");
        assert!(text.contains("and 6'-0\" at 1 1/2 : 1"), "{text}");
    }
}
