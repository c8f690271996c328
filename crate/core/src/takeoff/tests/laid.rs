//! What is laid, poured and strapped, worked out again by hand.

use super::*;
use crate::deck::{DeckPlan, Drawn, Flight};
use crate::dig::DigShape;
use crate::geom::{Point, Region, Ring};
use crate::pipe::{Dewatering, Run};
use crate::site::FittingKind;
use crate::units::constants::{FOOT, INCH};

fn block(x: f64, y: f64, w: f64, h: f64) -> Region {
    let corners = [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
    Region::from_ring(Ring(corners.map(Point::from).to_vec()))
}

/// Two runs that share a trench of 5 m.
fn pipes() -> PipePlan {
    let run = |label: &str, around, bends, loss| Run {
        label: label.to_owned(),
        kind: FittingKind::Return,
        fitting: Some(0),
        path: Vec::new(),
        straps: vec![Point::default(); 6],
        around,
        under_floor: 0.0,
        in_fill: 1.0,
        in_trench: 5.0,
        risers: 0.8,
        bends,
        loss,
        speed: 1.5,
    };
    PipePlan {
        runs: vec![run("R1", 7.0, 5, 0.4), run("R2", 3.0, 4, 0.3)],
        trenches: vec![vec![Point::new(0.0, 0.0), Point::new(5.0, 0.0)]],
        shared: 2,
        shared_length: 5.0,
        findings: Vec::new(),
    }
}

/// Everything there is to take off, of a shell with a drawn deck, an opening and steps.
fn all(drawn: &Drawn) -> Takeoff {
    let (shell, works) = (shell(), works());
    let measured = Measured::new(&shell, &works);
    let shape = DigShape::new(&shell, &works.dig, 0.0);
    let fill = Fill::new(&shell, &works, &shape);
    let deck = DeckPlan::new(&shell, &works, drawn);
    let dewatering = Dewatering::new(&shell, &works, &shape);
    let dig = Dig {
        volume_below_cap: fill.hole,
        ..dig()
    };
    takeoff(&Inputs {
        fill: Some(&fill),
        deck: Some(&deck.figures),
        pipes: Some(&pipes()),
        dewatering: Some(&dewatering),
        pad: Some(Pad {
            area: 2.0,
            edges: 6.0,
        }),
        ..Inputs::new(&works, &measured, &dig)
    })
}

fn drawn() -> Drawn {
    Drawn {
        openings: vec![block(-1.0, 2.5, 2.0, 0.4)],
        steps: vec![Flight {
            region: block(-0.5, -3.2, 1.0, 0.6),
            rise: 0.0,
            feature: 3,
        }],
        ..Drawn::default()
    }
}

#[track_caller]
fn near(taken: &Takeoff, key: &str, expected: f64, within: f64) {
    let value = value(taken, key);
    assert!(
        (value - expected).abs() <= within,
        "{key}: {value}, not {expected}"
    );
}

#[test]
fn concrete_of_deck_steps_and_pad_adds_up() {
    let taken = all(&drawn());
    let slab = widened(1.45) - widened(0.25) - 0.8 - 0.6;
    near(&taken, "deck-concrete", slab * 0.1 * 1.05, 1e-3);
    near(&taken, "steps-concrete", 0.6 * 0.1 * 1.05, 1e-6);
    near(&taken, "pad-concrete", 2.0 * 4.0 * INCH * 1.05, 1e-9);
    let collar = (widened(0.55) - widened(0.25)) * 0.3 * 1.05;
    let sum = collar + slab * 0.1 * 1.05 + 0.6 * 0.1 * 1.05 + 2.0 * 4.0 * INCH * 1.05;
    near(&taken, "concrete", sum, 2e-3);
    // The 8 in pipe is a hair too wide for an over-dig of 0.2 m.
    let other = |f: &&Finding| f.code != "pipe-wider-than-over-dig";
    let told: Vec<&Finding> = taken.findings.iter().filter(other).collect();
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].code, "steps-without-rise");
    assert_eq!(told[0].pointer, "/features/3/facts");
}

#[test]
fn stone_is_placed_once_and_pipe_is_taken_off() {
    let taken = all(&Drawn::default());
    // Of the hole: base and backfill, the shell's body and what pipe there is in the stone.
    let works = works();
    let outside = works.pipe.size.outside();
    let runs = PI / 4.0 * outside * outside * (7.0 + 3.0 + 2.0);
    let stand = PI / 4.0 * works.dewatering.diameter * works.dewatering.diameter * (1.61 - 0.4);
    let line = taken
        .lines
        .iter()
        .find(|l| l.key == "backfill-stone-volume")
        .unwrap();
    let hole = line.working.expression.inputs()[0].value;
    let body = (32.0 + 24.0 * 0.01) * (1.51 - 0.4);
    let base = widened(0.21) * 0.1;
    let backfill = hole - body - base - runs - stand;
    near(&taken, "backfill-stone-volume", backfill * 1.1, 5e-3);
    near(
        &taken,
        "stone-water",
        (base + backfill) * works.stone.voids,
        5e-3,
    );
    // The lifts hold it all: 1.11 m in lifts of 1 ft.
    let lifts = taken
        .lines
        .iter()
        .find(|l| l.key == "backfill-lifts")
        .unwrap();
    assert_eq!(lifts.value, 4.0);
    let sum: f64 = lifts
        .working
        .expression
        .inputs()
        .iter()
        .map(|input| input.value)
        .sum();
    assert!((sum - backfill).abs() < 5e-3, "{sum} {backfill}");
    // A trench 1 ft wide, the stone as high as the pipe and 4 in above and below.
    let across = FOOT * (outside + 8.0 * INCH) - 2.0 * PI / 4.0 * outside * outside;
    near(&taken, "pipe-stone-volume", across * 5.0 * 1.1, 1e-9);
    near(&taken, "pad-bed-volume", 2.0 * 4.0 * INCH * 1.1, 1e-9);
    let weights = ["base", "backfill", "deck-bed", "pad-bed", "pipe"];
    let total: f64 = weights
        .iter()
        .map(|w| value(&taken, &format!("{w}-stone")))
        .sum();
    near(&taken, "stone", total, 1e-6);
}

#[test]
fn fabric_lies_under_everything_and_may_be_left_out() {
    let taken = all(&Drawn::default());
    let line = taken.lines.iter().find(|l| l.key == "fabric").unwrap();
    let sum: f64 = line.working.expression.inputs()[..3]
        .iter()
        .map(|input| input.value)
        .sum();
    near(&taken, "fabric", sum * 1.15, 1e-9);
    assert!(line.working.expression.inputs()[0].value > widened(0.2));
}

#[test]
fn rods_forms_and_joints() {
    let taken = all(&Drawn::default());
    let round = |out: f64| 24.0 + 2.0 * PI * out;
    near(&taken, "collar-rods", 2.0 * round(0.4) * 1.1, 1e-9);
    near(&taken, "collar-forms", round(0.55) + round(0.25), 1e-9);
    near(&taken, "deck-forms", round(1.45) + 6.0, 1e-9);
    near(
        &taken,
        "form-stakes",
        ((round(1.45) + 6.0) / (3.0 * FOOT)).ceil(),
        0.0,
    );
    let area = widened(1.45) - widened(0.25);
    let by_area = 2.0 * area / works().deck.rod_spacing * 1.1;
    near(&taken, "deck-rods", by_area, 0.08 * by_area);
    assert!(value(&taken, "joints") > 19.0 * 1.2);
    near(&taken, "ties", (round(0.25) / 0.6).ceil(), 0.0);
    assert!(value(&all(&drawn()), "ties") <= value(&taken, "ties"));
}

#[test]
fn pipe_is_the_sum_of_its_runs_and_the_worst_one_is_told() {
    let taken = all(&Drawn::default());
    near(&taken, "pipe", (10.0 + 2.0 + 10.0 + 1.6) * 1.1, 1e-9);
    near(&taken, "straps", 12.0, 0.0);
    near(&taken, "bends", 9.0, 0.0);
    near(&taken, "trench", 5.0, 1e-9);
    near(&taken, "pipe-loss", 0.4, 0.0);
    near(&taken, "dewatering-pipe", 0.05 + 1.5 + 0.01 + 0.1, 1e-6);
}

#[test]
fn every_line_of_all_of_them_carries_its_working() {
    let taken = all(&drawn());
    for (i, line) in taken.lines.iter().enumerate() {
        assert!(!line.working.expression.formula().is_empty() && !line.working.source.is_empty());
        assert!(line.value.is_finite() && line.value >= 0.0, "{}", line.key);
        assert!(taken.lines[..i].iter().all(|other| other.key != line.key));
        let sums = ["stone", "concrete", "loads-by-volume", "loads-by-weight"];
        assert_eq!(
            line.on != MeasuredOn::Nothing,
            !sums.contains(&line.key),
            "{}",
            line.key
        );
        if line.measure == Measure::Count {
            assert_eq!(line.value.fract(), 0.0, "{}", line.key);
        }
    }
    assert!(taken.lines.is_sorted_by_key(|l| l.group));
}
