//! What groundwater has to say: a shell that would float, a hole that fills.

use crate::dig::Dig;
use crate::finding::{Finding, Topic};
use crate::groundwater::{LeastWater, Uplift};
use crate::site::{CheckedSite, SoilClass};
use crate::units::{Measure, show};

/// Water this little above a level is rounding, metres.
const HAIR: f64 = 1e-6;

const PLACE: &str = "/works/groundwater";

/// Cautions of a shell and its hole in groundwater.
pub(super) fn findings(site: &CheckedSite, dig: &Dig, uplift: &Uplift) -> Vec<Finding> {
    let system = site.site().display;
    let text = |measure, value| show(measure, value, system).text;
    let mut found = Vec::new();
    let mut caution = |code, message: String, remedy: String| {
        let topic = match code {
            "shell-floats-full" => Topic::Verdict,
            _ => Topic::Water,
        };
        let finding = Finding::caution(code, message, remedy);
        found.push(finding.about(topic).under(PLACE));
    };
    let level = text(Measure::Elevation, uplift.level);
    let underside = text(Measure::Elevation, uplift.underside);
    if !uplift.told {
        caution(
            "groundwater-unknown",
            "How high groundwater stands is not known. Uplift and the least water in the shell are \
             told for groundwater at the rim, the worst case."
                .to_owned(),
            "Find out how high it stands at its highest in the year: by a test hole, from wells \
             near by, from those who dug there. Enter it with the dig."
                .to_owned(),
        );
    }
    if uplift.floats_empty() {
        let lift = text(Measure::Weight, uplift.net(0.0));
        let standing = match uplift.told {
            true => format!("With groundwater at {level} the empty shell is"),
            false => format!("With groundwater at the rim, {level}, the empty shell would be"),
        };
        let keep = match uplift.least {
            LeastWater::Standing { depth, volume } => format!(
                "At least {} of water has to stand over its deepest floor, {} in all.",
                text(Measure::Length, depth),
                text(Measure::WaterVolume, volume)
            ),
            LeastWater::None | LeastWater::MoreThanFull { .. } => {
                "It has to stay full to the waterline.".to_owned()
            }
        };
        caution(
            "shell-floats-empty",
            format!("{standing} lifted by {lift} more than it weighs."),
            format!(
                "{keep} Only professionals empty a shell, never over high groundwater: they draw \
                 it down below {underside} first, by the dewatering pipe, and keep it there until \
                 the shell is full again."
            ),
        );
    }
    if let LeastWater::MoreThanFull { wanting } = uplift.least {
        caution(
            "shell-floats-full",
            format!(
                "With groundwater at {level} even the full shell is lifted by {} more than shell \
                 and water weigh.",
                text(Measure::Weight, wanting)
            ),
            "Have an engineer say what holds it: collar, deck and backfill are not counted here. \
             Plan how groundwater is kept lower."
                .to_owned(),
        );
    }
    if uplift.told && uplift.level > uplift.rim + HAIR {
        caution(
            "groundwater-above-rim",
            format!("Groundwater at {level} stands above the rim."),
            "Check the elevation; raise the shell, or have an engineer plan how the water is led \
             away."
                .to_owned(),
        );
    }
    let stands = uplift.level - dig.bottom_elevation;
    if uplift.told && stands > HAIR && dig.bank_volume > 0.0 {
        caution(
            "groundwater-in-dig",
            format!(
                "Groundwater stands up to {} above the lowest point of the hole.",
                text(Measure::Length, stands)
            ),
            format!(
                "It is drawn down below {} and kept there while anyone works in the hole; a \
                 competent person looks at the sides again each time the water has moved.",
                text(Measure::Elevation, dig.bottom_elevation)
            ),
        );
        let flattest = SoilClass::C.side_slope();
        if dig.side_slope < flattest - HAIR || site.site().works.dig.soil != SoilClass::C {
            caution(
                "wet-soil",
                "Soil under water, or from which water seeps freely, is Type C by the standard \
                 (29 CFR 1926 Subpart P App. A), whatever it is when dry; the sides are planned \
                 for better soil."
                    .to_owned(),
                "Plan the sides for Type C, or the shoring or shielding that holds them; a \
                 competent person classifies the soil on the site."
                    .to_owned(),
            );
        }
    }
    if uplift.weight.is_none() {
        found.push(
            Finding::note(
                "shell-weight-unknown",
                "The weight of the empty shell is not known: it counts as nothing against uplift.",
                "Ask its maker and enter it with the shell.",
            )
            .about(Topic::Water)
            .under("/placement/shell"),
        );
    }
    found
}
