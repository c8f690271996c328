//! Maps and lists of points as the page shows them before they come in, and the edit they make.

use batterboard_core::exchange::import::{
    Changes, Draft, Form, Placed, PlacedShape, Role, Settings, Shape, Spot, read,
};
use batterboard_core::finding::Finding;
use batterboard_core::session::Command;
use batterboard_core::site::Site;
use batterboard_core::units::{Measure, Shown, show};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::wasm_bindgen;

use crate::js::{Answer, made_by_page, to_js};
use crate::planner::Planner;

#[wasm_bindgen]
impl Planner {
    /// What is in a map or a list, and where it would lie on the site. Without settings, those
    /// that seem to be meant are taken.
    pub fn read_map(&self, text: &str, settings: Option<Ts<Settings>>) -> Answer<MapReading> {
        let site = self.session.site().site();
        let settings = settings.map(made_by_page).transpose()?;
        to_js(&match looked_at(text, site, settings) {
            Ok((draft, settings)) => MapReading::of(draft, settings, site),
            Err(findings) => MapReading {
                findings,
                ..MapReading::default()
            },
        })
    }

    /// The edit that brings a map or a list in, with a role for each thing by its word.
    pub fn bring_map(
        &self,
        text: &str,
        settings: Ts<Settings>,
        roles: Vec<String>,
    ) -> Answer<MapBrought> {
        let site = self.session.site().site();
        let settings = made_by_page(settings)?;
        let roles = roles.iter().map(|word| Role::named(word));
        let roles: Vec<Role> = roles.map(|it| it.unwrap_or(Role::LeaveOut)).collect();
        to_js(&match brought(text, site, settings, &roles) {
            Ok(brought) => brought,
            Err(findings) => MapBrought {
                told: Vec::new(),
                findings,
                command: None,
            },
        })
    }
}

fn looked_at(
    text: &str,
    site: &Site,
    settings: Option<Settings>,
) -> Result<(Draft, Settings), Vec<Finding>> {
    let draft = read(text, settings.and_then(|s| s.columns))?;
    let settings = settings.unwrap_or_else(|| {
        let mut proposed = draft.proposed;
        // A site that came from a survey has told its unit.
        if let (Form::Points, Some(grid), Some(_)) = (draft.form, site.grid, proposed.columns) {
            proposed.frame = grid.unit.into();
            proposed.heights = grid.unit;
        }
        proposed
    });
    Ok((draft, settings))
}

fn brought(
    text: &str,
    site: &Site,
    settings: Settings,
    roles: &[Role],
) -> Result<MapBrought, Vec<Finding>> {
    let (draft, settings) = looked_at(text, site, Some(settings))?;
    let mut changes = Changes::of(&draft, &settings, roles, site)?;
    Ok(MapBrought {
        told: core::mem::take(&mut changes.told),
        findings: core::mem::take(&mut changes.findings),
        command: Some(edit(changes)),
    })
}

/// The one edit that brings things in.
fn edit(changes: Changes) -> Command {
    let commands = [
        changes.origin.map(|it| Command::SetOrigin(Some(it))),
        changes.grid.map(Command::SetGrid),
        changes.lot.map(Command::SetLot),
        changes.features.map(Command::SetFeatures),
        changes.ground.map(Command::SetGround),
        changes.benchmark.map(|it| Command::SetBenchmark(Some(it))),
    ];
    Command::Together {
        label: "bring in".to_owned(),
        commands: commands.into_iter().flatten().collect(),
    }
}

/// What was found, for the page.
#[derive(Debug, Default, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct MapReading {
    /// None when nothing in the text can be used.
    #[tsify(type = "MapForm | null")]
    form: Option<Form>,
    #[tsify(type = "MapSettings | null")]
    settings: Option<Settings>,
    items: Vec<MapItem>,
    findings: Vec<Finding>,
}

/// What a thing is made of.
#[derive(Debug, Clone, Copy, Serialize, Tsify)]
#[serde(rename_all = "kebab-case")]
pub enum ItemForm {
    Points,
    Lines,
    Areas,
}

/// One thing that was found.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct MapItem {
    place: String,
    name: String,
    group: String,
    words: String,
    form: ItemForm,
    /// Area, or length of what has none; nothing of a point.
    size: Option<Shown>,
    /// The areas of its rings, where it has several.
    rings: Vec<String>,
    proposed: String,
    /// Its lines, each x, y, x, y ... in site meters; closed ones come back to their start.
    lines: Vec<Vec<f64>>,
    usable: bool,
}

impl MapReading {
    fn of(draft: Draft, settings: Settings, site: &Site) -> Self {
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
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct MapBrought {
    /// What will have happened, a sentence each.
    told: Vec<String>,
    findings: Vec<Finding>,
    /// None when a fault bars it.
    command: Option<Command>,
}
