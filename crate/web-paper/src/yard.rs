//! The homeowner's view: pictures of the yard, what is said beside them, and the sun on each.

use batterboard_core::exchange;
use batterboard_core::report::{ShadeFigures, SunFigures};
use batterboard_paper::yard::{Showing, ShownYard, ViewWish, YardView};
use batterboard_paper::{Document, Language, svg};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{js_error, to_js};

/// A job that is shown, and the last picture of it.
#[wasm_bindgen]
pub struct Yard {
    showing: Showing,
    picture: Option<Document>,
}

#[wasm_bindgen]
impl Yard {
    /// Of a site's text, as the planner saved it.
    ///
    /// # Errors
    /// Every fault of the text.
    #[wasm_bindgen(constructor)]
    pub fn new(site: &str) -> Result<Yard, JsValue> {
        let opened = exchange::open(site).map_err(|faults| js_error(&faults))?;
        Ok(Self {
            showing: Showing::of(opened),
            picture: None,
        })
    }

    /// Makes a picture, and says what goes beside it.
    ///
    /// # Errors
    /// When no shell is placed, or there is no such place.
    pub fn view(&mut self, wish: Ts<ViewWish>) -> Result<Ts<YardView>, JsValue> {
        let wish = ViewWish::from_js(wish)?;
        let made = self.showing.view(&wish);
        let (picture, view) = made.map_err(|fault| js_error(&[fault]))?;
        self.picture = Some(picture);
        to_js(&view)
    }

    /// The last picture as SVG.
    pub fn svg(&self) -> Option<String> {
        svg::of(self.picture.as_ref()?, 0)
    }

    /// The section along the pool of a yard as SVG, so many millimeters wide; nothing where nothing is cut.
    ///
    /// # Errors
    /// No such place.
    pub fn section(&mut self, yard: Ts<ShownYard>, width: f64) -> Result<Option<String>, JsValue> {
        let yard = ShownYard::from_js(yard)?;
        let made = self.showing.section(yard, width, Language::English);
        let made = made.map_err(|fault| js_error(&[fault]))?;
        Ok(made.and_then(|it| svg::of(&it, 0)))
    }

    /// The sun on the water of a yard on a day as it was typed; what is empty is the usual.
    ///
    /// # Errors
    /// No such place; a day or an offset that is none.
    pub fn sun(
        &mut self,
        yard: Ts<ShownYard>,
        date: &str,
        offset: &str,
    ) -> Result<Ts<SunFigures>, JsValue> {
        let site = self.showing.site(ShownYard::from_js(yard)?);
        let site = site.map_err(|fault| js_error(&[fault]))?;
        let found = SunFigures::of(site, date, offset, site.site().display);
        to_js(&found.map_err(|faults| js_error(&faults))?)
    }

    /// Its shade so many minutes after midnight; nothing where there is no place on the earth or no shell.
    ///
    /// # Errors
    /// As [`Yard::sun`].
    pub fn shade(
        &mut self,
        yard: Ts<ShownYard>,
        date: &str,
        offset: &str,
        minutes: f64,
    ) -> Result<Option<Ts<ShadeFigures>>, JsValue> {
        let site = self.showing.site(ShownYard::from_js(yard)?);
        let site = site.map_err(|fault| js_error(&[fault]))?;
        let found = ShadeFigures::of(site, date, offset, minutes, site.site().display);
        let found = found.map_err(|faults| js_error(&faults))?;
        found.map(|it| to_js(&it)).transpose()
    }
}
