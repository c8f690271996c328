//! The file of a company's book: a [`Book`] as JSON.

use super::migrate;
use super::read::{Format, read};
use crate::finding::{Finding, any_fault};
use crate::json;
use crate::site::book::{self, Book, FORMAT, VERSION};

const BOOK: Format = Format {
    name: FORMAT,
    words: "batterboard book",
    version: VERSION,
    steps: &[migrate::nothing_moved],
};

/// Reads and checks a book: what is in it, and what was noticed about it.
///
/// # Errors
/// Either the one fault that kept the text from being read, or every fault of its entries, each with
/// its place in the file.
pub fn open(text: &str) -> Result<(Book, Vec<Finding>), Vec<Finding>> {
    let document = read::<Book>(text, &BOOK).map_err(|fault| vec![fault])?;
    let told = book::check(&document.value);
    if any_fault(&told) {
        return Err(told.into_iter().filter(Finding::is_fault).collect());
    }
    let mut findings = document.findings;
    findings.extend(told);
    Ok((document.value, findings))
}

/// A book as the text of its file.
pub fn save(book: &Book) -> String {
    json::to_string(book)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::site::book::examples;

    #[test]
    fn a_book_opens_to_what_was_saved() {
        let text = save(&examples());
        let (book, findings) = open(&text).unwrap();
        assert_eq!(book, examples());
        assert!(!any_fault(&findings));
        assert_eq!(save(&book), text);
    }

    #[test]
    fn a_book_that_cannot_be_used_says_where() {
        let text = save(&examples());
        let told = |text: &str| open(text).unwrap_err().remove(0);
        assert_eq!(told("{}").code, "format");
        let site = text.replacen("batterboard-book", "batterboard-site", 1);
        assert_eq!(told(&site).code, "format");
        let newer = text.replacen("\"version\": 1", "\"version\": 2", 1);
        assert_eq!(told(&newer).code, "version");
        let dated = text.replacen(
            "\"edition\": 0",
            "\"edition\": 0, \"changed\": \"2026-02-30\"",
            1,
        );
        let fault = told(&dated);
        assert_eq!((fault.code, fault.pointer.as_str()), ("member", "/changed"));
        assert!(fault.message.contains("2026-02-30"), "{}", fault.message);
        let nameless = text.replacen("\"name\": \"Concrete, 4 in\"", "\"name\": \"\"", 1);
        assert_eq!(told(&nameless).code, "entry-name");
    }
}
