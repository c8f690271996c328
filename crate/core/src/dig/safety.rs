//! Cautions that stand beside the numbers of a dig. None of them is a permission.
//!
//! Figures of 29 CFR 1926 were read in public copies of the 2024 text. Local rules may be
//! stricter, and the competent person on the site decides.

use super::Dig;
use crate::finding::said;
use crate::finding::{Finding, Message, Scope, Topic};
use crate::units::constants::FOOT;

/// Depth from which sides must be protected unless they stand in stable rock, meters: 5 ft,
/// and 5 ft itself is not exempt (29 CFR 1926.652(a)(1)).
pub const PROTECTED_FROM: f64 = 5.0 * FOOT;

/// Depth from which a trench needs a way out within 25 ft of travel, meters: 4 ft
/// (29 CFR 1926.651(c)(2)).
pub const LADDER_FROM: f64 = 4.0 * FOOT;

/// Depth from which people at the edge need protection from falling in, meters: 6 ft
/// (29 CFR 1926.501(b)(7)).
pub const FALL_FROM: f64 = 6.0 * FOOT;

/// Depth above which a registered professional engineer designs the protection, meters: more
/// than 20 ft (29 CFR 1926 Subpart P Appendix F).
pub const ENGINEER_ABOVE: f64 = 20.0 * FOOT;

/// Run per unit of rise listed for type A soil in a dig open for 24 hours at most: 1/2:1 (29 CFR 1926 Subpart P
/// App. B, Table B-1, note).
pub const SHORT_TERM_SLOPE: f64 = 0.5;

/// The greatest depth for which it is listed, meters: 12 ft (the same note).
pub const SHORT_TERM_DEPTH: f64 = 12.0 * FOOT;

/// Least distance of spoil and equipment from the edge, meters: 2 ft (29 CFR 1926.651(j)(2)).
pub const SPOIL_BACK: f64 = 2.0 * FOOT;

/// A depth this near below a limit counts as having reached it, meters: rounding.
const ROUNDING: f64 = 1e-6;

/// A rim may stand this far above or below the ground before it is worth a word, meters: the
/// deck's own thickness and bed (common practice, no source).
const WORTH_A_WORD: f64 = 0.2;

/// An area smaller than this is not worth a word, m2: a tenth of a square foot.
const SPECK: f64 = 0.01;

/// Everything that belongs beside a dig.
pub fn findings(dig: &Dig) -> Vec<Finding> {
    let mut findings = Vec::new();
    if dig.bank_volume > 0.0 {
        by_depth(dig.greatest_depth, &mut findings);
        findings.extend(too_steep(dig.side_slope, dig.steepest, dig.greatest_depth));
        findings.push(spoil());
    }
    about_ground(dig, &mut findings);
    findings
}

/// Whether a depth has reached a limit.
fn reaches(depth: f64, limit: f64) -> bool {
    depth >= limit - ROUNDING
}

fn feet(length: f64) -> String {
    format!("{:.1} ft ({length:.2} m)", length / FOOT)
}

/// A share, 0 to 1.
fn percent(share: f64) -> String {
    format!("{:.0}%", 100.0 * share)
}

fn spoil() -> Finding {
    Finding::caution(
        "spoil-back",
        said!(
            "Spoil, material and machines stand at least {length} back from the edge.",
            length = feet(SPOIL_BACK),
        ),
        "Keep that strip free on the plan (29 CFR 1926.651(j)(2)).",
    )
    .about(Topic::Haul)
    .scoped(Scope::EveryJob)
}

fn by_depth(depth: f64, findings: &mut Vec<Finding>) {
    let deep = || feet(depth);
    let mut caution = |check, message: Message, remedy: &'static str| {
        let finding = Finding::caution(check, message, remedy).about(Topic::Dig);
        findings.push(finding.scoped(Scope::EveryJob));
    };
    if depth > ENGINEER_ABOVE + ROUNDING {
        caution(
            "engineer",
            said!("The dig is {depth} deep: more than 20 ft.", depth = deep()),
            "A registered professional engineer designs the protection \
             (29 CFR 1926 Subpart P App. F).",
        );
    }
    if reaches(depth, PROTECTED_FROM) {
        caution(
            "protective-system",
            said!("The dig is {depth} deep: 5 ft or more.", depth = deep()),
            "Slope, shore or shield the sides unless all of it stands in stable rock, and have a \
             competent person classify the soil and inspect it (29 CFR 1926.652(a)(1)).",
        );
    } else {
        caution(
            "cave-in",
            said!("The dig is {depth} deep.", depth = deep()),
            "Under 5 ft too, have a competent person look for signs of a cave-in before anyone \
             goes in (29 CFR 1926.652(a)(1)).",
        );
    }
    if reaches(depth, LADDER_FROM) {
        caution(
            "way-out",
            said!("The dig is {depth} deep: 4 ft or more.", depth = deep()),
            "Keep a ladder, stair or ramp within 25 ft of everyone in it \
             (29 CFR 1926.651(c)(2), for trenches).",
        );
    }
    if reaches(depth, FALL_FROM) {
        caution(
            "fall-protection",
            said!("The dig is {depth} deep: 6 ft or more.", depth = deep()),
            "Guard its edge with a fence, barricade or cover where it is not readily seen \
             (29 CFR 1926.501(b)(7)).",
        );
    }
}

/// A side steeper than the standard's steepest for the class of soil. Below the depth from
/// which protection is asked for, only the competent person's own judgement bears on it.
fn too_steep(slope: f64, allowed: f64, depth: f64) -> Option<Finding> {
    let steep = slope < allowed - ROUNDING && reaches(depth, PROTECTED_FROM);
    steep.then(|| {
        let sides = if slope > 0.0 {
            said!(
                "Sides of {slope}:1 (run to rise)",
                slope = slope.to_string()
            )
        } else {
            said!("Vertical sides")
        };
        Finding::caution(
            "steep-sides",
            said!(
                "{sides} are steeper than {allowed}:1, the steepest unsupported slope the standard \
                 lists for this class of soil.",
                sides = sides,
                allowed = allowed.to_string(),
            ),
            "Flatten the sides, or plan the shoring or shielding that holds them \
             (29 CFR 1926 Subpart P App. B, Table B-1).",
        )
        .about(Topic::Dig)
    })
}

/// What the ground has to say.
fn about_ground(dig: &Dig, findings: &mut Vec<Finding>) {
    let mut caution = |check, message: Message, remedy: &'static str| {
        let topic = match check {
            "hole-in-the-air" => Topic::Verdict,
            _ => Topic::Dig,
        };
        let finding = Finding::caution(check, message, remedy).about(topic);
        findings.push(finding.scoped(Scope::Placement));
    };
    if !dig.closed {
        caution(
            "dig-not-closed",
            said!(
                "Uphill, existing grade is so high that the sides were not followed up to it: the \
                 volume and the top of dig are understated."
            ),
            "Steepen the sides with a protective system, raise the shell, or move it downhill.",
        );
    }
    if dig.unsurveyed_volume > 0.0 {
        caution(
            "ground-assumed",
            said!(
                "{area} of the dig's area and {cut} of its cut lie beyond the surveyed spots: the \
                 nearest known elevation is assumed there, and every figure that rests on it is \
                 marked.",
                area = percent(dig.unsurveyed_area / dig.top_area.max(f64::MIN_POSITIVE)),
                cut = percent(dig.unsurveyed_volume / dig.bank_volume.max(f64::MIN_POSITIVE)),
            ),
            "Take spots beyond every edge of the dig.",
        );
    }
    if dig.area_above_ground > SPECK {
        caution(
            "hole-in-the-air",
            said!(
                "Over {area} of the hole existing grade is below the top of backfill: nothing holds \
                 the backfill there.",
                area = format!(
                    "{:.0} sq ft ({:.1} m²)",
                    dig.area_above_ground / (FOOT * FOOT),
                    dig.area_above_ground
                ),
            ),
            "Fill and compact there first, hold it with a wall that an engineer designs, or lower \
             the shell.",
        );
    }
    if dig.rim_above_ground > WORTH_A_WORD {
        caution(
            "rim-above-ground",
            said!(
                "The rim stands up to {height} above the ground.",
                height = feet(dig.rim_above_ground),
            ),
            "Plan the fill or the wall that carries deck and collar there.",
        );
    }
    if dig.ground_above_rim > WORTH_A_WORD {
        caution(
            "ground-above-rim",
            said!(
                "The ground stands up to {height} above the rim.",
                height = feet(dig.ground_above_rim),
            ),
            "Plan the bank or the wall there, and how water is kept from running into the pool.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dig::BySide;
    use crate::geom::Region;

    fn dig(depth: f64) -> Dig {
        Dig {
            bank_volume: 100.0,
            unsurveyed_volume: 0.0,
            unsurveyed_area: 0.0,
            volume_below_cap: 80.0,
            top_area: 60.0,
            top_edge: Region::default(),
            floor_area: 40.0,
            side_slope: 1.5,
            steepest: 1.5,
            slopes: BySide::all(1.5),
            upright_toe: 0.0,
            daylight: Vec::new(),
            greatest_depth: depth,
            bottom_elevation: 0.0,
            rim_above_ground: 0.0,
            ground_above_rim: 0.0,
            area_above_ground: 0.0,
            closed: true,
        }
    }

    fn checks(dig: &Dig, steepest: f64) -> Vec<&'static str> {
        let dig = Dig {
            steepest,
            ..dig.clone()
        };
        findings(&dig).iter().map(|f| f.code).collect()
    }

    /// The limits of 29 CFR 1926, each at its own foot: 5.00 ft is not exempt, 20.00 ft still
    /// lies within the tables.
    #[test]
    fn every_limit_speaks_at_its_own_depth() {
        let says = |feet: f64, check: &str| checks(&dig(feet * FOOT), 1.5).contains(&check);
        assert!(says(4.99, "cave-in") && !says(4.99, "protective-system"));
        assert!(says(5.0, "protective-system") && !says(5.0, "cave-in"));
        assert!(!says(3.99, "way-out") && says(4.0, "way-out"));
        assert!(!says(5.99, "fall-protection") && says(6.0, "fall-protection"));
        assert!(!says(20.0, "engineer") && says(20.01, "engineer"));
        assert!(says(1.0, "spoil-back"));
    }

    #[test]
    fn sides_steeper_than_the_soil_stands_are_told() {
        let mut deep = dig(6.0 * FOOT);
        assert!(!checks(&deep, 1.5).contains(&"steep-sides"));
        deep.side_slope = 1.0;
        assert!(checks(&deep, 1.5).contains(&"steep-sides"));
        assert!(!checks(&deep, 1.0).contains(&"steep-sides"));
        deep.side_slope = 0.0;
        assert!(!checks(&deep, 0.0).contains(&"steep-sides"));
    }

    #[test]
    fn nothing_dug_says_nothing_and_the_ground_speaks_up() {
        let mut none = dig(0.0);
        none.bank_volume = 0.0;
        assert!(checks(&none, 1.5).is_empty());
        none.rim_above_ground = 0.5;
        none.ground_above_rim = 0.3;
        none.area_above_ground = 2.0;
        none.unsurveyed_volume = 1.0;
        none.closed = false;
        assert_eq!(
            checks(&none, 1.5),
            [
                "dig-not-closed",
                "ground-assumed",
                "hole-in-the-air",
                "rim-above-ground",
                "ground-above-rim"
            ]
        );
    }

    #[test]
    fn no_caution_reads_as_a_permission() {
        let steep = Dig {
            steepest: 2.0,
            ..dig(7.0 * FOOT)
        };
        for finding in findings(&steep) {
            let text = format!("{} {}", finding.message, finding.remedy).to_lowercase();
            for word in ["safe", "allowed", "permitted", "may be"] {
                assert!(!text.contains(word), "{text}");
            }
        }
    }
}
