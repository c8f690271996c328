//! Fittings of the shell: from a tap on the plan, and along the water's edge.

use batterboard_core::geom::Point;
use batterboard_core::pipe::fitting;
use batterboard_core::session::Desk as Held;
use batterboard_core::shell::Shell;
use batterboard_core::site::Placement;
use batterboard_core::units::{Measure, show};
use batterboard_web::answers::cross;
use serde::Serialize;
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use super::desk::Desk;

/// One run of pipe, as a row.
#[derive(Debug, Serialize)]
struct RunRow<'a> {
    label: &'a str,
    /// The fitting's place in the settings; none for the shell's own drain.
    fitting: Option<usize>,
    length: String,
    straps: usize,
    bends: u32,
    loss: String,
    speed: String,
}

#[wasm_bindgen]
impl Desk {
    /// The place of a fitting, shell frame, from a place on the plan (site metres): in the wall the
    /// nearest place of the water's edge. `[x, y]`; empty while no shell is placed.
    pub fn fitting_from_site(&self, x: f64, y: f64, in_wall: bool) -> Vec<f64> {
        let at = |(shell, placed): (&Shell, &Placement)| {
            fitting::from_site(shell, &placed.pose(), Point::new(x, y), in_wall)
        };
        self.placed().map(at).map_or(Vec::new(), |p| vec![p.x, p.y])
    }

    /// How far a place (shell frame) lies along the water's edge, metres, counter-clockwise from
    /// the deep end.
    pub fn along_edge(&self, x: f64, y: f64) -> f64 {
        let along = |(shell, _): (&Shell, _)| fitting::along(shell, Point::new(x, y));
        self.placed().map_or(0.0, along)
    }

    /// The place so far along the water's edge, `[x, y]`, shell frame.
    pub fn at_along_edge(&self, along: f64) -> Vec<f64> {
        let at = |(shell, _): (&Shell, _)| fitting::at_along(shell, along);
        self.placed().map(at).map_or(Vec::new(), |p| vec![p.x, p.y])
    }

    /// Every run of pipe.
    #[wasm_bindgen(unchecked_return_type = "RunRow[]")]
    pub fn runs(&self) -> Result<JsValue, JsValue> {
        let Some(desk) = &self.desk else {
            return cross(&Vec::<RunRow<'_>>::new());
        };
        let system = desk.site().site().display;
        let shown = |measure, value| show(measure, value, system).text;
        let rows = desk.estimate().pipes.runs.iter().map(|run| RunRow {
            label: &run.label,
            fitting: run.fitting,
            length: shown(Measure::LongLength, run.length()),
            straps: run.straps.len(),
            bends: run.bends,
            loss: shown(Measure::LongLength, run.loss),
            speed: shown(Measure::Speed, run.speed),
        });
        cross(&rows.collect::<Vec<_>>())
    }
}

impl Desk {
    fn placed(&self) -> Option<(&Shell, &Placement)> {
        let (shell, placed) = self.desk.as_ref().map(Held::site)?.placed_shell()?;
        Some((shell.as_ref(), placed))
    }
}
