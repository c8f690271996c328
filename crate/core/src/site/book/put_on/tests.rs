//! Entries put on jobs: what gives way, what stays, and what is noted.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]
use super::*;
use crate::geom::Point;
use crate::site::book::{Book, Day, examples};
use crate::site::{Rate, SoilClass};

fn of_kind(kind: BookKind) -> BookEntry {
    let is_it = |it: &BookEntry| it.content.kind() == kind;
    examples().entries.into_iter().find(is_it).unwrap()
}

fn taken(entry: BookEntry) -> TakenEntry {
    let Book { name, edition, .. } = examples();
    TakenEntry {
        book: name,
        edition,
        on: Day::new(2026, 3, 31).unwrap(),
        entry,
    }
}

fn rule_set(names: &[&str]) -> BookEntry {
    let rule = |name: &&str| Rule {
        name: (*name).to_owned(),
        source: String::new(),
        ..rule::examples()[0].clone()
    };
    BookEntry {
        id: names.concat(),
        source: "Zoning code 12.3".to_owned(),
        content: BookContent::Rules(RuleSet {
            jurisdiction: "Larch County".to_owned(),
            checked_by: String::new(),
            rules: names.iter().map(rule).collect(),
            shares: Vec::new(),
            barrier: None,
        }),
        ..of_kind(BookKind::Rules)
    }
}

#[test]
fn rules_of_the_book_replace_examples_and_one_another_but_not_those_of_the_job() {
    let mut site = starter::blank_lot();
    let all = site.rules.len();
    Arc::make_mut(&mut site.rules)[3].distance = 7.0;
    let done = taken(rule_set(&["a", "b"])).put_on(&mut site).unwrap();
    assert_eq!((done.replaced, done.kept), (all - 1, 1));
    let names = |site: &Site| {
        site.rules
            .iter()
            .map(|it| it.name.clone())
            .collect::<Vec<_>>()
    };
    assert_eq!(names(&site), ["a", "b", "Water to rear line"]);
    assert!(
        site.rules[0].is_confirmed(),
        "the entry says who requires it"
    );

    Arc::make_mut(&mut site.rules)[1].distance = 8.0;
    let done = taken(rule_set(&["c"])).put_on(&mut site).unwrap();
    assert_eq!((done.replaced, done.kept), (1, 2));
    assert_eq!(names(&site), ["c", "b", "Water to rear line"]);
    assert_eq!(site.taken.len(), 1, "a job is under one rule set");
}

#[test]
fn a_price_list_leaves_other_rates_alone_and_does_not_mix_currencies() {
    let rate = |key: &str, rate| Rate {
        key: key.to_owned(),
        rate,
        per: None,
    };
    let list = |id: &str, currency: &str, rates: Vec<Rate>| BookEntry {
        id: id.to_owned(),
        content: BookContent::Rates(RateList {
            currency: Some(Currency::new(currency)),
            rates,
        }),
        ..of_kind(BookKind::Rules)
    };
    let mut site = starter::blank_lot();
    let stone = list(
        "stone",
        "CAD",
        vec![rate("stone", 40.0), rate("fabric", 2.0)],
    );
    taken(stone.clone()).put_on(&mut site).unwrap();
    let concrete = list(
        "concrete",
        "CAD",
        vec![rate("concrete", 180.0), rate("fabric", 3.0)],
    );
    let done = taken(concrete).put_on(&mut site).unwrap();
    assert_eq!((done.replaced, done.kept), (1, 1));
    let rates: Vec<_> = site
        .rates
        .iter()
        .map(|it| (it.key.as_str(), it.rate))
        .collect();
    assert_eq!(
        rates,
        [("stone", 40.0), ("concrete", 180.0), ("fabric", 3.0)]
    );
    assert_eq!(site.taken.len(), 2, "a job may buy from several");
    taken(stone).put_on(&mut site).unwrap();
    assert_eq!(
        site.taken.len(),
        2,
        "the same list again takes its own place"
    );

    let before = site.clone();
    let other = list("other", "$", vec![rate("pipe", 4.0)]);
    let faults = taken(other).put_on(&mut site).unwrap_err();
    assert_eq!(faults[0].code, "other-currency");
    assert_eq!(site, before);
}

#[test]
fn a_way_of_building_leaves_what_belongs_to_the_lot() {
    let mut site = starter::blank_lot();
    let works = Arc::make_mut(&mut site.works);
    works.dig.soil = SoilClass::A;
    works.dig.upright_below = Some(1.0);
    works.groundwater = Some(-2.0);
    works.spoil.at = Some(Point::new(3.0, 4.0));
    works.dewatering.at = Some(Point::new(1.0, 2.0));
    works.dig.over_dig = 0.9;
    let lot = site.works.clone();
    let mut entry = of_kind(BookKind::Works);
    let BookContent::Works(way) = &mut entry.content else {
        panic!()
    };
    let way = Arc::make_mut(way);
    way.collar.bars = 3.0;
    way.groundwater = Some(5.0);
    way.dig.soil = SoilClass::C;
    entry.put_on(&mut site).unwrap();
    let now = &site.works;
    assert_eq!(now.collar.bars.to_bits(), 3.0_f64.to_bits());
    assert_eq!(
        now.dig.over_dig.to_bits(),
        ConstructionSettings::default().dig.over_dig.to_bits()
    );
    assert_eq!(
        (now.dig.soil, now.dig.upright_below),
        (lot.dig.soil, lot.dig.upright_below)
    );
    assert_eq!(
        (now.groundwater, now.spoil.at),
        (lot.groundwater, lot.spoil.at)
    );
    assert_eq!(now.dewatering.at, lot.dewatering.at);
}

#[test]
fn what_is_kept_of_a_job_that_took_an_entry_is_the_entry() {
    for entry in examples().entries {
        let kind = entry.content.kind();
        let mut site = empty_job(kind);
        taken(entry.clone()).put_on(&mut site).unwrap();
        let kept = BookContent::of_site(kind, &site, Some(&entry.content)).unwrap();
        assert_eq!(kept, entry.content, "{}", entry.name);
    }
    let empty = starter::blank_lot();
    for kind in [BookKind::Shell, BookKind::Rates, BookKind::TitleBlock] {
        assert_eq!(BookContent::of_site(kind, &empty, None), None, "{kind:?}");
    }
}

#[test]
fn prices_are_stale_after_a_year() {
    let today = Day::new(2026, 11, 29).unwrap();
    let mut entry = of_kind(BookKind::Shell);
    assert!(!entry.is_stale(today), "it has no price");
    let BookContent::Shell(shell) = &mut entry.content else {
        panic!()
    };
    shell.price = Some(20_000.0);
    assert!(entry.is_stale(today), "nobody says of what day it is");
    entry.dated = Day::new(2025, 11, 29);
    assert!(!entry.is_stale(today));
    entry.dated = Day::new(2025, 11, 28);
    assert!(entry.is_stale(today));
}
