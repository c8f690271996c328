//! Text into a typed document: size, syntax, format, version, members.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use serde_json::error::Category;

use super::locate;
use super::migrate::{Step, bring_up_to_date};
use super::unknown::{self, Unknown};
use crate::finding::Finding;
use crate::units::format_decimal;

/// The longest file that is read, bytes: several times a site with every limit reached.
pub const SIZE_LIMIT: usize = 32 * 1024 * 1024;

/// How many unknown members are told one by one before the rest are counted.
const UNKNOWN_TOLD: usize = 20;

/// What a kind of file calls itself and how old ones are brought up to date.
pub(super) struct Format {
    /// The `format` member.
    pub name: &'static str,
    /// What a person calls it.
    pub words: &'static str,
    /// The version this build writes.
    pub version: u32,
    /// From each older version to the next.
    pub steps: &'static [Step],
}

/// A document that was read, not yet checked.
pub(super) struct Document<T> {
    /// The document.
    pub value: T,
    /// Notes on the reading.
    pub findings: Vec<Finding>,
    /// Members that this build does not know.
    pub unknown: Unknown,
}

/// Reads a document of the given format.
///
/// # Errors
/// The first thing that kept the text from being read.
pub(super) fn read<T: DeserializeOwned + Serialize>(
    text: &str,
    format: &Format,
) -> Result<Document<T>, Finding> {
    check_size(text.len())?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let version = check_header(text, format)?;
    if version == format.version {
        let value: T = typed(text)?;
        return document(value, &parse(text)?, Vec::new());
    }
    let tree = bring_up_to_date(parse(text)?, version, format.steps)?;
    let value: T = typed(&tree.to_string())?;
    let note = Finding::note(
        "older-version",
        format!(
            "The file is of version {version}; it was brought up to version {}.",
            format.version
        ),
        "Saving writes the newer version; keep the old file if an older build must open it.",
    );
    document(value, &tree, vec![note])
}

fn check_size(length: usize) -> Result<(), Finding> {
    if length <= SIZE_LIMIT {
        return Ok(());
    }
    Err(Finding::fault(
        "file-size",
        format!(
            "The file has {}; at most {} are read.",
            megabytes(length),
            megabytes(SIZE_LIMIT)
        ),
        "Thin out what is in it; survey points are most often the reason.",
    ))
}

/// A number of bytes as people say it.
fn megabytes(bytes: usize) -> String {
    let text = format_decimal(bytes as f64 / 1e6, 1);
    format!("{text} MB")
}

/// The members every file starts with, of whatever type they came.
#[derive(Deserialize)]
struct Header {
    format: Option<Value>,
    version: Option<Value>,
}

/// Checks the syntax of the whole text, its format and its version, and returns the version.
fn check_header(text: &str, format: &Format) -> Result<u32, Finding> {
    let not_ours = |found: &str| {
        let message = format!(
            "This is not a {}: its \"format\" is {found}, not \"{}\".",
            format.words, format.name
        );
        let remedy = format!("Open a {} that this planner saved.", format.words);
        Finding::fault("format", message, remedy).under("/format")
    };
    // The reader would take a list for the header, member by member.
    if text.trim_start().starts_with('[') {
        return Err(not_ours("not told"));
    }
    let header: Header = serde_json::from_str(text).map_err(|e| match e.classify() {
        Category::Data if is_twice(&e) => {
            reading_fault(&e).under(&locate::pointer(text, e.line(), e.column()))
        }
        Category::Data => not_ours("not told"),
        _ => reading_fault(&e),
    })?;
    match header.format {
        None => return Err(not_ours("not told")),
        Some(name) if name.as_str() != Some(format.name) => {
            return Err(not_ours(&shortened(&name.to_string())));
        }
        Some(_) => {}
    }
    let version = header.version.unwrap_or(Value::Null);
    match version.as_u64() {
        None | Some(0) => Err(Finding::fault(
            "version",
            format!(
                "The \"version\" of the file is {}, not a whole number from 1.",
                shortened(&version.to_string())
            ),
            format!(
                "Write \"version\": {} if the file is of the present version.",
                format.version
            ),
        )
        .under("/version")),
        Some(n) if n > u64::from(format.version) => Err(Finding::fault(
            "version",
            format!(
                "The file is of version {n}; this build reads up to version {}.",
                format.version
            ),
            "Open it with a newer build of the planner. Nothing was changed.",
        )
        .under("/version")),
        Some(n) => Ok(u32::try_from(n).unwrap_or(format.version)),
    }
}

/// The text as a tree of values.
fn parse(text: &str) -> Result<Value, Finding> {
    serde_json::from_str(text).map_err(|e| reading_fault(&e))
}

/// Reads a typed value from text.
///
/// # Errors
/// The first member that the type does not take, with its place.
pub fn typed<T: DeserializeOwned>(text: &str) -> Result<T, Finding> {
    serde_json::from_str(text)
        .map_err(|e| reading_fault(&e).under(&locate::pointer(text, e.line(), e.column())))
}

/// The reader's complaint in plain words. Its line and column are part of the message.
fn reading_fault(error: &serde_json::Error) -> Finding {
    let told = error.to_string();
    match error.classify() {
        Category::Eof => Finding::fault(
            "cut-off",
            format!("The file ends too early ({told})."),
            "It was cut off while it was saved or sent. Fetch it again, or open a copy.",
        ),
        Category::Syntax | Category::Io => Finding::fault(
            "syntax",
            format!("The file is not valid JSON ({told})."),
            "Mend that place in a text editor, or open a copy. JSON knows no NaN and no infinity.",
        ),
        Category::Data if is_twice(error) => Finding::fault(
            "member-twice",
            format!(
                "A member of the file stands there twice ({}).",
                told.replace("duplicate field", "a second")
            ),
            "Keep the one that is meant and take the other one out, in a text editor.",
        ),
        Category::Data => misread(&in_plain_words(&told)),
    }
}

/// Whether the reader complains of a member that an object has twice.
fn is_twice(error: &serde_json::Error) -> bool {
    error.to_string().starts_with("duplicate field")
}

/// The fault of a member that is of another form than it must be.
fn misread(why: &str) -> Finding {
    Finding::fault(
        "member",
        format!("A member of the file cannot be read: {why}."),
        "Give it as the published schema says (batterboard schema).",
    )
}

/// The reader's names of types as a person calls them.
fn in_plain_words(told: &str) -> String {
    const WORDS: [(&str, &str); 7] = [
        ("expected f64", "expected a number"),
        ("expected u32", "expected a whole number"),
        ("expected usize", "expected a whole number"),
        ("floating point", "number"),
        ("invalid type: map", "invalid type: object"),
        ("invalid type: sequence", "invalid type: list"),
        ("expected a sequence", "expected a list"),
    ];
    let text = WORDS
        .iter()
        .fold(told.to_owned(), |text, (from, to)| text.replace(from, to));
    // "expected struct Bench with 2 elements at line 1 column 7"
    match text.split_once("expected struct ") {
        Some((before, named)) => {
            let place = named.split_once(" at ").map_or("", |(_, place)| place);
            format!("{before}expected an object at {place}")
        }
        None => text,
    }
}

/// Text cut to a length that fits into a sentence.
fn shortened(text: &str) -> String {
    if text.chars().count() <= 40 {
        return text.to_owned();
    }
    let start: String = text.chars().take(37).collect();
    format!("{start}...")
}

/// The document that was read from a tree, with a note on every member that nobody knows.
///
/// # Errors
/// A list in the place of an object, which the reader takes member by member: nobody means
/// that, and the published schema refuses it.
fn document<T: Serialize>(
    value: T,
    tree: &Value,
    mut findings: Vec<Finding>,
) -> Result<Document<T>, Finding> {
    // What was just read can be written; if not, nothing is lost by calling it all known.
    let written = serde_json::to_value(&value).unwrap_or(Value::Null);
    if let Some(place) = unknown::list_for_object(tree, &written) {
        return Err(misread("invalid type: list, expected an object").under(&place));
    }
    let unknown = Unknown::between(tree, &written);
    findings.extend(unknown.members().iter().take(UNKNOWN_TOLD).map(|u| {
        Finding::note(
            "unknown-member",
            format!(
                "This build does not know the member \"{}\".",
                shortened(u.name())
            ),
            "It takes no part in any figure. It is kept and saved again with the file.",
        )
        .under(&u.place())
    }));
    if unknown.len() > UNKNOWN_TOLD {
        let message = format!(
            "There are {} more members that this build does not know.",
            unknown.len() - UNKNOWN_TOLD
        );
        findings.push(Finding::note(
            "unknown-member",
            message,
            "They are kept and saved again with the file.",
        ));
    }
    Ok(Document {
        value,
        findings,
        unknown,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Debug, PartialEq, Serialize, Deserialize)]
    struct Thing {
        format: String,
        version: u32,
        size: f64,
        #[serde(default)]
        inside: Vec<Choice>,
        #[serde(default)]
        next: Option<Part>,
    }

    #[derive(Debug, PartialEq, Serialize, Deserialize)]
    struct Part {
        size: f64,
    }

    #[derive(Debug, PartialEq, Serialize, Deserialize)]
    enum Choice {
        Bare,
        Pair([u32; 2]),
        Whole(Part),
        Told { name: String },
    }

    const THING: Format = Format {
        name: "thing",
        words: "file of a thing",
        version: 1,
        steps: &[],
    };

    fn fault(text: &str) -> Finding {
        read::<Thing>(text, &THING).err().unwrap()
    }

    fn thing(rest: &str) -> String {
        format!(r#"{{"format": "thing", "version": 1, "size": 1, {rest}}}"#)
    }

    #[test]
    fn every_form_is_read_and_known() {
        let text = thing(
            r#""next": {"size": 2},
            "inside": ["Bare", {"Pair": [3, 4]}, {"Whole": {"size": 5}}, {"Told": {"name": "six"}}]"#,
        );
        let read = read::<Thing>(&text, &THING).ok().unwrap();
        assert_eq!(read.value.next, Some(Part { size: 2.0 }));
        let inside = vec![
            Choice::Bare,
            Choice::Pair([3, 4]),
            Choice::Whole(Part { size: 5.0 }),
            Choice::Told { name: "six".into() },
        ];
        assert_eq!(read.value.inside, inside);
        assert!(read.findings.is_empty() && read.unknown.is_empty());
    }

    #[test]
    fn a_list_is_no_object_at_any_depth() {
        for (rest, place) in [
            (r#""next": [2]"#, "/next"),
            (r#""inside": [{"Told": ["six"]}]"#, "/inside/0/Told"),
            (r#""inside": ["Bare", {"Whole": [5]}]"#, "/inside/1/Whole"),
        ] {
            let fault = fault(&thing(rest));
            let told = (fault.code, fault.pointer.as_str());
            assert_eq!(told, ("member", place), "{rest}");
            assert!(fault.message.contains("list"), "{}", fault.message);
        }
        let whole = fault(r#"["thing", 1, 2, [], null]"#);
        assert_eq!((whole.code, whole.pointer.as_str()), ("format", "/format"));
    }

    #[test]
    fn a_member_that_stands_there_twice_is_told_as_such() {
        for (text, name, place) in [
            (
                r#"{"format": "thing", "format": "thing", "version": 1, "size": 1}"#.to_owned(),
                "format",
                "",
            ),
            (thing(r#""size": 2"#), "size", ""),
            (thing(r#""next": {"size": 2, "size": 3}"#), "size", "/next"),
        ] {
            let fault = fault(&text);
            assert_eq!(fault.code, "member-twice", "{text}: {}", fault.message);
            assert!(
                fault.message.contains(&format!("a second `{name}`")),
                "{}",
                fault.message
            );
            assert!(fault.pointer.starts_with(place), "{}", fault.pointer);
        }
    }

    #[test]
    fn a_file_that_is_too_long_is_told_in_megabytes() {
        let fault = check_size(50_000_000).unwrap_err();
        assert!(
            fault.message.contains("50.0 MB") && fault.message.contains("33.6 MB"),
            "{}",
            fault.message
        );
    }

    #[test]
    fn what_follows_the_document_is_a_fault() {
        assert_eq!(fault(&(thing(r#""next": null"#) + " 2")).code, "syntax");
        assert_eq!(typed::<f64>("1 2").unwrap_err().code, "syntax");
    }
}
