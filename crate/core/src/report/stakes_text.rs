//! Stakes, levels and what was read back, as plain text.

use super::table::Lean::{self, Left, Right};
use super::table::{columns, findings, heading, hung, pairs};
use super::{Figure, OffsetFigures, ReadingFigures, RodFigures, StakeoutFigures, TieFigures};
use crate::finding::Finding;
use crate::site::{ReadingOf, StakedLine};
use crate::stakeout::{BaseSide, GradeWork, ShellEnd};

impl StakeoutFigures {
    /// Everything as plain text, with the cautions first.
    pub fn to_text(&self) -> String {
        let mut out = String::new();
        sections(self, &mut out);
        out.trim_start().to_owned()
    }
}

/// The sections of the stakeout.
pub(super) fn sections(figures: &StakeoutFigures, out: &mut String) {
    heading("Stakeout", out);
    findings(&figures.findings.iter().collect::<Vec<&Finding>>(), out);
    out.push('\n');
    base(figures, out);
    heading("Stakes", out);
    stakes(figures, out);
    heading("Offset stakes", out);
    offsets(&figures.offsets, out);
    heading("Check diagonals", out);
    diagonals(figures, out);
    heading("Levels", out);
    levels(figures, out);
    if let Some(bottom) = &figures.bottom {
        heading("As dug: the bottom", out);
        let head = ["Place", "Elevation", "Off grade", "To do", "Stands for"];
        let rows = bottom.places.iter().map(|it| {
            let todo = match it.grade {
                GradeWork::Cut => format!("cut {}", it.high.step()),
                GradeWork::Fill => format!("fill {}", it.high.step()),
                GradeWork::OnGrade => "on grade".to_owned(),
            };
            let off = signed(&it.high, ["high", "low"]);
            let (level, share) = (&it.elevation.shown.text, &it.share.shown.text);
            vec![it.place.clone(), level.clone(), off, todo, share.clone()]
        });
        table(&head, &[Left, Right, Right, Left, Right], rows, out);
        out.push('\n');
        let lines = [
            ("Cut to grade", bottom.cut.both()),
            ("Stone to fill to grade", bottom.fill.both()),
            ("Stone beyond the plan as it lies", bottom.stone.both()),
        ];
        pairs(&lines, out);
        hung("    ", bottom.method, out);
    }
    if !figures.taped.is_empty() {
        heading("As taped", out);
        taped(figures, out);
    }
    if figures.rim.is_some() {
        heading("As set: the rim", out);
        rim(figures, out);
    }
    if !figures.readings.is_empty() {
        heading("Readings as typed", out);
        let head = ["", "Of", "Place", "Read", "When", "By"];
        let rows = figures
            .readings
            .iter()
            .enumerate()
            .map(|(i, it)| typed(i, it));
        table(&head, &[Right, Left, Left, Left, Left, Left], rows, out);
    }
}

fn table(head: &[&str], leans: &[Lean], rows: impl Iterator<Item = Vec<String>>, out: &mut String) {
    let head = head.iter().map(|it| (*it).to_owned()).collect();
    let rows: Vec<Vec<String>> = core::iter::once(head).chain(rows).collect();
    columns(2, leans, &rows, out);
}

fn shown(figure: Option<&Figure>) -> String {
    figure.map_or_else(|| "-".to_owned(), |it| it.shown.text.clone())
}

fn base(figures: &StakeoutFigures, out: &mut String) {
    let mut lines: Vec<(&str, String)> = Vec::new();
    if let Some(base) = &figures.base {
        let [a, b] = &base.points;
        lines.push(("Tape A is held to", a.name.to_string()));
        lines.push(("Tape B is held to", b.name.to_string()));
        lines.push(("Base line", base.length.both()));
        if base.proposed {
            let text = "proposed: the pair that fixes the stakes best; nobody chose it yet";
            lines.push(("Chosen", text.to_owned()));
        }
        lines.push(("Tapes read to", figures.tape_error.both()));
        lines.push(("Greatest expected error", shown(base.worst.as_ref())));
    }
    if let Some(best) = figures
        .best
        .as_ref()
        .filter(|_| !figures.base.as_ref().is_some_and(|it| it.proposed))
    {
        let [a, b] = &best.points;
        let worst = shown(best.worst.as_ref());
        lines.push(("Best pair", format!("{} and {}: {worst}", a.name, b.name)));
    }
    for (line, chord) in &figures.chords {
        if chord.value > 0.0 {
            let text = format!("within {} of the line", chord.both());
            lines.push((line.words().0, text));
        }
    }
    pairs(&lines, out);
    let text = "Expected error of a stake: the square root of 2 times the error of a tape, over the sine \
                of the angle at which the tapes cross. A string between two stakes lies off the line by \
                no more than is said above.";
    hung("    ", text, out);
}

const TIE: [&str; 6] = ["Tape A", "Tape B", "Cross", "Error", "Along", "Off"];

/// The cells of a tie; a sign stands beside a tape that is barred and an angle that is poor.
fn tied(tie: Option<&TieFigures>) -> Vec<String> {
    let Some(tie) = tie else {
        return vec!["-".to_owned(); TIE.len()];
    };
    let mut cells: Vec<String> = Vec::new();
    for (tape, blocked) in tie.tapes.iter().zip(&tie.blocked) {
        let sign = if blocked.is_some() { " x" } else { "" };
        cells.push(format!("{}{sign}", tape.shown.text));
    }
    let sign = if tie.sound { "" } else { " !" };
    cells.push(format!("{}{sign}", tie.crossing.shown.text));
    cells.push(shown(tie.error.as_ref()));
    let side = match tie.side {
        BaseSide::Left => "L",
        BaseSide::Right => "R",
    };
    cells.push(tie.along.shown.text.clone());
    cells.push(format!("{} {side}", tie.off.shown.text));
    cells
}

fn stakes(figures: &StakeoutFigures, out: &mut String) {
    let mut head = vec!["Stake"];
    head.extend(TIE);
    let rows = figures.stakes.iter().map(|stake| {
        let mut row = vec![stake.name.clone()];
        row.extend(tied(stake.tie.as_ref()));
        row
    });
    let mut leans = vec![Left];
    leans.extend([Right; TIE.len()]);
    table(&head, &leans, rows, out);
    let marks = StakedLine::ALL.map(|line| {
        let (what, letter) = line.words();
        format!("{letter} {what}")
    });
    let text = format!(
        "{}; the hole is the rectangle round its bottom. x: something stands in the way of that tape. !: the \
         tapes cross poorly. Along and off: from A along the base line toward B, then square off it \
         to the left (L) or right (R).",
        marks.join(", ")
    );
    hung("\n    ", &text, out);
}

/// The cells of a tie that stand beside an offset stake; the others are in the list and the JSON.
const TAPES: usize = 3;

fn offsets(stakes: &[OffsetFigures], out: &mut String) {
    let mut head = vec!["Stake", "For"];
    head.extend(TIE.iter().take(TAPES));
    head.extend(["To edge", "Cut", "Rod"]);
    let rows = stakes.iter().map(|stake| {
        let mut row = vec![
            stake.name.clone(),
            format!("{} {}", stake.serves, stake.towards),
        ];
        row.extend(tied(stake.tie.as_ref()).into_iter().take(TAPES));
        row.push(stake.distance.shown.text.clone());
        row.push(shown(stake.cut.as_ref()));
        row.push(read(stake.rod.as_ref()));
        row
    });
    let mut leans = vec![Left, Left];
    leans.extend([Right; TAPES + 3]);
    table(&head, &leans, rows, out);
    let text = "To edge: level, square to the side, to the bottom edge of the dig. Cut: from the ground at \
                the stake down to the bottom of the dig there. Rod: what it reads on that bottom.";
    hung("\n    ", text, out);
}

fn diagonals(figures: &StakeoutFigures, out: &mut String) {
    for it in &figures.diagonals {
        let [a, b, c, d] = &it.stakes;
        let [first, second] = &it.lengths;
        let [angle, run] = &it.off_by_inch;
        let text = format!(
            "{a} to {c}: {}; {b} to {d}: {}. One longer by 1 in (25.4 mm) is {} off square, {} over \
             the longer side.",
            first.both(),
            second.both(),
            angle.shown.text,
            run.shown.text
        );
        hung("  ", &text, out);
    }
}

fn levels(figures: &StakeoutFigures, out: &mut String) {
    if let Some(level) = &figures.level {
        let lines = [
            (
                "Laser set up from",
                format!("{}, {}", level.mark, level.elevation.both()),
            ),
            ("Rod on the mark", level.backsight.text.clone()),
            ("Height of instrument", level.instrument.both()),
            ("Rod on the rim", read(Some(&level.rim))),
        ];
        pairs(&lines, out);
        out.push('\n');
    }
    let head = [
        "Station",
        "Along",
        "Depth",
        "Base at",
        "Dig at",
        "Rod on base",
        "Rod on dig",
        "Floor",
    ];
    let rows = figures.stations.iter().map(|it| {
        vec![
            it.name.clone(),
            it.along.shown.text.clone(),
            it.depth.shown.text.clone(),
            it.base.shown.text.clone(),
            it.bottom.shown.text.clone(),
            read(it.rod_base.as_ref()),
            read(it.rod_bottom.as_ref()),
            it.kind.words().to_owned(),
        ]
    });
    let mut leans = vec![Left];
    leans.extend([Right; 6]);
    leans.push(Left);
    table(&head, &leans, rows, out);
    let text = "Along: from the shallow end of the floor. Depth: floor below the top of the coping. Base: \
                its finished top, on which the shell rests. Dig: the underside of the base.";
    hung("\n    ", text, out);
}

fn taped(figures: &StakeoutFigures, out: &mut String) {
    let head = ["Stake", "From plan", "Toward", "Error", "Over-dig", "Hole"];
    let rows = figures.taped.iter().map(|it| {
        let Some(found) = &it.found else {
            let by = it
                .apart
                .as_ref()
                .map_or_else(String::new, |by| by.shown.text.clone());
            let text = format!("tapes cannot meet: out by {by}");
            let none = || "-".to_owned();
            return vec![it.stake.clone(), none(), none(), none(), none(), text];
        };
        let hole = found.narrower.as_ref().map_or_else(String::new, |by| {
            signed(by, ["narrower than asked", "wider than asked"])
        });
        vec![
            it.stake.clone(),
            shown(found.miss.as_ref()),
            shown(found.towards.as_ref()),
            shown(found.error.as_ref()),
            shown(found.over_dig.as_ref()),
            hole,
        ]
    });
    table(&head, &[Left, Right, Right, Right, Right, Left], rows, out);
}

fn rim(figures: &StakeoutFigures, out: &mut String) {
    let Some(rim) = &figures.rim else { return };
    let head = ["Place", "Below the highest", "Off the plane"];
    let rows = rim.places.iter().map(|it| {
        let off = it.off_plane.as_ref();
        let off = off.map_or_else(|| "-".to_owned(), |it| signed(it, ["high", "low"]));
        vec![it.place.clone(), it.below_high.shown.text.clone(), off]
    });
    table(&head, &[Left, Right, Right], rows, out);
    out.push('\n');
    let place = |i: usize| rim.places.get(i).map_or("", |it| it.place.as_str());
    let [high, low] = rim.high_low;
    let kept = if rim.within { "within" } else { "MORE THAN" };
    let mut lines = vec![
        (
            "Out of level",
            format!(
                "{}, {kept} your limit of {}",
                rim.out_of_level.both(),
                rim.limit.both()
            ),
        ),
        (
            "Limit",
            "your own setting; common practice, no source".to_owned(),
        ),
        (
            "Highest and lowest",
            format!("{} and {}", place(high), place(low)),
        ),
    ];
    let above = rim.above_plan.iter();
    lines.extend(above.map(|it| ("Mean against the plan", signed(it, ["high", "low"]))));
    if let Some(lifts) = &rim.lifts {
        let lift = |(end, by): &(ShellEnd, Figure)| format!("{} by {}", end.words(), by.both());
        let text = match lifts.is_empty() {
            true => "nothing".to_owned(),
            false => lifts.iter().map(lift).collect::<Vec<_>>().join("; "),
        };
        lines.push(("Lift", text));
    }
    let twist = rim.twist.iter();
    lines.extend(twist.map(|it| ("Twist that no lifting mends", it.both())));
    pairs(&lines, out);
    out.push_str("    The plane is that of least squares through the readings.\n");
}

fn typed(index: usize, it: &ReadingFigures) -> Vec<String> {
    let reading = &it.reading;
    let (of, place) = match &reading.of {
        ReadingOf::Bottom(it) => ("rod on the bottom", &it.place),
        ReadingOf::Rim(it) => ("rod on the rim", &it.place),
        ReadingOf::Taped(it) => ("two tapes", &it.stake),
    };
    vec![
        (index + 1).to_string(),
        of.to_owned(),
        place.clone(),
        it.words.clone(),
        reading.when.clone(),
        reading.by.clone(),
    ]
}

/// A signed length as people in the yard say it: "2 in high".
fn signed(figure: &Figure, [above, below]: [&str; 2]) -> String {
    let word = if figure.value < 0.0 { below } else { above };
    format!("{} {word}", figure.step())
}

/// A rod reading, or nothing.
fn read(rod: Option<&RodFigures>) -> String {
    rod.map_or_else(String::new, |it| match it.shows {
        true => it.text.clone(),
        false => format!("{} (out of reach)", it.text),
    })
}
