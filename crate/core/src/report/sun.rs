//! The sun on the water of one day, in figures.

use serde::Serialize;

use super::Figure;
use crate::finding::{Finding, sort_by_severity};
use crate::geom::{Point, Region};
use crate::json;
use crate::site::{CheckedSite, GeoOrigin};
use crate::sun::{self, Moment, Sample, Shader, Spell, SunDay, SunOnWater, clock};
use crate::units::{Measure, System, nearest_eighth, show};

/// The sun on the water of one site through one day.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct SunFigures {
    /// The job's name.
    pub name: String,
    /// The day, `2026-06-21`; empty of a site that has no place on the earth.
    pub date: String,
    /// Its clock's offset from UTC, `-7:00`; empty as the day is.
    pub utc_offset: String,
    /// The share of the water in sun, taken over the day; none before there are a place and a shell.
    pub in_sun: Option<Figure>,
    /// How long the sun is up.
    pub daylight: Option<Figure>,
    /// When the sun is up.
    pub spells: Vec<SpellFigures>,
    /// What shades the water, the longest first.
    pub shaders: Vec<ShaderFigures>,
    /// The water as it was looked at, from sunrise to sunset.
    pub samples: Vec<SampleFigures>,
    /// What is worth knowing.
    pub findings: Vec<Finding>,
}

/// A stretch of the day with the sun up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct SpellFigures {
    /// It rises then, minutes after midnight.
    pub from: f64,
    /// It sets then.
    pub to: f64,
    /// The same by the clock: `5:32 am to 8:31 pm`.
    pub words: String,
}

/// What one thing takes through the day.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ShaderFigures {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// What the plan calls it.
    pub name: String,
    /// The share of the water in its shade, taken over the day.
    pub takes: Figure,
    /// So much more sun there were without it.
    pub alone: Figure,
    /// First and last time that it shades any of the water, minutes after midnight.
    pub between: [f64; 2],
    /// The same by the clock.
    pub words: String,
}

/// The water at one time.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct SampleFigures {
    /// Minutes after midnight.
    pub minutes: f64,
    /// The share of the water in sun, 0 to 1.
    pub share: f64,
    /// Of the sun above a level horizon, as it is seen, radians.
    pub altitude: f64,
    /// Of the sun, from true north, clockwise, radians.
    pub azimuth: f64,
    /// What shades some of the water: the feature, by its index in the site, and the share in its shade.
    pub by: Vec<(usize, f64)>,
}

/// The shade at one time of a day.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct ShadeFigures {
    /// Minutes after midnight.
    pub minutes: f64,
    /// Whether the sun is up.
    pub up: bool,
    /// What there is to say: the time, the share of the water in sun, where the sun stands, what shades.
    pub words: String,
    /// What casts shade, and that shade on the level of the water.
    pub shades: Vec<CastFigures>,
    /// What of the water lies in shade, rings in site meters.
    pub on_water: Vec<Vec<Point>>,
}

/// The shade of one thing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct CastFigures {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// What the plan calls it.
    pub name: String,
    /// Rings in site meters.
    pub rings: Vec<Vec<Point>>,
}

impl SunFigures {
    /// Those of a site on a day as it was typed; what is empty is the usual.
    ///
    /// # Errors
    /// A day or an offset that is none.
    pub fn of(
        site: &CheckedSite,
        date: &str,
        offset: &str,
        system: System,
    ) -> Result<Self, Vec<Finding>> {
        let day = day(site, date, offset)?;
        let (found, findings) = sun::sun_on_water(site, &day);
        let placed = site.site().origin.is_some();
        let told = |text: String| if placed { text } else { String::new() };
        let figure = |value: f64| Figure::new(Measure::Hours, value, system);
        let of = found.as_ref();
        Ok(Self {
            name: site.site().name.clone(),
            date: told(day.date.to_string()),
            utc_offset: told(day.offset.to_string()),
            in_sun: of.map(|it| figure(it.in_sun)),
            daylight: of.map(|it| figure(it.daylight)),
            spells: all(of, |it| it.spells.iter().map(spell).collect()),
            shaders: all(of, |it| {
                it.shaders.iter().map(|it| shader(it, system)).collect()
            }),
            samples: all(of, |it| {
                let sample = |it: &Sample| SampleFigures {
                    minutes: it.minutes,
                    share: it.share,
                    altitude: it.sun.altitude,
                    azimuth: it.sun.azimuth,
                    by: it.by.iter().map(|it| (it.feature, it.share)).collect(),
                };
                it.samples.iter().map(sample).collect()
            }),
            findings: sort_by_severity(&findings),
        })
    }

    /// As JSON text of the fixed layout.
    pub fn to_json(&self) -> String {
        json::to_string(self)
    }
}

impl ShadeFigures {
    /// The shade of a site at a time of a day as it was typed, minutes after midnight; `None` where there is no place on
    /// the earth or no shell.
    ///
    /// # Errors
    /// A day or an offset that is none.
    pub fn of(
        site: &CheckedSite,
        date: &str,
        offset: &str,
        minutes: f64,
        system: System,
    ) -> Result<Option<Self>, Vec<Finding>> {
        let day = day(site, date, offset)?;
        let minutes = minutes.clamp(0.0, 1440.0);
        let found = sun::moment(site, &day, minutes);
        Ok(found.map(|it| Self {
            minutes,
            up: it.sample.sun.is_up(),
            words: words(&it, system),
            shades: it
                .shades
                .iter()
                .map(|(feature, name, region)| CastFigures {
                    feature: *feature,
                    name: name.clone(),
                    rings: rings(region),
                })
                .collect(),
            on_water: rings(&it.on_water),
        }))
    }
}

fn day(site: &CheckedSite, date: &str, offset: &str) -> Result<SunDay, Vec<Finding>> {
    let nowhere = GeoOrigin {
        longitude: 0.0,
        latitude: 0.0,
    };
    SunDay::read(date, offset, &site.site().origin.unwrap_or(nowhere))
}

fn all<T>(of: Option<&SunOnWater>, list: impl Fn(&SunOnWater) -> Vec<T>) -> Vec<T> {
    of.map_or(Vec::new(), list)
}

fn spell(it: &Spell) -> SpellFigures {
    SpellFigures {
        from: it.from,
        to: it.to,
        words: between([it.from, it.to]),
    }
}

fn shader(it: &Shader, system: System) -> ShaderFigures {
    ShaderFigures {
        feature: it.feature,
        name: it.name.clone(),
        takes: Figure::new(Measure::Hours, it.takes, system),
        alone: Figure::new(Measure::Hours, it.alone, system),
        between: it.between,
        words: between(it.between),
    }
}

fn between([from, to]: [f64; 2]) -> String {
    match to - from {
        long if long >= 1440.0 => "all day".to_owned(),
        _ => format!("{} to {}", clock(from), clock(to)),
    }
}

fn rings(region: &Region) -> Vec<Vec<Point>> {
    region.rings().map(|it| it.0.clone()).collect()
}

/// A moment in words.
fn words(it: &Moment, system: System) -> String {
    let time = clock(it.sample.minutes);
    if !it.sample.sun.is_up() {
        return format!("{time}: the sun is down.");
    }
    let sun = it.sample.sun;
    let share = show(Measure::Fraction, it.sample.share, system).text;
    let high = show(Measure::Heading, sun.altitude.max(0.0), system).text;
    let side = nearest_eighth(sun.azimuth);
    let shading = |feature: usize| {
        let found = it.shades.iter().find(|shade| shade.0 == feature);
        found.map(|shade| shade.1.as_str())
    };
    let by: Vec<&str> = it
        .sample
        .by
        .iter()
        .filter_map(|by| shading(by.feature))
        .collect();
    let by = match by.as_slice() {
        [] => String::new(),
        names => format!(" Shade of {}.", names.join(", ")),
    };
    format!("{time}: {share} of the water in sun. The sun stands {high} high in the {side}.{by}")
}
