//! Sentences made from a template and named values, so that they can be said in another language.
//!
//! A [`Message`] reads as its English text. Beside it stand the template it was made from and the values put
//! into it: whoever has the template in another language says the same with the same values. A value is a
//! message too: text that is somebody's own, or a figure with its unit, has no template and stays as it is; the
//! project's own words are templates without values.

use core::fmt;
use core::ops::Deref;

use serde::{Serialize, Serializer};

/// A text with what it was made from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Message {
    /// Somebody's own text, or a figure: the same in every language.
    Kept(String),
    /// The project's own words, without values.
    Words(&'static str),
    /// A template with values.
    Said(Box<Said>),
}

/// A template with the values in its places.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// As it reads in English.
    text: String,
    /// The English template, with `{name}` where a value stands.
    template: &'static str,
    /// The values, in the order in which their places come first.
    values: Vec<Message>,
}

/// A [`Message`] from a template and its values, held against each other when it is compiled:
/// `said!("The {part} reaches {length} over the {side}.", part = .., length = .., side = ..)`. The values stand in the
/// order of their places.
///
/// A value is whatever a message can be made from: a `&'static str` is the project's own word, a `String` is
/// taken as it stands.
#[macro_export]
macro_rules! said {
    ($template:literal $(,)?) => {
        $crate::finding::Message::from($template)
    };
    ($template:literal, $($name:ident = $value:expr),+ $(,)?) => {{
        const _: () = assert!(
            $crate::finding::names_are_those_of($template, &[$(stringify!($name)),+]),
            "the values are not those of the template, in its order"
        );
        $crate::finding::Message::of(
            $template,
            // They are taken out: nothing is left to be dropped.
            &mut *::core::mem::ManuallyDrop::new([$($crate::finding::Message::from($value)),+]),
        )
    }};
}

pub use said;

impl Message {
    /// A template with values, taken out of where they are, in the order of its places. Sentences are made by
    /// [`said!`], which holds the two against each other.
    pub fn of(template: &'static str, values: &mut [Self]) -> Self {
        let values: Vec<Self> = values.iter_mut().map(core::mem::take).collect();
        let text = filled(template, |text, place| {
            text.push_str(values.get(place).map_or("", Self::as_str));
        });
        Self::Said(Box::new(Said {
            text,
            template,
            values,
        }))
    }

    /// Text that is somebody's own or a figure, the same in every language.
    pub fn kept(text: impl Into<String>) -> Self {
        Self::Kept(text.into())
    }

    /// Several in a row, with a mark between them that every language has.
    pub fn joined(parts: Vec<Self>, between: &'static str) -> Self {
        let mut parts = parts.into_iter();
        let first = parts.next().unwrap_or_default();
        parts.fold(first, |before, after| {
            let template = match between {
                ", " => "{before}, {after}",
                _ => "{before} {after}",
            };
            Self::of(template, &mut [before, after])
        })
    }

    /// The same at the beginning of a sentence.
    #[must_use]
    pub fn capital(self) -> Self {
        let mut letters = self.as_str().chars();
        let first = letters.next().map(char::to_uppercase);
        let text = first.into_iter().flatten().chain(letters).collect();
        match self {
            Self::Kept(_) => Self::Kept(text),
            Self::Words(template) => Self::Said(Box::new(Said {
                text,
                template,
                values: Vec::new(),
            })),
            Self::Said(said) => Self::Said(Box::new(Said { text, ..*said })),
        }
    }

    /// As it reads in English.
    pub fn as_str(&self) -> &str {
        match self {
            Self::Kept(text) => text,
            Self::Words(words) => words,
            Self::Said(said) => &said.text,
        }
    }

    /// The English template it was made from, if it is not somebody's own text.
    pub fn template(&self) -> Option<&'static str> {
        match self {
            Self::Kept(_) | Self::Words("") => None,
            Self::Words(words) => Some(words),
            Self::Said(said) => Some(said.template),
        }
    }

    /// The values, in the order in which their places come first in the template.
    pub fn values(&self) -> &[Self] {
        match self {
            Self::Kept(_) | Self::Words(_) => &[],
            Self::Said(said) => &said.values,
        }
    }
}

impl Default for Message {
    fn default() -> Self {
        Self::Words("")
    }
}

/// A template with something in each of its places: `put` adds what stands there to the text so far. Places are
/// counted as they come first: those of one name are one.
pub fn filled(template: &str, put: impl FnMut(&mut String, usize)) -> String {
    filled_as(template, template, put)
}

/// The same of a template in another language, whose places have the names, and so the numbers, of the first one.
pub fn filled_as(template: &str, wording: &str, mut put: impl FnMut(&mut String, usize)) -> String {
    let names = names_in(template);
    let mut text = String::with_capacity(2 * wording.len());
    let mut rest = wording;
    while let Some((before, after)) = rest.split_once('{') {
        text.push_str(before);
        let (name, after) = after.split_once('}').unwrap_or((after, ""));
        if let Some(place) = names.iter().position(|known| *known == name) {
            put(&mut text, place);
        }
        rest = after;
    }
    text.push_str(rest);
    text
}

/// The names in a template, each once, in order.
pub fn names_in(template: &str) -> Vec<&str> {
    let mut names = Vec::new();
    for rest in template.split('{').skip(1) {
        let name = rest.split_once('}').map_or(rest, |(name, _)| name);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// Whether the places of a template are those of some names, and come first in their order.
#[allow(clippy::indexing_slicing)] // Runs while it is compiled, where no iterator does.
pub const fn names_are_those_of(template: &str, names: &[&str]) -> bool {
    let text = template.as_bytes();
    let mut met = 0;
    let mut i = 0;
    while i < text.len() {
        if text[i] == b'{' {
            let start = i + 1;
            while i < text.len() && text[i] != b'}' {
                i += 1;
            }
            let mut k = 0;
            while k < met && !is_at(text, start, i, names[k].as_bytes()) {
                k += 1;
            }
            if k == met {
                if met == names.len() || !is_at(text, start, i, names[met].as_bytes()) {
                    return false;
                }
                met += 1;
            }
        }
        i += 1;
    }
    met == names.len()
}

/// Whether a stretch of text is a word.
#[allow(clippy::indexing_slicing)] // Runs while it is compiled, where no iterator does.
const fn is_at(text: &[u8], from: usize, to: usize, word: &[u8]) -> bool {
    if to - from != word.len() {
        return false;
    }
    let mut i = 0;
    while i < word.len() {
        if text[from + i] != word[i] {
            return false;
        }
        i += 1;
    }
    true
}

impl Deref for Message {
    type Target = str;

    fn deref(&self) -> &str {
        self.as_str()
    }
}

impl fmt::Display for Message {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self)
    }
}

/// The project's own words.
impl From<&'static str> for Message {
    fn from(words: &'static str) -> Self {
        Self::Words(words)
    }
}

/// Text that stays as it is.
impl From<String> for Message {
    fn from(text: String) -> Self {
        Self::kept(text)
    }
}

impl From<Message> for String {
    fn from(message: Message) -> Self {
        match message {
            Message::Kept(text) => text,
            Message::Words(words) => words.to_owned(),
            Message::Said(said) => said.text,
        }
    }
}

impl PartialEq<str> for Message {
    fn eq(&self, other: &str) -> bool {
        self.as_str() == other
    }
}

impl PartialEq<&str> for Message {
    fn eq(&self, other: &&str) -> bool {
        self.as_str() == *other
    }
}

impl Serialize for Message {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;

    #[test]
    fn a_message_reads_as_its_template_with_its_values() {
        let message = said!(
            "The {part} reaches {length} over the {side}.",
            part = "dig",
            length = String::from("2'-0\""),
            side = Message::kept("Elm Street"),
        );
        assert_eq!(message, "The dig reaches 2'-0\" over the Elm Street.");
        assert_eq!(message.values()[0].template(), Some("dig"));
        assert_eq!(message.values()[2].template(), None);
        assert_eq!(
            serde_json::to_string(&said!("Move it.")).unwrap(),
            "\"Move it.\""
        );
    }

    #[test]
    fn names_are_held_against_the_template() {
        assert!(names_are_those_of("{a} and {b}, {a}", &["a", "b"]));
        assert!(!names_are_those_of("{a} and {c}", &["a", "b"]));
        assert!(!names_are_those_of("{a}", &["a", "b"]));
        assert!(!names_are_those_of("{b} and {a}", &["a", "b"]));
        assert!(names_are_those_of("none", &[]));
        assert_eq!(names_in("{a} and {b}, {a}"), ["a", "b"]);
    }

    /// What somebody typed is no template, whatever it looks like.
    #[test]
    fn a_value_with_braces_stays_as_it_is() {
        let message = said!("At {name}.", name = String::from("{name} {"));
        assert_eq!(message, "At {name} {.");
    }

    #[test]
    fn lists_are_joined() {
        let words = ["a", "b", "c"].map(Message::from).to_vec();
        assert_eq!(Message::joined(words, ", "), "a, b, c");
        assert_eq!(Message::from("walk").capital(), "Walk");
    }
}
