//! The share of the water in sun through a day, and what takes how much of it.

use super::calendar::SunDay;
use super::casters::{Caster, Casters};
use super::findings;
use super::position::{EarthPlace, Spell, SunPosition, spells, sun_at};
use super::shade::{Light, Solid};
use crate::finding::Finding;
use crate::geom::boolean::{intersection, union_of};
use crate::geom::{Point, Region, region};
use crate::site::CheckedSite;

/// From one look at the water to the next, minutes (our choice).
pub const STEP: f64 = 10.0;

/// Seconds of a minute.
const MINUTE: f64 = 60.0;

/// A share of the water below this is none: rounding of an overlay.
const NOTHING: f64 = 1e-6;

/// Shade is followed this much farther than from anything to the far side of the water, meters.
const BEYOND: f64 = 1.0;

/// The sun on the water through one day.
#[derive(Debug, Clone, PartialEq)]
pub struct SunOnWater {
    /// The day.
    pub day: SunDay,
    /// When the sun is up.
    pub spells: Vec<Spell>,
    /// The water as it was looked at, from sunrise to sunset.
    pub samples: Vec<Sample>,
    /// How long the sun is up, seconds.
    pub daylight: f64,
    /// The share of the water in sun, taken over the day, seconds: of water that is half in shade for an hour, half an
    /// hour.
    pub in_sun: f64,
    /// What shades the water, the longest first.
    pub shaders: Vec<Shader>,
}

/// The water at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Sample {
    /// Minutes after midnight.
    pub minutes: f64,
    /// Where the sun stands.
    pub sun: SunPosition,
    /// The share of the water in sun, 0 to 1.
    pub share: f64,
    /// What shades some of it.
    pub by: Vec<Taken>,
}

/// What one thing takes at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Taken {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// The share of the water in its shade.
    pub share: f64,
    /// The share that is in its shade alone.
    pub alone: f64,
}

/// What one thing takes through the day.
#[derive(Debug, Clone, PartialEq)]
pub struct Shader {
    /// The feature, by its index in the site.
    pub feature: usize,
    /// What the plan calls it.
    pub name: String,
    /// The share of the water in its shade, taken over the day, seconds.
    pub takes: f64,
    /// What of that nothing else takes: so much more sun there were without it, seconds.
    pub alone: f64,
    /// First and last time that it shades any of the water, minutes after midnight.
    pub between: [f64; 2],
}

/// The shade at one time.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment {
    /// The water then.
    pub sample: Sample,
    /// What casts shade, by its feature and its name, and that shade on the level of the water, site meters.
    pub shades: Vec<(usize, String, Region)>,
    /// What of the water lies in shade.
    pub on_water: Region,
}

/// What a day is looked at in.
struct Scene<'a> {
    place: EarthPlace,
    casters: &'a [Caster],
    water: Region,
    area: f64,
    bounds: (Point, Point),
    /// Elevation of the water.
    plane: f64,
    reach: f64,
}

/// The shade of everything that reaches the water, at one time.
struct Shaded {
    sample: Sample,
    shades: Vec<(usize, Region)>,
}

/// The sun on the water of a site on a day, and what is worth knowing about it; the former is missing where the site has no
/// place on the earth or no shell on it.
pub fn sun_on_water(site: &CheckedSite, day: &SunDay) -> (Option<SunOnWater>, Vec<Finding>) {
    let place = EarthPlace::of(site.site());
    let casters = Casters::of(site);
    let mut found = findings::missing(site, place.as_ref());
    let scene = place.and_then(|place| Scene::of(site, place, &casters.all));
    let told = scene.map(|it| it.through(day));
    if let Some(told) = &told {
        found.extend(findings::of_day(site, &casters, &told.spells));
    }
    (told, found)
}

/// The shade at one time of a day; `None` as [`sun_on_water`].
pub fn moment(site: &CheckedSite, day: &SunDay, minutes: f64) -> Option<Moment> {
    let place = EarthPlace::of(site.site())?;
    let casters = Casters::of(site);
    let scene = Scene::of(site, place, &casters.all)?;
    let shaded = scene.at(day, minutes);
    let sun = shaded.sample.sun;
    let mut shades = Vec::new();
    if sun.is_up() {
        let light = scene.light(&sun);
        for caster in &casters.all {
            let whole = scene.shade(caster, &light);
            if !whole.is_empty() {
                shades.push((caster.feature, caster.name.clone(), whole));
            }
        }
    }
    let on_water = intersection(
        &scene.water,
        &union_of(shaded.shades.iter().map(|it| &it.1)),
    );
    Some(Moment {
        sample: shaded.sample,
        shades,
        on_water,
    })
}

impl<'a> Scene<'a> {
    /// That of a site; `None` where no shell is placed.
    fn of(site: &CheckedSite, place: EarthPlace, casters: &'a [Caster]) -> Option<Self> {
        let (shell, placement) = site.placed_shell()?;
        let water = shell.footprint.posed(&placement.pose());
        let bounds = water.bounds()?;
        let posts = casters.iter().flat_map(|it| &it.solids);
        let posts = posts.flat_map(|it| it.posts()).map(|it| it.at);
        let (low, high) = region::bounds(posts.chain([bounds.0, bounds.1]))?;
        Some(Self {
            place,
            casters,
            area: water.area(),
            water,
            bounds,
            plane: placement.coping_elevation - shell.record.waterline,
            reach: low.distance(high) + BEYOND,
        })
    }

    /// The day.
    fn through(&self, day: &SunDay) -> SunOnWater {
        let spells = spells(&self.place, day);
        let mut told = SunOnWater {
            day: *day,
            daylight: spells.iter().map(|it| (it.to - it.from) * MINUTE).sum(),
            samples: Vec::new(),
            in_sun: 0.0,
            shaders: Vec::new(),
            spells,
        };
        let mut takes: Vec<Taking> = self
            .casters
            .iter()
            .map(|it| Taking::of(it.feature))
            .collect();
        for spell in &told.spells {
            let samples: Vec<Sample> = times(spell)
                .into_iter()
                .map(|minutes| self.at(day, minutes).sample)
                .collect();
            for [a, b] in samples.array_windows() {
                let half = (b.minutes - a.minutes) * MINUTE / 2.0;
                told.in_sun += half * (a.share + b.share);
                for taken in a.by.iter().chain(&b.by) {
                    if let Some(it) = takes.iter_mut().find(|it| it.feature == taken.feature) {
                        it.takes += half * taken.share;
                        it.alone += half * taken.alone;
                    }
                }
            }
            for sample in &samples {
                for taken in &sample.by {
                    if let Some(it) = takes.iter_mut().find(|it| it.feature == taken.feature) {
                        it.seen(sample.minutes);
                    }
                }
            }
            told.samples.extend(samples);
        }
        let shaders = self.casters.iter().zip(takes).filter_map(|(caster, it)| {
            Some(Shader {
                feature: caster.feature,
                name: caster.name.clone(),
                takes: it.takes,
                alone: it.alone,
                between: it.between?,
            })
        });
        told.shaders = shaders.collect();
        told.shaders.sort_by(|a, b| b.takes.total_cmp(&a.takes));
        told
    }

    /// The water at one time.
    fn at(&self, day: &SunDay, minutes: f64) -> Shaded {
        let sun = sun_at(&self.place, day, minutes);
        let mut sample = Sample {
            minutes,
            sun,
            share: 0.0,
            by: Vec::new(),
        };
        let mut shades: Vec<(usize, Region)> = Vec::new();
        if !sun.is_up() {
            return Shaded { sample, shades };
        }
        let light = self.light(&sun);
        for caster in self.casters {
            if !self.may_reach(caster, &light) {
                continue;
            }
            let shade = self.shade(caster, &light);
            let share = intersection(&self.water, &shade).area() / self.area;
            if share > NOTHING {
                let share = share.min(1.0);
                sample.by.push(Taken {
                    feature: caster.feature,
                    share,
                    alone: share,
                });
                shades.push((caster.feature, shade));
            }
        }
        let in_shade = match sample.by.as_slice() {
            [] => 0.0,
            [only] => only.share,
            _ => self.shaded(shades.iter().map(|it| &it.1)),
        };
        if shades.len() > 1 {
            for taken in &mut sample.by {
                let others = shades.iter().filter(|it| it.0 != taken.feature);
                let without = self.shaded(others.map(|it| &it.1));
                taken.alone = (in_shade - without).clamp(0.0, taken.share);
            }
        }
        sample.share = (1.0 - in_shade).clamp(0.0, 1.0);
        Shaded { sample, shades }
    }

    /// The share of the water in any of some shades.
    fn shaded<'r>(&self, shades: impl Iterator<Item = &'r Region>) -> f64 {
        intersection(&self.water, &union_of(shades)).area() / self.area
    }

    /// The sun's light on the level of the water.
    fn light(&self, sun: &SunPosition) -> Light {
        sun.light(&self.place, self.plane, self.reach)
    }

    /// The shade of one thing on the level of the water.
    fn shade(&self, caster: &Caster, light: &Light) -> Region {
        let of = |solid: &Solid| solid.shade(light);
        match caster.solids.as_slice() {
            [only] => of(only),
            all => union_of(&all.iter().map(of).collect::<Vec<Region>>()),
        }
    }

    /// Whether the shade of one thing may reach the water: by rectangles round both.
    fn may_reach(&self, caster: &Caster, light: &Light) -> bool {
        let (low, high) = self.bounds;
        caster.solids.iter().any(|it| {
            it.shade_bounds(light).is_some_and(|(from, to)| {
                from.x <= high.x && to.x >= low.x && from.y <= high.y && to.y >= low.y
            })
        })
    }
}

/// What one thing takes, as it adds up.
#[derive(Debug, Clone)]
struct Taking {
    feature: usize,
    takes: f64,
    alone: f64,
    between: Option<[f64; 2]>,
}

impl Taking {
    fn of(feature: usize) -> Self {
        Self {
            feature,
            takes: 0.0,
            alone: 0.0,
            between: None,
        }
    }

    fn seen(&mut self, minutes: f64) {
        let [from, to] = self.between.unwrap_or([minutes; 2]);
        self.between = Some([from.min(minutes), to.max(minutes)]);
    }
}

/// The times of a spell at which the water is looked at: both ends and every step of the clock between.
fn times(spell: &Spell) -> Vec<f64> {
    /// Nearer to an end than this, a step is that end, minutes.
    const NEAR: f64 = 0.5;
    let mut times = vec![spell.from];
    let mut at = (spell.from / STEP).ceil() * STEP;
    while at < spell.to - NEAR {
        if at > spell.from + NEAR {
            times.push(at);
        }
        at += STEP;
    }
    times.push(spell.to);
    times
}
