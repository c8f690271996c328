//! The company's book from the command line: what is in it, and how a job stands to it.

use std::fmt::Write as _;
use std::path::PathBuf;

use anyhow::Result;
use batterboard_core::exchange::{self, SinceTaken, standings};
use batterboard_core::report::book::book_text;
use batterboard_core::site::book::examples;
use clap::Args;

use crate::Units;
use crate::input;

/// Which book, and what of it.
#[derive(Args)]
pub struct BookArgs {
    /// The book's file; - reads standard input. Without it, the file of the examples is printed: a
    /// start for a book of your own.
    book: Option<PathBuf>,
    /// Print what this site file took from it, and what has changed since.
    #[arg(long, value_name = "SITE", requires = "book")]
    against: Option<PathBuf>,
    /// The units to print.
    #[arg(long, value_enum, default_value = "feet")]
    units: Units,
}

/// What the arguments ask for.
///
/// # Errors
/// A file that cannot be read, with its findings.
pub fn run(args: &BookArgs) -> Result<String> {
    let Some(path) = &args.book else {
        return Ok(exchange::save_book(&examples()));
    };
    let (book, findings) = input::parsed(path, exchange::open_book)?;
    if !findings.is_empty() {
        eprintln!("{}", input::told(&findings));
    }
    let Some(site) = &args.against else {
        return Ok(book_text(&book, args.units.into()));
    };
    let opened = input::open(site)?;
    let all = standings(opened.site.site(), &book);
    let mut out = String::new();
    if all.is_empty() {
        out.push_str("The job took nothing from a book.\n");
    }
    for it in all {
        writeln!(
            out,
            "{} ({}), taken {} from edition {} of {}",
            it.name,
            it.kind.words(),
            it.on,
            it.edition,
            it.book
        )?;
        match it.since {
            SinceTaken::Same => out.push_str("  The book has it as it was taken.\n"),
            SinceTaken::Gone => out.push_str("  The book has it no more.\n"),
            SinceTaken::Changed(changes) => {
                for change in changes {
                    writeln!(out, "  Changed in the book: {}", change.words)?;
                }
            }
        }
        for change in it.own {
            writeln!(out, "  Otherwise on this job: {}", change.words)?;
        }
    }
    Ok(out)
}
