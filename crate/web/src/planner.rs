//! The planner as the page holds it.

use batterboard_core::dig::Dig;
use batterboard_core::drawing::{Drawing, Focus, backdrop};
use batterboard_core::geom::Point;
use batterboard_core::geom::point::rectangle;
use batterboard_core::lot::deed::Summary;
use batterboard_core::lot::{LotRecord, Traverse};
use batterboard_core::session::{Command, Held, Ledger, Part, Session};
use batterboard_core::site::{Site, kinds_from_street, rule};
use batterboard_core::units::constants::{DEGREE, FOOT, INCH};
use batterboard_core::units::{Measure, System, show};
use batterboard_web::answers::{Outcome, cross, refused, taken};
use batterboard_web::closing::Figures;
use batterboard_web::paint::View;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use crate::cards;
use crate::picture::Pictured;
use crate::plan::paint;

/// An open site, with everything the page may ask of it.
#[wasm_bindgen]
pub struct Planner {
    pub(crate) session: Session,
    /// The still half of the plan and the site it was drawn from.
    backdrop: Option<(Site, Drawing)>,
    pub(crate) pictured: Pictured,
}

#[wasm_bindgen]
impl Planner {
    /// A planner on a blank lot.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<Planner, JsValue> {
        let session = Session::new().map_err(|faults| refused(&faults))?;
        Ok(Self {
            session,
            backdrop: None,
            pictured: Pictured::default(),
        })
    }

    /// Opens a site file; on failure the open work stays.
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn open(&mut self, text: &str) -> Result<JsValue, JsValue> {
        cross(&Outcome::from(self.session.open(text)))
    }

    /// Opens a shell file and chooses the shell in it.
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn open_shell(&mut self, text: &str) -> Result<JsValue, JsValue> {
        cross(&Outcome::from(self.session.open_shell(text)))
    }

    /// The site file of the present site.
    pub fn save(&self) -> String {
        self.session.save()
    }

    /// Carries out one undoable edit.
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn apply(&mut self, command: JsValue) -> Result<JsValue, JsValue> {
        let text = String::from(js_sys::JSON::stringify(&command)?);
        let done = Command::read(&text).and_then(|command| self.session.apply(command));
        cross(&Outcome::from(done.map(|()| Vec::new())))
    }

    /// Takes the last edit back.
    pub fn undo(&mut self) -> bool {
        self.session.undo()
    }

    /// Carries out again what was taken back.
    pub fn redo(&mut self) -> bool {
        self.session.redo()
    }

    /// Everything the page lists beside the plan.
    #[wasm_bindgen(unchecked_return_type = "Ledger")]
    pub fn ledger(&self) -> Result<JsValue, JsValue> {
        cross(&Ledger::of(&self.session))
    }

    /// The document as a plain object, for forms.
    #[wasm_bindgen(unchecked_return_type = "any")]
    pub fn settings(&self) -> Result<JsValue, JsValue> {
        js_sys::JSON::parse(&self.session.save_bare())
    }

    /// The catalogue of shells.
    #[wasm_bindgen(unchecked_return_type = "ShellCard[]")]
    pub fn catalogue(&self) -> Result<JsValue, JsValue> {
        cross(&cards::all(self.session.site().site().display))
    }

    /// An SI figure as shown in the user's units.
    pub fn show_measure(
        &self,
        value: f64,
        #[wasm_bindgen(unchecked_param_type = "Measure")] measure: JsValue,
    ) -> Result<String, JsValue> {
        let measure: Measure = serde_wasm_bindgen::from_value(measure)?;
        Ok(show(measure, value, self.session.site().site().display).text)
    }

    /// `[x0, y0, x1, y1]` of everything on the plan, site metres.
    pub fn extent(&mut self) -> Vec<f64> {
        self.redraw_backdrop();
        let bounds = self
            .backdrop
            .as_ref()
            .and_then(|(_, drawing)| drawing.bounds());
        bounds.map_or(vec![0.0, 0.0, 1.0, 1.0], |(low, high)| {
            vec![low.x, low.y, high.x, high.y]
        })
    }

    /// What a pointer at a place would take hold of; `reach` in metres, `scale` in pixels per metre.
    #[wasm_bindgen(unchecked_return_type = "Held | undefined")]
    pub fn hover(&self, x: f64, y: f64, reach: f64, scale: f64) -> Option<String> {
        self.session
            .held_at(Point::new(x, y), reach, scale)
            .map(|held| word(held).to_owned())
    }

    /// The name of the feature under a place.
    pub fn feature_at(&self, x: f64, y: f64, reach: f64) -> Option<String> {
        self.session
            .feature_at(Point::new(x, y), reach)
            .map(|feature| feature.label().to_owned())
    }

    /// The id of the feature under a place.
    pub fn feature_id_at(&self, x: f64, y: f64, reach: f64) -> Option<String> {
        let feature = self.session.feature_at(Point::new(x, y), reach);
        feature.map(|feature| feature.id.clone())
    }

    /// The corners `x, y, ...` of a rectangle from one of its corners: `along` metres on a
    /// bearing (radians clockwise from north), then `across` metres to the left of it.
    pub fn rectangle(&self, x: f64, y: f64, bearing: f64, along: f64, across: f64) -> Vec<f64> {
        let corners = rectangle(Point::new(x, y), bearing, along, across);
        corners.iter().flat_map(|p| [p.x, p.y]).collect()
    }

    /// The course of the lot whose side lies nearest to a place, within a reach (metres).
    pub fn side_at(&self, x: f64, y: f64, reach: f64) -> Option<usize> {
        self.session
            .site()
            .lot()
            .lot
            .side_at(Point::new(x, y), reach)
    }

    /// `[x, y]` of the corner where a course starts, site metres; empty where there is none.
    pub fn corner(&self, course: usize) -> Vec<f64> {
        let traverse = Traverse::of(&self.session.site().site().lot);
        let at = traverse.vertices.get(course).map(|vertex| vertex.at);
        at.map_or(Vec::new(), |at| vec![at.x, at.y])
    }

    /// How far a key moves the shell, metres: a small or a large step in the units in use.
    pub fn key_step(&self, large: bool) -> f64 {
        match (self.session.site().site().display, large) {
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

    /// A kind for every course: those given already stay, unless `replace`. `front` is the
    /// course on the street that the house faces; without it the edge of the only street tells.
    #[wasm_bindgen(unchecked_return_type = "string[]")]
    pub fn kinds_from_street(
        &self,
        front: Option<usize>,
        replace: bool,
    ) -> Result<JsValue, JsValue> {
        cross(&kinds_from_street(self.session.site(), front, replace))
    }

    /// Takes hold of what lies at a place; the drag that follows undoes in one step.
    #[wasm_bindgen(unchecked_return_type = "Held | undefined")]
    pub fn grab(&mut self, x: f64, y: f64, reach: f64, scale: f64) -> Option<String> {
        self.session
            .grab(Point::new(x, y), reach, scale)
            .map(|held| word(held).to_owned())
    }

    /// Moves what is held to follow the hand.
    pub fn drag_to(&mut self, x: f64, y: f64, snap: bool) {
        self.session.drag_to(Point::new(x, y), snap);
    }

    /// Lets go.
    pub fn release(&mut self) {
        self.session.release();
    }

    /// Lets go and puts back what was moved.
    pub fn cancel(&mut self) {
        self.session.cancel();
    }

    /// Paints the whole plan; `width` and `height` in CSS pixels, `ratio` device pixels per
    /// CSS pixel, `scale` CSS pixels per metre. `focus` is empty, `clearance:INDEX`,
    /// `feature:ID` or `side:COURSE`.
    #[allow(clippy::too_many_arguments)] // A view crosses as plain numbers, not as an object.
    pub fn paint(
        &mut self,
        context: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        ratio: f64,
        centre_x: f64,
        centre_y: f64,
        scale: f64,
        focus: &str,
    ) {
        self.redraw_backdrop();
        let Some((_, backdrop)) = &self.backdrop else {
            return;
        };
        let view = View {
            width,
            height,
            ratio,
            centre: Point::new(centre_x, centre_y),
            scale,
        };
        let pictured = &self.pictured;
        paint(
            context,
            &view,
            &self.session,
            backdrop,
            pictured,
            read_focus(focus),
        );
    }

    /// What the courses of a lot close to and enclose, whether the lot is in use or not; null
    /// where it has none.
    #[wasm_bindgen(unchecked_return_type = "LotClosing | null")]
    pub fn closing(
        &self,
        #[wasm_bindgen(unchecked_param_type = "object")] lot: &JsValue,
    ) -> Result<JsValue, JsValue> {
        let Ok(lot) = taken::<LotRecord>(lot) else {
            return Ok(JsValue::NULL);
        };
        let system = self.session.site().site().display;
        cross(&Figures::of(&Summary::of(&lot), lot.closing_ratio, system))
    }

    /// The clearance rules that a new job starts with, each of which says that it is an example.
    #[wasm_bindgen(unchecked_return_type = "any[]")]
    pub fn example_rules(&self) -> Result<JsValue, JsValue> {
        cross(&rule::examples())
    }

    /// The hole as it is cut, in numbers, for the estimate's desk; none before a shell is placed.
    pub fn cut(&self) -> Option<Vec<f64>> {
        let dig = self.session.results().dig.as_ref();
        dig.map(Dig::to_numbers)
    }

    /// One drag step without painting: move, clearances, dig. For benchmarks.
    pub fn bench_frame(&mut self, x: f64, y: f64) {
        self.session.drag_to(Point::new(x, y), false);
    }
}

impl Planner {
    /// Draws the still half again if anything it shows has changed.
    fn redraw_backdrop(&mut self) {
        let site = self.session.site();
        let stale = self
            .backdrop
            .as_ref()
            .is_none_or(|(drawn, _)| !same_backdrop(drawn, site.site()));
        if stale {
            self.backdrop = Some((Site::clone(site.site()), backdrop(site)));
        }
    }
}

/// Whether two sites have the same lot, features, ground, contours, benchmark, rules and units.
fn same_backdrop(a: &Site, b: &Site) -> bool {
    use std::sync::Arc;
    Arc::ptr_eq(&a.lot, &b.lot)
        && Arc::ptr_eq(&a.features, &b.features)
        && Arc::ptr_eq(&a.ground, &b.ground)
        && Arc::ptr_eq(&a.rules, &b.rules)
        && a.display == b.display
        && a.contours == b.contours
        && a.benchmark == b.benchmark
}

fn word(held: Held) -> &'static str {
    match held {
        Held::Shell => "shell",
        Held::Turn => "turn",
        Held::Equipment => "equipment",
        Held::Picture => "picture",
        Held::TurnPicture => "turn-picture",
        Held::Part(grip) => match grip.part {
            Part::Corner(_) => "corner",
            Part::Middle(_) => "middle",
            Part::Edge(_) => "edge",
            Part::Whole => "whole",
            Part::Rim => "radius",
        },
    }
}

fn read_focus(text: &str) -> Focus<'_> {
    match text.split_once(':') {
        Some(("clearance", index)) => index.parse().map_or(Focus::None, Focus::Clearance),
        Some(("feature", id)) => Focus::Feature(id),
        Some(("side", index)) => index.parse().map_or(Focus::None, Focus::Side),
        _ => Focus::None,
    }
}
