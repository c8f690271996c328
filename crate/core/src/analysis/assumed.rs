//! What stays assumed: whatever a plan takes for granted, and how far wrong it may be before a rule
//! that holds is no longer kept.
//!
//! Lot lines that no survey has marked, lines in the ground that nobody has located, wires of no
//! known height, ground that nobody has measured, a soil that nobody has tested. The list goes with
//! every result, so that nobody takes a plan for a survey.

use super::data::Analysis;
use crate::clearance::{Clearance, Subject};
use crate::finding::{Message, said};
use crate::lot::MonumentState;
use crate::site::{CheckedSite, FactKind, Feature, FeatureKind, KnownFrom, MeasuredFrom};

/// Something that is taken for granted.
#[derive(Debug, Clone, PartialEq)]
pub struct Assumption {
    /// What, in a sentence.
    pub what: Message,
    /// How far wrong it may be; none where no clearance hangs on it.
    pub leeway: Option<Leeway>,
    /// What would settle it, in a sentence.
    pub settled_by: &'static str,
}

/// How far wrong something may be before a clearance falls short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leeway {
    /// Which way it would have to be wrong.
    pub way: Way,
    /// By how much, meters; where the sides get flatter, the slope at which it happens, horizontal run per unit of
    /// rise. Nothing where the clearance falls short already.
    pub by: f64,
    /// The clearance that falls short first, by its index in the analysis.
    pub clearance: usize,
}

/// A way in which an assumption may be wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// It lies nearer than drawn.
    Nearer,
    /// The ground stands higher than entered.
    Higher,
    /// The sides of the hole have to be flatter than planned.
    Flatter,
}

const SURVEY: &str = "Have a licensed surveyor mark the corners, or find the monuments.";
const LOCATE: &str =
    "Call the utility-locating service, and have private lines located too, before anyone digs.";

const MARK: &str = "Have it located and marked on the site before anyone digs near it.";

/// Everything that stays assumed on a site, by its analysis, which must hold its clearances.
pub fn assumptions(site: &CheckedSite, analysis: &Analysis) -> Vec<Assumption> {
    let mut all = vec![];
    all.extend(lot_lines(site, analysis));
    let records = &site.site().features;
    for (index, record) in records.iter().enumerate() {
        all.extend(place(record, index, analysis));
    }
    if !records.iter().any(|it| it.kind == FeatureKind::BuriedLine) {
        all.push(Assumption {
            what: "No buried line is on the plan. That does not mean that none is there.".into(),
            leeway: None,
            settled_by: LOCATE,
        });
    }
    all.extend(wire_heights(records));
    all.extend(ground(site, analysis));
    all.extend(soil(site, analysis));
    if site.site().works.groundwater.is_none() && site.placed_shell().is_some() {
        all.push(Assumption {
            what: "Nobody has entered where groundwater stands; what it lifts is worked out as if it stood at the rim.".into(),
            leeway: None,
            settled_by: "Dig a test hole in the wet season and see, before the shell is ordered.",
        });
    }
    all
}

/// The clearance with the least room among some.
fn least(analysis: &Analysis, meant: impl Fn(&Clearance) -> bool) -> Option<(usize, f64)> {
    // Least room first.
    let found = analysis.clearances.iter().position(meant)?;
    Some((found, analysis.clearances.get(found)?.room))
}

fn nearer(found: Option<(usize, f64)>) -> Option<Leeway> {
    found.map(|(clearance, room)| Leeway {
        way: Way::Nearer,
        by: room.max(0.0),
        clearance,
    })
}

/// The lot's lines, unless two corners or more were found or set.
fn lot_lines(site: &CheckedSite, analysis: &Analysis) -> Option<Assumption> {
    let lot = &site.site().lot;
    let seen = lot.courses.iter().filter_map(|it| it.monument.as_ref());
    let seen = seen.filter(|it| matches!(it.state, MonumentState::Found | MonumentState::Set));
    if seen.count() >= 2 {
        return None;
    }
    let from = match lot.deed {
        Some(_) => "a deed",
        None => "what was entered",
    };
    Some(Assumption {
        what: said!(
            "The lot lines are from {source} and no survey: fewer than two corners are known to be marked.",
            source = from,
        ),
        leeway: nearer(least(analysis, |it| matches!(it.subject, Subject::Side(_)))),
        settled_by: SURVEY,
    })
}

/// The place of a thing that has to be located, unless it was marked on the site.
fn place(record: &Feature, index: usize, analysis: &Analysis) -> Option<Assumption> {
    let asked = FactKind::of(record.kind).contains(&FactKind::KnownFrom);
    if !asked || record.facts.known_from == Some(KnownFrom::Marked) {
        return None;
    }
    let thing = record.named().capital();
    let what = match record.facts.known_from {
        Some(from) => said!(
            "{thing} is known only from {source}.",
            thing = thing,
            source = from.words(),
        ),
        None => said!(
            "How the place of {thing} is known is not entered.",
            thing = record.named()
        ),
    };
    let to_it = |it: &Clearance| match it.subject {
        Subject::Feature(of) | Subject::Part { feature: of, .. } => of == index,
        Subject::Side(_) => false,
    };
    Some(Assumption {
        what,
        leeway: nearer(least(analysis, to_it)),
        settled_by: match record.kind {
            FeatureKind::BuriedLine => LOCATE,
            _ => MARK,
        },
    })
}

/// Wires of which nobody has entered how high they hang; one for all.
fn wire_heights(records: &[Feature]) -> Option<Assumption> {
    let low = |it: &&Feature| it.kind == FeatureKind::OverheadLine && it.facts.height.is_none();
    let names: Vec<&str> = records.iter().filter(low).map(Feature::label).collect();
    (!names.is_empty()).then(|| Assumption {
        what: said!(
            "How high these wires hang is not entered: {wires}. Rules measure to them in plan only.",
            wires = names.join(", "),
        ),
        leeway: None,
        settled_by: "Ask the line's owner; nobody measures up to a wire with anything that conducts.",
    })
}

/// Ground that nobody surveyed, where the dig is.
fn ground(site: &CheckedSite, analysis: &Analysis) -> Option<Assumption> {
    let dig = analysis.dig.as_ref()?;
    let level = site.site().ground.is_level();
    if !level && dig.unsurveyed_volume <= 0.0 {
        return None;
    }
    let slope = dig.slopes.greatest();
    let from_dig = least(analysis, |it| it.from == MeasuredFrom::Dig);
    let leeway = from_dig
        .filter(|_| slope > 0.0)
        .map(|(clearance, room)| Leeway {
            way: Way::Higher,
            by: room.max(0.0) / slope,
            clearance,
        });
    Some(Assumption {
        what: if level {
            "The ground is taken as level: nobody has surveyed it.".into()
        } else {
            "Part of the dig lies on ground that nobody has surveyed.".into()
        },
        leeway,
        settled_by: "Take rod readings round the dig and beyond its top edge.",
    })
}

/// The soil, which nobody has tested until a competent person has.
fn soil(site: &CheckedSite, analysis: &Analysis) -> Option<Assumption> {
    let dig = analysis.dig.as_ref().filter(|it| it.greatest_depth > 0.0)?;
    let class = site.site().works.dig.soil;
    let leeway = least(analysis, |it| it.from == MeasuredFrom::Dig);
    Some(Assumption {
        what: said!(
            "The soil is taken as {soil}; nobody has tested it.",
            soil = class.words(),
        ),
        leeway: leeway.map(|(clearance, room)| Leeway {
            way: Way::Flatter,
            by: if room > 0.0 {
                dig.slopes.greatest() + room / dig.greatest_depth
            } else {
                0.0
            },
            clearance,
        }),
        settled_by: "A competent person classifies the soil in the open hole, and sets the sides by it.",
    })
}
