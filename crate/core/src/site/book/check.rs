//! The door of the book: what is in it must be fit to be put on a job.
//!
//! Every entry is put on an empty job, and that goes through the door of sites. What is wrong there is
//! told at its place in the book.

use std::collections::BTreeSet;

use super::put_on::empty_job;
use super::taken::alone;
use super::{Book, BookContent, BookEntry};
use crate::finding::Finding;
use crate::site::{CheckedSite, limits};

/// The most entries of a book (arbitrary).
const ENTRIES: usize = 500;

/// Everything that is wrong with a book, or worth knowing about its entries, placed in its file.
pub fn check(book: &Book) -> Vec<Finding> {
    if let Some(fault) = limits::too_many("/entries", "entries", book.entries.len(), ENTRIES) {
        return vec![fault];
    }
    let mut ids = BTreeSet::new();
    let mut found = several_for_new_jobs(book);
    for (i, entry) in book.entries.iter().enumerate() {
        let place = format!("/entries/{i}");
        let mut told = head(entry, ids.insert(entry.id.as_str()));
        told.extend(content(entry));
        found.extend(told.into_iter().map(|it| it.under(&place)));
    }
    found
}

/// Of what a job has once, one entry alone is what new jobs begin with: the last.
fn several_for_new_jobs(book: &Book) -> Vec<Finding> {
    let is_marked = |it: &BookEntry| it.for_new_jobs && it.content.kind().is_single();
    let marked = book
        .entries
        .iter()
        .enumerate()
        .filter(|(_, it)| is_marked(it));
    let has_later = |i: usize, kind| {
        let mut later = book.entries.iter().skip(i + 1);
        later.any(|it| is_marked(it) && it.content.kind() == kind)
    };
    let given_up = marked.filter(|(i, it)| has_later(*i, it.content.kind()));
    given_up
        .map(|(i, it)| {
            let what = it.content.kind().words();
            Finding::caution(
                "several-for-new-jobs",
                format!("More than one {what} is marked for new jobs; they begin with the last."),
                "Take the mark from all but one.",
            )
            .under(&format!("/entries/{i}/for_new_jobs"))
        })
        .collect()
}

fn head(entry: &BookEntry, is_new: bool) -> Vec<Finding> {
    let mut found = Vec::new();
    if entry.id.is_empty() || !is_new {
        found.push(
            Finding::fault(
                "entry-id",
                format!(
                    "The id \"{}\" does not tell the entry from the others.",
                    entry.id
                ),
                "Give every entry an id of its own.",
            )
            .under("/id"),
        );
    }
    if entry.name.trim().is_empty() {
        let fault = Finding::fault("entry-name", "The entry has no name.", "Give it one.");
        found.push(fault.under("/name"));
    }
    found
}

/// What the door of sites says of the entry on an empty job.
fn content(entry: &BookEntry) -> Vec<Finding> {
    if let Some(found) = alone(&entry.content) {
        return found;
    }
    if let BookContent::Shell(it) = &entry.content
        && let Some(fault) = limits::shell(&it.shell)
    {
        return vec![fault.under("/content/shell/shell")];
    }
    let mut site = empty_job(entry.content.kind());
    let found = match entry.put_on(&mut site) {
        Err(faults) => faults,
        Ok(_) => match CheckedSite::check(site, None) {
            Ok(checked) => checked.findings().to_vec(),
            Err(faults) => faults,
        },
    };
    found
        .into_iter()
        .filter_map(|finding| in_book(finding, &entry.content))
        .collect()
}

/// A finding about the job with its place in the entry; none of what the empty job brings itself.
fn in_book(mut finding: Finding, content: &BookContent) -> Option<Finding> {
    let places: &[(&str, &str)] = match content {
        BookContent::Shell(_) => &[
            ("/placement/shell/own", "/content/shell/shell"),
            ("/placement/shell", "/content/shell/shell"),
            ("/works/pipe/fittings", "/content/shell/fittings"),
            ("/rates/0/rate", "/content/shell/price"),
            ("/currency", "/content/shell/currency"),
        ],
        BookContent::Rules(_) => &[
            ("/rules", "/content/rules/rules"),
            ("/shares", "/content/rules/shares"),
            ("/barrier", "/content/rules/barrier"),
        ],
        BookContent::Rates(_) => &[
            ("/rates", "/content/rates/rates"),
            ("/currency", "/content/rates/currency"),
        ],
        BookContent::Works(_) => &[("/works", "/content/works")],
        BookContent::Deck(_) => &[("/works/deck", "/content/deck")],
        BookContent::Truck(_) => &[("/works/haul", "/content/truck")],
        BookContent::Machine(_) | BookContent::TitleBlock(_) => &[],
    };
    let (rest, place) = places
        .iter()
        .find_map(|(job, book)| Some((finding.pointer.strip_prefix(job)?, book)))?;
    finding.pointer = format!("{place}{rest}");
    finding.at = None;
    Some(finding)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]
    use super::*;
    use crate::finding::any_fault;
    use crate::site::book::{BookKind, Day, TakenEntry, examples};

    fn faults(edit: impl FnOnce(&mut Book)) -> Vec<(String, String)> {
        let mut book = examples();
        edit(&mut book);
        let found = check(&book);
        let told = |it: &Finding| (it.code.to_owned(), it.pointer.clone());
        found.iter().filter(|it| it.is_fault()).map(told).collect()
    }

    fn place_of(book: &Book, kind: BookKind) -> usize {
        let is_it = |it: &BookEntry| it.content.kind() == kind;
        book.entries.iter().position(is_it).unwrap()
    }

    #[test]
    fn the_examples_are_sound_and_say_what_they_are() {
        let book = examples();
        assert!(!any_fault(&check(&book)));
        for entry in &book.entries {
            assert!(entry.is_example(), "{}", entry.name);
        }
    }

    #[test]
    fn what_the_door_of_sites_refuses_is_told_at_its_place_in_the_book() {
        let book = examples();
        let (rules, deck, works, truck, shell) = (
            place_of(&book, BookKind::Rules),
            place_of(&book, BookKind::Deck),
            place_of(&book, BookKind::Works),
            place_of(&book, BookKind::Truck),
            place_of(&book, BookKind::Shell),
        );
        let refused = |place: &str, edit: &dyn Fn(&mut Book)| {
            assert_eq!(
                faults(|book| edit(book)),
                [("out-of-range".to_owned(), place.to_owned())]
            );
        };
        refused(
            &format!("/entries/{rules}/content/rules/rules/2/distance"),
            &|book| {
                let BookContent::Rules(set) = &mut book.entries[rules].content else {
                    panic!()
                };
                set.rules[2].distance = -1.0;
            },
        );
        refused(
            &format!("/entries/{deck}/content/deck/thickness"),
            &|book| {
                let BookContent::Deck(it) = &mut book.entries[deck].content else {
                    panic!()
                };
                it.thickness = -1.0;
            },
        );
        refused(
            &format!("/entries/{works}/content/works/dig/over_dig"),
            &|book| {
                let BookContent::Works(it) = &mut book.entries[works].content else {
                    panic!()
                };
                std::sync::Arc::make_mut(it).dig.over_dig = -1.0;
            },
        );
        refused(
            &format!("/entries/{truck}/content/truck/box_volume"),
            &|book| {
                let BookContent::Truck(it) = &mut book.entries[truck].content else {
                    panic!()
                };
                it.box_volume = -1.0;
            },
        );
        refused(&format!("/entries/{shell}/content/shell/price"), &|book| {
            let BookContent::Shell(it) = &mut book.entries[shell].content else {
                panic!()
            };
            it.price = Some(-1.0);
        });
        let machine = place_of(&book, BookKind::Machine);
        refused(
            &format!("/entries/{machine}/content/machine/width"),
            &|book| {
                let BookContent::Machine(it) = &mut book.entries[machine].content else {
                    panic!()
                };
                it.width = -1.0;
            },
        );
        let told = faults(|book| {
            let BookContent::Shell(it) = &mut book.entries[shell].content else {
                panic!()
            };
            it.shell.coping_width = -1.0;
        });
        assert_eq!(told.len(), 1);
        assert_eq!(
            told[0].1,
            format!("/entries/{shell}/content/shell/shell/coping_width")
        );
    }

    #[test]
    fn a_machine_that_a_job_took_is_held_to_its_ranges_too() {
        let book = examples();
        let mut entry = book.entries[place_of(&book, BookKind::Machine)].clone();
        let BookContent::Machine(it) = &mut entry.content else {
            panic!()
        };
        it.width = 0.0;
        let mut site = empty_job(BookKind::Machine);
        site.taken.push(TakenEntry {
            book: book.name.clone(),
            edition: 1,
            on: Day::new(2026, 3, 31).unwrap(),
            entry,
        });
        let faults = CheckedSite::check(site, None).unwrap_err();
        let places: Vec<&str> = faults.iter().map(|it| it.pointer.as_str()).collect();
        assert_eq!(places, ["/taken/0/entry/content/machine/width"]);
    }

    #[test]
    fn new_jobs_begin_with_one_of_a_kind_and_never_with_a_shell() {
        let mut book = examples();
        for entry in &mut book.entries {
            entry.for_new_jobs = true;
        }
        assert!(
            !book
                .for_new_jobs()
                .any(|it| it.content.kind() == BookKind::Shell)
        );
        let (rules, truck) = (
            place_of(&book, BookKind::Rules),
            place_of(&book, BookKind::Truck),
        );
        let mut second = book.entries[truck].clone();
        second.id = "second".to_owned();
        book.entries.push(second);
        let told: Vec<_> = check(&book)
            .into_iter()
            .filter(|it| it.code == "several-for-new-jobs")
            .map(|it| it.pointer)
            .collect();
        assert!(
            told.contains(&format!("/entries/{truck}/for_new_jobs")),
            "{told:?}"
        );
        assert!(!told.contains(&format!("/entries/{}/for_new_jobs", book.entries.len() - 1)));
        let alone = book.entries[rules + 1..]
            .iter()
            .all(|it| it.content.kind() != BookKind::Rules);
        assert_eq!(
            alone,
            !told.contains(&format!("/entries/{rules}/for_new_jobs"))
        );
    }

    #[test]
    fn ids_and_names_tell_entries_apart() {
        let told = faults(|book| {
            book.entries[1].id = book.entries[0].id.clone();
            book.entries[2].name = " ".to_owned();
        });
        let expected = [
            ("entry-id", "/entries/1/id"),
            ("entry-name", "/entries/2/name"),
        ];
        assert_eq!(told, expected.map(|(a, b)| (a.to_owned(), b.to_owned())));
        let told = faults(|book| {
            let first = book.entries[0].clone();
            book.entries = vec![first; 501];
        });
        assert_eq!(told, [("too-many".to_owned(), "/entries".to_owned())]);
    }

    #[test]
    fn a_title_block_fits_on_a_sheet() {
        let title = place_of(&examples(), BookKind::TitleBlock);
        let told = faults(|book| {
            let BookContent::TitleBlock(it) = &mut book.entries[title].content else {
                panic!()
            };
            it.lines = vec!["x".to_owned(); 13];
            it.cautions = vec!["fits".to_owned(), "x".repeat(201)];
        });
        let place = format!("/entries/{title}/content/title-block");
        let expected = [("too-many", "/lines"), ("line-length", "/cautions/1")];
        assert_eq!(
            told,
            expected.map(|(a, b)| (a.to_owned(), format!("{place}{b}")))
        );
    }
}
