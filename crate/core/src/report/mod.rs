//! The report on a site: every figure and every finding, as data, as JSON and as plain text.
//!
//! A [`Report`] is made from a site and its [`Analysis`], and holds nothing of its own. The
//! same site gives the same bytes on every machine: numbers are SI values as the shortest
//! text that reads back, and display texts made by `units` alone. Nothing in it depends on
//! the clock, the locale or the path of a file.

mod access;
mod access_text;
mod assumed;
pub mod book;
mod by_hand;
mod comparison;
pub mod csv;
mod deed;
mod doubted;
mod edge;
mod figure;
mod grading;
mod leveling;
mod lot;
mod photographs;
mod picture;
mod pipes;
mod placed;
mod quantities;
mod read_back;
mod required;
mod staked;
mod stakeout;
mod stakes_list;
mod stakes_text;
mod sun;
mod sun_text;
mod table;
mod text;
mod uplift;
mod verdict;
mod workings;
mod yard;

use serde::Serialize;

use book::BookFigures;

pub use access::{
    AccessFigures, BendFigures, CraneFigures, PassageFigures, PassedFigures, RemovalFigures,
    RouteFigures, WireFigures,
};
pub use assumed::AssumedFigures;
pub use comparison::{ColumnFigures, ComparisonFigures, RowFigures};
pub use deed::{CourseFigures, CurveFigures, DeedFigures, ReadOver};
pub use doubted::{
    CauseFigures, CostFigures, GroupCost, PricedFigures, RangeFigures, UncountedFigures,
};
pub use edge::EdgeFigures;
pub use figure::Figure;
pub use grading::{AgainstFigures, GradingFigures, HeightFigures, PileFigures};
pub use leveling::{BalanceFigures, ChangeFigures, NudgeFigures, WayFigures};
pub use lot::{BasisFigures, Gap, LotFigures, MonumentFigures, SideFigures};
pub use photographs::PhotographFigures;
pub use picture::PictureFigures;
pub use pipes::RunFigures;
pub use placed::{DepthFigures, ShellFigures};
pub use read_back::{
    BottomFigures, BottomPlace, FoundFigures, ReadingFigures, RimFigures, RimPlace, TapedFigures,
};
pub use required::{BarrierFigures, CoveredFigures, OpenFigures, ShareFigures};
pub use stakeout::{
    BaseFigures, DiagonalFigures, LevelFigures, OffsetFigures, PairFigures, RodFigures,
    StakeFigures, StakeoutFigures, StationFigures, TieFigures,
};
pub use sun::{CastFigures, SampleFigures, ShadeFigures, ShaderFigures, SpellFigures, SunFigures};
pub use uplift::{UpliftAt, UpliftFigures};
pub use verdict::{VerdictFigures, VerdictNote};
pub use workings::{InputShown, Workings};
pub use yard::{FactFigures, FeatureFigures, OpeningFigures};

use crate::analysis::{Analysis, Verdict};
use crate::clearance::{Clearance, Subject};
use crate::finding::{Caveat, Finding, sort_by_severity};
use crate::geom::Point;
use crate::site::{CheckedSite, MeasuredFrom};
use crate::units::{Measure, System, show};

/// The `format` member of every report.
pub const FORMAT: &str = "batterboard-report";

/// The version of the report's form.
pub const VERSION: u32 = 1;

/// Everything there is to say about a site.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    /// Always `batterboard-report`.
    pub format: &'static str,
    /// Version of the form.
    pub version: u32,
    /// What the job is called.
    pub site: String,
    /// Anything worth saying about it.
    pub note: String,
    /// The units that `shown` is in; `other` is in the other ones.
    pub units: System,
    /// Whether the shell may stand there, as far as anybody can tell.
    pub verdict: VerdictFigures,
    /// How many clearances fall short.
    pub shortfalls: usize,
    /// Everything worth knowing: the most severe first, then what is about this placement, then
    /// what is true of every job.
    pub findings: Vec<Finding>,
    /// What elevations count from, in words, once a benchmark is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub datum: Option<String>,
    /// The lot.
    pub lot: LotFigures,
    /// What stands on and under it.
    pub yard: Vec<FeatureFigures>,
    /// The picture under the plan.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub picture: Option<PictureFigures>,
    /// The photographs of the yard, without what they show.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub photographs: Vec<PhotographFigures>,
    /// The shell and where it stands, once placed.
    pub shell: Option<ShellFigures>,
    /// Every clearance, least room first.
    pub clearances: Vec<ClearanceFigures>,
    /// How much of the ground is covered, where a rule limits it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub shares: Vec<ShareFigures>,
    /// The barrier round the water, where a rule for one is entered.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub barrier: Option<BarrierFigures>,
    /// What stays assumed.
    pub assumed: Vec<AssumedFigures>,
    /// The finished ground, once a shell is placed.
    pub grading: Option<GradingFigures>,
    /// The pile of spoil, where any is piled.
    pub pile: Option<PileFigures>,
    /// Every quantity with its working, in order.
    pub quantities: Vec<Workings>,
    /// What groundwater does to the shell.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub uplift: Option<UpliftFigures>,
    /// What they cost, once a rate is told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cost: Option<CostFigures>,
    /// Every run of pipe.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pipes: Vec<RunFigures>,
    /// Stakes, ties, levels and what was read back, once somebody began with it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stakeout: Option<StakeoutFigures>,
    /// What the job has from the company's book, if anything.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub book: Option<BookFigures>,
}

/// The part of a report that is the takeoff.
#[derive(Serialize)]
struct TakeoffFigures<'a> {
    site: &'a str,
    units: System,
    findings: &'a [Finding],
    quantities: &'a [Workings],
    cost: Option<&'a CostFigures>,
}

/// One clearance in figures.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClearanceFigures {
    /// Index of the rule in the site file.
    pub rule: usize,
    /// The rule's name.
    pub name: String,
    /// Where on the work it was measured from.
    pub from: MeasuredFrom,
    /// What it was measured to, as the plan calls it.
    pub target: String,
    /// The same by index: a side of the lot or a feature.
    pub subject: Subject,
    /// Measured distance; negative when the figures overlap.
    pub distance: Figure,
    /// How high above the rim it hangs, where the distance was measured aslant.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub above: Option<Figure>,
    /// Required distance.
    pub required: Figure,
    /// Distance less required.
    pub room: Figure,
    /// Whether it falls short.
    pub falls_short: bool,
    /// The point on the work, site meters.
    pub from_point: Point,
    /// The point on the target, site meters.
    pub to_point: Point,
    /// Who says so.
    pub source: String,
    /// Why it is weaker than it looks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub caveats: Vec<Caveat>,
}

impl Report {
    /// The report on a site in the given units.
    pub fn new(site: &CheckedSite, analysis: &Analysis, system: System) -> Self {
        let clearance = |c| ClearanceFigures::of(c, system);
        let quantity = |line| Workings::of(line, system);
        let (grading, pile) = grading::of(site, analysis, system);
        Self {
            format: FORMAT,
            version: VERSION,
            site: site.site().name.clone(),
            note: site.site().note.clone(),
            units: system,
            verdict: VerdictFigures::of(&Verdict::of(site, analysis), system),
            shortfalls: analysis.shortfalls(),
            findings: sort_by_severity(&analysis.findings),
            yard: yard::of(site, system),
            datum: datum(site, system),
            lot: LotFigures::of(&site.lot().lot, &site.site().lot, system),
            picture: (site.site().picture.as_deref()).map(|p| PictureFigures::of(p, system)),
            photographs: PhotographFigures::all(site.site(), system),
            shell: site
                .placed_shell()
                .map(|(shell, placement)| ShellFigures::of(shell, placement, system)),
            clearances: analysis.clearances.iter().map(clearance).collect(),
            shares: ShareFigures::all(site, analysis, system),
            barrier: BarrierFigures::of(site, analysis, system),
            assumed: AssumedFigures::all(site, analysis, system),
            grading,
            pile,
            quantities: analysis.takeoff.iter().map(quantity).collect(),
            uplift: (analysis.uplift.as_ref()).map(|uplift| UpliftFigures::of(uplift, system)),
            cost: CostFigures::of(analysis, site.site(), system),
            pipes: (analysis.pipes.runs.iter())
                .map(|run| RunFigures::of(run, system))
                .collect(),
            stakeout: (site.site().stakeout.as_ref())
                .and_then(|_| StakeoutFigures::of(site, analysis, system)),
            book: BookFigures::of(site.site()),
        }
    }

    /// The report as JSON text.
    pub fn to_json(&self) -> String {
        crate::json::to_string(self)
    }

    /// The report as plain text, for a terminal or a printer of fixed width.
    pub fn to_text(&self) -> String {
        text::of(self)
    }

    /// The quantities and their cost alone, as JSON text.
    pub fn to_takeoff_json(&self) -> String {
        crate::json::to_string(&TakeoffFigures {
            site: &self.site,
            units: self.units,
            findings: &self.findings,
            quantities: &self.quantities,
            cost: self.cost.as_ref(),
        })
    }

    /// The quantities and their cost alone, as plain text.
    pub fn to_takeoff_text(&self) -> String {
        text::takeoff(self)
    }

    /// Verdict, clearances and findings alone, as plain text.
    pub fn to_check_text(&self) -> String {
        text::check(self)
    }
}

/// What elevations count from.
fn datum(site: &CheckedSite, system: System) -> Option<String> {
    let mark = site.site().benchmark.as_ref()?;
    let other = match system {
        System::Feet => System::Metres,
        System::Metres => System::Feet,
    };
    let elevation = |system| show(Measure::Elevation, mark.elevation, system).text;
    let basis = if mark.assumed {
        "an assumed datum"
    } else {
        "a datum that was given with it"
    };
    Some(format!(
        "{}, {} ({}), {basis}",
        mark.label(),
        elevation(system),
        elevation(other)
    ))
}

impl ClearanceFigures {
    fn of(c: &Clearance, system: System) -> Self {
        let length = |metres| Figure::new(Measure::Length, metres, system);
        Self {
            rule: c.rule,
            name: c.name.clone(),
            from: c.from,
            target: c.target.clone(),
            subject: c.subject,
            distance: length(c.distance),
            above: c.above.map(length),
            required: length(c.required),
            room: length(c.room),
            falls_short: c.falls_short(),
            from_point: c.from_point,
            to_point: c.to_point,
            source: c.source.clone(),
            caveats: c.caveats.clone(),
        }
    }
}
