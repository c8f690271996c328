//! Plain text of fixed width: wrapped paragraphs and aligned columns.

use crate::finding::{Caveat, Finding, Severity};

/// Width of a line, characters: what a terminal or a page of a fixed-width face holds.
pub(super) const WIDTH: usize = 100;

/// Which way a column's texts lean.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Lean {
    /// Texts, from the left.
    Left,
    /// Numbers, from the right.
    Right,
}

/// Rows in aligned columns, two spaces between them. A text of the last column that would
/// run over the width goes on below, under its own column.
pub(super) fn columns(indent: usize, leans: &[Lean], rows: &[Vec<String>], out: &mut String) {
    let width_of = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.chars().count()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..leans.len()).map(width_of).collect();
    let last = leans.len().saturating_sub(1);
    for row in rows {
        let mut line = " ".repeat(indent);
        for (column, ((cell, lean), width)) in row.iter().zip(leans).zip(&widths).enumerate() {
            if column > 0 {
                line.push_str("  ");
            }
            let fill = " ".repeat(width.saturating_sub(cell.chars().count()));
            match lean {
                _ if column == last && *lean == Lean::Left => {
                    let hang = line.chars().count();
                    line.push_str(wrapped(cell, hang).trim_start());
                }
                Lean::Left => line.extend([cell.as_str(), &fill]),
                Lean::Right => line.extend([fill.as_str(), cell]),
            }
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
}

/// A paragraph below `hang` spaces on every line, without a line break at its end.
pub(super) fn wrapped(text: &str, hang: usize) -> String {
    let room = WIDTH.saturating_sub(hang).max(24);
    let margin = " ".repeat(hang);
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    let lines: Vec<String> = lines.iter().map(|line| format!("{margin}{line}")).collect();
    lines.join("\n")
}

/// A paragraph behind what leads it, its other lines below four spaces.
pub(super) fn hung(lead: &str, text: &str, out: &mut String) {
    out.extend([lead, wrapped(text, 4).trim_start(), "\n"]);
}

/// A heading with a line under it.
pub(super) fn heading(text: &str, out: &mut String) {
    out.push_str(&format!("\n{text}\n{}\n", "-".repeat(WIDTH)));
}

/// What makes a figure weaker than it looks, to stand behind it.
pub(super) fn weak(caveats: &[Caveat]) -> String {
    caveats
        .iter()
        .map(|c| format!(" [{}]", c.words()))
        .collect()
}

/// Findings, each with a sign of its severity.
pub(super) fn findings(findings: &[&Finding], out: &mut String) {
    for finding in findings {
        let sign = match finding.severity {
            Severity::Fault => 'X',
            Severity::Caution => '!',
            Severity::Note => '-',
        };
        let text = format!("{} {}", finding.message, finding.remedy);
        hung(&format!("  {sign} "), &text, out);
    }
}

/// Names and figures in two columns.
pub(super) fn pairs(pairs: &[(&str, String)], out: &mut String) {
    let rows: Vec<Vec<String>> = pairs
        .iter()
        .map(|(name, text)| vec![(*name).to_owned(), text.clone()])
        .collect();
    columns(2, &[Lean::Left, Lean::Left], &rows, out);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_line_up() {
        let rows = [["a", "1.5", "x"], ["long", "22", "y z"]];
        let rows: Vec<Vec<String>> = rows.iter().map(|r| r.map(String::from).to_vec()).collect();
        let mut out = String::new();
        columns(2, &[Lean::Left, Lean::Right, Lean::Left], &rows, &mut out);
        assert_eq!(out, "  a     1.5  x\n  long   22  y z\n");
    }

    #[test]
    fn paragraphs_hang() {
        let text = wrapped(&"word ".repeat(40), 4);
        assert!(text.lines().count() > 1);
        for line in text.lines() {
            assert!(line.starts_with("    word") && line.chars().count() <= WIDTH);
        }
    }
}
