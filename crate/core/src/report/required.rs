//! Shares of ground and the barrier: what rules ask for beyond distances, in figures.

use serde::Serialize;

use super::Figure;
use super::table::{Lean, columns, heading, hung, pairs};
use crate::analysis::Analysis;
use crate::geom::Point;
use crate::site::{CheckedSite, Cover};
use crate::units::{Measure, System};

/// The share of some ground that a rule limits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct ShareFigures {
    /// The rule's name.
    pub name: String,
    /// Of which ground, in words.
    pub of: &'static str,
    /// What counts as covered, in words.
    pub counts: String,
    /// The greatest share.
    pub most: Figure,
    /// Who says so.
    pub source: String,
    /// What is covered; none where nobody can tell how far the ground reaches.
    pub covered: Option<CoveredFigures>,
}

/// How much of some ground is covered.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct CoveredFigures {
    /// The ground.
    pub ground: Figure,
    /// The share covered before the work.
    pub before: Figure,
    /// The share covered after it.
    pub after: Figure,
    /// How much more may be covered; negative where too much is.
    pub room: Figure,
    /// Whether too much is.
    pub exceeded: bool,
}

/// The barrier about the water.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BarrierFigures {
    /// Whether it is closed.
    pub closed: bool,
    /// Whether it goes round the water at all.
    pub goes_round: bool,
    /// Where it is open, the widest first.
    pub openings: Vec<OpenFigures>,
    /// What makes it, as the plan calls it.
    pub parts: Vec<String>,
    /// Length of the fences and walls in it.
    pub length: Figure,
    /// The gates in it.
    pub gates: Vec<String>,
    /// The doors and windows in walls of buildings that belong to it.
    pub doors: Vec<String>,
    /// Who says what it has to be.
    pub source: String,
}

/// A place where the barrier is open.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpenFigures {
    /// How wide.
    pub width: Figure,
    /// From where to where, site meters.
    pub ends: [Point; 2],
}

impl ShareFigures {
    /// Every share of a site, in the order of its rules.
    pub fn all(site: &CheckedSite, analysis: &Analysis, system: System) -> Vec<Self> {
        let rules = site.site().shares.iter().zip(&analysis.shares);
        let share = |value| Figure::new(Measure::Fraction, value, system);
        let area = |value| Figure::new(Measure::Area, value, system);
        rules
            .map(|(rule, it)| Self {
                name: rule.name.clone(),
                of: rule.of.words(),
                counts: listed(&rule.counts),
                most: share(rule.most),
                source: rule.source.clone(),
                covered: it.map(|it| CoveredFigures {
                    ground: area(it.ground),
                    before: share(it.share_before()),
                    after: share(it.share_after()),
                    room: area(it.room(rule.most)),
                    exceeded: it.exceeds(rule.most),
                }),
            })
            .collect()
    }
}

fn names(names: &[String]) -> String {
    match names {
        [] => "none".to_owned(),
        names => names.join(", "),
    }
}

fn listed(counts: &[Cover]) -> String {
    let words: Vec<&str> = counts.iter().map(|it| it.words()).collect();
    words.join(", ")
}

impl BarrierFigures {
    /// The barrier of a site, where a rule for one is entered.
    pub fn of(site: &CheckedSite, analysis: &Analysis, system: System) -> Option<Self> {
        let (rule, barrier) = site
            .site()
            .barrier
            .as_ref()
            .zip(analysis.barrier.as_ref())?;
        let length = |value| Figure::new(Measure::Length, value, system);
        let parts = barrier
            .parts
            .iter()
            .filter_map(|i| site.site().features.get(*i));
        let openings = barrier.openings.iter();
        Some(Self {
            closed: barrier.is_closed(),
            goes_round: barrier.goes_round,
            openings: openings
                .map(|it| OpenFigures {
                    width: length(it.width),
                    ends: it.ends,
                })
                .collect(),
            parts: parts.map(|it| it.label().to_owned()).collect(),
            length: length(barrier.length),
            gates: barrier.gates.clone(),
            doors: barrier.doors.clone(),
            source: rule.source.clone(),
        })
    }

    /// What there is to say of it, by what each is called.
    pub fn rows(&self) -> [(&'static str, String); 7] {
        let side = (!self.closed && !self.goes_round).then(|| "a whole side".to_owned());
        let openings = self.openings.iter().map(|it| it.width.shown.text.clone());
        let open: Vec<String> = openings.chain(side).collect();
        let made_of = if self.closed {
            "Made of"
        } else {
            "What counts"
        };
        [
            (
                "Closed about the water",
                if self.closed { "yes" } else { "no" }.to_owned(),
            ),
            ("Open places", names(&open)),
            (made_of, names(&self.parts)),
            ("Fences and walls", self.length.shown.text.clone()),
            ("Gates", names(&self.gates)),
            ("Doors and windows", names(&self.doors)),
            ("Required by", self.source.clone()),
        ]
    }
}

/// Both as text.
pub(super) fn text(shares: &[ShareFigures], barrier: Option<&BarrierFigures>, out: &mut String) {
    if !shares.is_empty() {
        heading("Covered ground", out);
        let head = ["Rule", "Of", "Before", "After", "At most", "Room"];
        let mut rows = vec![head.map(str::to_owned).to_vec()];
        rows.extend(shares.iter().map(|it| {
            let figure = |pick: fn(&CoveredFigures) -> &Figure| {
                it.covered
                    .as_ref()
                    .map_or_else(|| "unknown".to_owned(), |it| pick(it).shown.text.clone())
            };
            vec![
                it.name.clone(),
                it.of.to_owned(),
                figure(|it| &it.before),
                figure(|it| &it.after),
                it.most.shown.text.clone(),
                figure(|it| &it.room),
            ]
        }));
        let leans = [
            Lean::Left,
            Lean::Left,
            Lean::Right,
            Lean::Right,
            Lean::Right,
            Lean::Right,
        ];
        columns(2, &leans, &rows, out);
        for it in shares {
            hung(
                "  - ",
                &format!("{}: counts {}. {}", it.name, it.counts, it.source),
                out,
            );
        }
    }
    if let Some(it) = barrier {
        heading("Barrier round the water", out);
        pairs(&it.rows(), out);
    }
}
