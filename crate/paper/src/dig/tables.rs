//! The tables of the dig sheet: stakes with their ties, offset stakes, diagonals, levels.

use batterboard_core::report::{
    DiagonalFigures, Figure, OffsetFigures, RodFigures, StakeoutFigures, StationFigures, TieFigures,
};
use batterboard_core::stakeout::BaseSide;

use crate::flow::{BODY, Column, Flow, Row, SMALL};
use crate::words::Language;

fn text(figure: Option<&Figure>) -> String {
    figure.map_or_else(String::new, |it| it.shown.text.clone())
}

fn rod(figure: Option<&RodFigures>) -> String {
    figure.map_or_else(String::new, |it| {
        if it.shows {
            it.text.clone()
        } else {
            format!("{} (!)", it.text)
        }
    })
}

/// Tape A, tape B, crossing angle and error.
fn tie_cells(tie: Option<&TieFigures>, language: Language) -> (Vec<String>, bool) {
    let Some(tie) = tie else {
        return (vec![String::new(); 5], false);
    };
    let [a, b] = &tie.tapes;
    let blocked = tie.blocked.iter().flatten().next();
    let note = match (blocked, tie.sound) {
        (Some(what), _) => {
            let words = language.say("in the way:", "estorba:");
            format!("{words} {}", language.message(what))
        }
        (None, false) => language.say("poor angle", "mal ángulo").to_owned(),
        (None, true) => {
            let side = match tie.side {
                BaseSide::Left => language.say("left", "izq."),
                BaseSide::Right => language.say("right", "der."),
            };
            format!("{}, {} {side}", tie.along.shown.text, tie.off.shown.text)
        }
    };
    let cells = vec![
        a.shown.text.clone(),
        b.shown.text.clone(),
        tie.crossing.shown.text.clone(),
        text(tie.error.as_ref()),
        note,
    ];
    (cells, blocked.is_some() || !tie.sound)
}

fn tie_columns(language: Language) -> [Column; 5] {
    [
        Column::figures(language.say("Tape A", "Cinta A")),
        Column::figures(language.say("Tape B", "Cinta B")),
        Column::figures(language.say("Cross at", "Cruzan a")),
        Column::figures(language.say("Error", "Error")),
        Column::words(language.say("Along A-B, and off it", "A lo largo de A-B, y fuera")),
    ]
}

/// Every stake with its tie.
pub(super) fn ties(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    flow.heading(language.say("Stakes", "Estacas"));
    let mut columns = vec![Column::words(language.say("Stake", "Estaca"))];
    columns.extend(tie_columns(language));
    columns.push(Column::figures(language.say("Ground", "Terreno")));
    columns.push(Column::figures(language.say("Bottom", "Fondo")));
    columns.push(Column::figures(language.say("Rod", "Estadal")));
    let mut rows = Vec::new();
    let mut line = None;
    for it in &stakeout.stakes {
        if line != Some(it.line) {
            line = Some(it.line);
            rows.push(Row::Group(language.staked(it.line).to_owned()));
        }
        let (tie, weak) = tie_cells(it.tie.as_ref(), language);
        let mut cells = vec![it.name.clone()];
        cells.extend(tie);
        cells.push(text(it.ground.as_ref()));
        cells.push(text(it.bottom.as_ref()));
        cells.push(rod(it.rod.as_ref()));
        rows.push(if weak {
            Row::Alarm(cells)
        } else {
            Row::Cells(cells)
        });
    }
    flow.table(&columns, &rows);
    flow.paragraph(
        language.say(
            "Tapes level. Between 30 and 150 degrees tapes cross well; a stake outside of that, or with something in the way, is set from another pair of fixed points or by base line and offset.",
            "Cintas a nivel. Entre 30 y 150 grados las cintas cruzan bien; si no, o si algo estorba, fije la estaca desde otro par de puntos o con la línea A-B y la distancia fuera de ella.",
        ),
        SMALL,
    );
}

/// Stakes clear of the dig, with the cut from each.
pub(super) fn offsets(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    if stakeout.offsets.is_empty() {
        return;
    }
    flow.heading(language.say("Offset stakes", "Estacas de referencia"));
    let mut columns = vec![
        Column::words(language.say("Stake", "Estaca")),
        Column::words(language.say("For", "Para")),
        Column::figures(language.say("To bottom edge", "Al fondo")),
        Column::figures(language.say("Ground", "Terreno")),
        Column::figures(language.say("Cut to bottom", "Corte al fondo")),
        Column::figures(language.say("Rod on bottom", "Estadal en el fondo")),
    ];
    columns.extend(tie_columns(language));
    let row = |it: &OffsetFigures| {
        let (tie, weak) = tie_cells(it.tie.as_ref(), language);
        let mut cells = vec![
            it.name.clone(),
            format!("{} ({})", it.serves, language.message(&it.towards.into())),
            it.distance.shown.text.clone(),
            text(it.ground.as_ref()),
            text(it.cut.as_ref()),
            rod(it.rod.as_ref()),
        ];
        cells.extend(tie);
        if weak {
            Row::Alarm(cells)
        } else {
            Row::Cells(cells)
        }
    };
    let rows: Vec<Row> = stakeout.offsets.iter().map(row).collect();
    flow.table(&columns, &rows);
    let words = language.say(
        "They stand clear of the top of dig by",
        "Están libres de la orilla superior por",
    );
    flow.paragraph(&format!("{words} {}.", stakeout.clear.shown.text), SMALL);
}

pub(super) fn diagonals(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    if stakeout.diagonals.is_empty() {
        return;
    }
    flow.heading(language.say("Check diagonals", "Diagonales de comprobación"));
    let columns = [
        Column::words(language.say("Stakes", "Estacas")),
        Column::figures(language.say("First to third", "Primera a tercera")),
        Column::figures(language.say("Second to fourth", "Segunda a cuarta")),
        Column::figures(language.say(
            "An inch longer: off square by",
            "Una pulgada más: fuera de escuadra",
        )),
    ];
    let row = |it: &DiagonalFigures| {
        let [first, second] = &it.lengths;
        let [angle, over] = &it.off_by_inch;
        Row::Cells(vec![
            it.stakes.join(" "),
            first.shown.text.clone(),
            second.shown.text.clone(),
            format!("{}, {}", angle.shown.text, over.shown.text),
        ])
    };
    let rows: Vec<Row> = stakeout.diagonals.iter().map(row).collect();
    flow.table(&columns, &rows);
}

/// The laser, and depths by station.
pub(super) fn levels(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    flow.heading(language.say("Levels", "Niveles"));
    match &stakeout.level {
        Some(level) => {
            // A mark that nobody named is not named twice.
            let mark = match level.mark.template() {
                None => format!("{} ", level.mark),
                Some(_) => String::new(),
            };
            let words = match language {
                Language::English => format!(
                    "Benchmark {} at {}. Rod on it {}: line of sight {}. Rod on the rim as planned: {}.",
                    level.mark, level.elevation.shown.text, level.backsight.text, level.instrument.shown.text, level.rim.text
                ),
                Language::Spanish => format!(
                    "Banco de nivel {}a {}. Estadal sobre él {}: altura del láser {}. Estadal sobre el borde según el plan: {}.",
                    mark, level.elevation.shown.text, level.backsight.text, level.instrument.shown.text, level.rim.text
                ),
            };
            flow.paragraph(&words, BODY);
        }
        None => flow.paragraph(
            language.say(
                "The laser is not set up yet: enter its reading on the benchmark, and the rod readings are worked out. Line to write on: benchmark ________  reading on it ________",
                "El láser aún no está puesto: anote la lectura sobre el banco de nivel y se calculan las lecturas del estadal. Para anotar: banco ________  lectura ________",
            ),
            BODY,
        ),
    }
    let columns = [
        Column::words(language.say("Station", "Estación")),
        Column::figures(language.say("From shallow end", "Desde el extremo bajo")),
        Column::words(language.say("Floor", "Fondo")),
        Column::figures(language.say("Below coping", "Bajo el borde")),
        Column::figures(language.say("Top of base", "Base terminada")),
        Column::figures(language.say("Bottom of dig", "Fondo excavado")),
        Column::figures(language.say("Rod on base", "Estadal en la base")),
        Column::figures(language.say("Rod on bottom", "Estadal en el fondo")),
    ];
    let row = |it: &StationFigures| {
        Row::Cells(vec![
            it.name.clone(),
            it.along.shown.text.clone(),
            language.floor(it.kind).to_owned(),
            it.depth.shown.text.clone(),
            it.base.shown.text.clone(),
            it.bottom.shown.text.clone(),
            rod(it.rod_base.as_ref()),
            rod(it.rod_bottom.as_ref()),
        ])
    };
    let rows: Vec<Row> = stakeout.stations.iter().map(row).collect();
    flow.table(&columns, &rows);
}
