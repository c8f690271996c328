//! The company's book: what a firm types once and uses on every job.
//!
//! A [`Book`] holds [`BookEntry`]s: shells from brochures, rule sets of authorities, price lists of
//! suppliers, ways of building, deck materials, trucks, the title block. Each says where it is from and
//! of what day. A job never leans on the book: what it takes from there ([`BookEntry::put_on`]) becomes
//! its own, and beside it stands what was taken and when ([`TakenEntry`]), whole, so that later it can be
//! told what has changed in the book since. Nothing is taken over by itself.

mod check;
mod day;
mod examples;
mod kept;
mod put_on;
mod taken;

use std::sync::Arc;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use check::check;
pub use day::Day;
pub use examples::examples;
pub use put_on::{Replaced, empty_job, forget_shell};
pub use taken::check_taken;

use super::plan::Rate;
use super::rule::{self, Rule};
use super::works::{ConstructionSettings, DeckSettings, Fitting, HaulSettings};
use super::{BarrierRule, ShareRule};
use crate::shell::ShellRecord;
use crate::units::Currency;

/// The `format` member of every book's file.
pub const FORMAT: &str = "batterboard-book";

/// The version this build writes.
pub const VERSION: u32 = 1;

/// A company's book, the exact content of its file. Lengths are meters, weights kilograms.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Book {
    /// Always `batterboard-book`.
    pub format: String,
    /// Version of the format.
    pub version: u32,
    /// Whose book it is.
    pub name: String,
    /// Counts the changes of the book.
    pub edition: u32,
    /// The day of the last one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub changed: Option<Day>,
    /// What is in it, each under an id of its own.
    pub entries: Vec<BookEntry>,
}

impl Book {
    /// A book with nothing in it.
    pub fn empty(name: impl Into<String>) -> Self {
        Self {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: name.into(),
            edition: 0,
            changed: None,
            entries: Vec::new(),
        }
    }

    /// An entry as a job takes it on a day.
    pub fn take(&self, entry: &BookEntry, on: Day) -> TakenEntry {
        TakenEntry {
            book: self.name.clone(),
            edition: self.edition,
            on,
            entry: entry.clone(),
        }
    }

    /// What new jobs begin with, in order.
    pub fn for_new_jobs(&self) -> impl Iterator<Item = &BookEntry> {
        let is_shell = |it: &&BookEntry| it.content.kind() == BookKind::Shell;
        let entries = self.entries.iter().filter(|it| it.for_new_jobs);
        entries.filter(move |it| !is_shell(it))
    }

    /// The entry of this id.
    pub fn entry(&self, id: &str) -> Option<&BookEntry> {
        self.entries.iter().find(|entry| entry.id == id)
    }
}

/// One thing that a firm uses on every job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BookEntry {
    /// Tells it from the others; it stays the same when the entry is changed.
    pub id: String,
    /// What lists call it.
    pub name: String,
    /// Who says so: the brochure, the authority, the supplier. Of an example it says that it is one.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub source: String,
    /// The day from which it holds, or on which it was checked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dated: Option<Day>,
    /// Anything worth saying about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// New jobs begin with it. Not said of shells: where one stands is chosen on the lot.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub for_new_jobs: bool,
    /// What it is.
    pub content: BookContent,
}

impl BookEntry {
    /// An entry of no day and without a note.
    pub fn new(
        id: impl Into<String>,
        name: impl Into<String>,
        source: impl Into<String>,
        content: BookContent,
    ) -> Self {
        Self {
            id: id.into(),
            name: name.into(),
            source: source.into(),
            dated: None,
            note: String::new(),
            for_new_jobs: false,
            content,
        }
    }

    /// Whether it is an example, to be replaced by the firm's own.
    pub fn is_example(&self) -> bool {
        rule::says_example(&self.source)
    }

    /// Whether a job that takes the one has what the other would give it.
    pub fn says_the_same(&self, other: &Self) -> bool {
        let for_new_jobs = other.for_new_jobs;
        let alike = Self {
            for_new_jobs,
            ..self.clone()
        };
        alike == *other
    }

    /// Whether its prices are older than a year on a day, or of no day at all.
    pub fn is_stale(&self, today: Day) -> bool {
        let priced = match &self.content {
            BookContent::Rates(list) => !list.rates.is_empty(),
            BookContent::Shell(shell) => shell.price.is_some(),
            _ => false,
        };
        priced && self.dated.is_none_or(|day| day < today.a_year_before())
    }
}

/// What an entry is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum BookContent {
    /// A shell of a brochure.
    Shell(Box<BookShell>),
    /// The clearance rules of an authority.
    Rules(RuleSet),
    /// What a supplier asks.
    Rates(RateList),
    /// How the firm builds. What belongs to one lot in it (soil, sides and layers of the hole,
    /// groundwater, places of things) means nothing here.
    Works(Arc<ConstructionSettings>),
    /// A deck material: its slab, bed, fall, joints and rods. Its width means nothing here.
    Deck(DeckSettings),
    /// A truck that hauls.
    Truck(HaulSettings),
    /// A machine that digs or carries.
    Machine(Machine),
    /// What stands on the firm's sheets.
    TitleBlock(TitleBlock),
}

/// The sorts of [`BookContent`], in the order lists show them.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum BookKind {
    /// Shells.
    Shell,
    /// Rule sets.
    Rules,
    /// Price lists.
    Rates,
    /// Ways of building.
    Works,
    /// Deck materials.
    Deck,
    /// Trucks.
    Truck,
    /// Machines.
    Machine,
    /// Title blocks.
    TitleBlock,
}

impl BookKind {
    /// Every kind, in order.
    pub const ALL: [Self; 8] = [
        Self::Shell,
        Self::Rules,
        Self::Rates,
        Self::Works,
        Self::Deck,
        Self::Truck,
        Self::Machine,
        Self::TitleBlock,
    ];

    /// One of them, in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Shell => "shell",
            Self::Rules => "rule set",
            Self::Rates => "price list",
            Self::Works => "way of building",
            Self::Deck => "deck material",
            Self::Truck => "truck",
            Self::Machine => "machine",
            Self::TitleBlock => "title block",
        }
    }

    /// What a list of them is headed by.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Shell => "Shells",
            Self::Rules => "Rule sets",
            Self::Rates => "Price lists",
            Self::Works => "Ways of building",
            Self::Deck => "Deck materials",
            Self::Truck => "Trucks",
            Self::Machine => "Machines",
            Self::TitleBlock => "Title blocks",
        }
    }

    /// Whether a job has one of them at most: the next one takes its place.
    pub const fn is_single(self) -> bool {
        !matches!(self, Self::Rates | Self::Machine)
    }
}

impl BookContent {
    /// What sort it is.
    pub const fn kind(&self) -> BookKind {
        match self {
            Self::Shell(_) => BookKind::Shell,
            Self::Rules(_) => BookKind::Rules,
            Self::Rates(_) => BookKind::Rates,
            Self::Works(_) => BookKind::Works,
            Self::Deck(_) => BookKind::Deck,
            Self::Truck(_) => BookKind::Truck,
            Self::Machine(_) => BookKind::Machine,
            Self::TitleBlock(_) => BookKind::TitleBlock,
        }
    }
}

/// A shell as the firm sells it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BookShell {
    /// The shell: outline, floor, weight.
    pub shell: ShellRecord,
    /// Where pipe leaves it; none is taken over where none is told.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fittings: Vec<Fitting>,
    /// Length inside as it is printed, meters, to hold the outline against.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub printed_length: Option<f64>,
    /// Width inside as it is printed, meters.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub printed_width: Option<f64>,
    /// What it costs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
    /// What the price is in. Without it, `$`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub currency: Option<Currency>,
}

/// The clearance rules of one authority.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RuleSet {
    /// Where it holds, as the firm calls the place.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub jurisdiction: String,
    /// Who held it against the authority's own text.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub checked_by: String,
    /// The rules. One without a source of its own is required by the source of the entry.
    #[serde(default)]
    pub rules: Vec<Rule>,
    /// How much of the ground may be covered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shares: Vec<ShareRule>,
    /// What the barrier round the water has to be.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub barrier: Option<BarrierRule>,
}

/// What one supplier asks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RateList {
    /// What the rates are in. Without it, `$`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub currency: Option<Currency>,
    /// The rates, one to a quantity.
    #[serde(default)]
    pub rates: Vec<Rate>,
}

/// A machine that digs or carries, as it comes to the lot. A gate that is too narrow for one that a job
/// took is told there.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Machine {
    /// Width over all, meters.
    pub width: f64,
    /// Height over all as it travels, meters.
    pub height: f64,
    /// Weight in working order, kilograms.
    pub weight: f64,
}

/// What stands on the firm's sheets.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct TitleBlock {
    /// Name, address, telephone, license, line by line.
    #[serde(default)]
    pub lines: Vec<String>,
    /// Cautions of the firm's own, beside those of the planner.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
}

/// What a job took from a book, as it was then.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct TakenEntry {
    /// Whose book it was.
    pub book: String,
    /// Its edition then.
    pub edition: u32,
    /// The day it was taken.
    pub on: Day,
    /// The entry as it was.
    pub entry: BookEntry,
}
