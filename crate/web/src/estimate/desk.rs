//! The desk as the page holds it.

use batterboard_core::dig::Dig;
use batterboard_core::drawing::{Focus, overlay};
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::report::Workings;
use batterboard_core::session;
use batterboard_core::session::Tally;
use batterboard_core::site::Placement;
use batterboard_core::takeoff::Line;
use batterboard_core::units::{System, show_rate};
use batterboard_web::answers::{Outcome, cross, rate_reading};
use batterboard_web::paint::pen::Pen;
use batterboard_web::paint::{View, draw, labels};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use super::section::Cutting;

/// The planner's site once more, with everything to dig, haul and buy; empty until one is opened.
#[wasm_bindgen]
#[derive(Default)]
pub struct Desk {
    pub(crate) desk: Option<session::Desk>,
    pub(super) section: Cutting,
}

#[wasm_bindgen]
impl Desk {
    /// A desk with nothing on it.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes over a site file; on failure the desk stays as it was.
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn open(&mut self, text: &str) -> Result<JsValue, JsValue> {
        (self.section.line, self.section.cut) = (None, None);
        cross(&Outcome::from(self.taken(text).map(|()| Vec::new())))
    }

    /// The shell stands at x, y (site metres), on a heading (radians clockwise from north), its
    /// coping at an elevation (metres); nothing else has changed. `cut`: the planner's cut there,
    /// so that it need not be made again; numbers that are none are passed over.
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn place(
        &mut self,
        x: f64,
        y: f64,
        heading: f64,
        mirrored: bool,
        coping: f64,
        cut: Option<Vec<f64>>,
    ) -> Result<JsValue, JsValue> {
        self.section.cut = None;
        let cut = cut.and_then(|numbers| Dig::from_numbers(&numbers));
        let moved = self.desk.as_mut().map_or(Ok(()), |desk| {
            let placed = |placed: &mut Placement| {
                placed.at = Point::new(x, y);
                placed.heading = heading;
                placed.mirrored = mirrored;
                placed.coping_elevation = coping;
            };
            desk.place(placed, cut)
        });
        cross(&Outcome::from(moved.map(|()| Vec::new())))
    }

    /// Every quantity, and what belongs beside them.
    #[wasm_bindgen(unchecked_return_type = "Tally | undefined")]
    pub fn tally(&self) -> Result<JsValue, JsValue> {
        match &self.desk {
            Some(desk) => cross(&Tally::of(desk)),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// The arithmetic behind one quantity.
    #[wasm_bindgen(unchecked_return_type = "Workings | undefined")]
    pub fn workings(&self, key: &str) -> Result<JsValue, JsValue> {
        match self.line(key) {
            Some((line, system)) => cross(&Workings::of(line, system)),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// What the quantities cost, line by line; none before a rate is told.
    #[wasm_bindgen(unchecked_return_type = "CostFigures | undefined")]
    pub fn cost(&self) -> Result<JsValue, JsValue> {
        match self.desk.as_ref().and_then(session::Desk::cost) {
            Some(cost) => cross(&cost),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// The present placement beside those that were kept.
    #[wasm_bindgen(unchecked_return_type = "ComparisonFigures | undefined")]
    pub fn compare(&self) -> Result<JsValue, JsValue> {
        match &self.desk {
            Some(desk) => cross(&desk.compare()),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// The copings at which cut and fill are even.
    #[wasm_bindgen(unchecked_return_type = "BalanceFigures | undefined")]
    pub fn balance(&self) -> Result<JsValue, JsValue> {
        match self.desk.as_ref().and_then(session::Desk::balance) {
            Some(balance) => cross(&balance),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// What an inch of coping changes.
    #[wasm_bindgen(unchecked_return_type = "NudgeFigures | undefined")]
    pub fn nudge(&self) -> Result<JsValue, JsValue> {
        match &self.desk {
            Some(desk) => cross(&desk.nudge()),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// Reads a typed rate for the quantity of a key; `value` is money for one SI unit.
    #[wasm_bindgen(unchecked_return_type = "Reading | undefined")]
    pub fn read_rate(&self, text: &str, key: &str) -> Result<JsValue, JsValue> {
        match self.line(key) {
            Some((line, system)) => cross(&rate_reading(text, line.measure, system)),
            None => Ok(JsValue::UNDEFINED),
        }
    }

    /// What a rate of the quantity of a key is told for: `per short ton`.
    pub fn rate_unit(&self, key: &str) -> String {
        self.line(key).map_or_else(String::new, |(line, system)| {
            show_rate(line.measure, 0.0, system).unit.to_owned()
        })
    }

    /// Paints over the plan; `width` and `height` in CSS pixels, `ratio` device pixels per CSS
    /// pixel, `scale` CSS pixels per metre. `focus` is `quantity:KEY` where the ledger looks at
    /// one.
    #[allow(clippy::too_many_arguments)] // A view crosses as plain numbers, not as an object.
    pub fn paint(
        &self,
        context: &CanvasRenderingContext2d,
        width: f64,
        height: f64,
        ratio: f64,
        centre_x: f64,
        centre_y: f64,
        scale: f64,
        focus: &str,
    ) {
        let Some(desk) = &self.desk else { return };
        let view = View {
            width,
            height,
            ratio,
            centre: Point::new(centre_x, centre_y),
            scale,
        };
        let key = focus.strip_prefix("quantity:");
        let focus = key.map_or(Focus::None, Focus::Quantity);
        let over = overlay(desk.site(), desk.results(), desk.estimate(), focus);
        let mut pen = Pen::new(context, &view);
        draw(&mut pen, &view, &over.items);
        labels::set(&mut pen, &view, over.items.iter(), &[]);
        self.paint_section_line(&mut pen, &view);
    }
}

impl Desk {
    /// A line of the takeoff, and the units it is shown in.
    fn line(&self, key: &str) -> Option<(&Line, System)> {
        let desk = self.desk.as_ref()?;
        let mut lines = desk.estimate().takeoff.iter();
        let line = lines.find(|line| line.key == key)?;
        Some((line, desk.site().site().display))
    }

    fn taken(&mut self, text: &str) -> Result<(), Vec<Finding>> {
        match &mut self.desk {
            Some(desk) => desk.renew(text),
            None => session::Desk::open(text).map(|desk| self.desk = Some(desk)),
        }
    }
}
