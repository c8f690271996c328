//! What the choice of slopes rests on: the class of soil, the short term, layers, benches, upright
//! feet. Limits that are named were read in 29 CFR 1926 Subpart P; where a limit was not read,
//! the finding asks for the competent person's word and names none.

use crate::dig::Dig;
use crate::dig::safety::{PROTECTED_FROM, SHORT_TERM_DEPTH};
use crate::finding::said;
use crate::finding::{Finding, Scope, Topic};
use crate::site::{CheckedSite, DigSettings, HoleSide, SoilClass};
use crate::units::{Measure, show};

/// A depth this near to a limit has reached it, meters; slopes this near are the same.
const ROUNDING: f64 = 1e-6;

const STANDARD: &str = "29 CFR 1926 Subpart P App. B, Table B-1";

/// Cautions of the soil that the sides are planned in.
pub(super) fn findings(site: &CheckedSite, dig: &Dig) -> Vec<Finding> {
    let mut found = Vec::new();
    if dig.bank_volume <= 0.0 {
        return found;
    }
    let settings = &site.site().works.dig;
    found.push(class(settings));
    found.extend(short_term(settings, dig.greatest_depth));
    if !settings.layers.is_empty() {
        found.push(
            Finding::caution(
                "layered-soil",
                "The hole passes through layers of different soil; each is planned no steeper than \
                 any below it, so that the weakest one under a layer governs it.",
                "Have a competent person find the layers and their classes on the site and decide \
                 on the sides; layers that dip into the hole are weaker than they look.",
            )
            .about(Topic::Dig)
            .under("/works/dig/layers"),
        );
    }
    let deep = dig.greatest_depth >= PROTECTED_FROM - ROUNDING;
    let length = |value| show(Measure::Length, value, site.site().display).text;
    if dig.upright_toe > ROUNDING {
        found.push(
            Finding::caution(
                "upright-foot",
                said!(
                    "The lowest {height} of the sides are vertical.",
                    height = length(dig.upright_toe),
                ),
                "Ask the competent person how high a vertical lower part the soil holds here, and \
                 what shields it.",
            )
            .about(Topic::Dig)
            .under("/works/dig/upright_below"),
        );
    }
    if settings.bench.is_some() {
        let in_c = settings.soil == SoilClass::C
            || settings
                .layers
                .iter()
                .any(|layer| layer.soil == SoilClass::C);
        let message = match in_c {
            true => "A bench is planned in Type C soil, which does not hold benches well.",
            false => "A bench is planned in the sides.",
        };
        found.push(
            Finding::caution(
                "benched-sides",
                message,
                "Ask the competent person whether this soil is to be benched at all, and how high \
                 and wide the benches are.",
            )
            .about(Topic::Dig)
            .under("/works/dig/bench"),
        );
    }
    if deep {
        found.extend(steep_sides(settings, dig));
    }
    found
}

/// Who says what soil it is.
fn class(settings: &DigSettings) -> Finding {
    let (soil, slope) = match settings.soil {
        SoilClass::StableRock => ("stable rock", "vertical"),
        SoilClass::A => ("Type A", "3/4:1"),
        SoilClass::B => ("Type B", "1:1"),
        SoilClass::C => ("Type C", "1 1/2:1"),
    };
    let weaker = match settings.soil {
        SoilClass::C => "",
        SoilClass::StableRock => " Rock that is cracked, or loosened by water, is not stable rock.",
        SoilClass::A => {
            " Soil that is fissured, was dug before, is shaken by traffic or machines, or dips \
             into the hole is not Type A."
        }
        SoilClass::B => " Sand, gravel and soil under water or seeping are Type C.",
    };
    Finding::caution(
        "soil-class",
        said!(
            "The sides are planned in {soil}, for which the standard lists {slope} up to 20 ft \
             deep.{weaker}",
            soil = soil,
            slope = slope,
            weaker = weaker,
        ),
        said!(
            "Have a competent person classify the soil on the site by at least one visual and one \
             manual test (29 CFR 1926 Subpart P App. A; slopes: {standard}).",
            standard = STANDARD.to_owned(),
        ),
    )
    .about(Topic::Dig)
    .scoped(Scope::EveryJob)
    .under("/works/dig/soil")
}

fn short_term(settings: &DigSettings, depth: f64) -> Option<Finding> {
    let only_a = settings.soil == SoilClass::A
        && settings
            .layers
            .iter()
            .all(|layer| layer.soil == SoilClass::A);
    let (message, remedy) = match settings.short_term {
        false => return None,
        true if !only_a => (
            "The short-term slope does not apply in this soil: the standard lists a steeper slope \
             for 24 hours in Type A only.",
            said!(
                "Plan the sides by the class of soil ({standard}).",
                standard = STANDARD.to_owned(),
            ),
        ),
        true if depth > SHORT_TERM_DEPTH + ROUNDING => (
            "The hole is deeper than 12 ft: the steeper slope of Type A for 24 hours is not listed \
             for it.",
            said!(
                "Plan the sides at 3/4:1 or flatter ({standard}).",
                standard = STANDARD.to_owned(),
            ),
        ),
        true => (
            "The sides are planned at 1/2:1, which is listed for Type A up to 12 ft deep and for \
             24 hours at most.",
            said!(
                "Set the shell and backfill within 24 hours of opening the hole, or flatten the \
                 sides to 3/4:1 ({standard}).",
                standard = STANDARD.to_owned(),
            ),
        ),
    };
    Some(
        Finding::caution("short-term", message, remedy)
            .about(Topic::Dig)
            .under("/works/dig/short_term"),
    )
}

/// The sides that are steeper than the standard's steepest, each by name.
fn steep_sides(settings: &DigSettings, dig: &Dig) -> Vec<Finding> {
    let sides = [
        (HoleSide::Ahead, "beyond the deep end", dig.slopes.ahead),
        (HoleSide::Left, "to the left of the length", dig.slopes.left),
        (
            HoleSide::Behind,
            "beyond the shallow end",
            dig.slopes.behind,
        ),
        (
            HoleSide::Right,
            "to the right of the length",
            dig.slopes.right,
        ),
    ];
    let mut found = Vec::new();
    for (side, words, slope) in sides {
        let told = settings
            .sides
            .iter()
            .rposition(|s| s.side == side && s.slope.is_some());
        let Some(index) = told else { continue };
        if slope >= dig.steepest - ROUNDING {
            continue;
        }
        let note = settings
            .sides
            .get(index)
            .map_or("", |side| side.note.trim());
        let why = match note {
            "" => said!("; no support is entered"),
            note => said!("; its note: {note}", note = note.to_owned()),
        };
        let stands = match slope > 0.0 {
            true => said!("at {slope}", slope = crate::units::format_slope(slope)),
            false => said!("vertical"),
        };
        found.push(
            Finding::caution(
                "steep-side",
                said!(
                    "The side {place} stands {stands}, steeper than its soil{why}.",
                    place = words,
                    stands = stands,
                    why = why,
                ),
                said!(
                    "Plan the shoring or shielding that holds it, designed by a licensed engineer \
                     beside a structure ({standard}).",
                    standard = STANDARD.to_owned(),
                ),
            )
            .about(Topic::Dig)
            .under(&format!("/works/dig/sides/{index}")),
        );
    }
    found
}
