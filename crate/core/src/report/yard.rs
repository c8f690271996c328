//! What stands on and under the lot, with its facts.

use serde::Serialize;

use super::Figure;
use crate::geom::Point;
use crate::site::{
    CheckedFeature, CheckedShape, CheckedSite, FactKind, Facts, FeatureKind, ShapeRecord,
};
use crate::units::{Measure, System};

/// One thing on the lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FeatureFigures {
    /// Its id in the site file.
    pub id: String,
    /// What the plan calls it.
    pub label: String,
    /// What it is.
    pub kind: FeatureKind,
    /// How its shape was given.
    pub form: &'static str,
    /// Its area, or its length where it is a line.
    pub size: Figure,
    /// Left out of the plan, though measured like everything else.
    pub hidden: bool,
    /// Held where it is.
    pub locked: bool,
    /// What is known of it.
    pub facts: Vec<FactFigures>,
    /// Its doors or gates.
    pub openings: Vec<OpeningFigures>,
    /// Anything worth saying about it.
    pub note: String,
}

/// One fact: a figure, or a choice in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FactFigures {
    /// Which fact.
    pub fact: FactKind,
    /// What forms call it.
    pub label: &'static str,
    /// Its figure, where it is one.
    pub figure: Option<Figure>,
    /// Its words, where it is a choice.
    pub words: Option<&'static str>,
}

/// A door or a gate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpeningFigures {
    /// What the plan calls it.
    pub name: String,
    /// Its clear width.
    pub width: Figure,
    /// Where it was placed, site meters.
    pub at: Point,
}

/// Everything on the lot, in the order of the file.
pub(super) fn of(site: &CheckedSite, system: System) -> Vec<FeatureFigures> {
    let records = &site.site().features;
    let features = site.features().iter();
    let figures = features.filter_map(|feature| {
        let record = records.get(feature.index)?;
        Some(FeatureFigures {
            id: record.id.clone(),
            label: record.label().to_owned(),
            kind: record.kind,
            form: form(&record.shape),
            size: size(feature, system),
            hidden: record.hidden,
            locked: record.locked,
            facts: facts(&record.facts, record.kind, system),
            openings: record
                .facts
                .openings
                .iter()
                .map(|opening| OpeningFigures {
                    name: opening.name.clone(),
                    width: Figure::new(Measure::Length, opening.width, system),
                    at: opening.at,
                })
                .collect(),
            note: record.note.clone(),
        })
    });
    figures.collect()
}

fn form(shape: &ShapeRecord) -> &'static str {
    match shape {
        ShapeRecord::Area(_) => "area",
        ShapeRecord::Track(_) => "track",
        ShapeRecord::Disc { .. } => "disc",
        ShapeRecord::Strip { .. } => "strip",
        ShapeRecord::Along { .. } => "along a side",
        ShapeRecord::Compound(_) => "several pieces",
    }
}

fn size(feature: &CheckedFeature, system: System) -> Figure {
    match &feature.shape {
        CheckedShape::Area(_, region) => Figure::new(Measure::Area, region.area(), system),
        CheckedShape::Track(track, _) => Figure::new(Measure::LongLength, track.length(), system),
    }
}

fn facts(facts: &Facts, kind: FeatureKind, system: System) -> Vec<FactFigures> {
    let told = facts.told().filter(|fact| *fact != FactKind::Openings);
    let figures = told.map(|fact| {
        let form = fact.form(kind);
        let value = facts.figure(fact);
        FactFigures {
            fact,
            label: form.label,
            figure: form
                .measure
                .zip(value)
                .map(|(measure, value)| Figure::new(measure, value, system)),
            words: facts.words(fact),
        }
    });
    figures.collect()
}
