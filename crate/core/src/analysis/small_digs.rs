//! The small digs beside the hole: the sump of the dewatering pipe, the equipment pad, and the
//! trenches for pipe.

use crate::dig::Dig;
use crate::dig::small::{self, SmallDig};
use crate::pipe::PipePlan;
use crate::site::{CheckedSite, ConstructionSettings};
use crate::takeoff::expression::{Expression, input, measured};
use crate::takeoff::{MeasuredOn, Refill, Yield};
use crate::units::Measure;

/// The small digs of a site.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SmallDigs {
    /// The sump, shell frame.
    pub sump: Option<SmallDig>,
    /// The pad with its bed, site frame.
    pub pad: Option<SmallDig>,
    /// All trenches outside the hole, site frame.
    pub trenches: Option<SmallDig>,
}

impl SmallDigs {
    /// Digs the trenches into the ground of a site, beside the sump of its shell and its pad.
    pub(super) fn of(
        site: &CheckedSite,
        sump: Option<SmallDig>,
        pad: Option<SmallDig>,
        pipes: &PipePlan,
        dig: &Dig,
    ) -> Self {
        let works = &site.site().works;
        let ground = site.ground();
        let (width, depth) = (works.pipe.trench_width, works.pipe.trench_depth);
        let trenches = (!pipes.trenches.is_empty())
            .then(|| small::trenches(&pipes.trenches, width, depth, &dig.top_edge, ground));
        Self {
            sump,
            pad,
            trenches,
        }
    }

    /// What goes back into the trenches.
    pub(super) fn refill(&self, works: &ConstructionSettings, pipes: &PipePlan) -> Option<Refill> {
        let trenches = self.trenches.as_ref()?;
        Refill::of(works, pipes, trenches.bank_volume)
    }

    /// What they yield, for the takeoff.
    pub(super) fn yields(&self, works: &ConstructionSettings) -> Vec<Yield> {
        let mut yields = Vec::new();
        let mut push =
            |dig: &Option<SmallDig>, key, label, name, on, volume: fn(_, _, _) -> _, depth| {
                let Some(dig) = dig.as_ref().filter(|dig| dig.bank_volume > 0.0) else {
                    return;
                };
                let area = input("area in plan", dig.area, Measure::Area);
                let depth = input("depth", depth, Measure::Length);
                yields.push(Yield {
                    key,
                    label,
                    name,
                    volume: volume(dig.bank_volume, area, depth),
                    on,
                });
            };
        push(
            &self.sump,
            "sump-cut",
            "Cut for the sump",
            "cut for the sump",
            MeasuredOn::Dewatering,
            sump_volume,
            works.dewatering.sump_depth,
        );
        push(
            &self.pad,
            "pad-cut",
            "Cut for the equipment pad",
            "cut for the equipment pad",
            MeasuredOn::Pad,
            pad_volume,
            works.pad.thickness + works.pad.bed,
        );
        push(
            &self.trenches,
            "trench-cut",
            "Cut for trenches",
            "cut for trenches",
            MeasuredOn::Trenches,
            trench_volume,
            works.pipe.trench_depth,
        );
        yields
    }
}

fn sump_volume(volume: f64, area: Expression, depth: Expression) -> Expression {
    measured(
        "pit of the sump below the bottom of the hole, sides vertical",
        volume,
    )
    .under(area)
    .under(depth)
}

fn pad_volume(volume: f64, area: Expression, depth: Expression) -> Expression {
    let words = "ground above the underside of the pad's bed, sides upright, the pad flush with the \
                 mean of the ground under it";
    measured(words, volume).under(area).under(depth)
}

fn trench_volume(volume: f64, area: Expression, depth: Expression) -> Expression {
    (area.worded("", " outside the hole") * depth)
        .closer(volume)
        .worded("", ", sides vertical")
}
