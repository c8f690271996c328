//! The book that comes with the planner: examples, each marked as one.

use std::sync::Arc;

use super::{Book, BookContent, BookEntry, BookShell, Machine, RuleSet, TitleBlock};
use crate::shell::catalogue;
use crate::site::rule::{self, INVENTED};
use crate::site::works::{ConstructionSettings, DeckSettings, HaulSettings};
use crate::units::constants::{CUBIC_YARD, INCH, POUND};

/// What the source of an example says that no authority has a say in.
const MADE_UP: &str = "example only, invented";

/// What the source of an example says that is usual in the trade.
const USUAL: &str = "example only, common practice with no source";

/// Every example: shells of the catalogue, a rule set, a way of building, deck materials, trucks and a
/// title block. It has no prices: nobody else's are yours.
pub fn examples() -> Book {
    let mut book = Book::empty("Examples");
    book.entries = others().into();
    let shells = catalogue::all().iter().enumerate().map(|(i, shell)| {
        let content = BookContent::Shell(Box::new(BookShell {
            shell: shell.clone(),
            fittings: Vec::new(),
            printed_length: None,
            printed_width: None,
            price: None,
            currency: None,
        }));
        BookEntry::new(
            format!("example-shell-{}", i + 1),
            &shell.name,
            MADE_UP,
            content,
        )
    });
    book.entries.extend(shells);
    book
}

fn others() -> [BookEntry; 8] {
    let works = ConstructionSettings::default();
    let deck = works.deck;
    let paved = DeckSettings {
        thickness: 6.0 * INCH,
        ..deck
    };
    let small_truck = HaulSettings {
        box_volume: 5.0 * CUBIC_YARD,
        payload: 14_000.0 * POUND,
        ..works.haul
    };
    let rules = RuleSet {
        jurisdiction: "Nowhere: an example".to_owned(),
        checked_by: String::new(),
        rules: rule::examples(),
        shares: Vec::new(),
        barrier: None,
    };
    let title = TitleBlock {
        lines: [
            "Example Pool Company",
            "1 Example Road, Anytown",
            "License: put in your own",
        ]
        .map(str::to_owned)
        .into(),
        cautions: vec!["Call the utility-locating service before anybody digs.".to_owned()],
    };
    let haul = works.haul;
    let excavator = Machine {
        width: 72.0 * INCH,
        height: 98.0 * INCH,
        weight: 11_000.0 * POUND,
    };
    [
        BookEntry::new(
            "example-rules",
            "Example rules",
            INVENTED,
            BookContent::Rules(rules),
        ),
        BookEntry::new(
            "example-works",
            "Usual way of building",
            USUAL,
            BookContent::Works(Arc::new(works)),
        ),
        BookEntry::new(
            "example-deck",
            "Concrete, 4 in",
            USUAL,
            BookContent::Deck(deck),
        ),
        BookEntry::new(
            "example-deck-6",
            "Concrete, 6 in",
            USUAL,
            BookContent::Deck(paved),
        ),
        BookEntry::new(
            "example-truck",
            "Three-axle dump truck, 10 cu yd",
            USUAL,
            BookContent::Truck(haul),
        ),
        BookEntry::new(
            "example-truck-5",
            "Two-axle dump truck, 5 cu yd",
            USUAL,
            BookContent::Truck(small_truck),
        ),
        BookEntry::new(
            "example-machine",
            "Small excavator",
            MADE_UP,
            BookContent::Machine(excavator),
        ),
        BookEntry::new(
            "example-title",
            "Example title block",
            MADE_UP,
            BookContent::TitleBlock(title),
        ),
    ]
}
