//! The figures of a layout, made of its plan.

use super::Figure;
use super::read_back::{
    BottomFigures, BottomPlace, FoundFigures, ReadingFigures, RimFigures, RimPlace, TapedFigures,
};
use super::stakeout::{
    BaseFigures, DiagonalFigures, LevelFigures, OffsetFigures, PairFigures, RodFigures,
    StakeFigures, StakeoutFigures, StationFigures, TieFigures,
};
use crate::analysis::Analysis;
use crate::finding::sort_by_severity;
use crate::geom::Point;
use crate::site::{CheckedSite, ReadingOf, RodScale, YardReading};
use crate::stakeout::{
    AsDug, AsSet, Blocked, Diagonals, Fix, FixedCandidate, Found, StakeoutPlan, TapedAt, Tie,
    off_square,
};
use crate::units::{LengthStyle, Measure, System, format_length};

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

    fn tie(&self, tie: &Tie, blocked: Option<&Blocked>) -> TieFigures {
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
                unfit: best.unfit,
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
