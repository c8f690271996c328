//! The dig sheet for the foreman: stake plan with ties, levels and depths, both sections, order of work, cautions.

use batterboard_core::drawing::{Drawing, Item, Layer, stakes};
use batterboard_core::finding::{Finding, Severity, Topic};
use batterboard_core::geom::{Point, Region, Vector, region};
use batterboard_core::report::{Figure, RodFigures, StakeoutFigures, TieFigures};
use batterboard_core::section::{Edges, Section, standard};
use batterboard_core::site::{FeatureKind, SectionLine};
use batterboard_core::stakeout::BaseSide;
use batterboard_core::units::{Measure, show};

use crate::binder::Binder;
use crate::blocks;
use crate::flow::{BODY, Column, Flow, Row, SMALL};
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::legend;
use crate::mark::{Area, Document};
use crate::pen::{Pen, Style};
use crate::plan;
use crate::section::{self, Extras};
use crate::site_plan;
use crate::words::Language;

/// The sheet; a fault before a shell is placed.
///
/// # Errors
/// When no shell is placed.
pub fn make(job: &Job, wanted: &SheetWish) -> Result<(Document, Vec<Finding>), Finding> {
    let Some(stakeout) = &job.stakeout else {
        return Err(crate::no_shell());
    };
    let language = wanted.language;
    let extent = stake_extent(job, stakeout);
    let mut binder = site_plan::binder(job, wanted, extent, side_width);
    let (plan_area, column) = site_plan::beside(binder.body(), side_width(&binder));
    let window = site_plan::window(job, wanted, plan_area, extent);
    let drawing = stake_plan(job, wanted, stakeout);
    let drawn = plan::draw(&drawing, &window, Palette::Drafting, &[]);
    let layers = drawn.layers.clone();
    binder.put_plan(drawn, window);
    let outside = site_plan::outside(job, &window, extent);

    let mut side = Flow::new(column.width);
    blocks::scale_and_north(&mut side, &job.site, window.scale, (job.system, language));
    if let Some(finding) = &outside {
        blocks::findings(&mut side, [finding]);
    }
    base(&mut side, stakeout, language);
    side.heading(language.say("Legend", "Símbolos"));
    legend::put(&mut side, &layers, Palette::Drafting, language);
    binder.pour_beside((plan_area, column), &side, |main| {
        levels(main, stakeout, language);
        ties(main, stakeout, language);
        offsets(main, stakeout, language);
        diagonals(main, stakeout, language);
    });

    let first = binder.len();
    sections(&mut binder, job, wanted, first);
    let last = binder.len();
    let many = binder.text_columns();
    let mut flow = Flow::new(binder.column_width(many));
    order(&mut flow, job, language);
    cautions(&mut flow, job, stakeout, language);
    binder.pour(&flow, binder.columns(last, many), 0);
    Ok((binder.document(), outside.into_iter().collect()))
}

fn side_width(binder: &Binder<'_>) -> f64 {
    (binder.body().width * 0.26).clamp(56.0, 120.0)
}

/// The corners of all stakes and of the base line.
fn stake_extent(job: &Job, stakeout: &StakeoutFigures) -> (Point, Point) {
    let stakes = stakeout.stakes.iter().map(|it| it.at);
    let offsets = stakeout.offsets.iter().map(|it| it.at);
    let base = stakeout
        .base
        .iter()
        .flat_map(|it| &it.points)
        .map(|it| it.at);
    region::bounds(stakes.chain(offsets).chain(base)).unwrap_or_else(|| site_plan::work_extent(job))
}

/// What the crew needs of the site, and over it every stake with its name.
fn stake_plan(job: &Job, wanted: &SheetWish, stakeout: &StakeoutFigures) -> Drawing {
    use FeatureKind as F;
    let mut drawing = site_plan::drawing(job, wanted, |item, layer| {
        let label = matches!(item, Item::Label { .. });
        match layer {
            Layer::LotLine | Layer::Monument(_) => !label,
            Layer::Feature(
                F::House | F::Outbuilding | F::OverheadLine | F::SepticTank | F::SepticField,
            ) => true,
            Layer::Feature(F::Fence | F::Wall | F::Tree | F::Well) => !label,
            Layer::Buried(_) | Layer::Mark(_) | Layer::OverheadMark => true,
            Layer::Trunk | Layer::Protection | Layer::DigEdge | Layer::OverDig | Layer::Collar => {
                true
            }
            Layer::Standpipe | Layer::Pile | Layer::Benchmark => true,
            Layer::Coping => true,
            _ => false,
        }
    });
    let all = stakeout.stakes.iter().map(|it| (it.name.as_str(), it.at));
    let all = all.chain(stakeout.offsets.iter().map(|it| (it.name.as_str(), it.at)));
    let base = stakeout.base.as_ref().map(|it| {
        let [a, b] = &it.points;
        [a.at, b.at]
    });
    drawing.items.extend(stakes(all, base).items);
    drawing
}

/// What the tapes hang on.
fn base(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    let Some(base) = &stakeout.base else { return };
    flow.heading(language.say("Fixed points", "Puntos fijos"));
    for (name, point) in ["A", "B"].iter().zip(&base.points) {
        flow.item(name, &point.name, Style::heavy(BODY.points));
    }
    let from_a = language.say("From A to B", "De A a B");
    flow.paragraph(&format!("{from_a}: {}", base.length.shown.text), BODY);
    if base.proposed {
        flow.paragraph(
            language.say(
                "Nobody chose them: they are the pair that fixes the stakes best.",
                "Nadie los eligió: son el par que mejor fija las estacas.",
            ),
            SMALL,
        );
    }
    if let Some(worst) = &base.worst {
        let words = language.say(
            "Greatest expected error of a stake",
            "Mayor error esperado de una estaca",
        );
        flow.paragraph(&format!("{words}: {}", worst.shown.text), BODY);
    }
    let words = language.say(
        "Each tape is taken to be read within",
        "Se supone que cada cinta se lee a",
    );
    flow.paragraph(
        &format!("{words} {}.", stakeout.tape_error.shown.text),
        SMALL,
    );
}

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
        (Some(what), _) => format!("{} {what}", language.say("in the way:", "estorba:")),
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
fn ties(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
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
fn offsets(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
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
    let row = |it: &batterboard_core::report::OffsetFigures| {
        let (tie, weak) = tie_cells(it.tie.as_ref(), language);
        let mut cells = vec![
            it.name.clone(),
            format!("{} ({})", it.serves, it.towards),
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

fn diagonals(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
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
    let row = |it: &batterboard_core::report::DiagonalFigures| {
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
fn levels(flow: &mut Flow, stakeout: &StakeoutFigures, language: Language) {
    flow.heading(language.say("Levels", "Niveles"));
    match &stakeout.level {
        Some(level) => {
            let words = match language {
                Language::English => format!(
                    "Benchmark {} at {}. Rod on it {}: line of sight {}. Rod on the rim as planned: {}.",
                    level.mark, level.elevation.shown.text, level.backsight.text, level.instrument.shown.text, level.rim.text
                ),
                Language::Spanish => format!(
                    "Banco de nivel {} a {}. Estadal sobre él {}: altura del láser {}. Estadal sobre el borde según el plan: {}.",
                    level.mark, level.elevation.shown.text, level.backsight.text, level.instrument.shown.text, level.rim.text
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
    let row = |it: &batterboard_core::report::StationFigures| {
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

/// Both sections: along the shell, and across it through its deepest point.
fn sections(binder: &mut Binder<'_>, job: &Job, wanted: &SheetWish, first: usize) {
    let language = wanted.language;
    let Some(along) = job
        .site
        .site()
        .section
        .or_else(|| standard(&job.site, &job.analysis))
    else {
        return;
    };
    let edges = Edges::of(&job.site, &job.analysis, None);
    let lines = [
        (
            language.say("Section along the shell", "Corte a lo largo del casco"),
            Some(along),
            ["1", "1'"],
        ),
        (
            language.say(
                "Section across the deepest point",
                "Corte por el punto más hondo",
            ),
            crosswise(job),
            ["2", "2'"],
        ),
    ];
    let body = binder.body();
    let half = (body.height - 10.0) / 2.0;
    let made: Vec<_> = lines
        .into_iter()
        .filter_map(|(title, line, ends)| {
            let section = Section::along(&job.site, &job.analysis, edges.as_ref(), line?)?;
            Some((title, section, ends))
        })
        .collect();
    // One scale for both, so that they can be compared.
    let area = Area {
        height: half - 14.0,
        ..body
    };
    let scales = made
        .iter()
        .map(|(_, it, _)| section::scale(it, area, job.system));
    let Some(scale) = scales.reduce(|a, b| if a < b { b } else { a }) else {
        return;
    };
    let lifts = job.analysis.fill.iter().flat_map(|fill| &fill.lifts);
    let rim = job
        .site
        .placed_shell()
        .map_or(0.0, |(_, placement)| placement.coping_elevation);
    let lifts: Vec<f64> = lifts.map(|lift| rim - lift.to).collect();
    let mut y = body.y;
    for (title, section, ends) in made {
        let page = binder.page(first);
        let mut flow = Flow::new(body.width);
        flow.heading(title);
        let heading = Area { y, ..body };
        let (marks, end) = flow.pour(|_| (0, heading), 0);
        page.marks
            .extend(marks.into_iter().flat_map(|(_, marks)| marks));
        let extras = Extras {
            lifts: lifts.clone(),
            figures: true,
            ends: Some(ends),
        };
        let mut pen = Pen::default();
        let area = Area {
            y: end.y + 2.0,
            height: half - 14.0,
            ..body
        };
        section::draw(
            &mut pen,
            &section,
            area,
            scale,
            (job.system, language),
            &extras,
        );
        page.marks.extend(pen.marks);
        y = end.y + 2.0 + section::height(&section, scale) + 4.0;
    }
    let mut flow = Flow::new(body.width);
    flow.paragraph(
        language.say(
            "Dashed lines across the stone: tops of the lifts. Keep the water inside about level with the stone outside as both rise.",
            "Líneas punteadas en la piedra: tope de cada capa. Mantenga el agua de adentro a la altura de la piedra de afuera mientras suben.",
        ),
        BODY,
    );
    let foot = Area { y, ..body };
    let (marks, _) = flow.pour(|_| (0, foot), 0);
    binder
        .page(first)
        .marks
        .extend(marks.into_iter().flat_map(|(_, marks)| marks));
    binder.set_scale(first, scale);
}

/// Across the shell through its deepest point, from beyond one side of the dig to beyond the other.
fn crosswise(job: &Job) -> Option<SectionLine> {
    const BEYOND: f64 = 1.5;
    let (shell, placement) = job.site.placed_shell()?;
    let pose = placement.pose();
    let deepest = shell.facets.iter().filter_map(|facet| {
        let at = facet.region.centroid()?;
        Some((facet.plane.depth(at), at))
    });
    let (_, at) = deepest.max_by(|a, b| a.0.total_cmp(&b.0))?;
    let at = pose.site_from_shell(at);
    let across = pose.site_from_shell_vector(Vector::new(0.0, 1.0));
    let empty = Region::default();
    let edge = job
        .analysis
        .dig
        .as_ref()
        .map_or(&empty, |dig| &dig.top_edge);
    let offs = edge
        .rings()
        .flat_map(|ring| &ring.0)
        .map(|p| (*p - at).dot(across));
    let (low, high) = offs.fold((0.0_f64, 0.0_f64), |(l, h), off| (l.min(off), h.max(off)));
    Some(SectionLine {
        from: at + across * (high + BEYOND),
        to: at + across * (low - BEYOND),
    })
}

/// The order of work (common practice, no source), with this job's figures.
fn order(flow: &mut Flow, job: &Job, language: Language) {
    let works = &job.site.site().works;
    let length = |metres: f64| show(Measure::Length, metres, job.system).text;
    let base = length(works.dig.base_thickness);
    let over = length(works.dig.over_dig);
    let lifts = job
        .analysis
        .fill
        .as_ref()
        .map_or(0, |fill| fill.lifts.len());
    let steps: Vec<String> = match language {
        Language::English => vec![
            "Call the utility-locating service and wait for its marks. Dig by hand beside them.".to_owned(),
            "Check the fixed points and the distance from A to B. Set the stakes, check the diagonals, set the offset stakes clear of the dig.".to_owned(),
            "Have a competent person classify the soil. Fence the hole from the first hour.".to_owned(),
            format!("Dig to the bottom edge, {over} beyond the shell, sides as planned. Keep spoil and machines back from the edge. Check the bottom with the rod at every station."),
            "Set the dewatering pipe beside the deepest part before any stone goes in.".to_owned(),
            format!("Place {base} of clean angular stone as the base. Screed it to the levels of the stations and read it again."),
            "Set the shell. Read the rim at six places or more, lift the low end, read again.".to_owned(),
            format!("Let water in and backfill with the same stone together, lift by lift ({lifts} lifts): neither stands far above the other."),
            "Run rigid pipe, strap it, test it under pressure, and encase it in stone.".to_owned(),
            "Tie the coping to the deck with the rods, pour the collar, then the deck.".to_owned(),
            "Keep the shell full. Only professionals empty it, with groundwater lowered first.".to_owned(),
        ],
        Language::Spanish => vec![
            "Llame al servicio que marca las líneas enterradas y espere sus marcas. Junto a ellas excave a mano.".to_owned(),
            "Revise los puntos fijos y la distancia de A a B. Ponga las estacas, revise las diagonales y ponga las estacas de referencia fuera de la excavación.".to_owned(),
            "Que una persona competente clasifique el suelo. Cerque el hoyo desde la primera hora.".to_owned(),
            format!("Excave hasta la orilla del fondo, {over} más allá del casco, con los lados según el plan. Mantenga la tierra y las máquinas lejos de la orilla. Revise el fondo con el estadal en cada estación."),
            "Ponga el tubo para sacar agua junto a la parte más honda antes de echar piedra.".to_owned(),
            format!("Ponga {base} de piedra angular limpia como base. Nivélela según las estaciones y léala otra vez."),
            "Coloque el casco. Lea el borde en seis puntos o más, levante el lado bajo y lea otra vez.".to_owned(),
            format!("Eche agua y rellene con la misma piedra al mismo tiempo, capa por capa ({lifts} capas): que ninguna quede mucho más alta que la otra."),
            "Tienda la tubería rígida, sujétela con abrazaderas, pruébela a presión y cúbrala de piedra.".to_owned(),
            "Amarre el borde al piso con las varillas, cuele el collarín y después el piso.".to_owned(),
            "Mantenga el casco lleno. Solo profesionales lo vacían, con el agua freática bajada antes.".to_owned(),
        ],
    };
    flow.heading(language.say("Order of work", "Orden del trabajo"));
    for (i, step) in (1..).zip(&steps) {
        flow.item(&format!("{i}."), step, BODY);
    }
    flow.paragraph(
        language.say(
            "Common practice; the maker of the shell and the engineer on the job come first.",
            "Práctica común; el fabricante del casco y el ingeniero de la obra están primero.",
        ),
        SMALL,
    );
}

/// The hazards of every dig, and what was found on this site.
fn cautions(flow: &mut Flow, job: &Job, stakeout: &StakeoutFigures, language: Language) {
    flow.heading(language.say("Cautions", "Precauciones"));
    let about_the_dig =
        |it: &&Finding| it.severity != Severity::Note || matches!(it.topic, Topic::Dig);
    if language == Language::Spanish {
        for text in [
            "Los lados de la excavación pueden caerse sin aviso. Nadie entra donde tiene 5 pies o más sin taludes, entibado o protección, salvo en roca firme (29 CFR 1926.652(a)(1)).",
            "Donde tiene 4 pies o más: una escalera o rampa a no más de 25 pies de cada persona (29 CFR 1926.651(c)(2)).",
            "La tierra y las máquinas a 2 pies o más de la orilla (29 CFR 1926.651(j)(2)).",
            "Las líneas enterradas no están donde las muestra el dibujo. Llame antes de excavar (29 CFR 1926.651(b)).",
            "Cuidado con las líneas eléctricas aéreas: pregunte a la compañía dueña cuánta distancia guardar.",
            "Un casco vacío puede flotar en el agua freática. Solo profesionales lo vacían.",
            "Niños y adultos caen en hoyos abiertos y se ahogan en agua abierta. Cerque el hoyo y el agua.",
        ] {
            flow.item("!", text, BODY);
        }
        flow.heading("Avisos de este sitio (en inglés)");
    }
    let found = job.report.findings.iter().filter(about_the_dig);
    blocks::findings(flow, stakeout.findings.iter().chain(found));
    for text in job.firm().1 {
        flow.item("!", &text, BODY);
    }
}
