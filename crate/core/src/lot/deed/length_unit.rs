//! The unit of each length: numbers without one are read in the unit that the text states
//! elsewhere, and that is said; so is what a vara was taken for.

use crate::units::{Measure, System, Unit};

/// In what lengths are read and shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthUnits {
    /// In what figures are shown.
    pub system: System,
    /// The unit of a number without one.
    pub bare: Unit,
}

impl LengthUnits {
    /// Numbers without a unit in that of the system.
    pub const fn of(system: System) -> Self {
        Self {
            system,
            bare: Measure::LongLength.shown_unit(system),
        }
    }
}

/// A length that a course rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WrittenLength {
    /// Its first token.
    pub at: usize,
    /// The unit written behind it.
    pub unit: Option<Unit>,
}

/// The unit that numbers without one share, where others state one: the only unit stated. `None`
/// where every number has its unit, none has, or the text states several.
pub fn shared(lengths: &[WrittenLength]) -> Option<Unit> {
    let bare = lengths.iter().any(|length| length.unit.is_none());
    match stated(lengths).as_slice() {
        [only] if bare => Some(*only),
        _ => None,
    }
}

/// The units stated, each once.
fn stated(lengths: &[WrittenLength]) -> Vec<Unit> {
    let mut units: Vec<Unit> = Vec::new();
    for unit in lengths.iter().filter_map(|length| length.unit) {
        if !units.contains(&unit) {
            units.push(unit);
        }
    }
    units
}

/// Something to look at in the units of a text.
#[derive(Debug, Clone, PartialEq)]
pub struct UnitCaution {
    /// Its stable name.
    pub code: &'static str,
    /// The first token it concerns.
    pub at: usize,
    /// What was read how.
    pub message: String,
    /// What to do.
    pub remedy: &'static str,
}

/// In what numbers without a unit were read where others have another, and what a vara was taken
/// for.
pub fn cautions(lengths: &[WrittenLength], units: LengthUnits) -> Vec<UnitCaution> {
    varas(lengths)
        .into_iter()
        .chain(mixed(lengths, units))
        .collect()
}

fn varas(lengths: &[WrittenLength]) -> Option<UnitCaution> {
    let vara = lengths
        .iter()
        .find(|length| length.unit == Some(Unit::Vara))?;
    let message = "Varas were taken as 33 1/3 in each, the vara of Texas; in other states and in old grants a \
                   vara has another length.";
    Some(UnitCaution {
        code: "deed-vara",
        at: vara.at,
        message: message.to_owned(),
        remedy: "If this deed means another vara, write its distances in feet.",
    })
}

fn mixed(lengths: &[WrittenLength], units: LengthUnits) -> Option<UnitCaution> {
    let usual = LengthUnits::of(units.system).bare;
    let stated = stated(lengths);
    let mut bare = lengths.iter().filter(|length| length.unit.is_none());
    let first = bare.next()?;
    if stated.iter().all(|unit| *unit == usual) {
        return None;
    }
    let names: Vec<&str> = stated.iter().map(|unit| plural(*unit)).collect();
    let (count, were) = match bare.count() {
        0 => ("one has".to_owned(), "it was"),
        rest => (format!("{} have", rest + 1), "they were"),
    };
    Some(UnitCaution {
        code: "deed-units",
        at: first.at,
        message: format!(
            "Lengths of this text are in {}, but {count} no unit: {were} read in {}.",
            names.join(" and "),
            plural(units.bare)
        ),
        remedy: "Write the unit behind every number.",
    })
}

/// Many of a unit, as a sentence names them.
const fn plural(unit: Unit) -> &'static str {
    match unit {
        Unit::Metre => "meters",
        Unit::Foot => "feet",
        Unit::SurveyFoot => "US survey feet",
        Unit::Inch => "inches",
        Unit::Yard => "yards",
        Unit::Chain => "chains",
        Unit::Rod => "rods",
        Unit::Link => "links",
        Unit::Vara => "varas",
        other => other.symbol(),
    }
}
