//! Laying out: stakes with two tapes and a laser, and the hole held against what was read back.
//!
//! A [`StakeoutPlan`] follows from a site and its analysis. It stands from the moment a shell is placed:
//! with no fixed points chosen its ties hang on the best pair there is, and say so. Nothing of it is
//! saved; what the user chose and read is in [`crate::site::StakeoutRecord`].
//!
//! | part | what it does |
//! |---|---|
//! | `tie` | two tapes: distances, crossing angle, expected error, along and off; and back to the point |
//! | `fixed` | what tapes can be held to, by its name |
//! | `pair` | the pair of fixed points that fixes all stakes best |
//! | `sight` | what stands in the way of a tape |
//! | `line` | stakes along a line: corners, ends of straights, evenly along arcs |
//! | `offset` | stakes clear of the dig, square to its sides |
//! | `square` | check diagonals |
//! | `level` | stations, depths, elevations, rod readings |
//! | `as_dug`, `as_set`, `taped` | what was read back, and what is to be done |
//! | `cautions` | what is wrong with any of it |
//!
//! # Names
//! `H` the rectangle round the bottom, `B` the bottom edge, `D` the top of dig, `R` the rim, `C` the
//! collar, `O` offset stakes, `S` stations: each counted from the deep end, counter-clockwise on the
//! plan; stations from the shallow end.
//!
//! # Accuracy
//! Stakes lie on lines flattened within 1 mm (the top of dig within 5 mm). Between two stakes a
//! straight string lies off the line by no more than the chord that was chosen, off the top of dig by
//! 4 in or as much.
//!
//! Deliberately absent: paper (`sheet`) and words for people but those of findings (`report`).

mod as_dug;
mod as_set;
mod cautions;
mod fixed;
mod level;
mod line;
mod offset;
mod pair;
mod rim_station;
mod sight;
mod square;
mod taped;
#[cfg(test)]
mod tests;
mod tie;

pub use as_dug::{AsDug, BottomAt, GradeWork};
pub use as_set::{AsSet, ENOUGH, RimAt, ShellEnd, Tilt};
pub use fixed::{FixedCandidate, candidates, named};
pub use level::{FloorAt, Setup, Station, bottoms};
pub use offset::OffsetStake;
pub use pair::BestPair;
pub use rim_station::RimStation;
pub use square::{Diagonals, off_square};
pub use taped::{Fix, Found, TapedAt};
pub use tie::{BaseLine, BaseSide, LEAST_BASE, LEAST_CROSSING, Meeting, Tie};

use std::sync::Arc;

use crate::analysis::Analysis;
use crate::finding::{Finding, Message};
use crate::geom::{Point, Region, Ring};
use crate::site::{
    CheckedSite, Feature, ReadingOf, RodReading, StakedLine, StakeoutRecord, YardReading,
};
use level::Floors;
use sight::Obstacles;

/// Two readings this near to each other are of one place, meters (2 in; arbitrary).
const ONE_PLACE: f64 = 0.05;

/// How far a straight string may lie off the top of dig, meters (4 in; common practice, no source).
const TOP_CHORD: f64 = 0.1016;

/// A stake on a line of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Stake {
    /// Its name: the letter of its line and a number.
    pub name: String,
    /// What it marks.
    pub line: StakedLine,
    /// Where it is, site frame.
    pub at: Point,
    /// Elevation of the ground there, where it is known, meters.
    pub ground: Option<f64>,
    /// Elevation of the bottom of the dig there, for stakes at the bottom, meters.
    pub bottom: Option<f64>,
}

/// The stakes of one line together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StakedAlong {
    /// The line.
    pub line: StakedLine,
    /// How many there are.
    pub count: usize,
    /// How far a straight string between two of them lies off the line at most, meters.
    pub chord: f64,
}

/// The base line with its two fixed points.
#[derive(Debug, Clone, PartialEq)]
pub struct Base {
    /// What tape A and tape B are held to.
    pub points: [FixedCandidate; 2],
    /// The line.
    pub line: BaseLine,
    /// Nobody chose them: they are the best pair.
    pub proposed: bool,
}

/// What stands in the way of each of two tapes, by its name.
pub type Blocked = [Option<Message>; 2];

/// A reading that counts, and its place in the list.
#[derive(Debug, PartialEq)]
pub struct Read<'a, T> {
    /// Its index in the site's list.
    pub index: usize,
    /// What was read.
    pub reading: &'a T,
    /// The whole entry.
    pub entry: &'a YardReading,
}

impl<T> Clone for Read<'_, T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Read<'_, T> {}

/// Everything that is laid out, and everything that was read back.
#[derive(Debug, Clone, PartialEq)]
pub struct StakeoutPlan<'a> {
    /// How it is staked.
    pub settings: Arc<StakeoutRecord>,
    /// The stakes of each line, in the order of the sheet.
    pub lines: Vec<StakedAlong>,
    /// Every stake, line by line.
    pub stakes: Vec<Stake>,
    /// Stakes clear of the dig.
    pub offsets: Vec<OffsetStake>,
    /// Check diagonals of the hole's rectangle and of the rim.
    pub diagonals: Vec<Diagonals>,
    /// Everything that tapes can be held to.
    pub candidates: Vec<FixedCandidate>,
    /// The pair that fixes all stakes best; none where fewer than two firm points are known.
    pub best: Option<BestPair>,
    /// The base line that ties hang on.
    pub base: Option<Base>,
    /// What is in the way of the tapes to each stake, and then to each offset stake.
    pub blocked: Vec<Blocked>,
    /// Stations along the shell.
    pub stations: Vec<Station>,
    /// Places of the rim to be read after setting.
    pub rim_stations: Vec<RimStation>,
    /// Elevation of the rim as planned, meters.
    pub coping: f64,
    /// Where the laser stands, once it is told.
    pub setup: Option<Setup>,
    /// The bottom as dug; none before it was read or without a benchmark.
    pub as_dug: Option<AsDug<'a>>,
    /// The rim as set; none before it was read.
    pub as_set: Option<AsSet<'a>>,
    /// Points as taped.
    pub taped: Vec<TapedAt<'a>>,
    /// What is wrong or worth knowing.
    pub findings: Vec<Finding>,
}

impl<'a> StakeoutPlan<'a> {
    /// Lays a site out; none before a shell is placed. `analysis` must have been computed from the
    /// same site.
    pub fn of(site: &'a CheckedSite, analysis: &Analysis) -> Option<Self> {
        let (shell, placement) = site.placed_shell()?;
        let (rings, dig) = (analysis.rings.as_ref()?, analysis.dig.as_ref()?);
        let document = site.site();
        let settings = document.stakeout.clone().unwrap_or_default();
        let floors = Floors::of(shell, placement, &document.works.dig);
        let pose = floors.pose;
        let known = |p: Point| {
            let height = site.ground().height(p);
            height.known.then_some(height.elevation)
        };
        let corners = offset::rectangle(&rings.over_dig)?;
        let hole = Region::from_ring(Ring(corners.to_vec()));
        let marked = [
            (StakedLine::Hole, hole.posed(&pose)),
            (StakedLine::Bottom, rings.over_dig.posed(&pose)),
            (StakedLine::Top, dig.top_edge.clone()),
            (StakedLine::Rim, shell.rim.posed(&pose)),
            (StakedLine::Collar, rings.collar.posed(&pose)),
        ];
        let (lines, stakes) = staked(&marked, site, &settings, &floors, &known);
        let of_line = |line: StakedLine| -> Vec<(String, Point)> {
            let of = stakes.iter().filter(|it: &&Stake| it.line == line);
            of.map(|it| (it.name.clone(), it.at)).collect()
        };
        let stations = floors.stations();
        let ends: Vec<(String, Point)> = of_line(StakedLine::Hole)
            .into_iter()
            .map(|(name, at)| (name, pose.shell_from_site(at)))
            .collect();
        let dug = offset::Dug {
            bottom: &rings.over_dig,
            top: &dig.top_edge,
            clear: settings.offset,
            ground: &known,
        };
        let offsets = offset::stakes(&dug, &floors, &ends, &stations);
        let squared = [StakedLine::Hole, StakedLine::Rim];
        let diagonals = squared.into_iter();
        let diagonals = diagonals.filter_map(|line| Diagonals::across(&of_line(line), &pose));
        let candidates = fixed::candidates(site);
        let places = stakes.iter().map(|it| it.at);
        let places: Vec<Point> = places.chain(offsets.iter().map(|it| it.at)).collect();
        let obstacles = Obstacles::of(site);
        let stays = |it: &&FixedCandidate| it.firm && !dig.top_edge.contains(it.at);
        let firm: Vec<&FixedCandidate> = candidates.iter().filter(stays).collect();
        let tapes = (settings.tape_error, settings.tape_length);
        let best = pair::best(firm, &places, placement.at, &obstacles, tapes);
        let base = base(site, &settings, best.as_ref());
        let blocked = |from: &FixedCandidate, to: Point| {
            let feature = obstacles.between(from.at, to)?;
            document.features.get(feature).map(Feature::named)
        };
        let blocked = places.iter().map(|to| match &base {
            Some(base) => base.points.each_ref().map(|from| blocked(from, *to)),
            None => [None, None],
        });
        let blocked: Vec<Blocked> = blocked.collect();
        let readings = &document
            .stakeout
            .as_ref()
            .map_or(&[][..], |it| &it.readings);
        let planned = taped::Planned {
            stakes: &stakes,
            lines: &marked,
            shell: (&analysis.work.waters_edge, shell.record.wall_thickness),
            middle: placement.at,
            sigma: settings.tape_error,
        };
        let all = readings.iter().enumerate();
        let taped = all.filter_map(|(index, entry)| match &entry.of {
            ReadingOf::Taped(reading) => Some(planned.hold(Read {
                index,
                reading,
                entry,
            })),
            _ => None,
        });
        let taped = taped.collect();
        let mark = document.benchmark.as_ref().map(|it| it.elevation);
        let bottoms = rods(readings, |of| match of {
            ReadingOf::Bottom(it) => Some(it),
            _ => None,
        });
        let rims = rods(readings, |of| match of {
            ReadingOf::Rim(it) => Some(it),
            _ => None,
        });
        let mut plan = Self {
            lines,
            diagonals: diagonals.collect(),
            as_dug: mark.filter(|_| !bottoms.is_empty()).map(|mark| {
                let limit = settings.bottom_limit;
                as_dug::as_dug(&bottoms, &floors, &rings.over_dig, mark, limit)
            }),
            rim_stations: rim_station::rim_stations(&shell.rim, &pose),
            as_set: as_set::as_set(&rims, (&shell.rim, &pose, floors.coping), mark),
            coping: floors.coping,
            setup: Setup::of(site),
            stakes,
            offsets,
            candidates,
            best,
            base,
            blocked,
            stations,
            taped,
            settings,
            findings: Vec::new(),
        };
        plan.findings = cautions::all(&plan, site, &obstacles, bottoms.len());
        Some(plan)
    }

    /// How a place hangs on the base line, once there is one.
    pub fn tie(&self, at: Point) -> Option<Tie> {
        self.base.as_ref().map(|base| base.line.tie(at))
    }

    /// Every stake by name and place, offset stakes last: in the order of [`Self::blocked`].
    pub fn places(&self) -> impl Iterator<Item = (&str, Point)> {
        let stakes = self.stakes.iter().map(|it| (it.name.as_str(), it.at));
        stakes.chain(self.offsets.iter().map(|it| (it.name.as_str(), it.at)))
    }

    /// The greatest expected error of a stake from the present base line, meters; none where a stake
    /// lies on it.
    pub fn worst_error(&self) -> Option<f64> {
        self.places().try_fold(0.0, |worst: f64, (_, at)| {
            let error = self.tie(at)?.error(self.settings.tape_error)?;
            Some(worst.max(error))
        })
    }

    /// What the rod reads on a level; none before the laser is set up.
    pub fn rod(&self, elevation: f64) -> Option<f64> {
        self.setup.as_ref().map(|setup| setup.rod(elevation))
    }
}

/// The stakes of each line with the region that it encloses, site frame, line by line. `known`:
/// elevation of the ground, where it is known.
fn staked(
    marked: &[(StakedLine, Region)],
    site: &CheckedSite,
    settings: &StakeoutRecord,
    floors: &Floors<'_>,
    known: &dyn Fn(Point) -> Option<f64>,
) -> (Vec<StakedAlong>, Vec<Stake>) {
    let (mut lines, mut stakes) = (Vec::new(), Vec::new());
    let pose = &floors.pose;
    let has_collar = site.site().works.collar.width > 0.0;
    let from = |p: Point| {
        let p = pose.shell_from_site(p);
        p.x + 1e-6 * p.y
    };
    for (line, region) in marked {
        let line = *line;
        if line == StakedLine::Collar && !has_collar {
            continue;
        }
        // The top of dig is known no better than the ground, and a bucket cuts no finer.
        let most = match line {
            StakedLine::Top => TOP_CHORD.max(settings.chord),
            _ => settings.chord,
        };
        let at_bottom = matches!(line, StakedLine::Hole | StakedLine::Bottom);
        let (mut count, mut chord) = (0, 0.0_f64);
        for polygon in &region.polygons {
            let (places, off) = line::along(&polygon.outer, most, from);
            chord = chord.max(off);
            for at in places {
                count += 1;
                let floor = || floors.at(pose.shell_from_site(at));
                stakes.push(Stake {
                    name: format!("{}{count}", line.words().1),
                    line,
                    at,
                    ground: known(at),
                    bottom: at_bottom.then(floor).flatten().map(|it| it.bottom),
                });
            }
        }
        lines.push(StakedAlong { line, count, chord });
    }
    (lines, stakes)
}

/// The chosen base line, or that of the best pair.
fn base(site: &CheckedSite, settings: &StakeoutRecord, best: Option<&BestPair>) -> Option<Base> {
    let (points, proposed) = match &settings.fixed {
        Some(pair) => ([named(site, &pair.a)?, named(site, &pair.b)?], false),
        None => {
            let best = best?;
            ([best.a.clone(), best.b.clone()], true)
        }
    };
    let [a, b] = &points;
    Some(Base {
        line: BaseLine::new(a.at, b.at)?,
        points,
        proposed,
    })
}

/// The rod readings of a kind that count: of several at one place the last.
fn rods<'a>(
    readings: &'a [YardReading],
    of: impl Fn(&'a ReadingOf) -> Option<&'a RodReading>,
) -> Vec<Read<'a, RodReading>> {
    let mut rods: Vec<Read<'a, RodReading>> = Vec::new();
    for (index, entry) in readings.iter().enumerate() {
        let Some(reading) = of(&entry.of) else {
            continue;
        };
        rods.retain(|it| it.reading.at.distance(reading.at) > ONE_PLACE);
        rods.push(Read {
            index,
            reading,
            entry,
        });
    }
    rods
}
