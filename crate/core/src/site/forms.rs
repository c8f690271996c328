//! How each kind of feature is asked for: its words, the shapes it comes in, its facts.
//!
//! Forms go by this table, so that a kind or a fact is described in one place.

use serde::Serialize;

use super::facts::{FactForm, FactKind};
use super::kind::FeatureKind;

/// One kind of feature, as a form asks for it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct KindForm {
    /// The kind.
    pub kind: FeatureKind,
    /// The kind in plain words.
    pub words: &'static str,
    /// The shapes it comes in, as files spell them, the usual one first.
    #[cfg_attr(
        feature = "typescript",
        tsify(type = "('area' | 'track' | 'disc' | 'strip' | 'along' | 'compound')[]")
    )]
    pub shapes: &'static [&'static str],
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

fn shapes(kind: FeatureKind) -> &'static [&'static str] {
    use FeatureKind as K;
    match kind {
        K::Tree | K::Well => &["disc", "area"],
        K::Fence | K::BuriedLine | K::OverheadLine => &["track"],
        K::StreetEdge => &["track", "area"],
        K::Wall => &["strip", "track", "area"],
        K::Driveway | K::Walk => &["strip", "area"],
        K::Deck | K::DeckOpening | K::DeckSteps | K::SpoilSpace => &["area"],
        K::PipeTrench => &["track"],
        K::Watercourse => &["strip", "track", "area"],
        K::Easement => &["along", "strip", "area"],
        K::House | K::Outbuilding | K::SepticField | K::Equipment => &["area"],
        K::SepticTank => &["area", "disc"],
        K::Other => &["area", "track", "strip", "along", "disc"],
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
