//! The finished ground along the line: under deck and collar, down and up its banks.

use super::chain::{BESIDE, breaks, height_on, sampled};
use super::dimension::Dimension;
use super::line::Cut;
use crate::analysis::ShellRings;
use crate::geom::{Point, Pose};
use crate::grading::{Drawn, Finish, Finished};
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Steps in which the end of a bank is found: to far less than a hair.
const HALVINGS: usize = 30;

/// Beyond a bank's end by this much it is looked at what lies there, meters.
const BEYOND: f64 = 1e-3;

/// The finished ground from end to end, section frame.
pub(super) struct Grade {
    /// What earth is brought to: under deck and collar, along banks, elsewhere the ground.
    pub earth: Vec<Point>,
    /// The banks, each from where it begins to where it ends.
    pub banks: Vec<Vec<Point>>,
    /// The stretches that are not graded, stations from and to.
    pub left: Vec<(f64, f64)>,
    /// How far each bank runs from the deck's edge.
    pub runs: Vec<Dimension>,
}

/// The finished ground along a line; `cut` is the same line in the shell's frame.
pub(super) fn along(
    site: &CheckedSite,
    rings: &ShellRings,
    cut: &Cut,
    ground: &[Point],
) -> Option<Grade> {
    let (shell, placement) = site.placed_shell()?;
    let pose = placement.pose();
    let drawn = Drawn::of(site.features());
    let finished = Finished::new(shell, &site.site().works, &drawn, &pose);
    let mut bends: Vec<f64> = ground.iter().map(|p| p.x).collect();
    let [decks, openings] = finished.drawn();
    for region in [&shell.rim, &rings.collar, &rings.deck, decks, openings] {
        bends.extend(cut.crossings(region));
    }
    let line = Line {
        site,
        finished: &finished,
        pose,
        cut,
        ground,
        coping: placement.coping_elevation,
    };
    let earth = sampled((0.0, cut.length), &breaks(bends), &|s| line.level(s));
    let (banks, left) = line.banks(&earth);
    let runs = banks.iter().filter_map(|bank| line.run(bank)).collect();
    Some(Grade {
        earth,
        banks,
        left,
        runs,
    })
}

/// The finish along a line.
struct Line<'a> {
    site: &'a CheckedSite,
    finished: &'a Finished,
    pose: Pose,
    cut: &'a Cut,
    ground: &'a [Point],
    /// Elevation of the rim, meters.
    coping: f64,
}

impl Line<'_> {
    fn finish(&self, s: f64) -> Finish {
        let rise = |p: Point| {
            let at = self.pose.site_from_shell(p);
            self.site.ground().height(at).elevation - self.coping
        };
        self.finished.at(self.cut.at(s), &rise)
    }

    /// Elevation of the finished ground, meters.
    fn level(&self, s: f64) -> f64 {
        match self.finish(s) {
            Finish::Left => self.existing(s),
            Finish::Paved(rise) | Finish::Bank(rise) => self.coping + rise,
        }
    }

    fn existing(&self, s: f64) -> f64 {
        height_on(self.ground, s).unwrap_or(self.coping)
    }

    fn is_paved(&self, s: f64) -> bool {
        matches!(self.finish(s), Finish::Paved(_))
    }

    /// The last place on a bank, between one on it and one off it.
    fn end_of_bank(&self, mut on: f64, mut off: f64) -> Point {
        for _ in 0..HALVINGS {
            let middle = on.midpoint(off);
            if is_bank(self.finish(middle)) {
                on = middle;
            } else {
                off = middle;
            }
        }
        Point::new(on, self.level(on))
    }

    /// The banks among the chain of the finished ground, and the stretches that are not graded.
    fn banks(&self, earth: &[Point]) -> (Vec<Vec<Point>>, Vec<(f64, f64)>) {
        let (mut banks, mut left) = (Vec::<Vec<Point>>::new(), Vec::<(f64, f64)>::new());
        let mut before: Option<(f64, Finish)> = None;
        for (a, b) in earth.iter().zip(earth.iter().skip(1)) {
            // Both sides of a break belong together.
            if b.x - a.x < 4.0 * BESIDE {
                continue;
            }
            let middle = a.x.midpoint(b.x);
            let finish = self.finish(middle);
            if finish == Finish::Left {
                match left.last_mut() {
                    Some((_, end)) if a.x - *end < 4.0 * BESIDE => *end = b.x,
                    _ => left.push((a.x, b.x)),
                }
            }
            let (last, was) = before.unwrap_or((a.x, Finish::Left));
            match (is_bank(was), is_bank(finish), banks.last_mut()) {
                (false, true, _) => {
                    let begin = self.end_of_bank(middle, last);
                    if was == Finish::Left
                        && let Some((_, end)) = left.last_mut()
                    {
                        *end = begin.x;
                    }
                    banks.push(vec![begin, *b]);
                }
                (true, true, Some(chain)) => chain.push(*b),
                (true, false, Some(chain)) => {
                    let end = self.end_of_bank(last, middle);
                    if finish == Finish::Left
                        && let Some((begin, _)) = left.last_mut()
                    {
                        *begin = end.x;
                    }
                    chain.pop_if(|p| p.x >= end.x);
                    chain.push(end);
                }
                _ => {}
            }
            before = Some((middle, finish));
        }
        (banks, left)
    }

    /// How far a bank runs from the deck's edge; `None` where an end lies beyond the line, or
    /// where it does not lead from the deck to the ground.
    fn run(&self, bank: &[Point]) -> Option<Dimension> {
        let (first, last) = (bank.first()?, bank.last()?);
        let begins = self.is_paved(first.x - BEYOND);
        let (edge, end) = match begins {
            true => (first, last),
            false => (last, first),
        };
        let within = end.x > BEYOND && end.x < self.cut.length - BEYOND;
        if !within || begins == self.is_paved(last.x + BEYOND) {
            return None;
        }
        let middle = first.x.midpoint(last.x);
        let value = (end.x - edge.x).abs();
        Some(Dimension {
            label: match (self.level(middle) > self.existing(middle), begins) {
                (true, false) => "bank of fill, out to its toe, on the side of A",
                (true, true) => "bank of fill, out to its toe, on the side of A′",
                (false, false) => "bank of cut, out to its top, on the side of A",
                (false, true) => "bank of cut, out to its top, on the side of A′",
            },
            from: Point::new(edge.x, end.y),
            to: *end,
            value,
            text: show(Measure::Length, value, self.site.site().display).text,
        })
    }
}

fn is_bank(finish: Finish) -> bool {
    matches!(finish, Finish::Bank(_))
}
