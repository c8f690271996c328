//! What each breakline must satisfy by itself, before the network joins the lines with the
//! spots and with each other.

use super::spots::{self, ONE_PLACE, Spot};
use crate::finding::Finding;

/// The most points all breaklines of a ground may have together: far beyond any survey of a
/// lot. Every line is held against every other, so this bounds the time that takes.
pub const BREAKLINE_POINT_LIMIT: usize = 10_000;

/// Two elevations of one place that differ by no more than this agree, meters: a tenth of a
/// foot, to which ground is commonly read (common practice, no source).
pub const AGREE: f64 = 0.030_48;

/// A checked breakline.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Breakline {
    /// Its index in the file.
    pub index: usize,
    /// Its points, two or more; neighbors stand apart. Their indices are those in the line.
    pub points: Vec<Spot>,
}

/// Checks every breakline by itself. Points that repeat the one before are dropped.
///
/// # Errors
/// Every fault, placed at `/breaklines/i` or `/breaklines/i/j` (at most 100 are told).
pub(super) fn check(records: &[Vec<[f64; 3]>]) -> Result<Vec<Breakline>, Vec<Finding>> {
    let count: usize = records.iter().map(Vec::len).sum();
    if count > BREAKLINE_POINT_LIMIT {
        return Err(vec![
            Finding::fault(
                "too-many-breaklines",
                format!(
                    "The breaklines have {count} points; at most {BREAKLINE_POINT_LIMIT} are taken."
                ),
                "Keep the lines on and around the lot, or thin their points out.",
            )
            .under("/breaklines"),
        ]);
    }
    let mut faults = Vec::new();
    let mut lines = Vec::with_capacity(records.len());
    for (index, record) in records.iter().enumerate() {
        let points = points(index, record, &mut faults);
        lines.push(Breakline { index, points });
    }
    if faults.is_empty() {
        Ok(lines)
    } else {
        Err(spots::shortened(faults))
    }
}

/// The points of one line; its faults are added to `faults`.
fn points(index: usize, record: &[[f64; 3]], faults: &mut Vec<Finding>) -> Vec<Spot> {
    let before = faults.len();
    let mut points: Vec<Spot> = Vec::with_capacity(record.len());
    for (j, figures) in record.iter().enumerate() {
        let name = || name(index, j);
        let place = format!("/breaklines/{index}/{j}");
        match spots::figures(j, *figures, name, &place) {
            Err(fault) => faults.push(fault),
            Ok(point) => match points.last() {
                Some(last) if last.at.distance(point.at) < ONE_PLACE => {
                    if (last.elevation - point.elevation).abs() > AGREE {
                        faults.push(upright(index, last, &point).under(&place));
                    }
                }
                _ => points.push(point),
            },
        }
    }
    if faults.len() == before && points.len() < 2 {
        let (message, remedy) = if record.len() < 2 {
            ("has fewer than two points", "Give the line a second point.")
        } else {
            (
                "is shorter than a millimeter",
                "Give its points as they lie apart, or give a spot in its place.",
            )
        };
        let message = format!("Breakline {} {message}.", index + 1);
        let fault = Finding::fault("short-breakline", message, remedy);
        faults.push(fault.under(&format!("/breaklines/{index}")));
    }
    points
}

/// What a point of a line is called.
pub(super) fn name(line: usize, point: usize) -> String {
    format!("Point {} of breakline {}", point + 1, line + 1)
}

/// The fault of a line that goes straight up.
fn upright(line: usize, a: &Spot, b: &Spot) -> Finding {
    let message = format!(
        "Points {} and {} of breakline {} stand at one place, at {} and {}.",
        a.index + 1,
        b.index + 1,
        line + 1,
        spots::told(a.elevation),
        spots::told(b.elevation),
    );
    Finding::fault(
        "upright-breakline",
        message,
        "Show a wall as two lines a little apart, one along its top and one along its foot.",
    )
    .at(b.at.x, b.at.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(records: &[Vec<[f64; 3]>]) -> Vec<(&'static str, String)> {
        match check(records) {
            Ok(_) => Vec::new(),
            Err(faults) => faults.into_iter().map(|f| (f.code, f.pointer)).collect(),
        }
    }

    #[test]
    fn every_broken_line_is_told_with_its_place() {
        let lines = [
            vec![[0.0, 0.0, 1.0]],
            vec![[0.0, 0.0, 1.0], [f64::NAN, 0.0, 1.0], [5.0, 2e4, 1.0]],
            vec![[0.0, 0.0, 1.0], [0.0005, 0.0, 1.01]],
            vec![[0.0, 0.0, 1.0], [0.0, 0.0005, 2.0], [5.0, 0.0, 1.0]],
            vec![[0.0, 0.0, 1.0], [5.0, 0.0, 1.0]],
            vec![],
        ];
        let expected = [
            ("short-breakline", "/breaklines/0"),
            ("spot", "/breaklines/1/1"),
            ("spot", "/breaklines/1/2"),
            ("short-breakline", "/breaklines/2"),
            ("upright-breakline", "/breaklines/3/1"),
            ("short-breakline", "/breaklines/5"),
        ];
        assert_eq!(told(&lines), expected.map(|(c, p)| (c, p.to_owned())));
    }

    #[test]
    fn a_point_that_repeats_the_one_before_is_dropped() {
        let line = vec![
            [0.0, 0.0, 1.0],
            [0.0, 0.0, 1.0],
            [5.0, 0.0, 1.0],
            [5.0, 0.0005, 1.001],
        ];
        let lines = check(&[line]).unwrap();
        let indices: Vec<_> = lines[0].points.iter().map(|p| p.index).collect();
        assert_eq!(indices, [0, 2]);
    }

    #[test]
    fn more_points_than_anyone_surveys_are_refused() {
        let line = vec![[0.0; 3]; BREAKLINE_POINT_LIMIT + 1];
        assert_eq!(told(&[line])[0].0, "too-many-breaklines");
    }
}
