//! What is known of a thing on the lot, and which facts belong to which kind of thing.
//!
//! A file may tell any fact of anything; [`FactKind::of`] says which ones are asked for, and
//! validation cautions where one stands that does not belong.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::kind::FeatureKind;
use crate::geom::Point;
use crate::units::Measure;

/// Everything that may be known of a feature. What is not known is left out.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Facts {
    /// Elevation of the finished floor, meters above the site's datum.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub finished_floor: Option<f64>,
    /// Depth of its footing below the ground beside it, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub footing_depth: Option<f64>,
    /// Its height above the ground, meters; of an overhead line, that of its lowest point.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<f64>,
    /// Clear height under a tree's lowest branches, or under a building's eaves, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clear_height: Option<f64>,
    /// How far a building's eaves reach beyond its walls, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overhang: Option<f64>,
    /// Nominal voltage of an overhead line, kilovolts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub voltage: Option<f64>,
    /// Depth of its top below the ground, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub depth: Option<f64>,
    /// Diameter of a tree's trunk, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trunk: Option<f64>,
    /// Radius round a tree's middle that is to stay undisturbed, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub protection: Option<f64>,
    /// What runs in a buried line.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub utility: Option<Utility>,
    /// What an overhead line carries.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line_class: Option<LineClass>,
    /// How its place is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub known_from: Option<KnownFrom>,
    /// Doors and windows of a building, gates of a fence or wall.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub openings: Vec<Opening>,
}

impl Facts {
    /// Whether nothing is known.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The figure of a fact, SI, where it is told and is a figure.
    pub fn figure(&self, fact: FactKind) -> Option<f64> {
        match fact {
            FactKind::FinishedFloor => self.finished_floor,
            FactKind::FootingDepth => self.footing_depth,
            FactKind::Height => self.height,
            FactKind::ClearHeight => self.clear_height,
            FactKind::Overhang => self.overhang,
            FactKind::Voltage => self.voltage,
            FactKind::Depth => self.depth,
            FactKind::Trunk => self.trunk,
            FactKind::Protection => self.protection,
            FactKind::Utility | FactKind::LineClass | FactKind::KnownFrom | FactKind::Openings => {
                None
            }
        }
    }

    /// The words of a fact, where it is told and is a choice.
    pub fn words(&self, fact: FactKind) -> Option<&'static str> {
        match fact {
            FactKind::Utility => self.utility.map(Utility::words),
            FactKind::LineClass => self.line_class.map(LineClass::words),
            FactKind::KnownFrom => self.known_from.map(KnownFrom::words),
            _ => None,
        }
    }

    /// The facts that are told here.
    pub fn told(&self) -> impl Iterator<Item = FactKind> + '_ {
        FactKind::ALL.into_iter().filter(|fact| {
            let opens = *fact == FactKind::Openings && !self.openings.is_empty();
            opens || self.figure(*fact).is_some() || self.words(*fact).is_some()
        })
    }
}

/// A door, a window or a gate.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Opening {
    /// Its middle, on the edge of what it opens, site meters.
    pub at: Point,
    /// Its clear width, meters.
    pub width: f64,
    /// What the plan calls it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// It is a window, not a door. Means nothing in a fence or a wall.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub window: bool,
}

/// What runs in a buried line; each has its color in the APWA uniform color code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Utility {
    /// Electric power.
    Electric,
    /// Gas, oil or steam.
    Gas,
    /// Telephone, cable or fibre.
    Communication,
    /// Drinking water.
    Water,
    /// Reclaimed water or irrigation.
    Reclaimed,
    /// Sewer or drain.
    Sewer,
}

impl Utility {
    /// What runs in the line, in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Electric => "electric",
            Self::Gas => "gas, oil or steam",
            Self::Communication => "communication",
            Self::Water => "drinking water",
            Self::Reclaimed => "reclaimed water or irrigation",
            Self::Sewer => "sewer or drain",
        }
    }

    /// The same in a word, for the plan.
    pub fn short(self) -> &'static str {
        match self {
            Self::Electric => "electric",
            Self::Gas => "gas",
            Self::Communication => "communication",
            Self::Water => "water",
            Self::Reclaimed => "reclaimed",
            Self::Sewer => "sewer",
        }
    }

    /// The letter that the plan writes along the line: our own, so that no line is told by its
    /// color alone.
    pub fn letter(self) -> &'static str {
        match self {
            Self::Electric => "E",
            Self::Gas => "G",
            Self::Communication => "C",
            Self::Water => "W",
            Self::Reclaimed => "R",
            Self::Sewer => "S",
        }
    }

    /// Whether such lines are often the owner's own, which locating services do not mark
    /// (common practice, no source).
    pub fn often_private(self) -> bool {
        matches!(self, Self::Water | Self::Reclaimed | Self::Sewer)
    }
}

/// What an overhead line carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum LineClass {
    /// Telephone, cable or fibre.
    Communication,
    /// An insulated service drop, up to 750 V to ground.
    Service,
    /// Power up to 15 kV to ground.
    #[serde(rename = "to-15-kv")]
    UpTo15Kv,
    /// Power over 15 kV.
    #[serde(rename = "over-15-kv")]
    Over15Kv,
}

impl LineClass {
    /// What the line carries, in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Communication => "communication",
            Self::Service => "insulated service, to 750 V to ground",
            Self::UpTo15Kv => "power, to 15 kV",
            Self::Over15Kv => "power, over 15 kV",
        }
    }
}

/// How the place of a thing is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum KnownFrom {
    /// It was marked on the site by those who locate lines, or dug up and seen.
    Marked,
    /// A drawing shows it.
    Drawing,
    /// Somebody remembers it.
    Memory,
}

impl KnownFrom {
    /// How it is known, in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Marked => "marks on the site",
            Self::Drawing => "a drawing",
            Self::Memory => "memory",
        }
    }
}

/// The usual radius of protection over the trunk's diameter: a foot to the inch (common practice, no source).
pub const PROTECTION_PER_TRUNK: f64 = 12.0;

/// The radius round a tree that is usually kept undisturbed, meters, for a trunk of this
/// diameter, meters: a foot to the inch, twelve times the diameter (common practice, no source).
pub fn usual_protection(trunk: f64) -> f64 {
    PROTECTION_PER_TRUNK * trunk
}

/// One of the facts, by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // Each is the member of `Facts` of that name.
pub enum FactKind {
    FinishedFloor,
    FootingDepth,
    Height,
    ClearHeight,
    Overhang,
    Voltage,
    Depth,
    Trunk,
    Protection,
    Utility,
    LineClass,
    KnownFrom,
    Openings,
}

/// How a fact is asked for: its words, and for a figure its measure and range (SI).
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct FactForm {
    /// Which fact.
    pub fact: FactKind,
    /// What the form calls it.
    pub label: &'static str,
    /// What kind of figure it is; none where it is a choice or a list.
    pub measure: Option<Measure>,
    /// The least value taken.
    pub least: f64,
    /// The greatest value taken.
    pub most: f64,
    /// What it may be, where it is a choice.
    pub choices: &'static [FactChoice],
    /// What whoever fills it in should know; empty for nothing.
    pub hint: &'static str,
}

/// One of the values a fact may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct FactChoice {
    /// The value as files spell it.
    pub value: &'static str,
    /// What the form calls it.
    pub words: &'static str,
}

const fn choice(value: &'static str, words: &'static str) -> FactChoice {
    FactChoice { value, words }
}

/// Colors of the APWA uniform color code; the letters are the plan's own.
const UTILITIES: &[FactChoice] = &[
    choice("electric", "Electric: red, E"),
    choice("gas", "Gas, oil or steam: yellow, G"),
    choice("communication", "Communication: orange, C"),
    choice("water", "Drinking water: blue, W"),
    choice("reclaimed", "Reclaimed water or irrigation: purple, R"),
    choice("sewer", "Sewer or drain: green, S"),
];

const LINE_CLASSES: &[FactChoice] = &[
    choice("communication", "Communication"),
    choice("service", "Insulated service, to 750 V to ground"),
    choice("to-15-kv", "Power, to 15 kV"),
    choice("over-15-kv", "Power, over 15 kV"),
];

const KNOWN_FROM: &[FactChoice] = &[
    choice("marked", "Marks on the site"),
    choice("drawing", "A drawing"),
    choice("memory", "Memory"),
];

impl FactKind {
    /// Every fact, in the order forms ask for them.
    pub const ALL: [Self; 13] = [
        Self::FinishedFloor,
        Self::FootingDepth,
        Self::Utility,
        Self::LineClass,
        Self::Voltage,
        Self::Height,
        Self::ClearHeight,
        Self::Overhang,
        Self::Depth,
        Self::Trunk,
        Self::Protection,
        Self::KnownFrom,
        Self::Openings,
    ];

    /// The facts that belong to a kind of feature, in order.
    pub fn of(kind: FeatureKind) -> &'static [Self] {
        use FeatureKind as K;
        match kind {
            K::House | K::Outbuilding => &[
                Self::FinishedFloor,
                Self::FootingDepth,
                Self::Height,
                Self::ClearHeight,
                Self::Overhang,
                Self::Openings,
            ],
            K::Wall => &[Self::Height, Self::FootingDepth, Self::Openings],
            K::Fence => &[Self::Height, Self::Openings],
            K::Tree => &[
                Self::Trunk,
                Self::Protection,
                Self::Height,
                Self::ClearHeight,
            ],
            K::SepticTank | K::SepticField | K::Well => &[Self::Depth, Self::KnownFrom],
            K::BuriedLine => &[Self::Utility, Self::Depth, Self::KnownFrom],
            K::OverheadLine => &[Self::LineClass, Self::Voltage, Self::Height],
            K::DeckSteps => &[Self::Height],
            K::Other => &[Self::Height, Self::FootingDepth, Self::Depth],
            K::Driveway
            | K::Walk
            | K::Easement
            | K::Equipment
            | K::Watercourse
            | K::StreetEdge
            | K::Deck
            | K::DeckOpening
            | K::PipeTrench
            | K::SpoilSpace => &[],
        }
    }

    /// The member of [`Facts`] that holds it, as files spell it.
    pub fn member(self) -> &'static str {
        match self {
            Self::FinishedFloor => "finished_floor",
            Self::FootingDepth => "footing_depth",
            Self::Height => "height",
            Self::ClearHeight => "clear_height",
            Self::Overhang => "overhang",
            Self::Voltage => "voltage",
            Self::Depth => "depth",
            Self::Trunk => "trunk",
            Self::Protection => "protection",
            Self::Utility => "utility",
            Self::LineClass => "line_class",
            Self::KnownFrom => "known_from",
            Self::Openings => "openings",
        }
    }

    /// How the fact is asked for of a kind of feature.
    pub fn form(self, kind: FeatureKind) -> FactForm {
        let length = Some(Measure::Length);
        let (label, measure, least, most) = match self {
            Self::FinishedFloor => ("Finished floor", Some(Measure::Elevation), -500.0, 9000.0),
            Self::FootingDepth => ("Footing below the ground beside it", length, 0.0, 30.0),
            Self::Height if kind == FeatureKind::OverheadLine => {
                ("Lowest point above the ground", length, 0.5, 200.0)
            }
            Self::Height => ("Height above the ground", length, 0.0, 200.0),
            Self::ClearHeight if kind == FeatureKind::Tree => {
                ("Lowest branches above the ground", length, 0.0, 100.0)
            }
            Self::ClearHeight => ("Eaves above the ground", length, 0.0, 100.0),
            Self::Overhang => ("Eaves beyond the walls", length, 0.0, 10.0),
            Self::Voltage => ("Nominal voltage, kV", Some(Measure::Ratio), 0.0, 2000.0),
            Self::Depth => ("Top below the ground", length, 0.0, 30.0),
            Self::Trunk => ("Trunk, diameter", length, 0.0, 10.0),
            Self::Protection => ("Root protection, radius", length, 0.0, 50.0),
            Self::Utility => ("What runs in it", None, 0.0, 0.0),
            Self::LineClass => ("What it carries", None, 0.0, 0.0),
            Self::KnownFrom => ("Known from", None, 0.0, 0.0),
            Self::Openings if kind == FeatureKind::Fence || kind == FeatureKind::Wall => {
                ("Gates", None, 0.1, 20.0)
            }
            Self::Openings => ("Doors and windows", None, 0.1, 20.0),
        };
        FactForm {
            fact: self,
            label,
            measure,
            least,
            most,
            choices: match self {
                Self::Utility => UTILITIES,
                Self::LineClass => LINE_CLASSES,
                Self::KnownFrom => KNOWN_FROM,
                _ => &[],
            },
            hint: self.hint(kind),
        }
    }

    fn hint(self, kind: FeatureKind) -> &'static str {
        match self {
            Self::FinishedFloor => "Counts from where the coping's elevation counts from.",
            Self::FootingDepth => "Not known: it is taken to stand on the ground.",
            Self::Height if kind == FeatureKind::OverheadLine => {
                "Where it hangs lowest. Get it from the utility; never hold a tape or a pole to a wire."
            }
            Self::Depth => {
                "As stated by others. It is not a mark, and ground may have been added or removed since."
            }
            Self::Trunk => "At breast height.",
            Self::Protection => {
                "A foot to the inch of trunk is common practice (no source). An arborist or the \
                 authority may ask for more."
            }
            Self::Utility => {
                "Marking colours of the APWA uniform colour code, in which pink is for survey \
                 marks and white for the planned dig. Lines nobody told of are not drawn: call \
                 the utility-locating service."
            }
            Self::LineClass | Self::Voltage => "The utility that owns it knows.",
            Self::KnownFrom => "Positions on paper are not marks.",
            Self::Height | Self::ClearHeight | Self::Overhang | Self::Openings => "",
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn every_fact_belongs_to_some_kind() {
        for fact in FactKind::ALL {
            let belongs = |kind: &FeatureKind| FactKind::of(*kind).contains(&fact);
            assert!(FeatureKind::ALL.iter().any(belongs), "{fact:?}");
        }
    }

    #[test]
    fn choices_are_spelt_as_files_spell_them() {
        let facts = |member: &str, value: &str| {
            serde_json::from_str::<Facts>(&format!("{{\"{member}\": \"{value}\"}}")).unwrap()
        };
        for fact in FactKind::ALL {
            let form = fact.form(FeatureKind::BuriedLine);
            for choice in form.choices {
                let told = facts(fact.member(), choice.value);
                assert_eq!(told.told().collect::<Vec<_>>(), [fact]);
            }
        }
    }

    #[test]
    fn told_facts_are_those_that_say_something() {
        let facts = Facts {
            depth: Some(0.9),
            utility: Some(Utility::Gas),
            ..Facts::default()
        };
        let told: Vec<FactKind> = facts.told().collect();
        assert_eq!(told, [FactKind::Utility, FactKind::Depth]);
        assert!(Facts::default().is_empty() && !facts.is_empty());
    }
}
