//! Cautions that stand beside every plan, whatever its numbers.

use crate::finding::{Finding, Scope, Topic};
use crate::site::CheckedSite;

/// What everybody who reads this plan must know. The last two come with a placed shell.
pub(super) fn cautions(site: &CheckedSite) -> Vec<Finding> {
    let placed = site.placed_shell().is_some();
    let mut cautions = vec![
        Finding::caution(
            "locate-utilities",
            "Buried lines are not where drawings show them, and the plan shows only those that \
             somebody drew on it.",
            "Before anyone digs, call the utility-locating service and wait for its marks \
             (29 CFR 1926.651(b)).",
        )
        .about(Topic::Dig),
        Finding::caution(
            "planning-aid",
            "This is a planning aid, not a survey: its distances are as good as the lot and the \
             features that were entered.",
            "Have a licensed surveyor mark the lot lines before the work is laid out.",
        ),
        Finding::caution(
            "local-authority",
            "The rules listed are the ones somebody entered: the local authority's own govern, \
             and there may be more of them.",
            "Check every rule with the local authority, and begin no work without its permit.",
        ),
    ];
    if site.site().picture.is_some() {
        cautions.push(
            Finding::caution(
                "picture-is-no-survey",
                "The picture under the plan is not a survey: paper shrinks, lenses bend, and \
                 distances read off it are approximate.",
                "Take no clearance from it that a tape or the deed can give.",
            )
            .under("/picture"),
        );
    }
    if placed {
        cautions.push(
            Finding::caution(
                "empty-shell",
                "An empty shell can float on groundwater, and its walls bulge under the backfill.",
                "Keep it filled: only a professional empties it, after groundwater has been \
                 lowered.",
            )
            .about(Topic::Water)
            .under("/placement"),
        );
        cautions.push(
            Finding::caution(
                "open-water",
                "People fall into open holes and drown in open water, small children above all.",
                "Fence the hole from the first hour, and have the barrier that the local \
                 authority requires standing before any water goes in.",
            )
            .about(Topic::Water)
            .under("/placement"),
        );
    }
    let every_job = |finding: Finding| finding.scoped(Scope::EveryJob);
    cautions.into_iter().map(every_job).collect()
}
