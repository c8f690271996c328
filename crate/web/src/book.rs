//! The company's book for the page: read, written, listed, and held against the open job.

use batterboard_core::exchange::{self, TakenStanding};
use batterboard_core::finding::Finding;
use batterboard_core::report::book::{entry_line, off_print};
use batterboard_core::session::{Command, PriceRow, price_rows};
use batterboard_core::site::book::{
    self, Book, BookContent, BookEntry, BookKind, Day, RateList, TakenEntry,
};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::cards::{self, ShellCard};
use crate::js::{Answer, document_to_js, from_js, list_to_js, to_js};
use crate::planner::Planner;

/// A book that was read, or why it could not be.
#[derive(Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct BookRead {
    book: Option<Book>,
    findings: Vec<Finding>,
}

/// What a new job has from the book.
#[derive(Serialize, Tsify)]
pub struct Begun {
    /// By name.
    names: Vec<String>,
    /// Why it has nothing from there although the book says so.
    refused: Vec<Finding>,
}

/// An entry as lists show it.
#[derive(Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct EntryCard {
    id: String,
    kind: BookKind,
    /// The kind as one entry of it is called, and as a list of them is headed.
    kind_words: &'static str,
    heading: &'static str,
    name: String,
    /// Its content in a line.
    line: String,
    example: bool,
    /// A job has one of its kind at most.
    single: bool,
    /// Its prices are older than a year, or of no day.
    stale: bool,
    /// A shell's picture.
    shell: Option<ShellCard>,
}

#[wasm_bindgen]
impl Planner {
    /// Reads a book's file.
    pub fn read_book(&self, text: &str) -> Answer<BookRead> {
        document_to_js(&match exchange::open_book(text) {
            Ok((book, findings)) => BookRead {
                book: Some(book),
                findings,
            },
            Err(findings) => BookRead {
                book: None,
                findings,
            },
        })
    }

    /// A book as the text of its file, once its door has let it pass; nothing where it has not.
    pub fn write_book(&self, book: &Ts<Book>) -> Option<String> {
        let text = exchange::save_book(&from_js(book).ok()?);
        exchange::open_book(&text).is_ok().then_some(text)
    }

    /// The book that comes with the planner.
    pub fn example_book(&self) -> Answer<Book> {
        document_to_js(&book::examples())
    }

    /// The entries of a book as lists show them on a day (`2026-03-31`).
    pub fn book_cards(&self, book: &Ts<Book>, today: &str) -> Result<Vec<Ts<EntryCard>>, JsValue> {
        let book: Book = from_js(book).unwrap_or_else(|_| Book::empty(""));
        let today = Day::read(today);
        let system = self.session.site().site().display;
        let card = |entry: &BookEntry| EntryCard {
            id: entry.id.clone(),
            kind: entry.content.kind(),
            kind_words: entry.content.kind().words(),
            heading: entry.content.kind().heading(),
            name: entry.name.clone(),
            line: entry_line(entry, system),
            example: entry.is_example(),
            single: entry.content.kind().is_single(),
            stale: today.is_some_and(|today| entry.is_stale(today)),
            shell: match &entry.content {
                BookContent::Shell(it) => cards::of(&it.shell, system),
                _ => None,
            },
        };
        list_to_js(&book.entries.iter().map(card).collect::<Vec<_>>())
    }

    /// The price lists that the open job took and that are older than a year on a day (`2026-03-31`),
    /// each with its own day.
    pub fn old_price_lists(&self, today: &str) -> Vec<String> {
        let taken = self.session.site().site().taken.iter();
        let entries = taken.map(|it| &it.entry);
        let lists = entries.filter(|it| it.content.kind() == BookKind::Rates);
        let old = lists.filter(|it| Day::read(today).is_some_and(|today| it.is_stale(today)));
        old.filter_map(|it| Some(format!("{}, {}", it.name, it.dated?)))
            .collect()
    }

    /// What a length, meters, is off from the one that is printed; nothing where they agree.
    pub fn off_print(&self, measured: f64, printed: f64) -> Option<String> {
        off_print(measured, printed, self.session.site().site().display)
    }

    /// Puts on the open job what the book says that new jobs begin with, in one step: all of it or nothing.
    pub fn begin_with(&mut self, book: &Ts<Book>, today: &str) -> Answer<Begun> {
        let book: Option<Book> = from_js(book).ok();
        let (book, on) = book.zip(Day::read(today)).unzip();
        let taken: Vec<TakenEntry> = book
            .iter()
            .zip(on)
            .flat_map(|(book, on)| book.for_new_jobs().map(move |it| book.take(it, on)))
            .collect();
        let names = taken.iter().map(|it| it.entry.name.clone()).collect();
        let takes = taken.into_iter().map(|it| Command::Take(Box::new(it)));
        let all = Command::Together {
            label: "begin with the book".to_owned(),
            commands: takes.collect(),
        };
        let refused = self.session.apply(all).err().unwrap_or_default();
        let names = if refused.is_empty() {
            names
        } else {
            Vec::new()
        };
        to_js(&Begun { names, refused })
    }

    /// A price list beside the open job.
    pub fn price_rows(&self, list: &Ts<RateList>) -> Result<Vec<Ts<PriceRow>>, JsValue> {
        let list: Option<RateList> = from_js(list).ok();
        list_to_js(&list.map_or_else(Vec::new, |it| price_rows(&self.session, &it)))
    }

    /// What the open job has of a kind, as an entry's content: like this one, where it is told.
    pub fn content_for_book(
        &self,
        kind: Ts<BookKind>,
        like: Option<Ts<BookContent>>,
    ) -> Result<Option<Ts<BookContent>>, JsValue> {
        let kind: BookKind = crate::js::made_by_page(kind)?;
        let like: Option<BookContent> = like.and_then(|it| from_js(&it).ok());
        let content = BookContent::of_site(kind, self.session.site().site(), like.as_ref());
        content.map(|it| document_to_js(&it)).transpose()
    }

    /// How everything stands that the open job took from a book.
    pub fn book_standings(&self, book: &Ts<Book>) -> Result<Vec<Ts<TakenStanding>>, JsValue> {
        let book = from_js(book).unwrap_or_else(|_| Book::empty(""));
        list_to_js(&exchange::standings(self.session.site().site(), &book))
    }
}
