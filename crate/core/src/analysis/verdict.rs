//! The verdict: whether the shell may stand where it stands, as far as anybody has entered what
//! that depends on.
//!
//! Page, report and command line read this one judgment. Its variants go from the gravest down;
//! each is what is left when none above it applies. [`Verdict::Holds`] carries a [`Held`], which
//! nothing outside this module can make: it takes a shell, a lot that was entered, kinds for its
//! sides, confirmed rules to every one of them, and nothing at fault, falling short or left open.

use serde::Serialize;

use super::data::Analysis;
use crate::clearance::{self, Clearance, Subject};
use crate::finding::{Caveat, Entry, Finding, Severity, Topic};
use crate::lot::LineKind;
use crate::order::put_in_order;
use crate::site::starter;
use crate::site::{CheckedSite, MeasuredFrom, MeasuredTo, Rule};

/// The judgment of one placement.
#[derive(Debug, Clone, PartialEq)]
pub enum Verdict<'a> {
    /// No shell is placed.
    NotPlaced {
        /// What is open already.
        open: Vec<Open<'a>>,
    },
    /// The work reaches where it must not, whatever the rules say.
    Conflict {
        /// The gravest fault.
        first: &'a Finding,
        /// How many more there are.
        others: usize,
        /// What falls short besides.
        short: Option<Short<'a>>,
        /// What is open besides.
        open: Vec<Open<'a>>,
    },
    /// A clearance falls short of what its rule requires.
    Short {
        /// Which, and how many.
        short: Short<'a>,
        /// What is open besides.
        open: Vec<Open<'a>>,
    },
    /// Nothing measured falls short, but something that decides was not measured.
    Unchecked {
        /// What was not.
        gap: Gap,
        /// What is open besides.
        open: Vec<Open<'a>>,
    },
    /// Everything measured holds, but something stands against relying on it.
    Reserved {
        /// The clearance with the least room.
        least: &'a Clearance,
        /// What does; never empty.
        open: Vec<Open<'a>>,
    },
    /// Everything holds.
    Holds(Held<'a>),
}

/// The clearances that fall short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Short<'a> {
    /// The one that falls short the most.
    pub most: &'a Clearance,
    /// How many do.
    pub count: usize,
    /// Whether every one of them goes by a rule that nobody has confirmed.
    pub unconfirmed: bool,
}

/// Something that decides and was not measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Gap {
    /// There are no rules.
    NoRules,
    /// The lot is still the rectangle that a new job starts with.
    StarterLot,
    /// Sides without a kind, where rules name kinds.
    NoKinds {
        /// How many have none.
        sides: usize,
        /// How many sides there are.
        of: usize,
    },
    /// No rule found anything to measure to.
    NothingMeasured {
        /// How many rules there are.
        rules: usize,
    },
    /// Nothing was measured from the shell, its deck or its dig to any lot line.
    NoRuleToLines,
}

/// Something that keeps a placement from holding without reserve.
#[derive(Debug, Clone, PartialEq)]
pub enum Open<'a> {
    /// Something that decides and was not measured.
    Gap(Gap),
    /// A caution against this placement.
    Caution(&'a Finding),
    /// Rules that were measured and that nobody has confirmed for this lot.
    Unconfirmed {
        /// How many.
        rules: usize,
        /// How many were measured.
        of: usize,
    },
    /// Sides that no rule from the shell, its deck or its dig measures to, as the plan calls them.
    NoRuleTo(Vec<&'a str>),
    /// Rules that wait for a part of the work.
    Waiting {
        /// How many.
        rules: usize,
        /// Whether all of them wait for the equipment pad.
        equipment: bool,
    },
    /// The lot closes worse than was asked, in a sentence.
    PoorClosure(String),
    /// Clearances that rest on ground nobody has measured.
    UnknownGround {
        /// How many.
        clearances: usize,
    },
}

/// That everything holds. Only [`Verdict::of`] makes one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held<'a> {
    least: &'a Clearance,
}

impl<'a> Held<'a> {
    /// The clearance with the least room.
    pub fn least(&self) -> &'a Clearance {
        self.least
    }
}

/// A verdict in one word: what a mark and an exit code go by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// No shell is placed.
    NotPlaced,
    /// The work cannot be built where it stands.
    Conflict,
    /// A clearance falls short.
    Short,
    /// Something that decides was not measured.
    Unchecked,
    /// Everything measured holds, with reserve.
    Reserved,
    /// Everything holds.
    Holds,
}

impl<'a> Verdict<'a> {
    /// The verdict on a site by its analysis, which must hold its clearances and findings.
    pub fn of(site: &'a CheckedSite, analysis: &'a Analysis) -> Self {
        if site.placed_shell().is_none() {
            let closure = site.lot().lot.poor_closure().map(Open::PoorClosure);
            let kinds = no_kinds(site).map(Open::Gap);
            return Self::NotPlaced {
                open: kinds.into_iter().chain(closure).collect(),
            };
        }
        let open = open(site, analysis);
        let short = short(site, analysis);
        let mut faults = analysis.faults();
        if let Some(first) = faults.next() {
            let others = faults.count();
            return Self::Conflict {
                first,
                others,
                short,
                open,
            };
        }
        if let Some(short) = short {
            return Self::Short { short, open };
        }
        let mut open = open.into_iter();
        match (open.next(), analysis.clearances.first()) {
            (Some(Open::Gap(gap)), _) => Self::Unchecked {
                gap,
                open: open.collect(),
            },
            (Some(first), Some(least)) => Self::Reserved {
                least,
                open: std::iter::once(first).chain(open).collect(),
            },
            (None, Some(least)) => Self::Holds(Held { least }),
            (_, None) => Self::Unchecked {
                gap: Gap::NothingMeasured {
                    rules: site.site().rules.len(),
                },
                open: open.collect(),
            },
        }
    }

    /// What is open besides what it says.
    pub fn open(&self) -> &[Open<'a>] {
        match self {
            Self::NotPlaced { open }
            | Self::Conflict { open, .. }
            | Self::Short { open, .. }
            | Self::Unchecked { open, .. }
            | Self::Reserved { open, .. } => open,
            Self::Holds(_) => &[],
        }
    }

    /// The verdict in one word.
    pub fn standing(&self) -> Standing {
        match self {
            Self::NotPlaced { .. } => Standing::NotPlaced,
            Self::Conflict { .. } => Standing::Conflict,
            Self::Short { .. } => Standing::Short,
            Self::Unchecked { .. } => Standing::Unchecked,
            Self::Reserved { .. } => Standing::Reserved,
            Self::Holds(_) => Standing::Holds,
        }
    }
}

impl Gap {
    /// Where it is mended.
    pub fn entry(&self) -> Entry {
        match self {
            Self::StarterLot => Entry::Lot,
            Self::NoKinds { .. } => Entry::LineKinds,
            Self::NoRules | Self::NothingMeasured { .. } | Self::NoRuleToLines => Entry::Rules,
        }
    }
}

impl Open<'_> {
    /// Where it is mended, if one place does.
    pub fn entry(&self) -> Option<Entry> {
        match self {
            Self::Gap(gap) => Some(gap.entry()),
            Self::Caution(finding) => finding.entry,
            Self::Unconfirmed { .. } | Self::NoRuleTo(_) => Some(Entry::Rules),
            Self::Waiting { equipment, .. } => equipment.then_some(Entry::Equipment),
            Self::PoorClosure(_) => Some(Entry::Lot),
            Self::UnknownGround { .. } => None,
        }
    }
}

/// The clearances that fall short, if any does.
fn short<'a>(site: &CheckedSite, analysis: &'a Analysis) -> Option<Short<'a>> {
    let short = || analysis.clearances.iter().filter(|c| c.falls_short());
    let most = short().next()?;
    Some(Short {
        most,
        count: short().count(),
        unconfirmed: short().all(|c| !rule_of(site, c).is_some_and(Rule::is_confirmed)),
    })
}

fn rule_of<'a>(site: &'a CheckedSite, clearance: &Clearance) -> Option<&'a Rule> {
    site.site().rules.get(clearance.rule)
}

/// Everything that is open: gaps first, then by how much each takes from what was measured.
fn open<'a>(site: &'a CheckedSite, analysis: &'a Analysis) -> Vec<Open<'a>> {
    let mut open: Vec<Open<'a>> = gaps(site, analysis).into_iter().map(Open::Gap).collect();
    let clearances = &analysis.clearances;
    let against = analysis.findings.iter();
    let against = against.filter(|f| f.topic == Topic::Verdict && f.severity == Severity::Caution);
    open.extend(against.map(Open::Caution));
    let mut measured: Vec<usize> = clearances.iter().map(|c| c.rule).collect();
    put_in_order(&mut measured, Ord::cmp);
    measured.dedup();
    let rules = &site.site().rules;
    let confirmed = |index: &&usize| rules.get(**index).is_some_and(Rule::is_confirmed);
    let unconfirmed = measured.len() - measured.iter().filter(confirmed).count();
    if unconfirmed > 0 {
        open.push(Open::Unconfirmed {
            rules: unconfirmed,
            of: measured.len(),
        });
    }
    let without = without_rule(site, clearances);
    if !without.is_empty() {
        open.push(Open::NoRuleTo(without));
    }
    let waiting = clearance::waiting(site, &analysis.work);
    if !waiting.is_empty() {
        open.push(Open::Waiting {
            rules: waiting.len(),
            equipment: waiting.iter().all(|r| r.from == MeasuredFrom::Equipment),
        });
    }
    open.extend(site.lot().lot.poor_closure().map(Open::PoorClosure));
    let unknown = |c: &&Clearance| c.caveats.contains(&Caveat::UnknownGround);
    let unknown = clearances.iter().filter(unknown).count();
    if unknown > 0 {
        open.push(Open::UnknownGround {
            clearances: unknown,
        });
    }
    open
}

/// What decides and was not measured.
fn gaps(site: &CheckedSite, analysis: &Analysis) -> Vec<Gap> {
    let rules = &site.site().rules;
    if rules.is_empty() {
        return vec![Gap::NoRules];
    }
    let mut gaps = Vec::new();
    if starter::is_untouched(site.site()) {
        gaps.push(Gap::StarterLot);
    }
    gaps.extend(no_kinds(site));
    let mut sides = 0..site.lot().lot.sides.len();
    if analysis.clearances.is_empty() {
        gaps.push(Gap::NothingMeasured { rules: rules.len() });
    } else if gaps.is_empty() && !sides.any(|side| ruled(&analysis.clearances, side)) {
        gaps.push(Gap::NoRuleToLines);
    }
    gaps
}

/// The sides without a kind, where a rule names kinds.
fn no_kinds(site: &CheckedSite) -> Option<Gap> {
    let sides = &site.lot().lot.sides;
    let bare = |kind| kind == LineKind::Unspecified;
    let without = sides.iter().filter(|side| bare(side.kind)).count();
    let mut rules = site.site().rules.iter();
    let named =
        rules.any(|it| matches!(it.to, MeasuredTo::LotLine { kind: Some(kind) } if !bare(kind)));
    (without > 0 && named).then_some(Gap::NoKinds {
        sides: without,
        of: sides.len(),
    })
}

/// Whether a side was measured to from the shell, its deck or its dig.
fn ruled(clearances: &[Clearance], side: usize) -> bool {
    let from_the_pool = |c: &&Clearance| c.from.goes_with_shell();
    let mut from_the_pool = clearances.iter().filter(from_the_pool);
    from_the_pool.any(|c| c.subject == Subject::Side(side))
}

/// The sides that have a kind, and that nothing was measured to while something was to others.
fn without_rule<'a>(site: &'a CheckedSite, clearances: &[Clearance]) -> Vec<&'a str> {
    let sides = || site.lot().lot.sides.iter().enumerate();
    if !sides().any(|(index, _)| ruled(clearances, index)) {
        return Vec::new();
    }
    let mut labels: Vec<&str> = sides()
        .filter(|(index, side)| side.kind != LineKind::Unspecified && !ruled(clearances, *index))
        .map(|(_, side)| side.label.as_str())
        .collect();
    labels.dedup();
    labels
}
