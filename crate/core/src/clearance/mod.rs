//! Clearances: every rule measured, with its room.
//!
//! Distances decide, never buffered polygons. *Room* is the slack a clearance has left:
//! distance less the required one, negative when it falls short.
//!
//! Each pair of figures is measured once, however many rules ask for it: rim and deck edge
//! are the water's edge farther out, so that one measurement serves all three.

mod advice;
mod condition;
mod farther;
mod slant;
pub mod tape;

use std::collections::BTreeMap;

use serde::Serialize;

pub use advice::{advice, waiting};
pub(crate) use condition::{applies, applies_on_lot};
pub(crate) use slant::{above_rim, in_plan};

use crate::finding::Caveat;
use crate::geom::distance::{Figure, Measurable, Nearest, Within};
use crate::geom::{Point, Region};
use crate::order::put_in_order;
use crate::site::{CheckedSite, MeasuredFrom, MeasuredTo, Rule, ShapeRecord};

/// A room smaller than this is none, meters: a micrometre is rounding, not a shortfall.
const HAIR: f64 = 1e-6;

/// One clearance: a rule measured to one thing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Clearance {
    /// Index of the rule in the site.
    pub rule: usize,
    /// The rule's name.
    pub name: String,
    /// Where on the work it was measured from.
    pub from: MeasuredFrom,
    /// What it was measured to, as the plan calls it.
    pub target: String,
    /// Index of the lot's side (in `Lot::sides`) or of the feature it was measured to.
    pub subject: Subject,
    /// Measured distance, meters; negative when the figures overlap.
    pub distance: f64,
    /// How high above the rim it hangs, meters, where the distance was measured aslant.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub above: Option<f64>,
    /// Required distance, meters.
    pub required: f64,
    /// Distance less required, meters; exactly 0 where the two differ by rounding alone.
    pub room: f64,
    /// The point on the work (site meters).
    pub from_point: Point,
    /// The point on the target (site meters).
    pub to_point: Point,
    /// Who says so.
    pub source: String,
    /// Why it is weaker than it looks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caveats: Vec<Caveat>,
}

impl Clearance {
    /// Whether the required distance is not kept.
    pub fn falls_short(&self) -> bool {
        self.room < 0.0
    }
}

/// What a clearance was measured to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Subject {
    /// A side of the lot, by index in `Lot::sides`.
    Side(usize),
    /// A feature, by index in `Site::features`.
    Feature(usize),
    /// A part of a feature: a door, a gate, a tree's trunk.
    Part {
        /// The feature, by index in `Site::features`.
        feature: usize,
        /// The part, in the order of the checked feature's parts.
        part: usize,
    },
}

impl Subject {
    /// What it is as distances take it.
    pub(crate) fn figure(self, site: &CheckedSite) -> Option<Figure<'_>> {
        match self {
            Self::Side(index) => Some(Figure::Chain(site.lot().sides.get(index)?)),
            Self::Feature(index) => Some(site.feature(index)?.shape.figure()),
            Self::Part { feature, part } => Some(site.feature(feature)?.parts.get(part)?.figure()),
        }
    }
}

/// The work as it stands on the site: what rules measure from.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WorkFigures {
    /// The water's edge, flattened. Rim and deck edge are this, farther out.
    pub waters_edge: Region,
    /// How far the rim lies outside the water's edge, meters.
    pub rim: f64,
    /// How far the deck edge lies outside the water's edge, meters.
    pub deck_edge: f64,
    /// Decks and steps that were drawn beside the ring of even width.
    pub drawn_decks: Region,
    /// The equipment pad, once placed.
    pub equipment: Option<Region>,
    /// The top edge of the dig.
    pub dig: Region,
    /// How deep the deepest place of the dig lies below the ground, meters, once there is one.
    pub dig_depth: Option<f64>,
    /// The steps that were drawn.
    pub steps: Region,
    /// The foot of the spoil pile; nothing where it has no place.
    pub spoil_pile: Region,
    /// The fences and walls that count as part of the barrier; one without thickness is there and back.
    pub barrier: Region,
}

/// A figure of the work that distances are measured from, in the order of `WorkFigures::bases`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Base {
    WatersEdge,
    DrawnDecks,
    Equipment,
    Dig,
    Steps,
    SpoilPile,
    Barrier,
}

impl WorkFigures {
    /// Every [`Base`]; `None` while it is not placed.
    fn bases(&self) -> [Option<&Region>; 7] {
        let pad = self.equipment.as_ref();
        [
            Some(&self.waters_edge),
            Some(&self.drawn_decks),
            pad,
            Some(&self.dig),
            Some(&self.steps),
            Some(&self.spoil_pile),
            Some(&self.barrier),
        ]
    }

    /// The figure a rule measures from: which, its shape (`None` while it is not placed), and
    /// how far outside it the rule measures.
    fn base(&self, from: MeasuredFrom) -> (Base, Option<&Region>, f64) {
        let some = |region| Some(region).filter(|r: &&Region| !r.polygons.is_empty());
        let water = |out| (Base::WatersEdge, some(&self.waters_edge), out);
        match from {
            MeasuredFrom::WatersEdge => water(0.0),
            MeasuredFrom::Rim => water(self.rim),
            MeasuredFrom::DeckEdge => water(self.deck_edge),
            MeasuredFrom::Equipment => (Base::Equipment, self.equipment.as_ref(), 0.0),
            MeasuredFrom::Dig => (Base::Dig, some(&self.dig), 0.0),
            MeasuredFrom::Steps => (Base::Steps, some(&self.steps), 0.0),
            MeasuredFrom::SpoilPile => (Base::SpoilPile, some(&self.spoil_pile), 0.0),
            MeasuredFrom::Barrier => (Base::Barrier, some(&self.barrier), 0.0),
        }
    }
}

/// Every rule measured to everything it names, least room first (then by rule, then by
/// subject).
///
/// A rule that finds nothing of its kind on the site yields nothing; so does one that
/// measures from a part of the work that is not placed, and one whose conditions are not met.
/// [`advice`] says so.
///
/// # Tolerance
/// Arcs were flattened within `DRAWING_TOLERANCE`, vertices on the arc: a distance is at most
/// that much too long for each curved figure. Straight edges are exact. Outside, rim and deck
/// edge are exact as well (an outline widened with round corners is nearer by its width); an
/// overlap grows by that width at its deepest place.
pub fn measure(site: &CheckedSite, work: &WorkFigures) -> Vec<Clearance> {
    let mut measured: BTreeMap<(Base, Subject), Option<Nearest>> = BTreeMap::new();
    let mut clearances = Vec::new();
    let ready = |area| Measurable::of(Figure::Area(area));
    let lot = ready(&site.lot().region);
    let bases = work.bases().map(|area| area.map(ready));
    let bases = bases
        .each_ref()
        .map(|base| base.as_ref().map(|base| (base, base.within(&lot))));
    let of = |base: Base| bases.get(base as usize).and_then(Option::as_ref);
    for (index, rule) in site.site().rules.iter().enumerate() {
        let (base, Some(_), out) = work.base(rule.from) else {
            continue;
        };
        if !condition::applies(site, work, rule) {
            continue;
        }
        for (subject, label) in targets(site, rule) {
            let pair = measured
                .entry((base, subject))
                .or_insert_with(|| apart(site, of(base)?, subject));
            let mut pair = pair.map(|pair| farther::out(pair, out));
            // The deck ends where its ring does, or a part of it that was drawn.
            if rule.from == MeasuredFrom::DeckEdge && !work.drawn_decks.polygons.is_empty() {
                let drawn = measured
                    .entry((Base::DrawnDecks, subject))
                    .or_insert_with(|| apart(site, of(Base::DrawnDecks)?, subject));
                if let Some(drawn) = *drawn
                    && pair.is_none_or(|ring| drawn.distance < ring.distance)
                {
                    pair = Some(drawn);
                }
            }
            let Some(pair) = pair else {
                continue;
            };
            let above = above_rim(site, rule, subject);
            let distance = slant::aslant(pair.distance, above);
            let room = distance - rule.distance;
            clearances.push(Clearance {
                rule: index,
                name: rule.name.clone(),
                from: rule.from,
                target: label.to_owned(),
                subject,
                distance,
                above: (above > 0.0).then_some(above),
                required: rule.distance,
                room: if room.abs() < HAIR { 0.0 } else { room },
                from_point: pair.from,
                to_point: pair.to,
                source: rule.source.clone(),
                caveats: caveats(site, subject),
            });
        }
    }
    put_in_order(&mut clearances, |a, b| {
        let order = a.room.total_cmp(&b.room);
        order.then_with(|| (a.rule, a.subject).cmp(&(b.rule, b.subject)))
    });
    clearances
}

/// Why a distance to something is weaker than it looks: the sides of a lot that closes poorly
/// may lie elsewhere, and so may what was drawn along them.
fn caveats(site: &CheckedSite, subject: Subject) -> Vec<Caveat> {
    let on_the_lot = match subject {
        Subject::Side(_) => true,
        Subject::Feature(index) => site
            .site()
            .features
            .get(index)
            .is_some_and(|f| matches!(f.shape, ShapeRecord::Along { .. })),
        Subject::Part { .. } => false,
    };
    if on_the_lot {
        site.lot().lot.caveats()
    } else {
        Vec::new()
    }
}

/// Everything a rule measures to, with what the plan calls it.
pub(crate) fn targets<'a>(
    site: &'a CheckedSite,
    rule: &Rule,
) -> impl Iterator<Item = (Subject, &'a str)> + use<'a> {
    let to = rule.to;
    let sides = site.lot().lot.sides.iter().enumerate();
    let sides = sides.filter(move |(_, side)| match to {
        MeasuredTo::LotLine { kind } => kind.is_none_or(|kind| kind == side.kind),
        MeasuredTo::Feature { .. } | MeasuredTo::Part { .. } => false,
    });
    let features = site.features().iter();
    let features = features.filter(move |f| to == MeasuredTo::Feature { kind: f.kind });
    let label = |index: usize| site.site().features.get(index).map_or("", |f| f.label());
    let parts = site.features().iter().flat_map(move |f| {
        let parts = f.parts.iter().enumerate();
        let named = parts.filter(move |(_, p)| to == MeasuredTo::Part { part: p.part });
        named.map(|(part, p)| {
            let feature = f.index;
            (Subject::Part { feature, part }, p.name.as_str())
        })
    });
    let only = rule.only;
    sides
        .map(|(i, side)| (Subject::Side(i), side.label.as_str()))
        .chain(features.map(move |f| (Subject::Feature(f.index), label(f.index))))
        .chain(parts)
        .filter(move |(subject, _)| {
            !only.on_street_side || condition::is_on_street_side(site, *subject)
        })
}

/// Measures one figure of the work, on its lot, to one subject.
fn apart(
    site: &CheckedSite,
    (area, within): &(&Measurable<'_>, Within<'_>),
    subject: Subject,
) -> Option<Nearest> {
    match subject {
        Subject::Side(i) => within.nearest(site.lot().sides.get(i)?),
        _ => area.nearest(&Measurable::of(subject.figure(site)?)),
    }
}
