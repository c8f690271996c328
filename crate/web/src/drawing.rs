//! Drawings and shapes being changed, as the page drives them.

use batterboard_core::finding::Finding;
use batterboard_core::geom::{PathRecord, Point, Vector, Vertex};
use batterboard_core::session::draft::{Drawn, Mode, Typed, Wanted};
use batterboard_core::session::{Deed, Target};
use batterboard_core::sketch::Sketch;
use batterboard_core::sketch::build::Way;
use batterboard_web::answers::{Outcome, cross};
use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::planner::Planner;

/// A drawing after a step: how it stands, what barred the step, and the path once it is done.
#[derive(Serialize)]
struct Step {
    drawn: Option<Drawn>,
    findings: Vec<Finding>,
    done: Option<PathRecord>,
}

#[wasm_bindgen]
impl Planner {
    /// Begins a drawing: `point`, `stretch`, `disc`, `open` or `closed`; `start` is flat: x, y,
    /// bulge.
    pub fn draw(&mut self, wanted: &str, start: &[f64]) {
        let wanted = match wanted {
            "point" => Wanted::Point,
            "stretch" => Wanted::Stretch,
            "disc" => Wanted::Disc,
            "open" => Wanted::Open,
            _ => Wanted::Closed,
        };
        self.session.draw(wanted, vertices(start));
    }

    /// Shows a path on the plan that is not in the document; of no vertices: none.
    pub fn show_path(&mut self, closed: bool, path: &[f64]) {
        let path = Some(vertices(path)).filter(|v| !v.is_empty());
        self.session
            .show_path(path.map(|path| Sketch::new(path, closed)));
    }

    /// The hand goes on; it is led to things within `reach` metres, and nowhere for 0.
    #[wasm_bindgen(unchecked_return_type = "DrawStep")]
    pub fn draw_at(&mut self, x: f64, y: f64, reach: f64) -> Result<JsValue, JsValue> {
        if let Some(draft) = self.session.draft_mut() {
            draft.follow(Point::new(x, y), reach);
        }
        self.step(Ok(None))
    }

    /// Typed figures for the next stretch, SI; not a number where nothing is typed. `how` tells
    /// the angle: `bearing`, `right`, `left` or `inside`.
    #[wasm_bindgen(unchecked_return_type = "DrawStep")]
    pub fn draw_typed(&mut self, length: f64, angle: f64, how: &str) -> Result<JsValue, JsValue> {
        let angle = Some(angle).filter(|a| a.is_finite()).map(|a| match how {
            "right" => Typed::Way(Way::Right(a)),
            "left" => Typed::Way(Way::Left(a)),
            "inside" => Typed::Inside(a),
            _ => Typed::Way(Way::Bearing(a)),
        });
        if let Some(draft) = self.session.draft_mut() {
            draft.typed(Some(length).filter(|l| l.is_finite() && *l > 0.0), angle);
        }
        self.step(Ok(None))
    }

    /// A button or a key: `place`, `back`, `finish`, `end`, or a way to draw: `straight`, `arc`,
    /// `rectangle`.
    #[wasm_bindgen(unchecked_return_type = "DrawStep")]
    pub fn draw_do(&mut self, what: &str) -> Result<JsValue, JsValue> {
        let mut done = Ok(None);
        if let Some(draft) = self.session.draft_mut() {
            match what {
                "place" => done = draft.place(),
                "finish" => done = draft.finish().map(Some),
                "straight" => draft.set_mode(Mode::Straight),
                "arc" => draft.set_mode(Mode::Arc),
                "rectangle" => draft.set_mode(Mode::Rectangle),
                "back" => {
                    draft.back();
                }
                _ => self.session.end_drawing(),
            }
        }
        self.step(done)
    }

    /// Begins to change a shape: `lot`, `feature:ID`, `spots`, `breakline:0`; nothing ends it.
    pub fn choose_shape(&mut self, target: &str) {
        self.session.choose_shape(Target::read(target));
    }

    /// The shape being changed.
    #[wasm_bindgen(unchecked_return_type = "Shaped | undefined")]
    pub fn shaped(&self) -> Result<JsValue, JsValue> {
        match self.session.shaped() {
            Some(shaped) => cross(&shaped),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// A button or a key on the shape: `next`, `before`, `add`, `remove`, `bend`, `square`,
    /// `nudge` (metres east and north) or `run` (metres, radians).
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn shape_do(&mut self, what: &str, a: f64, b: f64) -> Result<JsValue, JsValue> {
        let deed = match what {
            "next" => Deed::Pick { back: false },
            "before" => Deed::Pick { back: true },
            "add" => Deed::Add,
            "remove" => Deed::Remove,
            "bend" => Deed::Bend,
            "square" => Deed::Square,
            "nudge" => Deed::Nudge(Vector::new(a, b)),
            _ => Deed::Run(a, b),
        };
        let done = self.session.shape(deed);
        cross(&Outcome::from(done.map(|()| Vec::new())))
    }
}

/// Vertices from flat triples.
fn vertices(flat: &[f64]) -> Vec<Vertex> {
    let of = |v: &[f64]| match *v {
        [x, y, bulge] => Some(Vertex::arc(x, y, bulge)),
        _ => None,
    };
    flat.chunks_exact(3).filter_map(of).collect()
}

impl Planner {
    fn step(&self, done: Result<Option<Vec<Vertex>>, Vec<Finding>>) -> Result<JsValue, JsValue> {
        let (done, findings) = match done {
            Ok(done) => (done, Vec::new()),
            Err(findings) => (None, findings),
        };
        cross(&Step {
            drawn: self.session.draft().map(|draft| draft.drawn()),
            findings,
            done: done.map(|vertices| PathRecord::from(vertices.as_slice())),
        })
    }
}
