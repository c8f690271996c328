//! Scenarios of one pipeline: what they cut, what they compute, and that kept parts change nothing.

use serde_json::{Value, json};

use super::super::balance::{Search, balance};
use super::super::sensitivity::Sensitivity;
use super::{Cache, Detail, Scenario, analyzed, checked, document, run};
use crate::site::{CheckedSite, Site};
use crate::takeoff::Doubt;

/// The same lot under 25 spots that rise from south to north.
fn slope() -> Value {
    let mut document = document();
    let spots: Vec<Value> = (0..25)
        .map(|i| {
            json!([
                f64::from(i % 5) * 10.0 - 5.0,
                f64::from(i / 5) * 12.0 - 4.0,
                f64::from(i) * 0.15
            ])
        })
        .collect();
    document["ground"] = json!({ "spots": { "spots": spots } });
    document
}

/// Holes cut by one run with these parts kept.
fn cuts(site: &CheckedSite, detail: Detail, cache: &mut Cache) -> usize {
    let (shell, _) = site.placed_shell().unwrap();
    let before = cache.of(site, shell).0.cuts;
    run(&Scenario::of(site), detail, cache);
    cache.of(site, shell).0.cuts - before
}

#[test]
fn a_cache_changes_nothing() {
    let mut cache = Cache::default();
    let mut site = checked(&slope(), None);
    // Up the slope and down again, so that several headrooms come by twice.
    for step in [0.0, 6.0, 12.0, 6.0, 0.0, -6.0] {
        let mut next = Site::clone(site.site());
        next.placement.as_mut().unwrap().at.y = 20.0 + step;
        site = CheckedSite::check(next, Some(&site)).unwrap();
        for detail in [Detail::Complete, Detail::Ranges] {
            let kept = run(&Scenario::of(&site), detail, &mut cache);
            assert!(kept == analyzed(&site, detail), "{step} {detail:?}");
        }
    }
}

#[test]
fn every_scenario_cuts_as_few_holes_as_it_can() {
    let mut cache = Cache::default();
    let site = checked(&slope(), None);
    for detail in [
        Detail::Clearances,
        Detail::Earth,
        Detail::Quantities,
        Detail::Complete,
    ] {
        assert_eq!(cuts(&site, detail, &mut cache), 1, "{detail:?}");
    }
    // Narrower and wider, in lower and in higher ground: the swell cuts nothing.
    assert_eq!(cuts(&site, Detail::Ranges, &mut cache), 5);
    let mut document = slope();
    document["works"] = json!({ "doubt": { "swell": 0.2, "over_dig": 0, "ground": 0 } });
    let site = checked(&document, None);
    assert_eq!(cuts(&site, Detail::Ranges, &mut cache), 1);
}

#[test]
fn each_detail_holds_what_it_says() {
    let site = checked(&slope(), None);
    let whole = analyzed(&site, Detail::Complete);
    let with_ranges = analyzed(&site, Detail::Ranges);
    assert!(with_ranges.has_ranges && !whole.has_ranges);
    assert_eq!(with_ranges.findings, whole.findings);
    let quantities = analyzed(&site, Detail::Quantities);
    assert_eq!(quantities.takeoff, whole.takeoff);
    assert!(quantities.clearances.is_empty() && quantities.findings.is_empty());
    let earth = analyzed(&site, Detail::Earth);
    assert_eq!(
        (earth.surplus, &earth.grading),
        (whole.surplus, &whole.grading)
    );
    assert!(earth.takeoff.is_empty() && earth.clearances.is_empty());
    let clearances = analyzed(&site, Detail::Clearances);
    assert_eq!(clearances.clearances, whole.clearances);
    assert_eq!(clearances.dig, whole.dig);
    assert!(clearances.grading.is_none() && clearances.takeoff.is_empty());
}

/// Worked out end by end, as in steps, low and high are those of one run.
#[test]
fn ranges_in_steps_are_those_of_one_run() {
    let mut document = slope();
    document["rates"] = json!([{ "key": "bank-cut", "rate": 21.5 }]);
    let site = checked(&document, None);
    let mut stepped = analyzed(&site, Detail::Complete);
    assert!(stepped.takeoff.iter().all(|line| line.range.is_none()));
    let mut sensitivity = Sensitivity::new(&site, &stepped);
    let mut steps = 0;
    while sensitivity.step(&site, &stepped, &mut Cache::default()) {
        steps += 1;
        assert_eq!(sensitivity.progress(), (steps, 6));
    }
    assert_eq!(steps, 6);
    let ranges = sensitivity.ranges(&stepped);
    stepped.set_ranges(&ranges, &site.site().rates);
    assert!(stepped == analyzed(&site, Detail::Ranges));
    let cut = ranges.of("bank-cut").unwrap();
    assert!(cut.causes.iter().any(|cause| cause.doubt == Doubt::Ground));
    assert!(stepped.cost.as_ref().unwrap().range[0] < stepped.value("bank-cut").unwrap() * 21.5);
}

#[test]
fn without_a_shell_nothing_is_doubted_and_nothing_is_even() {
    let mut document = document();
    document["placement"] = Value::Null;
    let site = checked(&document, None);
    let bare = analyzed(&site, Detail::Ranges);
    assert!(bare.has_ranges && bare.takeoff.is_empty());
    assert_eq!(Sensitivity::new(&site, &bare).progress(), (0, 0));
    assert!(balance(&site).is_none());
}

/// A coping is computed once, though two searches ask for it, and the search tells how far it is.
#[test]
fn a_search_for_even_earth_goes_one_coping_at_a_time() {
    let site = checked(&slope(), None);
    let mut search = Search::new(&site).unwrap();
    let mut last = 0;
    while search.step(&site) {
        let (done, of) = search.progress();
        assert!(done == last + 1 && done < of, "{done} of {of}");
        assert!(search.balance(&site).is_none() || !search.step(&site));
        last = done;
    }
    assert!((25..=41).contains(&last), "{last}");
    assert_eq!(search.balance(&site), balance(&site));
    let present = analyzed(&site, Detail::Earth);
    assert_eq!(balance(&site).map(|it| it.left), present.surplus);
}
