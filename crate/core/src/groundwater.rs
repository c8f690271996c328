//! What lifts a shell, and what holds it down.
//!
//! Groundwater lifts with the weight of the water that the body of the shell displaces below its
//! level (Archimedes). Against it stand the weight of the shell, where that is known, and the water
//! in it. Friction on the walls, collar, deck and backfill are not counted: nobody may rely on them
//! without an engineer.
//!
//! Depths are meters below the rim, as everywhere with a shell; elevations are named so. Forces
//! are told as the mass they could lift, kilograms.

use crate::shell::Shell;

/// Density of fresh water, kg/m3: 62.43 lb/ft3, its greatest, at 4 degrees C. Common tables reckon
/// with 62.4 lb/ft3, 0.05 % less.
pub const WATER_DENSITY: f64 = 1000.0;

/// Steps of the bisection: more than a double has digits.
const HALVINGS: usize = 60;

/// How many parts of the depth uplift is told for.
const PARTS: u32 = 8;

/// Where groundwater stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Level {
    /// At this elevation, meters, at its highest.
    Stated(f64),
    /// Nobody knows: taken at the rim, the worst that the shell itself can meet.
    AtRim,
}

/// The least water that keeps a shell down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LeastWater {
    /// None: the empty shell is heavier than what lifts it.
    None,
    /// So deep at the deepest floor, meters, and so much, m3.
    Standing {
        /// Depth of the water over the deepest floor, meters.
        depth: f64,
        /// Its volume, m3.
        volume: f64,
    },
    /// More than it holds up to the waterline: even full it wants so much more weight, kg.
    MoreThanFull {
        /// What is wanting, kg.
        wanting: f64,
    },
}

/// What groundwater does to a shell at one place.
#[derive(Debug, Clone, PartialEq)]
pub struct Uplift {
    /// Elevation at which groundwater is taken to stand, meters.
    pub level: f64,
    /// Whether that was told, or is the worst case.
    pub told: bool,
    /// Elevation of the rim, meters.
    pub rim: f64,
    /// Elevation of the lowest underside of the shell, meters.
    pub underside: f64,
    /// Volume of the body below groundwater, m3.
    pub displaced: f64,
    /// Weight of the empty shell, kg; none where unknown, and then it counts as nothing.
    pub weight: Option<f64>,
    /// Water in it when it is full to the waterline, m3.
    pub full: f64,
    /// The least water that keeps it down.
    pub least: LeastWater,
    /// Depth of water over the deepest floor, meters, and the net uplift then, kg (negative where
    /// it is held down): from empty to full.
    pub by_depth: Vec<(f64, f64)>,
}

impl Uplift {
    /// Groundwater under a shell whose rim stands at an elevation.
    pub fn of(shell: &Shell, rim: f64, level: Level) -> Self {
        let (elevation, told) = match level {
            Level::Stated(elevation) => (elevation, true),
            Level::AtRim => (rim, false),
        };
        let waterline = shell.record.waterline;
        let deepest = shell.deepest();
        // Above the rim there is no more shell to lift.
        let below_rim = (rim - elevation).max(0.0);
        let displaced = shell.displacement_below(below_rim).max(0.0);
        let lifting = displaced * WATER_DENSITY - shell.record.weight.unwrap_or(0.0);
        let step = (deepest - waterline) / f64::from(PARTS);
        let by_depth = (0..=PARTS).map(|k| {
            let depth = step * f64::from(k);
            let held = shell.volume_below(deepest - depth) * WATER_DENSITY;
            (depth, lifting - held)
        });
        Self {
            level: elevation,
            told,
            rim,
            underside: rim - deepest - shell.record.wall_thickness,
            displaced,
            weight: shell.record.weight,
            full: shell.water_volume(),
            least: least_water(shell, lifting),
            by_depth: by_depth.collect(),
        }
    }

    /// What lifts the shell beyond its own weight with so much water in it, kg; negative where it
    /// is held down.
    pub fn net(&self, water: f64) -> f64 {
        (self.displaced - water) * WATER_DENSITY - self.weight.unwrap_or(0.0)
    }

    /// Whether the empty shell would float.
    pub fn floats_empty(&self) -> bool {
        self.net(0.0) > 0.0
    }

    /// How far groundwater stands above the lowest underside of the shell, meters.
    pub fn head(&self) -> f64 {
        (self.level - self.underside).max(0.0)
    }
}

/// The least water that outweighs a lift. What the shell holds grows with every bit of depth, so
/// that the depth is found by halving; the higher end is told, which holds enough.
fn least_water(shell: &Shell, lifting: f64) -> LeastWater {
    if lifting <= 0.0 {
        return LeastWater::None;
    }
    let held = |below_rim: f64| shell.volume_below(below_rim) * WATER_DENSITY;
    let (mut enough, mut too_little) = (shell.record.waterline, shell.deepest());
    if held(enough) < lifting {
        let wanting = lifting - held(enough);
        return LeastWater::MoreThanFull { wanting };
    }
    for _ in 0..HALVINGS {
        let middle = (enough + too_little) / 2.0;
        if held(middle) >= lifting {
            enough = middle;
        } else {
            too_little = middle;
        }
    }
    LeastWater::Standing {
        depth: shell.deepest() - enough,
        volume: shell.volume_below(enough),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::shell::catalogue;

    fn shells() -> Vec<Shell> {
        let all = catalogue::all().iter();
        all.map(|record| Shell::check(record).unwrap().0).collect()
    }

    /// The depth that was found gives back the very weight it was looked for.
    #[test]
    fn the_least_water_is_the_inverse_of_what_the_shell_holds() {
        for shell in shells() {
            for part in [0.05, 0.3, 0.7, 0.99] {
                let lifting = shell.water_volume() * WATER_DENSITY * part;
                let LeastWater::Standing { depth, volume } = least_water(&shell, lifting) else {
                    panic!("{part}");
                };
                assert!((volume * WATER_DENSITY / lifting - 1.0).abs() < 1e-9);
                assert!(volume * WATER_DENSITY >= lifting);
                let again = shell.volume_below(shell.deepest() - depth);
                assert!((again - volume).abs() < 1e-9);
            }
            assert_eq!(least_water(&shell, 0.0), LeastWater::None);
            let LeastWater::MoreThanFull { wanting } =
                least_water(&shell, shell.water_volume() * WATER_DENSITY + 50.0)
            else {
                panic!("full is not enough");
            };
            assert!((wanting - 50.0).abs() < 1e-6);
        }
    }

    #[test]
    fn higher_water_lifts_more_and_water_in_it_holds_it() {
        for shell in shells() {
            let mut before = f64::NEG_INFINITY;
            for level in [96.0, 98.5, 99.0, 99.5, 100.0] {
                let uplift = Uplift::of(&shell, 100.0, Level::Stated(level));
                assert!(uplift.net(0.0) >= before);
                before = uplift.net(0.0);
                let (first, last) = (uplift.by_depth[0], uplift.by_depth.last().unwrap());
                assert!((first.1 - uplift.net(0.0)).abs() < 1e-9);
                assert!((last.1 - uplift.net(uplift.full)).abs() < 1e-6);
                assert!(uplift.by_depth.windows(2).all(|w| w[1].1 <= w[0].1));
            }
            // Above the rim nothing more is displaced; unknown water is taken at the rim.
            let flood = Uplift::of(&shell, 100.0, Level::Stated(103.0));
            let rim = Uplift::of(&shell, 100.0, Level::AtRim);
            assert_eq!(flood.displaced, rim.displaced);
            assert!(!rim.told && flood.told);
            // Below the underside there is none.
            let dry = Uplift::of(&shell, 100.0, Level::Stated(rim.underside - 0.01));
            assert_eq!((dry.displaced, dry.head()), (0.0, 0.0));
            assert!(!dry.floats_empty() && rim.floats_empty());
        }
    }
}
