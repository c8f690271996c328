//! The work beyond the land it may stand on, and into what stands or lies there, whatever the
//! rules say.

use super::conflict::{Part, conflict};
use crate::clearance::WorkFigures;
use crate::finding::said;
use crate::finding::{Finding, Scope, Topic};
use crate::geom::Point;
use crate::geom::distance::{Figure, Measurable};
use crate::site::{CheckedFeature, CheckedSite, FeatureKind, FeaturePart};
use crate::units::{Measure, show};

/// A reach smaller than this is rounding, meters.
const HAIR: f64 = 1e-6;

/// One part of the work as it lies.
struct Figured<'a> {
    part: Part,
    area: &'a Measurable<'a>,
    /// How far outside the area it reaches, meters.
    out: f64,
}

impl Figured<'_> {
    /// Where it reaches into a figure; `None` where it stays clear. `touching`: it is enough that
    /// the two meet.
    fn reaches(&self, other: &Measurable<'_>, touching: bool) -> Option<Point> {
        if self.area.boxes_apart(other) > self.out {
            return None;
        }
        let pair = self.area.nearest(other)?;
        let depth = self.out - pair.distance;
        let meets = depth > HAIR || touching && depth >= 0.0;
        meets.then_some(pair.to)
    }
}

/// Everything that reaches where it must not: the shell first, what stands on the ground last.
pub(super) fn beyond(site: &CheckedSite, work: &WorkFigures) -> Vec<Finding> {
    let ready = |area| Measurable::of(Figure::Area(area));
    let lot = ready(&site.lot().region);
    let [water, dig, drawn] = [&work.waters_edge, &work.dig, &work.drawn_decks].map(ready);
    let pad = work.equipment.as_ref().map(ready);
    let parts = parts(site, work, [&water, &dig, &drawn], pad.as_ref());
    let mut found = Vec::new();
    for part in &parts {
        lot_lines(site, part, &lot, &mut found);
    }
    let shell = parts.iter().find(|it| it.part == Part::Shell);
    if let (Some(pad), Some(shell)) = (&pad, shell) {
        found.extend(shell.reaches(pad, false).map(in_the_shell));
    }
    for feature in site.features().iter() {
        conflicts(site, &parts, feature, &mut found);
    }
    found
}

/// The parts of the work that are there.
fn parts<'a>(
    site: &CheckedSite,
    work: &WorkFigures,
    [water, dig, drawn]: [&'a Measurable<'a>; 3],
    pad: Option<&'a Measurable<'a>>,
) -> Vec<Figured<'a>> {
    let it = |part, area, out| Figured { part, area, out };
    let mut parts = Vec::new();
    if !work.waters_edge.polygons.is_empty() {
        parts.push(it(Part::Shell, water, work.rim));
        parts.push(it(Part::Dig, dig, 0.0));
        parts.extend(poured(site, work).map(|(part, out)| it(part, water, out)));
    }
    if !work.drawn_decks.polygons.is_empty() {
        parts.push(it(Part::DrawnDeck, drawn, 0.0));
    }
    parts.extend(pad.map(|pad| it(Part::Equipment, pad, 0.0)));
    parts
}

/// Whatever is poured round the rim, and how far outside the water's edge it reaches, meters: the
/// wider of collar and deck.
pub(crate) fn poured(site: &CheckedSite, work: &WorkFigures) -> Option<(Part, f64)> {
    let collar = work.rim + site.site().works.collar.width;
    if work.deck_edge >= collar && work.deck_edge > work.rim {
        Some((Part::Deck, work.deck_edge))
    } else {
        (collar > work.rim).then_some((Part::Collar, collar))
    }
}

/// A part of the work over a lot line.
fn lot_lines(
    site: &CheckedSite,
    part: &Figured<'_>,
    whole: &Measurable<'_>,
    found: &mut Vec<Finding>,
) {
    let lot = site.lot();
    let within = part.area.within(whole);
    for (side, chain) in lot.lot.sides.iter().zip(&lot.sides) {
        if within.is_clear_of(chain, part.out) {
            continue;
        }
        let Some(pair) = within.nearest(chain) else {
            continue;
        };
        if pair.distance - part.out < -HAIR {
            let message = said!(
                "The {part} reaches {length} over the {side}.",
                part = part.part.words(),
                length = length(site, part.out - pair.distance),
                side = side.label.clone(),
            );
            let remedy = "Move the shell or make the work narrower: nothing is built or dug on \
                          land that is not the owner's.";
            let finding = Finding::fault(part.part.beyond(), message, remedy);
            found.push(placed(finding, part.part.pointer(), pair.to));
        }
    }
}

/// The shell where the equipment pad stands.
fn in_the_shell(at: Point) -> Finding {
    let message = "The equipment pad lies in the shell.";
    let finding = Finding::fault("equipment-in-shell", message, "Move the pad or the shell.");
    placed(finding, Part::Equipment.pointer(), at)
}

/// Every part of the work that reaches into a feature. The shell speaks of what is in its way
/// only where the hole does not.
fn conflicts(
    site: &CheckedSite,
    parts: &[Figured<'_>],
    feature: &CheckedFeature,
    found: &mut Vec<Finding>,
) {
    if feature.kind.is_planned() {
        return;
    }
    let trunk = match feature.kind {
        FeatureKind::Tree => Some(trunk(feature)),
        _ => None,
    };
    let figure = match &trunk {
        Some(Trunk::Told(figure)) => Measurable::of(*figure),
        Some(Trunk::Middle(at)) => Measurable::of(Figure::Chain(std::slice::from_ref(at))),
        None => Measurable::of(feature.shape.figure()),
    };
    let mut dug = false;
    // The hole is looked at before the shell inside it.
    let shell_last = [Part::Dig, Part::Shell];
    let holes = shell_last
        .iter()
        .filter_map(|part| parts.iter().find(|it| it.part == *part));
    let others = parts.iter().filter(|it| !shell_last.contains(&it.part));
    for part in holes.chain(others) {
        let Some(conflict) = conflict(part.part, feature.kind) else {
            continue;
        };
        let easement = feature.kind == FeatureKind::Easement;
        if part.part == Part::Shell && dug && !easement {
            continue;
        }
        // What a hole merely touches is in its way; the land of an easement ends at its edge.
        let touching = part.part == Part::Dig && !easement;
        let Some(at) = part.reaches(&figure, touching) else {
            continue;
        };
        dug |= part.part == Part::Dig;
        let message = said!(
            "The {part} {does} {thing}.",
            part = part.part.words(),
            does = conflict.verb,
            thing = feature.named(&site.site().features),
        );
        let finding = Finding::new(conflict.severity, conflict.code, message, conflict.remedy);
        // What an easement forbids is mended at the work, whatever else where it stands.
        let pointer = match easement {
            true => part.part.pointer().to_owned(),
            false => format!("/features/{}", feature.index),
        };
        found.push(placed(finding, &pointer, at));
    }
}

/// Where a tree's trunk stands.
pub(crate) enum Trunk<'a> {
    /// Its diameter is told.
    Told(Figure<'a>),
    /// The middle of its crown.
    Middle(Point),
}

/// Where the trunk of a tree stands, for what may not be dug there.
pub(crate) fn trunk(feature: &CheckedFeature) -> Trunk<'_> {
    let told = feature
        .parts
        .iter()
        .find(|p| p.part == FeaturePart::TreeTrunk);
    if let Some(trunk) = told {
        return Trunk::Told(trunk.figure());
    }
    let figure = feature.shape.figure();
    let middle = match figure {
        Figure::Area(region) => region.centroid(),
        Figure::Chain(_) => None,
    };
    middle.map_or(Trunk::Told(figure), Trunk::Middle)
}

fn placed(finding: Finding, pointer: &str, at: Point) -> Finding {
    finding
        .about(Topic::Verdict)
        .scoped(Scope::Placement)
        .under(pointer)
        .at(at.x, at.y)
}

fn length(site: &CheckedSite, metres: f64) -> String {
    show(Measure::Length, metres, site.site().display).text
}
