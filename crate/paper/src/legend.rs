//! The legend: what is on the plan and nothing else, each with a sample of its ink.

use batterboard_core::drawing::Layer;
use batterboard_core::geom::{Point, Vector};
use batterboard_core::site::FeatureKind;

use crate::flow::{CELL, Flow};
use crate::ink::{Palette, ink};
use crate::mark::{Area, Ink, Stroke};
use crate::pen::{Lean, Pen};
use crate::words::Language;

/// Width of a sample and height of a row, millimeters.
const SAMPLE: f64 = 10.0;
const ROW: f64 = 4.4;

/// The least width of a column of samples, millimeters.
const COLUMN: f64 = 48.0;

/// Samples for the layers of a plan, in the order in which they were drawn, none twice, in as many columns as there is
/// room for.
pub fn put(flow: &mut Flow, layers: &[Layer], palette: Palette, language: Language) {
    let many = (flow.text_width() / COLUMN).floor().clamp(1.0, 3.0);
    let width = flow.text_width() / many;
    let mut told: Vec<String> = Vec::new();
    let mut waiting: Vec<(f64, Pen)> = Vec::new();
    let mut set = |waiting: &mut Vec<(f64, Pen)>| {
        let mut row = Pen::default();
        let mut x = 0.0;
        let mut height = 0.0_f64;
        for (high, pen) in waiting.drain(..) {
            row.take(&pen.marks, Vector::new(x, 0.0));
            height = height.max(high);
            x += width;
        }
        flow.row(height, row);
    };
    for layer in layers {
        let Some(name) = name(*layer, language) else {
            continue;
        };
        if told.contains(&name) {
            continue;
        }
        let mut pen = Pen::default();
        sample(&mut pen, *layer, palette);
        let lines = CELL.face.wrapped(&name, CELL.size(), width - SAMPLE - 4.0);
        let height =
            ROW.max(CELL.leading() * f64::from(u32::try_from(lines.len()).unwrap_or(1)) + 0.6);
        for (i, line) in (0_u32..).zip(&lines) {
            let y = ROW / 2.0 + 0.95 + f64::from(i) * CELL.leading();
            pen.text(Point::new(SAMPLE + 2.0, y), Lean::Left, line, CELL);
        }
        waiting.push((height, pen));
        if f64::from(u32::try_from(waiting.len()).unwrap_or(1)) >= many {
            set(&mut waiting);
        }
        told.push(name);
    }
    if !waiting.is_empty() {
        set(&mut waiting);
    }
}

fn sample(pen: &mut Pen, layer: Layer, palette: Palette) {
    let look = ink(layer, palette);
    let middle = Point::new(SAMPLE / 2.0, ROW / 2.0);
    match layer {
        Layer::Monument(_) | Layer::Stake | Layer::BaseLine | Layer::Benchmark | Layer::Spot => {
            pen.disc(middle, if layer == Layer::Spot { 0.4 } else { 1.0 }, look);
        }
        Layer::Standpipe | Layer::Feature(FeatureKind::Tree) => pen.disc(middle, 1.6, look),
        Layer::Clearance | Layer::Shortfall | Layer::Tape => {
            let half = Vector::new(SAMPLE / 2.0 - 0.8, 0.0);
            let stroke = look
                .stroke
                .unwrap_or(Stroke::full(crate::mark::Color::BLACK, 0.2));
            crate::plan::dimension(pen, middle - half, middle + half, &stroke);
        }
        _ if look.fill.is_some() => {
            let area = Area {
                x: 0.6,
                y: 0.6,
                width: SAMPLE - 1.2,
                height: ROW - 1.2,
            };
            pen.rectangle(area, look);
        }
        _ => {
            let ends = [Point::new(0.0, ROW / 2.0), Point::new(SAMPLE, ROW / 2.0)];
            let stroke = look.stroke;
            pen.path(ends, false, Ink { fill: None, stroke });
        }
    }
}

/// What the legend calls a layer; none where it needs no name.
pub fn name(layer: Layer, language: Language) -> Option<String> {
    let say = |english: &str, spanish: &str| Some(language.say(english, spanish).to_owned());
    match layer {
        Layer::LotLine => say("lot line", "lindero del lote"),
        Layer::Monument(state) => {
            use batterboard_core::lot::MonumentState as M;
            let spanish = match state {
                M::NotSearched => "mojón, sin buscar",
                M::Found => "mojón, encontrado",
                M::Set => "mojón, colocado",
                M::NotFound => "mojón, no encontrado",
            };
            say(&format!("corner mark, {}", state.words()), spanish)
        }
        Layer::Setback => say("setback line", "línea de retiro"),
        Layer::Feature(kind) => Some(language.feature(kind).to_owned()),
        Layer::Buried(None) => say("buried line", "línea enterrada"),
        Layer::Buried(Some(utility)) => {
            use batterboard_core::site::Utility as U;
            let spanish = match utility {
                U::Electric => "eléctrica",
                U::Gas => "gas, petróleo o vapor",
                U::Communication => "comunicación",
                U::Water => "agua potable",
                U::Reclaimed => "agua recuperada o riego",
                U::Sewer => "drenaje",
            };
            let english = format!("buried line, {} ({})", utility.words(), utility.letter());
            say(
                &english,
                &format!("línea enterrada, {spanish} ({})", utility.letter()),
            )
        }
        Layer::Swing => say("gate or door", "puerta o portón"),
        Layer::Protection => say("root protection ring", "círculo que protege las raíces"),
        Layer::Spot => say("spot elevation", "cota del terreno"),
        Layer::Contour { index: false } => say("contour", "curva de nivel"),
        Layer::Contour { index: true } => say("index contour", "curva de nivel principal"),
        Layer::Breakline => say("breakline of the ground", "quiebre del terreno"),
        Layer::UnknownGround => say("ground that nobody measured", "terreno sin medir"),
        Layer::Benchmark => say("benchmark", "banco de nivel"),
        Layer::Dig => say("dig", "excavación"),
        Layer::DigEdge => say("top of dig", "orilla superior de la excavación"),
        Layer::OverDig => say(
            "bottom edge of dig (over-dig)",
            "orilla del fondo de la excavación",
        ),
        Layer::Deck => say("deck", "piso de la piscina"),
        Layer::Collar => say("edge of concrete collar", "orilla del collarín de concreto"),
        Layer::Coping => say("shell and coping", "casco y borde"),
        Layer::Water { .. } => say(
            "water, darker where deeper",
            "agua, más oscura donde es honda",
        ),
        Layer::Equipment => say("equipment pad", "base del equipo"),
        Layer::Bank => say("foot or head of a bank", "pie o cabeza del talud"),
        Layer::Pile => say("pile of spoil", "montón de tierra"),
        Layer::Joint => say("control joint", "junta de control"),
        Layer::Tie => say("rod between coping and deck", "varilla entre borde y piso"),
        Layer::Pipe { suction: true } => say("pipe to the pump", "tubería a la bomba"),
        Layer::Pipe { suction: false } => say("pipe from the pump", "tubería de la bomba"),
        Layer::Strap => say("pipe strap", "abrazadera"),
        Layer::Standpipe => say("dewatering pipe", "tubo para sacar agua"),
        Layer::Stake => say("stake", "estaca"),
        Layer::BaseLine => say("fixed points A and B", "puntos fijos A y B"),
        Layer::Tape => say("taped distance", "distancia medida con cinta"),
        Layer::Clearance => say("clearance that holds", "distancia que cumple"),
        Layer::Shortfall => say("clearance that falls short", "distancia que no cumple"),
        _ => None,
    }
}
