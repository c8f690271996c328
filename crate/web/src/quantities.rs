//! Everything to dig, haul, buy and place: the list, the arithmetic behind a line, and its price.

use batterboard_core::analysis::Ranges;
use batterboard_core::report::{CostFigures, Workings};
use batterboard_core::session::{BandFigure, Tally};
use batterboard_core::units::{Currency, RateUnit};
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::forms::{Reading, rate_reading};
use crate::js::{Answer, list_to_js, made_by_page, to_js};
use crate::planner::Planner;

#[wasm_bindgen]
impl Planner {
    /// Every quantity, and what they cost; with low and high once they were handed over.
    pub fn tally(&self) -> Answer<Tally> {
        to_js(&Tally::of(&self.session))
    }

    /// The figures of the keys asked for, each with how far the last change moved it.
    pub fn band(&self, keys: Vec<String>) -> Result<Vec<Ts<BandFigure>>, JsValue> {
        list_to_js(&self.session.band(&keys))
    }

    /// Takes over low and high as a study found them of this revision; false where the site has
    /// changed since.
    ///
    /// # Errors
    /// When these are no ranges.
    pub fn set_ranges(&mut self, ranges: Ts<Ranges>, revision: u32) -> Result<bool, JsValue> {
        let ranges = made_by_page(ranges)?;
        Ok(self.session.set_ranges(&ranges, u64::from(revision)))
    }

    /// The arithmetic behind one quantity.
    pub fn workings(&self, key: &str) -> Result<Option<Ts<Workings>>, JsValue> {
        let line = self.session.analysis().line(key);
        line.map(|line| to_js(&Workings::of(line, self.display())))
            .transpose()
    }

    /// What the quantities cost, line by line; none before a rate is told.
    pub fn cost(&self) -> Result<Option<Ts<CostFigures>>, JsValue> {
        let (analysis, site) = (self.session.analysis(), self.session.site().site());
        let cost = CostFigures::of(analysis, site, self.display());
        cost.as_ref().map(to_js).transpose()
    }

    /// Reads a typed rate for the quantity of a key; the value is money for one of
    /// [`Self::rate_per`].
    pub fn read_rate(&self, text: &str, key: &str) -> Result<Option<Ts<Reading>>, JsValue> {
        let line = self.session.analysis().line(key);
        let currency = self.currency();
        line.map(|line| to_js(&rate_reading(text, line.measure, self.display(), &currency)))
            .transpose()
    }

    /// The unit for which a rate of the quantity of a key is typed now.
    pub fn rate_per(&self, key: &str) -> Result<Option<Ts<RateUnit>>, JsValue> {
        let line = self.session.analysis().line(key);
        line.map(|line| to_js(&RateUnit::of(line.measure, self.display())))
            .transpose()
    }

    /// What the rates of the site are in: a symbol or a code.
    pub fn rate_currency(&self) -> String {
        self.currency().symbol().to_owned()
    }

    /// What a rate of the quantity of a key is told for: `per short ton`.
    pub fn rate_unit(&self, key: &str) -> String {
        let line = self.session.analysis().line(key);
        line.map_or_else(String::new, |line| {
            RateUnit::of(line.measure, self.display())
                .words()
                .to_owned()
        })
    }
}

impl Planner {
    fn currency(&self) -> Currency {
        let site = self.session.site().site();
        site.currency.clone().unwrap_or_default()
    }
}
