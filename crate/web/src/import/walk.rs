//! A walk round a house as the page shows it.

use batterboard_core::finding::Finding;
use batterboard_core::geom::{PathRecord, Point};
use batterboard_core::sketch::square::{TOLERANCE, square_up};
use batterboard_core::sketch::walk::{self, Piece};
use batterboard_core::units::{Measure, System, show};
use serde::Serialize;
use tsify::Tsify;
use wasm_bindgen::prelude::wasm_bindgen;

use crate::js::{Answer, to_js};
use crate::planner::Planner;

/// A walk as it was read; nothing of it is in the site yet.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct WalkReading {
    #[tsify(type = "WalkPiece[]")]
    pieces: Vec<Piece>,
    /// The corners, from the start.
    path: PathRecord,
    closed: bool,
    walls: usize,
    /// How far the end lies from the start, where there are walls.
    misses: Option<String>,
    /// Length of all walls, meters, and area, where they enclose one.
    round: Option<String>,
    area: Option<String>,
    /// What squaring came to, where it was asked for.
    squared: Option<String>,
    findings: Vec<Finding>,
}

#[wasm_bindgen]
impl Planner {
    /// Reads a walk that starts at a place (meters), facing along a bearing (radians).
    pub fn read_walk(
        &self,
        text: &str,
        x: f64,
        y: f64,
        facing: f64,
        square: bool,
    ) -> Answer<WalkReading> {
        let start = Point::new(x, y);
        to_js(&WalkReading::of(
            text,
            start,
            facing,
            square,
            self.display(),
        ))
    }
}

impl WalkReading {
    fn of(text: &str, start: Point, facing: f64, square: bool, system: System) -> Self {
        let read = walk::read(text, start, facing, system);
        let mut findings = read.findings;
        let mut sketch = read.sketch;
        let mut squared = None;
        if square && sketch.closed {
            match square_up(&sketch, TOLERANCE) {
                Ok(done) => {
                    let moved = show(Measure::Length, done.greatest_move, system).text;
                    squared = Some(format!(
                        "{} walls are square; no corner moved more than {moved}.",
                        done.edges
                    ));
                    sketch = done.sketch;
                }
                Err(fault) => findings.push(fault),
            }
        }
        let walls = sketch.edges();
        let length: f64 = (0..walls)
            .filter_map(|i| sketch.edge(i))
            .map(|s| s.length())
            .sum();
        if sketch.closed {
            findings.extend(sketch.check());
        }
        Self {
            pieces: read.pieces,
            path: PathRecord::from(sketch.vertices.as_slice()),
            closed: sketch.closed,
            walls,
            misses: read
                .back
                .map(|b| show(Measure::Length, b.length, system).text),
            round: (walls > 0).then(|| show(Measure::Length, length, system).text),
            area: sketch
                .area()
                .map(|area| show(Measure::Area, area, system).text),
            squared,
            findings,
        }
    }
}
