//! The finished ground and the pile of spoil, in figures.

use serde::Serialize;

use super::Figure;
use super::table::{heading, pairs};
use crate::analysis::Analysis;
use crate::geom::Point;
use crate::grading::{Bank, Grading, Height, against};
use crate::site::CheckedSite;
use crate::stockpile::{Chosen, Stockpile};
use crate::units::{Measure, System};

/// The finished ground round a placed shell.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GradingFigures {
    /// How far the deck's edge stands above the ground where it stands highest.
    pub stands: Option<HeightFigures>,
    /// How far the ground stands above the deck's edge where it stands highest.
    pub lies: Option<HeightFigures>,
    /// How far the banks of fill run.
    pub fill_reach: Option<HeightFigures>,
    /// How far the banks of cut run.
    pub cut_reach: Option<HeightFigures>,
    /// Where the banks of fill meet the ground, site meters.
    pub toe: Vec<Vec<Point>>,
    /// Where the banks of cut meet the ground, site meters.
    pub crest: Vec<Vec<Point>>,
    /// The coping against what stands and lies round it.
    pub against: Vec<AgainstFigures>,
}

/// A height or a distance and its place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HeightFigures {
    /// How much.
    pub length: Figure,
    /// Where, site meters.
    pub at: Point,
}

/// The coping against one level.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AgainstFigures {
    /// What the level is.
    pub what: String,
    /// Its elevation.
    pub level: Figure,
    /// How far the coping stands above it; negative when below.
    pub coping_above: Figure,
    /// Where, site meters, if it has a place.
    pub at: Option<Point>,
}

/// The pile of spoil.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PileFigures {
    /// Its volume, loose.
    pub loose: Figure,
    /// How wide it is.
    pub across: Figure,
    /// How high it stands.
    pub height: Figure,
    /// Its middle, site meters; none where it fits nowhere.
    pub at: Option<Point>,
    /// Who chose the place, in words.
    pub chosen: &'static str,
}

impl GradingFigures {
    pub(super) fn of(
        site: &CheckedSite,
        analysis: &Analysis,
        grading: &Grading,
        system: System,
    ) -> Self {
        let length = |metres| Figure::new(Measure::Length, metres, system);
        let height = |it: Height| HeightFigures {
            length: length(it.height),
            at: it.at,
        };
        let reach = |it: &Bank| {
            (it.reach > 0.0).then(|| HeightFigures {
                length: length(it.reach),
                at: it.at,
            })
        };
        let dig = analysis.dig.as_ref();
        let rows = dig.map(|dig| against(site, &analysis.work, dig, grading));
        let row = |it: crate::grading::Against| AgainstFigures {
            level: Figure::new(Measure::Elevation, it.level, system),
            coping_above: length(it.coping_above),
            what: it.what,
            at: it.at,
        };
        Self {
            stands: grading.stands.map(height),
            lies: grading.lies.map(height),
            fill_reach: reach(&grading.toe),
            cut_reach: reach(&grading.crest),
            toe: grading.toe.lines.clone(),
            crest: grading.crest.lines.clone(),
            against: rows.into_iter().flatten().map(row).collect(),
        }
    }
}

impl PileFigures {
    pub(super) fn of(pile: &Stockpile, system: System) -> Self {
        let length = |metres| Figure::new(Measure::Length, metres, system);
        Self {
            loose: Figure::new(Measure::EarthVolume, pile.heap.volume, system),
            across: length(2.0 * pile.heap.radius),
            height: length(pile.heap.height),
            at: pile.at,
            chosen: match (pile.at, pile.chosen) {
                (None, _) => "fits nowhere on the lot",
                (_, Chosen::ByHand) => "placed by hand",
                (_, Chosen::InSpace) => "in the room drawn for it",
                (_, Chosen::Nearest) => "nearest to the shell where it fits",
            },
        }
    }
}

/// Both, where there are any.
pub(super) fn of(
    site: &CheckedSite,
    analysis: &Analysis,
    system: System,
) -> (Option<GradingFigures>, Option<PileFigures>) {
    let grading = analysis.grading.as_ref();
    let pile = analysis.stockpile.as_ref();
    (
        grading.map(|it| GradingFigures::of(site, analysis, it, system)),
        pile.map(|it| PileFigures::of(it, system)),
    )
}

/// The part of the text report.
pub(super) fn text(grading: Option<&GradingFigures>, pile: Option<&PileFigures>, out: &mut String) {
    if let Some(grading) = grading {
        heading("Grading", out);
        let none = "nowhere".to_owned();
        let told = |it: &Option<HeightFigures>| {
            it.as_ref()
                .map_or_else(|| none.clone(), |it| it.length.both())
        };
        let mut lines = vec![
            (
                "Deck edge above existing grade, at most",
                told(&grading.stands),
            ),
            (
                "Existing grade above deck edge, at most",
                told(&grading.lies),
            ),
            ("Fill slopes run out", told(&grading.fill_reach)),
            ("Cut slopes run out", told(&grading.cut_reach)),
        ];
        let against: Vec<(String, String)> = grading
            .against
            .iter()
            .map(|row| {
                let (above, level) = (row.coping_above.value, row.level.shown.text.as_str());
                let step = row.coping_above.step();
                let side = if above < 0.0 { "below" } else { "above" };
                (
                    format!("Coping against the {}", row.what),
                    format!("{step} {side} {level}"),
                )
            })
            .collect();
        lines.extend(
            against
                .iter()
                .map(|(name, text)| (name.as_str(), text.clone())),
        );
        pairs(&lines, out);
    }
    if let Some(pile) = pile {
        heading("Spoil pile", out);
        pairs(
            &[
                ("Loose volume", pile.loose.both()),
                ("Across", pile.across.both()),
                ("Height", pile.height.both()),
                ("Place", pile.chosen.to_owned()),
            ],
            out,
        );
    }
}
