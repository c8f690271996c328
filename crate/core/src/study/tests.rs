//! Questions in steps answer what one run answers.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::analysis::balance::balance;
use crate::analysis::compare::compare;
use crate::analysis::coping_step::coping_step;
use crate::analysis::{Cache, Detail, Scenario, run};
use crate::report::{BalanceFigures, ComparisonFigures, NudgeFigures, Report, csv};
use crate::site::starter;

const DEMO: &str = include_str!("../../../../demo-sites/level-suburban.json");

fn site() -> CheckedSite {
    exchange::open(DEMO).unwrap().site
}

/// The answer, and how many steps it took.
fn stepped(question: Question) -> (Answer, usize) {
    let mut study = Study::open(DEMO, question).unwrap();
    let mut last = Progress { done: 0, of: 1 };
    while !last.is_done() {
        assert_eq!(study.answer(), None);
        let next = study.step();
        assert_eq!(next.done, last.done + 1, "{question:?}");
        assert!(next.of >= next.done);
        last = next;
    }
    let answer = study.answer().cloned().unwrap();
    assert_eq!(study.step(), last, "an answer stays");
    (answer, last.done)
}

#[test]
fn low_and_high_come_end_by_end_and_are_taken_over() {
    let (answer, steps) = stepped(Question::Ranges);
    // The plan, three doubts with two ends each, the answer.
    assert_eq!(steps, 8);
    let Answer::Ranges(ranges) = answer else {
        panic!("{answer:?}")
    };
    let whole = run(
        &Scenario::of(&site()),
        Detail::Ranges,
        &mut Cache::default(),
    );
    let ranged = whole.takeoff.iter().filter(|line| line.range.is_some());
    assert!(ranged.count() > 0);
    let mut plain = run(
        &Scenario::of(&site()),
        Detail::Complete,
        &mut Cache::default(),
    );
    // As they come from a worker, as text.
    let sent = serde_json::to_string(&ranges).unwrap();
    let ranges = serde_json::from_str(&sent).unwrap();
    plain.set_ranges(&ranges, &site().site().rates);
    assert_eq!(plain.takeoff, whole.takeoff);
    assert_eq!(plain.cost, whole.cost);
}

#[test]
fn figures_are_those_of_one_run() {
    let site = site();
    let units = site.site().display;
    let found = balance(&site).unwrap();
    let expected = Answer::Balance(Some(BalanceFigures::of(&found, units)));
    assert_eq!(stepped(Question::Balance).0, expected);
    let expected = Answer::CopingStep(NudgeFigures::of(coping_step(&site), units));
    assert_eq!(stepped(Question::CopingStep), (expected, 4));
    let compared = compare(&site);
    let expected = Answer::Comparison(ComparisonFigures::of(&compared, &site, units));
    let (answer, steps) = stepped(Question::Comparison);
    assert_eq!((answer, steps), (expected, compared.columns.len() + 1));
}

#[test]
fn texts_are_those_of_one_run() {
    let site = site();
    let units = site.site().display;
    let whole = run(&Scenario::of(&site), Detail::Ranges, &mut Cache::default());
    let report = Report::new(&site, &whole, units);
    let texts = [
        (Question::ReportText, report.to_text()),
        (Question::ReportJson, report.to_json()),
        (Question::TakeoffText, report.to_takeoff_text()),
        (Question::TakeoffJson, report.to_takeoff_json()),
        (Question::TakeoffList, csv::takeoff(&site, &whole, units)),
    ];
    for (question, text) in texts {
        assert!(stepped(question).0 == Answer::Text(text), "{question:?}");
    }
}

#[test]
fn a_site_without_a_shell_is_answered_too() {
    let text = exchange::save(&starter::blank_lot(), &exchange::Unknown::default());
    let ask = |question| Study::open(&text, question).unwrap().run();
    assert_eq!(ask(Question::Balance), Answer::Balance(None));
    assert_eq!(
        ask(Question::Ranges),
        Answer::Ranges(crate::analysis::Ranges::default())
    );
    assert!(matches!(ask(Question::CopingStep), Answer::CopingStep(it) if it.rows.is_empty()));
    assert!(Study::open("{", Question::Balance).is_err());
}
