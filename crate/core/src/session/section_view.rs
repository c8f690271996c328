//! The section of an open site: whether its line is shown on the plan, the drag on that line, and
//! the section cut along it.

use serde::Serialize;

use super::Session;
use crate::geom::Point;
use crate::section::drag::{self, LinePart};
use crate::section::{self, Edges, Section};
use crate::site::SectionLine;

/// The section while it is shown.
#[derive(Debug, Default)]
pub(super) struct SectionView {
    /// Whether the plan shows the line.
    shown: bool,
    /// Where it was dragged to; the site does not know yet.
    dragged: Option<SectionLine>,
    /// The drag under way: the line as it was, the part of it, and where it was taken.
    drag: Option<(SectionLine, LinePart, Point)>,
    /// The hole's edges, once a section was asked for.
    edges: Option<Edges>,
    /// The section that was cut last, as long as nothing has moved since.
    cut: Option<Section>,
}

impl SectionView {
    /// Whether a hand holds its line.
    pub(super) fn is_held(&self) -> bool {
        self.drag.is_some()
    }

    /// The site was edited: a line that was dragged before is forgotten.
    pub(super) fn forget_drag(&mut self) {
        self.dragged = None;
    }

    /// The site has moved: what was cut is cut anew when it is asked for.
    pub(super) fn forget_cut(&mut self) {
        self.cut = None;
    }

    /// The view on another site.
    pub(super) fn of_another_site(&self) -> Self {
        Self {
            shown: self.shown,
            ..Self::default()
        }
    }
}

/// The line of the section and what is read on it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct SectionFigures {
    /// Whether the site says where it is cut; otherwise it lies along the shell.
    pub given: bool,
    /// The left end of the line, site meters.
    pub from: Point,
    /// Its right end, site meters.
    pub to: Point,
    /// Its length, meters.
    pub length: f64,
    /// Its bearing, radians clockwise from north.
    pub bearing: f64,
    /// The figures on it.
    pub dimensions: Vec<SectionDimension>,
}

/// A figure to read on the section.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct SectionDimension {
    /// What it is called.
    pub label: &'static str,
    /// The figure in the user's units.
    pub text: String,
}

impl Session {
    /// Shows the section's line on the plan, or hides it; a line that was dragged goes back then.
    /// Nothing happens where it is so already.
    pub fn show_section(&mut self, shown: bool) {
        if self.section.shown == shown {
            return;
        }
        self.section = SectionView {
            shown,
            edges: self.section.edges.take(),
            ..SectionView::default()
        };
    }

    /// Where the section is cut: where it was dragged to, where the site says, or else along the
    /// shell. `None` without any of them.
    pub fn section_line(&self) -> Option<SectionLine> {
        let told = self.section.dragged.or(self.site.site().section);
        told.or_else(|| section::standard(&self.site, &self.analysis))
    }

    /// The line on the plan, while it is shown.
    pub fn shown_section_line(&self) -> Option<SectionLine> {
        self.section_line().filter(|_| self.section.shown)
    }

    /// Takes hold of the shown line at a place within a reach, meters: of an end, or, where `whole`,
    /// of what lies between them. False where it is not there.
    pub fn take_section(&mut self, at: Point, reach: f64, whole: bool) -> bool {
        let line = self.shown_section_line();
        let drag = line.and_then(|line| Some((line, drag::part_at(&line, at, reach)?, at)));
        self.section.drag = drag.filter(|(_, part, _)| (*part == LinePart::Whole) == whole);
        self.section.drag.is_some()
    }

    /// Moves what is held of the line to a place.
    pub fn drag_section(&mut self, to: Point) {
        if let Some((line, part, from)) = &self.section.drag {
            self.section.dragged = Some(drag::moved(line, *part, *from, to));
        }
    }

    /// Lets go of the line; with `keep` false it goes back to where it was taken.
    pub fn drop_section(&mut self, keep: bool) {
        self.section.drag = None;
        if !keep {
            self.section.dragged = None;
        }
    }

    /// The line turned about its middle to point along a bearing (radians clockwise from north),
    /// as long as given, meters, but no shorter than a drag can make it.
    pub fn section_line_along(&self, bearing: f64, length: f64) -> Option<SectionLine> {
        let line = self.section_line()?;
        Some(drag::laid(&line, bearing, length))
    }

    /// The section along its line; cut only where something has moved since it was last asked for.
    pub fn section(&mut self) -> Option<&Section> {
        let line = self.section_line();
        let view = &mut self.section;
        if view.cut.as_ref().map(|cut| cut.line) != line {
            view.edges = Edges::of(&self.site, &self.analysis, view.edges.take());
            view.cut = line.and_then(|line| {
                Section::along(&self.site, &self.analysis, view.edges.as_ref(), line)
            });
        }
        view.cut.as_ref()
    }

    /// The line and the figures on it; `None` where there is no line.
    pub fn section_figures(&mut self) -> Option<SectionFigures> {
        let line = self.section_line()?;
        let given = self.site.site().section.is_some();
        let cut = self.section().into_iter();
        let dimensions = cut.flat_map(|cut| &cut.dimensions);
        let dimensions = dimensions.map(|it| SectionDimension {
            label: it.label,
            text: it.text.clone(),
        });
        Some(SectionFigures {
            given,
            from: line.from,
            to: line.to,
            length: line.from.distance(line.to),
            bearing: (line.to - line.from).bearing(),
            dimensions: dimensions.collect(),
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]

    use super::*;
    use crate::analysis::{Cache, Detail, Scenario, run};
    use crate::geom::Vector;
    use crate::session::Command;
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

    /// The section as it would be cut afresh.
    fn fresh(session: &Session, line: SectionLine) -> Section {
        let site = session.site();
        let analysis = run(&Scenario::of(site), Detail::Complete, &mut Cache::default());
        let edges = Edges::of(site, &analysis, None);
        Section::along(site, &analysis, edges.as_ref(), line).unwrap()
    }

    #[test]
    fn a_line_that_is_shown_again_stays_in_the_hand() {
        let mut session = session();
        session.show_section(true);
        let line = session.section_line().unwrap();
        assert!(session.take_section(line.from, 0.1, false));
        session.show_section(true);
        session.drag_section(line.from + Vector::new(-1.0, 0.5));
        assert_ne!(session.section_line(), Some(line));
        session.show_section(true);
        assert_ne!(session.section_line(), Some(line));
        session.show_section(false);
        assert_eq!(session.section_line(), Some(line));
    }

    #[test]
    fn the_section_keeps_step_with_site_and_line() {
        let mut session = session();
        let line = session.section_line().unwrap();
        let figures = session.section_figures().unwrap();
        assert!(!figures.given && !figures.dimensions.is_empty());
        assert_eq!((figures.from, figures.to), (line.from, line.to));
        session
            .apply(Command::SetCoping { elevation: 0.9 })
            .unwrap();
        let line = session.section_line().unwrap();
        let expected = fresh(&session, line);
        assert_eq!(*session.section().unwrap(), expected);
        let across = session.section_line_along(0.3, 12.0).unwrap();
        session.apply(Command::SetSection(Some(across))).unwrap();
        assert_eq!(session.section_line(), Some(across));
        let expected = fresh(&session, across);
        assert_eq!(*session.section().unwrap(), expected);
        assert!(session.section_figures().unwrap().given);
    }

    #[test]
    fn the_line_is_dragged_only_while_it_is_shown() {
        let mut session = session();
        let line = session.section_line().unwrap();
        assert!(!session.take_section(line.from, 0.5, false));
        session.show_section(true);
        assert!(!session.take_section(line.from, 0.5, true), "an end");
        assert!(session.take_section(line.from, 0.5, false));
        let to = line.from + (line.from - line.to) * 0.1;
        session.drag_section(to);
        let dragged = session.section_line().unwrap();
        assert!(dragged.from.distance(to) < 1e-9 && dragged.to == line.to);
        let expected = fresh(&session, dragged);
        assert_eq!(*session.section().unwrap(), expected);
        session.drop_section(false);
        assert_eq!(session.section_line(), Some(line));
        session.take_section(line.from, 0.5, false);
        session.drag_section(to);
        session.drop_section(true);
        assert_eq!(session.section_line(), Some(dragged));
        // The next edit says where the section lies.
        session.apply(Command::FlipShell).unwrap();
        assert_ne!(session.section_line(), Some(dragged));
        assert!(session.shown_section_line().is_some());
    }
}
