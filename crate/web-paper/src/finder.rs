//! Where a shell fits: the search step by step, and what would free a shell that stands too close.

use batterboard_core::analysis::Cache;
use batterboard_core::clear_ground::Bounds;
use batterboard_core::fit::{self, CureCards, FitCard, FitWish, Search};
use batterboard_core::geom::{Point, Region};
use batterboard_core::site::{CheckedShape, CheckedSite, FeatureKind};
use batterboard_core::study::Progress;
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{js_error, to_js, without_images};

/// A search under way.
#[wasm_bindgen]
pub struct Finder {
    search: Search,
    site: CheckedSite,
    /// How many places were told.
    told: usize,
}

/// How far a search is, and what it has found so far.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct FoundSoFar {
    /// Shells tried, of all.
    progress: Progress,
    /// The best first; none where no others were found since they were told last.
    cards: Option<Vec<FitCard>>,
}

/// What stands round a shell on a small plan, rings in site meters.
#[derive(Debug, Serialize, Tsify)]
pub struct SmallSite {
    /// The lot's boundary.
    lot: Vec<Point>,
    /// Houses and outbuildings.
    buildings: Vec<Vec<Point>>,
}

#[wasm_bindgen]
impl Finder {
    /// Begins a search on a site's text, as the planner saved it.
    ///
    /// # Errors
    /// Every fault of the text or the wish.
    #[wasm_bindgen(constructor)]
    pub fn new(site: &str, wish: Ts<FitWish>) -> Result<Finder, JsValue> {
        let site = without_images(site)?;
        let wish = FitWish::from_js(wish)?;
        let search = Search::new(site.clone(), wish).map_err(|faults| js_error(&faults))?;
        Ok(Self {
            search,
            site,
            told: 0,
        })
    }

    /// Looks at some more headings.
    pub fn step(&mut self) -> Result<Ts<FoundSoFar>, JsValue> {
        let progress = self.search.step();
        let system = self.site.site().display;
        let found = self.search.found();
        let more = found.len() > self.told;
        self.told = found.len();
        to_js(&FoundSoFar {
            progress,
            cards: more.then(|| found.iter().map(|fit| FitCard::of(fit, system)).collect()),
        })
    }

    /// What stands round the shells on small plans.
    pub fn around(&self) -> Result<Ts<SmallSite>, JsValue> {
        use FeatureKind as K;
        let outer = |region: &Region| {
            let rings = region.polygons.iter().map(|it| it.outer.0.clone());
            rings.collect::<Vec<_>>()
        };
        let features = self.site.features().iter();
        let buildings = features.filter(|it| matches!(it.kind, K::House | K::Outbuilding));
        let lot = outer(&self.site.lot().region);
        to_js(&SmallSite {
            lot: lot.into_iter().next().unwrap_or_default(),
            buildings: buildings
                .flat_map(|it| match &it.shape {
                    CheckedShape::Area(_, region) => outer(region),
                    CheckedShape::Track(..) => Vec::new(),
                })
                .collect(),
        })
    }
}

/// What would free the shell on a site's text.
///
/// # Errors
/// Every fault of the text.
#[wasm_bindgen]
pub fn cures(site: &str) -> Result<Ts<CureCards>, JsValue> {
    to_js(&fit::cures(&without_images(site)?).unwrap_or_default())
}

/// The largest rectangle of water of a proportion (width over length) that fits anywhere on a site's text, in words;
/// nothing where none does or no shell is placed, whose work is taken.
///
/// # Errors
/// Every fault of the text.
#[wasm_bindgen]
pub fn largest_rectangle(site: &str, proportion: f64) -> Result<Option<String>, JsValue> {
    let site = without_images(site)?;
    let bounds = Bounds::where_it_stands(&site, &mut Cache::default());
    let found = bounds.and_then(|it| fit::largest(&it, proportion));
    Ok(found.map(|it| it.words(site.site().display)))
}
