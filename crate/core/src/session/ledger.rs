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
use crate::report::{ShareFigures, VerdictFigures};
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
    /// What the shell has snapped to while it is moved or turned; where clear ground is shown and there
    /// is none, why.
    pub snap: Option<String>,
    /// Whether the shell may stand there, as far as anybody can tell.
    pub verdict: VerdictFigures,
    /// The clearances by their room, least first; kinds of room that none has are left out.
    pub clearances: Vec<ClearanceGroup>,
    /// How much of the ground is covered, where a rule limits it.
    pub shares: Vec<ShareFigures>,
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
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

    const ALL: [Self; 3] = [Self::Short, Self::Tight, Self::Ample];

    /// How many of a kind are listed before more are asked for: those that press on the placement
    /// for as long as anybody reads on, those with plenty of room a few.
    pub(super) const fn listed(self) -> usize {
        match self {
            Self::Short | Self::Tight => 48,
            Self::Ample => 12,
        }
    }

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

/// The clearances whose room is to be taken alike, the first of them as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ClearanceGroup {
    /// How their room is to be taken.
    pub margin: Margin,
    /// How many there are.
    pub count: usize,
    /// The first of them, least room first, and the one that is opened: a large site has more than
    /// anybody reads.
    pub rows: Vec<ClearanceRow>,
}

/// Which clearances are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Listed {
    /// How many more rows each group has than at first.
    pub more: usize,
    /// The clearance that is opened, by its index in the analysis: it is listed wherever it stands.
    pub opened: Option<usize>,
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
    /// Who says so.
    pub source: String,
    /// How high above the rim it hangs, where the distance was measured aslant.
    pub above: Option<Shown>,
    /// Why it is weaker than it looks, in a few words each.
    pub caveats: Vec<&'static str>,
}

impl Ledger {
    /// The ledger of a session as it stands.
    pub fn of(session: &Session, listed: Listed) -> Self {
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
            snap: (session.snap().map(|it| it.reason.clone()))
                .or_else(|| session.why_nothing_is_clear()),
            verdict: VerdictFigures::of(&Verdict::of(session.site(), analysis), system),
            clearances: groups(&analysis.clearances, listed, system),
            shares: ShareFigures::all(session.site(), analysis, system),
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

/// `clearances`: least room first.
fn groups(clearances: &[Clearance], listed: Listed, system: System) -> Vec<ClearanceGroup> {
    let first = |margin: Margin| clearances.partition_point(|c| Margin::of(c.room) < margin);
    let bounds = |margin: Margin| {
        first(margin)..clearances.partition_point(|c| Margin::of(c.room) <= margin)
    };
    let row_of = |index: usize| Some(row(index, clearances.get(index)?, system));
    Margin::ALL
        .into_iter()
        .map(|margin| (margin, bounds(margin)))
        .filter(|(_, of_kind)| !of_kind.is_empty())
        .map(|(margin, of_kind)| {
            let first = margin
                .listed()
                .saturating_add(listed.more)
                .min(of_kind.len());
            let (first, others) = (
                of_kind.start..of_kind.start + first,
                of_kind.start + first..of_kind.end,
            );
            let opened = listed.opened.filter(|index| others.contains(index));
            ClearanceGroup {
                margin,
                count: of_kind.len(),
                rows: first.chain(opened).filter_map(row_of).collect(),
            }
        })
        .collect()
}

/// Every clearance as listed, least room first.
pub fn clearance_rows(session: &Session) -> Vec<ClearanceRow> {
    let system = session.site().site().display;
    let all = session.analysis().clearances.iter().enumerate();
    all.map(|(index, it)| row(index, it, system)).collect()
}

fn row(index: usize, c: &Clearance, system: System) -> ClearanceRow {
    let length = |metres| show(Measure::Length, metres, system);
    ClearanceRow {
        index,
        name: c.name.clone(),
        from: c.from.words(),
        target: c.target.clone(),
        distance: length(c.distance),
        required: length(c.required),
        room: length(c.room),
        source: c.source.clone(),
        above: c.above.map(length),
        caveats: words(&c.caveats),
    }
}

fn words(caveats: &[Caveat]) -> Vec<&'static str> {
    caveats.iter().map(|c| c.words()).collect()
}
