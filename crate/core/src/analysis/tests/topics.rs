//! Every finding says what it is shown beside: the table of those that do not stand beside the
//! clearances, heard from sites that give reason for each.

use std::collections::BTreeMap;

use serde_json::Value;

use super::{Detail, analyzed, checked, document};
use crate::finding::{Finding, Topic};

/// Codes by the topic they are shown beside; every other one stands beside the clearances.
const TOPICS: &[(Topic, &[&str])] = &[
    (
        Topic::Verdict,
        &[
            "barrier-none",
            "barrier-open",
            "barrier-unconfirmed",
            "share-exceeded",
            "share-unconfirmed",
            "share-unknown",
            "shell-beyond",
            "collar-beyond",
            "deck-beyond",
            "deck-over-structure",
            "dig-beyond",
            "equipment-beyond",
            "dig-through-line",
            "dig-through-equipment",
            "dig-through-fence",
            "dig-through-other",
            "dig-through-paving",
            "dig-through-street",
            "dig-through-tree",
            "deck-over-line",
            "deck-over-system",
            "deck-over-tree",
            "deck-over-water",
            "equipment-in-shell",
            "equipment-in-structure",
            "equipment-in-the-way",
            "equipment-over-line",
            "equipment-over-system",
            "pile-beyond-lot",
            "pile-on-structure",
            "shell-in-structure",
            "shell-under-line",
            "trench-beyond-lot",
            "trench-in-easement",
            "trench-through",
            "trench-through-water",
            "dig-through-system",
            "dig-through-water",
            "dig-under-structure",
            "dig-near-footing",
            "hole-in-the-air",
            "bank-beyond-lot",
            "bank-reaches",
            "shell-floats-full",
        ],
    ),
    (
        Topic::Dig,
        &[
            "benched-sides",
            "cave-in",
            "dig-not-closed",
            "fall-protection",
            "ground-above-rim",
            "ground-assumed",
            "ground-beyond-spots",
            "layered-soil",
            "locate-utilities",
            "protective-system",
            "rim-above-ground",
            "short-term",
            "soil-class",
            "spots-merged",
            "steep-side",
            "steep-sides",
            "steep-spots",
            "upright-foot",
            "way-out",
        ],
    ),
    (
        Topic::Grading,
        &[
            "bank-not-closed",
            "coping-above-floor",
            "deck-falls-to-building",
            "fill-short",
            "retained-cut",
            "retained-fill",
        ],
    ),
    (
        Topic::Haul,
        &[
            "spoil-back",
            "payload-governs",
            "pile-better-elsewhere",
            "pile-fits-nowhere",
            "pile-in-the-way",
            "pile-over-line",
        ],
    ),
    (
        Topic::Concrete,
        &["collar-shows", "deck-in-collar", "steps-without-rise"],
    ),
    (
        Topic::Pipe,
        &[
            "fitting-below-floor",
            "lone-drain",
            "no-fittings",
            "no-pad",
            "no-return",
            "no-suction",
            "pipe-in-shell",
            "pipe-not-deepest",
            "pipe-wider-than-over-dig",
            "trench-apart",
            "trench-over-line",
        ],
    ),
    (
        Topic::Cost,
        &["priced-twice", "rate-not-counted", "rate-unused"],
    ),
    (
        Topic::Water,
        &[
            "dry-floor",
            "empty-shell",
            "groundwater-unknown",
            "open-water",
            "shell-floats-empty",
            "shell-would-float-full",
            "shell-weight-unknown",
        ],
    ),
];

/// Sites that give reason for each of them: members that take the place of those of the plain one.
const SITES: &str = include_str!("topics.json");

/// What all of them say.
fn everything() -> Vec<Finding> {
    let sites: BTreeMap<String, BTreeMap<String, Value>> = serde_json::from_str(SITES).unwrap();
    let heard = sites.into_values().flat_map(|members| {
        let mut document = document();
        for (member, value) in members {
            document[member] = value;
        }
        analyzed(&checked(&document, None), Detail::Complete).findings
    });
    heard.collect()
}

#[test]
fn every_finding_is_shown_beside_what_it_is_about() {
    let table = TOPICS
        .iter()
        .flat_map(|(topic, codes)| codes.iter().map(|code| (*code, *topic)));
    let table: BTreeMap<&str, Topic> = table.collect();
    assert_eq!(table.len(), 99);
    let all = everything();
    for finding in &all {
        if let Some(topic) = table.get(finding.code) {
            assert_eq!(finding.topic, *topic, "{}", finding.code);
        }
    }
    let missing: Vec<&&str> = table
        .keys()
        .filter(|code| !all.iter().any(|finding| finding.code == **code))
        .collect();
    assert!(missing.is_empty(), "never heard: {missing:?}");
}
