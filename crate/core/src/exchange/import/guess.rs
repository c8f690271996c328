//! What a thing seems to be, from the words that came with it.
//!
//! The words are plain ones that people and offices use; a guess is only ever a proposal.

use super::role::Role;
use crate::site::FeatureKind as K;

/// Words (or their beginnings, marked by `*`) and the role they speak for. The first line with a
/// word of the text wins, so that "garage" is not a house though it says "building" too.
const HINTS: [(&[&str], Role); 25] = [
    (
        &["easement*", "right-of-way", "servitude"],
        Role::Feature(K::Easement),
    ),
    (&["benchmark", "bm", "tbm"], Role::Benchmark),
    (&["corner*", "pin", "rebar", "iron"], Role::Corner),
    (&["monument*"], Role::Monument),
    (
        &[
            "breakline*",
            "break",
            "ridge",
            "swale",
            "toe",
            "bank",
            "contour*",
        ],
        Role::Breakline,
    ),
    (
        &["drainfield", "leach*", "absorption", "field"],
        Role::Feature(K::SepticField),
    ),
    (&["septic"], Role::Feature(K::SepticTank)),
    (
        &[
            "garage*",
            "shed",
            "sheds",
            "barn*",
            "outbuilding*",
            "carport*",
            "accessory",
        ],
        Role::Feature(K::Outbuilding),
    ),
    (
        &["house*", "dwelling*", "residen*", "home", "detached"],
        Role::Feature(K::House),
    ),
    (
        &["building*", "footprint*", "structure*", "roof*"],
        Role::Feature(K::House),
    ),
    (
        &[
            "parcel*", "lot", "lots", "cadastr*", "plot", "boundary", "property", "tract",
        ],
        Role::Lot,
    ),
    (&["fence*", "gate*"], Role::Feature(K::Fence)),
    (&["wall*"], Role::Feature(K::Wall)),
    (
        &["driveway*", "drive", "parking"],
        Role::Feature(K::Driveway),
    ),
    (
        &[
            "sidewalk*",
            "walk*",
            "path*",
            "footway*",
            "patio*",
            "deck*",
            "paving",
            "pavement",
        ],
        Role::Feature(K::Walk),
    ),
    (
        &["tree*", "canopy", "shrub*", "oak", "pine", "maple"],
        Role::Feature(K::Tree),
    ),
    (&["well", "wells"], Role::Feature(K::Well)),
    (
        &["overhead", "wire*", "powerline*"],
        Role::Feature(K::OverheadLine),
    ),
    (
        &[
            "sewer*",
            "gas",
            "water-line",
            "waterline",
            "watermain",
            "main",
            "electric*",
            "telecom*",
            "fibre",
            "fiber",
            "buried",
            "utility",
            "pipe*",
            "storm",
        ],
        Role::Feature(K::BuriedLine),
    ),
    (
        &["pump*", "heater*", "condenser*", "equipment"],
        Role::Feature(K::Equipment),
    ),
    (
        &[
            "stream*",
            "creek*",
            "ditch*",
            "pond*",
            "river*",
            "watercourse*",
            "waterway*",
            "lake*",
        ],
        Role::Feature(K::Watercourse),
    ),
    (
        &["curb*", "kerb*", "street*", "road*", "highway*", "lane"],
        Role::Feature(K::StreetEdge),
    ),
    (&["spot*", "ground", "elev*", "shot", "grade"], Role::Spot),
    (&["shell", "pool"], Role::LeaveOut),
    (&["other"], Role::Feature(K::Other)),
];

/// The role that the words of a text speak for.
pub fn guess(text: &str) -> Option<Role> {
    let lower = text.to_ascii_lowercase();
    let words: Vec<&str> = lower
        .split(|c: char| !c.is_ascii_alphanumeric() && c != '-')
        .filter(|w| !w.is_empty())
        .collect();
    let speaks = |hint: &str| match hint.strip_suffix('*') {
        Some(stem) => words.iter().any(|w| w.starts_with(stem)),
        None => words.contains(&hint),
    };
    HINTS
        .iter()
        .find(|(hints, _)| hints.iter().any(|h| speaks(h)))
        .map(|(_, role)| *role)
}

/// Whether a description says what marks a corner.
pub fn marks_a_corner(text: &str) -> bool {
    matches!(guess(text), Some(Role::Corner | Role::Monument))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_special_goes_before_the_general() {
        for (text, role) in [
            ("building garage", Role::Feature(K::Outbuilding)),
            ("building: yes", Role::Feature(K::House)),
            ("Utility easement, 10 ft", Role::Feature(K::Easement)),
            ("PARCEL 12", Role::Lot),
            ("iron pin found", Role::Corner),
            ("24in oak", Role::Feature(K::Tree)),
            ("septic drainfield", Role::Feature(K::SepticField)),
            ("ground shot", Role::Spot),
            ("TBM nail in pole", Role::Benchmark),
        ] {
            assert_eq!(guess(text), Some(role), "{text}");
        }
        assert_eq!(guess("parcelling"), Some(Role::Lot));
        assert_eq!(guess("wellness"), None);
        assert_eq!(guess(""), None);
    }

    #[test]
    fn marks_of_corners_are_known() {
        assert!(marks_a_corner("rebar set") && !marks_a_corner("fence post"));
    }
}
