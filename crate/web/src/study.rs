//! Questions that take long, worked through in a second instance of this module.
//!
//! A study is given the site's text and one question. The worker lets it go on step by step, so
//! that the page can be told how far it is and it can be given up between two steps.

use batterboard_core::study::{self, Answer, Progress, Question};
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::js::{js_error, made_by_page, to_js};

/// A question being worked on.
#[wasm_bindgen]
pub struct Study(study::Study);

#[wasm_bindgen]
impl Study {
    /// Begins on a question about a site's text, as a planner saved it. The data of its images
    /// may be left out, but for a report, which names it.
    ///
    /// # Errors
    /// Every fault of the text.
    #[wasm_bindgen(constructor)]
    pub fn new(site: &str, question: Ts<Question>) -> Result<Study, JsValue> {
        let study = study::Study::open(site, made_by_page(question)?);
        study.map(Self).map_err(|faults| js_error(&faults))
    }

    /// Goes one step on; the answer is there when as many are done as there are.
    pub fn step(&mut self) -> crate::js::Answer<Progress> {
        to_js(&self.0.step())
    }

    /// The answer, once all is done.
    pub fn answer(&self) -> Result<Option<Ts<Answer>>, JsValue> {
        self.0.answer().map(to_js).transpose()
    }
}
