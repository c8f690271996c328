//! The permit plan: the lot to scale with every course lettered, the work with its dimensions, and the tables that the
//! authority reads.

use batterboard_core::drawing::{Anchor, Item, Layer, LineSide};
use batterboard_core::finding::{Finding, Scope};
use batterboard_core::geom::distance::{Figure, nearest};
use batterboard_core::geom::{Point, Segment, Vector};
use batterboard_core::lot::CourseShape;
use batterboard_core::math;
use batterboard_core::report::ClearanceFigures;
use batterboard_core::units::{Measure, format_bearing, show};

use crate::binder::Binder;
use crate::blocks;
use crate::covered;
use crate::flow::{BODY, Column, Flow, Row, SMALL, TITLE};
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::legend;
use crate::mark::{Area, Color, Document, Ink, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::plan;
use crate::site_plan;
use crate::words::Language;

/// Letters of a course on its line, points; a course whose letters do not fit gets a tag.
const COURSE: Style = Style::heavy(7.5);

/// A course, as it is lettered and as the table has it.
struct Course {
    tag: Option<String>,
    lettered: String,
    row: Option<Row>,
    curved: bool,
}

/// The sheet.
pub fn make(job: &Job, wanted: &SheetWish) -> (Document, Vec<Finding>) {
    let extent = site_plan::extent(job);
    let mut binder = site_plan::binder(job, wanted, extent, side_width);
    let (plan_area, column) = site_plan::beside(binder.body(), side_width(&binder));
    let window = site_plan::window(job, wanted, plan_area, extent);
    let courses = courses(job, 1000.0 / window.scale.ratio);
    let mut drawing = site_plan::drawing(job, wanted, |item, layer| {
        // Courses are lettered here with their bearings.
        !(layer == Layer::LotLine && matches!(item, Item::Label { .. }))
    });
    letter(&mut drawing.items, job, &courses);
    drawing.items.extend(offsets(job, &drawing.items));
    let drawn = plan::draw(&drawing, &window, Palette::Drafting, &[]);
    binder.put_plan(drawn.marks, window);
    let outside = site_plan::outside(job, &window, extent);

    let mut side = binder.flow(column.width);
    let language = wanted.language;
    blocks::scale_and_north(&mut side, &job.site, window.scale, (job.system, language));
    if let Some(finding) = &outside {
        blocks::findings(&mut side, [finding], wanted.language);
    }
    side.heading("Legend");
    legend::put(&mut side, &drawn.layers, Palette::Drafting, language);
    notes(&mut side, job, &drawn.left_out);
    vicinity(&mut side);
    revisions(&mut side);
    binder.pour_beside((plan_area, column), &side, |main| {
        tables(main, job, &courses)
    });
    (binder.document(), outside.into_iter().collect())
}

/// Width of the column beside the plan.
fn side_width(binder: &Binder<'_>) -> f64 {
    (binder.body().width * 0.26).clamp(58.0, 160.0)
}

/// Every course with how it is lettered, its tag where its letters do not fit its line.
fn courses(job: &Job, per_meter: f64) -> Vec<Course> {
    let records = &job.site.site().lot.courses;
    let length = |metres: f64| show(Measure::LongLength, metres, job.system).text;
    let (mut lines, mut curves) = (0, 0);
    let course = |side: &batterboard_core::lot::Side| {
        let record = records.get(side.course).map(|it| &it.shape);
        let along = side.segment.length();
        match (record, &side.segment) {
            (
                Some(CourseShape::Curve {
                    chord_bearing,
                    chord,
                    radius,
                    ..
                }),
                Segment::Arc { sweep, .. },
            ) => {
                curves += 1;
                let tag = format!("C{curves}");
                let delta = show(Measure::Heading, sweep.abs(), job.system).text;
                let row = [
                    tag.clone(),
                    length(*radius),
                    length(along),
                    delta,
                    format_bearing(*chord_bearing),
                    length(*chord),
                ];
                Course {
                    tag: Some(tag.clone()),
                    lettered: tag,
                    row: Some(Row::Cells(row.to_vec())),
                    curved: true,
                }
            }
            (record, segment) => {
                let (bearing, distance) = match record {
                    Some(CourseShape::Line { bearing, distance }) => (*bearing, *distance),
                    _ => ((segment.to() - segment.from()).bearing(), along),
                };
                let text = format!("{}  {}", format_bearing(bearing), length(distance));
                if COURSE.length(&text) + 2.0 <= along * per_meter {
                    return Course {
                        tag: None,
                        lettered: text,
                        row: None,
                        curved: false,
                    };
                }
                lines += 1;
                let tag = format!("L{lines}");
                let row = vec![tag.clone(), format_bearing(bearing), length(distance)];
                Course {
                    tag: Some(tag.clone()),
                    lettered: tag,
                    row: Some(Row::Cells(row)),
                    curved: false,
                }
            }
        }
    };
    job.site.lot().lot.sides.iter().map(course).collect()
}

fn letter(items: &mut Vec<Item>, job: &Job, courses: &[Course]) {
    for (side, course) in job.site.lot().lot.sides.iter().zip(courses) {
        let line = match &side.segment {
            Segment::Line { from, to } => vec![*from, *to],
            arc => (0..=12)
                .map(|i| arc.point_at(f64::from(i) / 12.0))
                .collect(),
        };
        items.push(Item::Label {
            layer: Layer::LotLine,
            // The outline runs counter-clockwise: outside is to the right.
            anchor: Anchor::Line {
                line,
                share: 0.5,
                side: LineSide::Right,
            },
            text: course.lettered.clone(),
        });
    }
}

/// From the rim to the lot in the two nearest directions that differ, where no clearance is dimensioned there already.
fn offsets(job: &Job, items: &[Item]) -> Vec<Item> {
    const DIFFERENT: f64 = 0.5;
    let Some((shell, placement)) = job.site.placed_shell() else {
        return Vec::new();
    };
    let rim = shell.rim.posed(&placement.pose());
    let dimensioned: Vec<(Point, Point)> = (items.iter())
        .filter_map(|item| match item {
            Item::Measured { from, to, .. } => Some((*from, *to)),
            _ => None,
        })
        .collect();
    let mut found: Vec<(f64, Point, Point)> = Vec::new();
    for side in &job.site.lot().lot.sides {
        let line: Vec<Point> = match &side.segment {
            Segment::Line { from, to } => vec![*from, *to],
            arc => (0..=24)
                .map(|i| arc.point_at(f64::from(i) / 24.0))
                .collect(),
        };
        if let Some(it) = nearest(Figure::Area(&rim), Figure::Chain(&line)) {
            found.push((it.distance, it.from, it.to));
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut kept: Vec<(f64, Point, Point)> = Vec::new();
    for it in found {
        let along = |(_, from, to): &(f64, Point, Point)| (*to - *from).unit().unwrap_or_default();
        let new = |other: &(f64, Point, Point)| {
            let between: Vector = along(other);
            math::acos(between.dot(along(&it)).clamp(-1.0, 1.0)) > DIFFERENT
        };
        if kept.len() < 2 && it.0 > 0.0 && kept.iter().all(new) {
            kept.push(it);
        }
    }
    let same = |a: Point, b: Point| a.distance(b) < 0.05;
    kept.retain(|(_, from, to)| {
        !dimensioned
            .iter()
            .any(|(a, b)| same(*a, *from) && same(*b, *to))
    });
    let item = |(key, (distance, from, to)): (u64, (f64, Point, Point))| Item::Measured {
        layer: Layer::Tape,
        from,
        to,
        text: format!(
            "{} to rim",
            show(Measure::Length, distance, job.system).text
        ),
        key: u64::MAX - key,
        focused: false,
    };
    (0..).zip(kept).map(item).collect()
}

/// An empty box for a sketch of where the lot lies.
fn vicinity(flow: &mut Flow) {
    flow.heading("Vicinity");
    let mut pen = Pen::default();
    let area = Area {
        x: 0.2,
        y: 0.2,
        width: flow.width() - 0.4,
        height: 34.0,
    };
    pen.rectangle(area, Ink::line(Stroke::full(Color::RULE, 0.2)));
    pen.text(
        Point::new(2.0, 32.6),
        Lean::Left,
        "Sketch, not to scale",
        SMALL,
    );
    flow.drawn(34.6, pen);
}

fn tables(flow: &mut Flow, job: &Job, courses: &[Course]) {
    flow.heading("Verdict");
    flow.paragraph(&job.report.verdict.text, Style::heavy(BODY.points));
    for note in &job.report.verdict.notes {
        flow.item("•", &note.text, BODY);
    }
    clearances(flow, job);
    covered::coverage(flow, job);
    shell(flow, job);
    let rows = |curved: bool| -> Vec<Row> {
        let of = courses
            .iter()
            .filter(|it| it.curved == curved && it.tag.is_some());
        of.filter_map(|it| it.row.clone()).collect()
    };
    let (lines, curves) = (rows(false), rows(true));
    if !curves.is_empty() {
        flow.heading("Curves");
        let columns = [
            Column::words("Curve"),
            Column::figures("Radius"),
            Column::figures("Arc"),
            Column::figures("Delta"),
            Column::figures("Chord bears"),
            Column::figures("Chord"),
        ];
        flow.table(&columns, &curves);
    }
    if !lines.is_empty() {
        flow.heading("Lines");
        let columns = [
            Column::words("Line"),
            Column::figures("Bears"),
            Column::figures("Distance"),
        ];
        flow.table(&columns, &lines);
    }
    blocks::assumed(flow, &job.report.assumed, Language::English);
    flow.heading("Cautions");
    let findings = job.report.findings.iter();
    blocks::findings(
        flow,
        findings.filter(|it| it.scope != Scope::Site || it.is_fault()),
        Language::English,
    );
}

/// What bearings, areas and elevations count from, and what the firm says.
fn notes(flow: &mut Flow, job: &Job, left_out: &[String]) {
    flow.heading("Notes");
    let lot = &job.report.lot;
    let mut notes = vec![format!(
        "Lot area {} ({}).",
        lot.area.shown.text, lot.area.other.text
    )];
    if let Some(basis) = &lot.basis {
        notes.push(format!(
            "Bearings count from {}. {}",
            basis.north.words(),
            basis.words
        ));
    }
    match &lot.closing {
        Some(closing) => notes.push(format!(
            "The courses close within {}, {}.",
            lot.misclosure.shown.text, closing.shown.text
        )),
        None => notes.push("The courses close exactly.".to_owned()),
    }
    notes.extend(
        job.report
            .datum
            .iter()
            .map(|it| format!("Elevations count from {it}.")),
    );
    notes.extend(job.firm().1);
    if !left_out.is_empty() {
        notes.push(format!(
            "Not lettered for want of room: {}.",
            left_out.join("; ")
        ));
    }
    for note in &notes {
        flow.item("•", note, BODY);
    }
}

/// By rule the clearance with the least room, and every one that falls short.
pub fn clearances(flow: &mut Flow, job: &Job) {
    let mut rules: Vec<usize> = Vec::new();
    let mut rows = Vec::new();
    for it in &job.report.clearances {
        if rules.contains(&it.rule) && !it.falls_short {
            continue;
        }
        rules.push(it.rule);
        rows.push(clearance(it));
    }
    if rows.is_empty() {
        return;
    }
    flow.heading("Clearances");
    let columns = [
        Column::words("Rule"),
        Column::words("To"),
        Column::figures("Required"),
        Column::figures("Provided"),
        Column::figures("Room"),
        Column::words("Source"),
    ];
    flow.table(&columns, &rows);
    let count = job.report.clearances.len();
    flow.paragraph(
        &format!("{count} clearances were measured; of each rule the one with the least room is listed, and every one that falls short."),
        SMALL,
    );
}

fn clearance(it: &ClearanceFigures) -> Row {
    let caveats: String = it
        .caveats
        .iter()
        .map(|c| format!(" [{}]", c.words()))
        .collect();
    let cells = vec![
        it.name.clone(),
        it.target.clone(),
        it.required.shown.text.clone(),
        match &it.above {
            Some(_) => format!("{} aslant{caveats}", it.distance.shown.text),
            None => format!("{}{caveats}", it.distance.shown.text),
        },
        it.room.shown.text.clone(),
        if it.source.is_empty() {
            "not told".to_owned()
        } else {
            it.source.clone()
        },
    ];
    if it.falls_short {
        Row::Alarm(cells)
    } else {
        Row::Cells(cells)
    }
}

pub fn shell(flow: &mut Flow, job: &Job) {
    let Some(shell) = &job.report.shell else {
        return;
    };
    flow.heading("Shell");
    let mut rows = vec![
        ("Name", shell.name.clone()),
        (
            "Length at the water's edge",
            shell.length.shown.text.clone(),
        ),
        ("Width at the water's edge", shell.width.shown.text.clone()),
        ("Water surface", shell.area.shown.text.clone()),
        ("Deepest below the coping", shell.deepest.shown.text.clone()),
        (
            "Coping elevation",
            shell.coping_elevation.shown.text.clone(),
        ),
    ];
    if let Some((checked, _)) = job.site.placed_shell() {
        let shallow = show(Measure::Length, checked.shallowest(), job.system).text;
        rows.insert(4, ("Shallowest below the coping", shallow));
    }
    let row = |(name, value): (&str, String)| Row::Cells(vec![name.to_owned(), value]);
    let rows: Vec<Row> = rows.into_iter().map(row).collect();
    flow.table(&[Column::words("What"), Column::figures("Figure")], &rows);
}

/// Lines for what is changed by hand.
fn revisions(flow: &mut Flow) {
    const LINE: f64 = 6.0;
    const LINES: u8 = 3;
    flow.heading("Revisions");
    let mut pen = Pen::default();
    let (number, day) = (0.0, flow.width() * 0.12);
    let what = flow.width() * 0.34;
    for (x, title) in [
        (number, "No."),
        (day, "Date"),
        (what, "What changed, who says so"),
    ] {
        pen.text(Point::new(x, 2.6), Lean::Left, title, TITLE);
    }
    for k in 1..=LINES {
        let y = 3.0 + LINE * f64::from(k);
        let ends = [Point::new(0.0, y), Point::new(flow.width(), y)];
        pen.path(ends, false, Ink::line(Stroke::full(Color::RULE, 0.15)));
    }
    flow.drawn(3.6 + LINE * f64::from(LINES), pen);
}
