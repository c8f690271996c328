//! The takeoff for ordering: quantities by who supplies them, low, expected and high, cost by the rates of the job, and
//! the working of every line.

use batterboard_core::finding::{Finding, Topic};
use batterboard_core::geom::offset;
use batterboard_core::report::{RangeFigures, Workings};
use batterboard_core::site::FeatureKind;
use batterboard_core::takeoff::Group;
use batterboard_core::units::constants::INCH;
use batterboard_core::units::{Measure, show};

use crate::binder::Binder;
use crate::blocks;
use crate::flow::{BODY, Column, Flow, Row, SMALL};
use crate::job::{Job, SheetWish};
use crate::mark::Document;
use crate::pen::Style;
use crate::scale::Lie;

/// How far from the water's edge the bonding ring is measured here (our choice; the electrician tells the real one).
const BONDING: f64 = 18.0 * INCH;

/// How far the ring may lie off its true line, meters.
const RING_TOLERANCE: f64 = 0.002;

/// The sheet.
///
/// # Errors
/// When no shell is placed.
pub fn make(job: &Job, wanted: &SheetWish) -> Result<(Document, Vec<Finding>), Finding> {
    if job.report.quantities.is_empty() {
        return Err(crate::no_shell());
    }
    let lie = wanted.lie.unwrap_or(Lie::Tall);
    let mut binder = Binder::new(job, wanted, lie.of(wanted.paper(job)));
    let mut flow = binder.flow(binder.column_width(1));
    quantities(&mut flow, job);
    by_others(&mut flow, job);
    cost(&mut flow, job);
    let end = binder.pour(&flow, binder.columns(0, 1), 0);

    let first = end.column + 1;
    let many = binder.text_columns();
    let mut flow = binder.flow(binder.column_width(many));
    flow.heading("Cautions");
    let about = |it: &&Finding| matches!(it.topic, Topic::Dig) || it.is_fault();
    blocks::findings(
        &mut flow,
        job.report.findings.iter().filter(about),
        wanted.language,
    );
    flow.heading("Working");
    for it in &job.ranged().quantities {
        working(&mut flow, it);
    }
    binder.pour(&flow, binder.columns(first, many), 0);
    Ok((binder.document(), Vec::new()))
}

/// Who supplies a group.
fn supplier(group: Group) -> &'static str {
    match group {
        Group::Dig | Group::Grading | Group::Haul => "Digging and hauling",
        Group::Stone => "Stone yard",
        Group::Concrete => "Concrete",
        Group::RodsAndForms => "Rebar, joints and forms",
        Group::Pipe => "Pipe and fittings",
        Group::Water => "Shell and water",
    }
}

/// Quantities by supplier; for another sheet as well.
pub fn quantities(flow: &mut Flow, job: &Job) {
    flow.heading("Quantities");
    let columns = [
        Column::words("Quantity"),
        Column::figures("Low"),
        Column::figures("Expected"),
        Column::figures("High"),
        Column::figures("Other units"),
    ];
    let mut rows = Vec::new();
    let mut named = "";
    for it in &job.ranged().quantities {
        let supplier = supplier(it.group);
        if named != supplier {
            named = supplier;
            rows.push(Row::Group(supplier.to_owned()));
        }
        let range = |pick: fn(&RangeFigures) -> &batterboard_core::report::Figure| {
            it.range
                .as_ref()
                .map_or_else(String::new, |range| pick(range).shown.text.clone())
        };
        let caveats: String = it
            .caveats
            .iter()
            .map(|c| format!(" [{}]", c.words()))
            .collect();
        rows.push(Row::Cells(vec![
            format!("{}{caveats}", it.label),
            range(|it| &it.low),
            it.shown.text.clone(),
            range(|it| &it.high),
            it.other.text.clone(),
        ]));
    }
    flow.table(&columns, &rows);
    flow.paragraph(
        "Low and high come from what nobody knows exactly before the hole is dug; the working names every cause. Earth in bank measure unless a line says loose.",
        SMALL,
    );
}

/// What others answer for, measured for their offers.
fn by_others(flow: &mut Flow, job: &Job) {
    let Some((shell, _)) = job.site.placed_shell() else {
        return;
    };
    let length = |metres: f64| show(Measure::LongLength, metres, job.system).text;
    let near = |metres: f64| show(Measure::Length, metres, job.system).text;
    let ring = offset::offset_region(&shell.footprint, BONDING, RING_TOLERANCE).perimeter();
    let fences = job
        .site
        .features()
        .iter()
        .filter(|it| it.kind == FeatureKind::Fence);
    let fences: f64 = fences.map(|it| it.shape.length()).sum();
    flow.heading("By others");
    let rows = [
        Row::Cells(vec![
            format!(
                "Equipotential bonding ring, {} outside the water's edge",
                near(BONDING)
            ),
            length(ring),
            "The licensed electrician decides on conductor, distance and connections.".to_owned(),
        ]),
        Row::Cells(vec![
            "Barrier: fences on the plan, gates included".to_owned(),
            length(fences),
            "The local authority decides what barrier stands before any water goes in.".to_owned(),
        ]),
    ];
    let open = job.report.barrier.iter().flat_map(|it| &it.openings);
    let open: f64 = open.map(|it| it.width.value).sum();
    let mut rows = rows.to_vec();
    if open > 0.0 {
        rows.push(Row::Cells(vec![
            "Barrier: places that are open still".to_owned(),
            length(open),
            "Closed before any water goes in.".to_owned(),
        ]));
    }
    let columns = [
        Column::words("What"),
        Column::figures("Length"),
        Column::words("Who decides"),
    ];
    flow.table(&columns, &rows);
}

/// What it costs by the rates of the job; nothing without any.
pub fn cost(flow: &mut Flow, job: &Job) {
    let Some(cost) = &job.ranged().cost else {
        return;
    };
    flow.heading("Cost");
    let columns = [
        Column::words("Line"),
        Column::figures("Rate"),
        Column::figures("Low"),
        Column::figures("Cost"),
        Column::figures("High"),
    ];
    let mut rows: Vec<Row> = (cost.lines.iter())
        .map(|it| {
            Row::Cells(vec![
                it.label.to_owned(),
                it.rate.text.clone(),
                it.low.text.clone(),
                it.cost.text.clone(),
                it.high.text.clone(),
            ])
        })
        .collect();
    rows.push(Row::Sum(vec![
        "Total".to_owned(),
        String::new(),
        cost.low.text.clone(),
        cost.total.text.clone(),
        cost.high.text.clone(),
    ]));
    flow.table(&columns, &rows);
    for it in &cost.not_counted {
        flow.item(
            "•",
            &format!("{}, {}: {}", it.label, it.rate.text, it.why),
            SMALL,
        );
    }
    flow.paragraph(
        "By the rates entered for this job; lines without a rate are not in the total.",
        SMALL,
    );
}

/// How a quantity came about.
pub fn working(flow: &mut Flow, it: &Workings) {
    flow.paragraph(
        &format!("{}: {}", it.label, it.shown.text),
        Style::heavy(BODY.points),
    );
    flow.paragraph(&it.formula, BODY);
    if !it.arithmetic.is_empty() {
        flow.paragraph(&it.arithmetic, BODY);
    }
    if !it.waste.is_empty() {
        flow.paragraph(&format!("Waste: {}", it.waste), SMALL);
    }
    if !it.rounding.is_empty() {
        flow.paragraph(&format!("Rounded: {}", it.rounding), SMALL);
    }
    if let Some(range) = &it.range {
        for cause in &range.causes {
            let text = format!(
                "{}: {} to {}",
                cause.words, cause.less.shown.text, cause.more.shown.text
            );
            flow.item("•", &text, SMALL);
        }
    }
    for assumption in &it.assumptions {
        flow.item("•", assumption, SMALL);
    }
    if !it.source.is_empty() {
        flow.paragraph(&format!("Source: {}", it.source), SMALL);
    }
}
