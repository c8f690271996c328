//! Stakes, ties, levels and what was read back, in figures.

use serde::Serialize;

use super::Figure;
use crate::analysis::Analysis;
use crate::finding::{Finding, sort_by_severity};
use crate::geom::Point;
use crate::shell::FacetKind;
use crate::site::{CheckedSite, ReadingOf, RodScale, StakedLine, YardReading};
use crate::stakeout::{
    AsDug, AsSet, BaseSide, Diagonals, Fix, FixedCandidate, Found, GradeWork, RimStation, ShellEnd,
    StakeoutPlan, TapedAt, Tie, off_square,
};
use crate::units::{LengthStyle, Measure, System, format_length};

/// Everything that is laid out, and everything that was read back.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct StakeoutFigures {
    /// What is wrong or worth knowing.
    pub findings: Vec<Finding>,
    /// Everything that tapes can be held to.
    pub candidates: Vec<FixedCandidate>,
    /// The pair that fixes all stakes best.
    pub best: Option<PairFigures>,
    /// The base line that the ties hang on.
    pub base: Option<BaseFigures>,
    /// How far the reading of a tape may be out.
    pub tape_error: Figure,
    /// How far a straight string between two stakes of a line lies off it at most.
    pub chords: Vec<(StakedLine, Figure)>,
    /// Every stake, line by line.
    pub stakes: Vec<StakeFigures>,
    /// Stakes clear of the dig.
    pub offsets: Vec<OffsetFigures>,
    /// How far they stand clear of the top of dig.
    pub clear: Figure,
    /// Check diagonals.
    pub diagonals: Vec<DiagonalFigures>,
    /// Where the laser stands, once it is told.
    pub level: Option<LevelFigures>,
    /// Stations along the shell.
    pub stations: Vec<StationFigures>,
    /// Places of the rim to be read after setting.
    pub rim_stations: Vec<RimStation>,
    /// The bottom as dug, once it was read.
    pub bottom: Option<BottomFigures>,
    /// The rim as set, once it was read.
    pub rim: Option<RimFigures>,
    /// Points as taped.
    pub taped: Vec<TapedFigures>,
    /// Every reading as it was typed, in order.
    pub readings: Vec<ReadingFigures>,
}

/// A reading as it was typed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ReadingFigures {
    /// The reading.
    pub reading: YardReading,
    /// What was read, in words.
    pub words: String,
}

/// A pair of fixed points that is proposed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct PairFigures {
    /// What tape A and tape B are held to.
    pub points: [FixedCandidate; 2],
    /// Tapes that cannot be pulled.
    pub barred: usize,
    /// The greatest expected error of a stake; none where one lies on the base line.
    pub worst: Option<Figure>,
}

/// The base line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct BaseFigures {
    /// What tape A and tape B are held to.
    pub points: [FixedCandidate; 2],
    /// From the one to the other.
    pub length: Figure,
    /// Nobody chose them: they are the best pair.
    pub proposed: bool,
    /// The greatest expected error of a stake; none where one lies on the base line.
    pub worst: Option<Figure>,
}

/// How a stake hangs on the base line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct TieFigures {
    /// Tape A and tape B.
    pub tapes: [Figure; 2],
    /// The angle at which they cross.
    pub crossing: Figure,
    /// Whether they cross well.
    pub sound: bool,
    /// Expected error of the stake.
    pub error: Option<Figure>,
    /// The long half-axis of its ellipse.
    pub long_axis: Option<Figure>,
    /// Along the base line from A.
    pub along: Figure,
    /// Off the base line.
    pub off: Figure,
    /// On which side, going from A to B.
    pub side: BaseSide,
    /// What is in the way of either tape.
    pub blocked: [Option<String>; 2],
}

/// A stake.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct StakeFigures {
    /// Its name.
    pub name: String,
    /// The line it is on.
    pub line: StakedLine,
    /// What it marks, in words.
    pub what: &'static str,
    /// Where it is, site meters.
    pub at: Point,
    /// Its tie, once there is a base line.
    pub tie: Option<TieFigures>,
    /// Elevation of the ground there, where it is known.
    pub ground: Option<Figure>,
    /// Elevation of the bottom of the dig there, for stakes at the bottom.
    pub bottom: Option<Figure>,
    /// What the rod reads on that bottom.
    pub rod: Option<RodFigures>,
    /// Its offset stakes.
    pub offsets: Vec<String>,
}

/// An offset stake.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct OffsetFigures {
    /// Its name.
    pub name: String,
    /// The stake or station it serves.
    pub serves: String,
    /// Which way it lies from there.
    pub towards: &'static str,
    /// Where it is, site meters.
    pub at: Point,
    /// From the stake to the bottom edge of the dig, level.
    pub distance: Figure,
    /// Its tie, once there is a base line.
    pub tie: Option<TieFigures>,
    /// Elevation of the ground at the stake, where it is known.
    pub ground: Option<Figure>,
    /// Elevation of the bottom of the dig at its edge.
    pub bottom: Figure,
    /// From the ground at the stake down to the bottom, where the ground is known.
    pub cut: Option<Figure>,
    /// What the rod reads on that bottom.
    pub rod: Option<RodFigures>,
}

/// Two diagonals that show whether four stakes are square.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct DiagonalFigures {
    /// The stakes, in order round.
    pub stakes: [String; 4],
    /// From the first to the third, and from the second to the fourth.
    pub lengths: [Figure; 2],
    /// How far off square the corners are when the first is measured an inch (25.4 mm) longer, and
    /// what that is over the longer side.
    pub off_by_inch: [Figure; 2],
}

/// A reading of the rod.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct RodFigures {
    /// Meters.
    pub value: f64,
    /// As the rod is divided.
    pub text: String,
    /// Whether the rod can show it.
    pub shows: bool,
}

/// Where the laser stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct LevelFigures {
    /// What the mark is called.
    pub mark: String,
    /// Its elevation.
    pub elevation: Figure,
    /// The reading on it.
    pub backsight: RodFigures,
    /// Elevation of the line of sight.
    pub instrument: Figure,
    /// The reading on the rim as planned.
    pub rim: RodFigures,
}

/// A station along the shell.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct StationFigures {
    /// Its name.
    pub name: String,
    /// Where it is, site meters.
    pub at: Point,
    /// Where it is, shell frame, meters.
    pub in_shell: Point,
    /// How far along the shell from the shallow end of its floor.
    pub along: Figure,
    /// What part of the floor it is.
    pub kind: FacetKind,
    /// Depth of the floor below the coping.
    pub depth: Figure,
    /// Elevation of the finished base, on which the shell rests.
    pub base: Figure,
    /// Elevation of the underside of the base, the bottom of the dig.
    pub bottom: Figure,
    /// What the rod reads on the finished base.
    pub rod_base: Option<RodFigures>,
    /// What the rod reads on the bottom of the dig.
    pub rod_bottom: Option<RodFigures>,
}

/// The bottom as dug.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BottomFigures {
    /// Each reading that counts.
    pub places: Vec<BottomPlace>,
    /// To be cut down to grade.
    pub cut: Figure,
    /// Stone to fill up to grade.
    pub fill: Figure,
    /// Stone beyond the plan where nothing is cut.
    pub stone: Figure,
    /// How it was worked out.
    pub method: &'static str,
}

/// The bottom at one reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct BottomPlace {
    /// Index of the reading.
    pub reading: usize,
    /// What the place is called.
    pub place: String,
    /// Where it is, site meters.
    pub at: Point,
    /// Elevation of the bottom.
    pub elevation: Figure,
    /// How far above grade, signed.
    pub high: Figure,
    /// What is to be done.
    pub grade: GradeWork,
    /// The part of the bottom it stands for.
    pub share: Figure,
}

/// The rim as set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct RimFigures {
    /// Each reading that counts.
    pub places: Vec<RimPlace>,
    /// The highest and the lowest place, by their order here.
    pub high_low: [usize; 2],
    /// From the lowest to the highest.
    pub out_of_level: Figure,
    /// The limit that was chosen (common practice, no source).
    pub limit: Figure,
    /// Whether it is kept.
    pub within: bool,
    /// How far the mean lies above the coping as planned.
    pub above_plan: Option<Figure>,
    /// Which ends to lift and by how much; none while no plane can be told.
    pub lifts: Option<Vec<(ShellEnd, Figure)>>,
    /// What no lifting mends: from the lowest to the highest once the plane is taken off.
    pub twist: Option<Figure>,
}

/// The rim at one reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct RimPlace {
    /// Index of the reading.
    pub reading: usize,
    /// What the place is called.
    pub place: String,
    /// Where it is, site meters.
    pub at: Point,
    /// How far it lies below the highest.
    pub below_high: Figure,
    /// How far it lies above the plane, signed.
    pub off_plane: Option<Figure>,
}

/// A point as taped.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct TapedFigures {
    /// Index of the reading.
    pub reading: usize,
    /// The name of the stake.
    pub stake: String,
    /// What it is a point of.
    pub line: StakedLine,
    /// Where it is; none where the tapes cannot meet.
    pub found: Option<FoundFigures>,
    /// By how much tapes that cannot meet are out.
    pub apart: Option<Figure>,
}

/// A point that was found by two tapes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct FoundFigures {
    /// Where it is, site meters.
    pub at: Point,
    /// Expected error of the place.
    pub error: Option<Figure>,
    /// How far from the plan.
    pub miss: Option<Figure>,
    /// In which direction, clockwise from north.
    pub towards: Option<Figure>,
    /// How much narrower the hole is there, signed.
    pub narrower: Option<Figure>,
    /// The over-dig there.
    pub over_dig: Option<Figure>,
}

/// How the stone of the bottom is worked out.
const METHOD: &str = "Each reading stands for the part of the bottom nearer to it than to any other \
                      reading; the volume is that area times how far the bottom is off grade, in place.";

impl StakeoutFigures {
    /// The figures of a site in the given units; none before a shell is placed. `analysis` must have
    /// been computed from the same site.
    pub fn of(site: &CheckedSite, analysis: &Analysis, system: System) -> Option<Self> {
        let plan = StakeoutPlan::of(site, analysis)?;
        let show = Shower {
            system,
            scale: plan.settings.rod_scale.unwrap_or(match system {
                System::Feet => RodScale::FeetInches,
                System::Metres => RodScale::Millimetres,
            }),
            rod_length: plan.settings.rod_length,
            sigma: plan.settings.tape_error,
        };
        Some(show.figures(&plan))
    }

    /// What is taken with two tapes, angles, levels and readings, as plain text.
    pub fn to_text(&self) -> String {
        super::stakes_text::of(self)
    }

    /// The stakes as a list for a spreadsheet.
    pub fn to_list(&self, site: &CheckedSite, system: System) -> String {
        super::stakes_list::of(self, &site.site().name, system)
    }

    /// The figures as JSON text.
    pub fn to_json(&self) -> String {
        crate::json::to_string(self)
    }
}

struct Shower {
    system: System,
    scale: RodScale,
    rod_length: f64,
    sigma: f64,
}

impl Shower {
    fn figure(&self, measure: Measure, value: f64) -> Figure {
        Figure::new(measure, value, self.system)
    }

    fn length(&self, metres: f64) -> Figure {
        self.figure(Measure::Length, metres)
    }

    fn level(&self, elevation: f64) -> Figure {
        self.figure(Measure::Elevation, elevation)
    }

    fn rod(&self, value: f64) -> RodFigures {
        let style = match self.scale {
            RodScale::FeetInches => LengthStyle::FeetInches { denominator: 8 },
            RodScale::Tenths => LengthStyle::DecimalFeet { decimals: 2 },
            RodScale::Millimetres => LengthStyle::Millimetres,
        };
        RodFigures {
            value,
            text: format_length(value, style),
            shows: (0.0..=self.rod_length).contains(&value),
        }
    }

    fn tie(&self, tie: &Tie, blocked: Option<&[Option<String>; 2]>) -> TieFigures {
        TieFigures {
            tapes: tie.tapes.map(|tape| self.length(tape)),
            crossing: self.figure(Measure::Heading, tie.crossing),
            sound: tie.is_sound(),
            error: tie.error(self.sigma).map(|it| self.length(it)),
            long_axis: tie.long_axis(self.sigma).map(|it| self.length(it)),
            along: self.length(tie.along),
            off: self.length(tie.off.abs()),
            side: tie.side(),
            blocked: blocked.cloned().unwrap_or_default(),
        }
    }

    fn figures(&self, plan: &StakeoutPlan<'_>) -> StakeoutFigures {
        let length = |value: f64| self.length(value);
        let rod = |elevation: f64| plan.rod(elevation).map(|it| self.rod(it));
        let tie = |at: Point, index: usize| {
            plan.tie(at)
                .map(|tie| self.tie(&tie, plan.blocked.get(index)))
        };
        let stakes = plan.stakes.iter().enumerate();
        let stakes = stakes.map(|(i, stake)| StakeFigures {
            name: stake.name.clone(),
            line: stake.line,
            what: stake.line.words().0,
            at: stake.at,
            tie: tie(stake.at, i),
            ground: stake.ground.map(|it| self.level(it)),
            bottom: stake.bottom.map(|it| self.level(it)),
            rod: stake.bottom.and_then(rod),
            offsets: (plan.offsets.iter())
                .filter(|it| it.serves == stake.name)
                .map(|it| it.name.clone())
                .collect(),
        });
        let offsets = plan.offsets.iter().enumerate();
        let offsets = offsets.map(|(i, stake)| OffsetFigures {
            name: stake.name.clone(),
            serves: stake.serves.clone(),
            towards: stake.towards,
            at: stake.at,
            distance: length(stake.distance),
            tie: tie(stake.at, plan.stakes.len() + i),
            ground: stake.ground.map(|it| self.level(it)),
            bottom: self.level(stake.bottom),
            cut: stake.cut().map(length),
            rod: rod(stake.bottom),
        });
        let stations = plan.stations.iter().map(|station| StationFigures {
            name: station.name.clone(),
            at: station.at,
            in_shell: station.in_shell,
            along: length(station.along),
            kind: station.floor.kind,
            depth: length(station.floor.depth),
            base: self.level(station.floor.base),
            bottom: self.level(station.floor.bottom),
            rod_base: rod(station.floor.base),
            rod_bottom: rod(station.floor.bottom),
        });
        let points = |a: &FixedCandidate, b: &FixedCandidate| [a.clone(), b.clone()];
        StakeoutFigures {
            findings: sort_by_severity(&plan.findings),
            candidates: plan.candidates.clone(),
            best: plan.best.as_ref().map(|best| PairFigures {
                points: points(&best.a, &best.b),
                barred: best.barred,
                worst: best.worst.map(length),
            }),
            base: plan.base.as_ref().map(|base| BaseFigures {
                points: base.points.clone(),
                length: length(base.line.length()),
                proposed: base.proposed,
                worst: plan.worst_error().map(length),
            }),
            tape_error: length(self.sigma),
            chords: (plan.lines.iter())
                .map(|it| (it.line, length(it.chord)))
                .collect(),
            stakes: stakes.collect(),
            offsets: offsets.collect(),
            clear: length(plan.settings.offset),
            diagonals: plan.diagonals.iter().map(|it| self.diagonals(it)).collect(),
            level: plan.setup.as_ref().map(|setup| LevelFigures {
                mark: setup.mark.clone(),
                elevation: self.level(setup.elevation),
                backsight: self.rod(setup.backsight),
                instrument: self.level(setup.instrument),
                rim: self.rod(setup.rod(plan.coping)),
            }),
            stations: stations.collect(),
            rim_stations: plan.rim_stations.clone(),
            bottom: plan.as_dug.as_ref().map(|it| self.bottom(it)),
            rim: (plan.as_set.as_ref()).map(|it| self.rim(it, plan.settings.rim_limit)),
            taped: plan.taped.iter().map(|it| self.taped(it)).collect(),
            readings: (plan.settings.readings.iter())
                .map(|it| self.reading(it))
                .collect(),
        }
    }

    fn reading(&self, reading: &YardReading) -> ReadingFigures {
        let words = match &reading.of {
            ReadingOf::Bottom(it) | ReadingOf::Rim(it) => {
                let (rod, mark) = (self.rod(it.rod).text, self.rod(it.backsight).text);
                format!("{rod}; {mark} on the mark")
            }
            ReadingOf::Taped(it) => {
                let [a, b] = it.tapes.map(|tape| self.length(tape).shown.text);
                format!("A {a}, B {b}")
            }
        };
        ReadingFigures {
            reading: reading.clone(),
            words,
        }
    }

    fn diagonals(&self, it: &Diagonals) -> DiagonalFigures {
        let inch = crate::units::constants::INCH;
        let [first, second] = it.lengths;
        let off = off_square(it.sides, [first + inch, second]) - off_square(it.sides, it.lengths);
        let longer = it.sides.into_iter().fold(0.0, f64::max);
        DiagonalFigures {
            stakes: it.stakes.clone(),
            lengths: it.lengths.map(|it| self.length(it)),
            off_by_inch: [self.figure(Measure::Angle, off), self.length(longer * off)],
        }
    }

    fn bottom(&self, it: &AsDug<'_>) -> BottomFigures {
        let volume = |value| self.figure(Measure::EarthVolume, value);
        let places = it.places.iter().map(|place| BottomPlace {
            reading: place.read.index,
            place: place.read.reading.place.clone(),
            at: place.at,
            elevation: self.level(place.elevation),
            high: self.length(place.high),
            grade: place.grade,
            share: self.figure(Measure::Area, place.share),
        });
        BottomFigures {
            places: places.collect(),
            cut: volume(it.cut()),
            fill: volume(it.fill()),
            stone: volume(it.stone_as_it_lies()),
            method: METHOD,
        }
    }

    fn rim(&self, it: &AsSet<'_>, limit: f64) -> RimFigures {
        let [high, _] = it.high_low;
        let top = it.places.get(high).map_or(0.0, |place| place.elevation);
        let places = it.places.iter().map(|place| RimPlace {
            reading: place.read.index,
            place: place.read.reading.place.clone(),
            at: place.at,
            below_high: self.length(top - place.elevation),
            off_plane: place.off_plane.map(|it| self.length(it)),
        });
        let lifts = it.tilt.as_ref().map(|tilt| {
            let lifts = tilt.lifts.iter();
            lifts.map(|(end, by)| (*end, self.length(*by))).collect()
        });
        RimFigures {
            places: places.collect(),
            high_low: it.high_low,
            out_of_level: self.length(it.out_of_level),
            limit: self.length(limit),
            within: it.out_of_level <= limit,
            above_plan: it.above_plan.map(|it| self.length(it)),
            lifts,
            twist: it.tilt.as_ref().map(|tilt| self.length(tilt.twist)),
        }
    }

    fn taped(&self, it: &TapedAt<'_>) -> TapedFigures {
        let length = |value| self.length(value);
        let found = |found: Found| FoundFigures {
            at: found.at,
            error: found.error.map(length),
            miss: found.miss.map(|miss| length(miss.length())),
            towards: (found.miss).map(|miss| self.figure(Measure::Heading, miss.bearing())),
            narrower: found.narrower.map(length),
            over_dig: found.over_dig.map(length),
        };
        TapedFigures {
            reading: it.read.index,
            stake: it.read.reading.stake.clone(),
            line: it.read.reading.line,
            found: match it.fix {
                Fix::At(at) => Some(found(at)),
                Fix::NoBase | Fix::Apart(_) => None,
            },
            apart: match it.fix {
                Fix::Apart(by) => Some(length(by)),
                Fix::NoBase | Fix::At(_) => None,
            },
        }
    }
}

/// A signed length as people in the yard say it: "2 in high".
pub(super) fn signed(figure: &Figure, [above, below]: [&str; 2]) -> String {
    let word = if figure.value < 0.0 { below } else { above };
    format!("{} {word}", figure.step())
}

/// A rod reading, or nothing.
pub(super) fn read(rod: Option<&RodFigures>) -> String {
    rod.map_or_else(String::new, |it| match it.shows {
        true => it.text.clone(),
        false => format!("{} (out of reach)", it.text),
    })
}
