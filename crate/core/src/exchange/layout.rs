//! What an instrument operator stakes: the stakes of the hole, its bottom and top edges, the rim and the
//! collar, offset stakes, and the lines themselves; each by its own name and code.
//!
//! Whatever the form, a reader of this planner leaves these out again: they follow from the shell.

use crate::analysis::Analysis;
use crate::geom::{DRAWING_TOLERANCE, Point, Region};
use crate::site::{CheckedSite, StakedLine};
use crate::stakeout::{StakeoutPlan, bottoms};

use super::figures::thinned;

/// What every description of these says: read back, it is left out as the shell is.
pub(super) const OF_THE_SHELL: &str = "shell stake";

/// A stake by name, code and place.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutPoint {
    /// Its name on the sheet: `H1`.
    pub name: String,
    /// What it belongs to.
    pub part: LayoutPart,
    /// What an offset stake is set for; otherwise empty.
    pub serves: String,
    /// Where it is, site meters.
    pub at: Point,
    /// The elevation of what it marks, meters: the bottom of the dig at hole and bottom, the rim at the
    /// rim, the ground elsewhere; none where that is not known.
    pub elevation: Option<f64>,
}

/// A place on a line, site meters, and its elevation where that is known, meters.
pub type LayoutVertex = (Point, Option<f64>);

/// A line of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutLine {
    /// What it is.
    pub part: LayoutPart,
    /// Its points, closed without repeating the first, each with its elevation where that is known.
    pub points: Vec<LayoutVertex>,
}

/// What is staked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LayoutPart {
    /// A line of the work.
    Line(StakedLine),
    /// Stakes clear of the dig.
    Offset,
}

impl LayoutPart {
    /// The code in the instrument. It must read as nothing that comes onto a site by itself.
    pub fn code(self) -> &'static str {
        match self {
            Self::Line(StakedLine::Hole) => "hole",
            Self::Line(StakedLine::Bottom) => "dig bottom",
            Self::Line(StakedLine::Top) => "dig top",
            Self::Line(StakedLine::Rim) => "rim",
            Self::Line(StakedLine::Collar) => "collar",
            Self::Offset => "offset",
        }
    }

    /// Whether it belongs to the dig; the rest belongs to the shell.
    pub fn is_dig(self) -> bool {
        !matches!(self, Self::Line(StakedLine::Rim | StakedLine::Collar))
    }
}

/// Everything that is staked. Empty before a shell is placed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Layout {
    /// The stakes, line by line in the order of the sheet, offset stakes last.
    pub points: Vec<LayoutPoint>,
    /// The lines.
    pub lines: Vec<LayoutLine>,
}

impl Layout {
    /// The layout of a site; `analysis` must have been computed from it.
    pub fn of(site: &CheckedSite, analysis: &Analysis) -> Self {
        let Some(plan) = StakeoutPlan::of(site, analysis) else {
            return Self::default();
        };
        let stakes = plan.stakes.iter().map(|it| LayoutPoint {
            name: it.name.clone(),
            part: LayoutPart::Line(it.line),
            serves: String::new(),
            at: it.at,
            elevation: match it.line {
                StakedLine::Hole | StakedLine::Bottom => it.bottom,
                StakedLine::Rim => Some(plan.coping),
                StakedLine::Top | StakedLine::Collar => it.ground,
            },
        });
        let offsets = plan.offsets.iter().map(|it| LayoutPoint {
            name: it.name.clone(),
            part: LayoutPart::Offset,
            serves: format!("{} {}", it.serves, it.towards),
            at: it.at,
            elevation: it.ground,
        });
        Self {
            points: stakes.chain(offsets).collect(),
            lines: lines(site, analysis, plan.coping),
        }
    }

    /// Keeps the parts that are wanted.
    pub fn keep(&mut self, wants: impl Fn(LayoutPart) -> bool) {
        self.points.retain(|it| wants(it.part));
        self.lines.retain(|it| wants(it.part));
    }
}

/// The lines of the work, curves as chords within 2 mm.
fn lines(site: &CheckedSite, analysis: &Analysis, coping: f64) -> Vec<LayoutLine> {
    let (Some((shell, placement)), Some(rings), Some(dig)) = (
        site.placed_shell(),
        analysis.rings.as_ref(),
        analysis.dig.as_ref(),
    ) else {
        return Vec::new();
    };
    let pose = placement.pose();
    let known = |p: &Point| {
        let height = site.ground().height(*p);
        (*p, height.known.then_some(height.elevation))
    };
    let mut out = Vec::new();
    let mut put =
        |line: StakedLine, region: Region, level: &dyn Fn(&[Point]) -> Vec<LayoutVertex>| {
            for ring in region.polygons.iter().map(|it| &it.outer) {
                out.push(LayoutLine {
                    part: LayoutPart::Line(line),
                    points: level(&thinned(&ring.0, DRAWING_TOLERANCE)),
                });
            }
        };
    put(StakedLine::Bottom, rings.over_dig.posed(&pose), &|ring| {
        ring.iter().copied().zip(bottoms(site, ring)).collect()
    });
    put(StakedLine::Top, dig.top_edge.clone(), &|ring| {
        ring.iter().map(known).collect()
    });
    put(StakedLine::Rim, shell.rim.posed(&pose), &|ring| {
        ring.iter().map(|p| (*p, Some(coping))).collect()
    });
    if site.site().works.collar.width > 0.0 {
        put(StakedLine::Collar, rings.collar.posed(&pose), &|ring| {
            ring.iter().map(known).collect()
        });
    }
    out
}
