//! What a new site starts with, each setting with its source. Names and values come from the site's own checks.

use super::{Check, Group, Source, Sourced};
use crate::site::numbers::usual;

/// Settings with a source or a check of their own; every other one is common practice, no source.
const OTHERWISE: [(&str, From, Check); 6] = [
    (
        "/works/stone/density",
        From::Practice,
        Check::Reference("pipe::weight_and_voids_of_stone_belong_together"),
    ),
    (
        "/works/stone/voids",
        From::Practice,
        Check::Reference("pipe::weight_and_voids_of_stone_belong_together"),
    ),
    (
        "/works/pipe/strap_spacing",
        From::Practice,
        Check::Reference("pipe::pipe_is_strapped_as_often_as_plumbing_codes_ask"),
    ),
    (
        "/works/pipe/coefficient",
        From::Table("77 Ill. Adm. Code 906, Appendix A, Exhibit I: plastic pipe, C = 150"),
        Check::Reference("pipe::friction_follows_the_published_table"),
    ),
    (
        "/works/spoil/back",
        From::Table("29 CFR 1926.651(j)(2): at least 2 ft"),
        Check::Reference("safety::a_pile_stands_back_from_the_edge"),
    ),
    (
        "/works/grading/retained_limit",
        From::Choice("arbitrary: the local authority has its own"),
        Check::Nothing,
    ),
];

enum From {
    Practice,
    Table(&'static str),
    Choice(&'static str),
}

/// Settings that a new site leaves open, and what then counts.
const OPEN: [(&str, &str); 7] = [
    (
        "/works/dig/side_slope",
        "the slope listed for the soil counts",
    ),
    ("/works/dig/swell", "that of the spoil's material counts"),
    ("/works/dig/density", "that of the spoil's material counts"),
    (
        "/works/dig/upright_below",
        "the sides slope down to the bottom",
    ),
    ("/works/groundwater", "unknown: the worst case is told"),
    ("/works/crane/shell_weight", "the shell's own counts"),
    ("/stakeout/backsight", "read on the site"),
];

pub(super) fn figures() -> Vec<Sourced> {
    usual()
        .into_iter()
        .map(|number| {
            let place = number.place.as_str();
            let own = OTHERWISE.iter().find(|(of, ..)| *of == place);
            let open = OPEN.iter().find(|(of, _)| *of == place);
            let (source, check) = match (own, open) {
                (Some((_, from, check)), _) => (from.source(), *check),
                (_, Some((_, counts))) => (Source::choice(counts), Check::Nothing),
                _ => (Source::CommonPractice, Check::Nothing),
            };
            Sourced {
                group: Group::Settings,
                name: named(&number.what, place),
                place: Some(number.place.clone()),
                measure: number.measure,
                value: number.value,
                source,
                check,
            }
        })
        .collect()
}

/// A setting's name without its article; a machine's with the machine.
fn named(what: &str, place: &str) -> String {
    let bare = what.strip_prefix("The ").or(what.strip_prefix("A "));
    let bare = bare.unwrap_or(what);
    let machine = place.strip_prefix("/works/access/").and_then(|rest| {
        let (machine, _) = rest.split_once('/')?;
        Some(machine.replace('_', " "))
    });
    let mut name: String = match machine {
        Some(machine) => bare.replace("a machine", &format!("the {machine}")),
        None => bare.to_owned(),
    };
    if let Some(first) = name.get(..1).map(str::to_uppercase) {
        name.replace_range(..1, &first);
    }
    name
}

impl From {
    fn source(&self) -> Source {
        match self {
            Self::Practice => Source::CommonPractice,
            Self::Table(of) => Source::read(of),
            Self::Choice(why) => Source::choice(why),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::site::{ConstructionSettings, StakeoutRecord};
    use serde_json::{Value, to_value};

    /// Every number in a value, with its place.
    fn numbers(value: &Value, place: &str, found: &mut Vec<(String, f64)>) {
        match value {
            Value::Number(number) => found.push((place.to_owned(), number.as_f64().unwrap())),
            Value::Object(members) => {
                for (name, member) in members {
                    numbers(member, &format!("{place}/{name}"), found);
                }
            }
            _ => {}
        }
    }

    #[test]
    fn every_number_that_a_new_site_starts_with_has_its_source() {
        let mut found = Vec::new();
        let works = to_value(ConstructionSettings::default()).unwrap();
        numbers(&works, "/works", &mut found);
        let stakeout = to_value(StakeoutRecord::default()).unwrap();
        numbers(&stakeout, "/stakeout", &mut found);
        assert!(found.len() > 60, "{}", found.len());
        let all = figures();
        for (place, value) in found {
            let row = all.iter().find(|it| it.place.as_deref() == Some(&*place));
            assert_eq!(row.and_then(|it| it.value), Some(value), "{place}");
        }
    }

    #[test]
    fn what_has_a_source_of_its_own_or_is_left_open_is_there() {
        let all = figures();
        let row = |place: &str| all.iter().find(|it| it.place.as_deref() == Some(place));
        for (place, ..) in OTHERWISE {
            assert!(row(place).is_some_and(|it| it.value.is_some()), "{place}");
        }
        for it in &all {
            let place = it.place.as_deref().unwrap();
            let open = OPEN.iter().any(|(of, _)| *of == place);
            assert_eq!(it.value.is_none(), open, "{place}");
        }
    }

    #[test]
    fn machines_are_named_one_by_one() {
        let all = figures();
        let place = "/works/access/skid_loader/width";
        let row = all.iter().find(|it| it.place.as_deref() == Some(place));
        assert_eq!(row.unwrap().name, "Width of the skid loader");
    }
}
