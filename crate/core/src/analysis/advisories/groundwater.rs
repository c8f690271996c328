//! What groundwater has to say: a shell that would float, a hole that fills.

use crate::dig::Dig;
use crate::finding::said;
use crate::finding::{Entry, Finding, Message, Topic};
use crate::groundwater::{LeastWater, Uplift};
use crate::site::{CheckedSite, SoilClass};
use crate::units::{Measure, show};

/// Water this little above a level is rounding, meters.
const HAIR: f64 = 1e-6;

const PLACE: &str = "/works/groundwater";

/// Cautions of a shell and its hole in groundwater.
pub(super) fn findings(site: &CheckedSite, dig: &Dig, uplift: &Uplift) -> Vec<Finding> {
    let system = site.site().display;
    let text = |measure, value| show(measure, value, system).text;
    let mut found = Vec::new();
    let mut caution = |code, message: Message, remedy: Message| {
        let topic = match code {
            "shell-floats-full" => Topic::Verdict,
            _ => Topic::Water,
        };
        let finding = Finding::caution(code, message, remedy);
        let finding = finding.about(topic).under(PLACE);
        found.push(finding.entered_at(Entry::Groundwater));
    };
    let level = text(Measure::Elevation, uplift.level);
    let underside = text(Measure::Elevation, uplift.underside);
    // A worst case says so in its first words.
    let standing = match uplift.told {
        true => said!("With groundwater at {level}", level = level.clone()),
        false => said!(
            "If groundwater stood at the rim ({level}, the worst case)",
            level = level.clone(),
        ),
    };
    let lifted = match uplift.told {
        true => "is lifted by",
        false => "would be lifted by",
    };
    if !uplift.told {
        caution(
            "groundwater-unknown",
            "The groundwater level is not entered: uplift and the least water in the shell assume \
             groundwater at the rim (worst case)."
                .into(),
            "Find its highest level of the year, by a test hole or from nearby wells, and enter \
             it under Dig."
                .into(),
        );
    }
    if uplift.floats_empty() {
        let lift = text(Measure::Weight, uplift.net(0.0));
        let keep = match uplift.least {
            LeastWater::Standing { depth, volume } => said!(
                "Keep at least {depth} of water over its deepest floor, {volume} in total",
                depth = text(Measure::Length, depth),
                volume = text(Measure::WaterVolume, volume),
            ),
            LeastWater::None | LeastWater::MoreThanFull { .. } => {
                said!("Keep it full to the waterline")
            }
        };
        caution(
            "shell-floats-empty",
            said!(
                "{standing}, the empty shell {lifted} {lift} more than it weighs.",
                standing = standing.clone(),
                lifted = lifted,
                lift = lift,
            ),
            said!(
                "{keep}; only professionals empty a shell, with groundwater first drawn down below \
                 {underside} by the dewatering pipe and kept there until it is full again.",
                keep = keep,
                underside = underside,
            ),
        );
    }
    if let LeastWater::MoreThanFull { wanting } = uplift.least {
        // Only a level that somebody entered bears on whether the shell may stand there.
        caution(
            match uplift.told {
                true => "shell-floats-full",
                false => "shell-would-float-full",
            },
            said!(
                "{standing}, even the full shell {lifted} {lift} more than shell and water weigh.",
                standing = standing,
                lifted = lifted,
                lift = text(Measure::Weight, wanting),
            ),
            "Have an engineer say what holds it down (collar, deck and backfill are not counted \
             here), and plan how groundwater is kept lower."
                .into(),
        );
    }
    if uplift.told && uplift.level > uplift.rim + HAIR {
        caution(
            "groundwater-above-rim",
            said!("Groundwater at {level} is above the rim.", level = level),
            "Check the elevation; raise the shell, or have an engineer plan the drainage.".into(),
        );
    }
    let stands = uplift.level - dig.bottom_elevation;
    if uplift.told && stands > HAIR && dig.bank_volume > 0.0 {
        caution(
            "groundwater-in-dig",
            said!(
                "Groundwater stands up to {height} above the bottom of the dig.",
                height = text(Measure::Length, stands),
            ),
            said!(
                "Draw it down below {level} and keep it there while anyone works in the hole; have a \
                 competent person inspect the sides again each time the level has moved.",
                level = text(Measure::Elevation, dig.bottom_elevation),
            ),
        );
        let flattest = SoilClass::C.side_slope();
        if dig.side_slope < flattest - HAIR || site.site().works.dig.soil != SoilClass::C {
            caution(
                "wet-soil",
                "The sides are planned for better soil than Type C, and soil under water or from \
                 which water seeps freely is Type C whatever it is when dry."
                    .into(),
                "Plan the sides for Type C, or the shoring or shielding that holds them, and have \
                 a competent person classify the soil on the site (29 CFR 1926 Subpart P App. A)."
                    .into(),
            );
        }
    }
    if uplift.weight.is_none() {
        found.push(
            Finding::note(
                "shell-weight-unknown",
                "The weight of the empty shell is not entered: it counts as zero against uplift.",
                "Ask its manufacturer and enter it with the shell.",
            )
            .about(Topic::Water)
            .under("/placement/shell"),
        );
    }
    found
}
