//! What was found, in words: a card each, and a table.

use serde::Serialize;

use super::best::ShellFit;
use crate::site::CheckedSite;
use crate::units::{Measure, System, show};

/// A fit and its figures as text.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct FitCard {
    /// The fit, SI units.
    pub fit: ShellFit,
    /// Where its length points.
    pub bearing: String,
    /// The least room.
    pub room: String,
    /// From the water's edge to the nearest door.
    pub to_door: Option<String>,
    /// Area of the water.
    pub water: String,
    /// Volume of the hole in the bank.
    pub bank_cut: String,
    /// Earth left over, or brought.
    pub surplus: String,
    /// Fill under the deck and in its banks.
    pub fill: String,
    /// Sun on the water, where that was asked for.
    pub sun: Option<String>,
    /// At how many headings the shell fits anywhere.
    pub headings: String,
    /// How good it is for what was wanted; the greatest is the best.
    pub score: f64,
}

impl FitCard {
    /// A fit in units.
    pub fn of(fit: &ShellFit, system: System) -> Self {
        let text = |measure, value| show(measure, value, system).text;
        Self {
            bearing: text(Measure::Heading, fit.placement.heading),
            room: text(Measure::Length, fit.room),
            to_door: fit.to_door.map(|it| text(Measure::Length, it)),
            water: text(Measure::Area, fit.water),
            bank_cut: text(Measure::EarthVolume, fit.bank_cut),
            surplus: match fit.surplus >= 0.0 {
                true => format!("{} over", text(Measure::EarthVolume, fit.surplus)),
                false => format!("{} brought", text(Measure::EarthVolume, -fit.surplus)),
            },
            fill: text(Measure::EarthVolume, fit.fill),
            sun: fit.sun.map(|it| text(Measure::Hours, it)),
            headings: format!("{} of {} headings", fit.headings, fit.headings_of),
            score: fit.score,
            fit: fit.clone(),
        }
    }
}

/// What stands under every list of places.
pub const CAUTION: &str = "Places by the rules as entered, on this plan: no survey, no permit. The local authority's own rules \
     govern, and before anyone digs, the utility-locating service marks the lines in the ground.";

/// What was found as a table, the best first.
pub fn table(site: &CheckedSite, found: &[ShellFit], system: System) -> String {
    let mut text = format!("Where a shell fits: {}\n\n", site.site().name);
    if found.is_empty() {
        text += "No shell fits anywhere by the rules as entered.\n";
    }
    for (place, fit) in found.iter().enumerate() {
        let card = FitCard::of(fit, system);
        let at = fit.placement.at;
        let [east, north] = [at.x, at.y].map(|it| show(Measure::LongLength, it, system).text);
        let flipped = if fit.placement.mirrored {
            ", flipped"
        } else {
            ""
        };
        text += &format!(
            "{:>3}. {}{flipped}\n     middle {east} east, {north} north of the site's origin; its length points {}\n     \
             room {}: {}\n",
            place + 1,
            fit.name,
            card.bearing,
            card.room,
            fit.tightest,
        );
        if let Some(door) = &card.to_door {
            text += &format!("     water {door} from the house or its nearest door\n");
        }
        if let Some(sun) = &card.sun {
            text += &format!("     sun on the water {sun}\n");
        }
        text += &format!(
            "     hole {}; earth {}; fill {}; fits at {}\n",
            card.bank_cut, card.surplus, card.fill, card.headings
        );
    }
    text + "\n" + CAUTION + "\n"
}
