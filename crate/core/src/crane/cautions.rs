//! What is said of a lift.

use super::wire::{Approach, Voltage};
use super::{CranePlan, Passed};
use crate::finding::Finding;
use crate::geom::distance::{Figure, nearest};
use crate::site::{CheckedSite, CraneSettings, FeatureKind, Lift};
use crate::units::{Measure, System, show};

/// Everything worth knowing.
pub(super) fn all(site: &CheckedSite, lift: &Lift, plan: &CranePlan) -> Vec<Finding> {
    let mut list = Vec::new();
    if site.placed_shell().is_none() {
        list.push(Finding::note(
            "lift-no-shell",
            "A lift needs a shell, and none is placed yet.",
            "Choose a shell and place it.",
        ));
        return list;
    }
    if lift.crane.is_none() {
        return list;
    }
    if lift.delivery.is_none() {
        list.push(Finding::note(
            "lift-no-truck",
            "What the shell passes over is not known: nobody said where it is delivered.",
            "Place the truck.",
        ));
    }
    let system = site.site().display;
    for it in &plan.wires {
        list.extend(wire(it, system));
    }
    for it in &plan.passed {
        list.extend(passed(it, &site.site().works.crane, system));
    }
    ground(site, plan, &mut list);
    let assumed = site.site().works.crane == CraneSettings::default();
    if assumed {
        list.push(Finding::note(
            "lift-sizes-assumed",
            "Outriggers, pads, weights and heights of the crane are common practice with no source.",
            "Enter those of the crane that comes.",
        ));
    }
    if plan.load.is_some_and(|it| it.shell.is_none()) {
        list.push(Finding::caution(
            "lift-weight",
            "The weight of the shell is not known, so neither load nor bearing can be given.",
            "Ask its maker, and enter it with the crane.",
        ));
    }
    list.push(Finding::caution(
        "lift-chart",
        "Radius and weight are to be read off to the crane company. What the crane may lift stands in its own chart; \
         boom, tail and rigging are not modeled here.",
        "A qualified person plans the lift, and the operator decides on the day.",
    ));
    list
}

/// How near a wire is.
fn wire(it: &Approach, system: System) -> Option<Finding> {
    let shown = |value: f64| show(Measure::Length, value, system).text;
    let place = format!("/features/{}", it.feature);
    let how = if it.on_plan {
        "on the plan, its height not entered"
    } else {
        "in space, the line taken level at its lowest point"
    };
    let near = format!(
        "{} comes within {} of {} ({how})",
        capital(it.part.words()),
        shown(it.distance),
        it.name
    );
    let utility = "Move the crane or the truck, lower the lift, or have the utility de-energize and ground the line \
                   or say what else makes it safe.";
    let finding = match (it.required, it.voltage) {
        (_, Voltage::NoPower) if it.distance > 3.0 * crate::units::constants::FOOT => return None,
        (_, Voltage::NoPower) => Finding::caution(
            "lift-line",
            format!("{near}."),
            "It carries no power as entered: make sure of that, and keep the load off it.",
        ),
        (Some(required), Voltage::Unknown) if it.distance < required => Finding::caution(
            "lift-wire-voltage",
            format!(
                "{near}, and its voltage is not entered; from {} on it has to be known (29 CFR 1926.1408(a)).",
                shown(required)
            ),
            "Ask the utility for the voltage and enter it on the line's card.",
        ),
        (None, _) => Finding::caution(
            "lift-wire-voltage",
            format!("{near}. Over 1,000 kV the utility or an engineer sets the least distance."),
            "Ask the utility (29 CFR 1926.1408 Table A).",
        ),
        (Some(required), _) if it.distance < required => Finding::fault(
            "lift-near-wire",
            format!(
                "{near}; {} is the least (29 CFR 1926.1408 Table A).",
                shown(required)
            ),
            utility,
        ),
        _ if it.distance < it.zone => Finding::caution(
            "lift-wire-zone",
            format!(
                "{near}; from {} on the work zone has to be looked at beforehand (29 CFR 1926.1408 and 1409).",
                shown(it.zone)
            ),
            "Mark a boundary and have somebody watch it, or ask the utility to de-energize the line.",
        ),
        _ => return None,
    };
    Some(finding.under(&place).at(it.at.x, it.at.y))
}

/// A sentence's first letter.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// What the shell passes over.
fn passed(it: &Passed, settings: &CraneSettings, system: System) -> Option<Finding> {
    let shown = |value: f64| show(Measure::Length, value, system).text;
    let place = format!("/features/{}", it.feature);
    let home = matches!(it.kind, FeatureKind::House | FeatureKind::Outbuilding);
    let finding = match (it.room, it.height) {
        (Some(room), Some(height)) if room < settings.room_below => Finding::caution(
            "lift-too-low",
            format!(
                "The shell passes over {}, {} high, with {} under it; {} is wanted.",
                it.name,
                shown(height),
                shown(room),
                shown(settings.room_below)
            ),
            "Lift it higher, or take it round.",
        ),
        (None, _) => Finding::caution(
            "lift-height-unknown",
            format!(
                "The shell passes over {}, and its height is not entered.",
                it.name
            ),
            "Enter its height, chimneys and antennas included, on its card.",
        ),
        _ if home => Finding::caution(
            "lift-over-house",
            format!("The shell passes over {}.", it.name),
            "Nobody stays inside or under the load while it is in the air.",
        ),
        _ => return None,
    };
    Some(finding.under(&place).at(it.at.x, it.at.y))
}

/// What the outriggers stand on and beside.
fn ground(site: &CheckedSite, plan: &CranePlan, list: &mut Vec<Finding>) {
    let Some(stand) = &plan.stand else { return };
    let system = site.site().display;
    let shown = |value: f64| show(Measure::Length, value, system).text;
    use FeatureKind as K;
    for feature in site.features().iter() {
        let on = stand.pads.iter().any(|pad| {
            let near = nearest(Figure::Area(pad), feature.shape.figure());
            near.is_some_and(|it| it.distance <= 0.0)
        });
        if !on {
            continue;
        }
        let label = feature.label(&site.site().features);
        let remedy = match feature.kind {
            K::BuriedLine => {
                "Move the crane, or learn how deep it lies and what may stand over it."
            }
            K::SepticTank | K::SepticField | K::Well => {
                "Move the crane: it is crushed or caves in."
            }
            K::House
            | K::Outbuilding
            | K::Wall
            | K::Fence
            | K::Tree
            | K::Equipment
            | K::Watercourse
            | K::Other => "Move the crane.",
            K::Driveway | K::Walk => "Paving may crack or break through: use larger pads.",
            _ => continue,
        };
        let message = format!("An outrigger stands on {label}.");
        let finding = Finding::caution("lift-outrigger", message, remedy);
        list.push(finding.under(&format!("/features/{}", feature.index)));
    }
    let deepest = site.placed_shell().map(|(shell, _)| shell.deepest());
    if let (Some(to_dig), Some(deepest)) = (stand.to_dig, deepest)
        && to_dig < deepest
    {
        let far = if to_dig > 0.0 {
            format!(
                "{} from the top of the dig, nearer than the dig is deep",
                shown(to_dig)
            )
        } else {
            "over the dig".to_owned()
        };
        list.push(Finding::caution(
            "lift-beside-dig",
            format!("An outrigger stands {far}."),
            "Keep it back, or have a competent person say that the side of the hole holds it.",
        ));
    }
    let pressure = plan.bearing.map_or_else(String::new, |it| {
        let shown = show(Measure::Pressure, it.pressure, system).text;
        format!(" It has to carry {shown} under the pad of an outrigger.")
    });
    list.push(Finding::caution(
        "lift-ground",
        format!("Nobody measured what the ground carries where the crane stands.{pressure}"),
        "The load of an outrigger is an estimate until the crane company gives its own; ground that is soft, filled or \
         beside a trench needs larger pads or another place.",
    ));
}
