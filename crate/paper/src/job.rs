//! What a sheet is made from: a site with everything that follows from it, and what was asked for.

use core::cell::{OnceCell, RefCell};
use std::sync::Arc;

use batterboard_core::analysis::sensitivity::Sensitivity;
use batterboard_core::analysis::{self, Analysis, Cache, Detail, Scenario};
use batterboard_core::drawing::Layer;
use batterboard_core::exchange::Opened;
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::report::{Report, StakeoutFigures};
use batterboard_core::section::{Edges, Section};
use batterboard_core::site::book::BookContent;
use batterboard_core::site::{CheckedSite, FeatureKind, SectionLine, Site};
use batterboard_core::units::System;
use serde::{Deserialize, Serialize};

use crate::revision;
use crate::scale::{Lie, Paper, Scale};
use crate::words::Language;

/// A kind of sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum SheetKind {
    /// For the authority: the plan to scale, clearances, coverage, courses.
    Permit,
    /// For the foreman: stakes, ties, levels, sections, order of work.
    Dig,
    /// For the estimator: quantities by supplier with low and high, and their working.
    Takeoff,
    /// For the homeowner: the plan in color and the section.
    Home,
    /// The readings of the yard: as dug and as set.
    Record,
    /// Everything there is to say.
    Report,
}

impl SheetKind {
    /// Every kind.
    pub const ALL: [Self; 6] = [
        Self::Permit,
        Self::Dig,
        Self::Takeoff,
        Self::Home,
        Self::Record,
        Self::Report,
    ];

    /// What files and the command line call it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Permit => "permit",
            Self::Dig => "dig",
            Self::Takeoff => "takeoff",
            Self::Home => "home",
            Self::Record => "record",
            Self::Report => "report",
        }
    }

    /// What stands in its title block.
    pub const fn title(self, language: Language) -> &'static str {
        match self {
            Self::Permit => language.say("Site plan for permit", "Plano del sitio"),
            Self::Dig => language.say("Dig sheet", "Hoja de excavación"),
            Self::Takeoff => language.say("Takeoff", "Cantidades"),
            Self::Home => language.say("Your pool", "Su piscina"),
            Self::Record => language.say("Record: as dug, as set", "Registro: excavado y colocado"),
            Self::Report => language.say("Report", "Informe"),
        }
    }

    /// Whether it comes in a language.
    pub const fn speaks(self, language: Language) -> bool {
        match language {
            Language::English => true,
            Language::Spanish => matches!(self, Self::Dig | Self::Home | Self::Record),
        }
    }
}

/// A part of the plan that can be left off a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum PlanPart {
    /// Contours, spots, breaklines, benchmark.
    Ground,
    /// Setback lines.
    Setbacks,
    /// Buried and overhead lines, septic system, well.
    Utilities,
    /// Trees with their rings.
    Trees,
    /// The dig.
    Dig,
    /// Runs of pipe.
    Pipe,
    /// Dimensions of clearances.
    Clearances,
}

impl PlanPart {
    /// Every part.
    pub const ALL: [Self; 7] = [
        Self::Ground,
        Self::Setbacks,
        Self::Utilities,
        Self::Trees,
        Self::Dig,
        Self::Pipe,
        Self::Clearances,
    ];

    /// What files and the command line call it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ground => "ground",
            Self::Setbacks => "setbacks",
            Self::Utilities => "utilities",
            Self::Trees => "trees",
            Self::Dig => "dig",
            Self::Pipe => "pipe",
            Self::Clearances => "clearances",
        }
    }

    /// Whether a layer belongs to it.
    pub fn has(self, layer: Layer) -> bool {
        use FeatureKind as F;
        match self {
            Self::Ground => matches!(
                layer,
                Layer::Spot
                    | Layer::Contour { .. }
                    | Layer::Breakline
                    | Layer::UnknownGround
                    | Layer::Benchmark
            ),
            Self::Setbacks => layer == Layer::Setback,
            Self::Utilities => matches!(
                layer,
                Layer::Buried(_)
                    | Layer::Mark(_)
                    | Layer::OverheadMark
                    | Layer::Feature(
                        F::BuriedLine | F::OverheadLine | F::SepticField | F::SepticTank | F::Well
                    )
                    | Layer::Hatch(F::SepticField | F::SepticTank | F::Well)
            ),
            Self::Trees => matches!(
                layer,
                Layer::Trunk | Layer::Protection | Layer::Feature(F::Tree) | Layer::Hatch(F::Tree)
            ),
            Self::Dig => matches!(
                layer,
                Layer::Dig
                    | Layer::DigEdge
                    | Layer::Hachure
                    | Layer::OverDig
                    | Layer::Bank
                    | Layer::Pile
            ),
            Self::Pipe => matches!(
                layer,
                Layer::Pipe { .. } | Layer::Strap | Layer::Standpipe | Layer::Tie
            ),
            Self::Clearances => matches!(layer, Layer::Clearance | Layer::Shortfall),
        }
    }
}

/// What sheet is wanted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct SheetWish {
    /// Which.
    pub kind: SheetKind,
    /// On what paper; without it the one proposed for its kind.
    #[serde(default)]
    pub paper: Option<Paper>,
    /// Which way the paper lies; without it the way that shows the lot larger.
    #[serde(default)]
    pub lie: Option<Lie>,
    /// How large the plan is drawn; without it as large as it fits.
    #[serde(default)]
    pub scale: Option<Scale>,
    /// The point of the site at the middle of the plan, meters; without it that of the lot.
    #[serde(default)]
    pub centre: Option<Point>,
    /// The language of the sheet.
    #[serde(default)]
    pub language: Language,
    /// What is left off the plan.
    #[serde(default)]
    pub without: Vec<PlanPart>,
    /// Whether the homeowner's sheet tells the price.
    #[serde(default)]
    pub price: bool,
    /// The day of the sheet as it is to be written; without it a line to write on.
    #[serde(default)]
    pub day: Option<String>,
}

impl SheetWish {
    /// A kind of sheet, everything else as proposed.
    pub const fn new(kind: SheetKind) -> Self {
        Self {
            kind,
            paper: None,
            lie: None,
            scale: None,
            centre: None,
            language: Language::English,
            without: Vec::new(),
            price: false,
            day: None,
        }
    }

    /// The paper for a job.
    pub fn paper(&self, job: &Job) -> Paper {
        self.paper
            .unwrap_or_else(|| Paper::usual(self.kind, job.system))
    }
}

/// A site with everything that follows from it.
#[derive(Debug)]
pub struct Job {
    /// The site.
    pub site: CheckedSite,
    /// What follows from it, without low and high.
    pub analysis: Analysis,
    /// The same in figures; with low and high: [`Job::ranged`].
    pub report: Report,
    /// Stakes and levels, once a shell is placed.
    pub stakeout: Option<StakeoutFigures>,
    /// The text of its file, as it goes with every sheet: without photographs.
    pub file: String,
    /// The short hash of that text.
    pub revision: String,
    /// The units it is read in.
    pub system: System,
    /// The edges of the hole, level by level, once a section was asked for.
    edges: OnceCell<Option<Edges>>,
    /// The report with low and high of every quantity, once a sheet asked for them.
    ranged: OnceCell<Report>,
    /// What the analysis kept.
    cache: RefCell<Cache>,
}

impl Job {
    /// Works out everything of a site that was opened, to be read in its own units or in others.
    pub fn of(opened: Opened, system: Option<System>) -> Self {
        // Photographs stay in the job: they leave with its own file, and on the record sheet.
        let sent = Site {
            photographs: Arc::default(),
            ..Site::clone(opened.site.site())
        };
        let file = batterboard_core::exchange::save(&sent, &opened.unknown);
        let system = system.unwrap_or(opened.site.site().display);
        Self::with(read_in(opened.site, system), opened.findings, file)
    }

    fn with(site: CheckedSite, findings: Vec<Finding>, file: String) -> Self {
        let system = site.site().display;
        let mut cache = Cache::default();
        let mut analysis = analysis::run(&Scenario::of(&site), Detail::Complete, &mut cache);
        analysis.findings.extend(findings);
        let report = Report::new(&site, &analysis, system);
        let stakeout = StakeoutFigures::of(&site, &analysis, system);
        let revision = revision::of(&file);
        Self {
            site,
            analysis,
            report,
            stakeout,
            file,
            revision,
            system,
            edges: OnceCell::new(),
            ranged: OnceCell::new(),
            cache: RefCell::new(cache),
        }
    }

    /// The section along a line; none of a line without length. What is long in it is worked out once for all sections.
    pub fn section(&self, line: SectionLine) -> Option<Section> {
        let edges = self
            .edges
            .get_or_init(|| Edges::of(&self.site, &self.analysis, None));
        Section::along(&self.site, &self.analysis, edges.as_ref(), line)
    }

    /// The report with low and high of every quantity: each doubt is carried through the whole job, which takes as
    /// long as several jobs, so only what tells them asks.
    pub fn ranged(&self) -> &Report {
        self.ranged.get_or_init(|| {
            let mut cache = self.cache.take();
            let mut sensitivity = Sensitivity::new(&self.site, &self.analysis);
            while sensitivity.step(&self.site, &self.analysis, &mut cache) {}
            let mut analysis = self.analysis.clone();
            let ranges = sensitivity.ranges(&analysis);
            analysis.set_ranges(&ranges, &self.site.site().rates);
            Report::new(&self.site, &analysis, self.system)
        })
    }

    /// The usual scales of its units, with their names.
    pub fn scales(&self) -> Vec<(f64, String)> {
        let usual = Scale::usual(self.system).into_iter();
        usual.map(|it| (it.ratio, it.words(self.system))).collect()
    }

    /// What the job is called.
    pub fn name(&self) -> &str {
        &self.site.site().name
    }

    /// The lines of the firm and its own cautions, as the job took them from the company's book.
    pub fn firm(&self) -> (Vec<String>, Vec<String>) {
        let taken = self.site.site().taken.iter().rev();
        let title = taken.filter_map(|it| match &it.entry.content {
            BookContent::TitleBlock(title) => Some((title.lines.clone(), title.cautions.clone())),
            _ => None,
        });
        title.into_iter().next().unwrap_or_default()
    }
}

/// A site whose figures are read in a system of units: the plan letters its dimensions by it.
fn read_in(site: CheckedSite, system: System) -> CheckedSite {
    if site.site().display == system {
        return site;
    }
    let document = Site {
        display: system,
        ..Site::clone(site.site())
    };
    // What was sound stays sound in other units.
    CheckedSite::check(document, Some(&site)).unwrap_or(site)
}
