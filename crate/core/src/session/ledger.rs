//! The always-visible list: what the page shows beside the plan, as ready text.
//!
//! Light enough to be made anew on every frame of a drag. Quantities have a list of their own
//! (see [`super::Tally`]).

use serde::Serialize;

use super::Session;
use super::tapes::{self, TapeRow};
use crate::analysis::Verdict;
use crate::clearance::Clearance;
use crate::finding::{Caveat, Finding, sort_by_severity};
use crate::geom::Point;
use crate::report::VerdictFigures;
use crate::site::{Placement, ShellChoice};
use crate::units::{Measure, Shown, System, show};

/// Everything the page lists.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct Ledger {
    /// Counts every change of the site.
    pub revision: u64,
    /// What the job is called.
    pub name: String,
    /// Anything worth saying about it.
    pub note: String,
    /// The units everything here is shown in.
    pub display: System,
    /// The step that undo would take back.
    pub undo: Option<String>,
    /// The step that redo would carry out again.
    pub redo: Option<String>,
    /// The shell, once placed.
    pub shell: Option<PlacedShell>,
    /// What the shell has snapped to while it is turned.
    pub snap: Option<String>,
    /// Whether the shell may stand there, as far as anybody can tell.
    pub verdict: VerdictFigures,
    /// Every clearance, least room first.
    pub clearances: Vec<ClearanceRow>,
    /// Every tape that is kept, in order.
    pub tapes: Vec<TapeRow>,
    /// Everything worth knowing, in the report's order.
    pub findings: Vec<Finding>,
}

/// The shell as it stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct PlacedShell {
    /// What it is called.
    pub name: String,
    /// Where its length points, as shown.
    pub heading: Shown,
    /// Where its length points, radians clockwise from north.
    pub heading_value: f64,
    /// Elevation of the rim, as shown.
    pub coping: Shown,
    /// Elevation of the rim, meters.
    pub coping_value: f64,
    /// Its middle, site meters.
    pub at: Point,
    /// Whether left and right are exchanged.
    pub mirrored: bool,
}

/// How the room of a clearance is to be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Margin {
    /// There is less than the rule asks for.
    Short,
    /// There is little more than the rule asks for: a careless stake or bucket may use it up.
    Tight,
    /// There is plenty.
    Ample,
}

impl Margin {
    /// Room from which a clearance is ample: one foot, meters (common practice, no source).
    const AMPLE: f64 = 0.3048;

    /// `room`: distance less the distance required, meters.
    fn of(room: f64) -> Self {
        if room < 0.0 {
            Self::Short
        } else if room < Self::AMPLE {
            Self::Tight
        } else {
            Self::Ample
        }
    }
}

/// One clearance as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ClearanceRow {
    /// Its index in the analysis.
    pub index: usize,
    /// The rule's name.
    pub name: String,
    /// What it is measured from.
    pub from: &'static str,
    /// What it is measured to.
    pub target: String,
    /// The distance measured.
    pub distance: Shown,
    /// The distance required.
    pub required: Shown,
    /// Distance less required.
    pub room: Shown,
    /// How its room is to be taken.
    pub margin: Margin,
    /// Who says so.
    pub source: String,
    /// Why it is weaker than it looks, in a few words each.
    pub caveats: Vec<&'static str>,
}

impl Ledger {
    /// The ledger of a session as it stands.
    pub fn of(session: &Session) -> Self {
        let site = session.site().site();
        let analysis = session.analysis();
        let system = site.display;
        Self {
            revision: session.revision(),
            name: site.name.clone(),
            note: site.note.clone(),
            display: system,
            undo: session.undo_label().map(str::to_owned),
            redo: session.redo_label().map(str::to_owned),
            shell: site.placement.as_ref().map(|p| placed(p, system)),
            snap: session.snap().map(|s| s.reason.clone()),
            verdict: VerdictFigures::of(&Verdict::of(session.site(), analysis), system),
            clearances: clearance_rows(&analysis.clearances, system),
            tapes: tapes::rows(session.site(), analysis),
            findings: sort_by_severity(&analysis.findings),
        }
    }
}

fn placed(placement: &Placement, system: System) -> PlacedShell {
    PlacedShell {
        name: match placement.shell.as_ref() {
            ShellChoice::Catalogue(name) => name.clone(),
            ShellChoice::Own(record) => record.name.clone(),
        },
        heading: show(Measure::Heading, placement.heading, system),
        heading_value: placement.heading,
        coping: show(Measure::Elevation, placement.coping_elevation, system),
        coping_value: placement.coping_elevation,
        at: placement.at,
        mirrored: placement.mirrored,
    }
}

fn clearance_rows(clearances: &[Clearance], system: System) -> Vec<ClearanceRow> {
    let length = |metres| show(Measure::Length, metres, system);
    clearances
        .iter()
        .enumerate()
        .map(|(index, c)| ClearanceRow {
            index,
            name: c.name.clone(),
            from: c.from.words(),
            target: c.target.clone(),
            distance: length(c.distance),
            required: length(c.required),
            room: length(c.room),
            margin: Margin::of(c.room),
            source: c.source.clone(),
            caveats: words(&c.caveats),
        })
        .collect()
}

fn words(caveats: &[Caveat]) -> Vec<&'static str> {
    caveats.iter().map(|c| c.words()).collect()
}
