//! What the page's forms ask for while somebody fills them in: typed figures read, what a choice
//! would mean, how things are asked for.

use batterboard_core::geom::PathRecord;
use batterboard_core::lot::deed::Summary;
use batterboard_core::lot::{LineKind, LotRecord, Traverse};
use batterboard_core::session::GroundWords;
use batterboard_core::site::facts::usual_protection;
use batterboard_core::site::forms::{self, KindForm};
use batterboard_core::site::{Rule, kinds_from_street, rule};
use batterboard_core::units::{
    Ambiguity, Currency, Measure, RateUnit, System, UnitFault, parse_measure, parse_rate, show,
    show_rate,
};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::closing::LotClosing;
use crate::js::{Answer, from_js, list_to_js, made_by_page, to_js};
use crate::planner::Planner;

/// A typed figure as it was understood (an SI value, perhaps with ambiguities), or what to type.
#[derive(Debug, Serialize, Tsify)]
#[serde(untagged)]
pub enum Reading {
    /// It was understood.
    Understood {
        #[tsify(type = "true")]
        ok: bool,
        value: f64,
        text: String,
        #[tsify(type = "Ambiguity[]")]
        ambiguities: Vec<Ambiguity>,
    },
    /// It was not; where in the text, characters from 0.
    Not {
        #[tsify(type = "false")]
        ok: bool,
        message: String,
        remedy: String,
        from: usize,
        to: usize,
    },
}

/// Reads a typed figure.
fn reading(text: &str, measure: Measure, system: System) -> Reading {
    match parse_measure(text, measure, system) {
        Ok(parsed) => Reading::Understood {
            ok: true,
            value: parsed.value,
            text: show(measure, parsed.value, system).text,
            ambiguities: parsed.ambiguities,
        },
        Err(fault) => Reading::from(fault),
    }
}

/// Reads a typed rate: money for one unit that the figure is shown in.
pub fn rate_reading(text: &str, measure: Measure, system: System, currency: &Currency) -> Reading {
    match parse_rate(text, measure, system, currency) {
        Ok(value) => Reading::Understood {
            ok: true,
            value,
            text: show_rate(measure, value, Some(RateUnit::of(measure, system)), system).text,
            ambiguities: Vec::new(),
        },
        Err(fault) => Reading::from(fault),
    }
}

impl From<UnitFault> for Reading {
    fn from(fault: UnitFault) -> Self {
        Self::Not {
            ok: false,
            message: fault.message,
            remedy: fault.remedy,
            from: fault.span.start,
            to: fault.span.end,
        }
    }
}

#[wasm_bindgen]
impl Planner {
    /// Reads a typed figure of a kind.
    pub fn read_measure(&self, text: &str, measure: Ts<Measure>) -> Answer<Reading> {
        to_js(&reading(text, made_by_page(measure)?, self.display()))
    }

    /// The ground at a glance.
    pub fn ground(&self) -> Answer<GroundWords> {
        to_js(&GroundWords::of(self.session.site()))
    }

    /// How each kind of feature is asked for.
    pub fn kind_forms(&self) -> Result<Vec<Ts<KindForm>>, JsValue> {
        list_to_js(&forms::kinds())
    }

    /// The radius round a tree that is usually kept undisturbed, for the diameter of its trunk.
    pub fn usual_protection(&self, trunk: f64) -> f64 {
        usual_protection(trunk)
    }

    /// `[x, y]` of the corner where a course starts, site meters; empty where there is none.
    pub fn corner(&self, course: usize) -> Vec<f64> {
        let traverse = Traverse::of(&self.session.site().site().lot);
        let at = traverse.vertices.get(course).map(|vertex| vertex.at);
        at.map_or(Vec::new(), |at| vec![at.x, at.y])
    }

    /// What the courses of a lot close to and enclose, whether the lot is in use or not; none
    /// where it has none.
    pub fn closing(&self, lot: &Ts<LotRecord>) -> Result<Option<Ts<LotClosing>>, JsValue> {
        let Ok(lot) = from_js(lot) else {
            return Ok(None);
        };
        let figures = LotClosing::of(&Summary::of(&lot), lot.closing_ratio, self.display());
        figures.as_ref().map(to_js).transpose()
    }

    /// The corners of a lot as its courses run, whether the lot is in use or not; none where it has none.
    pub fn outline(&self, lot: &Ts<LotRecord>) -> Answer<PathRecord> {
        let vertices = from_js(lot).map(|lot: LotRecord| Traverse::of(&lot).vertices);
        to_js(&PathRecord::from(&vertices.unwrap_or_default()[..]))
    }

    /// A kind for every course: those given already stay, unless `replace`. `front` is the
    /// course on the street that the house faces; without it the edge of the only street tells.
    pub fn kinds_from_street(
        &self,
        front: Option<usize>,
        replace: bool,
    ) -> Result<Vec<Ts<LineKind>>, JsValue> {
        list_to_js(&kinds_from_street(self.session.site(), front, replace))
    }

    /// The clearance rules that a new job starts with, each of which says that it is an example.
    pub fn example_rules(&self) -> Result<Vec<Ts<Rule>>, JsValue> {
        list_to_js(&rule::examples())
    }
}

impl Planner {
    /// The units that the site's user reads.
    pub(crate) fn display(&self) -> System {
        self.session.site().site().display
    }
}
