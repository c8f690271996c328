//! Reading a site from a file or from standard input.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use anyhow::{Context, Result, anyhow};
use batterboard_core::exchange::{self, Opened, SIZE_LIMIT};
use batterboard_core::finding::Finding;
use batterboard_paper::read as sheet;

/// Opens and checks a site, from its file or from the PDF of a sheet; `-` is standard input.
///
/// # Errors
/// When the file cannot be read, or with every fault of what is in it.
pub fn open(path: &Path) -> Result<Opened> {
    parsed(path, exchange::open)
}

/// What a file holds, as its own reader reads it.
///
/// # Errors
/// As [`open`].
pub fn parsed<T>(path: &Path, read: fn(&str) -> Result<T, Vec<Finding>>) -> Result<T> {
    let text = text(path)?;
    read(&text).map_err(|faults| anyhow!("{} was not opened.\n{}", name(path), told(&faults)))
}

/// What a file is called in messages.
pub fn name(path: &Path) -> String {
    if path == Path::new("-") {
        "standard input".to_owned()
    } else {
        path.display().to_string()
    }
}

/// The text of a file; `-` is standard input.
///
/// # Errors
/// When the file cannot be read.
pub fn text(path: &Path) -> Result<String> {
    let name = name(path);
    let text = if path == Path::new("-") {
        read(std::io::stdin().lock())
    } else {
        let file =
            File::open(path).with_context(|| format!("cannot open {name}; is the path right?"))?;
        read(file)
    };
    text.with_context(|| format!("cannot read {name}"))
}

/// The text of a reader, no more of it than a site file may hold.
fn read(source: impl Read) -> Result<String> {
    let mut bytes = Vec::new();
    // One byte more than is allowed, so that the core can say that it is too much.
    source.take(SIZE_LIMIT as u64 + 1).read_to_end(&mut bytes)?;
    if sheet::is_pdf(&bytes) {
        return sheet::site_in(&bytes)
            .map_err(|fault| anyhow!("{} {}", fault.message, fault.remedy));
    }
    String::from_utf8(bytes).map_err(|_| {
        anyhow!("it is not UTF-8 text; open a file that the planner saved, or a map or list saved as UTF-8")
    })
}

/// Every finding with its place and its remedy.
pub fn told(faults: &[Finding]) -> String {
    let lines: Vec<String> = faults
        .iter()
        .map(|fault| {
            let place = match fault.pointer.as_str() {
                "" => String::new(),
                place => format!(" at {place}"),
            };
            format!(
                "  {}{place}: {}\n    {}",
                fault.code, fault.message, fault.remedy
            )
        })
        .collect();
    lines.join("\n")
}
