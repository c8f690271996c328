//! The plan of an open site: its still half, drawn again only when what it shows has changed, and
//! the work on it.

use std::sync::Arc;

use super::Session;
use crate::drawing::{Drawing, Focus, backdrop, overlay, work};
use crate::site::Site;

/// The still half of the plan, and the site it was drawn from.
#[derive(Debug)]
pub(super) struct StillDrawing {
    site: Arc<Site>,
    drawing: Arc<Drawing>,
}

impl Session {
    /// Lot, features, ground and setback lines: what stays while the shell moves. Drawn again only
    /// where something in it has changed.
    pub fn still_drawing(&mut self) -> &Arc<Drawing> {
        let site = self.site.site();
        let still = self.still.take();
        let still = still.filter(|still| shows_the_same(&still.site, site));
        let drawn = still.unwrap_or_else(|| StillDrawing {
            site: Arc::clone(site),
            drawing: Arc::new(backdrop(&self.site)),
        });
        &self.still.insert(drawn).drawing
    }

    /// Whether a hand moves something on the plan at the moment.
    pub fn is_under_hand(&self) -> bool {
        self.gesture.is_some() || self.section.is_held()
    }

    /// The work on the plan, lowest first: dig, deck, shell, clearances, banks, pile, what is laid
    /// round the shell, and what `focus` lights up.
    pub fn work_drawing(&self, focus: Focus<'_>) -> Drawing {
        let mut drawing = work(&self.site, &self.analysis, focus);
        let over = overlay(&self.site, &self.analysis, focus);
        drawing.items.extend(over.items);
        drawing
    }
}

/// Whether two sites have the same lot, features, ground, contours, benchmark, rules and units, and where a rule is measured
/// aslant the same rim.
fn shows_the_same(a: &Site, b: &Site) -> bool {
    let rim = |site: &Site| {
        let aslant = site.rules.iter().any(|rule| rule.slant);
        let placement = site.placement.as_ref().filter(|_| aslant);
        placement.map(|it| it.coping_elevation)
    };
    Arc::ptr_eq(&a.lot, &b.lot)
        && Arc::ptr_eq(&a.features, &b.features)
        && Arc::ptr_eq(&a.ground, &b.ground)
        && Arc::ptr_eq(&a.rules, &b.rules)
        && a.display == b.display
        && a.contours == b.contours
        && a.benchmark == b.benchmark
        && rim(a) == rim(b)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]

    use super::*;
    use crate::session::Command;
    use crate::shell::catalogue;
    use crate::site::ShellChoice;

    #[test]
    fn the_still_half_is_drawn_again_when_it_shows_something_else() {
        let mut session = Session::new().unwrap();
        let name = catalogue::all()[0].name.clone();
        let edits = vec![
            Command::ChooseShell(ShellChoice::Catalogue(name)),
            Command::SetCoping { elevation: 0.4 },
            Command::SetRules(Vec::new()),
            Command::SetFeatures(Vec::new()),
        ];
        for edit in edits {
            session.apply(edit).unwrap();
            let fresh = backdrop(session.site());
            assert_eq!(**session.still_drawing(), fresh);
        }
        let before = session.still.as_ref().unwrap().site.clone();
        session.apply(Command::FlipShell).unwrap();
        session.still_drawing();
        assert!(Arc::ptr_eq(&before, &session.still.as_ref().unwrap().site));
    }

    #[test]
    fn one_drawing_has_the_work_and_what_is_laid_over_it() {
        let mut session = Session::new().unwrap();
        let name = catalogue::all()[0].name.clone();
        session
            .apply(Command::ChooseShell(ShellChoice::Catalogue(name)))
            .unwrap();
        let (site, analysis) = (session.site(), session.analysis());
        let focus = Focus::Quantity("bank-cut");
        let both =
            work(site, analysis, focus).items.len() + overlay(site, analysis, focus).items.len();
        assert_eq!(session.work_drawing(focus).items.len(), both);
    }
}
