//! A shell from a few typed figures and a table of stations: a rectangle with round corners, or an
//! outline that was drawn.
//!
//! A row of the table is one station: how far from the shallow end, how deep below the rim, and,
//! where they are told, how wide the level floor is and how deep the wall reaches. Figures are
//! parted by commas, semicolons or tabs and may carry units; a bare number is in the units in use.

use serde::{Deserialize, Serialize};

use super::record::{ShellRecord, StationRecord};
use super::traced::Traced;
use crate::finding::Finding;
use crate::geom::{PathRecord, Vertex};
use crate::math::tan;
use crate::units::{Measure, System, parse_measure};

/// The water's edge of a shell that is typed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum TypedOutline {
    /// A rectangle with round corners.
    Rectangle {
        /// Length inside, meters.
        length: f64,
        /// Width inside, meters.
        width: f64,
        /// Radius of the corners, meters; 0 for square ones.
        corner: f64,
    },
    /// As it was drawn over a picture.
    Traced(Traced),
}

/// The figures of a shell beside its table of stations, SI.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "ShellFigures", missing_as_null)
)]
pub struct Figures {
    /// What it is called.
    pub name: String,
    /// Its outline.
    pub outline: TypedOutline,
    /// Width of the coping, meters.
    pub coping: f64,
    /// Depth of the water's surface below the rim, meters.
    pub waterline: f64,
    /// Thickness of wall and floor, meters.
    pub thickness: f64,
    /// How far the wall leans inward, run per unit of depth.
    pub draft: f64,
    /// Radius of the rounding between wall and floor, meters.
    pub cove: f64,
    /// Weight of the empty shell, kilograms, where known.
    pub weight: Option<f64>,
}

/// The record of a shell whose floor a table tells; it is validated like any other.
///
/// # Errors
/// What keeps the drawing from being an outline, or every row that cannot be read, placed at `/3` for
/// the third line.
pub fn shell(figures: &Figures, table: &str, system: System) -> Result<ShellRecord, Vec<Finding>> {
    let (outline, length) = figures.outline.in_frame()?;
    let mut faults = Vec::new();
    let mut stations: Vec<StationRecord> = Vec::new();
    for (row, line) in table.lines().enumerate() {
        let line = line.trim();
        let words = line.starts_with(|c: char| c.is_alphabetic() || c == '#');
        if line.is_empty() || (words && stations.is_empty()) {
            continue;
        }
        match station(line, system) {
            Ok(station) => {
                let at = station.at - length / 2.0;
                if stations.last().is_some_and(|before| at <= before.at) {
                    let fault = Finding::fault(
                        "station-order",
                        "The station does not lie beyond the one before.",
                        "Give the stations in order along the length, shallow end to deep end.",
                    );
                    faults.push(fault.under(&format!("/{}", row + 1)));
                }
                stations.push(StationRecord { at, ..station });
            }
            Err((message, remedy)) => faults.push(
                Finding::fault("station-row", message, remedy).under(&format!("/{}", row + 1)),
            ),
        }
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    Ok(ShellRecord {
        name: figures.name.clone(),
        note: String::new(),
        outline,
        floor: Vec::new(),
        coping_width: figures.coping,
        waterline: figures.waterline,
        wall_thickness: figures.thickness,
        draft: figures.draft,
        cove: figures.cove,
        stations,
        drain: None,
        weight: figures.weight,
    })
}

/// One row, its place counted from the shallow end.
fn station(line: &str, system: System) -> Result<StationRecord, (String, String)> {
    let cells: Vec<&str> = line.split([',', ';', '\t']).map(str::trim).collect();
    if !(2..=4).contains(&cells.len()) {
        let remedy = "Give place and depth, and where known width and wall, separated by commas.";
        return Err((
            format!("The line has {} figures.", cells.len()),
            remedy.into(),
        ));
    }
    let read = |cell: &&str| {
        let parsed = parse_measure(cell, Measure::Length, system);
        parsed.map(|p| p.value).map_err(|f| (f.message, f.remedy))
    };
    let told = |index: usize| {
        let cell = cells
            .get(index)
            .filter(|cell| !cell.is_empty() && **cell != "-");
        cell.map(read).transpose()
    };
    let must = |index: usize| {
        told(index)?.ok_or_else(|| {
            let remedy = "The first two figures of a line are its place and its depth.";
            ("A figure is missing.".to_owned(), remedy.to_owned())
        })
    };
    Ok(StationRecord {
        at: must(0)?,
        depth: must(1)?,
        width: told(2)?,
        wall: told(3)?,
    })
}

impl TypedOutline {
    /// The outline in the shell's frame, and its length, meters.
    fn in_frame(&self) -> Result<(PathRecord, f64), Vec<Finding>> {
        match self {
            Self::Rectangle {
                length,
                width,
                corner,
            } => {
                let vertices = rectangle(*length, *width, *corner);
                Ok((PathRecord::from(vertices.as_slice()), *length))
            }
            Self::Traced(traced) => {
                let frame = traced.in_frame()?;
                Ok((frame.outline.record(), frame.length))
            }
        }
    }
}

fn rectangle(length: f64, width: f64, r: f64) -> Vec<Vertex> {
    let (x, y) = (length / 2.0, width / 2.0);
    if r <= 0.0 {
        return [(-x, -y), (x, -y), (x, y), (-x, y)]
            .map(|(x, y)| Vertex::line(x, y))
            .to_vec();
    }
    let quarter = tan(core::f64::consts::FRAC_PI_8);
    vec![
        Vertex::line(-x + r, -y),
        Vertex::arc(x - r, -y, quarter),
        Vertex::line(x, -y + r),
        Vertex::arc(x, y - r, quarter),
        Vertex::line(x - r, y),
        Vertex::arc(-x + r, y, quarter),
        Vertex::line(-x, y - r),
        Vertex::arc(-x, -y + r, quarter),
    ]
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::indexing_slicing)]
mod tests {
    use super::*;
    use crate::shell::Shell;
    use crate::units::constants::FOOT;

    fn figures() -> Figures {
        Figures {
            name: "typed".into(),
            outline: TypedOutline::Rectangle {
                length: 30.0 * FOOT,
                width: 14.0 * FOOT,
                corner: 3.0 * FOOT,
            },
            coping: 0.3,
            waterline: 0.15,
            thickness: 0.01,
            draft: 0.05,
            cove: 0.15,
            weight: None,
        }
    }

    #[test]
    fn a_table_of_stations_makes_a_shell() {
        let table = "from the end, depth, width, wall\n0, 3.5\n10', 3'6\"\n20 ft; 6; 8; 3.5\n30, 6, 7 ft, -\n";
        let record = shell(&figures(), table, System::Feet).unwrap();
        assert_eq!(record.stations.len(), 4);
        assert!((record.stations[0].at + 15.0 * FOOT).abs() < 1e-9);
        assert!((record.stations[1].depth - 3.5 * FOOT).abs() < 1e-12);
        let width = record.stations[3].width.unwrap();
        assert!((width - 7.0 * FOOT).abs() < 1e-12 && record.stations[3].wall.is_none());
        let (checked, _) = Shell::check(&record).unwrap();
        // Rounded rectangle: L W - (4 - pi) r^2.
        assert!((checked.outline.area() / FOOT / FOOT - 412.2743).abs() < 1e-3);
    }

    #[test]
    fn every_row_that_cannot_be_read_is_told() {
        let found = shell(
            &figures(),
            "0, 1\n5\n10, deep\n1,2,3,4,5\n, 2",
            System::Metres,
        );
        let places: Vec<String> = found.unwrap_err().into_iter().map(|f| f.pointer).collect();
        assert_eq!(places, ["/2", "/3", "/4", "/5"]);
    }
}
