//! How each kind of feature is asked for: its words, the shapes it comes in, its facts.
//!
//! Forms go by this table, so that a kind or a fact is described in one place.

use serde::Serialize;

use super::facts::{FactForm, FactKind};
use super::kind::FeatureKind;

/// The forms of [`ShapeRecord`](super::feature::ShapeRecord), spelled as in files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ShapeForm {
    /// A closed path.
    Area,
    /// An open path.
    Track,
    /// A disc.
    Disc,
    /// A band with an open path along its middle.
    Strip,
    /// A band along a course of the lot.
    Along,
    /// Several areas, with holes.
    Compound,
}

/// One kind of feature, as a form asks for it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct KindForm {
    /// The kind.
    pub kind: FeatureKind,
    /// The kind in plain words.
    pub words: &'static str,
    /// The shapes it comes in, the usual one first.
    pub shapes: &'static [ShapeForm],
    /// The facts that belong to it, in order.
    pub facts: Vec<FactForm>,
    /// What its doors or gates are called, one of them.
    pub opening: Option<&'static str>,
    /// Whether it is part of the work to come.
    pub planned: bool,
}

/// Every kind, in the order lists show them.
pub fn kinds() -> Vec<KindForm> {
    let form = |kind: FeatureKind| KindForm {
        kind,
        words: kind.words(),
        shapes: shapes(kind),
        facts: FactKind::of(kind)
            .iter()
            .filter(|fact| **fact != FactKind::Openings)
            .map(|fact| fact.form(kind))
            .collect(),
        opening: super::shape::opens(kind).map(|part| part.words()),
        planned: kind.is_planned(),
    };
    FeatureKind::ALL.into_iter().map(form).collect()
}

fn shapes(kind: FeatureKind) -> &'static [ShapeForm] {
    use FeatureKind as K;
    use ShapeForm::{Along, Area, Disc, Strip, Track};
    match kind {
        K::Tree | K::Well => &[Disc, Area],
        K::Fence | K::BuriedLine | K::OverheadLine => &[Track],
        K::StreetEdge => &[Track, Area],
        K::Wall => &[Strip, Track, Area],
        K::Driveway | K::Walk => &[Strip, Area],
        K::Deck | K::DeckOpening | K::DeckSteps | K::SpoilSpace => &[Area],
        K::PipeTrench => &[Track],
        K::Watercourse => &[Strip, Track, Area],
        K::Easement => &[Along, Strip, Area],
        K::House | K::Outbuilding | K::SepticField | K::Equipment => &[Area],
        K::SepticTank => &[Area, Disc],
        K::Other => &[Area, Track, Strip, Along, Disc],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_a_shape_and_its_facts() {
        for (form, kind) in kinds().iter().zip(FeatureKind::ALL) {
            assert_eq!(form.kind, kind);
            assert!(!form.shapes.is_empty());
            let belong = FactKind::of(kind);
            let opens = belong.contains(&FactKind::Openings);
            assert_eq!(form.opening.is_some(), opens, "{kind:?}");
            assert_eq!(form.facts.len() + usize::from(opens), belong.len());
        }
    }
}
