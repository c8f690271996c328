//! The planner as the page holds it: the open site, its history, and its painting.

use batterboard_core::drawing::Focus;
use batterboard_core::exchange;
use batterboard_core::exchange::changes::{self, Change};
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::report::AssumedFigures;
use batterboard_core::session::{
    ClearanceRow, Command, Keepsake, Ledger, Listed, Session, clearance_rows,
};
use batterboard_core::site::Site;
use batterboard_core::units::{Measure, show};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use crate::cards::{self, ShellCard};
use crate::js::{Answer, Outcome, from_js, js_error, list_to_js, made_by_page, to_js};
use crate::paint::View;
use crate::paint::ink::theme::Theme;
use crate::picture::Pictured;
use crate::plan;
use crate::plan::labels::PlanLabels;
use crate::plan::still::StillHalf;
use crate::stakeout::Staked;

/// An open site, with everything the page may ask of it.
#[wasm_bindgen]
pub struct Planner {
    pub(crate) session: Session,
    pub(crate) pictured: Pictured,
    /// The still half of the plan as it was last painted.
    still: StillHalf,
    /// The labels of the plan.
    pub(crate) labels: PlanLabels,
    /// The stakeout as it was last asked for.
    pub(crate) staked: Staked,
    /// How the plan, the section and the stakes are colored.
    pub(crate) theme: Theme,
}

/// What part of the site a canvas shows.
#[derive(Debug, Clone, Copy, Deserialize, Tsify)]
pub struct PlanView {
    /// The site position at the canvas's middle, meters.
    x: f64,
    y: f64,
    /// CSS pixels per meter.
    scale: f64,
    /// Size of the canvas, CSS pixels.
    width: f64,
    height: f64,
    /// Device pixels per CSS pixel.
    ratio: f64,
}

impl From<PlanView> for View {
    fn from(view: PlanView) -> Self {
        Self {
            width: view.width,
            height: view.height,
            ratio: view.ratio,
            centre: Point::new(view.x, view.y),
            scale: view.scale,
            theme: Theme::Light,
        }
    }
}

/// What lights up on the plan.
#[derive(Debug, Clone, Default, Deserialize, Tsify)]
#[serde(rename_all = "kebab-case")]
pub enum Highlight {
    /// Nothing.
    #[default]
    None,
    /// A clearance, by its index in the ledger.
    Clearance(usize),
    /// What a quantity was measured on, by its key.
    Quantity(String),
    /// A feature, by its id.
    Feature(String),
    /// A side of the lot, by its course.
    Side(usize),
    /// A tape, by its index.
    Tape(usize),
}

impl Highlight {
    /// The same for the core.
    pub(crate) fn focus(&self) -> Focus<'_> {
        match self {
            Self::None => Focus::None,
            Self::Clearance(index) => Focus::Clearance(*index),
            Self::Quantity(key) => Focus::Quantity(key),
            Self::Feature(id) => Focus::Feature(id),
            Self::Side(course) => Focus::Side(*course),
            Self::Tape(index) => Focus::Tape(*index),
        }
    }
}

/// What was changed since an earlier state of the site; or why that could not be read.
#[derive(Debug, Serialize, Tsify)]
pub struct ChangesSince {
    changes: Vec<Change>,
    findings: Vec<Finding>,
}

#[wasm_bindgen]
impl Planner {
    /// A planner on a blank lot.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<Planner, JsValue> {
        let session = Session::new().map_err(|faults| js_error(&faults))?;
        Ok(Self {
            session,
            pictured: Pictured::default(),
            still: StillHalf::default(),
            labels: PlanLabels::default(),
            staked: Staked::default(),
            theme: Theme::default(),
        })
    }

    /// Opens a site file; on failure the open work stays.
    pub fn open(&mut self, text: &str) -> Answer<Outcome> {
        to_js(&Outcome::from(self.session.open(text)))
    }

    /// Opens a shell file and chooses the shell in it.
    pub fn open_shell(&mut self, text: &str) -> Answer<Outcome> {
        to_js(&Outcome::from(self.session.open_shell(text)))
    }

    /// The site file of the present site.
    pub fn save(&self) -> String {
        self.session.save()
    }

    /// Carries out one undoable edit.
    pub fn apply(&mut self, command: &Ts<Command>) -> Answer<Outcome> {
        let done = from_js(command).and_then(|command| self.session.apply(command));
        to_js(&Outcome::from(done))
    }

    /// Takes so many edits back, as far as there are any; gives how many.
    pub fn undo(&mut self, steps: usize) -> usize {
        self.session.undo_steps(steps)
    }

    /// Carries out again so many edits that were taken back; gives how many.
    pub fn redo(&mut self, steps: usize) -> usize {
        self.session.redo_steps(steps)
    }

    /// The edits that can be taken back, or those that can be carried out again, by their names, those
    /// nearest the present first.
    pub fn steps(&self, redo: bool) -> Vec<String> {
        let steps = self.session.steps();
        if redo { steps.redo } else { steps.undo }
    }

    /// Everything the page lists beside the plan, but for the quantities; in each group of clearances so
    /// many `more` rows than at first, and the one `opened`, by its index.
    pub fn ledger(&self, more: usize, opened: Option<usize>) -> Answer<Ledger> {
        to_js(&Ledger::of(&self.session, Listed { more, opened }))
    }

    /// Every clearance, least room first.
    pub fn clearances(&self) -> Result<Vec<Ts<ClearanceRow>>, JsValue> {
        list_to_js(&clearance_rows(&self.session))
    }

    /// What stays assumed, with how far wrong each may be.
    pub fn assumed(&self) -> Result<Vec<Ts<AssumedFigures>>, JsValue> {
        let (site, analysis) = (self.session.site(), self.session.analysis());
        list_to_js(&AssumedFigures::all(site, analysis, self.display()))
    }

    /// The document as a plain object, for forms; without its images' data.
    pub fn settings(&self) -> Answer<Site> {
        let text = self.session.save_bare();
        Ok(Ts::new_unchecked(js_sys::JSON::parse(&text)?))
    }

    /// The catalogue of shells.
    pub fn catalogue(&self) -> Result<Vec<Ts<ShellCard>>, JsValue> {
        list_to_js(&cards::all(self.display()))
    }

    /// An SI figure as shown in the user's units.
    pub fn show_measure(&self, value: f64, measure: Ts<Measure>) -> Result<String, JsValue> {
        Ok(show(made_by_page(measure)?, value, self.display()).text)
    }

    /// `[x0, y0, x1, y1]` of everything on the plan, site meters.
    pub fn extent(&mut self) -> Vec<f64> {
        let bounds = self.session.still_drawing().bounds();
        bounds.map_or(vec![0.0, 0.0, 1.0, 1.0], |(low, high)| {
            vec![low.x, low.y, high.x, high.y]
        })
    }

    /// Has everything painted from now on as a theme colors it: `light`, `dark`, `strong` or `sunlight`. Small pictures, which
    /// are kept and sent, stay light.
    pub fn set_theme(&mut self, name: &str) {
        self.theme = Theme::named(name);
    }

    /// Paints the whole plan.
    pub fn paint(
        &mut self,
        context: &CanvasRenderingContext2d,
        view: Ts<PlanView>,
        highlight: Ts<Highlight>,
    ) -> Result<(), JsValue> {
        let view = View {
            theme: self.theme,
            ..View::from(made_by_page(view)?)
        };
        let highlight: Highlight = made_by_page(highlight)?;
        plan::paint(
            context,
            &view,
            &mut self.session,
            &mut self.still,
            &mut self.labels,
            &self.pictured,
            highlight.focus(),
        );
        Ok(())
    }

    /// Paints a small picture of the site, without lettering and without touching the plan's own
    /// painting.
    pub fn paint_small(
        &mut self,
        context: &CanvasRenderingContext2d,
        view: Ts<PlanView>,
    ) -> Result<(), JsValue> {
        let view = View::from(made_by_page(view)?);
        plan::small::paint(context, &view, &mut self.session, &self.pictured);
        Ok(())
    }

    /// The site and its history as they are kept on the device, the history at most so many bytes.
    pub fn keepsake(&mut self, limit: usize) -> Answer<Keepsake> {
        to_js(&self.session.keepsake(limit))
    }

    /// Gives a site that was just opened the history it was kept with; false where it is not its own.
    pub fn restore_history(&mut self, text: &str) -> bool {
        self.session.restore_history(text)
    }

    /// Puts a version (a site file, and its images' data where it is without) in place of the
    /// present site, in one step that can be undone.
    pub fn restore_version(&mut self, text: &str, images: &str) -> Answer<Outcome> {
        to_js(&Outcome::from(self.session.restore_version(text, images)))
    }

    /// Has the site follow what is done elsewhere, without edits of its own, or not any more.
    pub fn set_watching(&mut self, watching: bool) {
        self.session.set_watching(watching);
    }

    /// What was changed from a version to the site as it stands.
    pub fn changes_since(&self, text: &str, images: &str) -> Answer<ChangesSince> {
        let (changes, findings) = match exchange::open_with_images(text, images) {
            Ok(then) => {
                let (then, now) = (then.site.site(), self.session.site().site());
                (changes::between(then, now), Vec::new())
            }
            Err(findings) => (Vec::new(), findings),
        };
        to_js(&ChangesSince { changes, findings })
    }
}
