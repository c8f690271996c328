//! Ground covered beyond what a rule allows, and shares that cannot be told.

use crate::analysis::Analysis;
use crate::coverage::Share;
use crate::finding::{Entry, Finding, Scope, Topic, said};
use crate::site::{CheckedSite, GroundPart, ShareRule};
use crate::units::{Measure, show};

/// What is to be said of the shares of a site.
pub(super) fn findings(site: &CheckedSite, analysis: &Analysis) -> Vec<Finding> {
    let rules = site.site().shares.iter().zip(&analysis.shares).enumerate();
    let found = rules.filter_map(|(i, (rule, share))| {
        let told = match share {
            None => Some(unknown(rule)),
            Some(share) if share.exceeds(rule.most) => Some(exceeded(site, rule, share)),
            Some(_) => (!rule.is_confirmed()).then(|| unconfirmed(rule)),
        };
        told.map(|it| it.under(&format!("/shares/{i}")).entered_at(Entry::Rules))
    });
    found.collect()
}

fn exceeded(site: &CheckedSite, rule: &ShareRule, share: &Share) -> Finding {
    let shown = |measure, value| show(measure, value, site.site().display).text;
    let before = share.before > rule.most * share.ground;
    Finding::fault(
        "share-exceeded",
        said!(
            "\"{rule}\": {after} of the {ground} is covered, {most} may be: {over} too much{before}",
            rule = rule.name.clone(),
            after = shown(Measure::Fraction, share.share_after()),
            ground = rule.of.words(),
            most = shown(Measure::Fraction, rule.most),
            over = shown(Measure::Area, -share.room(rule.most)),
            before = if before {
                "; what stands there already takes more than that."
            } else {
                "."
            },
        ),
        "Make the deck smaller, take out paving, or ask the local authority what it counts.",
    )
    .about(Topic::Verdict)
    .scoped(Scope::Placement)
}

fn unknown(rule: &ShareRule) -> Finding {
    let missing = match rule.of {
        GroundPart::Lot => "the lot has no area",
        GroundPart::RearYard => {
            "the rear yard ends at the house, and there is no house or no rear line, or the one stands on the other"
        }
    };
    Finding::caution(
        "share-unknown",
        said!(
            "\"{rule}\" cannot be worked out: {missing}.",
            rule = rule.name.clone(),
            missing = missing,
        ),
        "Draw the house, and give the lot's sides their kinds.",
    )
    .about(Topic::Verdict)
    .scoped(Scope::Site)
}

fn unconfirmed(rule: &ShareRule) -> Finding {
    Finding::caution(
        "share-unconfirmed",
        said!(
            "\"{rule}\" holds by a figure that nobody has confirmed for this lot.",
            rule = rule.name.clone(),
        ),
        "Ask the local authority for its figure and for what it counts, and name the source.",
    )
    .about(Topic::Verdict)
    .scoped(Scope::Site)
}
