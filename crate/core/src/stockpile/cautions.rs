//! What is said of a pile and its place.

use super::Chosen;
use super::heap::Heap;
use super::obstacles::{Obstacle, Obstacles, Space, Weight, Work};
use super::place::greatest;
use crate::finding::said;
use crate::finding::{Finding, Message, Scope, Topic};
use crate::geom::Point;
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// A reach smaller than this is rounding, meters: the search goes no finer.
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
    let pile = Pile {
        site,
        radius: heap.radius,
        at,
        chosen,
    };
    let mut found = Vec::new();
    found.extend(pile.over_lot_line(obstacles));
    found.extend(pile.in_work(work));
    found.extend(pile.on_things(obstacles));
    found.extend(pile.beyond_its_space(obstacles));
    found
}

const MOVE_OR_HAUL: &str = "Move the pile, or haul some of the spoil straight away.";

/// A pile that has a place.
struct Pile<'a> {
    site: &'a CheckedSite,
    /// Radius of its footprint, meters.
    radius: f64,
    at: Point,
    chosen: Chosen,
}

impl Pile<'_> {
    /// How far it reaches over what lies so far from its middle, in words; `None` where it does
    /// not.
    fn over(&self, distance: f64) -> Option<String> {
        let over = self.radius - distance;
        (over > HAIR).then(|| length(self.site, over))
    }

    /// Where the site file says where it lies.
    fn place(&self) -> &'static str {
        match self.chosen {
            Chosen::ByHand => "/works/spoil/at",
            Chosen::InSpace | Chosen::Nearest => "/works/spoil",
        }
    }

    fn placed(&self, finding: Finding, place: &str) -> Finding {
        let at = self.at;
        let topic = match finding.is_fault() {
            true => Topic::Verdict,
            false => Topic::Haul,
        };
        let finding = finding.about(topic).scoped(Scope::Placement);
        finding.under(place).at(at.x, at.y)
    }

    fn in_the_way(&self, message: Message, remedy: &'static str, place: &str) -> Finding {
        let finding = Finding::caution("pile-in-the-way", message, remedy);
        self.placed(finding, place)
    }

    /// On land that is not the owner's, or on what cannot bear it.
    fn at_fault(&self, code: &'static str, message: Message, place: &str) -> Finding {
        let finding = Finding::fault(code, message, MOVE_OR_HAUL);
        self.placed(finding, place)
    }

    fn over_lot_line(&self, obstacles: &Obstacles) -> Option<Finding> {
        let out = self.over(obstacles.within_lot(self.at))?;
        let message = said!(
            "The spoil pile reaches {length} over the lot line.",
            length = out
        );
        Some(self.at_fault("pile-beyond-lot", message, self.place()))
    }

    fn in_work(&self, work: &Work) -> Vec<Finding> {
        let back = || length(self.site, self.site.site().works.spoil.back);
        let caution = |(what, distance)| {
            let over = self.over(distance)?;
            let (message, remedy) = match what {
                "the dig" => (
                    said!(
                        "The spoil pile comes {length} nearer to the edge of the dig than the {back} \
                         to be kept.",
                        length = over,
                        back = back(),
                    ),
                    "Move the pile back: its weight can bring the side of the hole down \
                     (29 CFR 1926.651(j)(2)).",
                ),
                _ => (
                    said!(
                        "The spoil pile reaches {length} into {thing}.",
                        length = over,
                        thing = what,
                    ),
                    MOVE_OR_HAUL,
                ),
            };
            Some(self.in_the_way(message, remedy, self.place()))
        };
        work.named(self.at)
            .into_iter()
            .filter_map(caution)
            .collect()
    }

    fn on_things(&self, obstacles: &Obstacles) -> Vec<Finding> {
        let say = |(it, distance): (&Obstacle, f64)| {
            let over = self.over(distance)?;
            let label = || it.label.clone();
            let note = |check, message: Message, remedy: &'static str| {
                self.placed(Finding::note(check, message, remedy), self.place())
            };
            let into = || {
                said!(
                    "The spoil pile reaches {length} into {thing}.",
                    length = over.clone(),
                    thing = label(),
                )
            };
            let place = match self.chosen {
                Chosen::ByHand => self.place(),
                Chosen::InSpace | Chosen::Nearest => &it.place,
            };
            Some(match it.weight {
                _ if it.harmed => self.at_fault("pile-on-structure", into(), place),
                Weight::Bar => self.in_the_way(into(), MOVE_OR_HAUL, place),
                Weight::Avoid => note(
                    "pile-better-elsewhere",
                    said!(
                        "The spoil pile lies on, or under, {thing}.",
                        thing = label()
                    ),
                    "Keep the way free for trucks and machines clear of wires, or say that it is \
                     meant so.",
                ),
                Weight::Note => note(
                    "pile-over-line",
                    said!("The spoil pile lies over {thing}.", thing = label()),
                    "Have the line marked before machines load there, and tell its owner.",
                ),
            })
        };
        obstacles.each(self.at).filter_map(say).collect()
    }

    /// Where it was to lie in room drawn for it, and the largest of that is too small.
    fn beyond_its_space(&self, obstacles: &Obstacles) -> Option<Finding> {
        if self.chosen != Chosen::InSpace {
            return None;
        }
        let within = |space: &Space| -space.area.distance(self.at, f64::INFINITY);
        let rooms = obstacles.spaces().iter().map(|it| (within(it), it));
        let (within, space) = rooms.reduce(|best, it| if best.0 >= it.0 { best } else { it })?;
        self.over(within)?;
        let spoil = &self.site.site().works.spoil;
        let holds = Heap::volume_on(within, spoil.repose, spoil.most_height);
        let message = said!(
            "The spoil makes a pile {across} across; {room} holds one {most} across, {volume} of loose \
             soil.",
            across = length(self.site, 2.0 * self.radius),
            room = space.label.clone(),
            most = length(self.site, 2.0 * within.max(0.0)),
            volume = earth(self.site, holds),
        );
        let remedy = "Draw more room for it, let it stand higher, or haul some of the spoil \
                      straight away.";
        let finding = Finding::caution("pile-too-large", message, remedy);
        Some(self.placed(finding, &space.place))
    }
}

/// No place on the lot.
fn nowhere(site: &CheckedSite, heap: &Heap, obstacles: &Obstacles, work: &Work) -> Finding {
    let across = length(site, 2.0 * heap.radius);
    let spoil = &site.site().works.spoil;
    let most = match greatest(obstacles, work) {
        Some(best) => said!(
            "The most there is room for is one {across} across, {volume} of loose soil.",
            across = length(site, 2.0 * best.radius),
            volume = earth(
                site,
                Heap::volume_on(best.radius, spoil.repose, spoil.most_height)
            ),
        ),
        None => said!("There is no room for any."),
    };
    let message = said!(
        "The spoil makes a pile {across} across, and nowhere on the lot does it fit clear of the \
         dig, the work and what stands there. {most}",
        across = across,
        most = most,
    );
    let remedy = "Haul the rest straight away, pile a smaller share, let the pile stand higher, or \
                  find room elsewhere with its owner's leave.";
    Finding::caution("pile-fits-nowhere", message, remedy)
        .about(Topic::Haul)
        .scoped(Scope::Placement)
        .under("/works/spoil/piled")
}

fn length(site: &CheckedSite, metres: f64) -> String {
    show(Measure::Length, metres, site.site().display).text
}

fn earth(site: &CheckedSite, volume: f64) -> String {
    show(Measure::EarthVolume, volume, site.site().display).text
}
