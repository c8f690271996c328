//! What is missing for the sun on the water, and what was assumed.

use super::casters::Casters;
use super::position::{EarthPlace, Spell};
use crate::finding::{Entry, Finding, Scope, said};
use crate::lot::North;
use crate::site::{CheckedSite, FeatureKind};

/// What bars the question.
pub(super) fn missing(site: &CheckedSite, place: Option<&EarthPlace>) -> Vec<Finding> {
    let mut found = Vec::new();
    if place.is_none() {
        found.push(no_place());
    }
    if site.placed_shell().is_none() {
        found.push(
            Finding::caution(
                "sun-no-shell",
                "No shell is placed, so there is no water to be in the sun.",
                "Place a shell.",
            )
            .entered_at(Entry::Shell),
        );
    }
    found
}

/// A site that may lie anywhere.
pub fn no_place() -> Finding {
    Finding::caution(
        "sun-no-place",
        "Nobody has said where on the earth the site lies, so the sun over it is not known.",
        "Enter the latitude and longitude of the site's origin, or bring the lot in from a map.",
    )
    .under("/origin")
}

/// What goes with the figures of a day.
pub(super) fn of_day(site: &CheckedSite, casters: &Casters, spells: &[Spell]) -> Vec<Finding> {
    let mut found = Vec::new();
    if !casters.without_height.is_empty() {
        let names: Vec<&str> = casters
            .without_height
            .iter()
            .map(|it| it.1.as_str())
            .collect();
        let mut finding = Finding::caution(
            "sun-height-missing",
            said!(
                "No height is entered for {things}: no shade of theirs is counted, and the sun on the water may be less.",
                things = names.join(", ")
            ),
            "Enter their heights in step Yard.",
        );
        if let [(index, _)] = casters.without_height.as_slice() {
            finding = finding.under(&format!("/features/{index}/facts/height"));
        } else {
            finding = finding.under("/features");
        }
        found.push(finding);
    }
    let basis = &site.site().lot.basis;
    if basis.true_north.is_none() && basis.north != North::True {
        let finding = match basis.north {
            North::Magnetic | North::Assumed | North::Record => Finding::caution(
                "sun-north",
                said!(
                    "The bearings of the lot count from {north}; it is taken for true north here.",
                    north = basis.north.words()
                ),
                "Enter where true north lies, under the basis of bearings.",
            ),
            _ => Finding::note(
                "sun-north",
                "Nobody has said which north the bearings of the lot count from; it is taken for true north here.",
                "Enter where true north lies, under the basis of bearings.",
            ),
        };
        found.push(finding.under("/lot/basis"));
    }
    if !casters.on_unknown_ground.is_empty() {
        found.push(Finding::caution(
            "sun-ground-unknown",
            said!(
                "The ground under {things} is not measured: how high their tops stand above the water is a guess.",
                things = casters.on_unknown_ground.join(", ")
            ),
            "Enter heights of the ground there.",
        ));
    }
    if spells.is_empty() {
        found.push(Finding::note(
            "sun-no-day",
            "The sun does not rise on this day.",
            "",
        ));
    }
    found.push(
        Finding::note(
            "sun-clear-sky",
            "Clear sky and a level horizon: no cloud, and no hill, house or tree that is not on the plan. The clock is \
             the one entered; daylight saving is part of its offset.",
            "",
        )
        .scoped(Scope::EveryJob),
    );
    let of = |kind: &[FeatureKind]| casters.all.iter().any(|it| kind.contains(&it.kind));
    if of(&[
        FeatureKind::House,
        FeatureKind::Outbuilding,
        FeatureKind::Tree,
    ]) {
        found.push(
            Finding::note(
                "sun-solid-shapes",
                "A structure shades as a box to its height and a tree as a solid crown, the same from its lowest branches \
                 to its top: pitched roofs, open crowns and bare branches shade less.",
                "",
            )
            .scoped(Scope::EveryJob),
        );
    }
    if !casters.to_the_ground.is_empty() {
        found.push(Finding::note(
            "sun-branches",
            said!(
                "The lowest branches of {trees} are not entered: their crowns shade from the ground up.",
                trees = casters.to_the_ground.join(", ")
            ),
            "Enter the height of the lowest branches in step Yard.",
        ));
    }
    found
}
