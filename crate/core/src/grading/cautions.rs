//! What belongs beside the grading: heights that somebody has to design, banks that leave the
//! lot or run into what stands there.

use super::{Bank, Grading, Height, Levels};
use crate::clearance::WorkFigures;
use crate::finding::said;
use crate::finding::{Finding, Scope, Topic};
use crate::geom::distance::{Figure, Measurable};
use crate::geom::{Edges, Point};
use crate::site::{CheckedSite, FeatureKind};
use crate::units::{Measure, show};

/// A bank this much beyond a line is rounding, meters: the lines of banks are not drawn finer.
const HAIR: f64 = 0.02;

/// Deck this near to a building runs up to it, meters (our choice).
const AT_THE_WALL: f64 = 0.1;

/// Every caution of the grading. `work` must stem from the same site.
pub fn findings(site: &CheckedSite, work: &WorkFigures, grading: &Grading) -> Vec<Finding> {
    let mut found = Vec::new();
    let limit = site.site().works.grading.retained_limit;
    found.extend(
        grading
            .stands
            .and_then(|it| retained(site, it, limit, true)),
    );
    found.extend(grading.lies.and_then(|it| retained(site, it, limit, false)));
    if !grading.closed {
        found.push(
            Finding::caution(
                "bank-not-closed",
                "A slope runs so far that it was not followed to existing grade: cut and fill are \
                 understated.",
                "Make the slopes steeper, hold the deck with a wall that an engineer designs, or move \
                 the coping nearer to existing grade.",
            )
            .about(Topic::Grading)
            .scoped(Scope::Placement)
            .under("/works/grading/bank_slope"),
        );
    }
    for (bank, what) in [(&grading.toe, "fill"), (&grading.crest, "cut")] {
        found.extend(beyond_lot(site, bank, what));
    }
    let water = Measurable::of(Figure::Area(&work.waters_edge));
    found.extend(into_features(site, work, &water, grading));
    found.extend(toward_buildings(site, work, &water));
    found
}

fn length(site: &CheckedSite, metres: f64) -> String {
    show(Measure::Length, metres, site.site().display).text
}

/// A height at the deck's edge over the limit.
fn retained(site: &CheckedSite, it: Height, limit: f64, above: bool) -> Option<Finding> {
    (it.height > limit).then(|| {
        let (height, limit) = (length(site, it.height), length(site, limit));
        let (check, stands, other) = if above {
            (
                "retained-fill",
                said!(
                    "The deck's edge stands {height} above the ground here",
                    height = height
                ),
                "Lower the coping",
            )
        } else {
            (
                "retained-cut",
                said!(
                    "The ground stands {height} above the deck's edge here",
                    height = height
                ),
                "Raise the coping",
            )
        };
        let message = said!(
            "{stands}: more than the {limit} from which it counts as retained.",
            stands = stands,
            limit = limit,
        );
        let remedy = said!(
            "{other}, move the shell, or have a licensed engineer design the wall that holds it, \
             and ask the local authority from what height a wall needs a permit.",
            other = other,
        );
        Finding::caution(check, message, remedy)
            .about(Topic::Grading)
            .scoped(Scope::Placement)
            .under("/works/grading/retained_limit")
            .at(it.at.x, it.at.y)
    })
}

/// A bank over a lot line.
fn beyond_lot(site: &CheckedSite, bank: &Bank, what: &'static str) -> Option<Finding> {
    let lot = site.lot();
    let mut farthest: Option<(f64, Point)> = None;
    let mut boundary = None;
    for p in bank.lines.iter().flatten() {
        if lot.region.contains(*p) {
            continue;
        }
        let boundary = boundary.get_or_insert_with(|| Edges::of_region(&lot.region));
        let out = boundary.distance(*p);
        if out > HAIR && farthest.is_none_or(|(most, _)| out > most) {
            farthest = Some((out, *p));
        }
    }
    let (out, at) = farthest?;
    let message = said!(
        "The {bank} slope reaches {length} over the lot line.",
        bank = what,
        length = length(site, out),
    );
    let remedy = "Make the slope steeper, move the shell or change the coping: nothing is graded on \
                  land that is not the owner's.";
    Some(
        Finding::fault("bank-beyond-lot", message, remedy)
            .about(Topic::Verdict)
            .scoped(Scope::Placement)
            .under("/works/grading/bank_slope")
            .at(at.x, at.y),
    )
}

/// Banks against what stands or lies there: looked at where it is nearest to the deck.
fn into_features(
    site: &CheckedSite,
    work: &WorkFigures,
    water: &Measurable<'_>,
    grading: &Grading,
) -> Vec<Finding> {
    let mut found = Vec::new();
    let reach = grading.toe.reach.max(grading.crest.reach);
    let Some((_, placement)) = site.placed_shell().filter(|_| reach > 0.0) else {
        return found;
    };
    let levels = Levels::of(&site.site().works);
    let edge = work.rim + levels.edge();
    for feature in site.features().iter() {
        let remedy = match feature.kind {
            FeatureKind::House | FeatureKind::Outbuilding | FeatureKind::Wall => {
                "Keep soil below the dampproofing and water away from it, or hold the slope with a \
                 wall that an engineer designs."
            }
            FeatureKind::SepticTank | FeatureKind::SepticField | FeatureKind::Well => {
                "Keep earth off it: change the coping or the slope, or ask a licensed contractor what \
                 it can carry."
            }
            FeatureKind::Watercourse => {
                "Keep earth out of it, and ask the authority that has charge of the water."
            }
            FeatureKind::Easement => {
                "Keep earth off it, or get the written consent of whoever holds the easement."
            }
            FeatureKind::Tree => {
                "Ask an arborist: earth added or taken off its roots can kill a tree."
            }
            _ => continue,
        };
        let figure = Measurable::of(feature.shape.figure());
        if water.boxes_apart(&figure) - edge > reach {
            continue;
        }
        let Some(pair) = water.nearest(&figure) else {
            continue;
        };
        let run = pair.distance - edge;
        if run > reach {
            continue;
        }
        let ground = site.ground().height(pair.to).elevation - placement.coping_elevation;
        let (top, rise) = (levels.top(levels.edge()), run.max(0.0) * levels.bank);
        let what = if ground < top - rise - HAIR {
            "fill"
        } else if ground > top + rise + HAIR {
            "cut"
        } else {
            continue;
        };
        let message = said!(
            "The {bank} slope reaches {thing}.",
            bank = what,
            thing = feature.named(&site.site().features),
        );
        found.push(
            Finding::caution("bank-reaches", message, remedy)
                .about(Topic::Verdict)
                .scoped(Scope::Placement)
                .under(&format!("/features/{}", feature.index))
                .at(pair.to.x, pair.to.y),
        );
    }
    found
}

/// A deck that falls toward a building it runs up to.
fn toward_buildings(
    site: &CheckedSite,
    work: &WorkFigures,
    water: &Measurable<'_>,
) -> Vec<Finding> {
    let mut found = Vec::new();
    let deck = site.site().works.deck;
    if site.placed_shell().is_none() || deck.width <= 0.0 || deck.fall <= 0.0 {
        return found;
    }
    for feature in site.features().iter() {
        if !matches!(feature.kind, FeatureKind::House | FeatureKind::Outbuilding) {
            continue;
        }
        let building = Measurable::of(feature.shape.figure());
        if water.boxes_apart(&building) - work.deck_edge >= AT_THE_WALL {
            continue;
        }
        let Some(pair) = water.nearest(&building) else {
            continue;
        };
        if pair.distance - work.deck_edge < AT_THE_WALL {
            let thing = feature.named(&site.site().features);
            found.push(
                Finding::caution(
                    "deck-falls-to-building",
                    said!(
                        "The deck runs up to {thing} and falls toward it.",
                        thing = thing,
                    ),
                    "Have the deck drained there (a channel along the wall), make it narrower, or \
                     move the shell (common practice, no source).",
                )
                .about(Topic::Grading)
                .scoped(Scope::Placement)
                .under("/works/deck/fall")
                .at(pair.to.x, pair.to.y),
            );
        }
    }
    found
}
