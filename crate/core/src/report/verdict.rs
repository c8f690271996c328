//! The verdict in words: the same on the page, in the report and on the command line.

use serde::Serialize;

use crate::analysis::verdict::{Gap, Open, Short, Standing, Verdict};
use crate::clearance::Clearance;
use crate::finding::Entry;
use crate::units::{Measure, System, show};

/// What follows a clearance that goes by rules nobody has confirmed.
const BY_EXAMPLE: &str = ", by example rules not yet confirmed for this lot";

/// A verdict as people read it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct VerdictFigures {
    /// The verdict in one word.
    pub standing: Standing,
    /// The verdict in a sentence or two.
    pub text: String,
    /// Where what it names is mended, if one place does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub entry: Option<Entry>,
    /// What else bears on it, the gravest first.
    pub notes: Vec<VerdictNote>,
}

/// One more thing that bears on a verdict.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct VerdictNote {
    /// In a sentence.
    pub text: String,
    /// Where it is mended, if one place does.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub entry: Option<Entry>,
}

impl VerdictFigures {
    /// A verdict in words, its lengths in the given units.
    pub fn of(verdict: &Verdict<'_>, system: System) -> Self {
        let length = |metres: f64| show(Measure::Length, metres.abs(), system).text;
        // Where the lines lie is in doubt whatever else is so: that is never left to the notes.
        let closure = verdict.open().iter().find_map(|it| match it {
            Open::PoorClosure(text) => Some(format!(" {text}")),
            _ => None,
        });
        let closure = closure.unwrap_or_default();
        let figures = |text: String, entry, notes| Self {
            standing: verdict.standing(),
            text: text + &closure,
            entry,
            notes,
        };
        let spare = |c: &Clearance| format!("{} to spare at {}", length(c.room), c.target);
        match verdict {
            Verdict::NotPlaced { open } => figures(
                "No shell is placed yet: choose one to see how much room it has.".to_owned(),
                Some(Entry::Shell),
                notes(open),
            ),
            Verdict::Conflict {
                first,
                others,
                short,
                open,
            } => {
                let mut notes = Vec::new();
                if *others > 0 {
                    let text = match others {
                        1 => "One more conflict below.".to_owned(),
                        n => format!("{n} more conflicts below."),
                    };
                    notes.push(VerdictNote { text, entry: None });
                }
                notes.extend(short.map(|it| VerdictNote {
                    text: falls_short(&it, length(it.most.room), ""),
                    entry: None,
                }));
                notes.extend(self::notes(open));
                figures(first.message.to_string(), first.entry, notes)
            }
            Verdict::Short { short, open } => {
                // The headline says already what most of the rules are.
                let said =
                    |it: &&Open<'_>| !(short.unconfirmed && matches!(it, Open::Unconfirmed { .. }));
                let mut notes: Vec<VerdictNote> =
                    open.iter().filter(said).filter_map(note).collect();
                let confirm = short.unconfirmed.then_some(Entry::Rules);
                let example = if short.unconfirmed { BY_EXAMPLE } else { "" };
                let text = falls_short(short, length(short.most.room), example);
                let rule = format!("Rule: {}.", short.most.name);
                notes.insert(
                    0,
                    VerdictNote {
                        text: rule,
                        entry: None,
                    },
                );
                figures(text, confirm, notes)
            }
            Verdict::Unchecked { gap, open } => {
                let notes = self::notes(open);
                figures(unmeasured(gap), Some(gap.entry()), notes)
            }
            Verdict::Reserved { least, open } => {
                let unconfirmed = open.iter().find_map(|it| match it {
                    Open::Unconfirmed { rules, of } => Some((*rules, *of)),
                    _ => None,
                });
                let by = match unconfirmed {
                    None => "",
                    Some((rules, of)) if rules == of => BY_EXAMPLE,
                    Some((rules, of)) if 2 * rules > of => {
                        ", mostly by example rules not yet confirmed for this lot"
                    }
                    Some(_) => ", partly by example rules not yet confirmed for this lot",
                };
                let is_caution = |it: &&Open<'_>| matches!(it, Open::Caution(_));
                let but = match open.iter().filter(is_caution).count() {
                    0 => String::new(),
                    1 => " But one caution stands against this placement.".to_owned(),
                    n => format!(" But {n} cautions stand against this placement."),
                };
                let said =
                    |it: &&Open<'_>| matches!(it, Open::Unconfirmed { rules, of } if rules == of);
                let more = open.iter().filter(|it| !said(it));
                figures(
                    format!("Clearances hold with {}{by}.{but}", spare(least)),
                    unconfirmed.map(|_| Entry::Rules),
                    more.filter_map(note).collect(),
                )
            }
            Verdict::Holds(held) => figures(
                format!("Every clearance holds with {}.", spare(held.least())),
                None,
                Vec::new(),
            ),
        }
    }
}

/// How many clearances fall short, and the most of them.
fn falls_short(short: &Short<'_>, by: String, example: &str) -> String {
    let to = &short.most.target;
    match short.count {
        1 => format!("One clearance falls short at {to} by {by}{example}."),
        n => format!("{n} clearances fall short, the most at {to} by {by}{example}."),
    }
}

/// What was not measured and why.
fn unmeasured(gap: &Gap) -> String {
    match gap {
        Gap::NoRules => "Not checked: no clearance rules are entered.".to_owned(),
        Gap::StarterLot => "Not checked: the lot is still the blank rectangle of a new job. Enter \
                            this job's lot, or its name if the rectangle is right."
            .to_owned(),
        Gap::NoKinds { sides, of } => {
            let which = match sides {
                1 => format!("one of {of} sides has no kind yet"),
                n if n == of => format!("none of the {of} sides has a kind yet"),
                n => format!("{n} of {of} sides have no kind yet"),
            };
            format!("Not checked to every lot line: {which} (front, side, rear).")
        }
        Gap::NothingMeasured { rules: 1 } => {
            "Not checked: the one rule finds nothing on the plan to measure to.".to_owned()
        }
        Gap::NothingMeasured { rules } => {
            format!("Not checked: none of the {rules} rules finds anything to measure to.")
        }
        Gap::NoRuleToLines => {
            "Not checked to the lot lines: no rule measures the shell, deck or dig to them."
                .to_owned()
        }
    }
}

fn notes(open: &[Open<'_>]) -> Vec<VerdictNote> {
    open.iter().filter_map(note).collect()
}

/// One thing that is open, in a sentence; none of what the verdict itself says.
fn note(open: &Open<'_>) -> Option<VerdictNote> {
    let text = match open {
        Open::Gap(gap) => unmeasured(gap),
        Open::Unconfirmed { rules: 1, of: 1 } => {
            "The one rule measured is an example, not yet confirmed for this lot.".to_owned()
        }
        Open::Unconfirmed { rules, of } if rules == of => {
            format!("All {of} rules measured are examples, not yet confirmed for this lot.")
        }
        Open::Unconfirmed { rules, of } => {
            format!("{rules} of {of} rules measured are examples, not yet confirmed for this lot.")
        }
        Open::NoRuleTo(labels) => format!("No rule measures to: {}.", labels.join(", ")),
        Open::Waiting { rules, equipment } => {
            let what = match equipment {
                true => "the equipment pad",
                false => "work that is not placed",
            };
            match rules {
                1 => format!("One rule waits for {what}."),
                n => format!("{n} rules wait for {what}."),
            }
        }
        // Said in the verdict itself, and listed among the findings.
        Open::PoorClosure(_) | Open::Caution(_) => return None,
        Open::UnknownGround { clearances } => {
            let rest = match clearances {
                1 => "One clearance of the dig rests",
                _ => "Clearances of the dig rest",
            };
            format!("{rest} on ground that nobody has surveyed.")
        }
    };
    Some(VerdictNote {
        text,
        entry: open.entry(),
    })
}

#[cfg(test)]
mod tests;
