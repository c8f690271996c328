//! Everything to dig, haul, buy and place: the list, the arithmetic behind a line, its price,
//! and what is laid over the plan to show it.

use batterboard_core::drawing::{Focus, overlay};
use batterboard_core::finding::Finding;
use batterboard_core::report::Workings;
use batterboard_core::session::{Desk, Tally};
use batterboard_core::takeoff::Line;
use batterboard_core::units::{System, show_rate};
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use crate::edit::Hold;
use crate::forms::{Reading, rate_reading};
use crate::js::{Answer, js_error, to_js};
use crate::paint::pen::Pen;
use crate::paint::{View, draw, labels};
use crate::planner::Planner;

#[wasm_bindgen]
impl Planner {
    /// Every quantity, and what belongs beside them.
    pub fn tally(&mut self) -> Answer<Tally> {
        to_js(&Tally::of(self.desk()?))
    }

    /// The arithmetic behind one quantity.
    pub fn workings(&mut self, key: &str) -> Result<Option<Ts<Workings>>, JsValue> {
        let line = self.line(key)?;
        line.map(|(line, system)| to_js(&Workings::of(line, system)))
            .transpose()
    }

    /// Reads a typed rate for the quantity of a key; the value is money for one SI unit.
    pub fn read_rate(&mut self, text: &str, key: &str) -> Result<Option<Ts<Reading>>, JsValue> {
        let line = self.line(key)?;
        line.map(|(line, system)| to_js(&rate_reading(text, line.measure, system)))
            .transpose()
    }

    /// What a rate of the quantity of a key is told for: `per short ton`.
    pub fn rate_unit(&mut self, key: &str) -> Result<String, JsValue> {
        let line = self.line(key)?;
        Ok(line.map_or_else(String::new, |(line, system)| {
            show_rate(line.measure, 0.0, system).unit.to_owned()
        }))
    }
}

impl Planner {
    /// A line of the takeoff, and the units it is shown in.
    fn line(&mut self, key: &str) -> Result<Option<(&Line, System)>, JsValue> {
        let system = self.display();
        let mut lines = self.desk()?.estimate().takeoff.iter();
        Ok(lines
            .find(|line| line.key == key)
            .map(|line| (line, system)))
    }

    /// The quantities of the site as it stands.
    pub(crate) fn desk(&mut self) -> Result<&mut Desk, JsValue> {
        let revision = self.session.revision();
        let shell_held = matches!(self.held, Some(Hold::Shell | Hold::Turn));
        let desk = match self.desk.take() {
            Some((at, desk)) if at == revision && (shell_held || !desk.in_passing()) => desk,
            before => {
                self.section.forget(!shell_held);
                self.followed(before.map(|(_, desk)| desk), shell_held)
                    .map_err(|faults| js_error(&faults))?
            }
        };
        Ok(&mut self.desk.insert((revision, desk)).1)
    }

    fn followed(&self, desk: Option<Desk>, in_passing: bool) -> Result<Desk, Vec<Finding>> {
        let Some(mut desk) = desk else {
            return Desk::open(&self.session.save_bare());
        };
        let placement = self.session.site().site().placement.clone();
        match placement.filter(|_| in_passing) {
            Some(to) => {
                let cut = self.session.results().dig.clone();
                desk.place(|placed| *placed = to, cut)?;
            }
            None => desk.renew(&self.session.save_bare())?,
        }
        Ok(desk)
    }

    /// Paints what is laid over the plan.
    pub(crate) fn paint_quantities(
        &mut self,
        context: &CanvasRenderingContext2d,
        view: &View,
        focus: Focus<'_>,
    ) -> Result<(), JsValue> {
        let focus = match focus {
            Focus::Quantity(_) => focus,
            _ => Focus::None,
        };
        let desk = self.desk()?;
        let over = overlay(desk.site(), desk.results(), desk.estimate(), focus);
        let mut pen = Pen::new(context, view);
        draw(&mut pen, view, &over.items);
        labels::set(&mut pen, view, over.items.iter(), &[]);
        self.paint_section_line(&mut pen, view)
    }
}
