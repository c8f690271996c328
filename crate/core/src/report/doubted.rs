//! Low, high and cost of a quantity, as people read them.

use serde::Serialize;

use super::Figure;
use crate::analysis::Analysis;
use crate::site::{Rate, Site};
use crate::takeoff::{Cause, Doubt, Group, Line};
use crate::units::{Currency, Measure, Shown, System, show_money, show_rate};

/// Low and high of a figure, and what they come from.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RangeFigures {
    /// The low.
    pub low: Figure,
    /// The high.
    pub high: Figure,
    /// What it comes from; the causes are put together by the root of the sum of their squares.
    pub causes: Vec<CauseFigures>,
    /// Whether unknown ground is left out of low and high.
    pub open: bool,
}

/// What one doubt does to a figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct CauseFigures {
    /// The doubt.
    pub doubt: Doubt,
    /// What it is called.
    pub words: &'static str,
    /// The figure at the doubt's lower end.
    pub less: Figure,
    /// The figure at its upper end.
    pub more: Figure,
}

impl RangeFigures {
    /// The range of a line, where it has one.
    pub fn of(line: &Line, system: System) -> Option<Self> {
        let range = line.range.as_ref()?;
        let figure = |value| Figure::new(line.measure, value, system);
        Some(Self {
            low: figure(range.low),
            high: figure(range.high),
            causes: causes(&range.causes, line.measure, system),
            open: range.open,
        })
    }

    /// `50.2 to 61.4 cu yd`, or a word where nothing bounds it.
    pub(super) fn text(&self) -> String {
        let bare = |figure: &Figure| match figure.shown.unit {
            "" => figure.shown.text.clone(),
            unit => figure
                .shown
                .text
                .trim_end_matches(unit)
                .trim_end()
                .to_owned(),
        };
        let open = if self.open { " or more" } else { "" };
        match self.causes.is_empty() {
            true => "not bounded".to_owned(),
            false => format!("{} to {}{open}", bare(&self.low), self.high.shown.text),
        }
    }
}

fn causes(causes: &[Cause], measure: Measure, system: System) -> Vec<CauseFigures> {
    let figure = |value| Figure::new(measure, value, system);
    let shown = causes.iter().map(|cause| CauseFigures {
        doubt: cause.doubt,
        words: cause.doubt.words(),
        less: figure(cause.less),
        more: figure(cause.more),
    });
    shown.collect()
}

/// What everything priced costs.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct CostFigures {
    /// The priced lines.
    pub lines: Vec<PricedFigures>,
    /// The sum of each group that has one.
    pub groups: Vec<GroupCost>,
    /// The sum of all: that of the lines as shown.
    pub total: Shown,
    /// Low of the total.
    pub low: Shown,
    /// High of the total.
    pub high: Shown,
    /// Where low and high come from.
    pub causes: Vec<CauseFigures>,
    /// What all of it is in.
    pub currency: String,
    /// The rates that count for nothing.
    pub not_counted: Vec<UncountedFigures>,
}

/// A rate that counts for nothing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct UncountedFigures {
    /// The stable name of the line it was typed for.
    pub key: &'static str,
    /// What the line is called.
    pub label: &'static str,
    /// The rate, per shown unit.
    pub rate: Shown,
    /// Why it does not count.
    pub why: String,
}

/// One priced line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct PricedFigures {
    /// The line's stable name.
    pub key: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// Its rate, per shown unit.
    pub rate: Shown,
    /// Rate x value.
    pub cost: Shown,
    /// Rate x low.
    pub low: Shown,
    /// Rate x high.
    pub high: Shown,
}

/// The sum of a group.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct GroupCost {
    /// The group.
    pub group: Group,
    /// What it is called.
    pub label: &'static str,
    /// Its sum.
    pub sum: Shown,
}

impl CostFigures {
    /// The cost of what an analysis of a site has priced, in the given units; none where nothing
    /// is.
    pub fn of(analysis: &Analysis, site: &Site, system: System) -> Option<Self> {
        let cost = analysis.cost.as_ref()?;
        let currency = site.currency.clone().unwrap_or_default();
        let money = |value| show_money(value, &currency);
        let priced = cost.lines.iter().filter_map(|priced| {
            let line = analysis.line(priced.key)?;
            let [low, high] = priced.range;
            Some(PricedFigures {
                key: priced.key,
                label: line.label,
                rate: rate_shown(line, &priced.typed, &currency, system),
                cost: money(priced.cost),
                low: money(low),
                high: money(high),
            })
        });
        let groups = cost.groups.iter().map(|(group, sum)| GroupCost {
            group: *group,
            label: group.words(),
            sum: money(*sum),
        });
        let not_counted = analysis.uncounted.iter().filter_map(|uncounted| {
            let line = analysis.line(uncounted.key)?;
            Some(UncountedFigures {
                key: uncounted.key,
                label: line.label,
                rate: rate_shown(line, site.rates.get(uncounted.index)?, &currency, system),
                why: uncounted.why.clone(),
            })
        });
        let mut causes = causes(&cost.causes, Measure::Money, system);
        for figure in causes
            .iter_mut()
            .flat_map(|it| [&mut it.less, &mut it.more])
        {
            figure.shown = money(figure.value);
            figure.other = money(figure.value);
        }
        let [low, high] = cost.range;
        Some(Self {
            lines: priced.collect(),
            groups: groups.collect(),
            total: money(cost.total),
            low: money(low),
            high: money(high),
            causes,
            currency: currency.symbol().to_owned(),
            not_counted: not_counted.collect(),
        })
    }
}

/// A rate of a line with its currency, for the unit in which the line is shown.
fn rate_shown(line: &Line, typed: &Rate, currency: &Currency, system: System) -> Shown {
    let mut shown = show_rate(line.measure, typed.rate, typed.per, system);
    shown.text = currency.before(&shown.text);
    shown
}
