//! The report as plain text: cautions first, then the lot, the shell, clearances, quantities
//! with their working, and what else was noticed.

use super::table::{Lean, WIDTH, columns, findings, heading, hung, pairs, weak, wrapped};
use super::{
    ClearanceFigures, FeatureFigures, Figure, Report, assumed, grading, photographs, pipes,
    quantities, required, stakes_text,
};
use crate::finding::{Finding, Severity};
use crate::site::FactKind;

/// The whole report.
pub(super) fn of(report: &Report) -> String {
    let (notes, cautions) = sorted(report);
    let mut out = String::new();
    if let Some(book) = &report.book {
        book.title(&mut out);
    }
    title(report, &mut out);
    warnings(&cautions, &mut out);
    own_cautions(report, &mut out);
    heading("Lot", &mut out);
    lot(report, &mut out);
    if !report.yard.is_empty() {
        heading("On and under the lot", &mut out);
        yard(&report.yard, &mut out);
    }
    if let Some(picture) = &report.picture {
        heading("Picture under the plan", &mut out);
        let mut lines = vec![
            ("Size and scale", picture.words()),
            ("Upper edge faces", picture.heading.shown.text.clone()),
            (
                "What it is",
                "a picture, no survey: no figure here rests on it".to_owned(),
            ),
        ];
        if !picture.name.is_empty() {
            lines.insert(0, ("Name", picture.name.clone()));
        }
        pairs(&lines, &mut out);
    }
    photographs::text(&report.photographs, &mut out);
    if report.shell.is_some() {
        heading("Shell", &mut out);
        shell(report, &mut out);
    }
    heading("Clearances", &mut out);
    clearances(&report.clearances, &mut out);
    required::text(&report.shares, report.barrier.as_ref(), &mut out);
    grading::text(report.grading.as_ref(), report.pile.as_ref(), &mut out);
    if !report.quantities.is_empty() {
        quantities::list(report, &mut out);
        groundwater(report, &mut out);
        quantities::workings(&report.quantities, &mut out);
    }
    if !report.pipes.is_empty() {
        heading("Pipe runs", &mut out);
        pipes::text(&report.pipes, &mut out);
    }
    if let Some(stakeout) = &report.stakeout {
        stakes_text::sections(stakeout, &mut out);
    }
    assumed::text(&report.assumed, &mut out);
    if !notes.is_empty() {
        heading("Notes", &mut out);
        findings(&notes, &mut out);
    }
    if let Some(book) = &report.book {
        book.text(&mut out);
    }
    out
}

/// The quantities with their cost, and the cautions that belong beside them.
pub(super) fn takeoff(report: &Report) -> String {
    let (notes, cautions) = sorted(report);
    let mut out = wrapped(&format!("Takeoff: {}", report.site), 0);
    out.push('\n');
    warnings(&cautions, &mut out);
    own_cautions(report, &mut out);
    quantities::list(report, &mut out);
    groundwater(report, &mut out);
    quantities::workings(&report.quantities, &mut out);
    heading("Notes", &mut out);
    findings(&notes, &mut out);
    out
}

fn groundwater(report: &Report, out: &mut String) {
    if let Some(uplift) = &report.uplift {
        heading("Groundwater", out);
        uplift.text(out);
    }
}

/// Verdict, clearances and findings alone, each finding with its code and its place in the file: for
/// whoever mends the file.
pub(super) fn check(report: &Report) -> String {
    let (notes, cautions) = sorted(report);
    let mut out = String::new();
    title(report, &mut out);
    heading("Clearances", &mut out);
    clearances(&report.clearances, &mut out);
    required::text(&report.shares, report.barrier.as_ref(), &mut out);
    assumed::text(&report.assumed, &mut out);
    heading("Findings", &mut out);
    for finding in cautions.into_iter().chain(notes) {
        findings(&[finding], &mut out);
        if !finding.pointer.is_empty() {
            let Finding { code, pointer, .. } = finding;
            out.push_str(&format!("    [{code} at {pointer}]\n"));
        }
    }
    out
}

/// Notes, and whatever weighs more.
fn sorted(report: &Report) -> (Vec<&Finding>, Vec<&Finding>) {
    let all = report.findings.iter();
    all.partition(|f| f.severity == Severity::Note)
}

fn title(report: &Report, out: &mut String) {
    let name = wrapped(&format!("Site report: {}", report.site), 0);
    out.push_str(&format!("{name}\n{}\n", "=".repeat(WIDTH)));
    if !report.note.is_empty() {
        out.push_str(&format!("{}\n", wrapped(&report.note, 0)));
    }
    let verdict = &report.verdict;
    out.push_str(&format!("\n{}\n", wrapped(&verdict.text, 0)));
    for note in &verdict.notes {
        hung("  - ", &note.text, out);
    }
}

/// Faults, where there are any, then cautions.
fn warnings(all: &[&Finding], out: &mut String) {
    let (faults, cautions): (Vec<&Finding>, Vec<&Finding>) = all.iter().partition(|f| f.is_fault());
    if !faults.is_empty() {
        heading("Conflicts", out);
        findings(&faults, out);
    }
    heading("Cautions", out);
    findings(&cautions, out);
}

/// The cautions of the firm, below those of the planner.
fn own_cautions(report: &Report, out: &mut String) {
    for caution in report.book.iter().flat_map(|it| &it.cautions) {
        hung("  ! ", caution, out);
    }
}

fn lot(report: &Report, out: &mut String) {
    let lot = &report.lot;
    let weak = weak(&lot.caveats);
    let mut lines = vec![("Area", format!("{}{weak}", lot.area.both()))];
    lines.extend(lot.stated_area.iter().map(|a| ("Stated area", a.both())));
    let difference = lot.area_difference.iter();
    lines.extend(difference.map(|d| ("Computed less stated", d.shown.text.clone())));
    lines.push(("Perimeter", format!("{}{weak}", lot.perimeter.both())));
    let closing = lot.closing.as_ref().map_or_else(
        || "exactly".to_owned(),
        |c| format!("within {}, {}", lot.misclosure.both(), c.shown.text),
    );
    lines.push(("Closes", closing));
    if let Some(gap) = &lot.gap {
        lines.push(("Misses in northing", gap.northing.both()));
        lines.push(("Misses in easting", gap.easting.both()));
        lines.push(("Misses toward", gap.direction.shown.text.clone()));
    }
    if let Some(asked) = &lot.asked {
        let text = format!("{}: the lot closes worse", asked.shown.text);
        lines.push(("Asked to close within", text));
    }
    if lot.balance.is_some() {
        let text = "by the compass rule; the courses are kept as described";
        lines.push(("Corners balanced", text.to_owned()));
    }
    if let Some(basis) = &lot.basis {
        let said = [basis.north.words(), &basis.words];
        let said: Vec<&str> = said.into_iter().filter(|words| !words.is_empty()).collect();
        if !said.is_empty() {
            lines.push(("Bearings count from", said.join("; ")));
        }
        let north = basis.true_north.iter();
        lines.extend(north.map(|north| ("True north lies at", north.shown.text.clone())));
    }
    let side = |s: &super::SideFigures| (s.label.clone(), format!("{}{weak}", s.length.both()));
    let sides: Vec<(String, String)> = lot.sides.iter().map(side).collect();
    lines.extend(
        sides
            .iter()
            .map(|(label, text)| (label.as_str(), text.clone())),
    );
    let monument = |m: &super::MonumentFigures| {
        let note = if m.note.is_empty() { "" } else { "; " };
        let (kind, state) = (m.kind.words(), m.state.words());
        (
            format!("Start of course {}", m.course + 1),
            format!("{kind}, {state}{note}{}", m.note),
        )
    };
    let monuments: Vec<(String, String)> = lot.monuments.iter().map(monument).collect();
    let corners = monuments.iter();
    lines.extend(corners.map(|(label, text)| (label.as_str(), text.clone())));
    pairs(&lines, out);
}

fn yard(features: &[FeatureFigures], out: &mut String) {
    for feature in features {
        let mut head = feature.label.clone();
        if feature.label != feature.kind.words() {
            head.extend([" (", feature.kind.words(), ")"]);
        }
        head.extend([", ", &feature.size.both()]);
        if feature.hidden {
            head.push_str("; HIDDEN on the plan, counted in every clearance");
        }
        hung("  ", &head, out);
        let mut line = |name: &str, text: &str| {
            let text = wrapped(&format!("{name}: {text}"), 6);
            out.extend(["    ", text.trim_start(), "\n"]);
        };
        for fact in &feature.facts {
            match (&fact.figure, fact.words) {
                (Some(figure), _) => line(fact.label, &figure.both()),
                (None, Some(words)) => line(fact.label, words),
                (None, None) => {}
            }
        }
        let opens = FactKind::Openings.form(feature.kind).label;
        for opening in &feature.openings {
            let width = opening.width.both();
            match opening.name.as_str() {
                "" => line(opens, &width),
                name => line(opens, &format!("{name}, {width}")),
            }
        }
        if !feature.note.is_empty() {
            line("Note", &feature.note);
        }
    }
}

fn shell(report: &Report, out: &mut String) {
    let Some(shell) = &report.shell else { return };
    let both = Figure::both;
    let size = format!("{} by {}", shell.length.shown.text, shell.width.shown.text);
    let heading = match shell.mirrored {
        true => format!("{}, mirrored", shell.heading.shown.text),
        false => shell.heading.shown.text.clone(),
    };
    let mut lines = vec![
        ("Name", shell.name.clone()),
        ("Size at the water's edge", size),
        ("Area at the water's edge", both(&shell.area)),
        ("Perimeter at the water's edge", both(&shell.perimeter)),
        ("Deepest below the rim", both(&shell.deepest)),
        ("Coping width", both(&shell.coping_width)),
    ];
    let draft = shell.draft.iter();
    lines.extend(draft.map(|d| ("Wall draft, run to depth", both(d))));
    lines.extend(
        shell
            .cove
            .iter()
            .map(|r| ("Cove between wall and floor", both(r))),
    );
    lines.extend(shell.weight.iter().map(|w| ("Weight, empty", both(w))));
    lines.push(("Heading to the deep end", heading));
    lines.push(("Elevation of the rim", both(&shell.coping_elevation)));
    pairs(&lines, out);
    out.push('\n');
    let head = [
        "Below the rim",
        "Area inside",
        "Water below",
        "Body below, wall and floor included",
    ];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for at in &shell.by_depth {
        let figures = [&at.depth, &at.area, &at.water, &at.body];
        rows.push(figures.map(|f| f.shown.text.clone()).to_vec());
    }
    columns(2, &[Lean::Right; 4], &rows, out);
}

fn clearances(clearances: &[ClearanceFigures], out: &mut String) {
    if clearances.is_empty() {
        out.push_str("  none measured\n");
        return;
    }
    let head = ["", "Room", "Distance", "Required", "Rule", "From, to"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for c in clearances {
        rows.push(vec![
            if c.falls_short { "SHORT" } else { "ok" }.to_owned(),
            c.room.shown.text.clone(),
            c.distance.shown.text.clone(),
            c.required.shown.text.clone(),
            c.name.clone(),
            format!(
                "{} to {}{}{}",
                c.from.words(),
                c.target,
                if c.above.is_some() { ", aslant" } else { "" },
                weak(&c.caveats)
            ),
        ]);
    }
    use Lean::{Left, Right};
    columns(2, &[Left, Right, Right, Right, Left, Left], &rows, out);
    out.push('\n');
    let mut told: Vec<usize> = Vec::new();
    for c in clearances.iter().filter(|c| !c.source.is_empty()) {
        if told.contains(&c.rule) {
            continue;
        }
        told.push(c.rule);
        let text = wrapped(&format!("{}: {}", c.name, c.source), 4);
        out.push_str(&format!("{text}\n"));
    }
}
