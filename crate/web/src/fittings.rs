//! Fittings of the shell: from a tap on the plan, and along the water's edge; and the runs of
//! pipe from them.

use batterboard_core::geom::Point;
use batterboard_core::pipe::fitting;
use batterboard_core::shell::Shell;
use batterboard_core::site::Placement;
use batterboard_core::units::{Measure, show};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::js::{list_to_js, to_js};
use crate::planner::Planner;

/// One run of pipe, from its fitting to the pad.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct RunRow {
    label: String,
    /// The fitting's place in the settings; none for the shell's own drain.
    fitting: Option<usize>,
    length: String,
    straps: usize,
    bends: u32,
    loss: String,
    speed: String,
}

#[wasm_bindgen]
impl Planner {
    /// The place of a fitting, shell frame, from a place on the plan (site meters): in the wall the
    /// nearest place of the water's edge. None while no shell is placed.
    pub fn fitting_from_site(
        &self,
        x: f64,
        y: f64,
        in_wall: bool,
    ) -> Result<Option<Ts<Point>>, JsValue> {
        let at = |(shell, placed): (&Shell, &Placement)| {
            fitting::from_site(shell, &placed.pose(), Point::new(x, y), in_wall)
        };
        self.placed().map(|it| to_js(&at(it))).transpose()
    }

    /// How far a place (shell frame) lies along the water's edge, meters, counter-clockwise from
    /// the deep end.
    pub fn along_edge(&self, x: f64, y: f64) -> f64 {
        let along = |(shell, _): (&Shell, _)| fitting::along(shell, Point::new(x, y));
        self.placed().map_or(0.0, along)
    }

    /// The place so far along the water's edge, shell frame; none while no shell is placed.
    pub fn at_along_edge(&self, along: f64) -> Result<Option<Ts<Point>>, JsValue> {
        let at = |(shell, _): (&Shell, &Placement)| fitting::at_along(shell, along);
        self.placed().map(|it| to_js(&at(it))).transpose()
    }

    /// Every run of pipe.
    pub fn runs(&self) -> Result<Vec<Ts<RunRow>>, JsValue> {
        let system = self.display();
        let shown = |measure, value| show(measure, value, system).text;
        let runs = self.session.analysis().pipes.runs.iter();
        let rows = runs.map(|run| RunRow {
            label: run.label.clone(),
            fitting: run.fitting,
            length: shown(Measure::LongLength, run.length()),
            straps: run.straps.len(),
            bends: run.bends,
            loss: shown(Measure::LongLength, run.loss),
            speed: shown(Measure::Speed, run.speed),
        });
        list_to_js(&rows.collect::<Vec<_>>())
    }
}

impl Planner {
    fn placed(&self) -> Option<(&Shell, &Placement)> {
        let (shell, placed) = self.session.site().placed_shell()?;
        Some((shell.as_ref(), placed))
    }
}
