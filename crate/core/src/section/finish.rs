//! The finished ground along the line: under deck and collar, down and up its banks.

use super::cut::{BESIDE, sampled};
use super::dimension::{Dimension, height_on};
use super::line::Cut;
use crate::analysis::ShellRings;
use crate::geom::{Point, Region};
use crate::grading::{Drawn, Finish, Finished};
use crate::site::CheckedSite;
use crate::units::{Measure, show};

/// Steps in which the end of a bank is found: to far less than a hair.
const HALVINGS: usize = 30;

/// Beyond a bank's end by this much it is looked at what lies there, metres.
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
    let (pose, coping) = (placement.pose(), placement.coping_elevation);
    let drawn = Drawn::of(site.features());
    let finished = Finished::new(shell, &site.site().works, &drawn, &pose);
    let rise = |p: Point| {
        let at = pose.site_from_shell(p);
        site.ground().height(at).elevation - coping
    };
    let place = |s: f64| finished.at(cut.at(s), &rise);
    let level = |s: f64| match place(s) {
        Finish::Left => height_on(ground, s).unwrap_or(coping),
        Finish::Paved(rise) | Finish::Bank(rise) => coping + rise,
    };
    let mut breaks: Vec<f64> = ground.iter().map(|p| p.x).collect();
    let [decks, openings] = finished.drawn();
    for region in [&shell.rim, &rings.collar, &rings.deck, decks, openings] {
        breaks.extend(cut.crossings(region));
    }
    breaks.sort_by(f64::total_cmp);
    breaks.dedup_by(|b, a| *b - *a < 4.0 * BESIDE);
    let earth = sampled((0.0, cut.length), &breaks, &level);

    let mut grade = Grade {
        earth,
        banks: Vec::new(),
        left: Vec::new(),
        runs: Vec::new(),
    };
    let on_bank = |s: f64| matches!(place(s), Finish::Bank(_));
    // The last place on a bank, between one on it and one off it.
    let end_of = |mut on: f64, mut off: f64| {
        for _ in 0..HALVINGS {
            let middle = on.midpoint(off);
            if on_bank(middle) {
                on = middle;
            } else {
                off = middle;
            }
        }
        Point::new(on, level(on))
    };
    let mut before: Option<(f64, Finish)> = None;
    for (a, b) in grade.earth.iter().zip(grade.earth.iter().skip(1)) {
        // Both sides of a break belong together.
        if b.x - a.x < 4.0 * BESIDE {
            continue;
        }
        let middle = a.x.midpoint(b.x);
        let finish = place(middle);
        if finish == Finish::Left {
            match grade.left.last_mut() {
                Some((_, end)) if a.x - *end < 4.0 * BESIDE => *end = b.x,
                _ => grade.left.push((a.x, b.x)),
            }
        }
        let on = matches!(finish, Finish::Bank(_));
        let (last, was) = before.unwrap_or((a.x, Finish::Left));
        let was_on = matches!(was, Finish::Bank(_));
        let left = grade.left.last_mut();
        if on && !was_on {
            let begin = end_of(middle, last);
            if was == Finish::Left {
                left.into_iter().for_each(|(_, end)| *end = begin.x);
            }
            grade.banks.push(vec![begin]);
        } else if was_on
            && !on
            && let Some(chain) = grade.banks.last_mut()
        {
            let end = end_of(last, middle);
            if finish == Finish::Left {
                left.into_iter().for_each(|(begin, _)| *begin = end.x);
            }
            chain.pop_if(|p| p.x >= end.x);
            chain.push(end);
        }
        if let Some(chain) = grade.banks.last_mut().filter(|_| on) {
            chain.push(*b);
        }
        before = Some((middle, finish));
    }
    let paved = |s: f64| matches!(place(s), Finish::Paved(_));
    for chain in &grade.banks {
        let (Some(first), Some(last)) = (chain.first(), chain.last()) else {
            continue;
        };
        let begins = paved(first.x - BEYOND);
        let (edge, end) = match begins {
            true => (first, last),
            false => (last, first),
        };
        let within = end.x > BEYOND && end.x < cut.length - BEYOND;
        if !within || begins == paved(last.x + BEYOND) {
            continue;
        }
        let middle = first.x.midpoint(last.x);
        let fill = level(middle) > height_on(ground, middle).unwrap_or(coping);
        let value = (end.x - edge.x).abs();
        grade.runs.push(Dimension {
            label: if fill {
                "bank of fill, out to its toe"
            } else {
                "bank of cut, out to its top"
            },
            from: Point::new(edge.x, end.y),
            to: *end,
            value,
            text: show(Measure::Length, value, site.site().display).text,
        });
    }
    Some(grade)
}

impl Grade {
    /// Everything under the finished ground, down to a level.
    pub fn below(&self, lowest: f64) -> Region {
        let mut points = self.earth.clone();
        let ends = (self.earth.first(), self.earth.last());
        if let (Some(first), Some(last)) = ends {
            points.push(Point::new(last.x, lowest));
            points.push(Point::new(first.x, lowest));
        }
        super::cut::region(points)
    }
}
