//! What is wrong with a layout, or worth knowing before anybody stands at the edge of a hole.

use super::StakeoutPlan;
use super::as_set::ENOUGH;
use super::sight::Obstacles;
use super::taped::Fix;
use crate::finding::said;
use crate::finding::{Finding, Message, Scope, Topic};
use crate::geom::Point;
use crate::site::CheckedSite;
use crate::units::{Measure, System, show};

/// So many names are told before the rest are counted.
const NAMED: usize = 8;

/// Everything there is to say of a layout. `bottoms`: how many readings of the bottom there are.
pub(super) fn all(
    plan: &StakeoutPlan<'_>,
    site: &CheckedSite,
    obstacles: &Obstacles<'_>,
    bottoms: usize,
) -> Vec<Finding> {
    let mut told = Told {
        system: site.site().display,
        found: Vec::new(),
    };
    every_job(plan, &mut told);
    tapes(plan, &mut told);
    offsets(plan, site, obstacles, &mut told);
    levels(plan, site, bottoms, &mut told);
    read_back(plan, &mut told);
    told.found
}

struct Told {
    system: System,
    found: Vec<Finding>,
}

impl Told {
    fn caution(&mut self, code: &'static str, message: Message, remedy: &'static str) {
        let finding = Finding::caution(code, message, remedy);
        self.found
            .push(finding.about(Topic::Dig).under("/stakeout"));
    }

    /// A caution about the stakes of these names, where there are any.
    fn of(
        &mut self,
        code: &'static str,
        names: &[String],
        message: impl Into<Message>,
        remedy: &'static str,
    ) {
        if names.is_empty() {
            return;
        }
        let mut list = Message::kept(names.get(..NAMED).unwrap_or(names).join(", "));
        if names.len() > NAMED {
            let count = (names.len() - NAMED).to_string();
            list = said!("{names} and {count} more", names = list, count = count);
        }
        let message = message.into();
        let message = said!("{message} {names}.", message = message, names = list);
        self.caution(code, message, remedy);
    }

    fn length(&self, metres: f64) -> String {
        show(Measure::Length, metres, self.system).text
    }
}

fn every_job(plan: &StakeoutPlan<'_>, told: &mut Told) {
    let clear = told.length(plan.settings.offset);
    let edge = Finding::caution(
        "stakes-edge",
        said!(
            "Offset stakes stand {clear} clear of the top of dig: measure and read from there, and \
             keep off the edge, which can cave in.",
            clear = clear,
        ),
        "Let nobody into the dig to set or read a stake before its sides are protected and a \
         competent person has inspected it (29 CFR 1926.652(a)(1)).",
    );
    let lines = Finding::caution(
        "stakes-locating",
        "A stake that is driven can hit a line in the ground.",
        "Call the utility-locating service and wait for its marks before driving any stake.",
    );
    for finding in [edge, lines] {
        let finding = finding.about(Topic::Dig).scoped(Scope::EveryJob);
        told.found.push(finding.under("/stakeout"));
    }
}

fn tapes(plan: &StakeoutPlan<'_>, told: &mut Told) {
    let Some(base) = &plan.base else {
        let message = if plan.settings.fixed.is_some() {
            "The two fixed points are too near to each other for a base line."
        } else {
            "No two firm points are known that tapes could be held to."
        };
        let remedy = "Choose two corners, monuments or marks on either side of the work.";
        told.caution("fixed-points-near", message.into(), remedy);
        return;
    };
    let places: Vec<(&str, Point)> = plan.places().collect();
    let names = |is_it: &dyn Fn(Point) -> bool| -> Vec<String> {
        let those = places.iter().filter(|(_, at)| is_it(*at));
        those.map(|(name, _)| (*name).to_owned()).collect()
    };
    let poor = names(&|at| !base.line.tie(at).is_sound());
    told.of(
        "stake-angle",
        &poor,
        "The tapes cross at less than 30° or more than 150° and fix poorly:",
        "Lay these out along and off the base line, or choose other fixed points (common practice, \
         no source).",
    );
    let longest = plan.settings.tape_length;
    let far = names(&|at| base.line.tie(at).tapes.iter().any(|tape| *tape > longest));
    let message = said!(
        "Farther than a tape of {length} reaches:",
        length = told.length(longest),
    );
    let remedy = "Choose nearer fixed points, or enter the length of a longer tape.";
    told.of("stake-tape-long", &far, message, remedy);
    for (k, (point, tape)) in base.points.iter().zip(["A", "B"]).enumerate() {
        let mut barred: Vec<(&Message, Vec<String>)> = Vec::new();
        for ((name, _), blocked) in places.iter().zip(&plan.blocked) {
            let Some(by) = blocked.get(k).and_then(Option::as_ref) else {
                continue;
            };
            match barred.iter_mut().find(|it| it.0 == by) {
                Some((_, names)) => names.push((*name).to_owned()),
                None => barred.push((by, vec![(*name).to_owned()])),
            }
        }
        for (by, names) in barred {
            let message = said!(
                "Tape {tape} from {point} is blocked by {thing} on its way to",
                tape = tape.to_owned(),
                point = point.name.clone(),
                thing = by.clone(),
            );
            let remedy =
                "Lay these out along and off the base line, or choose another fixed point.";
            told.of("stake-tape-blocked", &names, message, remedy);
        }
    }
}

fn offsets(
    plan: &StakeoutPlan<'_>,
    site: &CheckedSite,
    obstacles: &Obstacles<'_>,
    told: &mut Told,
) {
    let names = |is_it: &dyn Fn(&super::OffsetStake) -> bool| -> Vec<String> {
        let those = plan.offsets.iter().filter(|it| is_it(it));
        those.map(|it| it.name.clone()).collect()
    };
    let taken = names(&|it| obstacles.stand_at(it.at) || !site.lot().region.contains(it.at));
    told.of(
        "offset-stake-taken",
        &taken,
        "A structure stands in the place of an offset stake, or it lies off the lot:",
        "Set it nearer on the same line, never less than 2 ft from the top of dig (29 CFR \
         1926.651(j)(2) keeps everything else that far back), and write its distance down.",
    );
    let unknown = names(&|it| it.ground.is_none());
    told.of(
        "offset-stake-ground",
        &unknown,
        "Nobody measured the ground at some offset stakes, so their cut is not known:",
        "Read the rod on them: the cut is the reading at the bottom less the reading at the stake.",
    );
}

fn levels(plan: &StakeoutPlan<'_>, site: &CheckedSite, bottoms: usize, told: &mut Told) {
    if site.site().benchmark.is_none() && (plan.settings.backsight.is_some() || bottoms > 0) {
        told.caution(
            "no-benchmark",
            "No benchmark is entered, so rod readings have no elevation.".into(),
            "Enter the benchmark and its elevation; any mark that stays will do, with an assumed one.",
        );
    }
    let Some(setup) = &plan.setup else { return };
    let most = plan.settings.rod_length;
    let reads = |elevation: f64| (0.0..=most).contains(&setup.rod(elevation));
    let out: Vec<String> = (plan.stations.iter())
        .filter(|it| !(reads(it.floor.base) && reads(it.floor.bottom)))
        .map(|it| it.name.clone())
        .collect();
    let message = said!(
        "From this set-up the rod reads below zero or beyond its {length} at",
        length = told.length(most),
    );
    told.of(
        "rod-out-of-reach",
        &out,
        message,
        "Set the laser up higher or lower, or use a longer rod.",
    );
}

fn read_back(plan: &StakeoutPlan<'_>, told: &mut Told) {
    for taped in &plan.taped {
        let name = &taped.read.reading.stake;
        match taped.fix {
            Fix::NoBase => told.caution(
                "taped-base",
                said!(
                    "Both tapes to {stake} were held to one place.",
                    stake = name.clone(),
                ),
                "Enter where each tape was held.",
            ),
            Fix::Apart(by) => {
                let by = told.length(by);
                told.caution(
                    "taped-apart",
                    said!(
                        "The tapes to {stake} cannot meet: they are out by {length} at least.",
                        stake = name.clone(),
                        length = by,
                    ),
                    "Measure both again.",
                );
            }
            Fix::At(found) => {
                if let Some(by) = found.narrower.filter(|by| *by > plan.settings.tape_error) {
                    let by = told.length(by);
                    told.caution(
                        "hole-narrow",
                        said!(
                            "At {stake} the hole is {length} narrower than asked.",
                            stake = name.clone(),
                            length = by,
                        ),
                        "Widen it there before the shell comes: backfill has to reach all round.",
                    );
                }
                if found.miss.is_none() {
                    told.found.push(
                        Finding::note(
                            "stake-unknown",
                            said!(
                                "{stake} is no stake of this plan: there is nothing to miss.",
                                stake = name.clone(),
                            ),
                            "Give a stake by its name, or leave it as a point of its own.",
                        )
                        .about(Topic::Dig)
                        .under(&format!("/stakeout/readings/{}", taped.read.index)),
                    );
                }
            }
        }
    }
    let Some(rim) = &plan.as_set else { return };
    let (out, limit) = (rim.out_of_level, plan.settings.rim_limit);
    if out > limit {
        let (out, limit) = (told.length(out), told.length(limit));
        told.caution(
            "rim-out-of-level",
            said!(
                "The rim is out of level by {out}, more than the {limit} chosen, and it shows at the \
                 waterline.",
                out = out,
                limit = limit,
            ),
            "Lift the low end and bed it anew before backfilling (the limit is your own setting: \
             common practice, no source).",
        );
    }
    if rim.places.len() < ENOUGH {
        let count = rim.places.len();
        told.caution(
            "rim-readings",
            said!(
                "The rim was read at {count} places; {enough} or more tell tilt from twist.",
                count = count.to_string(),
                enough = ENOUGH.to_string(),
            ),
            "Read the rod all round the rim, both ends and both sides.",
        );
    }
}
