//! The record: everything that was read in the yard, with time and name, and what follows from it; and the photographs of
//! the yard.

use batterboard_core::drawing::{Layer, stakes};
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::report::{BottomFigures, RimFigures, StakeoutFigures};
use batterboard_core::site::ReadingOf;
use batterboard_core::stakeout::{GradeWork, ShellEnd};

use crate::binder::Binder;
use crate::blocks;
use crate::flow::{BODY, Column, Flow, Row, SMALL};
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::mark::{Area, Color, Document, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::photographs;
use crate::plan;
use crate::scale::Lie;
use crate::site_plan;
use crate::words::Language;

/// The sheet.
///
/// # Errors
/// When nothing was read back yet and no photograph was taken.
pub fn make(job: &Job, wanted: &SheetWish) -> Result<(Document, Vec<Finding>), Finding> {
    let read = (job.stakeout.as_ref()).filter(|it| !it.readings.is_empty());
    let has_photographs = !job.site.site().photographs.is_empty();
    if read.is_none() && !has_photographs {
        if job.stakeout.is_none() {
            return Err(crate::no_shell());
        }
        return Err(Finding::fault(
            "nothing-read",
            "Nothing was read back in the yard yet, so there is nothing to record.",
            "Type the readings in: on the page under \"Stakes and levels\".",
        )
        .under("/stakeout/readings"));
    }
    let lie = wanted.lie.unwrap_or(Lie::Tall);
    let mut binder = Binder::new(job, wanted, lie.of(wanted.paper(job)));
    if let Some(stakeout) = read {
        readings_of(&mut binder, job, wanted, stakeout);
    }
    let page = binder.len();
    photographs::put(&mut binder, job, wanted, page);
    Ok((binder.document(), Vec::new()))
}

/// What was read in the yard, from the first page on.
fn readings_of(binder: &mut Binder<'_>, job: &Job, wanted: &SheetWish, stakeout: &StakeoutFigures) {
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
    let language = wanted.language;
    answers(&mut flow, stakeout, language);
    if let Some(bottom) = &stakeout.bottom {
        bottom_table(&mut flow, bottom, language);
    }
    if let Some(rim) = &stakeout.rim {
        rim_table(&mut flow, rim, language);
    }
    taped_table(&mut flow, stakeout, language);
    readings(&mut flow, stakeout, language);
    blocks::findings(&mut flow, &stakeout.findings, language);
    signatures(&mut flow, language);
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
fn answers(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    flow.heading(language.say("What the readings say", "Lo que dicen las lecturas"));
    if let Some(bottom) = &stakeout.bottom {
        let [cut, fill, stone] =
            [&bottom.cut, &bottom.fill, &bottom.stone].map(|it| &it.shown.text);
        let text = match language {
            Language::English => format!(
                "Bottom: {cut} to cut, {fill} of stone to fill; as it lies it takes {stone} of stone more or less than planned."
            ),
            Language::Spanish => format!(
                "Fondo: {cut} por cortar, {fill} de piedra por rellenar; como está lleva {stone} de piedra más o menos que lo planeado."
            ),
        };
        flow.item("•", &text, BODY);
        flow.paragraph(&language.message(&bottom.method.into()), SMALL);
    }
    if let Some(rim) = &stakeout.rim {
        let style = if rim.within {
            BODY
        } else {
            Style::heavy(BODY.points).in_color(Color::ALARM)
        };
        let (off, most) = (&rim.out_of_level.shown.text, &rim.limit.shown.text);
        let text = match language {
            Language::English => format!(
                "Rim: {off} out of level, {} the limit chosen of {most} (common practice, no source).",
                if rim.within { "within" } else { "beyond" }
            ),
            Language::Spanish => format!(
                "Borde: {off} de desnivel, {} del límite elegido de {most} (práctica común, sin fuente).",
                if rim.within { "dentro" } else { "fuera" }
            ),
        };
        flow.item("•", &text, style);
        for (end, by) in rim.lifts.iter().flatten() {
            let by = &by.shown.text;
            let text = match language {
                Language::English => format!("Lift the {} by {by}.", end.words()),
                Language::Spanish => format!("Levante {} {by}.", spanish_end(*end)),
            };
            flow.item("•", &text, BODY);
        }
        if let Some(twist) = &rim.twist {
            let words = language.say(
                "Twist that no lifting mends",
                "Torsión que no se quita levantando",
            );
            flow.item("•", &format!("{words}: {}.", twist.shown.text), BODY);
        }
        if let Some(above) = &rim.above_plan {
            let words = language.say(
                "Mean of the rim above the plan",
                "Promedio del borde sobre el plano",
            );
            flow.item("•", &format!("{words}: {}.", above.shown.text), BODY);
        }
    }
    for it in &stakeout.taped {
        let Some(narrower) = it.found.as_ref().and_then(|found| found.narrower.as_ref()) else {
            continue;
        };
        if narrower.value > 0.0 {
            let (stake, by) = (&it.stake, &narrower.shown.text);
            let text = match language {
                Language::English => {
                    format!("At {stake} the hole is {by} narrower than the over-dig asks.")
                }
                Language::Spanish => {
                    format!(
                        "En {stake} la excavación es {by} más angosta de lo que pide el sobreancho."
                    )
                }
            };
            flow.item("•", &text, BODY);
        }
    }
}

/// What is lifted, in Spanish.
const fn spanish_end(end: ShellEnd) -> &'static str {
    match end {
        ShellEnd::Deep => "el extremo hondo",
        ShellEnd::Shallow => "el extremo bajo",
        ShellEnd::Left => "el lado izquierdo (mirando hacia el extremo hondo)",
        ShellEnd::Right => "el lado derecho (mirando hacia el extremo hondo)",
    }
}

fn bottom_table(flow: &mut Flow, bottom: &BottomFigures, language: Language) {
    flow.heading(language.say("Bottom as dug", "Fondo excavado"));
    let columns = [
        Column::words(language.say("Place", "Lugar")),
        Column::figures(language.say("Elevation", "Elevación")),
        Column::figures(language.say("Above grade", "Sobre el nivel")),
        Column::words(language.say("Do", "Haga")),
        Column::figures(language.say("Stands for", "Vale por")),
    ];
    let row = |it: &batterboard_core::report::BottomPlace| {
        let work = match it.grade {
            GradeWork::Cut => language.say("cut", "corte"),
            GradeWork::OnGrade => language.say("on grade", "a nivel"),
            GradeWork::Fill => language.say("fill with stone", "rellene con piedra"),
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

fn rim_table(flow: &mut Flow, rim: &RimFigures, language: Language) {
    flow.heading(language.say("Rim as set", "Borde colocado"));
    let columns = [
        Column::words(language.say("Place", "Lugar")),
        Column::figures(language.say("Below the highest", "Bajo el más alto")),
        Column::figures(language.say("Off the plane", "Fuera del plano")),
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

fn taped_table(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    if stakeout.taped.is_empty() {
        return;
    }
    flow.heading(language.say("Points as taped", "Puntos medidos con cinta"));
    let columns = [
        Column::words(language.say("Point", "Punto")),
        Column::words(language.say("Of", "De")),
        Column::figures(language.say("Off the plan", "Fuera del plano")),
        Column::figures(language.say("Toward", "Hacia")),
        Column::figures(language.say("Narrower", "Más angosto")),
        Column::words(language.say("Note", "Nota")),
    ];
    let row = |it: &batterboard_core::report::TapedFigures| {
        let found = it.found.as_ref();
        let text = |figure: Option<&batterboard_core::report::Figure>| {
            figure.map_or_else(String::new, |it| it.shown.text.clone())
        };
        let apart = it.apart.as_ref();
        let cannot = language.say(
            "tapes cannot meet by",
            "a las cintas les falta para cruzarse",
        );
        Row::Cells(vec![
            it.stake.clone(),
            language.staked(it.line).to_owned(),
            text(found.and_then(|it| it.miss.as_ref())),
            text(found.and_then(|it| it.towards.as_ref())),
            text(found.and_then(|it| it.narrower.as_ref())),
            apart.map_or_else(String::new, |it| format!("{cannot} {}", it.shown.text)),
        ])
    };
    let rows: Vec<Row> = stakeout.taped.iter().map(row).collect();
    flow.table(&columns, &rows);
}

/// Every reading as it was typed.
fn readings(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    flow.heading(language.say("Readings as typed", "Lecturas anotadas"));
    let columns = [
        Column::words(language.say("Of", "De")),
        Column::words(language.say("Place", "Lugar")),
        Column::words(language.say("Reading", "Lectura")),
        Column::words(language.say("When", "Cuándo")),
        Column::words(language.say("By", "Por")),
    ];
    let row = |it: &batterboard_core::report::ReadingFigures| {
        let (of, place) = match &it.reading.of {
            ReadingOf::Bottom(rod) => (language.say("bottom", "fondo"), rod.place.clone()),
            ReadingOf::Rim(rod) => (language.say("rim", "borde"), rod.place.clone()),
            ReadingOf::Taped(taped) => (language.say("tapes", "cintas"), taped.stake.clone()),
        };
        Row::Cells(vec![
            of.to_owned(),
            place,
            read_words(&it.words, language),
            it.reading.when.clone(),
            it.reading.by.clone(),
        ])
    };
    let rows: Vec<Row> = stakeout.readings.iter().map(row).collect();
    flow.table(&columns, &rows);
}

/// A reading as the core shows it; of a rod it ends in what was read on the mark.
fn read_words(words: &str, language: Language) -> String {
    match (language, words.strip_suffix(" on the mark")) {
        (Language::Spanish, Some(rods)) => format!("{rods} en la marca"),
        _ => words.to_owned(),
    }
}

/// Lines to sign on.
fn signatures(flow: &mut Flow, language: Language) {
    let mut pen = Pen::default();
    let half = flow.width() / 2.0 - 4.0;
    let names = [
        language.say("Read by, date", "Leyó, fecha"),
        language.say("Seen by, date", "Revisó, fecha"),
    ];
    for (x, name) in [0.0, half + 8.0].into_iter().zip(names) {
        pen.line(
            Point::new(x, 11.0),
            Point::new(x + half, 11.0),
            Stroke::full(Color::BLACK, 0.2),
        );
        pen.text(Point::new(x, 14.4), Lean::Left, name, SMALL);
    }
    flow.drawn(16.0, pen);
}
