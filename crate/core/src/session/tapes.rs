//! Tapes for the page: what an end may be held to, what lies under a hand, and every reading in words
//! with what it rests on.

use serde::Serialize;

use super::Session;
use crate::analysis::Analysis;
use crate::clearance::tape::{self, Lie, Taped};
use crate::finding::Caveat;
use crate::geom::Point;
use crate::site::{
    CheckedSite, FactKind, Feature, FeatureKind, KnownFrom, MeasuredFrom, ShapeRecord, TapeEnd,
};
use crate::units::{Measure, Shown, show};

/// The parts of the work that a tape may end at, the innermost first.
const PARTS: [MeasuredFrom; 5] = [
    MeasuredFrom::WatersEdge,
    MeasuredFrom::Rim,
    MeasuredFrom::DeckEdge,
    MeasuredFrom::Dig,
    MeasuredFrom::Equipment,
];

/// A tape as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct TapeRow {
    /// What it ends at.
    pub from: String,
    /// What its other end is held to.
    pub to: String,
    /// From edge to edge; none while it waits for a part of the work that is not placed.
    pub distance: Option<Shown>,
    /// How the two lie to each other and what the reading rests on, a sentence each.
    pub says: Vec<String>,
}

/// Something that an end of a tape may be held to.
#[derive(Debug, Clone, PartialEq)]
pub struct TapeChoice {
    /// The end.
    pub end: TapeEnd,
    /// What it is called.
    pub name: String,
}

impl Session {
    /// Everything an end of a tape may be held to but points: the work as far as it is placed, the
    /// sides of the lot, what stands on it.
    pub fn tape_choices(&self) -> Vec<TapeChoice> {
        let site = self.site.site();
        let shell = site.placement.is_some();
        let placed = |part: &MeasuredFrom| match part {
            MeasuredFrom::Equipment => site.equipment.is_some(),
            _ => shell,
        };
        let parts = PARTS.into_iter().filter(placed).map(TapeEnd::Work);
        let sides = self.site.lot().lot.sides.iter();
        let sides = sides.map(|side| TapeEnd::Side(side.course));
        let features = site.features.iter().map(|f| TapeEnd::Feature(f.id.clone()));
        let ends = parts.chain(sides).chain(features);
        ends.map(|end| TapeChoice {
            name: name(&self.site, &end),
            end,
        })
        .collect()
    }

    /// What an end of a tape is held to that is put down at a place: the nearest edge within `reach`
    /// meters; else what stands there; else the place itself. What is hidden is left out.
    pub fn tape_end_at(&self, at: Point, reach: f64) -> TapeEnd {
        let site = self.site.site();
        let seen = |end: &TapeEnd| match end {
            TapeEnd::Feature(id) => site.features.iter().any(|f| f.id == *id && !f.hidden),
            _ => true,
        };
        let choices = self.tape_choices().into_iter().map(|choice| choice.end);
        let off = |end: TapeEnd| {
            let off = tape::off(&self.site, &self.analysis.work, &end, at)?;
            Some((end, off))
        };
        let edges = choices.filter(seen).filter_map(off);
        let nearest = edges
            .filter(|(_, off)| *off <= reach)
            .min_by(|a, b| a.1.total_cmp(&b.1));
        let (end, _) = nearest.unwrap_or_else(|| (self.stands_at(at), 0.0));
        end
    }

    fn stands_at(&self, at: Point) -> TapeEnd {
        let work = &self.analysis.work;
        if work.waters_edge.contains(at) {
            return TapeEnd::Work(MeasuredFrom::WatersEdge);
        }
        if work.equipment.as_ref().is_some_and(|pad| pad.contains(at)) {
            return TapeEnd::Work(MeasuredFrom::Equipment);
        }
        match self.feature_at(at, 0.0) {
            Some(feature) if is_solid(feature.kind) => TapeEnd::Feature(feature.id.clone()),
            _ => TapeEnd::At(at),
        }
    }
}

/// Whether a hand that is put down on such a thing means it, and not a point of the land it covers.
fn is_solid(kind: FeatureKind) -> bool {
    use FeatureKind as K;
    matches!(
        kind,
        K::House | K::Outbuilding | K::Tree | K::SepticTank | K::Well | K::Equipment | K::DeckSteps
    )
}

/// Every tape of the site as listed.
pub(super) fn rows(site: &CheckedSite, analysis: &Analysis) -> Vec<TapeRow> {
    let tapes = site.site().tapes.iter().zip(&analysis.tapes);
    tapes
        .map(|(tape, taped)| {
            let (from, to) = (name(site, &tape.from), name(site, &tape.to));
            let mut says: Vec<String> = lies(taped.as_ref(), &from, &to).into_iter().collect();
            for end in [&tape.from, &tape.to] {
                let rests = rests_on(site, end);
                if !says.contains(&rests) {
                    says.push(rests);
                }
            }
            TapeRow {
                from,
                to,
                distance: taped.map(|it| show(Measure::Length, it.distance, site.site().display)),
                says,
            }
        })
        .collect()
}

fn lies(taped: Option<&Taped>, from: &str, to: &str) -> Option<String> {
    let Some(taped) = taped else {
        return Some("It waits until what it is held to is placed again.".to_owned());
    };
    match taped.lie {
        Lie::Apart => None,
        Lie::FirstInside => Some(format!("The {from} lies inside the {to}.")),
        Lie::SecondInside => Some(format!("The {to} lies inside the {from}.")),
        Lie::Meeting => Some("Their edges meet or cross.".to_owned()),
    }
}

fn name(site: &CheckedSite, end: &TapeEnd) -> String {
    match end {
        TapeEnd::Work(part) => part.words().to_owned(),
        TapeEnd::Side(course) => {
            let mut sides = site.lot().lot.sides.iter();
            let side = sides.find(|side| side.course == *course);
            side.map_or_else(String::new, |side| side.label.to_string())
        }
        TapeEnd::Feature(id) => feature(site, id).map_or("", Feature::label).to_owned(),
        TapeEnd::At(_) => "point".to_owned(),
    }
}

fn feature<'a>(site: &'a CheckedSite, id: &str) -> Option<&'a Feature> {
    site.site().features.iter().find(|f| f.id == id)
}

/// What the place of an end rests on: what is exact and what is a guess.
fn rests_on(site: &CheckedSite, end: &TapeEnd) -> String {
    match end {
        TapeEnd::Work(MeasuredFrom::Dig) => {
            "The top of dig is worked out and moves with the ground and the side slopes.".to_owned()
        }
        TapeEnd::Work(part) => format!("The {} is exact as planned.", part.words()),
        TapeEnd::Side(_) => on_the_lot(site),
        TapeEnd::Feature(id) => feature(site, id).map_or_else(String::new, |f| known(site, f)),
        TapeEnd::At(_) => "The point is where a hand put it.".to_owned(),
    }
}

/// How well the lot's lines are known.
fn on_the_lot(site: &CheckedSite) -> String {
    let from = match &site.site().lot.deed {
        Some(_) => "from the deed",
        None => "as entered",
    };
    let poor = site.lot().lot.caveats().contains(&Caveat::PoorClosure);
    let guess = if poor {
        ", and the lot closes poorly: the line may lie elsewhere"
    } else {
        ""
    };
    format!("The lot line is {from} and no survey{guess}.")
}

/// How the place of a feature is known.
fn known(site: &CheckedSite, feature: &Feature) -> String {
    if matches!(feature.shape, ShapeRecord::Along { .. }) {
        return on_the_lot(site);
    }
    let name = feature.label();
    match feature.facts.known_from {
        Some(KnownFrom::Marked) => format!("The {name} is as marked on the site."),
        Some(KnownFrom::Drawing) => {
            format!("The {name} is as a drawing shows it, which is no mark on the site.")
        }
        Some(KnownFrom::Memory) => {
            format!("The {name} is a guess: it is known from memory alone.")
        }
        None if FactKind::of(feature.kind).contains(&FactKind::KnownFrom) => {
            format!("The {name} is a guess: nobody has entered how its place is known.")
        }
        None => format!("The {name} is as drawn."),
    }
}

#[cfg(test)]
mod tests;
