//! The stake plan: the site, and over it every stake of a line with its name.

use batterboard_core::drawing;
use batterboard_core::drawing::layout::{Layout, Moving};
use batterboard_core::drawing::lettering::obstacles;
use batterboard_core::geom::Point;
use batterboard_core::report::StakeoutFigures;
use batterboard_core::session::Session;
use batterboard_core::site::StakedLine;
use web_sys::CanvasRenderingContext2d;

use super::small;
use crate::paint::ink::theme::Theme;
use crate::paint::labels::{Letters, frame, lettering, write};
use crate::paint::pen::Pen;
use crate::paint::{View, draw};
use crate::picture::Pictured;

/// What of the stakes is shown.
pub struct Shown<'a> {
    pub figures: &'a StakeoutFigures,
    /// The stakes of one line alone.
    pub line: Option<StakedLine>,
}

impl Shown<'_> {
    fn stakes(&self) -> impl Iterator<Item = (&str, Point)> {
        let of_line = |line| self.line.is_none_or(|it| it == line);
        let stakes = self
            .figures
            .stakes
            .iter()
            .filter(move |it| of_line(it.line));
        let offsets = self.figures.offsets.iter().filter(|_| self.line.is_none());
        let stakes = stakes.map(|it| (it.name.as_str(), it.at));
        stakes.chain(offsets.map(|it| (it.name.as_str(), it.at)))
    }

    fn base(&self) -> Option<[Point; 2]> {
        let [a, b] = &self.figures.base.as_ref()?.points;
        Some([a.at, b.at])
    }

    /// The view of a size that shows them all, with some room round them.
    pub fn view(&self, (width, height): (f64, f64), ratio: f64, theme: Theme) -> Option<View> {
        const ROOM: f64 = 1.15;
        let base = self.base().into_iter().flatten();
        let all = self.stakes().map(|(_, at)| at).chain(base);
        let (low, high) = batterboard_core::geom::region::bounds(all)?;
        let span = high - low;
        Some(View {
            width,
            height,
            ratio,
            centre: low.midpoint(high),
            scale: (width / span.x.max(1.0)).min(height / span.y.max(1.0)) / ROOM,
            theme,
        })
    }
}

/// Paints site and stakes.
pub fn paint(
    context: &CanvasRenderingContext2d,
    view: &View,
    session: &mut Session,
    picture: &Pictured,
    shown: &Shown<'_>,
) {
    small::paint(context, view, session, picture);
    let over = drawing::stakes(shown.stakes(), shown.base());
    let mut pen = Pen::new(context, view);
    draw(&mut pen, view, &over.items);
    let frame = frame(view);
    let labels = lettering(context, view, &over.items, &mut Letters::default());
    let mut layout = Layout::default();
    layout.set_still(frame, labels, obstacles(&over.items, &frame));
    layout.lay(Moving::default(), false);
    write(&mut pen, layout.still());
}
