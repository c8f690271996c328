//! What the dig sheet says in words: the order of work, and the cautions.

use batterboard_core::finding::{Finding, Severity, Topic};
use batterboard_core::report::StakeoutFigures;
use batterboard_core::units::{Measure, show};

use crate::blocks;
use crate::flow::{BODY, Flow, SMALL};
use crate::job::Job;
use crate::words::Language;

/// The order of work (common practice, no source), with this job's figures.
pub(super) fn order(flow: &mut Flow, job: &Job, language: Language) {
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
pub(super) fn cautions(flow: &mut Flow, job: &Job, stakeout: &StakeoutFigures, language: Language) {
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
