//! The always-visible list: what the page shows beside the plan, as ready text.
//!
//! Light enough to be made anew on every frame of a drag. Quantities have a list of their own
//! (see [`super::Tally`]).

use serde::Serialize;

use super::Session;
use crate::clearance::Clearance;
use crate::finding::{Caveat, Finding, sort_by_severity};
use crate::geom::Point;
use crate::site::{Placement, ShellChoice};
use crate::units::{Measure, Shown, System, show};

/// Everything the page lists.
#[derive(Debug, Clone, PartialEq, Serialize)]
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
    /// Whether the shell fits, in a sentence.
    pub verdict: Verdict,
    /// Every clearance, least room first.
    pub clearances: Vec<ClearanceRow>,
    /// Everything worth knowing, the most severe first, as the report has it.
    pub findings: Vec<Finding>,
}

/// The shell as it stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlacedShell {
    /// What it is called.
    pub name: String,
    /// Where its length points, as shown.
    pub heading: Shown,
    /// Where its length points, radians clockwise from north.
    pub heading_value: f64,
    /// Elevation of the rim, as shown.
    pub coping: Shown,
    /// Elevation of the rim, metres.
    pub coping_value: f64,
    /// Its middle, site metres.
    pub at: Point,
    /// Whether left and right are exchanged.
    pub mirrored: bool,
}

/// Whether the shell may stand as far as the listed rules and the plan can tell.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Verdict {
    /// How many clearances fall short.
    pub short: usize,
    /// How often the work reaches over or through what no rule has to name.
    pub over: usize,
    /// The same in a sentence.
    pub text: String,
}

/// One clearance as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
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
    /// Whether it falls short.
    pub short: bool,
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
            verdict: verdict(session, system),
            clearances: clearance_rows(&analysis.clearances, system),
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

/// The verdict names the clearance with the least room: the one that binds. Where all hold
/// but the work reaches where it must not, it says that instead.
fn verdict(session: &Session, system: System) -> Verdict {
    let placed = session.site().site().placement.is_some();
    let analysis = session.analysis();
    let clearances = &analysis.clearances;
    let short = analysis.shortfalls();
    let over = analysis.overreaches.len();
    let mut text = match (placed, clearances.first(), analysis.overreaches.first()) {
        (false, ..) => "Choose a shell to see how much room it has.".to_owned(),
        (true, _, Some(overreach)) if short == 0 => overreach.message.clone(),
        (true, None, _) => {
            "No clearance rule applies yet: add the rules of the local authority.".to_owned()
        }
        (true, Some(least), _) => {
            let room = show(Measure::Length, least.room.abs(), system).text;
            match short {
                0 => format!(
                    "Every listed clearance holds. Least room {room}, {}.",
                    least.target
                ),
                1 => format!("One clearance falls short: {} by {room}.", least.target),
                n => format!(
                    "{n} clearances fall short, {} the most: by {room}.",
                    least.target
                ),
            }
        }
    };
    if let Some(poor) = session.site().lot().lot.poor_closure() {
        text.push(' ');
        text.push_str(&poor);
    }
    Verdict { short, over, text }
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
            short: c.room < 0.0,
            source: c.source.clone(),
            caveats: words(&c.caveats),
        })
        .collect()
}

fn words(caveats: &[Caveat]) -> Vec<&'static str> {
    caveats.iter().map(|c| c.words()).collect()
}
