//! What the way crosses, what was assumed, and what nobody measured.

use super::passage::Passage;
use super::{Ground, Way, WayIn};
use crate::finding::Finding;
use crate::geom::distance::{Figure, nearest};
use crate::math::{greater, lesser};
use crate::site::facts::usual_protection;
use crate::site::{AccessSettings, CheckedFeature, FeatureKind};
use crate::units::{Measure, show};

/// Nobody said which side is the street.
pub(super) fn no_street() -> Finding {
    Finding::caution(
        "way-no-street",
        "No way in can be measured: no side of the lot lies on a street.",
        "Set the kind of the front line, or draw the edge of the street or a driveway that reaches it.",
    )
    .under("/lot")
}

/// Nothing to go to.
pub(super) fn no_shell() -> Finding {
    Finding::note(
        "way-no-shell",
        "The way in leads to the dig, and no shell is placed yet.",
        "Choose a shell and place it.",
    )
}

/// Everything worth knowing.
pub(super) fn all(ground: &Ground<'_>, way: Option<&Way>, found: &WayIn) -> Vec<Finding> {
    let mut list = Vec::new();
    if let Some(way) = way {
        width(ground, way, found, &mut list);
        crossed(ground, way, &found.passages, &mut list);
    }
    turns(&found.passages, &mut list);
    assumed(ground, way, &mut list);
    list.push(Finding::caution(
        "way-ground",
        "Nobody measured what the ground carries under the way; soft, wet or freshly filled ground, and \
         whatever is buried in it, may not bear a machine or a loaded truck.",
        "Walk it with whoever drives, lay mats or stone where it is soft, and have buried lines marked first.",
    ));
    list
}

/// Whether the way is open, and how well it is known.
fn width(ground: &Ground<'_>, way: &Way, found: &WayIn, list: &mut Vec<Finding>) {
    let system = ground.site.site().display;
    let shown = |value: f64| show(Measure::Length, value, system).text;
    if way.is_closed() {
        let fences: Vec<&str> = found.removals.iter().map(|it| it.name.as_str()).collect();
        let (message, remedy) = match fences.first() {
            Some(fence) => (
                format!("No way in is open: {fence} closes the yard off."),
                "Place its gate on the plan, or plan for a panel to be taken out.".to_owned(),
            ),
            None => (
                "No way in is open, and no single fence or wall taken out opens one.".to_owned(),
                "Check what is drawn between street and dig, place the gates, or plan to come in by crane."
                    .to_owned(),
            ),
        };
        list.push(Finding::caution("way-closed", message, remedy));
        return;
    }
    for it in found.passages.iter().filter(|it| !it.fits()) {
        let Some(room) = it.room() else { continue };
        let between = it.way.as_ref().and_then(|way| way.pinch.as_ref());
        let between = between.map_or_else(String::new, super::Pinch::place);
        let low = if it.low { " at that height" } else { "" };
        let message = format!(
            "{}: {} short at the pinch{low}, {between}; it needs {}.",
            it.who.words(),
            shown(-room),
            shown(it.needed),
        );
        let remedy = "Widen the way there, bring a smaller machine, or plan for the crane.";
        let at = it.way.as_ref().and_then(|way| way.pinch.as_ref());
        let at = at.map(|pinch| pinch.ends[0].midpoint(pinch.ends[1]));
        let finding = Finding::caution("way-too-narrow", message, remedy);
        list.push(match at {
            Some(at) => finding.at(at.x, at.y),
            None => finding,
        });
    }
}

/// Bends that are too tight.
fn turns(passages: &[Passage], list: &mut Vec<Finding>) {
    for it in passages.iter().filter(|it| it.fits() && !it.turns()) {
        let Some(bend) = it.bends.iter().find(|bend| !bend.is_clear()) else {
            continue;
        };
        let message = format!(
            "{}: a bend of the way is tighter than its turning allows along the line drawn.",
            it.who.words()
        );
        let remedy = "The swept width is that of a steady turn from wheelbase and radius; have whoever drives look \
                      at it on the site.";
        let finding = Finding::caution("way-bend", message, remedy);
        list.push(finding.at(bend.at.x, bend.at.y));
    }
}

/// What lies on or under the way.
fn crossed(ground: &Ground<'_>, way: &Way, passages: &[Passage], list: &mut Vec<Finding>) {
    if way.line.len() < 2 {
        return;
    }
    let machines = passages.iter().filter(|it| !it.who.is_shell());
    let widest = machines.map(|it| it.needed).fold(0.0, greater);
    let half = lesser(widest, way.width()) / 2.0;
    for feature in ground.site.features().iter() {
        let near = |figure: Figure<'_>| {
            nearest(Figure::Chain(&way.line), figure).filter(|it| it.distance <= half)
        };
        let figure = feature.shape.figure();
        let roots = roots(ground, feature);
        let on = match &roots {
            Some((middle, radius)) => {
                let line = nearest(Figure::Chain(&way.line), Figure::Chain(&[*middle]));
                line.filter(|it| it.distance <= half + radius)
            }
            None => near(figure),
        };
        let Some(on) = on else { continue };
        let label = feature.label(&ground.site.site().features);
        if let Some(finding) = crossing(ground, feature, label) {
            let place = format!("/features/{}", feature.index);
            list.push(finding.under(&place).at(on.from.x, on.from.y));
        }
        if feature.kind == FeatureKind::Tree {
            branches(ground, feature, &way.line, half, list);
        }
    }
}

/// The ring of a tree's roots: its middle and radius, meters.
fn roots(ground: &Ground<'_>, feature: &CheckedFeature) -> Option<(crate::geom::Point, f64)> {
    if feature.kind != FeatureKind::Tree {
        return None;
    }
    let middle = match feature.shape.figure() {
        Figure::Area(region) => region.centroid()?,
        Figure::Chain(_) => return None,
    };
    let facts = &ground.site.site().features.get(feature.index)?.facts;
    let ring = facts
        .protection
        .or_else(|| facts.trunk.map(usual_protection));
    let crown = || match feature.shape.figure() {
        Figure::Area(region) => {
            let rim = region.rings().flat_map(|it| it.0.iter());
            rim.map(|p| p.distance(middle)).fold(0.0, greater)
        }
        Figure::Chain(_) => 0.0,
    };
    Some((middle, ring.unwrap_or_else(crown)))
}

/// What is said of a thing that the way crosses.
fn crossing(ground: &Ground<'_>, feature: &CheckedFeature, label: &str) -> Option<Finding> {
    use FeatureKind as K;
    let site = ground.site.site();
    let facts = &site.features.get(feature.index)?.facts;
    let shown = |value: f64| show(Measure::Length, value, site.display).text;
    let caution =
        |code, message: String, remedy: &'static str| Some(Finding::caution(code, message, remedy));
    match feature.kind {
        K::SepticField | K::SepticTank => caution(
            "way-septic",
            format!("The way in runs over {label}."),
            "Keep wheels and tracks off it: a crushed field or tank is the owner's loss. Go round it, or ask whoever \
             looks after the system.",
        ),
        K::BuriedLine => caution(
            "way-buried",
            format!("The way in crosses {label}."),
            "Have it marked, learn how deep it lies, and bridge it with mats or plates where its owner asks for that.",
        ),
        K::Tree => caution(
            "way-roots",
            format!("The way in runs over the roots of {label}."),
            "Lay mats or keep outside the protected ring; an arborist or the authority may ask for more.",
        ),
        K::Walk => caution(
            "way-walk",
            format!("The way in crosses {label}."),
            "Paving for feet may crack under a machine: lay mats, or agree beforehand who mends it.",
        ),
        K::Easement => Some(Finding::note(
            "way-easement",
            format!("The way in runs through {label}."),
            "Ask whoever holds it before machines or piles stand there.",
        )),
        K::OverheadLine => {
            let tallest = ground.site.site().works.access;
            let tallest = greater(
                greater(tallest.truck.height, tallest.excavator.height),
                tallest.skid_loader.height,
            );
            let message = match facts.height {
                Some(height) => format!(
                    "The way in passes under {label}, lowest {} above the ground; the tallest machine is {}.",
                    shown(height),
                    shown(tallest)
                ),
                None => format!("The way in passes under {label}, and its height is not entered."),
            };
            caution(
                "way-wire",
                message,
                "Keep booms and beds down under it and ask the utility how near a machine may come (29 CFR 1926.1411 \
                 Table T for equipment that travels without a load: 4 ft to 0.75 kV, 6 ft to 50 kV, 10 ft to 345 kV).",
            )
        }
        _ => None,
    }
}

/// Branches over the way whose height nobody entered.
fn branches(
    ground: &Ground<'_>,
    feature: &CheckedFeature,
    line: &[crate::geom::Point],
    half: f64,
    list: &mut Vec<Finding>,
) {
    let Some(record) = ground.site.site().features.get(feature.index) else {
        return;
    };
    let under = nearest(Figure::Chain(line), feature.shape.figure());
    if record.facts.clear_height.is_some() || under.is_none_or(|it| it.distance > half) {
        return;
    }
    let message = format!(
        "The way in passes under {}, and the height of its lowest branches is not entered.",
        record.label()
    );
    let remedy = "Measure it and enter it on the tree's card.";
    let finding = Finding::caution("way-branches", message, remedy);
    list.push(finding.under(&format!("/features/{}", feature.index)));
}

/// What was taken because nobody said otherwise.
fn assumed(ground: &Ground<'_>, way: Option<&Way>, list: &mut Vec<Finding>) {
    let bars = &ground.bars;
    let system = ground.site.site().display;
    if !bars.no_trunk.is_empty() {
        let trunk = show(Measure::Length, super::ASSUMED_TRUNK, system).text;
        list.push(Finding::note(
            "way-trunk-assumed",
            format!(
                "Trunk not entered, taken as {trunk} across: {}.",
                bars.no_trunk.join(", ")
            ),
            "Enter the trunk on the tree's card.",
        ));
    }
    if !bars.by_kind {
        list.push(Finding::note(
            "way-street-assumed",
            "The side on the street is taken from the edge of the street or the driveway on the plan.",
            "Set the kinds of the sides.",
        ));
    }
    if ground.site.site().works.access == AccessSettings::default() {
        list.push(Finding::note(
            "way-sizes-assumed",
            "The sizes of machines, and how the shell is carried, are common practice with no source.",
            "Enter those of your own.",
        ));
    }
    let at_house = |index: &Option<usize>| {
        let feature = index.and_then(|it| ground.site.site().features.get(it));
        feature.is_some_and(|it| {
            matches!(it.kind, FeatureKind::House | FeatureKind::Outbuilding)
                && (it.facts.clear_height.is_none() || it.facts.overhang.is_none())
        })
    };
    let pinch = way.and_then(|it| it.pinch.as_ref());
    if pinch.is_some_and(|it| !it.at_goal && it.features.iter().any(at_house)) {
        list.push(Finding::note(
            "way-eaves",
            "The pinch is measured to a wall, and its eaves are not entered.",
            "Measure how far the eaves reach out and how high they are, and enter both on its card.",
        ));
    }
}
