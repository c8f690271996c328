//! The quantities beside the plan, as ready text.
//!
//! Light enough to be made anew on every frame of a drag. A quantity's working is made only
//! when somebody opens it (see `report`).

use serde::Serialize;

use super::Session;
use crate::analysis::{Analysis, Cost};
use crate::site::Rate;
use crate::takeoff::{Group, Line, MeasuredOn, Range};
use crate::units::{Currency, Measure, Shown, System, show, show_money, show_rate};

/// Everything the page lists of the quantities. What belongs beside them is among the findings of
/// the ledger.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct Tally {
    /// The groups that have quantities, in order.
    pub groups: Vec<GroupRow>,
    /// Every quantity, in order.
    pub quantities: Vec<QuantityRow>,
    /// What they cost, once a rate is told.
    pub cost: Option<CostRows>,
    /// Whether low and high are still to come: they take longer and are worked out elsewhere.
    pub without_ranges: bool,
}

/// A group of quantities as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct GroupRow {
    /// Which it is.
    pub group: Group,
    /// What it is called.
    pub label: &'static str,
    /// Its chief quantity, by key, where it has it.
    pub chief: Option<&'static str>,
}

/// One quantity as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct QuantityRow {
    /// Its stable name.
    pub key: &'static str,
    /// The group it is listed in.
    pub group: Group,
    /// What it is called.
    pub label: &'static str,
    /// What kind of figure it is; a typed rate is read by it.
    pub measure: Measure,
    /// Its value.
    pub shown: Shown,
    /// The geometry it was measured on.
    pub on: MeasuredOn,
    /// Low and high, where they are known.
    pub range: Option<RangeRow>,
    /// What is paid for by it; a rate may be typed for it then. Lines of one name are measures of
    /// the same thing: one of them is priced.
    pub pays_for: Option<&'static str>,
    /// The rate typed for it, whether or not it counts: `45.00 per short ton`.
    pub rate: Option<Shown>,
    /// Why the rate typed for it does not count, in a sentence.
    pub not_counted: Option<String>,
    /// Its cost, where it is priced.
    pub cost: Option<Shown>,
    /// Why it is weaker than it looks, in a few words each.
    pub caveats: Vec<&'static str>,
}

/// Low and high of a quantity, as listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RangeRow {
    /// The low.
    pub low: Shown,
    /// The high.
    pub high: Shown,
    /// What each doubt alone makes of it.
    pub causes: Vec<CauseRow>,
    /// Whether unknown ground is left out of low and high.
    pub open: bool,
}

/// What one doubt alone makes of a quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct CauseRow {
    /// The doubt in words.
    pub words: &'static str,
    /// The quantity at its lower end.
    pub less: Shown,
    /// The quantity at its upper end.
    pub more: Shown,
}

/// What everything priced costs.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct CostRows {
    /// The sum of each group that has a priced line.
    pub groups: Vec<(Group, Shown)>,
    /// The sum of all priced lines.
    pub total: Shown,
    /// Low of the total.
    pub low: Shown,
    /// High of the total.
    pub high: Shown,
}

/// What the quantities of a site are listed with.
struct Pricing<'a> {
    analysis: &'a Analysis,
    rates: &'a [Rate],
    currency: Currency,
    system: System,
}

impl Tally {
    /// The tally of a session as it stands, with low and high once it has them.
    pub fn of(session: &Session) -> Self {
        let site = session.site().site();
        let analysis = session.analysis();
        let pricing = Pricing {
            analysis,
            rates: &site.rates,
            currency: site.currency.clone().unwrap_or_default(),
            system: site.display,
        };
        let row = |line| quantity_row(line, &pricing);
        let cost = analysis.cost.as_ref();
        Self {
            groups: group_rows(&analysis.takeoff),
            quantities: analysis.takeoff.iter().map(row).collect(),
            cost: cost.map(|cost| cost_rows(cost, &pricing.currency)),
            without_ranges: !analysis.has_ranges,
        }
    }
}

fn group_rows(lines: &[Line]) -> Vec<GroupRow> {
    let has = |group: &Group| lines.iter().any(|line| line.group == *group);
    let row = |group: Group| GroupRow {
        group,
        label: group.words(),
        chief: lines
            .iter()
            .map(|line| line.key)
            .find(|key| *key == group.chief()),
    };
    Group::ALL.into_iter().filter(has).map(row).collect()
}

fn quantity_row(line: &Line, pricing: &Pricing<'_>) -> QuantityRow {
    let system = pricing.system;
    let shown = |value| show(line.measure, value, system);
    let cost = pricing.analysis.cost.as_ref();
    let priced = cost.and_then(|cost| cost.lines.iter().find(|p| p.key == line.key));
    let typed = pricing.rates.iter().find(|rate| rate.key == line.key);
    let mut uncounted = pricing.analysis.uncounted.iter();
    let uncounted = uncounted.find(|it| it.key == line.key && priced.is_none());
    QuantityRow {
        key: line.key,
        group: line.group,
        label: line.label,
        measure: line.measure,
        shown: shown(line.value),
        on: line.on,
        range: line.range.as_ref().map(|range| range_row(range, shown)),
        pays_for: line.pays_for,
        rate: typed.map(|typed| show_rate(line.measure, typed.rate, typed.per, system)),
        not_counted: uncounted.map(|it| it.why.clone()),
        cost: priced.map(|priced| show_money(priced.cost, &pricing.currency)),
        caveats: line.caveats.iter().map(|c| c.words()).collect(),
    }
}

fn range_row(range: &Range, shown: impl Fn(f64) -> Shown) -> RangeRow {
    let cause = |cause: &crate::takeoff::Cause| CauseRow {
        words: cause.doubt.words(),
        less: shown(cause.less),
        more: shown(cause.more),
    };
    RangeRow {
        low: shown(range.low),
        high: shown(range.high),
        causes: range.causes.iter().map(cause).collect(),
        open: range.open,
    }
}

fn cost_rows(cost: &Cost, currency: &Currency) -> CostRows {
    let money = |value| show_money(value, currency);
    let groups = cost.groups.iter();
    let [low, high] = cost.range;
    CostRows {
        groups: groups.map(|(group, sum)| (*group, money(*sum))).collect(),
        total: money(cost.total),
        low: money(low),
        high: money(high),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::session::Command;
    use crate::shell::catalogue;
    use crate::site::ShellChoice;
    use crate::units::RateUnit;

    /// Every rate stays beside its line as it was typed, with why it does not count.
    #[test]
    fn a_typed_rate_stays_on_its_line() {
        let mut session = Session::new().unwrap();
        let name = catalogue::all().first().unwrap().name.clone();
        let rate = |key: &str, rate, per| Rate {
            key: key.to_owned(),
            rate,
            per: Some(per),
        };
        for command in [
            Command::ChooseShell(ShellChoice::Catalogue(name)),
            Command::SetRates(vec![
                rate("base-stone", 42.0, RateUnit::ShortTon),
                rate("base-stone-volume", 14.0, RateUnit::CubicYard),
            ]),
            Command::SetCurrency(Some(Currency::new("CAD"))),
        ] {
            session.apply(command).unwrap();
        }
        let row = |session: &Session, key| {
            let tally = Tally::of(session);
            let row = tally.quantities.into_iter().find(|row| row.key == key);
            let row = row.unwrap();
            let text = |shown: Option<Shown>| shown.map(|it| it.text);
            (text(row.rate), text(row.cost), row.not_counted)
        };
        let (rate, cost, not_counted) = row(&session, "base-stone");
        assert_eq!(rate.unwrap(), "42.00 per short ton");
        assert!(cost.unwrap().starts_with("CAD ") && not_counted.is_none());
        let (rate, cost, not_counted) = row(&session, "base-stone-volume");
        assert_eq!((rate.unwrap().as_str(), cost), ("14.00 per cu yd", None));
        let why = not_counted.unwrap();
        assert!(
            why.contains("\"Base stone\" pays for the same thing"),
            "{why}"
        );
        let total = Tally::of(&session).cost.unwrap().total.text;
        assert!(total.starts_with("CAD "), "{total}");
        // Other units round what is shown, and keep what was typed.
        session.apply(Command::SetDisplay(System::Metres)).unwrap();
        let (rate, ..) = row(&session, "base-stone-volume");
        assert_eq!(rate.unwrap(), "18.31 per m³");
        session.apply(Command::SetDisplay(System::Feet)).unwrap();
        let (rate, ..) = row(&session, "base-stone-volume");
        assert_eq!(rate.unwrap(), "14.00 per cu yd");
        let odd = Command::SetCurrency(Some(Currency::new("5.0")));
        assert!(session.apply(odd).is_err());
    }
}
