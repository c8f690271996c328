//! How the sides of a hole stand: by side, by layer of soil, with a bench, upright below.

use super::bottom::{STEEPEST_SLOPE, base_under};
use super::safety::{SHORT_TERM_DEPTH, SHORT_TERM_SLOPE};
use super::sides::BySide;
use crate::shell::Shell;
use crate::site::{DigSettings, HoleSide, SoilClass};

/// How the sides of a hole stand.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Profile {
    /// How far the ground is kept free sideways at every depth: wall and over-dig, meters.
    pub reach: BySide,
    /// The layers from the top down; the first reaches up and the last down without end.
    pub layers: Vec<SideLayer>,
    /// A level bench: its depth below the rim and its width, meters.
    pub bench: Option<(f64, f64)>,
}

/// A layer through which the sides stand alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct SideLayer {
    /// Depth of its lower border below the rim, meters; infinite for the last.
    pub down_to: f64,
    /// Run of the sides per unit of rise.
    pub run: BySide,
}

impl Profile {
    /// All sides alike, from the bottom up.
    #[cfg(test)]
    pub fn even(reach: f64, slope: f64) -> Self {
        let run = BySide::all(slope);
        Self {
            reach: BySide::all(reach),
            layers: vec![SideLayer {
                down_to: f64::INFINITY,
                run,
            }],
            bench: None,
        }
    }

    /// The same profile told in the fewest layers for a hole of a depth: runs and reaches that
    /// are not numbers, or negative, are none; sides too steep to be dug as a slope are dug at
    /// [`STEEPEST_SLOPE`]; no layer lies below the hole; a layer ends at the bench.
    pub fn settled(mut self, deepest: f64) -> Self {
        self.reach = each(self.reach, |r| r.max(0.0));
        for layer in &mut self.layers {
            layer.run = each(layer.run, |run| {
                if run > 0.0 {
                    run.max(STEEPEST_SLOPE)
                } else {
                    0.0
                }
            });
        }
        self.bench = self
            .bench
            .filter(|(depth, width)| *depth < deepest && *width > 0.0);
        let mut kept: Vec<SideLayer> = Vec::new();
        for layer in self.layers {
            let top = kept.last().map_or(f64::NEG_INFINITY, |l| l.down_to);
            match kept.last_mut() {
                Some(above) if top >= deepest || above.run == layer.run => {
                    above.down_to = above.down_to.max(layer.down_to);
                }
                _ if layer.down_to > top => kept.push(layer),
                _ => {}
            }
        }
        if let Some(last) = kept.last_mut() {
            last.down_to = f64::INFINITY;
        }
        if let Some((depth, _)) = self.bench
            && let Some(at) = kept.iter().position(|layer| depth < layer.down_to)
            && let Some(split) = kept.get(at).copied()
            && !kept.iter().any(|layer| layer.down_to == depth)
        {
            kept.insert(
                at,
                SideLayer {
                    down_to: depth,
                    ..split
                },
            );
        }
        self.layers = kept;
        self
    }

    /// Reach and slope of a settled profile whose sides are all alike from the bottom up.
    pub fn uniform(&self) -> Option<(f64, f64)> {
        match (self.layers.as_slice(), self.bench) {
            ([layer], None) => Some((self.reach.even()?, layer.run.even()?)),
            _ => None,
        }
    }

    /// The depths at which layers end, meters.
    pub fn borders(&self) -> impl Iterator<Item = f64> + '_ {
        let ends = self.layers.iter().map(|layer| layer.down_to);
        ends.filter(|depth| depth.is_finite())
    }

    /// The steepest run of each side in the layers where it slopes or, where it does nowhere, 0.
    /// Upright below a depth all round is a way to dig, not a side's slope: a last layer in which
    /// every side is upright counts only where there is no other.
    pub fn steepest(&self) -> BySide {
        let upright = |layer: &&SideLayer| layer.run == BySide::default();
        let toe = self.layers.last().filter(upright).is_some() && self.layers.len() > 1;
        let counted = self.layers.len() - usize::from(toe);
        let runs = self.layers.iter().take(counted).map(|layer| layer.run);
        let least = runs.reduce(|a, b| {
            let pairs = a.values().into_iter().zip(b.values());
            let mut least = [0.0; 4];
            for (slot, (x, y)) in least.iter_mut().zip(pairs) {
                *slot = f64::min(x, y);
            }
            BySide::from_values(least)
        });
        least.unwrap_or_default()
    }

    /// Depth below which every side is upright, when there is one, meters.
    pub fn upright_below(&self) -> Option<f64> {
        let [.., above, last] = self.layers.as_slice() else {
            return None;
        };
        (last.run == BySide::default()).then_some(above.down_to)
    }

    /// The flattest run in use, of any side in any layer.
    pub fn flattest(&self) -> f64 {
        self.runs().fold(0.0, f64::max)
    }

    /// The steepest run between two sides, one of them sloping; 0 when all are upright. From an
    /// upright side to a sloping one all runs in between are met.
    pub fn steepest_between(&self) -> f64 {
        let mixed = |layer: &SideLayer| layer.run.least() <= 0.0 && layer.run.greatest() > 0.0;
        if self.layers.iter().any(mixed) {
            STEEPEST_SLOPE
        } else {
            self.steepest_sloping()
        }
    }

    /// The steepest run in use that is not upright; 0 when all are upright.
    pub fn steepest_sloping(&self) -> f64 {
        let sloping = self.runs().filter(|run| *run > 0.0);
        sloping.reduce(f64::min).unwrap_or(0.0)
    }

    fn runs(&self) -> impl Iterator<Item = f64> + '_ {
        self.layers.iter().flat_map(|layer| layer.run.values())
    }
}

/// How a side stands in a layer: its run per unit of rise as dug, and the least one that the
/// standard lists for the soil.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Stand {
    pub dug: f64,
    pub listed: f64,
}

impl Stand {
    /// From its parts.
    pub const fn of(dug: f64, listed: f64) -> Self {
        Self { dug, listed }
    }

    /// The bolder of two: the one that falls shorter of what is listed, or else is steeper.
    fn or_bolder(self, other: Self) -> Self {
        let short = |stand: Self| stand.listed - stand.dug;
        let bolder =
            short(other) > short(self) || (short(other) == short(self) && other.dug < self.dug);
        if bolder { other } else { self }
    }
}

/// What the settings make of the sides.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SideSpec {
    pub profile: Profile,
    /// The side and layer that stand steepest for their soil. A part kept upright at the foot is
    /// told apart from it.
    pub boldest: Stand,
}

impl SideSpec {
    /// The sides of a hole as settings tell them: `wall` meters of shell wall, the bottom at most
    /// `deepest` meters below the rim.
    ///
    /// In layers of soil a layer is dug no steeper than any under it (29 CFR 1926 Subpart P
    /// App. B, figures for layered soils: from memory; a competent person decides).
    pub fn new(settings: &DigSettings, wall: f64, deepest: f64) -> Self {
        let own = by_side(settings, |side| side.slope, f64::NAN);
        let over_dig = by_side(settings, |side| side.over_dig, settings.over_dig);
        let mut soils = soils(settings, deepest);
        let (mut dug, mut listed) = (0.0_f64, 0.0_f64);
        let mut layers = Vec::new();
        let mut boldest: Option<Stand> = None;
        // From the bottom up: what lies under a layer bounds it.
        while let Some(soil) = soils.pop() {
            dug = dug.max(soil.dug);
            listed = listed.max(soil.listed);
            let run = each(own, |slope| if slope >= 0.0 { slope } else { dug });
            for slope in run.values() {
                let stand = Stand::of(slope, listed);
                boldest = Some(boldest.map_or(stand, |b| b.or_bolder(stand)));
            }
            let down_to = soil.down_to;
            layers.insert(0, SideLayer { down_to, run });
        }
        if let Some(toe) = settings.upright_below.filter(|toe| *toe < deepest) {
            let end = layers.iter().position(|layer| toe <= layer.down_to);
            layers.truncate(end.map_or(0, |end| end + 1));
            if let Some(last) = layers.last_mut() {
                last.down_to = toe;
            }
            layers.push(SideLayer {
                down_to: f64::INFINITY,
                run: BySide::default(),
            });
        }
        let profile = Profile {
            reach: each(over_dig, |over_dig| over_dig + wall),
            layers,
            bench: settings.bench.map(|bench| (bench.depth, bench.width)),
        };
        Self {
            profile: profile.settled(deepest),
            boldest: boldest.unwrap_or_default(),
        }
    }
}

/// A layer of soil: its slope in use, and the one that the standard lists for it.
#[derive(Debug, Clone, Copy)]
struct Soil {
    down_to: f64,
    dug: f64,
    listed: f64,
}

/// The layers of soil that a hole passes, from the top down, the last without end.
fn soils(settings: &DigSettings, deepest: f64) -> Vec<Soil> {
    let mut named = settings.layers.clone();
    named.sort_by(|a, b| a.down_to.total_cmp(&b.down_to));
    let reached = named.iter().position(|layer| layer.down_to >= deepest);
    named.truncate(reached.map_or(named.len(), |last| last + 1));
    let mut classes: Vec<SoilClass> = named.iter().map(|layer| layer.soil).collect();
    if reached.is_none() {
        classes.push(settings.soil);
    }
    let is_a = |class: &SoilClass| *class == SoilClass::A;
    let short_term = settings.short_term && deepest <= SHORT_TERM_DEPTH && classes.iter().all(is_a);
    let listed = |class: SoilClass| {
        if short_term {
            SHORT_TERM_SLOPE
        } else {
            class.side_slope()
        }
    };
    let layer = |down_to: f64, class: SoilClass, own: Option<f64>| Soil {
        down_to,
        dug: own.unwrap_or(listed(class)),
        listed: listed(class),
    };
    let mut soils: Vec<Soil> = named
        .iter()
        .map(|named| layer(named.down_to, named.soil, named.slope))
        .collect();
    match soils.last_mut().filter(|_| reached.is_some()) {
        Some(last) => last.down_to = f64::INFINITY,
        None => soils.push(layer(f64::INFINITY, settings.soil, settings.side_slope)),
    }
    soils
}

/// A figure side by side: the last word on a side in the settings, or else `other`.
fn by_side<T>(settings: &DigSettings, of: T, other: f64) -> BySide
where
    T: Fn(&crate::site::SideSettings) -> Option<f64>,
{
    let mut values = BySide::all(other);
    for side in &settings.sides {
        let slot = match side.side {
            HoleSide::Ahead => &mut values.ahead,
            HoleSide::Left => &mut values.left,
            HoleSide::Behind => &mut values.behind,
            HoleSide::Right => &mut values.right,
        };
        *slot = of(side).unwrap_or(*slot);
    }
    values
}

/// How far out a hole may reach at most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Beyond the footprint at the foot of the sides, meters, a bench included.
    pub foot: f64,
    /// Run of the flattest side per unit of rise.
    pub slope: f64,
    /// Depth of the bottom below the rim, meters.
    pub depth: f64,
}

/// How far out the hole of a shell may reach at most, before anything of it is built.
pub fn reach(shell: &Shell, settings: &DigSettings) -> Reach {
    let wall = shell.record.wall_thickness;
    let bases = shell.facets.iter().map(|f| base_under(settings, f.kind));
    let depth = shell.deepest() + wall + bases.fold(0.0, f64::max);
    let told = SideSpec::new(settings, wall, depth).profile;
    Reach {
        foot: told.reach.greatest() + told.bench.map_or(0.0, |(_, width)| width),
        slope: told.flattest(),
        depth,
    }
}

fn each(sides: BySide, change: impl Fn(f64) -> f64) -> BySide {
    BySide::from_values(sides.values().map(change))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::{SideSettings, SoilLayer};
    use crate::units::constants::FOOT;

    fn layer(down_to: f64, run: f64) -> SideLayer {
        SideLayer {
            down_to,
            run: BySide::all(run),
        }
    }

    #[test]
    fn layers_that_change_nothing_fall_away() {
        let mut profile = Profile::even(0.2, 1.0);
        profile.layers = vec![layer(0.5, 1.0), layer(1.0, 1.0), layer(3.0, 0.75)];
        let settled = profile.clone().settled(1.0);
        assert_eq!(settled.uniform(), Some((0.2, 1.0)));
        let settled = profile.settled(2.0);
        assert_eq!(settled.uniform(), None);
        assert_eq!(settled.borders().collect::<Vec<_>>(), [1.0]);
        assert_eq!(
            (settled.flattest(), settled.steepest_sloping()),
            (1.0, 0.75)
        );
    }

    fn told(settings: &DigSettings, deepest: f64) -> SideSpec {
        SideSpec::new(settings, 0.0, deepest)
    }

    fn soil_layer(down_to: f64, soil: SoilClass) -> SoilLayer {
        SoilLayer {
            down_to,
            soil,
            slope: None,
        }
    }

    #[test]
    fn no_layer_of_soil_is_dug_steeper_than_one_under_it() {
        let runs = |top: SoilClass, below: SoilClass| {
            let settings = DigSettings {
                soil: below,
                layers: vec![soil_layer(0.8, top)],
                ..DigSettings::default()
            };
            let told = told(&settings, 2.0);
            let runs = told.profile.layers.iter().map(|layer| layer.run.ahead);
            assert_eq!(told.boldest.dug, told.boldest.listed);
            runs.collect::<Vec<_>>()
        };
        assert_eq!(runs(SoilClass::B, SoilClass::A), [1.0, 0.75]);
        assert_eq!(runs(SoilClass::A, SoilClass::C), [1.5]);
        assert_eq!(runs(SoilClass::C, SoilClass::StableRock), [1.5, 0.0]);
        // A layer that the hole does not reach has no say.
        let settings = DigSettings {
            soil: SoilClass::C,
            layers: vec![soil_layer(2.5, SoilClass::A)],
            ..DigSettings::default()
        };
        assert_eq!(told(&settings, 2.0).profile.uniform(), Some((0.2032, 0.75)));
    }

    #[test]
    fn a_sides_own_word_goes_before_the_soils() {
        let side = |side, over_dig, slope| SideSettings {
            side,
            over_dig,
            slope,
            note: String::new(),
        };
        let settings = DigSettings {
            over_dig: 0.2,
            soil: SoilClass::B,
            sides: vec![
                side(HoleSide::Left, Some(0.5), Some(0.25)),
                side(HoleSide::Behind, None, Some(4.0)),
            ],
            upright_below: Some(1.5),
            ..DigSettings::default()
        };
        let told = told(&settings, 2.0);
        let profile = &told.profile;
        assert_eq!(profile.reach, BySide::from_values([0.2, 0.5, 0.2, 0.2]));
        assert_eq!(
            profile.steepest(),
            BySide::from_values([1.0, 0.25, 4.0, 1.0])
        );
        assert_eq!(profile.upright_below(), Some(1.5));
        assert_eq!(told.boldest, Stand::of(0.25, 1.0));
    }

    #[test]
    fn a_short_term_dig_stands_steeper_in_type_a_alone_and_down_to_12_ft() {
        let settings = |soil| DigSettings {
            soil,
            short_term: true,
            ..DigSettings::default()
        };
        let slope = |soil, feet: f64| told(&settings(soil), feet * FOOT).boldest;
        assert_eq!(slope(SoilClass::A, 12.0), Stand::of(0.5, 0.5));
        assert_eq!(slope(SoilClass::A, 12.1), Stand::of(0.75, 0.75));
        assert_eq!(slope(SoilClass::B, 6.0), Stand::of(1.0, 1.0));
    }

    #[test]
    fn a_bench_ends_a_layer_and_odd_numbers_are_none() {
        let mut profile = Profile::even(f64::NAN, 1e-9);
        profile.bench = Some((0.8, 0.6));
        let settled = profile.clone().settled(2.0);
        assert_eq!(settled.borders().collect::<Vec<_>>(), [0.8]);
        assert_eq!(settled.reach, BySide::all(0.0));
        assert_eq!(settled.flattest(), STEEPEST_SLOPE);
        assert_eq!(profile.settled(0.5).uniform(), Some((0.0, STEEPEST_SLOPE)));
    }
}
