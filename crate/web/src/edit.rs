//! The hand on the plan: what it takes hold of and drags, drawings, and shapes being changed.

use batterboard_core::finding::Finding;
use batterboard_core::geom::point::rectangle;
use batterboard_core::geom::{PathRecord, Point, Vector, Vertex};
use batterboard_core::json;
use batterboard_core::session::draft::{Drawn, Mode, Typed, Wanted};
use batterboard_core::session::{DragTarget, Part, ShapeEdit, Shaped, Target};
use batterboard_core::sketch::Sketch;
use batterboard_core::sketch::build::Way;
use batterboard_core::units::System;
use batterboard_core::units::constants::{DEGREE, FOOT, INCH};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::js::{Answer, Outcome, made_by_page, to_js};
use crate::planner::Planner;

/// What a hand holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Tsify)]
#[tsify(rename = "DragTarget")]
#[serde(rename_all = "kebab-case")]
pub enum HeldPart {
    /// The shell, to move it.
    Shell,
    /// The shell's handle, to turn it.
    Turn,
    /// The equipment pad.
    Equipment,
    /// The picture under the plan, to move it.
    Picture,
    /// The picture's handle, to turn it.
    TurnPicture,
    /// A corner of the shape being changed.
    Corner,
    /// The middle of one of its edges.
    Middle,
    /// An edge.
    Edge,
    /// The whole shape.
    Whole,
    /// The rim of a disc.
    Radius,
}

impl From<DragTarget> for HeldPart {
    fn from(held: DragTarget) -> Self {
        match held {
            DragTarget::Shell => Self::Shell,
            DragTarget::Turn => Self::Turn,
            DragTarget::Equipment => Self::Equipment,
            DragTarget::Picture => Self::Picture,
            DragTarget::TurnPicture => Self::TurnPicture,
            DragTarget::Part(handle) => match handle.part {
                Part::Corner(_) => Self::Corner,
                Part::Middle(_) => Self::Middle,
                Part::Edge(_) => Self::Edge,
                Part::Whole => Self::Whole,
                Part::Rim => Self::Radius,
            },
        }
    }
}

/// An angle typed for the next stretch, radians.
#[derive(Debug, Clone, Copy, Deserialize, Tsify)]
#[serde(rename_all = "kebab-case")]
pub enum TypedAngle {
    /// Clockwise from north.
    Bearing(f64),
    /// To the right of the last stretch.
    Right(f64),
    /// To the left of it.
    Left(f64),
    /// Inside the corner.
    Inside(f64),
}

impl From<TypedAngle> for Typed {
    fn from(typed: TypedAngle) -> Self {
        match typed {
            TypedAngle::Bearing(a) => Self::Way(Way::Bearing(a)),
            TypedAngle::Right(a) => Self::Way(Way::Right(a)),
            TypedAngle::Left(a) => Self::Way(Way::Left(a)),
            TypedAngle::Inside(a) => Self::Inside(a),
        }
    }
}

/// What a button or a key does to a drawing.
#[derive(Debug, Clone, Copy, Deserialize, Tsify)]
#[serde(rename_all = "kebab-case")]
pub enum DrawAction {
    /// Places the point where the hand is led.
    Place,
    /// Takes the last point back.
    Back,
    /// Closes the outline, or ends the line.
    Finish,
    /// Gives the drawing up.
    End,
    /// Goes on with a straight line.
    Straight,
    /// Goes on with an arc.
    Arc,
    /// Goes on with a rectangle.
    Rectangle,
}

/// A drawing after a step: how it stands, what barred the step, and the path once it is done.
#[derive(Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct DrawStep {
    drawn: Option<Drawn>,
    findings: Vec<Finding>,
    done: Option<PathRecord>,
}

/// What a button or a key does to a shape.
#[derive(Debug, Clone, Copy, Deserialize, Tsify)]
#[serde(rename_all = "kebab-case")]
pub enum ShapeAction {
    /// Picks the next corner or edge.
    Next,
    /// Picks the one before.
    Before,
    /// Adds a corner.
    Add,
    /// Takes the picked corner out.
    Remove,
    /// Bends the picked edge, or makes it straight.
    Bend,
    /// Makes nearly square corners square.
    Square,
    /// Moves what is picked, meters.
    Nudge { east: f64, north: f64 },
    /// Gives the picked edge a length, meters, and a bearing, radians.
    Run { length: f64, bearing: f64 },
}

impl From<ShapeAction> for ShapeEdit {
    fn from(deed: ShapeAction) -> Self {
        match deed {
            ShapeAction::Next => Self::Pick { back: false },
            ShapeAction::Before => Self::Pick { back: true },
            ShapeAction::Add => Self::Add,
            ShapeAction::Remove => Self::Remove,
            ShapeAction::Bend => Self::Bend,
            ShapeAction::Square => Self::Square,
            ShapeAction::Nudge { east, north } => Self::Nudge(Vector::new(east, north)),
            ShapeAction::Run { length, bearing } => Self::Run(length, bearing),
        }
    }
}

#[wasm_bindgen]
impl Planner {
    /// What a pointer at a place would take hold of; `reach` in meters, `scale` in pixels per meter.
    pub fn hover(
        &mut self,
        x: f64,
        y: f64,
        reach: f64,
        scale: f64,
    ) -> Result<Option<Ts<HeldPart>>, JsValue> {
        let held = self.session.hover(Point::new(x, y), reach, scale);
        held.map(|held| to_js(&HeldPart::from(held))).transpose()
    }

    /// Takes hold of what lies at a place; the drag that follows undoes in one step.
    pub fn grab(
        &mut self,
        x: f64,
        y: f64,
        reach: f64,
        scale: f64,
    ) -> Result<Option<Ts<HeldPart>>, JsValue> {
        let held = self.session.grab(Point::new(x, y), reach, scale);
        held.map(|held| to_js(&HeldPart::from(held))).transpose()
    }

    /// Moves what is held to follow the hand.
    pub fn drag_to(&mut self, x: f64, y: f64, snap: bool) {
        self.session.drag_to(Point::new(x, y), snap);
    }

    /// Shows every place of the shell's middle from now on, or only while the shell is in the hand.
    pub fn show_clear_ground(&mut self, shown: bool) {
        self.session.show_clear_ground(shown);
    }

    /// Lets go.
    pub fn release(&mut self) {
        self.session.release();
    }

    /// Lets go and puts back what was moved.
    pub fn cancel(&mut self) {
        self.session.cancel();
    }

    /// The name of the feature under a place.
    pub fn feature_at(&self, x: f64, y: f64, reach: f64) -> Option<String> {
        let feature = self.session.feature_at(Point::new(x, y), reach);
        feature.map(|feature| feature.label().to_owned())
    }

    /// The id of the feature under a place.
    pub fn feature_id_at(&self, x: f64, y: f64, reach: f64) -> Option<String> {
        let feature = self.session.feature_at(Point::new(x, y), reach);
        feature.map(|feature| feature.id.clone())
    }

    /// What an end of a tape is held to that is put down at a place, as JSON.
    pub fn tape_end_at(&self, x: f64, y: f64, reach: f64) -> String {
        json::to_string(&self.session.tape_end_at(Point::new(x, y), reach))
    }

    /// Everything an end of a tape may be held to but points, as JSON, each followed by its name.
    pub fn tape_choices(&self) -> Vec<String> {
        let choices = self.session.tape_choices().into_iter();
        choices
            .flat_map(|it| [json::to_string(&it.end), it.name])
            .collect()
    }

    /// The course of the lot whose side lies nearest to a place, within a reach (meters).
    pub fn side_at(&self, x: f64, y: f64, reach: f64) -> Option<usize> {
        let lot = &self.session.site().lot().lot;
        lot.side_at(Point::new(x, y), reach)
    }

    /// The corners `x, y, ...` of a rectangle from one of its corners: `along` meters on a
    /// bearing (radians clockwise from north), then `across` meters to the left of it.
    pub fn rectangle(&self, x: f64, y: f64, bearing: f64, along: f64, across: f64) -> Vec<f64> {
        let corners = rectangle(Point::new(x, y), bearing, along, across);
        corners.iter().flat_map(|p| [p.x, p.y]).collect()
    }

    /// How far a key moves the shell, meters: a small or a large step in the units in use.
    pub fn key_step(&self, large: bool) -> f64 {
        match (self.display(), large) {
            (System::Feet, false) => INCH,
            (System::Feet, true) => FOOT,
            (System::Metres, false) => 0.01,
            (System::Metres, true) => 0.1,
        }
    }

    /// How far a key turns the shell, radians.
    pub fn key_turn(&self, large: bool) -> f64 {
        if large { 15.0 * DEGREE } else { DEGREE }
    }

    /// Begins a drawing, with what is placed already.
    pub fn draw(&mut self, wanted: Ts<Wanted>, start: Ts<PathRecord>) -> Result<(), JsValue> {
        let start = made_by_page(start)?.vertices();
        self.session.draw(made_by_page(wanted)?, start);
        Ok(())
    }

    /// Shows a path on the plan that is not in the document; of no vertices: none.
    pub fn show_path(&mut self, closed: bool, path: Ts<PathRecord>) -> Result<(), JsValue> {
        let path = Some(made_by_page(path)?.vertices()).filter(|v| !v.is_empty());
        self.session
            .show_path(path.map(|path| Sketch::new(path, closed)));
        Ok(())
    }

    /// The hand goes on; it is led to things within `reach` meters, and nowhere for 0.
    pub fn draw_at(&mut self, x: f64, y: f64, reach: f64) -> Answer<DrawStep> {
        if let Some(draft) = self.session.draft_mut() {
            draft.follow(Point::new(x, y), reach);
        }
        self.step(Ok(None))
    }

    /// Typed figures for the next stretch: a length, meters, and an angle, where there are any.
    pub fn draw_typed(
        &mut self,
        length: Option<f64>,
        angle: Option<Ts<TypedAngle>>,
    ) -> Answer<DrawStep> {
        let angle = angle.map(made_by_page).transpose()?;
        if let Some(draft) = self.session.draft_mut() {
            let length = length.filter(|l| l.is_finite() && *l > 0.0);
            draft.typed(length, angle.map(Typed::from));
        }
        self.step(Ok(None))
    }

    /// A button or a key on the drawing.
    pub fn draw_do(&mut self, deed: Ts<DrawAction>) -> Answer<DrawStep> {
        let deed = made_by_page(deed)?;
        let mut done = Ok(None);
        if let Some(draft) = self.session.draft_mut() {
            match deed {
                DrawAction::Place => done = draft.place(),
                DrawAction::Finish => done = draft.finish().map(Some),
                DrawAction::Straight => draft.set_mode(Mode::Straight),
                DrawAction::Arc => draft.set_mode(Mode::Arc),
                DrawAction::Rectangle => draft.set_mode(Mode::Rectangle),
                DrawAction::Back => {
                    draft.back();
                }
                DrawAction::End => self.session.end_drawing(),
            }
        }
        self.step(done)
    }

    /// Begins to change a shape; none ends it.
    pub fn choose_shape(&mut self, target: Option<Ts<Target>>) -> Result<(), JsValue> {
        let target = target.map(made_by_page).transpose()?;
        self.session.choose_shape(target);
        Ok(())
    }

    /// The shape being changed.
    pub fn shaped(&self) -> Result<Option<Ts<Shaped>>, JsValue> {
        self.session.shaped().as_ref().map(to_js).transpose()
    }

    /// A button or a key on the shape.
    pub fn shape_do(&mut self, deed: Ts<ShapeAction>) -> Answer<Outcome> {
        let deed = ShapeEdit::from(made_by_page(deed)?);
        to_js(&Outcome::from(self.session.shape(deed)))
    }
}

impl Planner {
    fn step(&self, done: Result<Option<Vec<Vertex>>, Vec<Finding>>) -> Answer<DrawStep> {
        let (done, findings) = match done {
            Ok(done) => (done, Vec::new()),
            Err(findings) => (None, findings),
        };
        to_js(&DrawStep {
            drawn: self.session.draft().map(|draft| draft.drawn()),
            findings,
            done: done.map(|vertices| PathRecord::from(vertices.as_slice())),
        })
    }
}
