//! The company's book in words: an entry in a line, and what stands of it in a report.

use serde::Serialize;

use crate::shell::Shell;
use crate::site::book::{Book, BookContent, BookEntry, BookKind, BookShell, Day, TakenEntry};
use crate::site::works::ConstructionSettings;
use crate::site::{HaulSettings, Site};
use crate::units::{Measure, System, show, show_money};

use super::table::{heading, hung, pairs, wrapped};

/// What a report shows of the book that a job took from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BookFigures {
    /// The lines of the title block.
    pub title: Vec<String>,
    /// The firm's own cautions.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
    /// What was taken.
    pub taken: Vec<TakenFigures>,
}

/// One thing that was taken.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TakenFigures {
    /// What sort it is.
    pub kind: BookKind,
    /// What it is called.
    pub name: String,
    /// Who says so.
    pub source: String,
    /// Of what day it is, where that is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dated: Option<Day>,
    /// Whose book it was.
    pub book: String,
    /// Its edition then.
    pub edition: u32,
    /// The day it was taken.
    pub on: Day,
}

impl BookFigures {
    /// What a job took; nothing where it took nothing.
    pub fn of(site: &Site) -> Option<Self> {
        if site.taken.is_empty() {
            return None;
        }
        let title = site.taken.iter().find_map(|it| match &it.entry.content {
            BookContent::TitleBlock(title) => Some(title.clone()),
            _ => None,
        });
        let title = title.unwrap_or_default();
        Some(Self {
            title: title.lines,
            cautions: title.cautions,
            taken: site.taken.iter().map(TakenFigures::of).collect(),
        })
    }

    /// The title block, above everything else.
    pub(super) fn title(&self, out: &mut String) {
        for line in &self.title {
            out.push_str(&format!("{}\n", wrapped(line, 0)));
        }
        if !self.title.is_empty() {
            out.push('\n');
        }
    }

    /// What was taken, and when.
    pub(super) fn text(&self, out: &mut String) {
        heading("From the company's book", out);
        let lines: Vec<(&str, String)> = self
            .taken
            .iter()
            .map(|it| (it.kind.words(), it.words()))
            .collect();
        pairs(&lines, out);
    }
}

impl TakenFigures {
    fn of(taken: &TakenEntry) -> Self {
        let entry = &taken.entry;
        Self {
            kind: entry.content.kind(),
            name: entry.name.clone(),
            source: entry.source.clone(),
            dated: entry.dated,
            book: taken.book.clone(),
            edition: taken.edition,
            on: taken.on,
        }
    }

    fn words(&self) -> String {
        let mut words = self.name.clone();
        if !self.source.is_empty() {
            words.push_str(&format!(", {}", self.source));
        }
        if let Some(day) = self.dated {
            words.push_str(&format!(", of {day}"));
        }
        let Self {
            book, edition, on, ..
        } = self;
        format!("{words}; taken {on} from edition {edition} of {book}")
    }
}

/// An entry and its content in a line: what a list shows beside the name.
pub fn entry_line(entry: &BookEntry, system: System) -> String {
    let length = |metres| show(Measure::Length, metres, system).text;
    match &entry.content {
        BookContent::Shell(it) => shell_line(it, system),
        BookContent::Rules(set) => {
            let mut words = count(set.rules.len(), "rule", "rules");
            if !set.jurisdiction.is_empty() {
                words.push_str(&format!(", {}", set.jurisdiction));
            }
            words.push_str(&match set.checked_by.as_str() {
                "" => ", not checked against the authority's text".to_owned(),
                who => format!(", checked by {who}"),
            });
            words
        }
        BookContent::Rates(list) => {
            let currency = list.currency.clone().unwrap_or_default();
            let rates = count(list.rates.len(), "rate", "rates");
            format!("{rates}, in {}", currency.symbol())
        }
        BookContent::Works(works) => works_line(works, system),
        BookContent::Deck(deck) => format!(
            "slab {}, bed {}, joints every {}",
            length(deck.thickness),
            length(deck.bed),
            length(deck.joint_spacing)
        ),
        BookContent::Truck(truck) => truck_line(truck, system),
        BookContent::Machine(it) => format!(
            "{} wide, {} high, {}",
            length(it.width),
            length(it.height),
            show(Measure::Weight, it.weight, system).text
        ),
        BookContent::TitleBlock(title) => {
            let first = title.lines.first().cloned().unwrap_or_default();
            let more = title.cautions.len();
            match more {
                0 => first,
                _ => format!("{first}; {}", count(more, "caution", "cautions")),
            }
        }
    }
}

fn count(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}

fn shell_line(it: &BookShell, system: System) -> String {
    let length = |metres| show(Measure::Length, metres, system).text;
    let Ok((shell, _)) = Shell::check(&it.shell) else {
        return String::new();
    };
    let size = shell.footprint.bounds();
    let (long, wide) = size.map_or((0.0, 0.0), |(low, high)| (high.x - low.x, high.y - low.y));
    let mut words = vec![
        format!("{} by {}", length(long), length(wide)),
        format!(
            "{} to {} deep",
            length(shell.shallowest()),
            length(shell.deepest())
        ),
    ];
    words.extend(
        it.shell
            .weight
            .map(|kilograms| show(Measure::Weight, kilograms, system).text),
    );
    let currency = it.currency.clone().unwrap_or_default();
    words.extend(it.price.map(|price| show_money(price, &currency).text));
    words.extend(printed("length", it.printed_length, long, system));
    words.extend(printed("width", it.printed_width, wide, system));
    words.join(", ")
}

/// How far an outline is from what the brochure prints, once that can be read off a sheet.
fn printed(what: &str, printed: Option<f64>, measured: f64, system: System) -> Option<String> {
    let printed = printed?;
    let off = off_print(measured, printed, system)?;
    let printed = show(Measure::Length, printed, system).text;
    Some(format!("{what} {off} off the printed {printed}"))
}

/// What a length, meters, is off from the one that is printed; nothing where a sheet cannot tell them
/// apart.
pub fn off_print(measured: f64, printed: f64, system: System) -> Option<String> {
    let off = (printed - measured).abs();
    (off >= READ_OFF).then(|| show(Measure::Length, off, system).text)
}

/// The least difference of lengths that a brochure's picture can tell, meters (half an inch; common
/// practice, no source).
const READ_OFF: f64 = 0.0127;

fn works_line(works: &ConstructionSettings, system: System) -> String {
    let length = |metres| show(Measure::Length, metres, system).text;
    format!(
        "over-dig {}, base {}, collar {} by {}, deck {}",
        length(works.dig.over_dig),
        length(works.dig.base_thickness),
        length(works.collar.width),
        length(works.collar.depth),
        length(works.deck.width)
    )
}

fn truck_line(truck: &HaulSettings, system: System) -> String {
    format!(
        "{} loose, payload {}",
        show(Measure::EarthVolume, truck.box_volume, system).text,
        show(Measure::Weight, truck.payload, system).text
    )
}

/// A book as a list for a terminal: what is in it, kind by kind.
pub fn book_text(book: &Book, system: System) -> String {
    let day = book
        .changed
        .map_or_else(String::new, |day| format!(" of {day}"));
    let mut out = format!("{}, edition {}{day}\n", book.name, book.edition);
    for kind in BookKind::ALL {
        let of_kind: Vec<&BookEntry> = (book.entries.iter())
            .filter(|it| it.content.kind() == kind)
            .collect();
        if of_kind.is_empty() {
            continue;
        }
        heading(kind.heading(), &mut out);
        for entry in of_kind {
            let mut words = vec![entry.name.clone(), entry_line(entry, system)];
            words.push(entry.source.clone());
            words.extend(entry.dated.map(|day| day.to_string()));
            words.retain(|it| !it.is_empty());
            hung("  - ", &words.join("; "), &mut out);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::site::book::examples;

    #[test]
    fn every_example_is_told_in_a_line_in_both_systems() {
        for entry in examples().entries {
            for system in [System::Feet, System::Metres] {
                assert!(entry_line(&entry, system).len() > 10, "{}", entry.name);
            }
        }
        let text = book_text(&examples(), System::Feet);
        assert!(text.contains("Example rules; 21 rules, Nowhere: an example, not checked"));
        assert!(
            text.contains("10.0 cu yd loose, payload 27,000 lb"),
            "{text}"
        );
    }

    #[test]
    fn an_outline_is_held_against_the_printed_size() {
        let mut entry = examples().entries.pop().unwrap();
        let line = |entry: &BookEntry| entry_line(entry, System::Feet);
        assert!(!line(&entry).contains("printed"));
        if let BookContent::Shell(it) = &mut entry.content {
            let (shell, _) = Shell::check(&it.shell).unwrap();
            let (low, high) = shell.footprint.bounds().unwrap();
            it.printed_length = Some(high.x - low.x + 0.0254);
            it.printed_width = Some(high.y - low.y + 0.001);
        }
        let words = line(&entry);
        assert!(words.contains("length 0'-1\" off the printed"), "{words}");
        assert!(!words.contains("width"), "{words}");
    }
}
