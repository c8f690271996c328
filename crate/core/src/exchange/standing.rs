//! What a job took from a company's book, held against the book and the job as they are now.

use serde::Serialize;

use super::changes::{Change, between};
use crate::site::Site;
use crate::site::book::{Book, BookContent, BookEntry, BookKind, Day, TakenEntry, empty_job};

/// One thing that was taken, and how it stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct TakenStanding {
    /// The entry's id.
    pub id: String,
    /// What sort it is.
    pub kind: BookKind,
    /// What it was called.
    pub name: String,
    /// Whose book it was.
    pub book: String,
    /// The edition of the book then.
    pub edition: u32,
    /// The day it was taken.
    pub on: Day,
    /// What has become of it in the book.
    pub since: SinceTaken,
    /// What the job has otherwise than it was taken.
    pub own: Vec<Change>,
}

/// What has become of an entry since it was taken.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum SinceTaken {
    /// It is as it was.
    Same,
    /// The book has it no more.
    Gone,
    /// It is another now.
    Changed(Vec<Change>),
}

/// How everything stands that a job took.
pub fn standings(site: &Site, book: &Book) -> Vec<TakenStanding> {
    site.taken
        .iter()
        .map(|it| standing(it, site, book))
        .collect()
}

fn standing(taken: &TakenEntry, site: &Site, book: &Book) -> TakenStanding {
    let then = &taken.entry;
    let kind = then.content.kind();
    let since = match book.entry(&then.id) {
        None => SinceTaken::Gone,
        Some(now) if now.says_the_same(then) => SinceTaken::Same,
        Some(now) => SinceTaken::Changed(entry_changes(then, now, site)),
    };
    let now = BookContent::of_site(kind, site, Some(&then.content));
    let own = now.map_or_else(Vec::new, |now| content_changes(&then.content, &now, site));
    TakenStanding {
        id: then.id.clone(),
        kind,
        name: then.name.clone(),
        book: taken.book.clone(),
        edition: taken.edition,
        on: taken.on,
        since,
        own,
    }
}

/// What differs between an entry as it was and as it is: what it says of itself, then its content.
fn entry_changes(was: &BookEntry, is: &BookEntry, site: &Site) -> Vec<Change> {
    let day = |it: &BookEntry| {
        it.dated
            .map_or_else(|| "no day".to_owned(), |it| it.to_string())
    };
    let heads = [
        ("Name", was.name.clone(), is.name.clone()),
        ("Source", was.source.clone(), is.source.clone()),
        ("Dated", day(was), day(is)),
        ("Note", was.note.clone(), is.note.clone()),
    ];
    let mut all: Vec<Change> = heads
        .into_iter()
        .filter(|(_, was, is)| was != is)
        .map(|(what, was, is)| Change::told(format!("{what}: \"{is}\" instead of \"{was}\".")))
        .collect();
    all.extend(content_changes(&was.content, &is.content, site));
    all
}

/// What differs between two contents, as it would on one and the same empty job.
fn content_changes(was: &BookContent, is: &BookContent, site: &Site) -> Vec<Change> {
    if let (BookContent::Machine(was), BookContent::Machine(is)) = (was, is) {
        let other = (was != is).then(|| Change::told("Its size or weight: changed.".into()));
        return other.into_iter().collect();
    }
    if let (BookContent::TitleBlock(was), BookContent::TitleBlock(is)) = (was, is) {
        let other = (was != is).then(|| Change::told("Lines of the title block: changed.".into()));
        return other.into_iter().collect();
    }
    let (was, is) = (job_of(was, site), job_of(is, site));
    between(&was, &is)
}

/// An empty job with this content alone, in the units of `like`.
fn job_of(content: &BookContent, like: &Site) -> Site {
    let mut site = empty_job(content.kind());
    site.display = like.display;
    let entry = BookEntry::new("", "", "", content.clone());
    // An empty job has no rates that could be in another currency.
    let _ = entry.put_on(&mut site);
    site
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]
    use super::*;
    use crate::site::book::{TitleBlock, examples};
    use crate::units::constants::FOOT;
    use std::sync::Arc;

    fn place_of(book: &Book, kind: BookKind) -> usize {
        let is_it = |it: &BookEntry| it.content.kind() == kind;
        book.entries.iter().position(is_it).unwrap()
    }

    fn took(book: &Book, kinds: &[BookKind]) -> Site {
        let mut site = empty_job(BookKind::Shell);
        for kind in kinds {
            let taken = TakenEntry {
                book: book.name.clone(),
                edition: book.edition,
                on: Day::new(2026, 3, 31).unwrap(),
                entry: book.entries[place_of(book, *kind)].clone(),
            };
            taken.put_on(&mut site).unwrap();
        }
        site
    }

    fn words(changes: &[Change]) -> Vec<&str> {
        changes.iter().map(|it| it.words.as_str()).collect()
    }

    #[test]
    fn what_nobody_has_touched_stands_as_it_was_taken() {
        let mut book = examples();
        let all = [
            BookKind::Shell,
            BookKind::Rules,
            BookKind::Works,
            BookKind::Truck,
            BookKind::TitleBlock,
        ];
        let site = took(&book, &all);
        // What new jobs begin with is no part of what a job took.
        for entry in &mut book.entries {
            entry.for_new_jobs = true;
        }
        let standings = standings(&site, &book);
        assert_eq!(standings.len(), all.len());
        for it in standings {
            assert_eq!(
                (it.since, words(&it.own)),
                (SinceTaken::Same, vec![]),
                "{}",
                it.name
            );
        }
    }

    #[test]
    fn changes_of_the_book_and_of_the_job_are_told_apart() {
        let mut book = examples();
        let mut site = took(
            &book,
            &[BookKind::Rules, BookKind::Truck, BookKind::TitleBlock],
        );
        Arc::make_mut(&mut site.rules)[0].distance = 30.0 * FOOT;
        let (rules, truck, title) = (
            place_of(&book, BookKind::Rules),
            place_of(&book, BookKind::Truck),
            place_of(&book, BookKind::TitleBlock),
        );
        let BookContent::Rules(set) = &mut book.entries[rules].content else {
            panic!()
        };
        set.rules[1].distance = 20.0 * FOOT;
        book.entries[rules].dated = Day::new(2026, 4, 1);
        book.entries[title].content = BookContent::TitleBlock(TitleBlock::default());
        book.entries.remove(truck);
        let all = standings(&site, &book);
        let SinceTaken::Changed(since) = &all[0].since else {
            panic!()
        };
        assert_eq!(
            words(since),
            [
                "Dated: \"2026-04-01\" instead of \"no day\".",
                "Rule changed: Water to street-side line, 20'-0\" instead of 15'-0\".",
            ]
        );
        assert_eq!(
            words(&all[0].own),
            ["Rule changed: Water to front line, 30'-0\" instead of 25'-0\"."]
        );
        assert_eq!(
            (&all[1].since, words(&all[1].own)),
            (&SinceTaken::Gone, vec![])
        );
        assert!(matches!(&all[2].since, SinceTaken::Changed(it) if it.len() == 1));
    }
}
