//! What is said of a pile and its place.

use super::Chosen;
use super::heap::Heap;
use super::obstacles::{Obstacles, Weight, Work};
use super::place::greatest;
use crate::finding::{Finding, Topic};
use crate::geom::Point;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// A reach smaller than this is rounding, metres: the search goes no finer.
const HAIR: f64 = 0.005;

pub(super) fn findings(
    site: &CheckedSite,
    heap: &Heap,
    at: Option<Point>,
    chosen: Chosen,
    obstacles: &Obstacles,
    work: &Work,
) -> Vec<Finding> {
    let Some(at) = at else {
        return vec![nowhere(site, heap, obstacles, work)];
    };
    let mut found = Vec::new();
    let radius = heap.radius;
    let mut say = |check, severe: bool, message: String, remedy: &str, place: &str| {
        let finding = if severe {
            Finding::caution(check, message, remedy)
        } else {
            Finding::note(check, message, remedy)
        };
        found.push(finding.about(Topic::Haul).under(place).at(at.x, at.y));
    };
    let by_hand = chosen == Chosen::ByHand;
    let own = if by_hand {
        "/works/spoil/at"
    } else {
        "/works/spoil"
    };
    let out = radius - obstacles.within_lot(at);
    if out > HAIR {
        let message = format!(
            "The spoil pile reaches {} over the lot line.",
            length(site, out)
        );
        let remedy = "Move the pile, or haul some of the spoil straight away.";
        say("pile-in-the-way", true, message, remedy, own);
    }
    for (what, distance) in work.named(at) {
        let short = radius - distance;
        if short <= HAIR {
            continue;
        }
        let (message, remedy) = if what == "the dig" {
            let back = length(site, site.site().works.spoil.back);
            (
                format!(
                    "The spoil pile comes {} nearer to the edge of the dig than the {back} that \
                     are kept.",
                    length(site, short)
                ),
                "Move the pile back: its weight can bring the side of the hole down \
                 (29 CFR 1926.651(j)(2)).",
            )
        } else {
            (
                format!(
                    "The spoil pile reaches {} into {what}.",
                    length(site, short)
                ),
                "Move the pile, or haul some of the spoil straight away.",
            )
        };
        say("pile-in-the-way", true, message, remedy, own);
    }
    for (it, distance) in obstacles.each(at) {
        let short = radius - distance;
        if short <= HAIR {
            continue;
        }
        match it.weight {
            Weight::Bar => say(
                "pile-in-the-way",
                true,
                format!(
                    "The spoil pile reaches {} into {}.",
                    length(site, short),
                    it.label
                ),
                "Move the pile, or haul some of the spoil straight away.",
                if by_hand { own } else { &it.place },
            ),
            Weight::Avoid => say(
                "pile-better-elsewhere",
                false,
                format!("The spoil pile lies on, or under, {}.", it.label),
                "Keep the way free for trucks and machines clear of wires, or say that it is meant \
                 so.",
                own,
            ),
            Weight::Note => say(
                "pile-over-line",
                false,
                format!("The spoil pile lies over {}.", it.label),
                "Have the line marked before machines load there, and tell its owner.",
                own,
            ),
        }
    }
    if chosen == Chosen::InSpace {
        let spaces = obstacles.spaces().iter();
        let room = |p: Point| {
            spaces.fold(None, |best: Option<(f64, _)>, space| {
                let within = -space.area.distance(p, f64::INFINITY);
                match best {
                    Some(best) if best.0 >= within => Some(best),
                    _ => Some((within, space)),
                }
            })
        };
        if let Some((within, space)) = room(at)
            && radius - within > HAIR
        {
            let spoil = &site.site().works.spoil;
            let holds = Heap::volume_on(within, spoil.repose, spoil.most_height);
            let message = format!(
                "The spoil makes a pile {} across; {} holds one {} across, {} of loose soil.",
                length(site, 2.0 * radius),
                space.label,
                length(site, 2.0 * within.max(0.0)),
                earth(site, holds),
            );
            let remedy = "Draw more room for it, let it stand higher, or haul some of the spoil \
                          straight away.";
            say("pile-too-large", true, message, remedy, &space.place);
        }
    }
    found
}

/// No place on the lot.
fn nowhere(site: &CheckedSite, heap: &Heap, obstacles: &Obstacles, work: &Work) -> Finding {
    let across = length(site, 2.0 * heap.radius);
    let spoil = &site.site().works.spoil;
    let most = match greatest(obstacles, work) {
        Some(best) => format!(
            "The most there is room for is one {} across, {} of loose soil.",
            length(site, 2.0 * best.radius),
            earth(
                site,
                Heap::volume_on(best.radius, spoil.repose, spoil.most_height)
            ),
        ),
        None => "There is no room for any.".to_owned(),
    };
    let message = format!(
        "The spoil makes a pile {across} across, and nowhere on the lot does it fit clear of the \
         dig, the work and what stands there. {most}"
    );
    let remedy = "Haul the rest straight away, pile a smaller share, let the pile stand higher, or \
                  find room elsewhere with its owner's leave.";
    Finding::caution("pile-fits-nowhere", message, remedy)
        .about(Topic::Haul)
        .under("/works/spoil/piled")
}

fn length(site: &CheckedSite, metres: f64) -> String {
    show(Measure::Length, metres, site.site().display).text
}

fn earth(site: &CheckedSite, volume: f64) -> String {
    show(Measure::EarthVolume, volume, site.site().display).text
}
