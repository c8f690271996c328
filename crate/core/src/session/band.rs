//! The band: a few key figures that never leave the screen, each with how far the last change moved it.
//!
//! While something is dragged that is the whole drag so far; after an edit, that edit.

use serde::Serialize;

use super::Session;
use crate::analysis::Analysis;
use crate::units::{Currency, Measure, Shown, System, show, show_money};

/// The least room that any clearance has.
const LEAST_ROOM: &str = "least-room";
/// What everything priced comes to.
const COST: &str = "cost";

/// One key figure.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct BandFigure {
    /// `least-room`, `cost`, or the key of a quantity.
    pub key: String,
    /// What it is called.
    pub label: &'static str,
    /// Its value; none where the site does not have it, as a cost without rates.
    pub shown: Option<Shown>,
    /// By how much the last change moved it, with its sign; none where that would read as nothing.
    pub change: Option<Shown>,
    /// It falls short, or rests on something that is in doubt.
    pub doubtful: bool,
}

/// The figures as they were before the last change, SI.
#[derive(Debug, Default)]
pub(super) struct Marks {
    least_room: Option<f64>,
    cost: Option<f64>,
    lines: Vec<(&'static str, f64)>,
}

impl Marks {
    /// The figures of an analysis.
    pub(super) fn of(analysis: &Analysis) -> Self {
        Self {
            least_room: least_room(analysis),
            cost: analysis.cost.as_ref().map(|cost| cost.total),
            lines: analysis.takeoff.iter().map(|l| (l.key, l.value)).collect(),
        }
    }

    fn line(&self, key: &str) -> Option<f64> {
        self.lines.iter().find(|(it, _)| *it == key).map(|it| it.1)
    }
}

/// Clearances are sorted by their room, least first.
fn least_room(analysis: &Analysis) -> Option<f64> {
    analysis.clearances.first().map(|it| it.room)
}

impl Session {
    /// The figures of the keys asked for, in that order; a key that names nothing here has no value.
    pub fn band(&self, keys: &[String]) -> Vec<BandFigure> {
        let site = self.site().site();
        let currency = site.currency.clone().unwrap_or_default();
        keys.iter()
            .map(|key| self.figure(key, site.display, &currency))
            .collect()
    }

    fn figure(&self, key: &str, system: System, currency: &Currency) -> BandFigure {
        let (analysis, marks) = (self.analysis(), &self.marks);
        match key {
            LEAST_ROOM => {
                let now = least_room(analysis);
                let show = |value| show(Measure::Length, value, system);
                BandFigure {
                    doubtful: now.is_some_and(|room| room < 0.0),
                    ..figure(key, "Least room", [marks.least_room, now], show)
                }
            }
            COST => {
                let now = analysis.cost.as_ref().map(|cost| cost.total);
                let show = |value| show_money(value, currency);
                figure(key, "Priced subtotal", [marks.cost, now], show)
            }
            _ => {
                let Some(line) = analysis.line(key) else {
                    let show = |value| show(Measure::Count, value, system);
                    return figure(key, "", [None, None], show);
                };
                let show = |value| show(line.measure, value, system);
                BandFigure {
                    doubtful: !line.caveats.is_empty(),
                    ..figure(key, line.label, [marks.line(key), Some(line.value)], show)
                }
            }
        }
    }
}

/// A figure that was before, and is now; nothing in it is in doubt.
fn figure(
    key: &str,
    label: &'static str,
    [before, now]: [Option<f64>; 2],
    show: impl Fn(f64) -> Shown,
) -> BandFigure {
    BandFigure {
        key: key.to_owned(),
        label,
        shown: now.map(&show),
        change: now
            .zip(before)
            .and_then(|(now, before)| change(now, before, show)),
        doubtful: false,
    }
}

/// The difference as shown, a plus before what grew.
fn change(now: f64, before: f64, show: impl Fn(f64) -> Shown) -> Option<Shown> {
    // What reads the same has not moved, whatever its last digits do.
    if show(now).text == show(before).text {
        return None;
    }
    let moved = show(now - before);
    let text = match now > before {
        true => format!("+{}", moved.text),
        false => moved.text,
    };
    (moved.value != 0.0).then_some(Shown { text, ..moved })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Command;
    use crate::session::tests::with_shell;

    fn keys(names: &[&str]) -> Vec<String> {
        names.iter().map(|&name| name.to_owned()).collect()
    }

    #[test]
    fn a_figure_tells_how_far_the_last_edit_moved_it() {
        let mut session = with_shell();
        let asked = keys(&["bank-cut"]);
        assert_eq!(session.band(&asked)[0].change, None);
        let before = session.analysis().line("bank-cut").expect("a cut").value;
        let mut works = (*session.site().site().works).clone();
        works.dig.over_dig += 0.3;
        session
            .apply(Command::SetWorks(works.into()))
            .expect("a wider dig");
        let after = session.analysis().line("bank-cut").expect("a cut").value;
        let change = session.band(&asked)[0].change.clone().expect("a change");
        assert!(change.text.starts_with('+'), "{}", change.text);
        let expected = show(Measure::EarthVolume, after - before, System::Feet);
        assert_eq!(change.value, expected.value);
        assert!(session.undo());
        let back = session.band(&asked)[0].change.clone().expect("a change");
        assert_eq!(back.value, -expected.value);
    }

    #[test]
    fn a_drag_is_one_change_from_where_it_began() {
        let mut session = with_shell();
        let asked = keys(&["least-room"]);
        let at = session
            .site()
            .site()
            .placement
            .as_ref()
            .expect("a shell")
            .at;
        let room = |s: &Session| s.analysis().clearances.first().expect("a clearance").room;
        let before = room(&session);
        session.grab(at, 0.5, 20.0).expect("the shell is held");
        for step in [0.4, 0.8, 1.2] {
            session.drag_to(crate::geom::Point::new(at.x + step, at.y), false);
        }
        let expected = show(Measure::Length, room(&session) - before, System::Feet);
        let told = session.band(&asked)[0].change.clone().expect("a change");
        assert_eq!(told.value, expected.value);
        session.release();
        assert_eq!(session.band(&asked)[0].change, Some(told));
    }

    #[test]
    fn what_the_site_does_not_have_has_no_value() {
        let session = Session::new().expect("a blank lot");
        let band = session.band(&keys(&["cost", "bank-cut", "no-such-line"]));
        assert!(
            band.iter()
                .all(|it| it.shown.is_none() && it.change.is_none())
        );
    }
}
