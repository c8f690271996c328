//! The ground as it is typed and pasted: corner heights, an even fall, tables of spots and of
//! breaklines.

use batterboard_core::finding::Finding;
use batterboard_core::ground::GroundRecord;
use batterboard_core::ground::quick::{self, Corner, Towards};
use batterboard_core::ground::table::{self, Heights};
use batterboard_core::units::{Measure, show};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::js::{Answer, list_to_js, made_by_page, to_js};
use crate::planner::Planner;

/// Ground made from figures, or why not.
#[derive(Debug, Default, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct GroundMade {
    ground: Option<GroundRecord>,
    words: String,
    findings: Vec<Finding>,
}

impl GroundMade {
    fn not(findings: Vec<Finding>) -> Self {
        Self {
            findings,
            ..Self::default()
        }
    }
}

/// A spot: east, north, elevation, meters.
#[derive(Debug, Clone, Copy, Serialize, Deserialize, Tsify)]
pub struct SpotRow([f64; 3]);

/// A breakline: its spots in order.
#[derive(Debug, Clone, Serialize, Deserialize, Tsify)]
pub struct SpotRows(Vec<SpotRow>);

impl SpotRows {
    fn of(spots: Vec<[f64; 3]>) -> Self {
        Self(spots.into_iter().map(SpotRow).collect())
    }

    fn plain(self) -> Vec<[f64; 3]> {
        self.0.into_iter().map(|row| row.0).collect()
    }
}

fn plain(lines: Vec<Ts<SpotRows>>) -> Result<Vec<Vec<[f64; 3]>>, JsValue> {
    let lines = lines.into_iter();
    lines.map(|line| Ok(made_by_page(line)?.plain())).collect()
}

/// Spots read from a table; findings are placed at "line 3".
#[derive(Debug, Serialize, Tsify)]
pub struct SpotReading {
    spots: SpotRows,
    findings: Vec<Finding>,
}

/// Breaklines read from a table; findings are placed at "line 3".
#[derive(Debug, Serialize, Tsify)]
pub struct BreaklineReading {
    lines: Vec<SpotRows>,
    findings: Vec<Finding>,
}

#[wasm_bindgen]
impl Planner {
    /// The lot's corners, in the order of its courses.
    #[wasm_bindgen(unchecked_return_type = "LotCorner[]")]
    pub fn lot_corners(&self) -> Result<Vec<Ts<Corner>>, JsValue> {
        let site = self.session.site();
        list_to_js(&quick::corners(&site.lot().lot, &site.site().ground))
    }

    /// The ground with these elevations at the lot's corners: meters, or not a number where it is
    /// not known.
    pub fn ground_by_corners(&self, elevations: &[f64]) -> Answer<GroundMade> {
        let known = |z: &f64| Some(*z).filter(|z| z.is_finite());
        let elevations: Vec<Option<f64>> = elevations.iter().map(known).collect();
        let site = self.session.site();
        let made = quick::by_corners(&site.lot().lot, &elevations, &site.site().ground);
        to_js(&made.map_or_else(GroundMade::not, |ground| GroundMade {
            ground: Some(ground),
            ..GroundMade::default()
        }))
    }

    /// An even fall: `drop` meters from `elevation`, toward the rear, a side or a bearing.
    pub fn ground_by_fall(
        &self,
        elevation: f64,
        drop: f64,
        towards: Ts<Towards>,
    ) -> Answer<GroundMade> {
        let system = self.display();
        let lot = &self.session.site().lot().lot;
        let made = quick::by_fall(lot, elevation, drop, made_by_page(towards)?);
        to_js(&made.map_or_else(GroundMade::not, |fall| GroundMade {
            words: format!(
                "{} over {}, {}",
                show(Measure::Length, drop, system).text,
                show(Measure::LongLength, fall.run, system).text,
                fall.words
            ),
            ground: Some(fall.ground),
            findings: Vec::new(),
        }))
    }

    /// Reads a table of spots. With `benchmark` and `backsight` (meters) its last column holds rod
    /// readings. `known`: the spots it may have been written from.
    pub fn read_spots(
        &self,
        text: &str,
        benchmark: Option<f64>,
        backsight: Option<f64>,
        known: Ts<SpotRows>,
    ) -> Answer<SpotReading> {
        let known = made_by_page(known)?.plain();
        let how = heights(benchmark, backsight);
        let (spots, findings) = table::read_spots(text, self.display(), how, &known);
        let spots = SpotRows::of(spots);
        to_js(&SpotReading { spots, findings })
    }

    /// Reads a table of breaklines, an empty line or a name between two. `known`: those it may
    /// have been written from.
    pub fn read_breaklines(
        &self,
        text: &str,
        known: Vec<Ts<SpotRows>>,
    ) -> Answer<BreaklineReading> {
        let known = plain(known)?;
        let heights = Heights::Elevations;
        let (lines, findings) = table::read_breaklines(text, self.display(), heights, &known);
        let lines = lines.into_iter().map(SpotRows::of).collect();
        to_js(&BreaklineReading { lines, findings })
    }

    /// Writes spots and breaklines as tables that can be read again.
    pub fn write_breaklines(&self, lines: Vec<Ts<SpotRows>>) -> Result<String, JsValue> {
        Ok(table::write_breaklines(&plain(lines)?, self.display()))
    }
}

/// How the last column is read: elevations, or rod readings below the line of sight.
fn heights(benchmark: Option<f64>, backsight: Option<f64>) -> Heights {
    match (benchmark, backsight) {
        (Some(mark), Some(reading)) => Heights::Rod {
            instrument: table::height_of_instrument(mark, reading),
        },
        _ => Heights::Elevations,
    }
}
