//! A session edited at random on every demo site: every edit is taken back to the byte, and done again to the byte.

use batterboard_core::session::{Command, Session};
use rand::RngExt;
use rand::seq::IndexedRandom;
use rand_pcg::Pcg64;
use serde_json::{Value, json};

use crate::{DEMOS, change, demo, dice, told};

/// Edits on each demo site where nobody asked for more.
const EDITS: u64 = 30;

/// So many edits are taken back at once: fewer than a session keeps.
const AT_ONCE: usize = 400;

/// Commands as the page sends them, to be changed.
pub fn examples() -> Vec<Value> {
    vec![
        json!({ "nudge-shell": { "east": 0.25, "north": -0.5 } }),
        json!({ "turn-shell": { "heading": 0.7 } }),
        json!({ "move-shell": { "at": [14.0, 20.0] } }),
        json!("flip-shell"),
        json!("align-shell"),
        json!("remove-shell"),
        json!({ "set-coping": { "elevation": 100.4 } }),
        json!({ "choose-shell": { "catalogue": "Knapweed" } }),
        json!({ "rename": { "name": "A job", "note": "by hand" } }),
        json!({ "set-display": "metres" }),
        json!({ "set-contours": 0.25 }),
        json!({ "set-section": { "from": [2.0, 3.0], "to": [20.0, 24.0] } }),
        json!({ "set-equipment": { "at": [4.0, 5.0], "heading": 0.0, "length": 1.5, "width": 1.0 } }),
        json!({ "stakeout": { "set-up": 1.25 } }),
        json!({ "set-benchmark": { "name": "nail", "at": [1.0, 1.0], "elevation": 100.0 } }),
    ]
}

/// A command that somebody might give, or that nobody would.
fn command(dice: &mut Pcg64, site: &Value) -> Option<Command> {
    let value = match dice.random_range(0..4) {
        0 => examples().choose(dice).cloned()?,
        1 => {
            let example = examples().choose(dice).cloned()?;
            change::value(dice, &example)
        }
        // A whole part of the site, changed.
        _ => {
            let (name, member) = [
                ("set-works", "works"),
                ("set-rules", "rules"),
                ("set-features", "features"),
                ("set-ground", "ground"),
                ("set-lot", "lot"),
                ("set-placement", "placement"),
                ("set-rates", "rates"),
                ("set-tapes", "tapes"),
            ]
            .choose(dice)?;
            let part = site.get(*member)?;
            json!({ *name: change::value(dice, part) })
        }
    };
    Command::read(&value.to_string()).ok()
}

fn edited(name: &str) {
    let edits = told("BATTERBOARD_FUZZ_EDITS", EDITS);
    let mut dice = dice(name);
    let mut session = Session::new().unwrap();
    session.open(&demo(name)).unwrap();
    let (mut done, mut tried) = (0, 0);
    let mut texts = vec![session.save()];
    while done < edits && tried < 100 * edits {
        tried += 1;
        let site: Value = serde_json::from_str(texts.last().unwrap()).unwrap();
        let Some(command) = command(&mut dice, &site) else {
            continue;
        };
        if session.apply(command).is_ok() {
            let text = session.save();
            if text == *texts.last().unwrap() {
                continue;
            }
            texts.push(text);
            done += 1;
        } else {
            assert_eq!(
                session.save(),
                *texts.last().unwrap(),
                "{name}: a refused edit changes nothing"
            );
        }
        if texts.len() > AT_ONCE || done == edits {
            there_and_back(name, &mut session, &texts);
            texts.drain(..texts.len() - 1);
        }
    }
    assert_eq!(done, edits, "{name}: {tried} tried");
}

/// Back to the first text step by step, and again to the last.
fn there_and_back(name: &str, session: &mut Session, texts: &[String]) {
    let steps = texts.len() - 1;
    for (number, text) in texts.iter().enumerate().rev().skip(1) {
        assert!(session.undo(), "{name}: {number}");
        assert_eq!(session.save(), *text, "{name}: taken back to {number}");
    }
    assert_eq!(session.redo_steps(steps), steps);
    assert_eq!(session.save(), *texts.last().unwrap(), "{name}: done again");
}

#[test]
fn creek_side() {
    edited(DEMOS[0]);
}

#[test]
fn level() {
    edited(DEMOS[1]);
}

#[test]
fn hillside() {
    edited(DEMOS[2]);
}

#[test]
fn wedge() {
    edited(DEMOS[3]);
}
