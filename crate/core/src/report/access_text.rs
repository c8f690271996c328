//! The way in and the crane, as plain text.

use super::access::{AccessFigures, CraneFigures, PassageFigures, RouteFigures};
use super::table::Lean::{Left, Right};
use super::table::{columns, findings, heading, hung, pairs};
use crate::finding::Finding;

impl AccessFigures {
    /// Everything as plain text, cautions beside what they are about.
    pub fn to_text(&self) -> String {
        let mut out = format!("{}\n", self.name);
        heading("Way in", &mut out);
        findings(&self.findings.iter().collect::<Vec<&Finding>>(), &mut out);
        out.push('\n');
        let ways = [
            ("To the dig", &self.to_dig),
            ("To the set-down", &self.to_set_down),
        ];
        for (name, way) in ways {
            let Some(way) = way else { continue };
            let mut lines = vec![(name, route(way))];
            if !way.closed {
                lines.push(("Length of the line", way.length.both()));
            }
            pairs(&lines, &mut out);
        }
        if !self.passages.is_empty() {
            heading("Who passes", &mut out);
            let head = ["", "Wide", "Needs", "Room", ""]
                .map(str::to_owned)
                .to_vec();
            let rows = self.passages.iter().map(passage);
            let rows: Vec<Vec<String>> = core::iter::once(head).chain(rows).collect();
            columns(2, &[Left, Right, Right, Right, Left], &rows, &mut out);
        }
        if !self.removals.is_empty() {
            heading("Taken out to try", &mut out);
            for it in &self.removals {
                let what = if it.whole { "all of" } else { "of" };
                let width = it.width.as_ref().map_or("open".to_owned(), |it| it.both());
                let text = format!(
                    "{} {what} {}: {width}, {}",
                    it.length.shown.text, it.name, it.place
                );
                hung("  - ", &text, &mut out);
            }
        }
        heading("Crane", &mut out);
        crane(&self.crane, &mut out);
        out
    }
}

/// A way in one line.
fn route(way: &RouteFigures) -> String {
    match &way.width {
        _ if way.closed => format!("closed {}", way.place),
        Some(width) => format!("{} {}", width.both(), way.place),
        None => "nothing holds it".to_owned(),
    }
}

/// Somebody who passes, or not.
fn passage(it: &PassageFigures) -> Vec<String> {
    let room = it
        .room
        .as_ref()
        .map_or("-".to_owned(), |it| it.shown.text.clone());
    let words = match (it.fits, it.turns) {
        (true, true) => "passes",
        (true, false) => "passes straight; a bend is tight",
        (false, _) => "does not pass",
    };
    let low = if it.low { " (its height counts)" } else { "" };
    let text = |figure: &super::Figure| figure.shown.text.clone();
    vec![
        it.label.to_owned(),
        text(&it.width),
        text(&it.needed),
        room,
        format!("{words}{low}"),
    ]
}

fn crane(it: &CraneFigures, out: &mut String) {
    findings(&it.findings.iter().collect::<Vec<&Finding>>(), out);
    if it.at.is_none() {
        out.push_str("  No crane is placed.\n");
        return;
    }
    out.push('\n');
    let figures = [
        ("Radius to the place of the shell", &it.radius_to_place),
        ("Radius to the truck", &it.radius_to_truck),
        ("Weight of the shell", &it.shell_weight),
        ("Weight with the rigging", &it.load),
        ("Height of the boom's tip", &it.tip),
        ("Nearest pad to the top of the dig", &it.to_dig),
        ("Under the pad of an outrigger", &it.bearing),
    ];
    let known = figures
        .iter()
        .filter_map(|(name, figure)| Some((*name, figure.as_ref()?.both())));
    pairs(&known.collect::<Vec<(&str, String)>>(), out);
    if !it.working.is_empty() {
        hung("    ", &it.working, out);
    }
    if !it.ask.is_empty() {
        hung("  Ask the crane company for: ", &it.ask, out);
    }
    let rows: Vec<Vec<String>> = it
        .wires
        .iter()
        .map(|wire| {
            let least = wire
                .required
                .as_ref()
                .map_or("-".to_owned(), |it| it.shown.text.clone());
            let how = if wire.on_plan {
                "on the plan"
            } else {
                "in space"
            };
            vec![
                wire.name.clone(),
                wire.part.words().to_owned(),
                format!("{} {how}", wire.distance.shown.text),
                format!("least {least}"),
            ]
        })
        .collect();
    columns(2, &[Left, Left, Left, Left], &rows, out);
    for passed in &it.passed {
        let room = passed.room.as_ref().map_or_else(
            || "height not entered".to_owned(),
            |it| format!("{} under the shell", it.shown.text),
        );
        hung("  Passes over ", &format!("{}: {room}", passed.name), out);
    }
}
