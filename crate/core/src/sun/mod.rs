//! The sun over the site: where it stands on a day, what shades the water, and for how long.
//!
//! | part | what it knows |
//! |---|---|
//! | `calendar` | a day and the offset of its clock from UTC, as people write them |
//! | `position` | where the sun stands, by the published algorithm |
//! | `casters` | what casts shade, and what cannot for want of a height |
//! | `shade` | the shade of a solid on a level plane, exact |
//! | `on_water` | the share of the water in sun through the day, and who takes it |
//! | `field` | hours of sun everywhere on the lot, on a grid: what the search promises by |
//! | `findings` | what is missing, and what was assumed |
//!
//! # What is exact
//! The shade of everything is swept along the shade of a meter and cut out of the water's edge; arcs are flattened as
//! the plan's are. Hours come from samples every [`on_water::STEP`] and at both ends of the day.
//!
//! # What it is not
//! Clear sky, a level horizon, the water flat at the waterline. A structure shades as a box to its height and a tree as
//! a solid crown. The sun's middle counts: there is no half shade.

mod calendar;
mod casters;
mod field;
mod findings;
mod on_water;
mod position;
mod shade;
#[cfg(test)]
mod tests;

pub use calendar::{SunDay, UtcOffset, clock};
pub use casters::{Caster, Casters};
pub use field::SunField;
pub use findings::no_place;
pub use on_water::{Moment, STEP, Sample, Shader, SunOnWater, moment, sun_on_water};
pub use position::{
    Circumstances, EarthPlace, HORIZON, Spell, SunPosition, spells, sun_at, sun_under,
};
pub use shade::{Light, Post, Solid};
