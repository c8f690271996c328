//! The report as a sheet: verdict, plan, clearances, quantities, what is about this placement, then what is true of every
//! job, then the working.

use batterboard_core::finding::{Finding, Scope};

use crate::binder::Binder;
use crate::blocks;
use crate::covered;
use crate::flow::BODY;
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::mark::{Area, Document};
use crate::pen::Style;
use crate::permit;
use crate::plan;
use crate::scale::Lie;
use crate::site_plan;
use crate::takeoff;

/// The sheet.
pub fn make(job: &Job, wanted: &SheetWish) -> (Document, Vec<Finding>) {
    let lie = wanted.lie.unwrap_or(Lie::Tall);
    let mut binder = Binder::new(job, wanted, lie.of(wanted.paper(job)));
    let body = binder.body();
    let mut flow = binder.flow(body.width);
    flow.heading("Verdict");
    flow.paragraph(&job.report.verdict.text, Style::heavy(10.0));
    for note in &job.report.verdict.notes {
        flow.item("•", &note.text, BODY);
    }
    let end = binder.pour(&flow, binder.columns(0, 1), 0);

    let plan_area = Area {
        y: end.y + 3.0,
        height: (body.bottom() - end.y - 3.0).max(60.0),
        ..body
    };
    let extent = site_plan::extent(job);
    let window = site_plan::window(job, wanted, plan_area, extent);
    let drawing = site_plan::drawing(job, wanted, |_, _| true);
    let page = end.column;
    let marks = plan::draw(&drawing, &window, Palette::Drafting, &[]).marks;
    let shows = format!("Plan, {}", window.scale.words(job.system));
    let figure = binder.figure(shows, marks);
    binder.page(page).marks.push(figure);
    binder.set_scale(page, window.scale);

    let mut flow = binder.flow(body.width);
    permit::clearances(&mut flow, job);
    covered::coverage(&mut flow, job);
    permit::shell(&mut flow, job);
    if !job.report.quantities.is_empty() {
        takeoff::quantities(&mut flow, job);
        takeoff::cost(&mut flow, job);
    }
    let first = binder.len();
    binder.pour(&flow, binder.columns(first, 1), 0);

    let first = binder.len();
    let many = binder.text_columns();
    let mut flow = binder.flow(binder.column_width(many));
    blocks::assumed(&mut flow, &job.report.assumed, wanted.language);
    let findings = |scope: Scope| {
        job.report
            .findings
            .iter()
            .filter(move |it| it.scope == scope)
    };
    for (title, scope) in [
        ("About this placement", Scope::Placement),
        ("About this lot", Scope::Site),
        ("True of every job", Scope::EveryJob),
    ] {
        if findings(scope).next().is_some() {
            flow.heading(title);
            blocks::findings(&mut flow, findings(scope), wanted.language);
        }
    }
    if !job.report.quantities.is_empty() {
        flow.heading("Working");
        for it in &job.ranged().quantities {
            takeoff::working(&mut flow, it);
        }
    }
    binder.pour(&flow, binder.columns(first, many), 0);
    let outside = site_plan::outside(job, &window, extent);
    (binder.document(), outside.into_iter().collect())
}
