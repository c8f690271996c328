//! The record: everything that was read in the yard, with time and name, and what follows from it.

use batterboard_core::drawing::{Layer, stakes};
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::report::{BottomFigures, RimFigures, StakeoutFigures};
use batterboard_core::site::ReadingOf;
use batterboard_core::stakeout::GradeWork;

use crate::binder::Binder;
use crate::blocks;
use crate::flow::{BODY, Column, Flow, Row, SMALL};
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::mark::{Area, Color, Document, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::plan;
use crate::scale::Lie;
use crate::site_plan;
use crate::words::Language;

/// The sheet.
///
/// # Errors
/// When no shell is placed or nothing was read back yet.
pub fn make(job: &Job, wanted: &SheetWish) -> Result<(Document, Vec<Finding>), Finding> {
    let Some(stakeout) = &job.stakeout else {
        return Err(crate::no_shell());
    };
    if stakeout.readings.is_empty() {
        return Err(Finding::fault(
            "nothing-read",
            "Nothing was read back in the yard yet, so there is nothing to record.",
            "Type the readings in: on the page under \"Stakes and levels\".",
        )
        .under("/stakeout/readings"));
    }
    let lie = wanted.lie.unwrap_or(Lie::Tall);
    let mut binder = Binder::new(job, wanted, lie.of(wanted.paper(job)));
    let body = binder.body();
    let plan_area = Area {
        height: body.height * 0.36,
        ..body
    };
    let extent = site_plan::work_extent(job);
    let window = site_plan::window(job, wanted, plan_area, extent);
    let mut drawing = site_plan::drawing(job, wanted, |_, layer| {
        matches!(
            layer,
            Layer::Coping | Layer::DigEdge | Layer::OverDig | Layer::Standpipe | Layer::FloorBreak
        )
    });
    drawing.items.extend(
        stakes(
            places(stakeout)
                .iter()
                .map(|(name, at)| (name.as_str(), *at)),
            None,
        )
        .items,
    );
    let drawn = plan::draw(&drawing, &window, Palette::Drafting, &[]);
    binder.put_plan(drawn.marks, window);

    let mut flow = binder.flow(binder.column_width(1));
    answers(&mut flow, stakeout);
    if let Some(bottom) = &stakeout.bottom {
        bottom_table(&mut flow, bottom);
    }
    if let Some(rim) = &stakeout.rim {
        rim_table(&mut flow, rim);
    }
    taped_table(&mut flow, stakeout);
    readings(&mut flow, stakeout);
    blocks::findings(&mut flow, &stakeout.findings, wanted.language);
    signatures(&mut flow);
    let under = Area {
        y: plan_area.bottom() + 2.0,
        height: body.height - plan_area.height - 2.0,
        ..body
    };
    let more = binder.columns(1, 1);
    binder.pour(
        &flow,
        move |k| if k == 0 { (0, under) } else { more(k - 1) },
        0,
    );
    Ok((binder.document(), Vec::new()))
}

/// Every place that was read, by its name.
fn places(stakeout: &StakeoutFigures) -> Vec<(String, Point)> {
    let bottom = stakeout.bottom.iter().flat_map(|it| &it.places);
    let rim = stakeout.rim.iter().flat_map(|it| &it.places);
    let taped = stakeout
        .taped
        .iter()
        .filter_map(|it| Some((it.stake.clone(), it.found.as_ref()?.at)));
    let bottom = bottom.map(|it| (it.place.clone(), it.at));
    let rim = rim.map(|it| (it.place.clone(), it.at));
    bottom.chain(rim).chain(taped).collect()
}

/// What the readings say, in sentences.
fn answers(flow: &mut Flow, stakeout: &StakeoutFigures) {
    flow.heading("What the readings say");
    if let Some(bottom) = &stakeout.bottom {
        flow.item(
            "•",
            &format!(
                "Bottom: {} to cut, {} of stone to fill; as it lies it takes {} of stone more or less than planned.",
                bottom.cut.shown.text, bottom.fill.shown.text, bottom.stone.shown.text
            ),
            BODY,
        );
        flow.paragraph(bottom.method, SMALL);
    }
    if let Some(rim) = &stakeout.rim {
        let limit = if rim.within { "within" } else { "beyond" };
        let style = if rim.within {
            BODY
        } else {
            Style::heavy(BODY.points).in_color(Color::ALARM)
        };
        flow.item(
            "•",
            &format!(
                "Rim: {} out of level, {limit} the limit chosen of {} (common practice, no source).",
                rim.out_of_level.shown.text, rim.limit.shown.text
            ),
            style,
        );
        for (end, by) in rim.lifts.iter().flatten() {
            flow.item(
                "•",
                &format!("Lift the {} by {}.", end.words(), by.shown.text),
                BODY,
            );
        }
        if let Some(twist) = &rim.twist {
            flow.item(
                "•",
                &format!("Twist that no lifting mends: {}.", twist.shown.text),
                BODY,
            );
        }
        if let Some(above) = &rim.above_plan {
            flow.item(
                "•",
                &format!("Mean of the rim above the plan: {}.", above.shown.text),
                BODY,
            );
        }
    }
    for it in &stakeout.taped {
        let Some(narrower) = it.found.as_ref().and_then(|found| found.narrower.as_ref()) else {
            continue;
        };
        if narrower.value > 0.0 {
            let text = format!(
                "At {} the hole is {} narrower than the over-dig asks.",
                it.stake, narrower.shown.text
            );
            flow.item("•", &text, BODY);
        }
    }
}

fn bottom_table(flow: &mut Flow, bottom: &BottomFigures) {
    flow.heading("Bottom as dug");
    let columns = [
        Column::words("Place"),
        Column::figures("Elevation"),
        Column::figures("Above grade"),
        Column::words("Do"),
        Column::figures("Stands for"),
    ];
    let row = |it: &batterboard_core::report::BottomPlace| {
        let work = match it.grade {
            GradeWork::Cut => "cut",
            GradeWork::OnGrade => "on grade",
            GradeWork::Fill => "fill with stone",
        };
        Row::Cells(vec![
            it.place.clone(),
            it.elevation.shown.text.clone(),
            it.high.shown.text.clone(),
            work.to_owned(),
            it.share.shown.text.clone(),
        ])
    };
    let rows: Vec<Row> = bottom.places.iter().map(row).collect();
    flow.table(&columns, &rows);
}

fn rim_table(flow: &mut Flow, rim: &RimFigures) {
    flow.heading("Rim as set");
    let columns = [
        Column::words("Place"),
        Column::figures("Below the highest"),
        Column::figures("Off the plane"),
    ];
    let row = |it: &batterboard_core::report::RimPlace| {
        Row::Cells(vec![
            it.place.clone(),
            it.below_high.shown.text.clone(),
            it.off_plane
                .as_ref()
                .map_or_else(String::new, |it| it.shown.text.clone()),
        ])
    };
    let rows: Vec<Row> = rim.places.iter().map(row).collect();
    flow.table(&columns, &rows);
}

fn taped_table(flow: &mut Flow, stakeout: &StakeoutFigures) {
    if stakeout.taped.is_empty() {
        return;
    }
    flow.heading("Points as taped");
    let columns = [
        Column::words("Point"),
        Column::words("Of"),
        Column::figures("Off the plan"),
        Column::figures("Toward"),
        Column::figures("Narrower"),
        Column::words("Note"),
    ];
    let row = |it: &batterboard_core::report::TapedFigures| {
        let found = it.found.as_ref();
        let text = |figure: Option<&batterboard_core::report::Figure>| {
            figure.map_or_else(String::new, |it| it.shown.text.clone())
        };
        let apart = it.apart.as_ref();
        Row::Cells(vec![
            it.stake.clone(),
            Language::English.staked(it.line).to_owned(),
            text(found.and_then(|it| it.miss.as_ref())),
            text(found.and_then(|it| it.towards.as_ref())),
            text(found.and_then(|it| it.narrower.as_ref())),
            apart.map_or_else(String::new, |it| {
                format!("tapes cannot meet by {}", it.shown.text)
            }),
        ])
    };
    let rows: Vec<Row> = stakeout.taped.iter().map(row).collect();
    flow.table(&columns, &rows);
}

/// Every reading as it was typed.
fn readings(flow: &mut Flow, stakeout: &StakeoutFigures) {
    flow.heading("Readings as typed");
    let columns = [
        Column::words("Of"),
        Column::words("Place"),
        Column::words("Reading"),
        Column::words("When"),
        Column::words("By"),
    ];
    let row = |it: &batterboard_core::report::ReadingFigures| {
        let (of, place) = match &it.reading.of {
            ReadingOf::Bottom(rod) => ("bottom", rod.place.clone()),
            ReadingOf::Rim(rod) => ("rim", rod.place.clone()),
            ReadingOf::Taped(taped) => ("tapes", taped.stake.clone()),
        };
        Row::Cells(vec![
            of.to_owned(),
            place,
            it.words.clone(),
            it.reading.when.clone(),
            it.reading.by.clone(),
        ])
    };
    let rows: Vec<Row> = stakeout.readings.iter().map(row).collect();
    flow.table(&columns, &rows);
}

/// Lines to sign on.
fn signatures(flow: &mut Flow) {
    let mut pen = Pen::default();
    let half = flow.width() / 2.0 - 4.0;
    for (x, name) in [(0.0, "Read by, date"), (half + 8.0, "Seen by, date")] {
        pen.line(
            Point::new(x, 11.0),
            Point::new(x + half, 11.0),
            Stroke::full(Color::BLACK, 0.2),
        );
        pen.text(Point::new(x, 14.4), Lean::Left, name, SMALL);
    }
    flow.drawn(16.0, pen);
}
