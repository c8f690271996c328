//! From a line and a column of a JSON text to the member that stands there.

use super::unknown::push_pointer;

/// One level of nesting and where in it the scan stands.
enum Level {
    /// In an object, at the member of this key (empty before the first).
    Object(String),
    /// In a list, at the item of this index.
    List(usize),
}

/// The member or item at a place of a JSON text (line and column from 1, as the reader tells
/// them), as a JSON pointer. The text's syntax is taken to be right up to there.
pub(super) fn pointer(text: &str, line: usize, column: usize) -> String {
    let end = offset(text, line, column);
    let mut levels: Vec<Level> = Vec::new();
    // The last string read, and whether it may still turn out to be a key.
    let mut key = String::new();
    let mut after_comma = false;
    let mut bytes = text.bytes().enumerate().take(end);
    while let Some((start, byte)) = bytes.next() {
        if !byte.is_ascii_whitespace() {
            after_comma = byte == b',';
        }
        match byte {
            b'"' => {
                let mut escaped = false;
                let close = bytes.find(|&(_, b)| {
                    let closes = b == b'"' && !escaped;
                    escaped = b == b'\\' && !escaped;
                    closes
                });
                let stop = close.map_or(end, |(i, _)| i + 1);
                key = text
                    .get(start..stop)
                    .and_then(|quoted| serde_json::from_str(quoted).ok())
                    .unwrap_or_default();
            }
            b':' => {
                if let Some(Level::Object(member)) = levels.last_mut() {
                    *member = core::mem::take(&mut key);
                }
            }
            b',' => {
                if let Some(Level::List(index)) = levels.last_mut() {
                    *index += 1;
                }
            }
            b'{' => levels.push(Level::Object(String::new())),
            b'[' => levels.push(Level::List(0)),
            b'}' | b']' => {
                levels.pop();
            }
            _ => {}
        }
    }
    // The reader complains of a whole item only once it has passed the comma behind it.
    if let (true, Some(Level::List(index))) = (after_comma, levels.last_mut()) {
        *index = index.saturating_sub(1);
    }
    let mut pointer = String::new();
    for level in &levels {
        match level {
            Level::Object(member) if member.is_empty() => {}
            Level::Object(member) => push_pointer(&mut pointer, member),
            Level::List(index) => push_pointer(&mut pointer, &index.to_string()),
        }
    }
    pointer
}

/// The byte just after a line and column, both from 1, columns in bytes.
fn offset(text: &str, line: usize, column: usize) -> usize {
    let before: usize = text
        .split_inclusive('\n')
        .take(line.saturating_sub(1))
        .map(str::len)
        .sum();
    (before + column).min(text.len())
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde::Deserialize;

    #[derive(Debug, Deserialize)]
    #[allow(dead_code)]
    struct Item {
        x: f64,
    }

    #[derive(Debug, Deserialize)]
    #[allow(dead_code)]
    struct Document {
        #[serde(rename = "a/b")]
        list: Vec<Item>,
        last: f64,
    }

    fn place(text: &str) -> String {
        let error = serde_json::from_str::<Document>(text).unwrap_err();
        pointer(text, error.line(), error.column())
    }

    #[test]
    fn a_wrong_value_is_found_by_its_place() {
        assert_eq!(
            place("{\"a/b\": [{\"x\": 1},\n {\"x\": \"y, {[\\\"\"}], \"last\": 2}"),
            "/a~1b/1/x"
        );
        assert_eq!(place("{\"a/b\": [], \"last\": [2]}"), "/last");
        assert_eq!(place("{\"a/b\": 7, \"last\": 2}"), "/a~1b");
    }

    #[test]
    fn a_missing_member_is_told_by_what_misses_it() {
        assert_eq!(place("{\"a/b\": [{\"x\": 1}, {}], \"last\": 2}"), "/a~1b/1");
        assert_eq!(place("{\"a/b\": []}"), "");
    }
}
