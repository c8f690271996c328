//! What a book's entry has that no member of a site holds: a machine, a title block. It is checked alone, in
//! the book and in a job that took it.

use super::{BookContent, Machine, TakenEntry};
use crate::finding::Finding;
use crate::site::limits;
use crate::units::{Measure, System, out_of_range};

/// The most lines of a title block, and of its cautions (arbitrary: they have to fit on a sheet).
const LINES: usize = 12;

/// The most characters of a line of it (arbitrary).
const LINE: usize = 200;

/// What is wrong with what a job took and has in no other place of its own.
pub fn check_taken(taken: &[TakenEntry]) -> Vec<Finding> {
    let told = |(i, it): (usize, &TakenEntry)| {
        let place = format!("/taken/{i}/entry");
        let found = alone(&it.entry.content).unwrap_or_default().into_iter();
        found.map(move |it| it.under(&place))
    };
    taken.iter().enumerate().flat_map(told).collect()
}

/// What is wrong with a content that the door of sites does not know.
pub(super) fn alone(content: &BookContent) -> Option<Vec<Finding>> {
    match content {
        BookContent::TitleBlock(it) => {
            let mut found = lines("lines", &it.lines);
            found.extend(lines("cautions", &it.cautions));
            Some(found)
        }
        BookContent::Machine(it) => Some(machine(*it)),
        _ => None,
    }
}

/// The figures of a machine: anything from a plate tamper to a loader.
fn machine(it: Machine) -> Vec<Finding> {
    let figures = [
        ("width", "Its width", Measure::Length, it.width, 0.3..=6.0),
        (
            "height",
            "Its height",
            Measure::Length,
            it.height,
            0.3..=6.0,
        ),
        (
            "weight",
            "Its weight",
            Measure::Weight,
            it.weight,
            50.0..=100_000.0,
        ),
    ];
    figures
        .into_iter()
        .filter(|(.., value, range)| !range.contains(value))
        .map(|(member, what, measure, value, range)| {
            let systems = [System::Feet, System::Metres];
            let message = out_of_range(what, measure, value, &range, &systems);
            Finding::fault("out-of-range", message, "Give a value within that range.")
                .under(&format!("/content/machine/{member}"))
        })
        .collect()
}

fn lines(member: &str, lines: &[String]) -> Vec<Finding> {
    let place = format!("/content/title-block/{member}");
    let mut found: Vec<Finding> =
        limits::too_many(&place, "lines of a title block", lines.len(), LINES)
            .into_iter()
            .collect();
    let long = lines.iter().position(|line| line.chars().count() > LINE);
    found.extend(long.map(|i| {
        let message = format!("The line has more than {LINE} characters.");
        Finding::fault("line-length", message, "Shorten it, or part it in two.")
            .under(&format!("{place}/{i}"))
    }));
    found
}
