//! Maps, lists of points and surveys as they are looked at before they come in, and the edit they make.

use serde::Serialize;

use super::Command;
use crate::exchange::import::{
    Changes, Draft, Form, Placed, PlacedShape, Role, Settings, Shape, Spot,
};
use crate::finding::Finding;
use crate::site::Site;
use crate::units::{Measure, Shown, show};

/// What was found in a text, as it is looked at before anything of it comes in.
#[derive(Debug, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct MapReading {
    /// None when nothing in the text can be used.
    #[cfg_attr(feature = "typescript", tsify(type = "MapForm | null"))]
    pub form: Option<Form>,
    /// How it is meant.
    #[cfg_attr(feature = "typescript", tsify(type = "MapSettings | null"))]
    pub settings: Option<Settings>,
    /// Everything in it.
    pub items: Vec<MapItem>,
    /// What is wrong or worth knowing.
    pub findings: Vec<Finding>,
}

/// What a thing is made of.
#[derive(Debug, Clone, Copy, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ItemForm {
    /// Points.
    Points,
    /// Open lines.
    Lines,
    /// Closed areas.
    Areas,
}

/// One thing that was found.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct MapItem {
    /// Where in the text it stands.
    place: String,
    /// Its name.
    name: String,
    /// What it belongs to there.
    group: String,
    /// What is said of it.
    words: String,
    /// What it is made of.
    form: ItemForm,
    /// Area, or length of what has none; nothing of a point.
    size: Option<Shown>,
    /// The areas of its rings, where it has several.
    rings: Vec<String>,
    /// What it is proposed to be.
    proposed: String,
    /// Its lines, each x, y, x, y ... in site meters; closed ones come back to their start.
    lines: Vec<Vec<f64>>,
    /// Whether it can come in at all.
    usable: bool,
}

impl MapReading {
    /// A text of which nothing can be used.
    pub fn refused(findings: Vec<Finding>) -> Self {
        Self {
            findings,
            ..Self::default()
        }
    }

    /// What is in a draft, as it would lie on a site.
    pub fn of(draft: Draft, settings: Settings, site: &Site) -> Self {
        let placed = Placed::of(&draft, &settings, &[], site);
        let shown = |measure, value| show(measure, value, site.display);
        let items = draft
            .items
            .into_iter()
            .zip(placed.items)
            .map(|(item, on_site)| MapItem {
                place: item.place,
                name: item.name,
                group: item.group,
                words: item.words,
                form: match item.shape {
                    Shape::Points(_) => ItemForm::Points,
                    Shape::Lines(_) => ItemForm::Lines,
                    Shape::Areas(_) => ItemForm::Areas,
                },
                size: if on_site.area > 0.0 {
                    Some(shown(Measure::Area, on_site.area))
                } else if on_site.length > 0.0 {
                    Some(shown(Measure::LongLength, on_site.length))
                } else {
                    None
                },
                rings: rings(on_site.shape.as_ref(), &shown),
                proposed: on_site.proposed.word(),
                usable: on_site.shape.is_some(),
                lines: on_site.shape.as_ref().map(lines).unwrap_or_default(),
            })
            .collect();
        let mut findings = draft.findings;
        findings.extend(placed.findings);
        Self {
            form: Some(draft.form),
            settings: Some(settings),
            items,
            findings,
        }
    }
}

/// The length round each ring, where there are several.
fn rings(shape: Option<&PlacedShape>, shown: &dyn Fn(Measure, f64) -> Shown) -> Vec<String> {
    let Some(Shape::Areas(pieces)) = shape else {
        return Vec::new();
    };
    let all: Vec<_> = pieces.iter().flat_map(|p| p.rings()).collect();
    if all.len() < 2 {
        return Vec::new();
    }
    let round = |ring: &&Vec<_>| -> String {
        let ring: &Vec<Spot> = ring;
        let next = ring.iter().cycle().skip(1);
        let length = ring
            .iter()
            .zip(next)
            .map(|(a, b)| a.at.distance(b.at))
            .sum();
        shown(Measure::LongLength, length).text
    };
    all.iter().map(round).collect()
}

fn lines(shape: &PlacedShape) -> Vec<Vec<f64>> {
    let flat = |chain: &[Spot], closed: bool| {
        let back = chain.first().filter(|_| closed);
        chain
            .iter()
            .chain(back)
            .flat_map(|s| [s.at.x, s.at.y])
            .collect()
    };
    match shape {
        Shape::Points(points) => points.iter().map(|p| vec![p.at.x, p.at.y]).collect(),
        Shape::Lines(lines) => lines.iter().map(|l| flat(l, false)).collect(),
        Shape::Areas(pieces) => pieces
            .iter()
            .flat_map(|p| p.rings())
            .map(|r| flat(r, true))
            .collect(),
    }
}

/// What would come in.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
pub struct MapBrought {
    /// What will have happened, a sentence each.
    pub told: Vec<String>,
    /// What is wrong or worth knowing.
    pub findings: Vec<Finding>,
    /// The one edit that brings it in; none when a fault bars it.
    pub command: Option<Command>,
}

impl MapBrought {
    /// What would come in of a draft, with a role for each thing by its word; `complete` adds what a draft cannot hold.
    pub fn of(
        draft: &Draft,
        settings: &Settings,
        roles: &[String],
        site: &Site,
        complete: impl FnOnce(&mut Changes, &[Role]),
    ) -> Self {
        let roles = roles.iter().map(|word| Role::named(word));
        let roles: Vec<Role> = roles.map(|it| it.unwrap_or(Role::LeaveOut)).collect();
        let mut changes = match Changes::of(draft, settings, &roles, site) {
            Ok(changes) => changes,
            Err(findings) => return Self::refused(findings),
        };
        complete(&mut changes, &roles);
        Self {
            told: core::mem::take(&mut changes.told),
            findings: core::mem::take(&mut changes.findings),
            command: Some(changes.into()),
        }
    }

    /// Nothing comes in.
    pub const fn refused(findings: Vec<Finding>) -> Self {
        Self {
            told: Vec::new(),
            findings,
            command: None,
        }
    }
}

/// The settings that seem to be meant: a site that came from a survey has told its unit.
pub fn proposed(draft: &Draft, site: &Site) -> Settings {
    let mut proposed = draft.proposed;
    if let (Form::Points, Some(grid), Some(_)) = (draft.form, site.grid, proposed.columns) {
        proposed.frame = grid.unit.into();
        proposed.heights = grid.unit;
    }
    proposed
}
