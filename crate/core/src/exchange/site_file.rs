//! The site file: a [`Site`] as JSON.

use serde_json::Value;

use super::pretty;
use super::read::{Format, read};
use super::unknown::Unknown;
use crate::finding::Finding;
use crate::site::{CheckedSite, FORMAT, Site, VERSION};

/// How a site file names itself. Every version before [`VERSION`] has a step here.
const SITE: Format = Format {
    name: FORMAT,
    words: "batterboard site file",
    version: VERSION,
    steps: &[],
};

/// A site file that was read and checked.
#[derive(Debug, Clone)]
pub struct Opened {
    /// The site; what its parts had to say is in [`CheckedSite::findings`].
    pub site: CheckedSite,
    /// What the reading had to say: an older version, members that nobody knows.
    pub findings: Vec<Finding>,
    /// Members that this build does not know, to be handed to [`save`].
    pub unknown: Vec<Unknown>,
}

/// Reads and checks a site file.
///
/// # Errors
/// Either the one fault that kept the text from being read, or every fault of the figures
/// in it, each with its place in the file.
pub fn open(text: &str) -> Result<Opened, Vec<Finding>> {
    let document = read::<Site>(text, &SITE).map_err(|fault| vec![fault])?;
    Ok(Opened {
        site: CheckedSite::check(document.value, None)?,
        findings: document.findings,
        unknown: document.unknown,
    })
}

/// A site as the text of a file, with the unknown members it was opened with.
///
/// The same site and members give the same bytes, and the text opens to the same site.
pub fn save(site: &Site, unknown: &[Unknown]) -> String {
    let mut document = serde_json::to_value(site).unwrap_or(Value::Null);
    for member in unknown {
        member.put_back(&mut document);
    }
    pretty::to_string(&document)
}
