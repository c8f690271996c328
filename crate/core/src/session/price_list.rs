//! A price list of the company's book as it is read and typed beside the open job: every line that can be
//! paid by, with what the list asks for it.

use serde::Serialize;

use super::Session;
use crate::site::book::RateList;
use crate::units::{RateUnit, show_rate};

/// What a list asks for one quantity.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct PriceRow {
    /// The quantity's stable name.
    pub key: String,
    /// What it is called; the stable name where this job has no such quantity.
    pub label: String,
    /// The amount for a unit as the job shows it, without the unit; empty where the list asks nothing.
    pub amount: String,
    /// The unit: `per short ton`.
    pub unit: &'static str,
    /// The job has the quantity: an amount can be typed for it.
    pub known: bool,
}

/// The rows of a list: what this job can be paid by in the takeoff's order, then what else is asked for.
pub fn price_rows(session: &Session, list: &RateList) -> Vec<PriceRow> {
    let system = session.site().site().display;
    let lines = &session.analysis().takeoff;
    let row = |line: &crate::takeoff::Line| {
        let asked = list.rates.iter().find(|it| it.key == line.key);
        let shown = asked.map(|it| show_rate(line.measure, it.rate, it.per, system));
        let amount = shown.map(|it| it.text.trim_end_matches(it.unit).trim_end().to_owned());
        PriceRow {
            key: line.key.to_owned(),
            label: line.label.to_owned(),
            amount: amount.unwrap_or_default(),
            unit: RateUnit::of(line.measure, system).words(),
            known: true,
        }
    };
    let is_known = |key: &str| {
        lines
            .iter()
            .any(|line| line.key == key && line.pays_for.is_some())
    };
    let others = list
        .rates
        .iter()
        .filter(|it| !is_known(&it.key))
        .map(|it| PriceRow {
            key: it.key.clone(),
            label: it.key.clone(),
            amount: it.rate.to_string(),
            unit: it.per.map_or("", RateUnit::words),
            known: false,
        });
    let payable = lines.iter().filter(|line| line.pays_for.is_some());
    payable.map(row).chain(others).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::site::Rate;

    #[test]
    fn a_list_is_read_in_the_units_of_the_job_and_what_it_does_not_know_stands_last() {
        let mut session = Session::new().unwrap();
        session
            .open(include_str!("../../../../demo-sites/level-suburban.json"))
            .unwrap();
        let rate = |key: &str, rate, per| Rate {
            key: key.to_owned(),
            rate,
            per,
        };
        let list = RateList {
            currency: None,
            rates: vec![
                rate("blasting", 9.5, Some(RateUnit::CubicYard)),
                rate("base-stone", 42.0, Some(RateUnit::ShortTon)),
            ],
        };
        let rows = price_rows(&session, &list);
        let stone = rows.iter().find(|it| it.key == "base-stone").unwrap();
        assert_eq!(
            (stone.amount.as_str(), stone.unit),
            ("42.00", "per short ton")
        );
        assert!(rows.iter().any(|it| it.known && it.amount.is_empty()));
        let last = rows.last().unwrap();
        assert_eq!(
            (last.known, last.label.as_str(), last.amount.as_str()),
            (false, "blasting", "9.5")
        );
        assert_eq!(rows.iter().filter(|it| !it.amount.is_empty()).count(), 2);
    }
}
