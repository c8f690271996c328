//! Undo is total, refusals change nothing, a drag is one step.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::analysis::{Cache, Standing};
use crate::clear_ground::Bounds;
use crate::finding::any_fault;
use crate::geom::{Vector, boolean};
use crate::ground::GroundRecord;
use crate::math::TURN;
use crate::shell::catalogue;
use crate::site::{Benchmark, ConstructionSettings, EquipmentPad, GeoOrigin, ShellChoice};
use crate::units::System;

pub(super) fn with_shell() -> Session {
    let mut session = Session::new().unwrap();
    let name = catalogue::all()[0].name.clone();
    session
        .apply(Command::ChooseShell(ShellChoice::Catalogue(name)))
        .unwrap();
    session
}

/// One of every command that changes a site with a shell on it.
fn every_command() -> Vec<Command> {
    let mut works = ConstructionSettings::default();
    works.dig.over_dig = 0.3;
    vec![
        Command::ChooseShell(ShellChoice::Catalogue(catalogue::all()[1].name.clone())),
        Command::MoveShell {
            at: Point::new(12.0, 20.0),
        },
        Command::NudgeShell {
            east: 0.0254,
            north: -0.0254,
        },
        Command::TurnShell { heading: 1.0 },
        Command::FlipShell,
        Command::AlignShell,
        Command::SetCoping { elevation: 1.5 },
        Command::SetWorks(works.into()),
        Command::SetRules(Vec::new()),
        Command::SetGround(GroundRecord::Level { elevation: 0.2 }),
        Command::SetEquipment(Some(EquipmentPad {
            at: Point::new(3.0, 3.0),
            heading: 0.0,
            length: 2.0,
            width: 1.0,
        })),
        Command::SetDisplay(System::Metres),
        Command::Rename {
            name: "Back garden".into(),
            note: String::new(),
        },
        Command::SetBenchmark(Some(Benchmark {
            name: "nail in the oak".into(),
            at: Some(Point::new(1.0, 2.0)),
            elevation: 30.48,
            assumed: true,
        })),
        Command::SetOrigin(Some(GeoOrigin {
            longitude: -1.5,
            latitude: 0.7,
        })),
        Command::SetContours(Some(0.3048)),
        Command::SetTapes(vec![crate::site::Tape {
            from: crate::site::TapeEnd::Side(0),
            to: crate::site::TapeEnd::At(Point::new(5.0, 6.0)),
        }]),
        Command::Together {
            label: "two at once".into(),
            commands: vec![
                Command::SetContours(None),
                Command::TurnShell { heading: 2.0 },
            ],
        },
        Command::RemoveShell,
    ]
}

#[test]
fn every_edit_is_taken_back_and_carried_out_again() {
    let mut session = with_shell();
    let mut saves = vec![session.save()];
    for command in every_command() {
        let label = command.label();
        session.apply(command).unwrap();
        assert_eq!(session.undo_label(), Some(label.as_ref()));
        saves.push(session.save());
    }
    for (before, after) in saves.iter().zip(&saves[1..]).rev() {
        assert_ne!(before, after);
        assert_eq!(&session.save(), after);
        assert!(session.undo());
        assert_eq!(&session.save(), before);
    }
    while session.redo() {}
    // The very first step placed the shell.
    assert_eq!(&session.save(), saves.last().unwrap());
}

#[test]
fn any_step_is_reached_at_once() {
    let mut session = with_shell();
    let turned = |session: &Session| session.site().site().placement.as_ref().unwrap().heading;
    let start = turned(&session);
    for heading in [0.5, 1.0, 1.5] {
        session.apply(Command::TurnShell { heading }).unwrap();
    }
    session.apply(Command::FlipShell).unwrap();
    let turns = ["turn shell"; 3];
    let (before, revision) = (session.steps(), session.revision());
    assert_eq!(before.undo[..4], [&["flip shell"][..], &turns].concat());
    assert!(before.redo.is_empty());
    // One analysis for all of them.
    assert_eq!(session.undo_steps(3), 3);
    assert_eq!((turned(&session), session.revision()), (0.5, revision + 1));
    let steps = session.steps();
    assert_eq!(steps.redo, ["turn shell", "turn shell", "flip shell"]);
    assert_eq!(steps.undo, before.undo[3..]);
    assert_eq!(session.redo_steps(2), 2);
    assert_eq!((turned(&session), session.revision()), (1.5, revision + 2));
    // No farther than the history reaches, and not at all where it has none.
    assert_eq!(session.redo_steps(9), 1);
    assert_eq!(session.steps(), before);
    assert_eq!(
        (session.redo_steps(2), session.revision()),
        (0, revision + 3)
    );
    assert_eq!(session.undo_steps(4), 4);
    assert_eq!(turned(&session), start);
    assert_eq!(session.undo_steps(999), 1);
    assert!(session.steps().undo.is_empty());
}

#[test]
fn a_new_edit_forgets_what_was_taken_back() {
    let mut session = with_shell();
    session.apply(Command::TurnShell { heading: 1.0 }).unwrap();
    session.undo();
    session.apply(Command::TurnShell { heading: 2.0 }).unwrap();
    assert!(!session.redo());
}

#[test]
fn a_refused_edit_changes_nothing() {
    let mut session = with_shell();
    let before = session.save();
    let faults = session
        .apply(Command::SetCoping {
            elevation: f64::NAN,
        })
        .unwrap_err();
    assert!(any_fault(&faults));
    assert_eq!(faults[0].pointer, "/placement/coping_elevation");
    assert_eq!(session.save(), before);
    assert_eq!(session.undo_label(), Some("choose shell"));
}

#[test]
fn a_broken_file_leaves_the_open_work() {
    let mut session = with_shell();
    let before = session.save();
    assert!(session.open("{\"format\": \"batterboard-site\", ").is_err());
    assert_eq!(session.save(), before);
}

#[test]
fn a_drag_is_one_step_and_can_be_abandoned() {
    let mut session = with_shell();
    let start = session.site().site().placement.as_ref().unwrap().at;
    let before = session.save();

    assert_eq!(session.grab(start, 0.3, 20.0), Some(DragTarget::Shell));
    for i in 1..=10 {
        session.drag_to(Point::new(start.x + 0.1 * f64::from(i), start.y), false);
    }
    session.release();
    let moved = session.site().site().placement.as_ref().unwrap().at;
    assert!((moved.x - start.x - 1.0).abs() < 1e-9);
    assert_eq!(session.undo_label(), Some("move shell"));
    assert!(session.undo());
    assert_eq!(session.save(), before);

    session.grab(start, 0.3, 20.0);
    session.drag_to(Point::new(0.0, 0.0), false);
    session.cancel();
    assert_eq!(session.save(), before);
}

#[test]
fn the_shell_moves_with_the_point_it_is_held_at() {
    let mut session = with_shell();
    let start = session.site().site().placement.as_ref().unwrap().at;
    let handle = Point::new(start.x + 0.4, start.y + 0.3);
    session.grab(handle, 0.3, 20.0);
    session.drag_to(handle, false);
    session.release();
    assert_eq!(session.site().site().placement.as_ref().unwrap().at, start);
    assert_eq!(
        session.undo_label(),
        Some("choose shell"),
        "a drag to nowhere is no step"
    );
}

#[test]
fn turning_by_the_handle_snaps_to_the_lot_line() {
    let mut session = with_shell();
    session.apply(Command::TurnShell { heading: 0.6 }).unwrap();
    let placement = session.site().site().placement.clone().unwrap();
    let (_, knob) = handle(session.site(), 20.0).unwrap();
    assert_eq!(session.grab(knob, 0.3, 20.0), Some(DragTarget::Turn));
    let wanted = TURN / 4.0 + 0.02;
    session.drag_to(
        placement.at + crate::geom::Vector::along_bearing(wanted) * 9.0,
        true,
    );
    assert!(session.snap().is_some());
    session.release();
    let heading = session.site().site().placement.as_ref().unwrap().heading;
    assert!((heading - TURN / 4.0).abs() < 1e-9, "{heading}");
}

#[test]
fn a_drag_beyond_the_range_of_a_lot_is_held_back() {
    let mut session = with_shell();
    let start = session.site().site().placement.as_ref().unwrap().at;
    session.grab(start, 0.3, 20.0);
    session.drag_to(Point::new(1e9, f64::NAN), false);
    session.release();
    assert_eq!(session.site().site().placement.as_ref().unwrap().at, start);
}

#[test]
fn the_verdict_tells_of_work_over_a_lot_line_even_where_no_rule_does() {
    let mut session = with_shell();
    session.apply(Command::SetRules(Vec::new())).unwrap();
    let verdict = |session: &Session| Ledger::of(session, Listed::default()).verdict;
    assert_eq!(verdict(&session).standing, Standing::Unchecked);
    session
        .apply(Command::MoveShell {
            at: Point::new(0.0, 20.0),
        })
        .unwrap();
    let told = verdict(&session);
    assert_eq!(told.standing, Standing::Conflict);
    assert!(told.text.contains("line"), "{told:?}");
}

#[test]
fn several_edits_together_are_made_all_or_none() {
    let mut session = with_shell();
    let before = session.save();
    let together = |commands| Command::Together {
        label: "two at once".into(),
        commands,
    };
    let broken = vec![
        Command::SetDisplay(System::Metres),
        Command::SetCoping {
            elevation: f64::NAN,
        },
    ];
    assert!(session.apply(together(broken)).is_err());
    assert_eq!(session.save(), before);
    let whole = vec![Command::SetDisplay(System::Metres), Command::FlipShell];
    session.apply(together(whole)).unwrap();
    assert_eq!(session.undo_label(), Some("two at once"));
    assert!(session.undo());
    assert_eq!(session.save(), before);
}

/// Everything as it would be worked out afresh, low and high left out.
fn fresh(session: &Session, detail: Detail) -> Analysis {
    analysis::run(&Scenario::of(session.site()), detail, &mut Cache::default())
}

#[test]
fn the_analysis_keeps_step_with_the_site() {
    let mut session = with_shell();
    assert!(*session.analysis() == fresh(&session, Detail::Complete));
    let before = session.analysis().clone();
    let at = session.site().site().placement.as_ref().unwrap().at;
    session.grab(at, 0.5, 20.0).unwrap();
    for step in 1..4 {
        session.drag_to(at + Vector::new(0.4, -0.3) * f64::from(step), false);
        assert!(*session.analysis() == fresh(&session, Detail::Complete));
    }
    assert!(*session.analysis() != before);
    session.cancel();
    assert!(*session.analysis() == before);
    session
        .apply(Command::SetCoping { elevation: 0.9 })
        .unwrap();
    assert!(*session.analysis() == fresh(&session, Detail::Complete));
}

#[test]
fn low_and_high_are_taken_for_the_site_they_were_worked_out_for() {
    let mut session = with_shell();
    let ranged = fresh(&session, Detail::Ranges);
    let lines = ranged.takeoff.iter().filter_map(|line| {
        let (key, range) = (line.key.to_owned(), line.range.clone()?);
        Some(analysis::LineRange { key, range })
    });
    let ranges = Ranges {
        lines: lines.collect(),
    };
    let revision = session.revision();
    assert!(Tally::of(&session).without_ranges);
    assert!(session.set_ranges(&ranges, revision));
    assert!(*session.analysis() == ranged);
    let tally = Tally::of(&session);
    assert!(!tally.without_ranges && tally.quantities.iter().any(|row| row.range.is_some()));
    session
        .apply(Command::SetCoping { elevation: 0.9 })
        .unwrap();
    assert!(!session.set_ranges(&ranges, revision));
    assert!(Tally::of(&session).without_ranges);
}

#[test]
fn a_ledger_counts_every_clearance_and_lists_the_first_of_each_kind() {
    let demo = include_str!("../../../../demo-sites/creek-side-deed.json");
    let mut session = Session::new().unwrap();
    session.open(demo).unwrap();
    let all = clearance_rows(&session);
    let groups = Ledger::of(&session, Listed::default()).clearances;
    assert_eq!(groups.iter().map(|it| it.count).sum::<usize>(), all.len());
    assert!(groups.is_sorted_by_key(|it| it.margin));
    assert!(groups.iter().any(|it| it.count > it.margin.listed()));
    for group in &groups {
        assert_eq!(group.rows.len(), group.count.min(group.margin.listed()));
    }
    let listed = |listed| -> Vec<_> {
        let groups = Ledger::of(&session, listed).clearances.into_iter();
        groups.flat_map(|it| it.rows).collect()
    };
    let every = Listed {
        more: all.len(),
        opened: None,
    };
    assert_eq!(listed(every), all);
    let opened = all.last().map(|it| it.index);
    let last = Listed { more: 0, opened };
    assert_eq!(listed(last).last(), all.last());
}

#[test]
fn a_shell_pushed_over_the_edge_of_clear_ground_is_held_on_it_until_pushed_on() {
    let mut session = with_shell();
    let scale = 20.0;
    let start = session.site().site().placement.as_ref().unwrap().at;
    assert_eq!(session.clear_ground(), None);
    assert_eq!(session.grab(start, 0.3, scale), Some(DragTarget::Shell));
    let region = session.clear_ground().unwrap();
    assert!(region.contains(start));
    // Westward in steps of a hand, as far as the edge and 1 m past it: held, and nothing is short.
    let west = |session: &mut Session, by: f64, snap: bool| {
        session.drag_to(start + Vector::new(-by, 0.0), snap);
        session.site().site().placement.as_ref().unwrap().at
    };
    let mut edge = 0.0;
    while region.contains(start + Vector::new(-edge - 0.1, 0.0)) {
        edge += 0.1;
    }
    let held = west(&mut session, edge + 1.0, true);
    assert!((start.x - held.x - edge).abs() < 0.2, "{held:?} {edge}");
    let least = session.analysis().clearances.first().unwrap().room;
    assert!((0.0..0.05).contains(&least), "{least}");
    assert!(session.snap().unwrap().reason.contains("clear ground"));
    // Without snapping, and far past the edge, it follows the hand.
    let free = west(&mut session, edge + 1.0, false);
    assert!((start.x - free.x - edge - 1.0).abs() < 1e-9);
    west(&mut session, edge, true);
    session.cancel();
    assert_eq!(session.clear_ground(), None);
    session.grab(start, 0.3, scale);
    let over = west(&mut session, edge + 48.0 / scale + 0.5, true);
    assert!((start.x - over.x - edge - 48.0 / scale - 0.5).abs() < 1e-9);
    session.release();
    session.show_clear_ground(true);
    assert!(session.clear_ground().is_some());
}

#[test]
fn clear_ground_under_a_turning_hand_lies_in_that_of_the_shell_at_rest_and_nearly_fills_it() {
    let mut session = with_shell();
    let placement = session.site().site().placement.clone().unwrap();
    let (_, knob) = handle(session.site(), 20.0).unwrap();
    session.grab(knob, 0.3, 20.0);
    let toward = Vector::along_bearing(placement.heading + 0.1) * 9.0;
    session.drag_to(placement.at + toward, false);
    let turning = session.clear_ground().unwrap();
    session.release();
    session.show_clear_ground(true);
    let at_rest = session.clear_ground().unwrap();
    let exact = Bounds::where_it_stands(session.site(), &mut Cache::default()).unwrap();
    let now = session.site().site().placement.as_ref().unwrap();
    assert_eq!(*at_rest, exact.region(now.heading, now.mirrored));
    let beyond = boolean::difference(&turning, &at_rest).area();
    let missing = at_rest.area() - turning.area();
    assert!(beyond < 1e-3, "{beyond}");
    // Three times 5 mm and the chords, all round.
    assert!(
        missing > 0.0 && missing < 0.022 * at_rest.perimeter(),
        "{missing}"
    );
}

#[test]
fn where_nothing_is_clear_the_ledger_says_why() {
    let mut session = with_shell();
    session.show_clear_ground(true);
    let mut rules = session.site().site().rules.to_vec();
    for rule in &mut rules {
        rule.distance += 18.0;
    }
    session.apply(Command::SetRules(rules)).unwrap();
    let why = session.why_nothing_is_clear().unwrap();
    assert!(why.starts_with("No clear ground"), "{why}");
    session.show_clear_ground(false);
    assert_eq!(session.why_nothing_is_clear(), None);
}
