//! Clearance rules: how far from what to what, and who says so.
//!
//! Towns differ in what they measure from and to, so a rule names both. The examples here
//! are examples; the local authority's own numbers go in their place.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::condition::RuleConditions;
use super::kind::FeatureKind;
use crate::lot::LineKind;
use crate::units::constants::FOOT;

/// A least distance from one part of the work to something on the lot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Rule {
    /// What the ledger calls it.
    pub name: String,
    /// Where on the work it is measured from.
    pub from: MeasuredFrom,
    /// What it is measured to.
    pub to: MeasuredTo,
    /// The least distance, meters.
    pub distance: f64,
    /// Who says so. Never empty in a file that goes to a permit office.
    #[serde(default)]
    pub source: String,
    /// Measured aslant to wires overhead: by their height above the rim, where it is entered, as well as in plan.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub slant: bool,
    /// Where alone it applies; everywhere, where nothing is said.
    #[serde(default, skip_serializing_if = "RuleConditions::is_empty")]
    pub only: RuleConditions,
}

impl Rule {
    /// Whether somebody has named who requires it on this lot: it has a source, and the source
    /// does not say that the rule is an example.
    pub fn is_confirmed(&self) -> bool {
        !self.source.trim().is_empty() && !says_example(&self.source)
    }
}

/// Whether a source says that what it stands beside is an example.
pub(super) fn says_example(source: &str) -> bool {
    let start = source.trim().get(..EXAMPLE.len()).unwrap_or_default();
    start.eq_ignore_ascii_case(EXAMPLE)
}

/// The part of the work a rule measures from.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum MeasuredFrom {
    /// The inside of the wall at the rim.
    WatersEdge,
    /// The outer edge of the coping.
    Rim,
    /// The outer edge of the deck.
    DeckEdge,
    /// The equipment pad.
    Equipment,
    /// The top edge of the dig, where its sides meet the ground.
    Dig,
    /// The steps that were drawn beside the deck.
    Steps,
    /// The foot of the spoil pile.
    SpoilPile,
    /// The fences and walls that count as part of the barrier.
    Barrier,
}

impl MeasuredFrom {
    /// The part in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::WatersEdge => "water's edge",
            Self::Rim => "rim",
            Self::DeckEdge => "deck edge",
            Self::Equipment => "equipment pad",
            Self::Dig => "top of dig",
            Self::Steps => "steps",
            Self::SpoilPile => "spoil pile",
            Self::Barrier => "barrier",
        }
    }

    /// Whether it stands where the shell stands, and moves with it.
    pub fn goes_with_shell(self) -> bool {
        match self {
            Self::WatersEdge | Self::Rim | Self::DeckEdge | Self::Dig => true,
            Self::Equipment | Self::Steps | Self::SpoilPile | Self::Barrier => false,
        }
    }

    /// Whether it is there only once a shell is placed.
    pub fn needs_shell(self) -> bool {
        self.goes_with_shell() || self == Self::SpoilPile
    }
}

/// What a rule measures to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum MeasuredTo {
    /// Every side of the lot of this kind; every side at all where none is named.
    LotLine {
        /// The kind of side.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        kind: Option<LineKind>,
    },
    /// Every feature of this kind.
    Feature {
        /// The kind of feature.
        kind: FeatureKind,
    },
    /// Every such part of a feature.
    Part {
        /// The part.
        part: FeaturePart,
    },
}

/// A part of a feature that a rule may name.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum FeaturePart {
    /// The trunk of a tree whose diameter is told.
    TreeTrunk,
    /// The ring round a tree that is to stay undisturbed, where its radius is told.
    TreeProtection,
    /// A door of a building.
    Door,
    /// A gate in a fence or wall.
    Gate,
    /// A window of a building.
    Window,
}

impl FeaturePart {
    /// Every part, in the order lists show them.
    pub const ALL: [Self; 5] = [
        Self::TreeTrunk,
        Self::TreeProtection,
        Self::Door,
        Self::Gate,
        Self::Window,
    ];

    /// The part in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::TreeTrunk => "tree trunk",
            Self::TreeProtection => "root protection",
            Self::Door => "door",
            Self::Gate => "gate",
            Self::Window => "window",
        }
    }
}

/// How the source of an example rule begins, in letters of either case.
const EXAMPLE: &str = "example only";

/// What the source of an example rule says.
const PATTERN: &str =
    "example only, in the pattern of town codes; the local authority's own rule governs";

/// What the source of an example rule says that follows no code at all.
pub(super) const INVENTED: &str = "example only, invented; the local authority's own rule governs";

/// The rules a new job starts with: examples, to be replaced by the local authority's own.
///
/// The distances follow the pattern of North American town codes (10 ft from side and rear
/// lines, 5 ft from buildings, 15 ft from a septic tank or field, 20 ft from a well, 10 ft
/// sideways from overhead wires, 5 ft from wiring in the ground and from fences, nothing in an
/// easement, equipment a foot from any line). No town is named, because none is meant.
pub fn examples() -> Vec<Rule> {
    use FeatureKind as Kind;
    use MeasuredFrom::{DeckEdge, Dig, Equipment, WatersEdge};
    let line = |kind| MeasuredTo::LotLine { kind };
    let feature = |kind| MeasuredTo::Feature { kind };
    let rule = |name: &str, from, to, feet: f64, source: &str| Rule {
        name: name.to_owned(),
        from,
        to,
        distance: feet * FOOT,
        source: source.to_owned(),
        slant: false,
        only: RuleConditions::default(),
    };
    let front = line(Some(LineKind::Front));
    let street = line(Some(LineKind::StreetSide));
    let side = line(Some(LineKind::Side));
    let rear = line(Some(LineKind::Rear));
    let house = feature(Kind::House);
    let outbuilding = feature(Kind::Outbuilding);
    let easement = feature(Kind::Easement);
    let tank = feature(Kind::SepticTank);
    let field = feature(Kind::SepticField);
    let wire = feature(Kind::OverheadLine);
    let buried = feature(Kind::BuriedLine);
    let well = feature(Kind::Well);
    let part = |part| MeasuredTo::Part { part };
    let trunk = part(FeaturePart::TreeTrunk);
    let roots = part(FeaturePart::TreeProtection);
    let door = part(FeaturePart::Door);
    let gate = part(FeaturePart::Gate);
    let fence = feature(Kind::Fence);
    let stream = feature(Kind::Watercourse);
    let street_edge = feature(Kind::StreetEdge);
    vec![
        rule("Water to front line", WatersEdge, front, 25.0, INVENTED),
        rule(
            "Water to street-side line",
            WatersEdge,
            street,
            15.0,
            INVENTED,
        ),
        rule("Water to side line", WatersEdge, side, 10.0, PATTERN),
        rule("Water to rear line", WatersEdge, rear, 10.0, PATTERN),
        rule("Water to house", WatersEdge, house, 5.0, PATTERN),
        rule(
            "Water to outbuilding",
            WatersEdge,
            outbuilding,
            5.0,
            PATTERN,
        ),
        rule("Deck clear of easement", DeckEdge, easement, 0.0, PATTERN),
        rule("Dig clear of easement", Dig, easement, 0.0, INVENTED),
        rule("Water to septic tank", WatersEdge, tank, 15.0, PATTERN),
        rule("Water to septic field", WatersEdge, field, 15.0, PATTERN),
        rule("Water to overhead line", WatersEdge, wire, 10.0, PATTERN),
        rule("Water to buried line", WatersEdge, buried, 5.0, PATTERN),
        rule("Water to well", WatersEdge, well, 20.0, PATTERN),
        rule("Water to fence", WatersEdge, fence, 5.0, PATTERN),
        rule("Water to watercourse", WatersEdge, stream, 25.0, INVENTED),
        rule("Dig to street edge", Dig, street_edge, 10.0, INVENTED),
        rule("Dig to tree trunk", Dig, trunk, 8.0, INVENTED),
        rule("Dig clear of tree roots", Dig, roots, 0.0, INVENTED),
        rule("Water to door", WatersEdge, door, 6.0, INVENTED),
        rule("Water to gate", WatersEdge, gate, 5.0, INVENTED),
        rule("Equipment to lot line", Equipment, line(None), 1.0, PATTERN),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_says_that_it_is_one() {
        for rule in examples() {
            assert!(rule.source.starts_with("example only"), "{}", rule.name);
            assert!(rule.source.contains("local authority"), "{}", rule.name);
        }
    }

    #[test]
    fn an_example_is_confirmed_by_naming_who_requires_it() {
        let mut rule = examples().remove(0);
        assert!(!rule.is_confirmed());
        for (source, confirmed) in [
            ("Example only; the zoning code governs.", false),
            ("  ", false),
            ("", false),
            ("Zoning code 12.3, by telephone", true),
            ("ex", true),
        ] {
            rule.source = source.to_owned();
            assert_eq!(rule.is_confirmed(), confirmed, "{source}");
        }
    }
}
