//! What the dig sheet says in words: the order of work, and the cautions.

use batterboard_core::finding::{Finding, Severity, Topic};
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

/// What was found on this site, and what is true of every dig; prices are not for the crew.
pub fn shown(job: &Job) -> impl Iterator<Item = &Finding> {
    let about_the_dig = |it: &&Finding| {
        let told = it.severity != Severity::Note || it.topic == Topic::Dig;
        told && it.topic != Topic::Cost
    };
    let laid_out = job.stakeout.iter().flat_map(|it| &it.findings);
    laid_out.chain(job.report.findings.iter().filter(about_the_dig))
}

/// The cautions, and those of the firm.
pub(super) fn cautions(flow: &mut Flow, job: &Job, language: Language) {
    flow.heading(language.say("Cautions", "Precauciones"));
    blocks::findings(flow, shown(job), language);
    blocks::assumed(flow, &job.report.assumed, language);
    for text in job.firm().1 {
        flow.item("!", &text, BODY);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use std::collections::{BTreeMap, BTreeSet};

    use batterboard_core::exchange;
    use serde_json::{Value, json};

    use super::*;
    use crate::spanish::lacking;

    /// The demo sites, a plain site, and the plain one with reason for every finding that has a topic of its own.
    fn jobs() -> Vec<Job> {
        let folder = format!("{}/../..", env!("CARGO_MANIFEST_DIR"));
        let read = |path: String| std::fs::read_to_string(path).unwrap();
        let demos = [
            "creek-side-deed",
            "level-suburban",
            "sloping-hillside",
            "wedge-cul-de-sac",
        ];
        let demos = demos.map(|name| read(format!("{folder}/demo-sites/{name}.json")));
        let course = |kind: &str, quarters: f64, length: f64| {
            let bearing = quarters * std::f64::consts::FRAC_PI_2;
            json!({ "kind": kind, "shape": { "line": { "bearing": bearing, "distance": length } } })
        };
        let plain = json!({
            "format": "batterboard-site", "version": 3, "name": "test",
            "lot": { "courses": [
                course("front", 1.0, 30.0), course("side", 0.0, 40.0),
                course("rear", 3.0, 30.0), course("side", 2.0, 40.0),
            ] },
            "placement": { "shell": { "catalogue": "Pignut" }, "at": [15, 20],
                           "heading": std::f64::consts::FRAC_PI_2, "coping_elevation": 0.1 },
            "rules": [{ "name": "Rear", "from": "rim", "to": { "lot-line": { "kind": "rear" } },
                        "distance": 3, "source": "test" }],
        });
        let topics = read(format!(
            "{folder}/crate/core/src/analysis/tests/topics.json"
        ));
        let topics: BTreeMap<String, BTreeMap<String, Value>> =
            serde_json::from_str(&topics).unwrap();
        let topics = topics.into_values().map(|members| {
            let mut site = plain.clone();
            for (member, value) in members {
                site[member] = value;
            }
            site.to_string()
        });
        let all = demos.into_iter().chain([plain.to_string()]).chain(topics);
        all.map(|text| Job::of(exchange::open(&text).unwrap(), None))
            .collect()
    }

    #[test]
    fn every_finding_that_the_sheet_shows_is_said_in_spanish() {
        let mut lack = BTreeSet::new();
        let mut codes = BTreeSet::new();
        for job in jobs() {
            for it in &job.report.assumed {
                for message in it.sentences() {
                    lack.extend(lacking(&message).into_iter().map(str::to_owned));
                }
            }
            for finding in shown(&job) {
                codes.insert(finding.code);
                for message in [&finding.message, &finding.remedy] {
                    let ours = message.template().is_some() || message.is_empty();
                    if !ours {
                        lack.insert(format!("{}: {message}", finding.code));
                    }
                    lack.extend(lacking(message).into_iter().map(str::to_owned));
                }
            }
        }
        assert!(lack.is_empty(), "{lack:#?}");
        assert!(codes.len() > 90, "{codes:?}");
    }
}
