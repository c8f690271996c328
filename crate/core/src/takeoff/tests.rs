//! Each line worked out again by hand from settings and shell.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

mod laid;

use super::*;
use crate::shell::fixture::box_shell as shell;
use crate::units::Measure;

const PI: f64 = core::f64::consts::PI;

fn works() -> ConstructionSettings {
    let mut works = ConstructionSettings::default();
    works.dig.over_dig = 0.2;
    works.dig.base_thickness = 0.1;
    works.dig.swell = Some(1.3);
    works.dig.density = Some(1800.0);
    works.stone.density = 1600.0;
    works.collar.width = 0.3;
    works.collar.depth = 0.3;
    works.collar.top_below_rim = 0.1;
    works.deck.width = 1.2;
    works.deck.thickness = 0.1;
    works.deck.bed = 0.1;
    works.ties.spacing = 0.6;
    works.ties.length = 0.6;
    works.haul.box_volume = 8.0;
    works.haul.payload = 12_000.0;
    works.waste.stone = 0.1;
    works.waste.concrete = 0.05;
    works.dewatering.above_rim = 0.05;
    works
}

fn dig() -> Dig {
    Dig {
        bank_volume: 90.0,
        unsurveyed_volume: 0.0,
        unsurveyed_area: 0.0,
        volume_below_cap: 60.0,
        top_area: 70.0,
        side_slope: 1.0,
        slopes: crate::dig::BySide::all(1.0),
        upright_toe: 0.0,
        daylight: Vec::new(),
        closed: true,
        greatest_depth: 1.7,
        bottom_elevation: 98.4,
        ..Dig::default()
    }
}

fn taken() -> Takeoff {
    let works = works();
    takeoff(&Inputs::new(
        &works,
        &Measured::new(&shell(), &works),
        &dig(),
    ))
}

fn value(taken: &Takeoff, key: &str) -> f64 {
    let mut found = taken.lines.iter().filter(|l| l.key == key);
    let line = found.next().unwrap_or_else(|| panic!("no line {key}"));
    assert!(found.next().is_none(), "{key} twice");
    line.value
}

#[track_caller]
fn agrees(key: &str, expected: f64) {
    // Rounded corners are chords of a quarter of a millimetre.
    let actual = value(&taken(), key);
    assert!(
        (actual - expected).abs() <= 1e-6 + expected.abs() * 1e-3,
        "{key}: {actual}, not {expected}"
    );
}

/// Area of the rectangle widened all round, its corners rounded.
fn widened(by: f64) -> f64 {
    32.0 + 24.0 * by + PI * by * by
}

#[test]
fn spoil_swells_and_is_hauled_by_the_greater_count() {
    agrees("bank-cut", 90.0);
    agrees("spoil-loose", 117.0);
    agrees("haul-loose", 117.0);
    agrees("haul-weight", 162_000.0);
    assert_eq!(value(&taken(), "loads-by-volume"), 15.0); // 117 / 8 = 14.6
    assert_eq!(value(&taken(), "loads-by-weight"), 14.0); // 13.5
    assert_eq!(value(&taken(), "loads"), 15.0);
    agrees("dig-top-area", 70.0);
    agrees("dig-depth", 1.7);
    agrees("dig-bottom", 98.4);
}

#[test]
fn stone_fills_what_shell_and_base_leave() {
    let base = widened(0.01 + 0.2) * 0.1;
    agrees("base-stone-volume", base * 1.1);
    agrees("base-stone", base * 1.1 * 1600.0);
    // The body from 0.4 m to 1.51 m below the rim, 1 cm outside the water's edge all round.
    let body = (32.0 + 24.0 * 0.01) * (1.51 - 0.4);
    agrees("backfill-stone-volume", (60.0 - body - base) * 1.1);
    agrees("backfill-stone", (60.0 - body - base) * 1.1 * 1600.0);
    let bed = (widened(0.25 + 1.2) - widened(0.25 + 0.3)) * 0.1;
    agrees("deck-bed-volume", bed * 1.1);
    agrees("deck-bed-stone", bed * 1.1 * 1600.0);
    agrees("stone", (60.0 - body + bed) * 1.1 * 1600.0);
}

#[test]
fn collar_and_deck_are_rings_round_the_rim() {
    let rim = widened(0.25);
    let collar = widened(0.55) - rim;
    let deck = widened(1.45) - rim;
    agrees("collar-area", collar);
    agrees("collar-concrete", collar * 0.3 * 1.05);
    agrees("deck-area", deck);
    agrees("deck-concrete", deck * 0.1 * 1.05);
    agrees("concrete", (collar * 0.3 + deck * 0.1) * 1.05);
}

#[test]
fn fittings_and_water() {
    let rim = 24.0 + 2.0 * PI * 0.25;
    agrees("rim", rim);
    assert_eq!(value(&taken(), "ties"), (rim / 0.6).ceil());
    agrees("tie-rod", (rim / 0.6).ceil() * 0.6);
    agrees("dewatering-pipe-diameter", works().dewatering.diameter);
    agrees("dewatering-pipe", 0.05 + 1.5 + 0.01 + 0.1);
    agrees("water-volume", 32.0 * 1.35);
    agrees("water-area", 32.0);
    agrees("waters-edge", 24.0);
}

#[test]
fn every_line_carries_its_working() {
    let taken = taken();
    for (i, line) in taken.lines.iter().enumerate() {
        let w = &line.working;
        assert!(
            !w.expression.formula().is_empty() && !w.source.is_empty(),
            "{}",
            line.key
        );
        assert!(line.value.is_finite() && line.value >= 0.0, "{}", line.key);
        assert!(taken.lines[..i].iter().all(|other| other.key != line.key));
        if line.measure == Measure::Count {
            assert_eq!(line.value.fract(), 0.0, "{}", line.key);
            assert!(!w.rounding().is_empty() || line.key == "loads");
        }
        for input in w.expression.inputs() {
            assert!(input.value.is_finite(), "{} {}", line.key, input.name);
        }
    }
    assert!(taken.lines.is_sorted_by_key(|l| l.group));
}

/// What is paid by several measures is measured on one geometry; every line that is no sum and
/// no bare count says what it was measured on.
#[test]
fn every_line_says_what_it_was_measured_on() {
    for line in taken().lines {
        let sums = ["stone", "concrete", "loads-by-volume", "loads-by-weight"];
        let placed = line.on != MeasuredOn::Nothing;
        assert_eq!(placed, !sums.contains(&line.key), "{}", line.key);
        assert!(placed || line.pays_for.is_none(), "{}", line.key);
    }
}

#[test]
fn assumptions_are_told_where_they_bear() {
    let told = |dig: &Dig, key: &str| {
        let works = works();
        let taken = takeoff(&Inputs::new(&works, &Measured::new(&shell(), &works), dig));
        let line = taken.lines.iter().find(|l| l.key == key).unwrap();
        line.working.assumptions.join(" ")
    };
    let known = dig();
    assert_eq!(told(&known, "bank-cut"), "");
    let guessed = Dig {
        unsurveyed_volume: 12.0,
        area_above_ground: 3.0,
        closed: false,
        ..dig()
    };
    for key in ["bank-cut", "dig-depth", "dig-top-area"] {
        assert!(told(&guessed, key).contains("not surveyed"), "{key}");
    }
    for key in ["bank-cut", "backfill-stone-volume"] {
        assert!(told(&guessed, key).contains("falls short"), "{key}");
    }
    // A table recalled from memory says so where its number stands.
    let mut works = works();
    works.dig.swell = None;
    let taken = takeoff(&Inputs::new(
        &works,
        &Measured::new(&shell(), &works),
        &known,
    ));
    let loose = taken.lines.iter().find(|l| l.key == "spoil-loose").unwrap();
    assert!(
        loose.working.expression.inputs()[1]
            .source
            .contains("from memory")
    );
}

#[test]
fn settings_that_do_not_fit_are_told() {
    let said = |change: fn(&mut ConstructionSettings)| {
        let mut works = works();
        change(&mut works);
        let taken = takeoff(&Inputs::new(
            &works,
            &Measured::new(&shell(), &works),
            &dig(),
        ));
        taken
            .findings
            .into_iter()
            .map(|f| f.code)
            .collect::<Vec<_>>()
    };
    assert_eq!(said(|_| ()), [""; 0]);
    assert_eq!(said(|w| w.haul.payload = 11_000.0), ["payload-governs"]);
    assert_eq!(said(|w| w.deck.thickness = 0.15), ["deck-in-collar"]);
    assert_eq!(said(|w| w.deck.width = 0.2), ["collar-shows"]);
    assert_eq!(said(|w| w.deck.width = 0.0), [""; 0]);
}

#[test]
fn a_hole_too_small_for_the_shell_needs_no_negative_stone() {
    let works = works();
    let shallow = Dig {
        bank_volume: 0.0,
        volume_below_cap: 0.0,
        ..dig()
    };
    let taken = takeoff(&Inputs::new(
        &works,
        &Measured::new(&shell(), &works),
        &shallow,
    ));
    assert_eq!(value(&taken, "backfill-stone"), 0.0);
    assert_eq!(value(&taken, "loads"), 0.0);
}
