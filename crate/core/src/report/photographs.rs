//! The photographs of the yard, as the report lists them: where each was taken, which way it looks and what is said of it.
//! What they show is not in it.

use serde::Serialize;

use super::Figure;
use super::table::{Lean, columns, heading};
use crate::geom::Point;
use crate::math::wrap_turn;
use crate::site::{Photograph, Site, Stage};
use crate::units::{Measure, System, nearest_eighth};

/// A photograph of the yard. No figure of the report rests on it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PhotographFigures {
    /// Its number on plan and sheet, from 1.
    pub number: usize,
    /// Where it was taken from, site meters.
    pub at: Point,
    /// How far east of the site's origin that is.
    pub east: Figure,
    /// How far north of it.
    pub north: Figure,
    /// The bearing it looks along.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bearing: Option<Figure>,
    /// That bearing as one of the eight directions.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub toward: Option<&'static str>,
    /// The stage of the work that it shows.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stage: Option<Stage>,
    /// When it was taken.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub when: String,
    /// What is said of it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl PhotographFigures {
    /// Every photograph of a site, in the given units.
    pub fn all(site: &Site, system: System) -> Vec<Self> {
        let all = site.photographs.iter().enumerate();
        all.map(|(index, it)| Self::of(index + 1, it, system))
            .collect()
    }

    fn of(number: usize, it: &Photograph, system: System) -> Self {
        let length = |value| Figure::new(Measure::LongLength, value, system);
        Self {
            number,
            at: it.at,
            east: length(it.at.x),
            north: length(it.at.y),
            bearing: (it.bearing).map(|value| Figure::new(Measure::Heading, value, system)),
            toward: it.bearing.map(|value| nearest_eighth(wrap_turn(value))),
            stage: it.stage,
            when: it.when.clone(),
            note: it.note.clone(),
        }
    }
}

/// The part of the text report; nothing without photographs.
pub(super) fn text(photographs: &[PhotographFigures], out: &mut String) {
    if photographs.is_empty() {
        return;
    }
    heading(
        "Photographs, by where they were taken (east and north of the site's origin)",
        out,
    );
    let row = |it: &PhotographFigures| {
        let looks = it.toward.map_or_else(
            || "direction not entered".to_owned(),
            |it| format!("looking {it}"),
        );
        let said = [it.stage.map_or("", stage), &it.when, &it.note];
        let said: Vec<&str> = said.into_iter().filter(|it| !it.is_empty()).collect();
        vec![
            it.number.to_string(),
            it.east.shown.text.clone(),
            it.north.shown.text.clone(),
            looks,
            said.join(", "),
        ]
    };
    let rows: Vec<Vec<String>> = photographs.iter().map(row).collect();
    let leans = [
        Lean::Right,
        Lean::Right,
        Lean::Right,
        Lean::Left,
        Lean::Left,
    ];
    columns(2, &leans, &rows, out);
}

/// What a stage is called beside a photograph: there the lot as it was is what came before the work.
fn stage(stage: Stage) -> &'static str {
    match stage {
        Stage::Lot => "Before the work",
        _ => stage.words(),
    }
}
