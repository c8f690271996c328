//! Spots and breaklines as tables of text: one "east north elevation" to a line.
//!
//! Figures are parted by spaces, commas, semicolons or tabs and may carry units; a bare number
//! is in the units in use. Lines that begin with `#` and words before the first figure are read
//! over. In a table of breaklines an empty line, or one that begins with a letter, starts the
//! next line.
//!
//! A table written here and read again unchanged gives back the very figures it was written
//! from, though the text is rounded.

use crate::finding::{Finding, Message};
use crate::order::put_in_order;
use crate::units::{Measure, System, parse_measure, show};

/// The longest rod that is read, meters (common practice: 25 ft staves; no source).
const ROD: f64 = 10.0;

/// What the last column holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Heights {
    /// Elevations.
    Elevations,
    /// Rod readings, to be taken from the height of the instrument (meters above the datum).
    Rod {
        /// Elevation of the line of sight.
        instrument: f64,
    },
}

/// The height of the instrument: the benchmark's elevation and the rod reading on it
/// (differential levelling, as every surveying text has it). Meters.
pub fn height_of_instrument(benchmark: f64, backsight: f64) -> f64 {
    benchmark + backsight
}

/// Reads a table of spots. `known` are the spots the table may have been written from.
pub fn read_spots(
    text: &str,
    system: System,
    heights: Heights,
    known: &[[f64; 3]],
) -> (Vec<[f64; 3]>, Vec<Finding>) {
    let mut table = Table::new(system, heights, known);
    let mut spots = Vec::new();
    for (row, line) in rows(text) {
        if line.is_empty() || (spots.is_empty() && is_words(line)) {
            continue;
        }
        spots.extend(table.figures(row, line));
    }
    (spots, table.findings)
}

/// Reads a table of breaklines.
pub fn read_breaklines(
    text: &str,
    system: System,
    heights: Heights,
    known: &[Vec<[f64; 3]>],
) -> (Vec<Vec<[f64; 3]>>, Vec<Finding>) {
    let known: Vec<[f64; 3]> = known.iter().flatten().copied().collect();
    let mut table = Table::new(system, heights, &known);
    let mut lines: Vec<Vec<[f64; 3]>> = Vec::new();
    let mut open: Vec<[f64; 3]> = Vec::new();
    let mut first = 1;
    let mut close = |open: &mut Vec<[f64; 3]>, first: usize, table: &mut Table| {
        if open.len() == 1 {
            table.fault(
                first,
                "A breakline needs two points or more, one to a line.",
                "Add a point, or take the line out; an empty line starts the next breakline.",
            );
        }
        if !open.is_empty() {
            lines.push(core::mem::take(open));
        }
    };
    for (row, line) in rows(text) {
        if line.is_empty() || is_words(line) {
            close(&mut open, first, &mut table);
            continue;
        }
        if open.is_empty() {
            first = row;
        }
        open.extend(table.figures(row, line));
    }
    close(&mut open, first, &mut table);
    (lines, table.findings)
}

/// Writes spots as a table in the units in use.
pub fn write_spots(spots: &[[f64; 3]], system: System) -> String {
    let mut text = String::new();
    for spot in spots {
        text.push_str(&written(spot, system));
        text.push('\n');
    }
    text
}

/// Writes breaklines as a table, an empty line between two.
pub fn write_breaklines(lines: &[Vec<[f64; 3]>], system: System) -> String {
    let texts: Vec<String> = lines.iter().map(|l| write_spots(l, system)).collect();
    texts.join("\n")
}

/// One row.
fn written(&[x, y, elevation]: &[f64; 3], system: System) -> String {
    let bare = |measure, value| {
        let shown = show(measure, value, system);
        shown
            .text
            .trim_end_matches(shown.unit)
            .trim_end()
            .to_owned()
    };
    let [x, y] = [x, y].map(|v| bare(Measure::LongLength, v));
    format!("{x} {y} {}", bare(Measure::Elevation, elevation))
}

/// The rows, counted from 1; remarks are left out.
fn rows(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let rows = text.lines().enumerate();
    rows.map(|(i, line)| (i + 1, line.trim()))
        .filter(|(_, line)| !line.starts_with('#'))
}

/// A heading or a name: it begins with a letter.
fn is_words(line: &str) -> bool {
    line.chars().next().is_some_and(char::is_alphabetic)
}

struct Table {
    system: System,
    heights: Heights,
    /// Rows as they would have been written, sorted, each with its exact figures.
    known: Vec<(String, [f64; 3])>,
    findings: Vec<Finding>,
}

impl Table {
    fn new(system: System, heights: Heights, known: &[[f64; 3]]) -> Self {
        let mut rows: Vec<_> = match heights {
            Heights::Elevations => known.iter().map(|s| (written(s, system), *s)).collect(),
            Heights::Rod { .. } => Vec::new(),
        };
        put_in_order(&mut rows, |a, b| a.0.cmp(&b.0));
        Self {
            system,
            heights,
            known: rows,
            findings: Vec::new(),
        }
    }

    fn fault(&mut self, row: usize, message: impl Into<Message>, remedy: impl Into<Message>) {
        let fault = Finding::fault("spot-table", message, remedy);
        self.findings.push(fault.under(&format!("line {row}")));
    }

    /// The figures of one row; what is wrong with it is told.
    fn figures(&mut self, row: usize, line: &str) -> Option<[f64; 3]> {
        let parted = |c: char| c.is_whitespace() || c == ',' || c == ';';
        let words: Vec<&str> = line.split(parted).filter(|w| !w.is_empty()).collect();
        let plain = words.join(" ");
        let search = self.known.binary_search_by(|(text, _)| text.cmp(&plain));
        if let Some((_, exact)) = search.ok().and_then(|i| self.known.get(i)) {
            return Some(*exact);
        }
        let [east, north, height] = words[..] else {
            let count = words.len();
            let message = format!("There are {count} figures; a spot has three.");
            self.fault(row, message, "Give east, north and elevation.");
            return None;
        };
        let x = self.figure(row, "east", east, Measure::LongLength);
        let y = self.figure(row, "north", north, Measure::LongLength);
        let z = match self.heights {
            Heights::Elevations => self.figure(row, "elevation", height, Measure::Elevation),
            Heights::Rod { instrument } => self.rod(row, height).map(|rod| instrument - rod),
        };
        Some([x?, y?, z?])
    }

    fn rod(&mut self, row: usize, text: &str) -> Option<f64> {
        let reading = self.figure(row, "rod reading", text, Measure::Elevation)?;
        if !(-ROD..=ROD).contains(&reading) {
            self.fault(
                row,
                "The rod reading is longer than a rod.",
                "Give what the rod reads at the line of sight, not an elevation.",
            );
            return None;
        }
        Some(reading)
    }

    fn figure(&mut self, row: usize, name: &str, text: &str, measure: Measure) -> Option<f64> {
        match parse_measure(text, measure, self.system) {
            Ok(parsed) => Some(parsed.value),
            Err(fault) => {
                self.fault(row, format!("{name}: {}", fault.message), fault.remedy);
                None
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FOOT: f64 = 0.304_8;

    #[test]
    fn a_table_is_read_in_the_units_in_use_and_every_bad_line_is_told() {
        let text = "east, north, elevation\n# remark\n10 20 100.5\n10,20\n12;20m;abc\n\n-3\t4\t99";
        let (spots, found) = read_spots(text, System::Feet, Heights::Elevations, &[]);
        assert_eq!(spots.len(), 2);
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
        near(spots[0][2], 100.5 * FOOT);
        near(spots[1][0], -3.0 * FOOT);
        let told: Vec<_> = found.iter().map(|f| f.pointer.as_str()).collect();
        assert_eq!(told, ["line 4", "line 5"]);
        assert!(found.iter().all(|f| f.is_fault() && !f.remedy.is_empty()));
    }

    #[test]
    fn rod_readings_count_down_from_the_line_of_sight() {
        // Backsight 4.32 ft on a benchmark at 100.00 ft: the line of sight at 104.32 ft.
        let instrument = height_of_instrument(100.0 * FOOT, 4.32 * FOOT);
        let heights = Heights::Rod { instrument };
        let text = "0 0 5.10\n10 0 3.07\n0 10 -1.5\n0 20 98.2";
        let (spots, found) = read_spots(text, System::Feet, heights, &[]);
        let told: Vec<f64> = spots
            .iter()
            .map(|s| (s[2] / FOOT * 1e6).round() / 1e6)
            .collect();
        assert_eq!(told, [99.22, 101.25, 105.82]);
        assert_eq!(found[0].pointer, "line 4");
    }

    #[test]
    fn a_table_that_was_written_gives_back_its_figures_to_the_last_bit() {
        let spots = vec![
            [1.0 / 3.0, 2.0 / 7.0, 30.123_456_789],
            [-11.1, 5.0, 28.0],
            [1e-9, -2e-9, 3e-9],
        ];
        for system in [System::Feet, System::Metres] {
            let text = write_spots(&spots, system);
            let (read, found) = read_spots(&text, system, Heights::Elevations, &spots);
            assert!(found.is_empty() && read == spots);
            let lines = vec![spots.clone(), spots[..2].to_vec()];
            let text = write_breaklines(&lines, system);
            let (read, found) = read_breaklines(&text, system, Heights::Elevations, &lines);
            assert!(found.is_empty(), "{found:?} {text}");
            assert_eq!(read, lines);
        }
    }

    #[test]
    fn an_empty_line_or_a_name_starts_the_next_breakline() {
        let text = "top of bank\n0 0 10\n5 0 11\ntoe\n0 2 8\n5 2 9\n9 2 9\n\n\n7 7 1";
        let (lines, found) = read_breaklines(text, System::Metres, Heights::Elevations, &[]);
        let counts: Vec<usize> = lines.iter().map(Vec::len).collect();
        assert_eq!(counts, [2, 3, 1]);
        assert_eq!((found.len(), found[0].pointer.as_str()), (1, "line 10"));
    }
}
