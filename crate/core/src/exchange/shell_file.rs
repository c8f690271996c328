//! The shell file: one shell of the user's own, to be loaded into any site.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::migrate;
use super::read::{Format, read};
use crate::finding::Finding;
use crate::json;
use crate::shell::{Shell, ShellRecord};
use crate::site::limits;

/// The `format` member of every shell file.
pub const FORMAT: &str = "batterboard-shell";

/// The version this build writes.
pub const VERSION: u32 = 2;

const SHELL: Format = Format {
    name: FORMAT,
    words: "batterboard shell file",
    version: VERSION,
    steps: &[migrate::nothing_moved],
};

/// A shell file's content. Lengths are meters; the frame is the shell's own: origin at its
/// middle, x toward the deep end, y to the left.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ShellFile {
    /// Always `batterboard-shell`.
    pub format: String,
    /// Version of the format.
    pub version: u32,
    /// The shell.
    pub shell: ShellRecord,
}

/// Reads and checks a shell file: the shell and what was noticed about it.
///
/// # Errors
/// Either the one fault that kept the text from being read, or every fault of the shell.
pub fn open(text: &str) -> Result<(ShellRecord, Vec<Finding>), Vec<Finding>> {
    let document = read::<ShellFile>(text, &SHELL).map_err(|fault| vec![fault])?;
    let record = document.value.shell;
    let under = |f: Finding| f.under("/shell");
    if let Some(too_many) = limits::shell(&record) {
        return Err(vec![under(too_many)]);
    }
    let (_, noticed) = Shell::check(&record)
        .map_err(|faults| -> Vec<Finding> { faults.into_iter().map(under).collect() })?;
    let mut findings = document.findings;
    findings.extend(noticed.into_iter().map(under));
    Ok((record, findings))
}

/// A shell as the text of a shell file.
pub fn save(shell: &ShellRecord) -> String {
    json::to_string(&ShellFile {
        format: FORMAT.to_owned(),
        version: VERSION,
        shell: shell.clone(),
    })
}
