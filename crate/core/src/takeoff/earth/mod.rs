//! The earth of a job: what is dug, what of it is filled in again, and what is hauled.
//!
//! | file | lines |
//! |---|---|
//! | here | the balance of all of it |
//! | `cut` | the hole, what else is dug, and their sum |
//! | `fill` | the fill, and where it comes from |
//! | `spoil` | the spoil, its pile, and what is hauled |
//! | `loads` | truck loads, trips and time |

mod cut;
mod fill;
mod loads;
mod spoil;

use super::expression::{Expression, given, input};
use super::stone::encased;
use super::{Inputs, MeasuredOn, Takeoff};
use crate::grading::Grading;
use crate::pipe::PipePlan;
use crate::site::ConstructionSettings;
use crate::stockpile::Heap;
use crate::units::Measure;

/// Earth that others than the hole and the grading yield: sump, pad, trenches.
#[derive(Debug, Clone, PartialEq)]
pub struct Yield {
    /// The line's stable name (`trench-cut`).
    pub key: &'static str,
    /// What the ledger calls it.
    pub label: &'static str,
    /// The same within a formula, lower case.
    pub name: &'static str,
    /// Its volume, m3, bank, and how it was worked out.
    pub volume: Expression,
    /// The geometry it was measured on.
    pub on: MeasuredOn,
}

/// Spoil put back into trenches, above the stone round their pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Refill {
    /// Everything dug for trenches, m3, bank: the room that is filled again.
    pub trenches: f64,
    /// Area of the stone with its pipes across the trench, m2.
    pub stone: f64,
    /// Length of the trench it lies in, meters.
    pub length: f64,
}

impl Refill {
    /// Of trenches from which so much was dug, m3. Pipe lies in the one to the pad alone.
    pub fn of(works: &ConstructionSettings, pipes: &PipePlan, trenches: f64) -> Option<Self> {
        let settings = &works.pipe;
        (trenches > 0.0).then(|| Self {
            trenches,
            stone: settings.trench_width * encased(settings),
            length: match pipes.shared {
                0 => 0.0,
                _ => pipes.shared_length,
            },
        })
    }

    /// What is filled, m3, compacted.
    pub fn volume(&self) -> f64 {
        (self.trenches - self.stone * self.length).max(0.0)
    }
}

/// All that is moved besides the hole.
#[derive(Debug, Clone, Copy, Default)]
pub struct Moved<'a> {
    /// Cut and fill for deck and banks; `None` where nothing is graded.
    pub grading: Option<&'a Grading>,
    /// What else yields earth.
    pub others: &'a [Yield],
    /// The pile of spoil on the lot.
    pub pile: Option<&'a Heap>,
    /// What is filled into trenches again; told with the grading.
    pub refill: Option<Refill>,
}

/// Where the earth of a job comes from and goes to. Everything is told per bank volume: loose and
/// compacted volumes are made from it by one multiplication each, never from one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Earth {
    /// Everything dug, m3, bank.
    pub dug: f64,
    /// Fill, m3, compacted.
    pub fill: f64,
    /// What that takes, m3, bank.
    pub fill_bank: f64,
    /// The part of it taken from what is dug, m3, bank.
    pub reused: f64,
    /// The part of it brought in, m3, bank.
    pub brought: f64,
    /// What is dug and not used, m3, bank.
    pub hauled: f64,
}

impl Earth {
    /// The balance of a job that digs `bank` m3 for the hole.
    pub fn of(works: &ConstructionSettings, bank: f64, moved: &Moved<'_>) -> Self {
        let graded = moved.grading.map_or((0.0, 0.0), |g| (g.cut(), g.fill()));
        let others: f64 = moved.others.iter().map(|it| it.volume.value()).sum();
        let refill = moved.refill.map_or(0.0, |it| it.volume());
        let (dug, fill) = (bank + graded.0 + others, graded.1 + refill);
        let fill_bank = fill / works.dig.material.compacted_per_bank();
        let reused = if works.spoil.reuse {
            fill_bank.min(dug)
        } else {
            0.0
        };
        Self {
            dug,
            fill,
            fill_bank,
            reused,
            brought: fill_bank - reused,
            hauled: dug - reused,
        }
    }

    /// What is left over once the fill is taken from it, m3, bank; negative where it falls short.
    pub fn surplus(&self) -> f64 {
        self.dug - self.fill_bank
    }
}

const VOLUME: Measure = Measure::EarthVolume;

const ENTERED: &str = "entered";

const PRISMS: &str = "geometry of the deck, its banks and the ground";

const PER_BANK: &str = "swell is stated per bank volume";

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let earth = Earth::of(inputs.works, inputs.dig.bank_volume, &inputs.moved);
    cut::take(inputs, &earth, taken);
    fill::take(inputs, &earth, taken);
    spoil::take(inputs, &earth, taken);
}

/// Everything dug, as an input.
fn all_dug(earth: &Earth) -> Expression {
    input("total cut", earth.dug, VOLUME)
}

/// The part of the fill that the spoil yields, as an input.
fn from_spoil(earth: &Earth) -> Expression {
    input("fill from the spoil", earth.reused, VOLUME)
}

/// Loose per bank volume, as an input.
fn swell(works: &ConstructionSettings) -> Expression {
    let source = match works.dig.swell {
        Some(_) => ENTERED,
        None => works.dig.material.swell_source(),
    };
    given("swell", works.dig.loose_per_bank(), Measure::Ratio, source)
}
