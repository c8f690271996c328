//! The edits of how the work is staked, and of what was read back in the yard.

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use super::Session;
use crate::finding::Finding;
use crate::report::StakeoutFigures;
use crate::site::{FixedPair, Site, StakeoutRecord, YardReading, stakeout};

/// One edit of the stakeout.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
#[serde(rename_all = "kebab-case")]
pub enum StakeoutEdit {
    /// Set everything at once, or forget it with every reading.
    Set(Option<StakeoutRecord>),
    /// Choose the two fixed points, or leave them to be proposed.
    Fix(Option<FixedPair>),
    /// Set the laser up: the reading on the benchmark, meters; or take it down.
    SetUp(Option<f64>),
    /// Add a reading after the others.
    AddReading(YardReading),
    /// Put another reading in the place of one.
    ChangeReading {
        /// Its index.
        at: usize,
        /// What it is from now on.
        reading: YardReading,
    },
    /// Remove a reading.
    RemoveReading {
        /// Its index.
        at: usize,
    },
}

impl StakeoutEdit {
    /// What the step is called when it is taken back.
    pub(super) fn label(&self) -> &'static str {
        match self {
            Self::Set(_) => "change the stakeout",
            Self::Fix(_) => "choose the fixed points",
            Self::SetUp(_) => "set up the laser",
            Self::AddReading(_) => "add a reading",
            Self::ChangeReading { .. } => "change a reading",
            Self::RemoveReading { .. } => "remove a reading",
        }
    }

    /// Edits the site.
    ///
    /// # Errors
    /// A fault where a reading is meant that is not there.
    pub(super) fn carry_out(self, site: &mut Site) -> Result<(), Vec<Finding>> {
        if let Self::Set(record) = self {
            site.stakeout = record.map(Arc::new);
            return chosen(site);
        }
        let record = Arc::make_mut(site.stakeout.get_or_insert_default());
        let readings = &mut record.readings;
        match self {
            Self::Set(_) => {}
            Self::Fix(pair) => {
                record.fixed = pair;
                return chosen(site);
            }
            Self::SetUp(backsight) => record.backsight = backsight,
            Self::AddReading(reading) => readings.push(reading),
            Self::ChangeReading { at, reading } => {
                *readings.get_mut(at).ok_or_else(no_reading)? = reading;
            }
            Self::RemoveReading { at } if at < readings.len() => {
                readings.remove(at);
            }
            Self::RemoveReading { .. } => return Err(no_reading()),
        }
        Ok(())
    }
}

/// Fixed points that are not there are refused when they are chosen, and not dropped in silence.
fn chosen(site: &Site) -> Result<(), Vec<Finding>> {
    let faults = stakeout::check(site);
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults)
    }
}

fn no_reading() -> Vec<Finding> {
    let message = "There is no such reading.";
    vec![
        Finding::fault("no-reading", message, "Choose one of the list.")
            .under("/stakeout/readings"),
    ]
}

impl Session {
    /// Everything that is laid out and everything that was read back, in the site's units; none
    /// before a shell is placed.
    pub fn stakeout(&self) -> Option<StakeoutFigures> {
        StakeoutFigures::of(&self.site, &self.analysis, self.site.site().display)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::geom::Point;
    use crate::session::Command;
    use crate::shell::catalogue;
    use crate::site::{Benchmark, FixedPoint, ReadingOf, RodReading, ShellChoice};

    fn placed() -> Session {
        let mut session = Session::new().unwrap();
        let shell = catalogue::all().first().unwrap().name.clone();
        session
            .apply(Command::ChooseShell(ShellChoice::Catalogue(shell)))
            .unwrap();
        session
    }

    fn reading(rod: f64) -> YardReading {
        YardReading {
            of: ReadingOf::Bottom(RodReading {
                place: "S1".into(),
                at: Point::new(0.0, 0.0),
                rod,
                backsight: 1.2,
            }),
            when: "Tuesday 9:40".into(),
            by: "R. Vale".into(),
        }
    }

    #[test]
    fn readings_come_change_go_and_come_back() {
        let mut session = placed();
        let edit = |session: &mut Session, edit| session.apply(Command::Stakeout(edit));
        let rods = |session: &Session| -> Vec<f64> {
            let record = session.site().site().stakeout.clone();
            let readings = record.map(|it| it.readings.clone()).unwrap_or_default();
            let rod = |it: &YardReading| match &it.of {
                ReadingOf::Bottom(it) => it.rod,
                _ => f64::NAN,
            };
            readings.iter().map(rod).collect()
        };
        edit(&mut session, StakeoutEdit::AddReading(reading(3.0))).unwrap();
        edit(&mut session, StakeoutEdit::AddReading(reading(3.1))).unwrap();
        let (at, other) = (0, reading(2.9));
        edit(
            &mut session,
            StakeoutEdit::ChangeReading { at, reading: other },
        )
        .unwrap();
        assert_eq!(rods(&session), [2.9, 3.1]);
        assert_eq!(session.undo_label(), Some("change a reading"));
        edit(&mut session, StakeoutEdit::RemoveReading { at: 1 }).unwrap();
        assert_eq!(rods(&session), [2.9]);
        let fault = edit(&mut session, StakeoutEdit::RemoveReading { at: 7 }).unwrap_err();
        assert_eq!(fault[0].code, "no-reading");
        assert_eq!(session.undo_steps(3), 3);
        assert_eq!(rods(&session), [3.0]);
        let text = session.save();
        session.open(&text).unwrap();
        assert_eq!(rods(&session), [3.0]);
        assert_eq!(session.save(), text);
        let bad = edit(&mut session, StakeoutEdit::SetUp(Some(f64::NAN))).unwrap_err();
        assert_eq!(bad[0].pointer, "/stakeout/backsight");
    }

    #[test]
    fn a_pair_that_loses_a_point_goes_and_undo_brings_it_back() {
        let mut session = placed();
        let mark = Benchmark {
            name: "step".into(),
            at: Some(Point::new(1.0, 1.0)),
            elevation: 30.0,
            assumed: true,
        };
        let pair = FixedPair {
            a: FixedPoint::Lot(0),
            b: FixedPoint::Benchmark,
        };
        let fix = || Command::Stakeout(StakeoutEdit::Fix(Some(pair.clone())));
        let fault = session.apply(fix()).unwrap_err();
        assert_eq!(fault[0].pointer, "/stakeout/fixed/b");
        let kept = |s: &Session| {
            s.site()
                .site()
                .stakeout
                .as_ref()
                .and_then(|it| it.fixed.clone())
        };
        session.apply(Command::SetBenchmark(Some(mark))).unwrap();
        session.apply(fix()).unwrap();
        assert_eq!(kept(&session), Some(pair.clone()));
        let base = session.stakeout().unwrap().base.unwrap();
        assert!(!base.proposed && base.points[1].name == "step");
        session.apply(Command::SetBenchmark(None)).unwrap();
        assert_eq!(kept(&session), None);
        assert!(session.undo() && kept(&session).is_some());
        let twice = FixedPair {
            a: FixedPoint::Lot(0),
            b: FixedPoint::Lot(0),
        };
        let fault = session
            .apply(Command::Stakeout(StakeoutEdit::Fix(Some(twice))))
            .unwrap_err();
        assert_eq!(fault[0].code, "fixed-points");
    }
}
