//! Stakes, ties, levels and what was read back in the yard, for the page.

use std::rc::Rc;

use batterboard_core::report::StakeoutFigures;
use batterboard_core::session::Session;
use batterboard_core::site::{StakedLine, StakeoutRecord};
use tsify::Ts;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use crate::js::{Answer, document_to_js, made_by_page};
use crate::plan::stakes::{self, Shown};
use crate::planner::Planner;

/// The stakeout of a revision of the site: a sheet asks for its figures, its plan and its list one after
/// the other.
#[derive(Default)]
pub struct Staked(Option<(u64, Rc<StakeoutFigures>)>);

impl Staked {
    /// That of the session as it stands.
    fn of(&mut self, session: &Session) -> Option<Rc<StakeoutFigures>> {
        let revision = session.revision();
        if self.0.as_ref().is_none_or(|it| it.0 != revision) {
            self.0 = session.stakeout().map(|it| (revision, Rc::new(it)));
        }
        self.0.as_ref().map(|it| Rc::clone(&it.1))
    }
}

#[wasm_bindgen]
impl Planner {
    /// Everything that is laid out and everything that was read back; nothing before a shell is placed.
    pub fn stakeout(&mut self) -> Result<Option<Ts<StakeoutFigures>>, JsValue> {
        let figures = self.staked.of(&self.session);
        figures.map(|it| document_to_js(&*it)).transpose()
    }

    /// How the work is staked, by default where nobody said so.
    pub fn stakeout_record(&self) -> Answer<StakeoutRecord> {
        let record = self.session.site().site().stakeout.as_deref().cloned();
        document_to_js(&record.unwrap_or_default())
    }

    /// Paints the site with its stakes, those of one line or all, over a whole canvas (CSS pixels, with
    /// so many device pixels each); false where there are none.
    pub fn paint_stakes(
        &mut self,
        context: &CanvasRenderingContext2d,
        size: &[f64],
        line: Option<Ts<StakedLine>>,
    ) -> Result<bool, JsValue> {
        let line = line.map(made_by_page).transpose()?;
        let (Some(figures), [width, height, ratio]) = (self.staked.of(&self.session), size) else {
            return Ok(false);
        };
        let shown = Shown {
            figures: &figures,
            line,
        };
        let Some(view) = shown.view((*width, *height), *ratio, self.theme) else {
            return Ok(false);
        };
        stakes::paint(context, &view, &mut self.session, &self.pictured, &shown);
        Ok(true)
    }

    /// The stakes as a list for a spreadsheet (RFC 4180); nothing before a shell is placed.
    pub fn stakes_list(&mut self) -> Option<String> {
        let figures = self.staked.of(&self.session)?;
        let site = self.session.site();
        Some(figures.to_list(site, site.site().display))
    }
}
