//! Blocks that several sheets have in common: north and scale, the square that proves the print, findings.

use batterboard_core::drawing::scale_bar;
use batterboard_core::finding::{Finding, Severity};
use batterboard_core::geom::Point;
use batterboard_core::report::AssumedFigures;
use batterboard_core::site::CheckedSite;
use batterboard_core::units::System;
use batterboard_core::units::constants::INCH;

use crate::flow::{BODY, Flow, SMALL};
use crate::mark::{Area, Color, Ink, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::scale::Scale;
use crate::words::Language;

/// North arrow, scale and a bar that is as long as it says, and the square that proves the print.
pub fn scale_and_north(
    flow: &mut Flow,
    site: &CheckedSite,
    scale: Scale,
    (system, language): (System, Language),
) {
    let mut pen = Pen::default();
    north(&mut pen, Point::new(6.0, 9.0));
    let north_words = language.north(site.site().lot.basis.north);
    let x = 15.0;
    pen.text(
        Point::new(x, 4.2),
        Lean::Left,
        &scale.words(system),
        Style::heavy(9.0),
    );
    pen.text(Point::new(x, 17.4), Lean::Left, north_words, SMALL);
    // A bar as long as its column allows.
    let room = flow.width() - x - 8.0;
    let bar = scale_bar(room * scale.ratio / 1000.0, system);
    let length = bar.length * 1000.0 / scale.ratio;
    let part = length / f64::from(bar.parts);
    for k in 0..bar.parts {
        let area = Area {
            x: x + part * f64::from(k),
            y: 7.0,
            width: part,
            height: 1.6,
        };
        let fill = if k % 2 == 0 {
            Color::BLACK
        } else {
            Color::WHITE
        };
        let ink = Ink {
            fill: Some(fill),
            stroke: Some(Stroke::full(Color::BLACK, 0.2)),
        };
        pen.rectangle(area, ink);
    }
    pen.text(Point::new(x, 11.8), Lean::Left, "0", SMALL);
    pen.text(Point::new(x + length, 11.8), Lean::Middle, &bar.text, SMALL);
    flow.drawn(19.0, pen);
    proof(flow, system, language);
}

/// An arrow that points up.
fn north(pen: &mut Pen, at: Point) {
    let corner = |x: f64, y: f64| Point::new(at.x + x, at.y + y);
    let line = Stroke::full(Color::BLACK, 0.25);
    let left = [corner(0.0, -7.5), corner(-3.2, 4.5), corner(0.0, 2.2)];
    let right = [corner(0.0, -7.5), corner(3.2, 4.5), corner(0.0, 2.2)];
    pen.path(
        left,
        true,
        Ink {
            fill: Some(Color::BLACK),
            stroke: Some(line.clone()),
        },
    );
    pen.path(
        right,
        true,
        Ink {
            fill: Some(Color::WHITE),
            stroke: Some(line),
        },
    );
    pen.text(corner(0.0, 8.8), Lean::Middle, "N", Style::heavy(9.0));
}

/// A square whose sides are told, so that a print can be measured.
fn proof(flow: &mut Flow, system: System, language: Language) {
    let (side, name) = match system {
        System::Feet => (INCH * 1000.0, language.say("1 in", "1 pulgada")),
        System::Metres => (25.0, "25 mm"),
    };
    let mut pen = Pen::default();
    let area = Area {
        x: 0.2,
        y: 0.2,
        width: side,
        height: side,
    };
    pen.rectangle(area, Ink::line(Stroke::full(Color::BLACK, 0.2)));
    let middle = Point::new(side / 2.0 + 0.2, side / 2.0 + 1.0);
    pen.text(middle, Lean::Middle, name, Style::heavy(8.0));
    let text = match language {
        Language::English => format!(
            "Measure this square on the print: {name} each way. If it is not, the sheet was printed at another size and no length can be scaled off it."
        ),
        Language::Spanish => format!(
            "Mida este cuadro en el papel: {name} por lado. Si no lo mide, la hoja se imprimió a otro tamaño y no se puede medir sobre ella."
        ),
    };
    let room = flow.width() - side - 3.0;
    let lines = SMALL.face.wrapped(&text, SMALL.size(), room);
    for (i, line) in (0_u32..).zip(&lines) {
        let y = SMALL.size() + f64::from(i) * SMALL.leading();
        pen.text(Point::new(side + 3.0, y), Lean::Left, line, SMALL);
    }
    let lines = f64::from(u32::try_from(lines.len()).unwrap_or(1)) * SMALL.leading();
    flow.drawn(side.max(lines) + 0.6, pen);
}

/// Findings one after the other, faults and cautions marked.
pub fn findings<'a>(
    flow: &mut Flow,
    findings: impl IntoIterator<Item = &'a Finding>,
    language: Language,
) {
    for finding in findings {
        let sentences = [&finding.message, &finding.remedy].map(|it| language.sentence(it));
        let text = sentences.join(" ");
        let text = text.trim_end();
        match finding.severity {
            Severity::Fault => {
                let style = Style::heavy(BODY.points).in_color(Color::ALARM);
                flow.item("×", text, style);
            }
            Severity::Caution => flow.item("!", text, BODY),
            Severity::Note => flow.item("•", text, BODY),
        }
    }
}

/// What stays assumed, with how far wrong it may be.
pub fn assumed(flow: &mut Flow, all: &[AssumedFigures], language: Language) {
    if all.is_empty() {
        return;
    }
    flow.heading(language.say("What stays assumed", "Lo que queda supuesto"));
    for it in all {
        let sentences: Vec<String> = it.sentences().map(|it| language.sentence(&it)).collect();
        flow.item("•", &sentences.join(" "), BODY);
    }
}
