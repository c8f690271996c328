//! What the core takes for questions that other libraries answer too, with `geo` and `spade`, on which it stands, in the same
//! program.
//!
//! Prints one line of JSON for each question, with the question itself: `cargo xtask bench --only peers` hands them on. A
//! plain program rather than a criterion bench, as the questions go with the times.
#![allow(missing_docs)]
// A panic here fails the bench.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

mod clear_ground;
#[path = "../scene/mod.rs"]
mod scene;
mod tasks;

use std::hint::black_box;
use std::time::Instant;

use batterboard_core::geom::{DRAWING_TOLERANCE, Point};
use geo::algorithm::bool_ops::BooleanOps;
use geo::algorithm::buffer::{Buffer, BufferStyle, LineJoin};
use geo::{Area, Distance, Euclidean, Polygon};
use serde_json::json;
use spade::{DelaunayTriangulation, Point2, Triangulation};
use tasks::{Question, Ready};

/// A question is asked again and again for so long, seconds, but not more often than the second figure.
const LONG_ENOUGH: f64 = 0.4;
const MOST_ROUNDS: usize = 400;

fn main() {
    for task in tasks::all() {
        let ready = Ready::of(&task.question);
        let mut answers = vec![timed("batterboard, native", || ready.once())];
        answers.extend(of_its_libraries(&task.question));
        let line = json!({ "task": task, "tolerance": DRAWING_TOLERANCE, "answers": answers });
        println!("{line}");
    }
}

/// Who answered what, and what it took at the median, milliseconds.
fn timed(who: &str, mut once: impl FnMut() -> f64) -> serde_json::Value {
    let answer = once();
    let (begun, mut times) = (Instant::now(), Vec::new());
    while times.is_empty()
        || (times.len() < MOST_ROUNDS && begun.elapsed().as_secs_f64() < LONG_ENOUGH)
    {
        let start = Instant::now();
        black_box(once());
        times.push(start.elapsed().as_secs_f64() * 1e3);
    }
    times.sort_by(f64::total_cmp);
    json!({ "who": who, "ms": times[times.len() / 2], "answer": answer })
}

/// The libraries that the core's overlays and triangles stand on, where they have an answer of their own.
fn of_its_libraries(question: &Question) -> Option<serde_json::Value> {
    let polygon = |ring: &[Point]| {
        let coords = ring.iter().map(|p| geo::Coord { x: p.x, y: p.y });
        Polygon::new(geo::LineString(coords.collect()), Vec::new())
    };
    let who = "geo";
    match question {
        Question::Offset { ring, distance } => {
            let figure = polygon(ring);
            // The join angle that keeps its chords within the tolerance, as `geo` counts it.
            let angle = 1.886 * (DRAWING_TOLERANCE / distance.abs()).sqrt();
            let style = BufferStyle::new(*distance).line_join(LineJoin::Round(angle));
            let area = || {
                black_box(&figure)
                    .buffer_with_style(style.clone())
                    .unsigned_area()
            };
            Some(timed(who, area))
        }
        Question::Union { a, b } => {
            let (a, b) = (polygon(a), polygon(b));
            Some(timed(who, || black_box(&a).union(&b).unsigned_area()))
        }
        Question::Distance { a, b } => {
            let (a, b) = (polygon(a), polygon(b));
            Some(timed(who, || Euclidean.distance(black_box(&a), &b)))
        }
        Question::Triangles { spots } => {
            let points: Vec<Point2<f64>> =
                spots.iter().map(|[x, y, _]| Point2::new(*x, *y)).collect();
            let triangles = || {
                let found = DelaunayTriangulation::<Point2<f64>>::bulk_load(points.clone());
                found.unwrap().num_inner_faces() as f64
            };
            Some(timed("spade", triangles))
        }
        _ => None,
    }
}
