//! The stakes as a list for a spreadsheet: text of RFC 4180, as the takeoff is.

use super::csv::{number, quantity, row, text};
use super::{Figure, StakeoutFigures, TieFigures};
use crate::site::CheckedSite;
use crate::units::{Measure, System, show_finer};

/// The columns, in order.
const COLUMNS: [&str; 21] = [
    "Site",
    "Stake",
    "What",
    "x",
    "y",
    "Unit",
    "Tape A from",
    "Tape A",
    "Tape B from",
    "Tape B",
    "Crossing (degrees)",
    "Expected error",
    "Along",
    "Off (left positive)",
    "Blocked by",
    "Offset stakes",
    "Ground",
    "Bottom of dig",
    "Cut",
    "Rod reading",
    "Rod",
];

impl StakeoutFigures {
    /// The stakes as a list for a spreadsheet, in the units of the figures.
    pub fn to_list(&self, site: &CheckedSite, system: System) -> String {
        of(self, &site.site().name, system)
    }
}

/// All stakes, offset stakes last, lengths in the unit of the system.
fn of(figures: &StakeoutFigures, site: &str, system: System) -> String {
    let mut out = String::new();
    row(&COLUMNS.map(text), &mut out);
    let ends = figures
        .base
        .as_ref()
        .map(|base| base.points.each_ref().map(|it| it.name.as_str()));
    let [a, b] = ends.unwrap_or_default();
    let unit = Measure::LongLength.shown_unit(system).symbol();
    let place = |metres: f64| number(show_finer(Measure::LongLength, metres, system, 2).value);
    let cell = |it: Option<&Figure>| it.map_or_else(String::new, |it| quantity(&it.shown));
    let tie_cells = |tie: Option<&TieFigures>| -> [String; 7] {
        let tape = |k: usize| cell(tie.and_then(|it| it.tapes.get(k)));
        let off = tie.map(|it| place(it.side.sign() * it.off.value));
        let blocked = tie.map(|it| {
            let things = it.blocked.iter().flatten();
            things.map(|thing| thing.as_str()).collect::<Vec<_>>()
        });
        [
            tape(0),
            tape(1),
            cell(tie.map(|it| &it.crossing)),
            cell(tie.and_then(|it| it.error.as_ref())),
            cell(tie.map(|it| &it.along)),
            off.unwrap_or_default(),
            text(&blocked.unwrap_or_default().join("; ")),
        ]
    };
    let mut line = |name: &str, what: &str, at: crate::geom::Point, tie, rest: [String; 6]| {
        let [tape_a, tape_b, crossing, error, along, off, blocked] = tie_cells(tie);
        let [offsets, ground, bottom, cut, rod, rod_text] = rest;
        let cells = [
            text(site),
            text(name),
            text(what),
            place(at.x),
            place(at.y),
            text(unit),
            text(a),
            tape_a,
            text(b),
            tape_b,
            crossing,
            error,
            along,
            off,
            blocked,
            offsets,
            ground,
            bottom,
            cut,
            rod,
            rod_text,
        ];
        row(&cells, &mut out);
    };
    let rod_cells = |rod: Option<&super::RodFigures>| {
        let value = rod.map(|it| place(it.value)).unwrap_or_default();
        (value, text(rod.map_or("", |it| &it.text)))
    };
    for it in &figures.stakes {
        let (rod, rod_text) = rod_cells(it.rod.as_ref());
        let rest = [
            text(&it.offsets.join(" ")),
            cell(it.ground.as_ref()),
            cell(it.bottom.as_ref()),
            String::new(),
            rod,
            rod_text,
        ];
        line(&it.name, it.what, it.at, it.tie.as_ref(), rest);
    }
    for it in &figures.offsets {
        let (rod, rod_text) = rod_cells(it.rod.as_ref());
        let what = format!("offset stake for {}, {}", it.serves, it.towards);
        let rest = [
            String::new(),
            cell(it.ground.as_ref()),
            cell(Some(&it.bottom)),
            cell(it.cut.as_ref()),
            rod,
            rod_text,
        ];
        line(&it.name, &what, it.at, it.tie.as_ref(), rest);
    }
    out
}
