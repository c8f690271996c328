//! Messages of the core said in Spanish: by the catalogue `words/es.po`, whose keys are the English templates.
//!
//! The catalogue is text in the form of gettext: `msgid` and `msgstr`, each on one line. It is read once. A template that it
//! does not have stays English; tests hold that no sheet shows one.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use batterboard_core::finding::{Message, filled_as};

const CATALOGUE: &str = include_str!("../words/es.po");

static WORDINGS: LazyLock<BTreeMap<String, String>> = LazyLock::new(|| entries(CATALOGUE));

/// A message in Spanish.
pub fn said(message: &Message) -> String {
    let Some(template) = message.template() else {
        return message.to_string();
    };
    let wording = match WORDINGS.get(template) {
        Some(wording) => wording,
        None => template,
    };
    filled_as(template, wording, |text, place| {
        let value = message.values().get(place).map(said).unwrap_or_default();
        put(text, &value);
    })
}

/// Adds words to a text: `de el` and `a el` are one word.
fn put(text: &mut String, words: &str) {
    let article = words.starts_with("el ");
    let before = [" de ", " a ", "De ", "A "];
    if article && before.iter().any(|it| text.ends_with(it)) {
        text.pop();
        text.push_str(words.trim_start_matches('e'));
    } else {
        text.push_str(words);
    }
}

/// Every template with its wording.
fn entries(catalogue: &str) -> BTreeMap<String, String> {
    let mut all = BTreeMap::new();
    let mut key = None;
    for line in catalogue.lines() {
        if let Some(text) = line.strip_prefix("msgid ") {
            key = Some(unquoted(text));
        } else if let Some(text) = line.strip_prefix("msgstr ") {
            all.extend(key.take().map(|key| (key, unquoted(text))));
        }
    }
    all
}

/// What stands between quotes, its backslashes taken out.
fn unquoted(text: &str) -> String {
    let text = text.trim().trim_start_matches('"');
    let text = text.strip_suffix('"').unwrap_or(text);
    let mut words = String::with_capacity(text.len());
    let mut letters = text.chars();
    while let Some(letter) = letters.next() {
        let kept = match letter {
            '\\' => letters.next(),
            _ => Some(letter),
        };
        words.extend(kept);
    }
    words
}

/// What of a message the catalogue lacks: templates with words in them.
#[cfg(test)]
pub fn lacking(message: &Message) -> Vec<&str> {
    let bare =
        |template: &str| !filled_as(template, template, |_, _| ()).contains(char::is_alphabetic);
    let own = message.template();
    let own = own.filter(|it| !bare(it) && !WORDINGS.contains_key(*it));
    let values = message.values().iter().flat_map(lacking);
    own.into_iter().chain(values).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use std::collections::BTreeSet;

    use batterboard_core::finding::names_in;
    use batterboard_core::finding::said;

    use super::*;

    #[test]
    fn every_wording_has_the_places_of_its_template() {
        assert!(WORDINGS.len() > 300);
        for (english, spanish) in WORDINGS.iter().filter(|(english, _)| !english.is_empty()) {
            let names = |text| names_in(text).into_iter().collect::<BTreeSet<&str>>();
            assert_eq!(names(english), names(spanish), "{english}");
            let ends = |text: &str| {
                (
                    text.starts_with(' '),
                    text.chars().last().filter(|it| ".:".contains(*it)),
                )
            };
            assert_eq!(ends(english), ends(spanish), "{english}");
        }
    }

    #[test]
    fn no_template_stands_there_twice() {
        let mut seen = BTreeSet::new();
        for line in CATALOGUE.lines().filter(|line| line.starts_with("msgid ")) {
            assert!(seen.insert(line), "{line}");
        }
    }

    #[test]
    fn values_are_said_in_spanish_and_names_are_kept() {
        let reach = said!(
            "The {part} reaches {length} over the {side}.",
            part = "dig",
            length = String::from("2'-0\""),
            side = said!("{kind} ({faces})", kind = "rear line", faces = "north"),
        );
        assert_eq!(
            said(&reach),
            "la excavación pasa 2'-0\" más allá del lindero del fondo (norte)."
        );
        let rule = said!(
            "The rule \"{rule}\" names no source.",
            rule = String::from("north"),
        );
        assert_eq!(said(&rule), "La regla \"north\" no dice de dónde viene.");
    }
}
