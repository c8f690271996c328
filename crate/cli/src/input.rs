//! Reading a site from a file or from standard input.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use anyhow::{Context, Result, anyhow};
use batterboard_core::exchange::{self, Opened, SIZE_LIMIT};
use batterboard_core::finding::Finding;

/// Opens and checks a site; `-` is standard input.
///
/// # Errors
/// When the file cannot be read, or with every fault of what is in it.
pub fn open(path: &Path) -> Result<Opened> {
    let (name, text) = if path == Path::new("-") {
        ("standard input".to_owned(), read(std::io::stdin().lock()))
    } else {
        let name = path.display().to_string();
        let file =
            File::open(path).with_context(|| format!("cannot open {name}; is the path right?"))?;
        (name, read(file))
    };
    let text = text.with_context(|| format!("cannot read {name}"))?;
    exchange::open(&text).map_err(|faults| anyhow!("{name} was not opened.\n{}", told(&faults)))
}

/// The text of a reader, no more of it than a site file may hold.
fn read(source: impl Read) -> Result<String> {
    let mut bytes = Vec::new();
    // One byte more than is allowed, so that the core can say that it is too much.
    source.take(SIZE_LIMIT as u64 + 1).read_to_end(&mut bytes)?;
    String::from_utf8(bytes).map_err(|_| {
        anyhow!("it is not UTF-8 text, so it is no site file; open a file that the planner saved")
    })
}

/// Every fault with its place and its remedy.
fn told(faults: &[Finding]) -> String {
    let lines: Vec<String> = faults
        .iter()
        .map(|fault| {
            let place = match fault.place.as_str() {
                "" => String::new(),
                place => format!(" at {place}"),
            };
            format!(
                "  {}{place}: {}\n    {}",
                fault.check, fault.message, fault.remedy
            )
        })
        .collect();
    lines.join("\n")
}
