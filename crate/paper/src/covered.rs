//! What covers the ground, the shares that rules limit, and the barrier: tables of the permit plan and the report.

use batterboard_core::analysis::covered;
use batterboard_core::report::{CoveredFigures, Figure};
use batterboard_core::site::Cover;
use batterboard_core::units::{Measure, show};

use crate::flow::{Column, Flow, Row, SMALL};
use crate::job::Job;

/// What covers the lot before and after, each piece of ground counted once.
pub fn coverage(flow: &mut Flow, job: &Job) {
    let lot = &job.site.lot().region;
    let coverage = covered(&job.site, &job.analysis);
    let whole = lot.area();
    if whole <= 0.0 {
        return;
    }
    let structures = coverage.area(lot, [Cover::Structures]);
    let share = coverage.share(lot, &Cover::ALL);
    let row = |name: &str, area: f64| {
        vec![
            name.to_owned(),
            show(Measure::Area, area, job.system).text,
            show(Measure::Fraction, area / whole, job.system).text,
        ]
    };
    let rows = [
        Row::Cells(row("Lot", whole)),
        Row::Cells(row("Structures", structures)),
        Row::Cells(row(
            "Driveway and walks beside them",
            share.before - structures,
        )),
        Row::Sum(row("Covered before", share.before)),
        Row::Cells(row(
            "Shell, coping, deck and pad on open ground",
            share.after - share.before,
        )),
        Row::Sum(row("Covered after", share.after)),
    ];
    flow.heading("Coverage");
    let columns = [
        Column::words("Ground"),
        Column::figures("Area"),
        Column::figures("Share of the lot"),
    ];
    flow.table(&columns, &rows);
    flow.paragraph("In plan, each piece of ground counted once. What counts as covered is for the local authority to say.", SMALL);
    shares(flow, job);
}

/// The shares that rules limit, and the barrier.
fn shares(flow: &mut Flow, job: &Job) {
    let shares = job.report.shares.iter().map(|it| {
        let figure = |pick: fn(&CoveredFigures) -> &Figure| {
            let told = it.covered.as_ref().map(pick);
            told.map_or_else(|| "not told".to_owned(), |it| it.shown.text.clone())
        };
        let cells = vec![
            format!("{}: {} of the {}", it.name, it.counts, it.of),
            figure(|it| &it.before),
            figure(|it| &it.after),
            it.most.shown.text.clone(),
            it.source.clone(),
        ];
        match &it.covered {
            Some(covered) if covered.exceeded => Row::Alarm(cells),
            _ => Row::Cells(cells),
        }
    });
    let rows: Vec<Row> = shares.collect();
    if !rows.is_empty() {
        let columns = [
            Column::words("Rule"),
            Column::figures("Before"),
            Column::figures("After"),
            Column::figures("At most"),
            Column::words("Source"),
        ];
        flow.table(&columns, &rows);
    }
    if let Some(barrier) = &job.report.barrier {
        flow.heading("Barrier");
        let row = |(name, value): (&str, String)| Row::Cells(vec![name.to_owned(), value]);
        flow.table(
            &[Column::words("What"), Column::words("As planned")],
            &barrier.rows().map(row),
        );
    }
}
