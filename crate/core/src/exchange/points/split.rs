//! Lines into fields.

use crate::units::looks_geographic;

/// What stands between the fields of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Separator {
    Tab,
    Semicolon,
    Comma,
    Spaces,
    /// Each line is a place on the globe with its letters and marks.
    Globe,
}

/// A line that is neither empty nor a remark.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line<'a> {
    /// Its number in the text, from 1.
    pub number: usize,
    /// Its text.
    pub text: &'a str,
}

/// The lines of a text that say something. A line that begins with # is a remark.
pub(super) fn lines(text: &str) -> Vec<Line<'_>> {
    text.lines()
        .enumerate()
        .map(|(i, text)| Line {
            number: i + 1,
            text: text.trim(),
        })
        .filter(|line| !line.text.is_empty() && !line.text.starts_with('#'))
        .collect()
}

/// The separator that most lines go by.
pub(super) fn separator(lines: &[Line<'_>]) -> Separator {
    let most = |test: &dyn Fn(&str) -> bool| {
        let count = lines.iter().filter(|line| test(line.text)).count();
        2 * count > lines.len()
    };
    if most(&looks_geographic) {
        Separator::Globe
    } else if most(&|l| l.contains('\t')) {
        Separator::Tab
    } else if most(&|l| l.contains(';')) {
        Separator::Semicolon
    } else if most(&commas_separate) {
        Separator::Comma
    } else {
        Separator::Spaces
    }
}

/// Whether the commas of a line stand between fields and not within numbers: fields parted by
/// spaces that hold one comma each between digits have decimal commas.
fn commas_separate(line: &str) -> bool {
    if !line.contains(',') {
        return false;
    }
    let words: Vec<&str> = line.split_whitespace().collect();
    let within = |word: &&str| {
        let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
        let (before, after) = word.split_once(',').unwrap_or(("", ""));
        digit(before.chars().last()) && digit(after.chars().next()) && !after.contains(',')
    };
    let decimal = words.iter().filter(|w| within(w)).count();
    !(words.len() > 1 && decimal >= 2)
}

/// The fields of a line, trimmed. A field may stand in double quotes, which are doubled within it.
pub(super) fn fields(line: &str, separator: Separator) -> Vec<String> {
    let at = match separator {
        Separator::Tab => '\t',
        Separator::Semicolon => ';',
        Separator::Comma => ',',
        Separator::Spaces => return line.split_whitespace().map(str::to_owned).collect(),
        Separator::Globe => return vec![line.to_owned()],
    };
    let mut fields = Vec::new();
    let mut field = String::new();
    let mut quoted = false;
    let mut chars = line.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                field.push('"');
                chars.next();
            }
            '"' if quoted => quoted = false,
            // Quotes open a field; within it they are inches or seconds.
            '"' if field.trim().is_empty() => quoted = true,
            c if c == at && !quoted => {
                fields.push(field.trim().to_owned());
                field.clear();
            }
            c => field.push(c),
        }
    }
    fields.push(field.trim().to_owned());
    fields
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(text: &str) -> Separator {
        separator(&lines(text))
    }

    #[test]
    fn the_separator_is_told_from_the_lines() {
        assert_eq!(told("1,2,3\n2,3,4"), Separator::Comma);
        assert_eq!(told("1;2,5;3\n2;3,5;4"), Separator::Semicolon);
        assert_eq!(told("1\t2,5\t3, bent"), Separator::Tab);
        assert_eq!(told("1 2,5 3,5 4,5"), Separator::Spaces);
        assert_eq!(told("1, 2.5, 3.5"), Separator::Comma);
        assert_eq!(told("36.45, -84.3"), Separator::Comma);
        assert_eq!(told("5000.0 2000.0"), Separator::Spaces);
        assert_eq!(told("36°27'04.3\"N 84°18'25.6\"W"), Separator::Globe);
    }

    #[test]
    fn quotes_hold_a_field_together() {
        let split = |line| fields(line, Separator::Comma);
        assert_eq!(
            split("1, \"pin, \"\"bent\"\"\" ,3"),
            ["1", "pin, \"bent\"", "3"]
        );
        assert_eq!(split("1,24\" oak,"), ["1", "24\" oak", ""]);
        assert_eq!(split("\"open, 2"), ["open, 2"]);
    }

    #[test]
    fn remarks_and_empty_lines_are_passed_over() {
        let numbers: Vec<usize> = lines("# a list\n\n1,2\n  \n3,4\n")
            .iter()
            .map(|l| l.number)
            .collect();
        assert_eq!(numbers, [3, 5]);
    }
}
