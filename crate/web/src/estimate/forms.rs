//! What the page's forms ask for while somebody fills them in: typed figures read, what a choice
//! would mean, how things are asked for. Nothing of it is needed to show a site, so the planner
//! does without it.

use batterboard_core::exchange;
use batterboard_core::session::GroundWords;
use batterboard_core::site::facts::usual_protection;
use batterboard_core::site::forms;
use batterboard_core::units::{Measure, System};
use batterboard_web::answers::{cross, reading};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::desk::Desk;

#[wasm_bindgen]
impl Desk {
    /// Reads a typed figure of a kind.
    #[wasm_bindgen(unchecked_return_type = "Reading")]
    pub fn read_measure(
        &self,
        text: &str,
        #[wasm_bindgen(unchecked_param_type = "Measure")] measure: JsValue,
    ) -> Result<JsValue, JsValue> {
        let measure: Measure = serde_wasm_bindgen::from_value(measure)?;
        cross(&reading(text, measure, self.display()))
    }

    /// The ground at a glance; none before a site was opened.
    #[wasm_bindgen(unchecked_return_type = "GroundWords | null")]
    pub fn ground(&self) -> Result<JsValue, JsValue> {
        cross(&self.desk.as_ref().map(|desk| GroundWords::of(desk.site())))
    }

    /// How each kind of feature is asked for.
    #[wasm_bindgen(unchecked_return_type = "KindForm[]")]
    pub fn kind_forms(&self) -> Result<JsValue, JsValue> {
        cross(&forms::kinds())
    }

    /// The radius round a tree that is usually kept undisturbed, for the diameter of its trunk.
    pub fn usual_protection(&self, trunk: f64) -> f64 {
        usual_protection(trunk)
    }

    /// The geometry of the site, for what writes it in another form; none before one was opened.
    #[wasm_bindgen(unchecked_return_type = "object | null")]
    pub fn figures(&self) -> Result<JsValue, JsValue> {
        cross(&self.desk.as_ref().map(|desk| {
            let edge = desk.results().dig.as_ref().map(|dig| &dig.top_edge);
            exchange::Figures::of(desk.site(), edge)
        }))
    }

    /// The units that the site's user reads.
    fn display(&self) -> System {
        let desk = self.desk.as_ref();
        desk.map_or_else(System::default, |desk| desk.site().site().display)
    }
}
