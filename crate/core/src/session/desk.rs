//! The site at the estimator's desk: the same one as on the plan, with everything to buy.
//!
//! The plan and the desk may live apart (in the browser they are modules of their own). The desk
//! is given the site's text after an edit, and the shell's place while it is dragged.

use std::sync::Arc;

use crate::dig::Dig;
use crate::estimate::{self, Estimate};
use crate::exchange;
use crate::finding::Finding;
use crate::report::{BalanceFigures, ComparisonFigures, CostFigures, NudgeFigures};
use crate::results::{self, Results};
use crate::section::{self, Section};
use crate::site::{CheckedSite, Placement, SectionLine, Site};

/// A site with its results and its estimate.
#[derive(Debug)]
pub struct Desk {
    site: CheckedSite,
    results: Results,
    estimate: Estimate,
    /// Whether the estimate was made in passing, without low and high.
    in_passing: bool,
    kept: (results::Cache, estimate::Cache),
    /// The hole's edges for sections, once one was asked for.
    edges: Option<section::Edges>,
}

impl Desk {
    /// A desk with the site of this text, as a session saved it. Its picture is not looked at.
    ///
    /// # Errors
    /// Every fault of the text.
    pub fn open(text: &str) -> Result<Self, Vec<Finding>> {
        let site = CheckedSite::check(read(text)?, None)?;
        let mut kept = <(results::Cache, estimate::Cache)>::default();
        let results = Results::unmeasured(&site, &mut kept.0, None);
        let estimate = Estimate::of(&site, &results, &mut kept.1);
        Ok(Self {
            site,
            results,
            estimate,
            in_passing: false,
            kept,
            edges: None,
        })
    }

    /// Takes the site of another text; parts that did not change are not checked again.
    ///
    /// # Errors
    /// Every fault of the text; the desk stays as it was.
    pub fn renew(&mut self, text: &str) -> Result<(), Vec<Finding>> {
        let mut next = read(text)?;
        share(&mut next, self.site.site());
        self.take(next, None, false)
    }

    /// Moves the shell in passing: low and high of the quantities are left out until the next
    /// text. Without one on the lot nothing happens. `cut`: the hole at the new place, where the
    /// plan has cut it into the same ground by the same settings.
    ///
    /// # Errors
    /// A place out of range; the desk stays as it was.
    pub fn place(
        &mut self,
        placement: impl FnOnce(&mut Placement),
        cut: Option<Dig>,
    ) -> Result<(), Vec<Finding>> {
        let mut next = Site::clone(self.site.site());
        if let Some(placed) = next.placement.as_mut() {
            placement(placed);
        }
        self.take(next, cut, true)
    }

    fn take(&mut self, next: Site, cut: Option<Dig>, in_passing: bool) -> Result<(), Vec<Finding>> {
        let same = next == **self.site.site();
        if same && (in_passing || !self.in_passing) {
            return Ok(());
        }
        if !same {
            self.site = CheckedSite::check(next, Some(&self.site))?;
            self.results = Results::unmeasured(&self.site, &mut self.kept.0, cut);
        }
        let make = if in_passing {
            Estimate::in_passing
        } else {
            Estimate::of
        };
        self.estimate = make(&self.site, &self.results, &mut self.kept.1);
        self.in_passing = in_passing;
        Ok(())
    }

    /// Whether the estimate was made in passing, without low and high.
    pub fn in_passing(&self) -> bool {
        self.in_passing
    }

    /// The copings at which cut and fill are even; none before a shell is placed.
    pub fn balance(&self) -> Option<BalanceFigures> {
        BalanceFigures::of(&self.site, self.site.site().display)
    }

    /// What an inch of coping changes.
    pub fn nudge(&self) -> NudgeFigures {
        NudgeFigures::of(&self.site, self.site.site().display)
    }

    /// The present placement beside those that were kept.
    pub fn compare(&self) -> ComparisonFigures {
        ComparisonFigures::of(&self.site, self.site.site().display)
    }

    /// What the quantities cost, line by line, once a rate is told.
    pub fn cost(&self) -> Option<CostFigures> {
        let estimate = &self.estimate;
        let cost = estimate.cost.as_ref()?;
        let system = self.site.site().display;
        Some(CostFigures::of(cost, &estimate.takeoff, system))
    }

    /// Where the section is cut: where the site says, or else along the shell.
    pub fn section_line(&self) -> Option<SectionLine> {
        let told = self.site.site().section;
        told.or_else(|| section::standard(&self.site, &self.results, &self.estimate))
    }

    /// The section along a line.
    pub fn section(&mut self, line: SectionLine) -> Option<Section> {
        self.edges = section::Edges::of(&self.site, &self.results, self.edges.take());
        let made = (&self.results, &self.estimate);
        Section::along(&self.site, made, self.edges.as_ref(), line)
    }

    /// The present site.
    pub fn site(&self) -> &CheckedSite {
        &self.site
    }

    /// The work and the hole; clearances are measured on the plan alone.
    pub fn results(&self) -> &Results {
        &self.results
    }

    /// Everything to dig, haul, buy and place.
    pub fn estimate(&self) -> &Estimate {
        &self.estimate
    }
}

fn read(text: &str) -> Result<Site, Vec<Finding>> {
    let mut site: Site = exchange::read_value(text).map_err(|fault| vec![fault])?;
    site.picture = None;
    Ok(site)
}

/// Puts the parts of an earlier site in the place of equal ones.
fn share(site: &mut Site, earlier: &Site) {
    fn same<T: PartialEq>(part: &mut Arc<T>, earlier: &Arc<T>) {
        if **part == **earlier {
            *part = Arc::clone(earlier);
        }
    }
    same(&mut site.lot, &earlier.lot);
    same(&mut site.features, &earlier.features);
    same(&mut site.ground, &earlier.ground);
    same(&mut site.works, &earlier.works);
    if let (Some(placement), Some(before)) = (&mut site.placement, &earlier.placement) {
        same(&mut placement.shell, &before.shell);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::{Command, Session};
    use crate::shell::catalogue;
    use crate::site::ShellChoice;

    fn session() -> Session {
        let mut session = Session::new().unwrap();
        let name = catalogue::all()[0].name.clone();
        session
            .apply(Command::ChooseShell(ShellChoice::Catalogue(name)))
            .unwrap();
        session
    }

    #[test]
    fn the_desk_keeps_step_with_the_plan() {
        let mut session = session();
        let mut desk = Desk::open(&session.save()).unwrap();
        let before = desk.estimate().clone();
        assert!(before.takeoff.iter().any(|line| line.key == "bank-cut"));
        session
            .apply(Command::SetCoping { elevation: 0.9 })
            .unwrap();
        desk.renew(&session.save()).unwrap();
        assert_eq!(desk.site().site(), session.site().site());
        assert_eq!(desk.results().dig, session.results().dig);
        assert_ne!(*desk.estimate(), before);
        let fresh = Desk::open(&session.save()).unwrap();
        assert_eq!(desk.estimate(), fresh.estimate());
    }

    #[test]
    fn a_drag_is_followed_without_the_text() {
        let mut session = session();
        let before = session.save();
        let mut desk = Desk::open(&before).unwrap();
        session
            .apply(Command::NudgeShell {
                east: 1.5,
                north: -2.0,
            })
            .unwrap();
        let to = session.site().site().placement.clone().unwrap();
        desk.place(|placed| placed.at = to.at, None).unwrap();
        assert_eq!(desk.site().site(), session.site().site());
        // The plan's own cut gives the same, without another.
        let mut handed = Desk::open(&before).unwrap();
        let cut = session.results().dig.as_ref().unwrap();
        let cut = Dig::from_numbers(&cut.to_numbers());
        handed.place(|placed| placed.at = to.at, cut).unwrap();
        assert_eq!(handed.estimate(), desk.estimate());
        assert_eq!(handed.results().work, desk.results().work);
        assert!(desk.in_passing());
        assert!(desk.estimate().takeoff.iter().all(|l| l.range.is_none()));
        desk.renew(&session.save()).unwrap();
        let fresh = Desk::open(&session.save()).unwrap();
        assert_eq!(desk.estimate(), fresh.estimate());
        assert!(desk.estimate().takeoff.iter().any(|l| l.range.is_some()));
        assert!(desk.place(|placed| placed.at.x = f64::NAN, None).is_err());
        assert_eq!(desk.site().site(), session.site().site());
    }
}
