//! The company's book from the command line.

use std::path::PathBuf;

use serde_json::{Value, json};

use crate::run::batterboard;

fn said(arguments: &[&str], input: &str) -> String {
    let output = batterboard(arguments, input);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    text
}

fn examples() -> Value {
    serde_json::from_str(&said(&["book"], "")).unwrap()
}

/// A file of this test alone.
fn file(name: &str, book: &Value) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, book.to_string()).unwrap();
    path
}

/// A demo site that took the first rule set of a book.
fn site(book: &Value) -> String {
    let path =
        PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo-sites/level-suburban.json");
    let mut site: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let entries = book["entries"].as_array().unwrap();
    let rules = entries
        .iter()
        .find(|it| it["content"]["rules"].is_object())
        .unwrap();
    site["taken"] = json!([{
        "book": book["name"], "edition": book["edition"], "on": "2026-03-31", "entry": rules,
    }]);
    site.to_string()
}

#[test]
fn the_examples_are_a_book_that_can_be_listed() {
    let list = said(&["book", "-"], &examples().to_string());
    for part in ["Rule sets", "Shells", "Title blocks", "rules"] {
        assert!(list.contains(part), "{part} is not in {list}");
    }
    let metric = said(&["book", "-", "--units", "metres"], &examples().to_string());
    assert_ne!(list, metric);
}

#[test]
fn a_broken_book_is_refused_with_its_place() {
    let mut book = examples();
    book["entries"][0]["name"] = json!("");
    let output = batterboard(&["book", "-"], &book.to_string());
    assert_eq!(output.status.code(), Some(2));
    let words = String::from_utf8(output.stderr).unwrap();
    assert!(words.contains("/entries/0/name"), "{words}");
}

#[test]
fn a_site_is_held_against_the_book_it_took_from() {
    let mut book = examples();
    let site = site(&book);
    let path = file("book-as-taken.json", &book);
    let same = said(&["book", path.to_str().unwrap(), "--against", "-"], &site);
    assert!(same.contains("taken 2026-03-31"), "{same}");
    assert!(same.contains("The book has it as it was taken."), "{same}");

    let entries = book["entries"].as_array_mut().unwrap();
    let rules = entries
        .iter_mut()
        .find(|it| it["content"]["rules"].is_object())
        .unwrap();
    let first = &mut rules["content"]["rules"]["rules"][0];
    first["distance"] = json!(first["distance"].as_f64().unwrap() + 1.0);
    let path = file("book-changed.json", &book);
    let changed = said(&["book", path.to_str().unwrap(), "--against", "-"], &site);
    assert!(changed.contains("Changed in the book:"), "{changed}");

    book["entries"] = json!([]);
    let path = file("book-empty.json", &book);
    let gone = said(&["book", path.to_str().unwrap(), "--against", "-"], &site);
    assert!(gone.contains("The book has it no more."), "{gone}");
}
